"""What a maker reads, in shop units and in SI."""

import math

import numpy as np
import pytest

from coldwright.units import Kind, atmosphere_at, format_estimate, format_quantity


@pytest.mark.parametrize(
    ("value", "kind", "shop", "si"),
    [
        (278.15, Kind.temperature, "41.0 °F", "5.0 °C"),
        (273.15, Kind.temperature, "32.0 °F", "0.0 °C"),
        (5.0, Kind.temperature_difference, "9.0 °F diff", "5.0 K"),
        (170272.573, Kind.absolute_pressure, "10.0 psig", "170.3 kPa abs"),
        (101325.0, Kind.absolute_pressure, "0.0 psig", "101.3 kPa abs"),
        (101300.0, Kind.absolute_pressure, "0.0 psig", "101.3 kPa abs"),
        (67461.11, Kind.absolute_pressure, "10.0 inHg vacuum", "67.5 kPa abs"),
        (66.6611937, Kind.absolute_pressure, "500 micron", "66.7 Pa abs"),
        (68947.573, Kind.gauge_pressure, "10.0 psig", "68.9 kPa gauge"),
        (-16931.945, Kind.gauge_pressure, "5.0 inHg vacuum", "-16.9 kPa gauge"),
        (20000.0, Kind.pressure_difference, "2.9 psi", "20 kPa"),
        (50.0, Kind.pressure_difference, "0.201 inH2O", "50 Pa"),
        (0.0047625, Kind.length, "3/16 in", "4.76 mm"),
        (0.03175, Kind.length, "1 1/4 in", "31.8 mm"),
        (0.1524, Kind.length, "6 in", "152 mm"),
        (-0.03175, Kind.length, "-1 1/4 in", "-31.8 mm"),
        (0.06, Kind.length, "2.36 in", "60 mm"),
        (12.0, Kind.length, "39.4 ft", "12 m"),
        (0.0, Kind.length, "0 in", "0 mm"),
        (0.04, Kind.mass, "1.41 oz", "40 g"),
        (20.0, Kind.mass, "44.1 lb", "20 kg"),
        (4.5e-6, Kind.volume, "0.275 in3", "4.5 mL"),
        (3.5e-4, Kind.volume, "11.8 floz", "350 mL"),
        (0.02, Kind.volume, "5.28 gal", "20 L"),
        (30.0, Kind.volume, "1059 ft3", "30 m3"),
        (0.005, Kind.area, "7.75 in2", "50 cm2"),
        (90.0, Kind.power, "90 W", "90 W"),
        (90.0, Kind.heat_flow, "307 Btu/h", "90 W"),
        (2.88e6, Kind.energy, "800 Wh", "800 Wh"),
        (3.6e6, Kind.energy, "1 kWh", "1 kWh"),
        (0.035, Kind.conductivity, "0.243 Btu in/(h ft2 °F)", "0.035 W/(m K)"),
        (8.0, Kind.film_coefficient, "1.41 Btu/(h ft2 °F)", "8 W/(m2 K)"),
        (3600.0, Kind.specific_heat, "0.86 Btu/(lb °F)", "3.6 kJ/(kg K)"),
        (90.0, Kind.time, "90 s", "90 s"),
        (900.0, Kind.time, "15 min", "15 min"),
        (36000.0, Kind.time, "10 h", "10 h"),
        (0.4, Kind.ratio, "40 %", "40 %"),
        (6.0, Kind.number, "6", "6"),
        (1.0e-8, Kind.number, "1.00e-08", "1.00e-08"),
        (math.nan, Kind.length, "not known", "not known"),
        (math.inf, Kind.temperature, "not known", "not known"),
    ],
)
def test_format(value, kind, shop, si):
    assert format_quantity(value, kind, "shop") == shop
    assert format_quantity(value, kind, "si") == si


def test_digits_are_decimals_and_put_fractions_away():
    assert format_quantity(0.0047625, Kind.length, "shop", digits=3) == "0.188 in"
    assert format_quantity(278.15, Kind.temperature, "si", digits=0) == "5 °C"
    assert format_quantity(-1e-9, Kind.temperature_difference, "si", digits=2) == "0.00 K"


def test_gauge_shows_from_the_atmosphere_of_the_place():
    text = format_quantity(101325.0, Kind.absolute_pressure, "shop", atmosphere_Pa=84000.0)
    assert text == "2.5 psig"


def test_numpy_scalars_are_shown_like_floats():
    assert format_quantity(np.float64(278.15), Kind.temperature, "si") == "5.0 °C"
    assert format_quantity(np.float64(0.04), Kind.mass, "si") == "40 g"


@pytest.mark.parametrize(
    ("value", "uncertainty", "kind", "system", "text"),
    [
        (278.15, 0.5, Kind.temperature, "si", "5.0 ± 1.0 °C"),
        (278.15, 0.5, Kind.temperature, "shop", "41.0 ± 1.8 °F"),
        (0.04, 0.001, Kind.mass, "si", "40.0 ± 2.0 g"),
        (0.4, 0.025, Kind.ratio, "si", "40.0 % ± 5.0 %"),
        (6.0, 1.0, Kind.number, "si", "6.0 ± 2.0"),
        (67461.11, 1693.1945, Kind.absolute_pressure, "shop", "10.0 ± 1.0 inHg vacuum"),
        (90.0, 0.0, Kind.power, "si", "90 W"),
        (90.0, math.nan, Kind.power, "si", "90 W"),
        (math.nan, 1.0, Kind.power, "si", "not known"),
    ],
)
def test_estimate(value, uncertainty, kind, system, text):
    assert format_estimate(value, uncertainty, kind, system) == text


def test_atmosphere_takes_arrays():
    pressures = atmosphere_at(np.array([0.0, 1500.0]))
    assert pressures.shape == (2,)
    assert pressures[1] == atmosphere_at(1500.0)
