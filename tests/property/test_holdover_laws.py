"""Laws of a filling and of a holdover that hold for any drawn one."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

import box_scenario as box
from coldwright.fluids.filling import COLDEST, WARMEST, filling
from coldwright.parts.cold_side.frozen_layer import frozen_layer_resistance, frozen_layer_thickness
from coldwright.parts.cold_side.holdover import store_time

FILLINGS = (
    ("water", 0.0),
    ("potassium chloride eutectic", 0.0),
    ("sodium chloride eutectic", 0.0),
    ("ammonium chloride eutectic", 0.0),
    ("propylene glycol", 0.02),
    ("propylene glycol", 0.25),
    ("ethylene glycol", 0.15),
    ("ethanol", 0.10),
    ("calcium chloride", 0.12),
    ("sodium chloride", 0.10),
)
fillings = st.sampled_from(FILLINGS)
lines = st.lists(st.floats(COLDEST, WARMEST), min_size=2, max_size=9, unique=True)


@given(each=fillings, drawn=lines)
def test_enthalpy_rises_and_comes_back(each, drawn):
    store = filling(*each)
    temperature = np.sort(np.array(drawn))
    enthalpy = store.enthalpy(temperature)
    far = np.diff(temperature) > 1e-6
    assert np.all(np.diff(enthalpy)[far] > 0.0)
    assert np.allclose(store.temperature(enthalpy), temperature, atol=1e-8)
    share = store.frozen_share(enthalpy)
    assert np.all((share >= 0.0) & (share <= 1.0))
    assert np.all(np.diff(share) <= 0.0)
    assert np.allclose(share, store.frozen_share_at(temperature), atol=1e-9)


@given(each=fillings, shares=st.lists(st.floats(0.0, 1.0), min_size=1, max_size=9))
def test_share_and_melting_temperature_are_inverse(each, shares):
    store = filling(*each)
    temperature = store.melting_temperature(np.array(shares))
    assert np.all((temperature >= store.last_ice) & (temperature <= store.first_ice))
    assert np.allclose(store.frozen_share_at(temperature), shares, atol=1e-9)


@given(each=fillings, temperature=st.floats(COLDEST, WARMEST))
def test_enthalpy_has_no_step(each, temperature):
    store = filling(*each)
    rise = store.enthalpy(temperature + 1e-5) - store.enthalpy(temperature)
    # 0.1 K of melting span holds 3.4 MJ/(kg K) at most
    assert 0.0 <= rise < 1e-5 * 3.5e6


@settings(max_examples=30)
@given(
    each=fillings,
    shares=st.lists(st.floats(0.0, 1.0), min_size=2, max_size=6, unique=True),
    pitch=st.floats(0.004, 0.08),
    colder=st.floats(0.5, 20.0),
)
def test_the_more_is_frozen_the_less_the_coil_takes(each, shares, pitch, colder):
    store = box.holdover(*each, np.sort(np.array(shares)), pitch)
    source = store.filling.first_ice
    conductance = store.outer_conductance_per_length(source, source - colder)
    melted = box.holdover(*each, 0.0, pitch).outer_conductance_per_length(source, source - colder)
    assert np.all(np.diff(conductance) <= 0.0)
    assert np.all(conductance <= melted * (1.0 + 1e-12))
    assert np.all(np.diff(store.frozen_layer) >= 0.0)


@given(
    areas=st.lists(st.floats(0.0, 5e-3), min_size=2, max_size=8),
    pitch=st.floats(0.001, 0.1),
)
def test_the_layer_has_no_step(areas, pitch):
    area = np.sort(np.array(areas))
    for function in (
        frozen_layer_thickness,
        lambda *sizes: frozen_layer_resistance(*sizes, 2.2),
    ):
        value, beyond = function(area, 0.0064, pitch), function(area + 1e-9, 0.0064, pitch)
        assert np.all(np.diff(value) >= 0.0)
        assert np.all((beyond >= value) & (beyond - value < 1e-3))
    assert frozen_layer_resistance(0.0, 0.0064, pitch, 2.2) == 0.0


@given(store=st.floats(1e3, 1e8), heat=st.floats(0.1, 1e3))
def test_twice_the_heat_takes_half_the_time(store, heat):
    once, twice = store_time(store, heat), store_time(store, 2.0 * heat)
    assert np.isclose(once, 2.0 * twice)
    assert store_time(store, -heat) == store_time(store, 0.0) == np.inf
