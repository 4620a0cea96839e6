"""What the clock must know of a build beside its plant: layers, contents, capacities, controls."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, lanes
from coldwright.build.result import Build
from coldwright.build.schema.cabinet import Layer as LayerSection
from coldwright.build.schema.day import DayPlan
from coldwright.build.translation.plant import Translation
from coldwright.clock.ladder import WallLayer
from coldwright.clock.plan import FIRST_OPENING, LAST_OPENING, LOAD_HOUR, Plan, swing
from coldwright.clock.setup import ClockParts
from coldwright.clock.thermostat import Thermostat
from coldwright.parts.hot_side.condenser import Condenser
from coldwright.shop.materials import material
from coldwright.units import Quantity
from coldwright.units.atmosphere import SEA_LEVEL_PRESSURE

# Goods stand in packs of about a kilogram with still air around them: film [W/m2K] on area [m2] of
# each kilogram. Assumed, no source.
PACK_FILM, PACK_AREA = 6.0, 0.06
# A shell with motor and pump is steel, a little copper: specific heat [J/kgK], from memory.
SHELL_SPECIFIC_HEAT = 460.0
# K of a running condenser over its room, where the sheet's shape is taken: common practice.
USUAL_RISE = 15.0


def clock_parts_of(build: Build, found: Translation, charge: float, room: float) -> ClockParts:
    """The parts of the clock of `build` with its charge [kg] and room [K], scalars as 0-d."""
    machine = found.machine
    section, contents = build.thermostat, build.cabinet.contents
    mass = contents.mass.value
    return ClockParts(
        charge=lanes(charge),
        warm_room=lanes(room),
        layers={
            face.name: tuple(_layer(each) for each in build.cabinet.layers_of(face.name))
            for face in build.cabinet.faces
        },
        control=Thermostat(
            place=section.bulb,
            head="none" if section.fill == "liquid" else section.head or "room",
            cut_in=lanes(section.cut_in.value),
            cut_out=lanes(section.cut_out.value),
            lag=lanes(section.bulb_lag.value),
            rest=lanes(section.minimum_off_time.value),
        ),
        contents_mass=lanes(mass),
        contents_specific_heat=lanes(contents.specific_heat.value),
        contents_conductance=lanes(PACK_FILM * PACK_AREA * mass),
        condenser_capacity=_condenser_capacity(build, found.plant.system.condenser, room),
        shell_capacity=lanes(machine.machine_class.shell_mass.value * SHELL_SPECIFIC_HEAT),
        voltage=machine.voltage,
        magnetising_current=machine.magnetising_current,
    )


def plan_of(build: Build, *, room: float | None = None, swinging: bool = False) -> Plan:
    """The usual day of `build`: its openings and warm load, its room, its `[day]` if it has one.

    room [K]: instead of the site's design temperature; swinging: between the site's low and high.
    """
    cabinet, site = build.cabinet, build.site
    day = build.document.day or DayPlan()
    course: Array | float = site.room_temperature.value if room is None else room
    if swinging or (room is None and day.room == "swinging"):
        course = swing(site.room_temperature_low.value, site.room_temperature_high.value)
    return Plan.usual(
        cabinet.door_openings_per_day.value,
        cabinet.contents.warm_load.mass_per_day.value,
        course,
        site.relative_humidity.value,
        hours=(
            _hour(day.first_opening, FIRST_OPENING),
            _hour(day.last_opening, LAST_OPENING),
            _hour(day.warm_load_at, LOAD_HOUR),
        ),
        cut=(_hour(day.power_cut_at, 0.0), _hour(day.power_cut_length, 0.0)),
    )


def _hour(entry: Quantity | None, otherwise: float) -> float:
    """Hour of the day, or what is taken without an entry."""
    return otherwise if entry is None else entry.value / 3600.0


def _layer(section: LayerSection) -> WallLayer:
    metal = material(section.material)
    thickness = section.thickness.value
    return WallLayer(
        resistance=lanes(thickness / section.conductivity.value),
        heat_capacity=lanes(thickness * metal.density * metal.specific_heat),
    )


def _condenser_capacity(build: Build, condenser: Condenser, room: float) -> Array:
    """Heat capacity [J/K] of the condenser as its tube's temperature moves.

    Between the runs sheet or wires stand colder than the tube, and warm as much less.
    """
    section = build.condenser
    tube = material(section.tube.material)
    outside, inside = section.tube.outside_diameter.value, section.tube.inside_diameter
    metal = np.pi / 4.0 * (outside**2 - inside**2) * section.tube.length.value
    beside = 0.0
    if section.wires is not None:
        wire, kind = section.wires, material(section.wires.material)
        count = section.sheet_width.value / wire.pitch.value * wire.sides
        round_ = np.pi / 4.0 * wire.diameter.value**2
        volume = count * section.sheet_height.value * round_
        beside = volume * kind.density * kind.specific_heat
    elif section.sheet_material is not None and section.sheet_thickness is not None:
        sheet = material(section.sheet_material)
        area = section.sheet_width.value * section.sheet_height.value
        factor = 1.0 if section.area_factor is None else section.area_factor.value
        volume = area * factor * section.sheet_thickness.value
        beside = volume * sheet.density * sheet.specific_heat
    warm = np.atleast_1d(room + USUAL_RISE)
    way = condenser.outside(warm, np.atleast_1d(room), np.atleast_1d(SEA_LEVEL_PRESSURE))
    rise = (way.surface_temperature - way.sink_temperature) / (warm - way.sink_temperature)
    return lanes(metal * tube.density * tube.specific_heat + float(rise[0]) * beside)
