"""The hot side of a build: why it condenses so far above the room, and what would change that.

Each change is tried alone, as a lane of one balance at the same temperature of the cold side. A
change of the tube's volume takes its share of charge with it, filled as the condenser was.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, cast

import numpy as np

from coldwright.arrays import lanes
from coldwright.build.translation.condenser import CHANNEL_OPENING_LOSS
from coldwright.parts.hot_side import Condenser, SheetCondenser
from coldwright.parts.hot_side.condenser import NO_WALL
from coldwright.parts.lane_tools import stack_lanes
from coldwright.plant.balance import BALANCED, settle
from coldwright.plant.box import conditions
from coldwright.plant.charge_rule import FixedCharge
from coldwright.plant.evaluation import Evaluation, Unknowns
from coldwright.plant.operation import Point
from coldwright.plant.pressure_losses import pressure_losses
from coldwright.shop.materials import material
from coldwright.verdict.case import Case
from coldwright.verdict.figures import CELSIUS, at_lane

MORE_TUBE = 1.25
CLOSEST_RUNS = 3.0  # diameters between runs that more tube must leave
BLACK_PAINT = 0.95
GOOD_BOND = 60.0  # W/(m K): solder along the whole run
# What a change must leave to gain before it is shown.
DULL_ENOUGH, OPEN_ENOUGH, CLEAN_ENOUGH, FREE_ENOUGH = 0.92, 0.98, 0.02, 1.0
CHANGE_STEPS = 40


@dataclass(frozen=True)
class HotSideChange:
    """One change alone: by how much condensing, power and capacity move while the machine runs."""

    key: str
    words: str
    condensing_K: float | None
    power_W: float | None
    capacity_W: float | None


@dataclass(frozen=True)
class HotSide:
    """The condenser in the state that the box comes to; names carry their unit."""

    kind: str
    condensing_above_room_K: float
    sink_above_room_K: float
    surface_C: float
    heat_W: float
    convection_W: float
    radiation_W: float
    radiation_share: float
    convection_film_W_per_m2K: float
    radiation_film_W_per_m2K: float
    conductance_W_per_K: float
    sheet_efficiency: float
    resistance_share: dict[str, float]
    zone_share: dict[str, float]
    pressure_drop_Pa: float
    pressure_drop_K: float
    volume_cm3: float
    tube_kg: float
    sheet_kg: float
    changes: tuple[HotSideChange, ...]


def hot_side(case: Case) -> HotSide | None:
    """The hot side of `case` in the state it comes to; None without a balance."""
    if not case.machine(case.state).balanced:
        return None
    o = case.operation
    point = o.cycling if case.state == "cycling" else o.running
    e, condenser = point.balance.evaluation, case.translation.plant.system.condenser
    loss = pressure_losses(case.translation.plant.system, e).condenser
    outside = e.condenser.outside
    heat = at_lane(e.condenser.heat, 0)
    share = at_lane(outside.radiation_share, 0)
    room = at_lane(case.translation.room.temperature, 0)
    steps = resistances(condenser, e)
    per_metre = sum(steps.values())
    tube_kg, sheet_kg = weights(case)
    return HotSide(
        kind=condenser.kind,
        condensing_above_room_K=at_lane(e.unknowns.condensing_temperature, 0) - room,
        sink_above_room_K=at_lane(outside.sink_temperature, 0) - room,
        surface_C=at_lane(outside.surface_temperature, 0) - CELSIUS,
        heat_W=heat,
        convection_W=(1.0 - share) * heat,
        radiation_W=share * heat,
        radiation_share=share,
        convection_film_W_per_m2K=at_lane(outside.convection_film, 0),
        radiation_film_W_per_m2K=at_lane(outside.radiation_film, 0),
        conductance_W_per_K=at_lane(condenser.length, 0) / per_metre,
        sheet_efficiency=at_lane(outside.efficiency, 0),
        resistance_share={name: value / per_metre for name, value in steps.items()},
        zone_share={
            name: at_lane(getattr(e.condenser, f"{name}_share"), 0)
            for name in ("gas", "condensing", "liquid")
        },
        pressure_drop_Pa=at_lane(loss.drop, 0),
        pressure_drop_K=at_lane(loss.shift, 0),
        volume_cm3=at_lane(condenser.volume, 0) * 1e6,
        tube_kg=tube_kg,
        sheet_kg=sheet_kg,
        changes=_changes(case, point),
    )


def resistances(condenser: Condenser, e: Evaluation) -> dict[str, float]:
    """Steps [m K/W] from the condensing refrigerant to the sink, for a metre of tube."""
    film = 1.0 / (np.pi * condenser.inside_diameter * e.condenser.film_coefficient)
    steps = {"inside film": film, "tube": condenser.tube_resistance}
    return {
        name: at_lane(value, 0)
        for name, value in {**steps, **e.condenser.outside.resistances}.items()
    }


def weights(case: Case) -> tuple[float, float]:
    """Mass of the condenser's tube, and of its sheet or wires [kg]."""
    section, condenser = case.build.condenser, case.translation.plant.system.condenser
    tube = at_lane(condenser.tube_metal_volume, 0) * material(section.tube.material).density
    name = section.wires.material if section.wires else section.sheet_material
    density = material(name).density if name else 0.0
    return tube, at_lane(condenser.outside_metal_volume, 0) * density


def alternatives_of(condenser: Condenser) -> Mapping[str, tuple[str, Condenser]]:
    """What could be done to it, by key: the words, and the condenser after it."""

    def with_(**changed: float) -> Condenser:
        values: Any = {name: lanes(value) for name, value in changed.items()}
        return cast(Condenser, replace(cast(Any, condenser), **values))

    more = f"{MORE_TUBE - 1.0:.0%} more tube".replace("%", " %")
    found = {
        "larger": (f"{more} and as much more width", condenser.enlarged(MORE_TUBE)),
        "gap": ("twice the gap to the cabinet", with_(gap=2.0 * float(condenser.gap))),
    }
    room_for_it = condenser.pitch > CLOSEST_RUNS * MORE_TUBE * condenser.outside_diameter
    if condenser.kind != "bare" and room_for_it:
        longer = with_(length=MORE_TUBE * float(condenser.length))
        found["longer_tube"] = (f"{more} on the same {_on(condenser)}", longer)
    if condenser.emissivity < DULL_ENOUGH:
        found["paint"] = ("a coat of black paint", with_(emissivity=BLACK_PAINT))
    if isinstance(condenser, SheetCondenser):
        found |= _sheet_alternatives(condenser)
    if condenser.kept < 1.0 - CLEAN_ENOUGH:
        found["clean"] = ("clean and without trim", with_(dirt=0.0, shaded_fraction=0.0))
    if condenser.wall_distance < FREE_ENOUGH:
        found["wall"] = ("nothing close on the room's side", with_(wall_distance=NO_WALL))
    if condenser.air_rise > 0.0:
        found["air"] = ("room air at its foot", with_(air_rise=0.0))
    return found


def _on(condenser: Condenser) -> str:
    return "sheet" if condenser.kind == "sheet" else "panel"


def _sheet_alternatives(condenser: SheetCondenser) -> dict[str, tuple[str, Condenser]]:
    """What only a sheet allows."""
    thicker = replace(condenser, sheet_thickness=2.0 * condenser.sheet_thickness)
    found: dict[str, tuple[str, Condenser]] = {"thicker_sheet": ("a sheet twice as thick", thicker)}
    if condenser.bond_conductance < 0.9 * GOOD_BOND:
        bonded = replace(condenser, bond_conductance=lanes(GOOD_BOND))
        found["bond"] = ("the tube soldered to the sheet all along", bonded)
    if condenser.opening_loss * OPEN_ENOUGH**2 > CHANNEL_OPENING_LOSS:
        opened = replace(condenser, opening_loss=lanes(CHANNEL_OPENING_LOSS))
        found["opening"] = ("the gap fully open at foot and top", opened)
    return found


def _changes(case: Case, point: Point) -> tuple[HotSideChange, ...]:
    """Each alternative alone: one settle call, lane 0 the build itself."""
    system, e = case.translation.plant.system, point.balance.evaluation
    found = alternatives_of(system.condenser)
    condensers = [system.condenser, *(each for _, each in found.values())]
    count = len(condensers)
    volumes = np.array([at_lane(each.volume, 0) for each in condensers])
    held = at_lane(e.inventory.condenser, 0)
    charge = case.charge + held * (volumes / volumes[0] - 1.0)
    source = np.full(count, at_lane(point.box.source_temperature, 0))
    start = Unknowns(*(np.full(count, at_lane(each, 0)) for each in e.unknowns.stacked()))
    balance = settle(
        replace(system, condenser=stack_lanes(condensers)),
        conditions(case.translation.room, source),
        FixedCharge(charge),
        start,
        most_steps=CHANGE_STEPS,
    )
    after = balance.evaluation
    moved = {
        "condensing_K": after.unknowns.condensing_temperature,
        "power_W": after.compressor.power,
        "capacity_W": after.evaporator.heat,
    }
    rows = []
    for lane, (key, (words, _)) in enumerate(found.items(), start=1):
        settled = balance.reason[lane] == BALANCED and balance.reason[0] == BALANCED
        figures = {
            name: float(values[lane] - values[0]) if settled else None
            for name, values in moved.items()
        }
        rows.append(HotSideChange(key, words, **figures))
    return tuple(sorted(rows, key=lambda row: row.condensing_K or 0.0))
