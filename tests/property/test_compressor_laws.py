"""Laws of the compressor that hold for any machine: directions, conversions, uncertainty."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coldwright.arrays import lanes
from coldwright.fluids.refrigerants import refrigerant
from coldwright.parts.compressor import at_speed
from coldwright.parts.compressor_carry import carried_uncertainty
from coldwright.parts.compressor_fit import RatedPoints, fit_compressor
from coldwright.parts.compressor_rating import on_the_stand
from coldwright.parts.compressor_typical import class_point, spread_of, typical_compressor
from coldwright.parts.motor import (
    line_current,
    magnetising_at,
    magnetising_current,
    power_from_current,
)
from coldwright.shop.compressor_classes import compressor_class, compressor_class_names
from coldwright.shop.rating_conditions import rating_condition
from support.systems import compressor

GASES = ("R134a", "R152a", "R600a", "R290")
LBP = [name for name in compressor_class_names() if name.startswith("LBP")]
gas = st.sampled_from(GASES)
swept = st.floats(2e-6, 1.5e-5)


def made(name, fluid, displacement):
    """A class's machine, and its own rated point on `fluid`."""
    row, place = compressor_class(name), rating_condition("ASHRAE LBP")
    rating = (place.evaporating, place.condensing, place.return_gas)
    point = class_point(row, fluid, rating, displacement, 48.25)
    return row, typical_compressor(row, fluid, point, 48.25, displacement, 1.6e-3), point


@settings(max_examples=40)
@given(gas, swept, st.floats(0.005, 0.04))
def test_capacity_rises_with_suction_and_falls_with_head(name, displacement, clearance):
    machine = replace(compressor(displacement), clearance=lanes(clearance))
    evaporating = np.linspace(240.0, 268.0, 8)
    along = on_the_stand(machine, refrigerant(name), evaporating, 318.0, 300.0, 300.0)
    assert np.all(np.diff(along.capacity) > 0.0)
    condensing = np.linspace(305.0, 333.0, 8)
    up = on_the_stand(machine, refrigerant(name), 253.0, condensing, 300.0, 300.0)
    assert np.all(np.diff(up.state.mass_flow) < 0.0)
    # COP falls with head and rises with suction.
    assert np.all(np.diff(up.capacity / up.state.power) < 0.0)
    assert np.all(np.diff(along.capacity / along.state.power) > 0.0)


@settings(max_examples=12)
@given(gas, gas, st.sampled_from(LBP), st.floats(0.95, 1.05), st.floats(0.9, 1.1))
def test_a_rating_carried_to_another_gas_and_back(name, other, size, pumping, efficiency):
    """A rating carried to another gas and fitted there comes back to within 1 %.

    The fit starts from a class whose pumping and efficiency are off.
    """
    fluid, second = refrigerant(name), refrigerant(other)
    row, machine, _ = made(size, fluid, 5e-6)
    place = lanes([245.0, 252.0, 258.0]), lanes([328.0, 318.0, 323.0]), lanes(305.0)
    there = on_the_stand(machine, second, *place, 305.0)
    sheet = RatedPoints(
        place[0], place[1], lanes([305.0] * 3), there.state.mass_flow, there.state.power
    )
    start = replace(
        machine, pumping=machine.pumping * pumping, efficiency=machine.efficiency * efficiency
    )
    back = fit_compressor(start, spread_of(row, 0.02), second, sheet, 0.005).compressor
    rated, found = (on_the_stand(each, fluid, *place, 305.0) for each in (machine, back))
    np.testing.assert_allclose(found.capacity, rated.capacity, rtol=0.01)
    np.testing.assert_allclose(found.state.power, rated.state.power, rtol=0.01)


@given(gas, st.floats(0.6, 1.6))
def test_speed_there_and_back(name, ratio):
    machine = compressor(5e-6)
    again = at_speed(at_speed(machine, machine.speed * ratio), machine.speed)
    first, second = (
        on_the_stand(each, refrigerant(name), 250.0, 320.0, 300.0, 300.0)
        for each in (machine, again)
    )
    assert second.capacity == pytest.approx(first.capacity, rel=1e-12)
    fast = on_the_stand(
        at_speed(machine, machine.speed * 1.2), refrigerant(name), 250.0, 320.0, 300.0, 300.0
    )
    assert 1.1 < fast.capacity / first.capacity < 1.25


@settings(max_examples=15)
@given(st.sampled_from(LBP), st.floats(0.0, 0.5), st.floats(0.0, 0.5))
def test_uncertainty_grows_with_distance(size, near, more):
    fluid = refrigerant("R134a")
    row, machine, point = made(size, fluid, 5e-6)
    fit = fit_compressor(machine, spread_of(row, 0.0), fluid, point, 0.02)
    low = fluid.saturation_pressure(point.evaporating_temperature)
    high = fluid.saturation_pressure(point.condensing_temperature)

    def at(away, gas_name="R134a", speed=1.0):
        pressures = low * np.exp(away), high * np.exp(-away)
        return carried_uncertainty(fit, point, fluid, refrigerant(gas_name), *pressures, speed)

    assert at(0.0).flow[0] == pytest.approx(fit.standard_uncertainty[0])
    assert at(near + more).flow[0] >= at(near).flow[0] >= fit.standard_uncertainty[0]
    assert at(near + more).power[0] >= at(near).power[0]
    assert at(near, "R152a").flow[0] > at(near).flow[0]
    assert at(near, speed=1.2).power[0] > at(near).power[0]


@given(st.floats(20.0, 400.0), st.floats(100.0, 240.0), st.floats(0.1, 3.0))
def test_watts_and_amperes_there_and_back(power, voltage, idle):
    current = line_current(power, voltage, idle)
    assert magnetising_current(power, voltage, current) == pytest.approx(idle, rel=1e-6)
    assert power_from_current(current, voltage, idle) == pytest.approx(power, rel=1e-6)
    assert power_from_current(0.9 * idle, voltage, idle) == 0.0
    assert magnetising_at(magnetising_at(idle, 1.1, 1.2), 1 / 1.1, 1 / 1.2) == pytest.approx(idle)
