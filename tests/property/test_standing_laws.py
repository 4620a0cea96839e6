"""A stopped system: what must hold for any charge, volume, temperature and oil."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coldwright.fluids.burst_protection import KINDS, burst_temperature
from coldwright.fluids.gauge_dial import dial_temperature
from coldwright.fluids.oils import oil, oil_names
from coldwright.fluids.refrigerants import refrigerant, refrigerant_names
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
