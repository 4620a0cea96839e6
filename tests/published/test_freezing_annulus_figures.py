"""A lying annulus and an ice front against worked examples of heat transfer texts."""

import pytest
from CoolProp.CoolProp import PropsSI

from coldwright.heat.free_convection.annulus import (
    concentric_cylinders_conductance,
    concentric_cylinders_conductivity_ratio,
    concentric_cylinders_length,
)
from coldwright.heat.free_convection.numbers import rayleigh_number
from coldwright.heat.freezing import plane_freezing_time

INNER, OUTER, DIFFERENCE, FILM = 0.100, 0.120, 85.0, 350.65  # m, m, 120/35 C


def printed_air():
    # k, nu, alpha, Pr as the example states them, FROM MEMORY
    return 0.030, 20.92e-6, 29.9e-6, 0.697


def todays_air():
    k, cp, mu, rho = (PropsSI(x, "T", FILM, "P", 101325.0, "Air") for x in ("L", "C", "V", "D"))
    return k, mu / rho, k / (rho * cp), mu * cp / k


@pytest.mark.parametrize("air", [printed_air, todays_air])
def test_lying_concentric_cylinders(air):
    # Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, 6th ed., example 9.5 (companion;
    # recomputed): 100 mm tube in a 120 mm shield, 120/35 C: Ra 171, k_eff .0343, 100 W/m.
    k, nu, alpha, prandtl = air()
    length = concentric_cylinders_length(INNER, OUTER)
    rayleigh = rayleigh_number(DIFFERENCE, length, 1.0 / FILM, nu, alpha)
    effective = k * concentric_cylinders_conductivity_ratio(rayleigh, prandtl)
    heat = DIFFERENCE * concentric_cylinders_conductance(INNER, OUTER, effective)
    if air is printed_air:  # with today's conductivity it is 174: the table's air, not the form
        assert rayleigh == pytest.approx(171.0, rel=0.005)
    assert effective == pytest.approx(0.0343, rel=0.02)
    assert heat == pytest.approx(100.0, rel=0.02)


def test_the_same_gap_filled_with_insulation():
    # the same example with the gap filled, k .038: 111 W/m
    heat = DIFFERENCE * concentric_cylinders_conductance(INNER, OUTER, 0.038)
    assert heat == pytest.approx(111.0, rel=0.005)


# Kreith, Manglik and Bohn, Principles of Heat Transfer, 7th ed., example 10.7 (companion read):
# brine at -11 C, 570 W/m2K to the ice, k 2.32, rho 918, L 333.7 kJ/kg, water at 4.4 C with
# 57 W/m2K, 2.5 mm of ice: 152 s (recomputed 151.6).
BRINE_WALL = (0.0025, 11.0, 570.0, 2.32, 918.0, 333.7e3)
WATER_HEAT = 57.0 * 4.4


@pytest.mark.xfail(
    strict=True,
    reason=(
        "The example's working (as re-coded) has the warm water speed the freezing: "
        "152 s is less than the 160 s without any heat from the water. Its own heat "
        "balance, with that heat the other way, gives 169 s."
    ),
)
def test_ice_on_a_brine_cooled_wall():
    time = plane_freezing_time(*BRINE_WALL, liquid_heat_flux=WATER_HEAT)
    assert time == pytest.approx(152.0, rel=0.01)


def test_ice_on_a_brine_cooled_wall_with_the_examples_sign():
    # The same figure when the water is let take heat from the front, as the example's working does.
    time = plane_freezing_time(*BRINE_WALL, liquid_heat_flux=-WATER_HEAT)
    assert time == pytest.approx(152.0, rel=0.01)
    # and what physics asks for: heat from the water can only delay
    still = plane_freezing_time(*BRINE_WALL)
    assert time < still < plane_freezing_time(*BRINE_WALL, liquid_heat_flux=WATER_HEAT)


@pytest.mark.parametrize(("film", "thickness"), [(5.0, 0.05), (30.0, 0.05), (25.0, 0.12)])
def test_a_slab_frozen_from_both_sides(film, thickness):
    # Plank (1913): t = rho L / dT (P a / h + R a^2 / k), a slab of thickness a: P 1/2, R 1/8 (from
    # memory; any food engineering text).
    conductivity, density, latent, difference = 1.1, 1050.0, 250e3, 28.0
    plank = density * latent / difference * (thickness / (2 * film) + thickness**2 / 8.8)
    half = plane_freezing_time(0.5 * thickness, difference, film, conductivity, density, latent)
    assert half == pytest.approx(plank, rel=1e-12)
