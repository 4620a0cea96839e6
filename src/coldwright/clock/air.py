"""The stored air on the clock: its humidity, the gaps, and what an opened door lets in."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from coldwright.arrays import Array
from coldwright.clock.network import AIR
from coldwright.clock.plant import ClockPlant, Moment, Openings, Outside
from coldwright.fluids.moist_air import density, humidity_ratio
from coldwright.fluids.refrigerants import Refrigerant
from coldwright.heat.leakage import door_air_exchanged, door_exchange_flow, stack_outflow
from coldwright.parts.cabinet import (
    DRY_AIR_SPECIFIC_HEAT,
    SHARP_DISCHARGE,
    VAPOUR_SPECIFIC_HEAT,
)
from coldwright.parts.moisture import USUAL_DEFICIT, deposit_latent_heat

LEAST_HUMIDITY = 1e-6


@dataclass(frozen=True)
class SaturationLine:
    """Humidity ratio [kg/kg] of saturated air at one pressure, every quarter of a kelvin.

    Straight between: within 0.005 % of `moist_air.humidity_ratio`.
    """

    temperatures: Array
    ratios: Array

    @classmethod
    def at(cls, pressure: float) -> SaturationLine:
        """The line from 205 to 345 K."""
        temperatures = np.arange(205.0, 345.0, 0.25)
        return cls(temperatures, humidity_ratio(temperatures, 1.0, pressure))

    def __call__(self, temperature: Array) -> Array:
        """Saturated humidity ratio at a temperature [K], held at the ends."""
        return np.asarray(np.interp(temperature, self.temperatures, self.ratios))


@dataclass(frozen=True)
class PressureLine:
    """Logarithm of a refrigerant's saturation pressure [Pa], every quarter of a kelvin.

    Straight between: within 0.01 %.
    """

    temperatures: Array
    logarithms: Array

    @classmethod
    def of(cls, fluid: Refrigerant) -> PressureLine:
        """Over all that the fluid's tables hold."""
        least, greatest = fluid.least_temperature + 0.1, fluid.greatest_temperature - 0.1
        temperatures = np.linspace(least, greatest, int(4.0 * (greatest - least)) + 2)
        return cls(temperatures, np.log(fluid.saturation_pressure(temperatures)))

    def __call__(self, temperature: Array) -> Array:
        """Its logarithm at a temperature [K], held at the ends."""
        return np.asarray(np.interp(temperature, self.temperatures, self.logarithms))


@dataclass(frozen=True)
class Lines:
    """What is read off a line at every step: the air's moisture, the refrigerant's pressure."""

    moisture: SaturationLine
    pressure: PressureLine

    @classmethod
    def of(cls, plant: ClockPlant) -> Lines:
        """Those of a plant."""
        moisture = SaturationLine.at(float(plant.pressure[0]))
        return cls(moisture, PressureLine.of(plant.refrigerant))


@dataclass(frozen=True)
class Moisture:
    """Of one step: humidity at its end; what settles [kg/s]; goods' vapour [kg/s]; latent [W]."""

    humidity: Array
    settled: Array
    given_off: Array
    latent: Array


def moisture_of(
    plant: ClockPlant,
    line: SaturationLine,
    moment: Moment,
    outside: Outside,
    surface: Array,
    air: Array,
    deposition: Array,
    step: Array,
) -> Moisture:
    """Moisture over `step` [s] at a cold surface and a stored air [K] of its middle.

    Exponential approach to the humidity at which as much settles as comes in. Frost that lies in
    air drier than itself gives vapour back, no more than there is.
    """
    on_surface = line(surface)
    by_goods = plant.contents_moisture / USUAL_DEFICIT
    drying = by_goods / line(air)
    draws = np.where((moment.humidity > on_surface) | (moment.frost > 0.0), deposition, 0.0)
    drawn = outside.leakage + drying + draws
    brought = outside.leakage * outside.humidity + by_goods + draws * on_surface
    rest = brought / np.maximum(drawn, 1e-12)
    z = np.maximum(drawn * step / plant.air_mass, 1e-9)
    mean = rest - (moment.humidity - rest) * np.expm1(-z) / z
    after = rest + (moment.humidity - rest) * np.exp(-z)
    settled = np.maximum(draws * (mean - on_surface), -moment.frost / step)
    return Moisture(
        humidity=np.maximum(after, LEAST_HUMIDITY),
        settled=settled,
        given_off=by_goods - drying * mean,
        latent=settled * deposit_latent_heat(surface),
    )


def outside_of(
    openings: Openings, room: Array, room_ratio: Array, air: Array, humidity: Array, pressure: Array
) -> Outside:
    """The room, and what comes through the gaps at this stored air [K], [kg/kg]."""
    inside, out = density(air, humidity, pressure), density(room, room_ratio, pressure)
    flow = stack_outflow(openings.low, SHARP_DISCHARGE, inside, out)
    return Outside(
        room=room,
        humidity=room_ratio,
        leakage=flow * out / (1.0 + room_ratio),
        air_specific_heat=DRY_AIR_SPECIFIC_HEAT + VAPOUR_SPECIFIC_HEAT * room_ratio,
    )


def opened(
    plant: ClockPlant, moment: Moment, outside: Outside, times: Array
) -> tuple[Moment, Array]:
    """The moment after the door stood open `times` (a fraction counts), and the heat [J] let in.

    As much of the stored air as the door exchanges is the room's air at once, temperature and
    moisture; at most all of it.
    """
    openings, pressure = plant.openings, plant.pressure
    air = moment.state.nodes[AIR]
    inside = density(air, moment.humidity, pressure)
    out = density(outside.room, outside.humidity, pressure)
    flow = door_exchange_flow(openings.door_area, openings.door_height, inside, out)
    lost = door_air_exchanged(flow, openings.door_open_time, openings.air_volume)
    share = np.minimum(times * lost / openings.air_volume, 1.0)
    heat = share * plant.air_capacity * (outside.room - air)
    return _mixed(moment, share, outside), np.asarray(heat)


def _mixed(moment: Moment, share: Array, outside: Outside) -> Moment:
    """A share of the stored air is the room's."""
    nodes = moment.state.nodes.copy()
    nodes[AIR] += share * (outside.room - nodes[AIR])
    drift = moment.drift.copy()
    drift[1] = 0.0
    return replace(
        moment,
        state=replace(moment.state, nodes=nodes),
        humidity=moment.humidity + share * (outside.humidity - moment.humidity),
        drift=drift,
    )
