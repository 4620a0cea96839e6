"""What must hold for any draw: monotone, bounded, invertible, held outside the range."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.fluids import moist_air
from coldwright.fluids.brines import brine, brine_names
from coldwright.fluids.oil_pairs import PAIRS
from coldwright.fluids.oils import oil

KELVIN = st.floats(231.0, 349.0)
SHARE = st.floats(0.02, 0.999)


@given(KELVIN, SHARE)
def test_dew_point_inverts_saturation(temperature, humidity):
    dew = moist_air.dew_point(temperature, humidity)
    assert dew <= temperature + 1e-9
    wanted = humidity * moist_air.saturation_pressure(temperature)
    assert moist_air.saturation_pressure(dew) == pytest.approx(wanted, rel=1e-6)


@given(st.floats(272.9, 273.4))
def test_saturation_has_no_step_at_the_triple_point(temperature):
    pressure = moist_air.saturation_pressure(np.array([temperature, temperature + 1e-4]))
    slope = np.diff(np.log(pressure)) / 1e-4
    assert 0.06 < slope[0] < 0.09


@given(KELVIN, SHARE, st.floats(60e3, 110e3))
def test_humidity_ratio_inverts(temperature, humidity, pressure):
    t = min(temperature, 320.0)
    water = moist_air.humidity_ratio(t, humidity, pressure)
    assert moist_air.relative_humidity(t, water, pressure) == pytest.approx(humidity, rel=1e-9)
    assert moist_air.density(t, water, pressure) < moist_air.density(t, 0.0, pressure)


@given(st.sampled_from(brine_names()), st.floats(0.0, 1.0), st.floats(200.0, 400.0))
def test_brines_are_positive_and_held(kind, share, temperature):
    greatest = {"calcium chloride": 0.30, "sodium chloride": 0.23, "water": 0.0}.get(kind, 0.60)
    # Steps of 2 %, so that a few curves are made, not one for each draw.
    mixture = brine(kind, round(share * greatest * 50) / 50 if kind != "water" else 0.0)
    least, most = mixture.valid_range
    assert least >= mixture.freezing_temperature
    found = mixture.properties(temperature)
    assert found.density > 800.0
    assert 2000.0 < found.specific_heat < 4800.0
    assert 0.2 < found.conductivity < 0.7
    assert found.dynamic_viscosity > 1e-4
    assert -1e-4 < found.expansion_coefficient < 2e-3
    held = float(np.clip(temperature, least, most))
    assert found.density == mixture.density(held)
    assert mixture.expansion_from(held, held) == 0.0


@given(
    st.sampled_from(sorted(PAIRS)),
    st.floats(225.0, 405.0),
    st.lists(st.floats(0.0, 2.0), min_size=2, max_size=40),
)
def test_oil_takes_more_at_higher_pressure(pair, temperature, ratios):
    kind, refrigerant = pair
    ratios = np.sort(np.array([0.0, *ratios]))
    share = oil(kind).solubility(refrigerant, ratios, temperature)
    assert share[0] == 0.0
    assert np.all(np.diff(share) >= -1e-12)
    assert np.all(share < 0.6)


def test_oil_tables_rise_everywhere():
    t, ratio = np.linspace(225.0, 405.0, 181)[:, None], np.linspace(0.0, 1.3, 1301)[None, :]
    for kind, refrigerant in PAIRS:
        share = oil(kind).solubility(refrigerant, ratio, t)
        assert np.diff(share, axis=1).min() > 0.0, (kind, refrigerant)


@given(st.sampled_from(sorted(PAIRS)), st.floats(240.0, 390.0), st.floats(0.01, 1.2))
def test_oil_has_a_slope_everywhere(pair, temperature, ratio):
    """A central and a one-sided difference agree: no kink for Newton to trip over."""
    step = 1e-5
    at = np.array([ratio - step, ratio, ratio + step])
    share = oil(pair[0]).solubility(pair[1], at, temperature)
    left, right = np.diff(share) / step
    assert right == pytest.approx(left, rel=0.02, abs=2e-3)


@given(st.floats(0.0, 1.2), st.floats(0.05, 0.4))
def test_dissolved_mass_is_share_of_solution(ratio, oil_mass):
    subject = oil("ester")
    share = subject.solubility("R152a", ratio, 310.0)
    mass = subject.dissolved_mass("R152a", ratio, 310.0, oil_mass)
    assert mass / (mass + oil_mass) == pytest.approx(share, abs=1e-12)
