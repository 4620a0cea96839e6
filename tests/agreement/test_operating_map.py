"""The operating map against balances of its machine at random places, between bends too."""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np
import pytest

from coldwright.plant.balance import BALANCED, settle
from coldwright.plant.charge_rule import FixedCharge
from coldwright.plant.operating_map import READ, operating_map, quantities
from support.systems import sealed_system, surroundings

CHARGE = 0.043
SOURCES, ROOMS = (-8.0, 6.0), (18.0, 30.0)  # °C
COUNT = 80


def kelvin(span):
    return span[0] + 273.15, span[1] + 273.15


@pytest.fixture(scope="module")
def mapped():
    """The map, random places (half of them near a bend), and their balances."""
    system = sealed_system(joined=0.6, capillary_length=3.2)
    found = operating_map(system, CHARGE, kelvin(SOURCES), kelvin(ROOMS))
    draw = np.random.default_rng(11)
    room = draw.uniform(*kelvin(ROOMS), COUNT)
    source = draw.uniform(*kelvin(SOURCES), COUNT)
    bends = found.knots[2::3]
    near = np.array([np.interp(r, found.rooms, bends[0]) for r in room]) + draw.normal(
        0, 0.7, COUNT
    )
    inside = (near > kelvin(SOURCES)[0]) & (near < kelvin(SOURCES)[1])
    source = np.where((np.arange(COUNT) % 2 == 0) & inside, near, source)
    balance = settle(
        system,
        surroundings(source - 273.15, room - 273.15),
        FixedCharge(np.full(COUNT, CHARGE)),
    )
    assert np.all(balance.reason == BALANCED)
    there = dict(zip(READ, found.at(source, room), strict=True))
    true = dict(zip(READ, np.moveaxis(quantities(balance), -1, 0), strict=True))
    return SimpleNamespace(map=found, source=source, room=room, told=there, true=true)


def test_the_machine_bends_inside_the_map(mapped):
    wet = mapped.true["return_quality"] < 0.999
    assert np.any(wet)
    assert np.any(~wet)
    assert len(mapped.map.knots) >= 5


@pytest.mark.parametrize("name", ["capacity", "power", "condenser_heat", "mass_flow"])
def test_heats_within_half_a_per_cent(mapped, name):
    np.testing.assert_allclose(mapped.told[name], mapped.true[name], rtol=5e-3)


@pytest.mark.parametrize("name", ["evaporating_temperature", "condensing_temperature"])
def test_pressures_within_a_tenth_of_a_kelvin(mapped, name):
    np.testing.assert_allclose(mapped.told[name], mapped.true[name], rtol=0.0, atol=0.1)


@pytest.mark.parametrize("name", ["return_temperature", "discharge_temperature"])
def test_gas_within_half_a_kelvin_where_it_turns_by_ten(mapped, name):
    np.testing.assert_allclose(mapped.told[name], mapped.true[name], rtol=0.0, atol=0.5)


def test_all_of_it_is_sure_and_it_is_held_at_its_edges(mapped):
    assert np.all(mapped.map.sure(mapped.source, mapped.room))
    high = np.array([kelvin(ROOMS)[1]])
    at_edge = mapped.map.at(np.array([273.15]), high)
    np.testing.assert_allclose(mapped.map.at(np.array([273.15]), high + 30.0), at_edge)


def test_a_map_that_was_not_settled_is_not_sure(mapped):
    from dataclasses import replace

    gap = mapped.map.known.copy()
    gap[1, :] = False
    holed = replace(mapped.map, known=gap)
    low, high = mapped.map.rooms[:2]
    source = np.full(3, 273.15)
    sure = holed.sure(source, np.array([0.5 * (low + high), high + 0.1, mapped.map.rooms[-1]]))
    assert not sure[0]
    assert not sure[1]
    assert sure[2]
