"""The cabinet: heat through faces, bridges, gasket, leaks, drain and door, and contents."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.moist_air import density, humidity_ratio
from coldwright.heat.leakage import (
    door_air_exchanged,
    door_exchange_flow,
    stack_openings,
    stack_outflow,
)
from coldwright.parts.cabinet_faces import Face, inside_area
from coldwright.parts.conditions import Surroundings
from coldwright.parts.moisture import (
    EVAPORATION_AT_FREEZING,
    SUBLIMATION,
    contents_evaporation,
)

SECONDS_PER_DAY = 86400.0
SHARP_DISCHARGE = 0.61
DRY_AIR_SPECIFIC_HEAT, VAPOUR_SPECIFIC_HEAT = 1006.0, 1860.0
"""[J/kgK], ASHRAE Fundamentals, psychrometrics (from memory)."""


def _one() -> Array:
    return lanes(1.0)


def _none() -> Array:
    return lanes(0.0)


def _freezing() -> Array:
    return lanes(273.15)


@dataclass(frozen=True, kw_only=True)
class Cabinet:
    """The cabinet, one value per lane.

    faces (see `cabinet_faces.box_faces`); bridge_conductance: frames, straps and pipes [W/K];
    gasket_length [m], gasket_conductance [W/mK]; leakage_area_low, leakage_area_high: of the gaps
    in the lower and upper half [m2], leakage_height between their middles [m]; drain_area: of an
    open drain [m2] (0 for none or a trapped one), drain_depth below the upper gaps [m];
    inside_air_volume: contents taken off [m3]; door: openings per day [-], open time of each [s],
    area [m2], height [m] (0 for a lid: cold air stays in);
    contents_heat: respiration, lamps [W]; contents_moisture at 80 % humidity [kg/s];
    warm load, as a daily mean: capacity flow (mass x specific heat / day) [W/K], temperature [K].
    conductance_multiplier corrects faces, bridges and gasket by what a bench shows.
    """

    faces: tuple[Face, ...]
    inside_air_volume: Array
    gasket_length: Array
    gasket_conductance: Array
    leakage_area_low: Array
    leakage_area_high: Array
    leakage_height: Array
    drain_area: Array = field(default_factory=_none)
    drain_depth: Array = field(default_factory=_none)
    bridge_conductance: Array = field(default_factory=_none)
    door_openings_per_day: Array = field(default_factory=_none)
    door_open_time: Array = field(default_factory=_none)
    door_area: Array = field(default_factory=_none)
    door_height: Array = field(default_factory=_none)
    contents_heat: Array = field(default_factory=_none)
    contents_moisture: Array = field(default_factory=_none)
    warm_load_capacity_flow: Array = field(default_factory=_none)
    warm_load_temperature: Array = field(default_factory=_freezing)
    conductance_multiplier: Array = field(default_factory=_one)

    @cached_property
    def lower_openings(self) -> tuple[Array, Array]:
        """What gaps and drain let out below the neutral level [m^2.5] (`stack_openings`)."""
        low, high, drain = stack_openings(
            (self.leakage_area_low, self.leakage_area_high, self.drain_area),
            (-self.leakage_height, lanes(0.0), -self.drain_depth),
        )
        return lanes(low + high), drain

    @property
    def liner_area(self) -> Array:
        """Area of the inside skin [m2]."""
        return inside_area(self.faces)

    @property
    def bridge_and_gasket(self) -> tuple[Array, Array]:
        """Conductances [W/K] of thermal bridges and of the gasket."""
        gasket = self.gasket_length * self.gasket_conductance
        multiplier = self.conductance_multiplier
        return lanes(self.bridge_conductance * multiplier), lanes(gasket * multiplier)

    @property
    def still_conductance(self) -> Array:
        """Sum of faces, bridges and gasket [W/K]: the cabinet with door and gaps shut."""
        faces = sum((face.conductance for face in self.faces), start=lanes(0.0))
        bridges, gasket = self.bridge_and_gasket
        return lanes(faces * self.conductance_multiplier + bridges + gasket)


@dataclass(frozen=True)
class AirExchange:
    """Dry air [kg/s] out through gaps, out through a drain and, as a daily mean, the door."""

    leakage: Array
    drain: Array
    doors: Array
    room_humidity_ratio: Array

    @property
    def total(self) -> Array:
        """Dry air exchanged [kg/s]."""
        return lanes(self.leakage + self.drain + self.doors)

    @property
    def specific_heat(self) -> Array:
        """Specific heat of the air that comes in, per kilogram of dry air [J/kgK]."""
        return lanes(DRY_AIR_SPECIFIC_HEAT + VAPOUR_SPECIFIC_HEAT * self.room_humidity_ratio)


@dataclass(frozen=True)
class HeatGain:
    """Heat into the cabinet [W] by where it comes in; moisture_flow: vapour to be settled [kg/s].

    leakage, drain and doors are the sensible parts, of the air that leaves there; latent is that of
    all moisture (air exchanged, contents); contents is what they give to the air (their evaporation
    takes its heat from them).
    liner_temperature: area mean of the inside skin [K].
    """

    by_face: Mapping[str, Array]
    bridges: Array
    gasket: Array
    leakage: Array
    drain: Array
    doors: Array
    contents: Array
    latent: Array
    total: Array
    moisture_flow: Array
    liner_temperature: Array


def air_exchange(
    cabinet: Cabinet,
    air_temperature: FloatOrArray,
    surroundings: Surroundings,
    inside_humidity_ratio: FloatOrArray,
) -> AirExchange:
    """Air through gaps and drain (stack effect) and door (exchange by buoyancy), by densities."""
    pressure = surroundings.atmospheric_pressure
    room = surroundings.room_temperature
    room_ratio = humidity_ratio(room, surroundings.relative_humidity, pressure)
    inside = density(air_temperature, inside_humidity_ratio, pressure)
    outside = density(room, room_ratio, pressure)
    gaps, drain = cabinet.lower_openings
    # what leaves low is made up from the room's air above
    per_opening = (
        stack_outflow(1.0, SHARP_DISCHARGE, inside, outside) * outside / (1.0 + room_ratio)
    )
    flow = door_exchange_flow(cabinet.door_area, cabinet.door_height, inside, outside)
    lost = door_air_exchanged(flow, cabinet.door_open_time, cabinet.inside_air_volume)
    doors = lost * cabinet.door_openings_per_day / SECONDS_PER_DAY
    return AirExchange(
        leakage=lanes(gaps * per_opening),
        drain=lanes(drain * per_opening),
        # the denser air, which falls out, is the box's own
        doors=lanes(doors * np.maximum(inside, outside) / (1.0 + inside_humidity_ratio)),
        room_humidity_ratio=room_ratio,
    )


def face_heat(
    cabinet: Cabinet,
    face: Face,
    air_temperature: FloatOrArray,
    surroundings: Surroundings,
    liner_radiation: FloatOrArray,
) -> tuple[Array, Array]:
    """Heat [W] through one face, and its inside skin's temperature [K].

    liner_radiation: heat that the whole inside skin radiates to the cold surface [W]; each
    face gives its share by area, which cools it and draws more heat in from outside.
    """
    share = face.area / cabinet.liner_area * liner_radiation
    conductance = face.conductance * cabinet.conductance_multiplier
    across = surroundings.temperature_of(face.adjoining) - air_temperature
    heat = conductance * (across + face.inside_resistance * share)
    return lanes(heat), lanes(air_temperature + face.inside_resistance * (heat - share))


def heat_gain(
    cabinet: Cabinet,
    air_temperature: FloatOrArray,
    surroundings: Surroundings,
    inside_humidity_ratio: FloatOrArray,
    *,
    latent_heat_per_mass: FloatOrArray = SUBLIMATION,
    liner_radiation: FloatOrArray = 0.0,
) -> HeatGain:
    """Heat [W] that comes into the cabinet at an inside air temperature [K].

    inside_humidity_ratio [kg/kg]; latent_heat_per_mass: of what settles on the cold surface [J/kg],
    ice unless given; liner_radiation: heat that goes from the inside skin straight to the cold
    surface [W], part of the total. Gains are negative where the inside is the warmer.
    """
    by_face = {}
    liner = lanes(0.0)
    for face in cabinet.faces:
        by_face[face.name], skin = face_heat(
            cabinet, face, air_temperature, surroundings, liner_radiation
        )
        liner = lanes(liner + skin * face.area / cabinet.liner_area)
    across = surroundings.room_temperature - lanes(air_temperature)
    bridge_conductance, gasket_conductance = cabinet.bridge_and_gasket
    exchange = air_exchange(cabinet, air_temperature, surroundings, inside_humidity_ratio)
    drier = exchange.room_humidity_ratio - inside_humidity_ratio
    saturated = humidity_ratio(air_temperature, 1.0, surroundings.atmospheric_pressure)
    evaporation = contents_evaporation(cabinet.contents_moisture, inside_humidity_ratio, saturated)
    moisture = np.maximum(exchange.total * drier + evaporation, 0.0)
    warm_load = cabinet.warm_load_capacity_flow * (cabinet.warm_load_temperature - air_temperature)
    contents = cabinet.contents_heat + warm_load
    contents = contents - evaporation * EVAPORATION_AT_FREEZING
    bridges, gasket = bridge_conductance * across, gasket_conductance * across
    leakage = exchange.leakage * exchange.specific_heat * across
    drain = exchange.drain * exchange.specific_heat * across
    doors = exchange.doors * exchange.specific_heat * across
    latent = moisture * latent_heat_per_mass
    faces = sum(by_face.values(), start=lanes(0.0))
    return HeatGain(
        by_face=by_face,
        bridges=lanes(bridges),
        gasket=lanes(gasket),
        leakage=lanes(leakage),
        drain=lanes(drain),
        doors=lanes(doors),
        contents=lanes(contents),
        latent=lanes(latent),
        total=lanes(faces + bridges + gasket + leakage + drain + doors + contents + latent),
        moisture_flow=lanes(moisture),
        liner_temperature=liner,
    )


def outside_skin_temperatures(
    cabinet: Cabinet, gain: HeatGain, surroundings: Surroundings
) -> dict[str, Array]:
    """Mean temperature [K] of each face's outside, by name, to be held against the dew point.

    Beside a gasket or a bridge the skin is colder than the mean of its face.
    """
    return {
        face.name: lanes(
            surroundings.temperature_of(face.adjoining)
            - gain.by_face[face.name] * face.outside_resistance
        )
        for face in cabinet.faces
    }
