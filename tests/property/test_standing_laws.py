"""A stopped system: what must hold for any charge, volume, temperature and oil."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coldwright.arrays import lanes
from coldwright.fluids.burst_protection import KINDS, burst_temperature
from coldwright.fluids.gauge_dial import dial_temperature
from coldwright.fluids.oils import oil, oil_names
from coldwright.fluids.refrigerants import refrigerant, refrigerant_names
from coldwright.parts.resting import RestingPlaces, rest
from coldwright.parts.standing import gas_density_at, stand

gases = st.sampled_from(("R152a", "R134a", "R600a", "R290"))
oils = st.sampled_from((None, *oil_names()))
litres = st.floats(0.3, 20.0)
kelvins = st.floats(243.0, 333.0)
oil_kg = st.floats(0.05, 0.5)


@settings(max_examples=25)
@given(name=gases, kind=oils, volume=litres, at=kelvins, oil_mass=oil_kg)
def test_pressure_rises_with_charge_and_is_flat_from_saturation_on(
    name, kind, volume, at, oil_mass
):
    gas, kept = refrigerant(name), None if kind is None else oil(kind)
    volume /= 1000.0
    most = float(stand(gas, 1e-3, volume, at, kept, oil_mass).greatest_charge)
    charge = np.geomspace(1e-4, 0.99, 24) * most
    state = stand(gas, charge, volume, at, kept, oil_mass)
    step = np.diff(state.pressure)
    below = state.all_vapour[1:]
    assert np.all(step[below] > 0.0)
    np.testing.assert_array_equal(step[~state.all_vapour[:-1]], 0.0)
    np.testing.assert_array_equal(
        state.pressure[~state.all_vapour], state.saturation_pressure[~state.all_vapour]
    )
    assert np.all(state.pressure <= state.saturation_pressure * (1.0 + 1e-12))


@settings(max_examples=25)
@given(
    name=gases, kind=oils, volume=litres, at=kelvins, oil_mass=oil_kg, share=st.floats(1e-3, 1.0)
)
def test_the_places_add_up_and_the_gas_fills_what_is_left(name, kind, volume, at, oil_mass, share):
    gas, kept = refrigerant(name), None if kind is None else oil(kind)
    volume /= 1000.0
    charge = share * float(stand(gas, 1e-3, volume, at, kept, oil_mass).greatest_charge)
    state = stand(gas, charge, volume, at, kept, oil_mass)
    places = (state.vapour_mass, state.liquid_mass, state.dissolved_mass)
    assert sum(places) == pytest.approx(charge, rel=1e-12)
    assert all(place >= -1e-9 for place in places)
    if kept is None:
        assert state.dissolved_mass == 0.0
    saturated = gas.saturated(at)
    room = volume - (state.liquid_mass + state.dissolved_mass) / saturated.liquid_density
    density = gas_density_at(gas, state.pressure, at)
    # independent of the bookkeeping: the gas, at its own density, fills the room that is left
    assert state.vapour_mass == pytest.approx(density * room, rel=1e-5, abs=1e-7)
    if kept is not None:
        ratio = float(state.pressure / state.saturation_pressure)
        taken = kept.dissolved_mass(name, ratio, at, oil_mass)
        assert state.dissolved_mass == pytest.approx(float(taken), rel=1e-6, abs=1e-9)


@settings(max_examples=25)
@given(name=gases, volume=litres, at=kelvins, oil_mass=oil_kg, grams=st.floats(5.0, 60.0))
def test_oil_lowers_the_pressure(name, volume, at, oil_mass, grams):
    gas = refrigerant(name)
    dry = stand(gas, grams / 1e3, volume / 1e3, at)
    wet = stand(gas, grams / 1e3, volume / 1e3, at, oil("ester"), oil_mass)
    assert wet.pressure <= dry.pressure * (1.0 + 1e-9)
    assert wet.greatest_all_vapour_charge > 0.0


@given(name=gases, at=kelvins, share=st.floats(1e-4, 1.0))
def test_thin_gas_runs_into_the_ideal_one(name, at, share):
    gas = refrigerant(name)
    floor = float(gas.saturation_pressure(gas.least_temperature))
    pressure = share * floor
    ideal = pressure / (gas.gas_constant * at)
    assert gas_density_at(gas, pressure, at) == pytest.approx(ideal, rel=0.03 * share + 1e-9)


@given(name=st.sampled_from(refrigerant_names()), at=st.floats(225.0, 340.0))
def test_a_dial_tells_its_own_refrigerant(name, at):
    gas = refrigerant(name)
    pressure = gas.saturation_pressure(at)
    assert dial_temperature(gas, pressure) == pytest.approx(at, abs=1e-6)
    # In thin air the same pressure lies higher above the atmosphere: the ring reads too warm.
    assert dial_temperature(gas, pressure, 80000.0) > at


@given(
    kind=st.sampled_from(KINDS),
    weak=st.floats(0.0, 0.6),
    strong=st.floats(0.0, 0.6),
)
def test_more_glycol_bursts_no_sooner(kind, weak, strong):
    weak, strong = sorted((weak, strong))
    assert burst_temperature(kind, strong) <= burst_temperature(kind, weak) + 1e-9


def places(cold, shell, room):
    """A coil of 0.3 l, a shell of 2 l, the rest 0.35 l."""
    at = map(lanes, (3e-4, cold, 2e-3, shell, 3.5e-4, room))
    return RestingPlaces(*at)


@settings(max_examples=20)
@given(name=gases, kind=oils, at=kelvins, oil_mass=oil_kg, share=st.floats(1e-3, 0.98))
def test_at_one_temperature_resting_is_standing(name, kind, at, oil_mass, share):
    gas, kept = refrigerant(name), None if kind is None else oil(kind)
    volume = 2.65e-3
    charge = share * float(stand(gas, 1e-3, volume, at, kept, oil_mass).greatest_charge)
    still = stand(gas, charge, volume, at, kept, oil_mass)
    found = rest(gas, charge, places(at, at, at), kept, oil_mass)
    assert found.pressure == pytest.approx(float(still.pressure), rel=1e-9)
    assert bool(found.all_vapour) == bool(still.all_vapour)
    for ours, theirs in (
        (found.vapour_mass, still.vapour_mass),
        (found.liquid_mass, still.liquid_mass),
        (found.dissolved_mass, still.dissolved_mass),
    ):
        assert ours == pytest.approx(float(theirs), rel=1e-6, abs=1e-8)


@settings(max_examples=25)
@given(
    name=gases,
    cold=st.floats(238.0, 300.0),
    shell=st.floats(260.0, 330.0),
    room=st.floats(270.0, 320.0),
    grams=st.floats(3.0, 250.0),
    oil_mass=oil_kg,
)
def test_resting_parts_share_one_pressure_and_hold_the_charge(
    name, cold, shell, room, grams, oil_mass
):
    gas, kept = refrigerant(name), oil("ester")
    found = rest(gas, 1e-3 * grams, places(cold, shell, room), kept, oil_mass)
    coldest = min(cold, shell, room)
    pressure = float(found.pressure)
    assert pressure <= float(gas.saturation_pressure(coldest)) * (1.0 + 1e-12)
    whole = found.vapour_mass + found.dissolved_mass + found.liquid_mass
    assert whole == pytest.approx(1e-3 * grams, rel=1e-12)
    # Independent of the search: each gas at its own warmth fills what liquid and oil leave.
    swollen = found.dissolved_mass / gas.saturated(shell).liquid_density
    # (The liquid's own place is as warm as `coldest`, whichever part that is.)
    parts = ((cold, 3e-4), (shell, 2e-3 - swollen), (room, 3.5e-4), (coldest, -found.liquid_volume))
    filled = sum(v * gas_density_at(gas, pressure, t) for t, v in parts)
    assert found.vapour_mass == pytest.approx(float(filled), rel=1e-5, abs=1e-7)
    ratio = pressure / float(gas.saturation_pressure(shell))
    assert found.dissolved_mass == pytest.approx(
        float(kept.dissolved_mass(name, ratio, shell, oil_mass)), rel=1e-6, abs=1e-9
    )
    # The liquid thins the oil only where the shell is the coldest.
    in_oil = found.dissolved_mass + (found.liquid_mass if shell < min(cold, room) else 0.0)
    assert found.oil_share == pytest.approx(float(in_oil / (oil_mass + in_oil)), rel=1e-9)


def test_a_colder_coil_draws_the_pressure_down_and_the_liquid_over():
    gas = refrigerant("R152a")
    cold = np.linspace(240.0, 295.0, 12)
    found = rest(gas, 0.06, places(cold, 295.0, 295.0), oil("ester"), 0.18)
    assert np.all(np.diff(found.pressure) >= 0.0)
    assert np.all(np.diff(found.liquid_mass) <= 0.0)
    assert np.all(np.diff(found.dissolved_mass) >= 0.0)
    assert found.liquid_mass[0] > 0.02


def test_more_than_the_volumes_hold_is_no_answer():
    found = rest(refrigerant("R134a"), np.array([0.1, 9.0]), places(260.0, 295.0, 295.0))
    assert np.isfinite(found.pressure[0])
    assert np.isnan(found.pressure[1])
