"""What the finish of the cold surface, and frost on it, do to the air: one box, many skins."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any, cast

import numpy as np

from coldwright.arrays import Array
from coldwright.parts.cold_box import BoxState, box_at_source
from coldwright.parts.cold_side.surface_heat import ColdSide
from coldwright.parts.lane_tools import take_lanes
from coldwright.plant.box import surroundings
from coldwright.shop.surfaces import surface
from coldwright.verdict.case import Case
from coldwright.verdict.figures import CELSIUS, at_lane

# Finish by its name in the shop's table, and thickness of frost on it [m].
SKINS = (
    ("polished metal", 0.0),
    ("oxidised metal", 0.0),
    ("painted", 0.0),
    ("painted", 1e-3),
    ("painted", 3e-3),
)
FREEZING = 273.15
SECANT_STEPS = 12
METAL_AGREEMENT = 1e-6  # K


@dataclass(frozen=True)
class Finish:
    """The box with one skin, its cold side as cold as in the state shown."""

    finish: str
    frost_mm: float
    emissivity: float
    air_C: float
    heat_W: float


def finishes(case: Case) -> tuple[Finish, ...]:
    """The air that each of `SKINS` would hold with the brine (or the plate) as cold as it is now.

    Empty without a balance. Frost is left out where the surface does not freeze. The machine is
    not asked: a better skin takes up more heat, which then must be removed.
    """
    if not case.machine(case.state).balanced:
        return ()
    point = case.operation.cycling if case.state == "cycling" else case.operation.running
    plant, room = case.translation.plant, case.translation.room
    box = point.box
    source, metal = at_lane(box.source_temperature, 0), at_lane(box.surface_temperature, 0)
    skins = [skin for skin in SKINS if skin[1] == 0.0 or metal < FREEZING]
    emissivity = np.array([surface(name).emissivity for name, _ in skins])
    cold = plant.box.cold_side
    skin = replace(
        cold.surface,
        emissivity=emissivity,
        frost_thickness=np.array([thickness for _, thickness in skins]),
    )
    changed = cast(ColdSide, replace(cast(Any, cold), surface=skin))
    warm = surroundings(room, point.balance.evaluation, min(case.run_fraction, 1.0))
    around = take_lanes(warm, np.array([0]), np.size(warm.condenser_side_temperature))

    def state_at(trial: Array) -> BoxState:
        return box_at_source(plant.box.cabinet, plant.box.air_path, changed, trial, around)

    held = np.full(len(skins), source)
    state = _at_metal(state_at, held, metal) if cold.source_is_air else state_at(held)
    return tuple(
        Finish(
            finish=name,
            frost_mm=1e3 * thickness,
            emissivity=float(emissivity[index]),
            air_C=at_lane(state.air_temperature, index) - CELSIUS,
            heat_W=at_lane(state.heat, index),
        )
        for index, (name, thickness) in enumerate(skins)
    )


def _at_metal(state_at: Callable[[Array], BoxState], source: Array, metal: float) -> BoxState:
    """The box whose metal is at `metal` [K]: a plate's source is its compartment, not its metal."""
    before, state_before = source, state_at(source)
    gap_before = state_before.surface_temperature - metal
    source = source - gap_before
    state = state_at(source)
    for _ in range(SECANT_STEPS):
        gap = state.surface_temperature - metal
        if np.all(np.abs(gap) < METAL_AGREEMENT):
            break
        rise = gap - gap_before
        # a lane that has arrived no longer moves: no division by nothing
        still = np.abs(rise) < 1e-12
        step = np.where(still, 0.0, -gap * (source - before) / np.where(still, 1.0, rise))
        before, gap_before = source, gap
        source = source + step
        state = state_at(source)
    return state
