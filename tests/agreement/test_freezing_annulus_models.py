"""A lying annulus and an ice front against other solutions of the same physics."""

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq
from scipy.special import erf

from coldwright.heat.free_convection.annulus import (
    concentric_cylinders_conductance,
    concentric_cylinders_conductivity_ratio,
    concentric_cylinders_length,
)
from coldwright.heat.freezing import (
    cylinder_freezing_time,
    cylinder_frozen_thickness,
    plane_freezing_time,
    plane_frozen_thickness,
    steady_frozen_thickness,
)

ICE = (2.22, 917.0, 333.4e3)  # W/mK, kg/m3, J/kg


@pytest.mark.parametrize(
    ("on_gap", "ratio"),
    [
        (1e2, 1.000),
        (1e3, 1.081),
        (3e3, 1.404),
        (6e3, 1.736),
        (1e4, 2.010),
        (2e4, 2.405),
        (3e4, 2.661),
        (5e4, 3.024),
    ],
)
def test_annulus_beside_a_numerical_solution(on_gap, ratio):
    # Kuehn and Goldstein (1976), J. Fluid Mechanics 74, 695-719, table of mean equivalent
    # conductivities, Pr 0.7, diameters 1 to 2.6 (from memory); Rayleigh number there on the gap.
    length = concentric_cylinders_length(1.0, 2.6)
    found = concentric_cylinders_conductivity_ratio(on_gap * (length / 0.8) ** 3, 0.7)
    assert 0.995 * ratio < found < 1.08 * ratio


@pytest.mark.parametrize("outer", [0.101, 0.12, 0.3, 2.0])
def test_annulus_length_is_the_geometry_factor_of_texts(outer):
    # Texts write the Rayleigh number on the gap times F = ln(Do/Di)^4 / [g^3 (Di^-.6 + Do^-.6)^5]
    # (Cengel, Heat Transfer, equation 9-57; from memory).
    gap = 0.5 * (outer - 0.1)
    factor = np.log(outer / 0.1) ** 4 / (gap**3 * (0.1**-0.6 + outer**-0.6) ** 5)
    length = concentric_cylinders_length(0.1, outer)
    assert (length / gap) ** 3 == pytest.approx(factor, rel=1e-12)


def test_a_narrow_annulus_is_a_flat_layer():
    gap = 1e-5
    flat = np.pi * (1.0 + gap) * 0.025 / gap
    found = concentric_cylinders_conductance(1.0, 1.0 + 2.0 * gap, 0.025)
    assert found == pytest.approx(flat, rel=1e-9)


@pytest.mark.parametrize("liquid", [0.0, 1e-9, 1e-3, 40.0, 250.8, -250.8])
@pytest.mark.parametrize("thickness", [1e-6, 0.0025, 0.02])
def test_plane_front_by_quadrature(liquid, thickness):
    conductivity, density, latent = ICE

    def slowness(depth):
        return density * latent / (11.0 / (1.0 / 570.0 + depth / conductivity) - liquid)

    by_quadrature, _ = quad(slowness, 0.0, thickness, epsrel=1e-12)
    found = plane_freezing_time(thickness, 11.0, 570.0, *ICE, liquid_heat_flux=liquid)
    assert found == pytest.approx(by_quadrature, rel=1e-9)


def test_cylinder_front_by_steps_of_time():
    conductivity, density, latent = ICE
    radius, film, difference, hours = 0.005, 300.0, 8.0, 6.0

    def speed(_, depth):
        outside = radius + depth
        resistance = 1.0 / (film * radius) + np.log(outside / radius) / conductivity
        return difference / resistance / (density * latent * outside)

    ran = solve_ivp(speed, (0.0, 3600.0 * hours), [0.0], rtol=1e-10, atol=1e-14)
    found = cylinder_frozen_thickness(3600.0 * hours, radius, difference, film, *ICE)
    assert found == pytest.approx(ran.y[0, -1], rel=1e-7)


def test_a_wide_cylinder_is_a_flat_wall():
    flat = plane_freezing_time(0.02, 8.0, 300.0, *ICE)
    round_ = cylinder_freezing_time(0.02, 1e4, 8.0, 300.0, *ICE)
    assert round_ == pytest.approx(flat, rel=1e-5)


@pytest.mark.parametrize("difference", [2.0, 10.0, 30.0])
def test_plane_front_beside_neumanns_solution(difference):
    # Neumann's exact front on a wall held at a temperature (Carslaw and Jaeger, Conduction of Heat
    # in Solids, section 11.2, from memory): b exp(b^2) erf(b) = St / sqrt(pi), X = 2 b sqrt(a t).
    conductivity, density, latent = ICE
    specific_heat = 2050.0
    stefan = specific_heat * difference / latent
    root = brentq(
        lambda b: b * np.exp(b * b) * erf(b) - stefan / np.sqrt(np.pi), 1e-6, 2.0, xtol=1e-14
    )
    exact = 0.03**2 / (4.0 * root**2 * conductivity / (density * specific_heat))
    found = plane_freezing_time(0.03, difference, 1e7, *ICE)
    assert found < exact
    # short by a third of the Stefan number, as the function's text says
    assert exact / found - 1.0 == pytest.approx(stefan / 3.0, rel=0.1)


def test_the_front_comes_to_rest_where_it_should():
    end = steady_frozen_thickness(11.0, 570.0, 2.22, 800.0)
    assert end == pytest.approx(2.22 * (11.0 / 800.0 - 1.0 / 570.0), rel=1e-12)
    late = plane_frozen_thickness(1e8, 11.0, 570.0, *ICE, liquid_heat_flux=800.0)
    assert late == pytest.approx(end, rel=1e-9)
    assert np.isinf(plane_freezing_time(1.0001 * end, 11.0, 570.0, *ICE, liquid_heat_flux=800.0))
    assert np.isfinite(plane_freezing_time(0.9999 * end, 11.0, 570.0, *ICE, liquid_heat_flux=800.0))
