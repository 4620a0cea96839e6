"""Air against CoolProp's reference equations: pseudo-pure air and humid air (RP-1485)."""

import numpy as np
import pytest
from CoolProp.CoolProp import HAPropsSI, PropsSI

from coldwright.fluids import moist_air

TEMPERATURES = np.linspace(230.0, 350.0, 25)


@pytest.mark.parametrize(
    ("field", "key", "tolerance"),
    [
        ("density", "D", 0.002),
        ("specific_heat", "C", 0.001),
        ("dynamic_viscosity", "V", 0.007),
        ("conductivity", "L", 0.018),
        ("expansion_coefficient", "ISOBARIC_EXPANSION_COEFFICIENT", 0.006),
        ("prandtl", "PRANDTL", 0.015),
    ],
)
def test_dry_air(field, key, tolerance):
    expected = PropsSI(key, "T", TEMPERATURES, "P", 101325.0, "Air")
    found = getattr(moist_air.film_properties(TEMPERATURES), field)
    np.testing.assert_allclose(found, expected, rtol=tolerance)


def test_thin_air():
    expected = PropsSI("D", "T", 290.0, "P", 80e3, "Air")
    air = moist_air.film_properties(290.0, 80e3)
    assert air.density == pytest.approx(expected, rel=0.001)
    assert air.kinematic_viscosity == pytest.approx(
        PropsSI("V", "T", 290.0, "P", 80e3, "Air") / expected, rel=0.007
    )


def test_saturation_over_water():
    t = np.linspace(273.2, 350.0, 40)
    expected = PropsSI("P", "T", t, "Q", 0, "Water")
    np.testing.assert_allclose(moist_air.saturation_pressure(t), expected, rtol=1e-3)


@pytest.mark.parametrize("celsius", [-25.0, -10.0, 1.0, 5.0, 15.0, 25.0, 35.0, 45.0])
@pytest.mark.parametrize("humidity", [0.3, 0.6, 0.95])
@pytest.mark.parametrize("pressure", [75e3, 101325.0])
def test_humid_air(celsius, humidity, pressure):
    t = celsius + 273.15
    state = ("T", t, "R", humidity, "P", pressure)
    water = moist_air.humidity_ratio(t, humidity, pressure)
    # The enhancement factor (real mixture) that is left out is 0.3 to 0.5 %.
    assert water == pytest.approx(HAPropsSI("W", *state), rel=0.006)
    # Enthalpy at the library's own humidity ratio, so that only the enthalpy is compared.
    enthalpy = moist_air.enthalpy(t, HAPropsSI("W", *state))
    assert enthalpy == pytest.approx(HAPropsSI("H", *state), abs=250.0)
    assert moist_air.density(t, water, pressure) == pytest.approx(
        (1 + water) / HAPropsSI("V", *state), rel=0.002
    )
    assert moist_air.dew_point(t, humidity) == pytest.approx(HAPropsSI("D", *state), abs=0.03)
