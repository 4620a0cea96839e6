"""Factors against the unit definitions of pint and SciPy, the atmosphere against `fluids`."""

import fluids.atmosphere
import pint
import pytest
import scipy.constants

from coldwright.units import atmosphere_at
from coldwright.units.registry import factor

# Ours, the SI unit (spelt alike in both), and pint's own name for it.
PAIRS = [
    ("inch", "meter", "inch"),
    ("yard", "meter", "yard"),
    ("pound", "kilogram", "pound"),
    ("ounce", "kilogram", "ounce"),
    ("gallon", "meter**3", "gallon"),
    ("quart", "meter**3", "quart"),
    ("fluid_ounce", "meter**3", "fluid_ounce"),
    ("psi", "pascal", "pound_force_per_square_inch"),
    ("torr", "pascal", "torr"),
    ("atmosphere", "pascal", "standard_atmosphere"),
    ("millimeter_mercury", "pascal", "millimeter_Hg"),
    ("inch_mercury", "pascal", "inch_Hg"),
    ("btu", "joule", "international_british_thermal_unit"),
    ("horsepower", "watt", "horsepower"),
    ("watt_hour", "joule", "watt_hour"),
    ("cubic_foot_per_minute", "meter**3/second", "foot**3/minute"),
    ("degree_angle", "radian", "degree"),
    (
        "btu*inch/(hour*foot**2*fahrenheit)",
        "watt/(meter*kelvin)",
        "international_british_thermal_unit*inch/hour/foot**2/delta_degree_Fahrenheit",
    ),
]


@pytest.fixture(scope="module")
def pint_units():
    return pint.UnitRegistry()


@pytest.mark.parametrize(("ours", "si_unit", "theirs"), PAIRS)
def test_factors_agree_with_pint(pint_units, ours, si_unit, theirs):
    expected = pint_units.Quantity(1.0, theirs).to(si_unit).magnitude
    # The conventional mercury column has seven figures.
    assert factor(ours, si_unit) == pytest.approx(expected, rel=3e-7)


@pytest.mark.parametrize(
    ("ours", "si_unit", "theirs"),
    [
        ("inch", "meter", scipy.constants.inch),
        ("pound", "kilogram", scipy.constants.pound),
        ("ounce", "kilogram", scipy.constants.oz),
        ("psi", "pascal", scipy.constants.psi),
        ("atmosphere", "pascal", scipy.constants.atm),
        ("torr", "pascal", scipy.constants.torr),
        ("btu", "joule", scipy.constants.Btu_IT),
        ("kilocalorie", "joule", 1000.0 * scipy.constants.calorie_IT),
        ("horsepower", "watt", scipy.constants.hp),
        ("gallon", "meter**3", scipy.constants.gallon),
        ("fluid_ounce", "meter**3", scipy.constants.fluid_ounce),
        ("degree_angle", "radian", scipy.constants.degree),
        ("fahrenheit", "kelvin", scipy.constants.degree_Fahrenheit),
    ],
)
def test_factors_agree_with_scipy(ours, si_unit, theirs):
    assert factor(ours, si_unit) == pytest.approx(theirs, rel=1e-9)


@pytest.mark.parametrize("altitude_m", [0.0, 500.0, 1500.0, 3000.0, 5000.0])
def test_atmosphere_agrees_with_fluids(altitude_m):
    # `fluids` takes the geometric altitude: the one whose geopotential altitude is ours.
    earth_radius = 6356766.0
    geometric = earth_radius * altitude_m / (earth_radius - altitude_m)
    theirs = fluids.atmosphere.ATMOSPHERE_1976(geometric).P
    assert atmosphere_at(altitude_m) == pytest.approx(theirs, rel=1e-5)
    # Taking the altitude as it is costs little, as the docstring says.
    assert atmosphere_at(altitude_m) == pytest.approx(
        fluids.atmosphere.ATMOSPHERE_1976(altitude_m).P, rel=1e-3
    )
