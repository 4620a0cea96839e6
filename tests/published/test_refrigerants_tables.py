"""Refrigerant properties against printed tables.

Printed for engineers' use from the equations of their day (ASHRAE's from the equations of
Tillner-Roth and Baehr, Kamei and others; Stoecker and Jones from older ones). Enthalpies are
compared as heats of vaporisation, since reference states differ. All figures from memory.
"""

import pytest

from coldwright.fluids.refrigerants import refrigerant

ASHRAE = "ASHRAE Handbook, Fundamentals, thermophysical properties of refrigerants (from memory)"
STOECKER = "Stoecker and Jones 1982, tables A-5 and A-6 (from memory)"

# Fluid, C, kPa, liquid kg/m3, vapour m3/kg, heat of vaporisation kJ/kg, source.
SATURATION = [
    ("R134a", -40.0, 51.21, 1417.7, 0.36108, 225.86, ASHRAE),
    ("R134a", -20.0, 132.73, 1358.3, 0.14739, 212.92, ASHRAE),
    ("R134a", 0.0, 292.80, 1294.8, 0.06931, 198.60, ASHRAE),
    ("R134a", 20.0, 571.71, 1225.3, 0.03600, 182.28, ASHRAE),
    ("R134a", 40.0, 1016.6, 1146.7, 0.01997, 163.02, ASHRAE),
    ("R134a", 60.0, 1681.8, 1052.9, 0.01144, 139.13, ASHRAE),
    ("R22", 0.0, 497.99, 1281.5, 0.04711, 205.05, ASHRAE),
    ("R22", 40.0, 1533.6, 1128.5, 0.01511, 166.60, ASHRAE),
]


@pytest.mark.parametrize(
    ("name", "celsius", "kilopascal", "liquid", "vapour", "latent", "source"), SATURATION
)
def test_saturation_as_printed(name, celsius, kilopascal, liquid, vapour, latent, source):
    at = refrigerant(name).saturated(celsius + 273.15)
    assert at.pressure == pytest.approx(1e3 * kilopascal, rel=3e-4)
    assert at.liquid_density == pytest.approx(liquid, rel=1e-4)
    assert 1.0 / at.vapour_density == pytest.approx(vapour, rel=5e-4)
    assert at.latent_heat == pytest.approx(1e3 * latent, rel=3e-4)


# The book's own equations of 1982: they differ from today's by up to about 1 %.
@pytest.mark.parametrize(
    ("name", "celsius", "kilopascal", "vapour", "latent", "source"),
    [
        ("R12", 0.0, 308.61, 0.0553892, 351.477 - 200.0, STOECKER),
        ("R22", 0.0, 497.567, 0.0471354, 405.361 - 200.0, STOECKER),
        ("R22", 40.0, 1533.52, 0.0151351, 416.561 - 249.686, STOECKER),
    ],
)
def test_saturation_in_a_text_book(name, celsius, kilopascal, vapour, latent, source):
    at = refrigerant(name).saturated(celsius + 273.15)
    assert at.pressure == pytest.approx(1e3 * kilopascal, rel=2e-3)
    assert 1.0 / at.vapour_density == pytest.approx(vapour, rel=1.1e-2)
    assert at.latent_heat == pytest.approx(1e3 * latent, rel=1e-2)


# ANSI/ASHRAE Standard 34, tables of refrigerant data: boiling points at 101.325 kPa, rounded to
# 0.1 K; critical temperatures in the ASHRAE Handbook, Fundamentals (all from memory).
@pytest.mark.parametrize(
    ("name", "boiling", "critical"),
    [
        ("R152a", -24.0, 113.3),
        ("R134a", -26.1, 101.1),
        ("R600a", -11.7, 134.7),
        ("R290", -42.1, 96.7),
        ("R1270", -47.6, 91.1),
        ("R1234yf", -29.5, 94.7),
        ("R12", -29.8, 112.0),
        ("R22", -40.8, 96.1),
    ],
)
def test_boiling_and_critical_temperature(name, boiling, critical):
    fluid = refrigerant(name)
    assert fluid.saturation_temperature(101325.0) - 273.15 == pytest.approx(boiling, abs=0.06)
    assert fluid.critical_temperature - 273.15 == pytest.approx(critical, abs=0.1)


# ANSI/ASHRAE Standard 34, molecular mass [g/mol] (from memory).
@pytest.mark.parametrize(
    ("name", "grams"),
    [
        ("R152a", 66.05),
        ("R134a", 102.03),
        ("R600a", 58.12),
        ("R290", 44.10),
        ("R1270", 42.08),
        ("R1234yf", 114.04),
        ("R12", 120.91),
        ("R22", 86.47),
    ],
)
def test_molar_mass(name, grams):
    fluid = refrigerant(name)
    assert 1e3 * fluid.molar_mass == pytest.approx(grams, abs=0.006)
    assert fluid.gas_constant == pytest.approx(8.314462618 / fluid.molar_mass, rel=1e-9)
