"""A second steady state: found where there is one, told rightly, gone where it must be."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from coldwright.parts.lane_tools import take_lanes
from coldwright.parts.return_exchanger import SuctionLine
from coldwright.plant.balance import BALANCED, settle
from coldwright.plant.charge_rule import FixedCharge
from coldwright.plant.fold import second_state
from support.systems import drawn

COUNT, FOLDED = 120, 38


@pytest.fixture(scope="module")
def folded():
    """A drawn R134a system joined for 1.9 m from the capillary's inlet on, about to flood."""
    system, at = drawn("R134a", COUNT, seed=9)
    one = np.array([FOLDED])
    alone, there = take_lanes(system, one, COUNT), take_lanes(at, one, COUNT)
    joined = np.array([1.9])
    line: SuctionLine = replace(
        alone.suction_line, joined_length=joined, joint_conductance=np.array([30.0])
    )
    alone = replace(
        alone,
        capillary=replace(
            alone.capillary, exchanger_start=np.array([0.05]), exchanger_length=joined
        ),
        suction_line=line,
    )
    tubes = alone.evaporator.volume + alone.condenser.volume
    liquid = alone.refrigerant.saturated(there.source_temperature).liquid_density
    share = np.random.default_rng(3).uniform(0.9, 1.8, COUNT)[FOLDED]
    return alone, there, share * 0.16 * liquid * tubes


def test_one_of_the_two_states_is_wet_and_the_other_dry(folded):
    """Which of the two comes first hangs on where the search begins."""
    system, at, charge = folded
    first = settle(system, at, FixedCharge(charge))
    found = second_state(system, at, charge, first)
    assert first.reason == BALANCED
    assert found.exists.all()
    superheat = [first.evaluation.returning.superheat.item(), found.superheat.item()]
    capacity = [first.evaluation.evaporator.heat.item(), found.capacity.item()]
    wet, dry = np.argsort(superheat)
    assert superheat[wet] < 0.1
    assert superheat[dry] > 2.0
    assert capacity[dry] > 1.05 * capacity[wet]


def test_each_of_the_two_stays_when_it_is_settled_again(folded):
    system, at, charge = folded
    first = settle(system, at, FixedCharge(charge))
    found = second_state(system, at, charge, first)
    back = second_state(system, at, charge, settle(system, at, FixedCharge(charge)))
    assert back.evaporating_temperature == pytest.approx(found.evaporating_temperature, abs=1e-5)
    again = settle(
        system,
        at,
        FixedCharge(charge),
        first.evaluation.unknowns,
        taken=first.evaluation.capillary.taken,
    )
    assert again.evaluation.unknowns.evaporating_temperature == pytest.approx(
        first.evaluation.unknowns.evaporating_temperature, abs=1e-6
    )


@pytest.mark.parametrize("factor", [0.75, 1.3])
def test_another_charge_moves_it_away(folded, factor):
    system, at, charge = folded
    first = settle(system, at, FixedCharge(factor * charge))
    assert not second_state(system, at, factor * charge, first).exists.any()


def test_without_an_exchanger_there_is_one_state(folded):
    system, at, charge = folded
    none = np.zeros(1)
    plain = replace(
        system,
        capillary=replace(system.capillary, exchanger_length=none),
        suction_line=replace(system.suction_line, joined_length=none),
    )
    first = settle(plain, at, FixedCharge(charge))
    found = second_state(plain, at, charge, first)
    assert not found.exists.any()
    assert found.capacity == pytest.approx(first.evaluation.evaporator.heat)
