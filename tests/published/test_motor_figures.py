"""Motor, lead and rating conditions against readings, a sheet's currents and standards."""

import numpy as np
import pytest

from coldwright.parts.compressor_shell import cooling_time, shell_conductance, winding_temperature
from coldwright.parts.lead import lead_resistance, wire_gauge_area
from coldwright.parts.motor import (
    line_current,
    magnetising_current,
    power_factor,
    power_from_current,
)
from coldwright.shop.compressor_classes import compressor_class
from coldwright.shop.rating_conditions import rating_condition
from support import compressor_map as sheet


# Readings of a 1/8 hp motor at 115 to 120 V: common practice, no source.
def test_a_small_motor_read_once_gives_its_other_readings():
    idle = magnetising_current(163.0, 120.0, 1.79)
    assert line_current(155.0, 120.0, idle) == pytest.approx(1.75, rel=0.02)
    # Far from the reading: never below the magnetising current, power factor within 0 and 1.
    watts = np.array([1.0, 60.0, 100.0, 250.0, 400.0])
    amps = line_current(watts, 120.0, idle)
    assert np.all((amps > idle) & (np.diff(amps, prepend=0.0) > 0.0))
    factor = power_factor(watts, 120.0, amps)
    assert np.all((factor > 0.0) & (factor < 1.0) & (np.diff(factor, prepend=0.0) > 0.0))
    assert 1.2 < line_current(60.0, 120.0, idle) < 1.35


# F. Fortkamp, REF0001 (2022), read: watts and amperes of twelve points; no voltage is named.
def test_watts_from_the_amperes_of_the_sheet():
    idle = magnetising_current(sheet.POWER[sheet.MIDDLE], 220.0, sheet.CURRENT[sheet.MIDDLE])
    found = power_from_current(sheet.CURRENT, 220.0, idle)
    # Amperes rounded to 0.01 near the magnetising current: watts follow only roughly.
    np.testing.assert_allclose(found, sheet.POWER, rtol=0.12)


# ASTM B258 (from memory): 14 AWG 1.628 mm, 2.08 mm2; 12 AWG 3.31 mm2; 10 AWG 5.26 mm2.
@pytest.mark.parametrize(("gauge", "area"), [(14, 2.08e-6), (12, 3.31e-6), (10, 5.26e-6)])
def test_wire_gauges(gauge, area):
    assert wire_gauge_area(float(gauge)) == pytest.approx(area, rel=3e-3)


# NEC chapter 9 table 8 (from memory): solid uncoated 14 AWG 3.07, 12 AWG 1.93, 10 AWG 1.21 ohm per
# 1000 ft at 75 C, one wire.
@pytest.mark.parametrize(("gauge", "ohm"), [(14, 3.07), (12, 1.93), (10, 1.21)])
def test_resistance_of_a_lead(gauge, ohm):
    pair = lead_resistance(304.8, wire_gauge_area(float(gauge)), 348.15)
    assert pair == pytest.approx(2.0 * ohm, rel=0.01)


# ASHRAE 23 and EN 12900 (from memory): -10, 130 and 90 F are the low group's temperatures.
def test_rating_conditions():
    low = rating_condition("ashrae lbp")
    fahrenheit = [
        1.8 * (t - 273.15) + 32.0 for t in (low.evaporating, low.condensing, low.return_gas)
    ]
    np.testing.assert_allclose(fahrenheit, [-10.0, 130.0, 90.0], atol=0.1)
    assert low.liquid == low.return_gas
    household = rating_condition("EN 12900 household")
    assert household.liquid == household.condensing


# "Shell about 1.3 to 1.8 W/K" of a static-cooled machine (from memory).
@pytest.mark.parametrize(("diameter", "height"), [(0.15, 0.17), (0.17, 0.18)])
def test_shell_conductance_from_its_size(diameter, height):
    assert 1.3 < shell_conductance(diameter, height) < 1.8


# A shell cools to room temperature in some hours (common practice, no source).
def test_a_stopped_shell_cools_within_hours():
    row = compressor_class("LBP 1/8 hp")
    found = cooling_time(row.shell_mass.value, row.shell_conductance.value)
    assert 20 * 60 < found < 90 * 60


# Windings 10 to 30 K above the shell in steady running (common practice, no source).
def test_winding_above_shell():
    row = compressor_class("LBP 1/8 hp")
    efficiency, conductance = row.electrical_efficiency.value, row.shell_conductance.value
    rise = winding_temperature(340.0, 100.0, efficiency, conductance) - 340.0
    assert 10.0 < rise < 30.0
