"""Walls, fins, leaks and frost against published figures, each named in its test."""

from __future__ import annotations

import numpy as np
import pytest

from coldwright.heat.fins import (
    annular_fin_efficiency,
    sheet_between_tubes_efficiency,
    straight_fin_efficiency,
    tube_on_sheet_conductance,
)
from coldwright.heat.frost import frost_conductivity, frost_density
from coldwright.heat.leakage import stack_openings, stack_outflow
from coldwright.heat.walls import (
    box_face_conductance,
    corner_conductance,
    edge_conductance,
    heat_transmittance,
    layers_resistance,
)


def test_box_with_edges_and_corners():
    # Holman, Heat Transfer, example 3-2: inside 0.5 m, wall 0.1 m, k 1.04, 450 K: 8592 W
    resistance = layers_resistance([0.1], [1.04])
    faces = 6.0 * box_face_conductance(0.5, 0.5, 0.1, resistance)
    assert faces * 450.0 == pytest.approx(8592.0, rel=0.001)
    pieces = 6.0 * 0.25 / resistance
    pieces = pieces + 12.0 * edge_conductance(0.5, 1.04) + 8.0 * corner_conductance(0.1, 1.04)
    assert pieces * 450.0 == pytest.approx(8592.0, rel=0.001)


def test_cork_that_cuts_the_heat_by_four_fifths():
    # Theodore, Heat Transfer Applications, example 19.5: film 21 W/m2K outside, -18/26 C, cork
    # k 0.0433: 8.25 mm cut the bare wall's heat by 80 %, and the interface stands at 17.22 C
    cork = layers_resistance([8.25e-3], [0.0433])
    bare = 21.0 * 44.0
    covered = 44.0 / (1.0 / 21.0 + cork)
    assert covered / bare == pytest.approx(0.20, rel=0.005)
    assert 26.0 - covered / 21.0 == pytest.approx(17.22, abs=0.05)


def test_corkboard_wall_and_its_skin():
    # own arithmetic with ISO 6946 resistances: corkboard 50 mm k 0.043, 0.13 m2K/W each side
    transmittance = heat_transmittance(layers_resistance([0.05], [0.043]), 1.0 / 0.13, 1.0 / 0.13)
    flux = transmittance * (25.0 - 4.0)
    assert transmittance == pytest.approx(0.703, rel=0.01)
    assert flux == pytest.approx(14.8, rel=0.01)
    assert 25.0 - flux * 0.13 == pytest.approx(23.1, abs=0.05)


@pytest.mark.parametrize(
    ("bond", "expected"),
    [(np.inf, 0.841), (30.0, 0.813), (10.0, 0.764), (5.0, 0.700)],  # bonds: own arithmetic
)
def test_tube_on_sheet(bond, expected):
    # Duffie and Beckman, Solar Engineering of Thermal Processes, example 6.5.1 (from memory):
    # U 8, pitch 150 mm, tube 10 mm, copper 0.5 mm k 385, inside film 300 W/m2K: F 0.937, F' 0.841
    assert sheet_between_tubes_efficiency(8.0, 385.0, 5e-4, 0.15, 0.01) == pytest.approx(
        0.937, rel=0.002
    )
    outer = tube_on_sheet_conductance(8.0, 0.15, 0.01, 385.0, 5e-4, bond)
    overall = 1.0 / (1.0 / outer + 1.0 / (np.pi * 0.01 * 300.0))
    assert overall / (8.0 * 0.15) == pytest.approx(expected, rel=0.002)


@pytest.mark.parametrize(
    ("parameter", "expected"),
    [(0.2, 0.99), (0.5, 0.92), (1.0, 0.76), (1.5, 0.60), (2.0, 0.48), (3.0, 0.33)],
)
def test_straight_fin(parameter, expected):
    # public design table of tanh(mL)/mL, two figures (read)
    thickness = 1e-9
    film = 0.5 * (parameter / 0.03) ** 2 * 200.0 * thickness
    efficiency = straight_fin_efficiency(film, 200.0, thickness, 0.03)
    assert efficiency == pytest.approx(expected, abs=0.0051)


@pytest.mark.parametrize(("parameter", "expected"), [(0.0, 1.0), (0.2, 0.9839), (0.4, 0.9391)])
def test_annular_fin_table(parameter, expected):
    # public table of the Bessel solution at r2/r1 1.5, insulated tip (read); 1 % is the
    # closed form's own claim
    thickness = 1e-9
    film = 0.5 * (parameter / 0.005) ** 2 * 200.0 * thickness
    efficiency = annular_fin_efficiency(film, 200.0, thickness, 0.02, 0.03)
    assert efficiency == pytest.approx(expected, rel=0.01)


def test_cylinder_with_annular_fins():
    # Incropera, 6th ed., chapter 3, finned engine cylinder (from memory): radius 25 mm, five fins
    # 6 mm thick and 20 mm high, 0.15 m long, k 186, h 50, 500/300 K: eta 0.95, 690 W.
    # The text reads 0.95 off a chart; the Bessel solution gives 0.979 and 705 W.
    efficiency = annular_fin_efficiency(50.0, 186.0, 0.006, 0.05, 0.09)
    fins = 5.0 * 2.0 * np.pi * (0.048**2 - 0.025**2)
    bare = 2.0 * np.pi * 0.025 * (0.15 - 5.0 * 0.006)
    assert efficiency == pytest.approx(0.9786, rel=0.003)  # Bessel, computed
    assert efficiency == pytest.approx(0.95, rel=0.03)
    assert 50.0 * (fins * efficiency + bare) * 200.0 == pytest.approx(690.0, rel=0.02)


def test_stack_flow():
    # ASHRAE Fundamentals, ventilation chapter (formula; own arithmetic): two holes of 0.01 m2,
    # 0.5 m apart, 2 C in 8 C, Cd 0.61: 1.99 L/s, 15.2 W
    inside, outside = 101325.0 / (287.05 * 275.15), 101325.0 / (287.05 * 281.15)
    flow = stack_outflow(sum(stack_openings((0.01, 0.01), (0.0, 0.5))), 0.61, inside, outside)
    assert flow == pytest.approx(1.99e-3, rel=0.02)
    assert flow * 0.5 * (inside + outside) * 1005.0 * 6.0 == pytest.approx(15.2, rel=0.02)


def test_frost_density():
    # Hayashi and others (1977), formula as read in reviews
    values = frost_density(np.array([265.15, 268.15]))
    np.testing.assert_allclose(values, [70.9, 162.7], rtol=0.005)


def test_frost_conductivity_lies_between_its_rivals():
    # at 100 kg/m3: Sanders 0.101, Yonko and Sepsy 0.108, Lee 0.165 W/mK (formulas read in reviews)
    assert frost_conductivity(100.0) == pytest.approx(0.108, abs=0.0005)
    density = np.linspace(50.0, 300.0, 11)
    sanders = 1.202e-3 * density**0.963
    lee = 0.132 + 3.13e-4 * density + 1.6e-7 * density**2
    between = frost_conductivity(density)
    assert np.all(between > 0.95 * np.minimum(sanders, lee))
    assert np.all(between < 1.3 * np.maximum(sanders, lee))
