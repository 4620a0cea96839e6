"""Moist air against tables and handbooks."""

import numpy as np
import pytest

from coldwright.fluids import moist_air

IAPWS = "steam tables (IAPWS-IF97), from memory"
ICE = "ASHRAE Fundamentals ch. 1 table 3, saturation over ice, from memory"
DEW = "computed with a psychrometric library (outside figures, cabinet table)"


@pytest.mark.parametrize(
    ("celsius", "pascal", "source"),
    [
        (-40.0, 12.84, ICE),
        (-20.0, 103.24, ICE),
        (-10.0, 259.87, ICE),
        (0.01, 611.657, IAPWS),
        (5.0, 872.6, IAPWS),
        (20.0, 2339.2, IAPWS),
        (40.0, 7384.9, IAPWS),
        (70.0, 31201.0, IAPWS),
    ],
)
def test_saturation_pressure(celsius, pascal, source):
    assert moist_air.saturation_pressure(celsius + 273.15) == pytest.approx(pascal, rel=1e-3)


@pytest.mark.parametrize(
    ("celsius", "humidity", "dew", "source"),
    [
        (20.0, 0.50, 9.27, DEW),
        (25.0, 0.60, 16.70, DEW),
        (30.0, 0.70, 23.93, DEW),
        (32.0, 0.75, 27.01, DEW),
    ],
)
def test_dew_point(celsius, humidity, dew, source):
    found = moist_air.dew_point(celsius + 273.15, humidity) - 273.15
    assert found == pytest.approx(dew, abs=0.1)


@pytest.mark.parametrize(
    ("kelvin", "density", "heat", "viscosity", "conductivity", "prandtl"),
    [
        # Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, table A.4, from memory.
        (250.0, 1.3947, 1006.0, 159.6e-7, 22.3e-3, 0.720),
        (300.0, 1.1614, 1007.0, 184.6e-7, 26.3e-3, 0.707),
        (350.0, 0.9950, 1009.0, 208.2e-7, 30.0e-3, 0.700),
    ],
)
def test_film_properties(kelvin, density, heat, viscosity, conductivity, prandtl):
    air = moist_air.film_properties(kelvin)
    # The table is of 1 atm with R = 287.0 and rounds to 0.2 %.
    assert air.density == pytest.approx(density, rel=0.015)
    assert air.specific_heat == pytest.approx(heat, rel=0.002)
    assert air.dynamic_viscosity == pytest.approx(viscosity, rel=0.006)
    assert air.conductivity == pytest.approx(conductivity, rel=0.01)
    assert air.prandtl == pytest.approx(prandtl, rel=0.015)


def test_opening_the_door_of_a_cold_room_in_thin_air():
    """Cengel, Thermodynamics, door example (from memory): 0.3 m3, 20 times a day, 95 kPa."""
    outside, inside = 293.15, 277.15
    # The example takes the air that leaves, at 4 °C, for the mass exchanged.
    sensible = 20 * 0.3 * moist_air.density(inside, 0.0, 95e3) * 1005.0 * (outside - inside)
    assert sensible == pytest.approx(115.2e3, rel=0.01)
    latent = 20 * 0.3 * moist_air.density(inside, 0.0, 95e3) * (0.010 - 0.004) * 2.492e6
    assert latent == pytest.approx(107.1e3, rel=0.01)


def test_psychrometric_chart_point():
    """ASHRAE chart no. 1 at 25 °C, 50 %: 9.9 g/kg, 50.3 kJ/kg (from memory)."""
    water = moist_air.humidity_ratio(298.15, 0.5)
    assert water == pytest.approx(0.0099, rel=0.01)
    assert moist_air.enthalpy(298.15, water) == pytest.approx(50.3e3, rel=0.01)
    assert moist_air.relative_humidity(298.15, water) == pytest.approx(0.5, rel=1e-12)
    assert np.asarray(moist_air.density(298.15, water)) == pytest.approx(1.177, rel=0.003)
