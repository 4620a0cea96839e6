"""A little more or less of any input moves a balance a little.

How much is a jump? The stiffest smooth dependences of a capillary machine: flow goes as bore^2.6
and saturation pressure by 4 % a kelvin, so 0.1 % of bore is 0.26 % of flow and 0.1 K is 0.4 %; a
return that turns wet cools the shell by four kelvin for each of the source. Over 24 systems the
greatest changes for 0.1 % or 0.1 K were 0.3 % of capacity and power together, 0.3 % of power and
0.44 K. A jump is twice that. Near a fold (`plant.fold`) jumps are physics: such lanes are left out,
and it is checked that few are.
"""

from __future__ import annotations

import numpy as np
import pytest

from coldwright.arrays import lanes
from coldwright.parts.lane_tools import take_lanes
from coldwright.plant.balance import BALANCED, settle
from coldwright.plant.charge_rule import FixedCharge
from coldwright.plant.fold import second_state
from support.full_range import full_range
from support.nudges import nudged
from support.systems import alone, drawn, sealed_system, surroundings

MOST_HEAT, MOST_POWER, MOST_KELVIN = 0.006, 0.006, 0.9


def figures(balance):
    """Heat [W] and power [W]; temperatures [K] one below the other."""
    e = balance.evaluation
    kelvins = (
        e.unknowns.evaporating_temperature,
        e.unknowns.condensing_temperature,
        e.returning.temperature,
        e.compressor.discharge_temperature,
        e.shell_temperature,
    )
    return e.evaporator.heat, e.compressor.power, np.stack(kelvins)


def some_systems():
    """Systems of the trade with charges from short to too much, and some from the full range."""
    for name in ("R152a", "R600a"):
        system, at = drawn(name, 3, seed=7)
        tubes = system.evaporator.volume + system.condenser.volume
        liquid = system.refrigerant.saturated(at.source_temperature).liquid_density
        charge = np.array([0.6, 1.0, 1.4]) * 0.16 * liquid * tubes
        for lane in range(3):
            yield f"{name} {lane}", alone(system, lane, 3), one(at, lane, 3), charge[lane]
    for name, kind in (("R290", "plate"), ("R1270", "bare tube")):
        found = full_range(name, kind, 4, seed=77)
        where = one(found.at, 3, 4)
        yield f"{name} {kind}", alone(found.system, 3, 4), where, found.charge[3]


def one(at, lane, count):
    return take_lanes(at, np.array([lane]), count)


def test_no_input_makes_a_jump():
    left_out = seen = 0
    for label, system, at, charge in some_systems():
        seen += 1
        names, many, places, rule = nudged(system, at, float(charge))
        assert len(names) > 40
        balance = settle(many, places, rule)
        assert np.all(balance.reason == BALANCED), label
        first = settle(system, at, FixedCharge(lanes([charge])))
        if bool(second_state(system, at, lanes([charge]), first).exists[0]):
            left_out += 1
            continue
        heat, power, kelvins = figures(balance)
        through = np.abs(heat[0]) + power[0]
        worst = (
            np.abs(heat - heat[0]) / through / MOST_HEAT,
            np.abs(power / power[0] - 1.0) / MOST_POWER,
            np.max(np.abs(kelvins - kelvins[:, :1]), axis=0) / MOST_KELVIN,
        )
        for each in worst:
            where = int(np.argmax(each))
            assert each[where] < 1.0, (label, names[where - 1], each[where])
    assert seen == 8
    assert left_out <= 1


# A way of so many lanes; its largest step is looked at through so many lanes again and again.
POINTS, FINER, ROUNDS = 41, 9, 3
# What is left of a step then, over what counts as a jump.
LEFT = 0.1


def largest_step(balance):
    """Index of the largest step between neighbours, and its size over what counts as a jump."""
    heat, power, kelvins = figures(balance)
    through = np.mean(np.abs(heat) + power)
    sizes = [np.diff(heat) / through / MOST_HEAT, np.diff(power) / np.mean(power) / MOST_POWER]
    sizes += list(np.diff(kelvins, axis=1) / MOST_KELVIN)
    each = np.max(np.abs(np.stack(sizes)), axis=0)
    where = int(np.argmax(each))
    return where, float(each[where])


@pytest.mark.parametrize(
    ("what", "span"),
    [("charge", (0.025, 0.065)), ("source", (-18.0, 14.0)), ("room", (8.0, 42.0))],
)
@pytest.mark.parametrize(("joined", "length"), [(0.0, 3.2), (0.8, 4.2)])
def test_zones_come_and_go_without_a_step(what, span, joined, length):
    """A slope that is only steep shrinks with the distance of its lanes, a jump does not."""
    system = sealed_system(joined=joined, capillary_length=length)

    def settled(moved):
        source = moved if what == "source" else np.full(moved.size, -5.0)
        room = moved if what == "room" else np.full(moved.size, 25.0)
        charge = moved if what == "charge" else np.full(moved.size, 0.043)
        return settle(system, surroundings(source, room), FixedCharge(charge))

    moved = np.linspace(*span, POINTS)
    balance = settled(moved)
    assert np.all(balance.reason == BALANCED)
    # The way leads over a boundary: liquid before the capillary, or gas out of the evaporator.
    liquid = balance.evaluation.subcooling > 0.05
    dry = balance.evaluation.returning.superheat > 0.05
    assert np.any(liquid != liquid[0]) or np.any(dry != dry[0])
    for _ in range(ROUNDS):
        where, _ = largest_step(balance)
        moved = np.linspace(moved[where], moved[where + 1], FINER)
        balance = settled(moved)
        assert np.all(balance.reason == BALANCED)
    assert largest_step(balance)[1] < LEFT
