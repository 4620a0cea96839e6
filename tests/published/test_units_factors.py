"""Conversion factors and the standard atmosphere against published tables."""

import pytest

from coldwright.units import Kind, atmosphere_at, parse_quantity

# NIST SP 811 (2008), Appendix B.8, seven figures each; from memory. International Table Btu,
# conventional mercury and water columns, avoirdupois ounce, United States gallon.
FACTORS = [
    ("1 in", Kind.length, 2.54e-2),
    ("1 ft", Kind.length, 3.048e-1),
    ("1 in2", Kind.area, 6.4516e-4),
    ("1 ft2", Kind.area, 9.290304e-2),
    ("1 in3", Kind.volume, 1.638706e-5),
    ("1 floz", Kind.volume, 2.957353e-5),
    ("1 gal", Kind.volume, 3.785412e-3),
    ("1 ft3", Kind.volume, 2.831685e-2),
    ("1 oz", Kind.mass, 2.834952e-2),
    ("1 lb", Kind.mass, 4.535924e-1),
    ("1 psia", Kind.absolute_pressure, 6.894757e3),
    ("1 inHg abs", Kind.absolute_pressure, 3.386389e3),
    ("1 mmHg abs", Kind.absolute_pressure, 1.333224e2),
    ("1 torr", Kind.absolute_pressure, 1.333224e2),
    ("1000 micron", Kind.absolute_pressure, 1.333224e2),
    ("1 atm", Kind.absolute_pressure, 1.01325e5),
    ("1 bar", Kind.absolute_pressure, 1e5),
    ("1 inH2O", Kind.pressure_difference, 2.490889e2),
    ("1 Btu", Kind.energy, 1.055056e3),
    ("1 kcal", Kind.energy, 4.1868e3),
    ("1 kWh", Kind.energy, 3.6e6),
    ("1 Btu/h", Kind.heat_flow, 2.930711e-1),
    ("1 hp", Kind.power, 7.456999e2),
    ("1 Btu in/(h ft2 F)", Kind.conductivity, 1.442279e-1),
    ("1 Btu/(h ft F)", Kind.conductivity, 1.730735),
    ("1 Btu/(h ft2 F)", Kind.film_coefficient, 5.678263),
    ("1 Btu/(lb F)", Kind.specific_heat, 4.1868e3),
    ("1 lb/ft3", Kind.density, 1.601846e1),
    ("1 lb/h", Kind.mass_flow, 1.259979e-4),
    ("1 cfm", Kind.volume_flow, 4.719474e-4),
    ("1 ft/min", Kind.velocity, 5.08e-3),
    ("1 deg", Kind.angle, 1.745329e-2),
]


@pytest.mark.parametrize(("text", "kind", "factor"), FACTORS)
def test_factor(text, kind, factor):
    assert parse_quantity(text, kind, field="x").value == pytest.approx(factor, rel=4e-7)


# ITS-90 fixed points and the definition of the Celsius scale; from memory.
@pytest.mark.parametrize(
    ("text", "kelvin"),
    [
        ("0 °C", 273.15),
        ("32 °F", 273.15),
        ("0.01 °C", 273.16),
        ("-40 °F", 233.15),
        ("-40 °C", 233.15),
        ("212 °F", 373.15),
        ("-38.8344 °C", 234.3156),
    ],
)
def test_temperature_scale(text, kelvin):
    assert parse_quantity(text, Kind.temperature, field="x").value == pytest.approx(
        kelvin, abs=1e-9
    )


# ICAO Doc 7488/3 (1993), table of the standard atmosphere by geopotential altitude; from memory.
@pytest.mark.parametrize(
    ("altitude_m", "pressure_Pa"),
    [
        (-1000.0, 113929.0),
        (0.0, 101325.0),
        (1000.0, 89874.6),
        (2000.0, 79495.2),
        (3000.0, 70108.5),
        (5000.0, 54019.9),
        (11000.0, 22632.0),
    ],
)
def test_standard_atmosphere(altitude_m, pressure_Pa):
    assert atmosphere_at(altitude_m) == pytest.approx(pressure_Pa, rel=1e-5)


def test_full_vacuum_on_a_shop_gauge():
    # Common practice, no source: 29.92 inHg is the full vacuum of a shop gauge at sea level.
    text = "29.92 inHg vacuum"
    value = parse_quantity(text, Kind.absolute_pressure, field="x").value
    assert 0.0 < value < 20.0
