"""The steps from refrigerant to stored air: they add up, and each is its own resistance."""

from __future__ import annotations

import numpy as np
import pytest

from coldwright.parts.cold_chain import (
    AIR_WAY,
    BOILING,
    BOND,
    COIL_FILM,
    FROST,
    OUTSIDE,
    TUBE_WALL,
    cold_chain,
)
from coldwright.plant.operation import Point
from coldwright.verdict.alternatives import CHANGES
from support.assessed import assessed

# The lane of an assessment whose coil is another one than the tube that is asked here.
COIL_LANE = 1 + [change.key for change in CHANGES].index("coil")


def chain_of(case, point: Point):
    system = case.translation.plant.system
    evaluation = point.balance.evaluation
    evaporating = evaluation.unknowns.evaporating_temperature
    steps = cold_chain(
        system.cold_side, system.evaporator, evaluation.evaporator, evaporating, point.box
    )
    return steps, point.box.air_temperature - evaporating


@pytest.mark.parametrize("name", ["larder", "cheese", "galley"])
@pytest.mark.parametrize("state", ["cycling", "running"])
def test_the_steps_add_up_to_air_less_refrigerant(name, state):
    case = assessed(name).case
    steps, whole = chain_of(case, getattr(case.operation, state))
    balanced = getattr(case.operation, state).balance.reason == 0
    total = sum(steps.values())
    assert np.all(balanced)
    assert total == pytest.approx(np.broadcast_to(whole, np.shape(total)), abs=1e-6)


def test_heat_through_the_tube_is_the_heat_of_the_evaporator():
    """Boiling film, tube wall and brine carry what the wet length takes up (the dry part is small).

    Independent of the chain: perimeter times film times drop, by the wet length.
    """
    case = assessed("larder").case
    point = case.operation.cycling
    steps, _ = chain_of(case, point)
    tube, state = case.translation.plant.system.evaporator, point.balance.evaluation.evaporator
    wet = tube.length * state.wet_share
    by_film = state.film_coefficient * np.pi * tube.inside_diameter * wet * steps[BOILING]
    by_wall = wet * steps[TUBE_WALL] / tube.wall_resistance
    by_brine = state.outer_conductance * wet * steps[COIL_FILM]
    assert by_wall == pytest.approx(by_film, rel=1e-9)
    assert by_brine == pytest.approx(by_film, rel=1e-9)
    own = np.arange(by_film.size) != COIL_LANE
    dry = 1.0 - by_film[own] / state.heat[own]
    assert np.all((dry > 0.0) & (dry < 0.02))


def test_a_bare_tube_has_no_bond_and_a_plate_has_one():
    bare = assessed("galley").case
    steps, _ = chain_of(bare, bare.operation.cycling)
    assert abs(steps[BOND][0]) < 1e-6
    plate = assessed("cheese").case
    steps, _ = chain_of(plate, plate.operation.cycling)
    assert steps[BOND][0] > 0.5
    assert steps[FROST][0] == 0.0  # at 12 C nothing freezes on it
    assert steps[OUTSIDE][0] > steps[BOILING][0]
    assert abs(steps[AIR_WAY][0]) < 5.0
