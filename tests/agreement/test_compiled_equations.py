"""The compiled equations of the sealed system against the same run as plain NumPy."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace

import numpy as np
import pytest

from coldwright.build import loads
from coldwright.build.translation.plant import translate
from coldwright.parts.capillary import Placing
from coldwright.parts.lane_tools import flat_lanes, has_no_lanes
from coldwright.plant.balance import BALANCED, settle
from coldwright.plant.charge_rule import FixedCharge, StatedSuperheat
from coldwright.plant.evaluation import Conditions, Unknowns
from coldwright.plant.look import RESTS, Looker, evaluated, even_share, look, merit
from coldwright.tracing.earned import plain
from coldwright.tracing.kernel import Inputs, Kernel
from support.builds import build_text
from support.condensers import KINDS, condenser_of
from support.systems import DISPLACEMENT, drawn

COUNT = 12
BUILDS = ("larder", "cheese", "galley", "holdover")


def states(system, at, seed=2):
    """Unknowns anywhere near a balance, dry and wet."""
    draw = np.random.default_rng(seed)
    source = at.source_temperature
    count = source.size
    evaporating = source - draw.uniform(2.0, 25.0, count)
    low = system.refrigerant.saturated(evaporating)
    return Unknowns(
        evaporating,
        at.room_temperature + draw.uniform(3.0, 25.0, count),
        low.vapour_enthalpy + draw.uniform(-4e4, 4e4, count),
        draw.uniform(-10.0, 60.0, count),
        draw.uniform(0.0, 4e4, count),
    )


def of_build(name):
    """A starter's or test build's sealed system at many sources and rooms."""
    found = translate(loads(build_text(name)))
    room = np.linspace(283.15, 313.15, COUNT)
    at = Conditions(np.linspace(253.15, 283.15, COUNT), room, room, np.full(COUNT, 95e3))
    return flat_lanes(found.plant.system, (COUNT,)), at


def assert_alike(found, expected, name):
    if is_dataclass(expected):
        for each in fields(expected):
            assert_alike(
                getattr(found, each.name), getattr(expected, each.name), f"{name}.{each.name}"
            )
    elif isinstance(expected, tuple):
        for k, (one, other) in enumerate(zip(found, expected, strict=True)):
            assert_alike(one, other, f"{name}[{k}]")
    else:
        wide = np.broadcast_to(expected, np.shape(found))
        # Residuals are differences of much larger numbers.
        np.testing.assert_allclose(found, wide, rtol=2e-8, atol=1e-9, err_msg=name)


def assert_compiled_alike(function, parts):
    kernel = Kernel(function, parts, has_no_lanes)
    found = kernel(Inputs(parts, has_no_lanes), np.arange(COUNT))
    assert_alike(found, function(*parts), function.__name__)


@pytest.mark.parametrize("build", BUILDS)
@pytest.mark.parametrize("rule", [FixedCharge(np.asarray(0.04)), StatedSuperheat(np.asarray(4.0))])
def test_a_builds_equations(build, rule):
    system, at = of_build(build)
    unknowns = states(system, at)
    near = Placing.near(even_share(COUNT, 64))
    assert_compiled_alike(look, (system, at, rule, unknowns, near))
    assert_compiled_alike(merit, (system, at, rule, unknowns))


def test_every_figure_of_an_evaluation():
    system, at = of_build("larder")
    placing = Placing(0, even_share(COUNT, 64))
    parts = (system, at, FixedCharge(np.asarray(0.04)), states(system, at), placing)
    assert_compiled_alike(evaluated, parts)


@pytest.mark.parametrize("kind", KINDS)
def test_a_condensers_equations(kind):
    system, at = drawn("R600a", COUNT, seed=4)
    system = replace(system, condenser=condenser_of(kind))
    near = Placing.near(even_share(COUNT, 32))
    rule = FixedCharge(np.full(COUNT, 0.03))
    assert_compiled_alike(look, (system, at, rule, states(system, at), near))


@pytest.mark.parametrize("name", DISPLACEMENT)
def test_balances(name):
    """Settled by compiled code and by plain NumPy: the same states, to what a balance is to."""
    count = 40
    system, at = drawn(name, count, seed=8)
    fill = np.random.default_rng(6).uniform(0.02, 0.07, count)
    for _ in range(2):  # the first may still be plain
        quick = settle(system, at, FixedCharge(fill))
    with plain():
        slow = settle(system, at, FixedCharge(fill))
    assert np.all(quick.reason == BALANCED)
    assert np.array_equal(quick.reason, slow.reason)
    assert quick.residual.max() < 1e-8
    for figure in ("evaporating_temperature", "condensing_temperature"):
        apart = getattr(quick.evaluation.unknowns, figure) - getattr(
            slow.evaluation.unknowns, figure
        )
        assert np.abs(apart).max() < 1e-3


def test_looks_that_start_from_nothing_are_the_same_by_either_way():
    system, at = drawn("R134a", COUNT, seed=5)
    looker = Looker(system, at, FixedCharge(np.full(COUNT, 0.05)), COUNT, 1.0, 64)
    trial, lane = states(system, at).stacked(), np.arange(COUNT)
    with plain():
        slow = looker.at_rest(lane, trial)
    for _ in range(400 // RESTS):
        quick = looker.at_rest(lane, trial)
    np.testing.assert_allclose(quick.taken, slow.taken, atol=1e-6)
    np.testing.assert_allclose(quick.residual, slow.residual, rtol=1e-5, atol=1e-6)
