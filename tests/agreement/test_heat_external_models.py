"""Outside heat transfer against independent libraries, rival formulas and exact solutions."""

from __future__ import annotations

import ht
import numpy as np
import pytest
from scipy.optimize import minimize_scalar
from scipy.special import iv, kv

from coldwright.heat.fins import annular_fin_efficiency, straight_fin_efficiency
from coldwright.heat.free_convection.channel import best_fin_spacing, vertical_channel_nusselt
from coldwright.heat.free_convection.chimney import (
    chimney_channel_film_coefficient,
    draft_velocity,
    draft_velocity_for_heat,
)
from coldwright.heat.free_convection.coil import helical_coil_nusselt
from coldwright.heat.free_convection.enclosure import vertical_air_layer_nusselt
from coldwright.heat.free_convection.horizontal import (
    horizontal_cylinder_nusselt,
    horizontal_plate_stable_nusselt,
    horizontal_plate_unstable_nusselt,
)
from coldwright.heat.free_convection.numbers import STANDARD_GRAVITY, channel_rayleigh_number
from coldwright.heat.free_convection.vertical import (
    vertical_cylinder_nusselt,
    vertical_plate_joined_nusselt,
    vertical_plate_laminar_nusselt,
    vertical_plate_nusselt,
)
from coldwright.heat.leakage import door_air_exchanged, door_exchange_flow
from coldwright.heat.radiation import (
    cavity_emissivity,
    enclosure_exchange_factor,
    parallel_plates_exchange_factor,
    radiation_film_coefficient,
)
from coldwright.heat.walls import EDGE_SHAPE_FACTOR, cylinder_layer_conductance, edge_conductance

RAYLEIGH = np.logspace(1.0, 11.0, 21)
PRANDTL = np.array([0.7, 7.0, 100.0])
AIR = {
    "expansion_coefficient": 1.0 / 300.0,
    "kinematic_viscosity": 1.6e-5,
    "thermal_diffusivity": 2.25e-5,
}


def library(function, rayleigh, **arguments):
    """The library's scalar function over the grid of PRANDTL x rayleigh."""
    return np.array([[function(Pr=p, Gr=r / p, **arguments) for r in rayleigh] for p in PRANDTL])


def test_vertical_plate_matches_ht():
    ours = vertical_plate_nusselt(RAYLEIGH, PRANDTL[:, None])
    np.testing.assert_allclose(ours, library(ht.Nu_vertical_plate_Churchill, RAYLEIGH), rtol=1e-9)


def test_horizontal_cylinder_matches_ht():
    ours = horizontal_cylinder_nusselt(RAYLEIGH, PRANDTL[:, None])
    theirs = library(ht.Nu_horizontal_cylinder_Churchill_Chu, RAYLEIGH)
    np.testing.assert_allclose(ours, theirs, rtol=1e-9)


def test_horizontal_cylinder_agrees_with_another_correlation():
    # Kuehn and Goldstein (1976); single-cylinder correlations scatter 25 %
    driving = np.logspace(3.0, 8.0, 11)
    ours = horizontal_cylinder_nusselt(driving, PRANDTL[:, None])
    theirs = library(ht.conv_free_immersed.Nu_horizontal_cylinder_Kuehn_Goldstein, driving)
    np.testing.assert_allclose(ours[0], theirs[0], rtol=0.20)
    # in brines the two part above Ra 1e6 (over 40 % at 1e8); a coil in glycol is at 1e4 to 1e5
    np.testing.assert_allclose(ours[:, :7], theirs[:, :7], rtol=0.20)


def test_horizontal_plates_match_ht_away_from_the_step():
    mcadams = ht.conv_free_immersed.Nu_horizontal_plate_McAdams
    warm_up = RAYLEIGH[(RAYLEIGH > 1e4) & (np.abs(np.log10(RAYLEIGH) - 7.0) > 0.31)]
    ours = np.broadcast_to(horizontal_plate_unstable_nusselt(warm_up), (3, warm_up.size))
    np.testing.assert_allclose(ours, library(mcadams, warm_up), rtol=1e-3)
    warm_down = RAYLEIGH[(RAYLEIGH > 1e5) & (RAYLEIGH <= 1e10)]
    ours = np.broadcast_to(horizontal_plate_stable_nusselt(warm_down), (3, warm_down.size))
    np.testing.assert_allclose(ours, library(mcadams, warm_down, buoyancy=False), rtol=1e-3)


@pytest.mark.parametrize(("prandtl", "tolerance"), [(0.7, 0.06), (7.0, 0.06), (100.0, 0.11)])
def test_thin_vertical_cylinder_agrees_with_popiel(prandtl, tolerance):
    # Popiel, Wojtkowiak and Bober (2007) through ht; the curvature corrections are independent
    for slenderness in (2.0, 5.0, 20.0, 50.0):
        for grashof in (1e6, 1e7, 1e8, 1e9):
            theirs = ht.conv_free_immersed.Nu_vertical_cylinder_Popiel_Churchill(
                Pr=prandtl, Gr=grashof, L=slenderness, D=1.0
            )
            ours = vertical_cylinder_nusselt(grashof * prandtl, prandtl, slenderness, 1.0)
            assert ours == pytest.approx(theirs, rel=tolerance)


def test_thick_vertical_cylinder_is_a_plate():
    plate = vertical_plate_nusselt(1e8, 0.7)
    assert vertical_cylinder_nusselt(1e8, 0.7, 1.0, 1e5) == pytest.approx(plate, rel=1e-6)
    given = vertical_cylinder_nusselt(1e8, 0.7, 1.0, 1e5, plate_nusselt=40.0)
    assert given == pytest.approx(40.0, rel=1e-6)


def test_both_vertical_plate_forms_agree_where_the_flow_is_laminar():
    driving = np.logspace(1.0, 7.0, 7)
    one, other = vertical_plate_nusselt(driving, 0.7), vertical_plate_laminar_nusselt(driving, 0.7)
    np.testing.assert_allclose(one, other, rtol=0.08)
    # the bias that the one-curve form declares
    high = vertical_plate_nusselt(1e9, 0.7) / vertical_plate_laminar_nusselt(1e9, 0.7)
    assert high == pytest.approx(1.33, abs=0.01)


def test_joined_plate_keeps_to_laminar_and_then_to_turbulent():
    laminar = np.logspace(4.0, 9.0, 11)
    for prandtl in PRANDTL:
        joined = vertical_plate_joined_nusselt(laminar, prandtl)
        single = vertical_plate_laminar_nusselt(laminar, prandtl)
        np.testing.assert_allclose(joined, single, rtol=0.07)
    # turbulent air: 0.10 Ra^(1/3), the form in any text (Warner and Arpaci 1968; from memory)
    turbulent = np.logspace(10.5, 12.0, 4)
    np.testing.assert_allclose(
        vertical_plate_joined_nusselt(turbulent, 0.71), 0.10 * turbulent ** (1 / 3), rtol=0.07
    )


def test_helical_coil_matches_ht():
    driving = np.logspace(np.log10(5e3), 5.0, 7)
    coil = ht.conv_free_immersed.Nu_coil_Xin_Ebadian
    for lying in (False, True):
        ours = np.broadcast_to(helical_coil_nusselt(driving, axis_horizontal=lying), (3, 7))
        np.testing.assert_allclose(ours, library(coil, driving, horizontal=lying), rtol=1e-4)


def test_channel_follows_the_measured_curve():
    # Elenbaas (1942): Nu = Ra'/24 [1 - exp(-35/Ra')]^(3/4)
    driving = np.logspace(-1.0, 5.0, 25)
    elenbaas = driving / 24.0 * (-np.expm1(-35.0 / driving)) ** 0.75
    np.testing.assert_allclose(vertical_channel_nusselt(driving), elenbaas, rtol=0.08)


@pytest.mark.parametrize("both_sides", [True, False])
def test_channel_limits(both_sides):
    # developed flow between plates: Nu = Ra'/24 (two walls), Ra'/12 (one); single plate 0.59 Ra^1/4
    developed = 24.0 if both_sides else 12.0
    small = vertical_channel_nusselt(1e-3, both_sides=both_sides)
    assert small == pytest.approx(1e-3 / developed, rel=1e-4)
    large = vertical_channel_nusselt(1e8, both_sides=both_sides)
    assert large == pytest.approx(0.59 * 1e8**0.25, rel=2e-3)


@pytest.mark.parametrize(("both_sides", "constant"), [(True, 2.714), (False, 2.15)])
def test_best_spacing_is_where_the_heat_peaks(both_sides, constant):
    # constants printed by Bar-Cohen and Rohsenow (1984), the second from memory
    height, rayleigh = 0.4, 3e8
    best = best_fin_spacing(rayleigh, height, both_sides=both_sides)
    assert best == pytest.approx(constant * height / rayleigh**0.25, rel=0.003)

    def lost_heat(spacing):
        channel = rayleigh * (spacing / height) ** 4
        return -vertical_channel_nusselt(channel, both_sides=both_sides) / spacing**2

    peak = minimize_scalar(lost_heat, bounds=(0.3 * best, 3.0 * best), method="bounded")
    assert peak.x == pytest.approx(best, rel=1e-3)


def test_air_layer_agrees_with_the_window_standard():
    # ISO 15099 for vertical cavities (from memory), high cavity so that its core term is passive
    driving = np.array([2e3, 1e4, 3e4, 1e5, 5e5, 1e6])
    core = np.where(driving > 5e4, 0.0673838 * driving ** (1 / 3), 0.028154 * driving**0.4134)
    core = np.where(driving <= 1e4, 1.0 + 1.7596678e-10 * driving**2.2984755, core)
    np.testing.assert_allclose(vertical_air_layer_nusselt(driving, 60.0), core, rtol=0.12)


@pytest.mark.parametrize("both_sides", [True, False])
@pytest.mark.parametrize("chimney", [0.0, 0.5])
def test_chimney_without_opening_loss_is_the_channel(both_sides, chimney):
    excess, gap, height = np.array([0.5, 5.0, 20.0])[:, None], np.array([0.008, 0.02, 0.06]), 0.8
    film = chimney_channel_film_coefficient(
        excess,
        gap,
        height,
        chimney_height=chimney,
        conductivity=0.026,
        both_sides=both_sides,
        **AIR,
    )
    channel = channel_rayleigh_number(excess, gap, height, *AIR.values())
    expected = vertical_channel_nusselt(channel, both_sides=both_sides) * 0.026 / gap
    np.testing.assert_allclose(film, expected, rtol=1e-9)


def test_draft_balances_friction_and_opening_loss():
    velocity = draft_velocity(
        12.0,
        0.03,
        0.8,
        chimney_height=0.4,
        opening_loss=3.0,
        expansion_coefficient=AIR["expansion_coefficient"],
        kinematic_viscosity=AIR["kinematic_viscosity"],
    )
    draft = STANDARD_GRAVITY / 300.0 * 12.0 * 1.2
    losses = 12.0 * 1.6e-5 * velocity * 1.2 / 0.03**2 + 1.5 * velocity**2
    assert losses == pytest.approx(draft, rel=1e-12)


def test_draft_for_heat_is_the_root_of_its_cubic():
    heat = np.array([0.1, 10.0, 300.0])
    loss = np.array([0.01, 2.0, 40.0])
    velocity = draft_velocity_for_heat(
        heat,
        0.03,
        0.8,
        chimney_height=0.3,
        opening_loss=loss,
        expansion_coefficient=1.0 / 300.0,
        kinematic_viscosity=1.6e-5,
        volumetric_heat_capacity=1180.0,
    )
    for q, k, u in zip(heat, loss, velocity, strict=True):
        square = 12.0 * 1.6e-5 * 1.1 / 0.03**2
        constant = STANDARD_GRAVITY / 300.0 * q * 0.7 / (1180.0 * 0.03)
        roots = np.roots([0.5 * k, square, 0.0, -constant])
        expected = roots[(np.abs(roots.imag) < 1e-9) & (roots.real > 0.0)].real
        assert u == pytest.approx(expected[0], rel=1e-9)


def test_radiation_film_matches_ht():
    for cold, warm in ((250.0, 300.0), (275.0, 278.0), (300.0, 380.0)):
        film = radiation_film_coefficient(warm, cold, 0.83)
        assert film * (warm - cold) == pytest.approx(
            ht.q_rad(0.83, warm, cold), rel=2e-6
        )  # its sigma: CODATA 2014


def test_exchange_factor_limits():
    # a small body in a large room sees its own emissivity; equal areas are parallel plates
    assert enclosure_exchange_factor(0.3, 1e-9, 0.2, 1.0) == pytest.approx(0.3, rel=1e-6)
    plates = parallel_plates_exchange_factor(0.9, 0.05)
    assert plates == pytest.approx(1.0 / (1.0 / 0.9 + 1.0 / 0.05 - 1.0), rel=1e-12)
    # a flat mouth is no cavity; a deep one is black
    assert cavity_emissivity(0.1, 1.0, 1.0) == pytest.approx(0.1, rel=1e-12)
    assert cavity_emissivity(0.1, 1e6, 1.0) == pytest.approx(1.0, rel=1e-4)


@pytest.mark.parametrize("film", [5.0, 20.0, 80.0])
@pytest.mark.parametrize("fin_diameter", [0.02, 0.03, 0.05])
def test_annular_fin_agrees_with_the_bessel_solution(film, fin_diameter):
    base, thickness, k = 0.01, 4e-4, 160.0
    ours = annular_fin_efficiency(film, k, thickness, base, fin_diameter)
    m = np.sqrt(2.0 * film / (k * thickness))
    r, tip = 0.5 * base, 0.5 * (fin_diameter + thickness)
    exact = kv(1, m * r) * iv(1, m * tip) - iv(1, m * r) * kv(1, m * tip)
    exact /= iv(0, m * r) * kv(1, m * tip) + kv(0, m * r) * iv(1, m * tip)
    exact *= 2.0 * r / (m * (tip**2 - r**2))
    assert exact > 0.5
    assert ours == pytest.approx(exact, rel=0.015)
    # and with the library's, which ends the fin adiabatic at its bare radius
    theirs = ht.core.fin_efficiency_Kern_Kraus(
        Do=base, D_fin=fin_diameter, t_fin=thickness, k_fin=k, h=film
    )
    assert ours == pytest.approx(theirs, rel=0.04)


@pytest.mark.parametrize("film", [5.0, 30.0, 200.0])
def test_corrected_fin_tip_agrees_with_the_convecting_tip(film):
    # exact one-dimensional fin with a convecting tip (Incropera, table 3.4, case A)
    k, t, height = 50.0, 2e-3, 0.03
    m = np.sqrt(2.0 * film / (k * t))
    tip = film / (m * k)
    heat = np.sinh(m * height) + tip * np.cosh(m * height)
    heat = m * k * t * heat / (np.cosh(m * height) + tip * np.sinh(m * height))
    ours = film * straight_fin_efficiency(film, k, t, height) * 2.0 * (height + 0.5 * t)
    assert ours == pytest.approx(heat, rel=0.001)


def test_cylinder_layer_matches_ht():
    answer = ht.conduction.cylindrical_heat_transfer(
        Ti=300.0, To=280.0, hi=1e12, ho=1e12, Di=0.02, ts=[0.013], ks=[0.04]
    )
    ours = cylinder_layer_conductance(0.02, 0.046, 0.04)
    assert ours == pytest.approx(answer["UA"], rel=1e-6)


def test_edge_agrees_with_the_exact_corner():
    # conformal mapping of a square corner of two equal walls: excess 0.559 (from memory);
    # Langmuir measured 0.54
    assert edge_conductance(1.0, 1.0) == pytest.approx(EDGE_SHAPE_FACTOR)
    assert pytest.approx(0.559, rel=0.04) == EDGE_SHAPE_FACTOR


def test_door_flow_agrees_with_two_layer_theory():
    # Brown and Solvason (1963), (Cd/3) A (g H drho/rho)^(1/2), Cd 0.6-0.7 (from memory)
    inside, outside = 1.274, 1.204
    ours = door_exchange_flow(0.6 * 0.9, 0.9, inside, outside)
    theory = 0.54 * np.sqrt(
        STANDARD_GRAVITY * 0.9 * (inside - outside) / (0.5 * (inside + outside))
    )
    assert 0.6 / 3.0 * theory < ours < 0.7 / 3.0 * theory


def test_exchanged_air_lies_between_a_spill_and_a_fading_mix():
    air_changes = np.linspace(0.0, 5.0, 26)
    ours = door_air_exchanged(air_changes, 1.0, 1.0)
    assert np.all(ours <= np.minimum(air_changes, 1.0))
    assert np.all(ours >= 1.0 - (1.0 + 0.5 * air_changes) ** -2)
