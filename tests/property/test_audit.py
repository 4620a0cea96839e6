"""The audit over drawn systems: it closes for every balance, and a broken model does not pass."""

from __future__ import annotations

from dataclasses import fields, replace

import numpy as np
import pytest

from coldwright.parts.charge import Inventory
from coldwright.plant import evaluation
from coldwright.plant.audit import audit
from coldwright.plant.balance import BALANCED, settle
from coldwright.plant.charge_rule import FixedCharge
from coldwright.tracing.earned import plain
from support.systems import DISPLACEMENT, drawn

CLOSED = 1e-6
COUNT = 12


def settled(name, count=COUNT):
    """Drawn systems with charges about the right one."""
    system, at = drawn(name, count, seed=87)
    tubes = system.evaporator.volume + system.condenser.volume
    liquid = system.refrigerant.saturated(at.source_temperature).liquid_density
    charge = np.linspace(0.6, 1.4, count) * 0.16 * liquid * tubes
    return system, at, charge, settle(system, at, FixedCharge(charge))


@pytest.mark.parametrize("name", tuple(DISPLACEMENT))
def test_every_balance_closes(name):
    system, at, charge, balance = settled(name)
    ok = balance.reason == BALANCED
    assert np.sum(ok) >= COUNT - 1
    found = audit(system, at, balance.evaluation, charge)
    assert np.all(found.worst[ok] < CLOSED)


def test_a_state_that_is_not_settled_is_open():
    system, at, charge, balance = settled("R152a")
    warmer = replace(
        balance.evaluation.unknowns,
        evaporating_temperature=balance.evaluation.unknowns.evaporating_temperature + 0.05,
    )
    found = audit(system, at, evaluation.evaluate(system, at, warmer), charge)
    assert np.all(found.flow_closure > 1e-4)
    assert np.all(found.mass_closure > 1e-6)
    assert np.all(found.energy_closure > 1e-6)


def broken_condenser(real):
    def condense(*given, **named):
        state = real(*given, **named)
        return replace(state, heat=1.001 * state.heat)

    return condense


def broken_evaporator(real):
    def evaporate(*given, **named):
        state = real(*given, **named)
        return replace(state, heat=0.999 * state.heat)

    return evaporate


def broken_compressor(real):
    def compress(*given, **named):
        state = real(*given, **named)
        return replace(state, power=1.001 * state.power)

    return compress


def broken_capillary(real):
    def capillary_flow(tube, *given, **named):
        found = real(tube, *given, **named)
        return replace(found, required_length=1.001 * found.required_length)

    return capillary_flow


def broken_line(real):
    def line_heat(*given, **named):
        return 1.01 * real(*given, **named)

    return line_heat


@pytest.mark.parametrize(
    ("part", "breaks", "closure"),
    [
        ("condense", broken_condenser, "energy_closure"),
        ("evaporate", broken_evaporator, "energy_closure"),
        ("compress", broken_compressor, "energy_closure"),
        ("line_heat", broken_line, "energy_closure"),
        ("capillary_flow", broken_capillary, "flow_closure"),
    ],
)
def test_a_broken_part_is_caught_although_the_balance_is_found(monkeypatch, part, breaks, closure):
    monkeypatch.setattr(evaluation, part, breaks(getattr(evaluation, part)))
    with plain():  # what is compiled holds the sound parts
        system, at, charge, balance = settled("R152a", 6)
    ok = balance.reason == BALANCED
    assert np.any(ok)
    found = audit(system, at, balance.evaluation, charge)
    assert np.all(getattr(found, closure)[ok] > 10.0 * CLOSED)


@pytest.mark.parametrize("place", ["oil", "drier", "evaporator", "condenser"])
def test_a_place_left_out_of_the_charge_is_caught(monkeypatch, place):
    def total(self):
        return sum(getattr(self, each.name) for each in fields(self) if each.name != place)

    monkeypatch.setattr(Inventory, "total", property(total))
    with plain():
        system, at, charge, balance = settled("R600a", 6)
    ok = balance.reason == BALANCED
    assert np.any(ok)
    found = audit(system, at, balance.evaluation, charge)
    assert np.all(found.mass_closure[ok] > 1e-3)
