"""What must hold of an ice front and of a lying annulus for any sensible input."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.heat.free_convection.annulus import (
    concentric_cylinders_conductivity_ratio,
    concentric_cylinders_length,
)
from coldwright.heat.freezing import (
    cylinder_freezing_time,
    cylinder_frozen_thickness,
    plane_freezing_time,
    plane_frozen_thickness,
)

ICE = (2.22, 917.0, 333.4e3)
depths = st.floats(1e-5, 0.1)
coolings = st.floats(0.2, 30.0)
films = st.floats(5.0, 3000.0)
radii = st.floats(2e-3, 0.2)


def test_annulus_rises_steadily_from_conduction():
    rayleigh = np.concatenate([[0.0], np.logspace(-6.0, 8.0, 1401)])
    for prandtl in (0.7, 7.0, 500.0):
        values = concentric_cylinders_conductivity_ratio(rayleigh, prandtl)
        assert values[0] == 1.0
        assert np.all(np.diff(values) >= 0.0)
        slope = np.diff(np.log(values[1:])) / np.diff(np.log(rayleigh[1:]))
        assert np.max(slope) < 0.26


@given(inner=st.floats(0.01, 1.0), ratio=st.floats(1.01, 20.0), scale=st.floats(0.1, 10.0))
def test_annulus_length_grows_with_the_drawing_and_stays_within_the_gap(inner, ratio, scale):
    length = concentric_cylinders_length(inner, inner * ratio)
    scaled = concentric_cylinders_length(inner * scale, inner * ratio * scale)
    assert scaled == pytest.approx(length * scale, rel=1e-12)
    assert 0.0 < length < 0.5 * inner * (ratio - 1.0)


@given(depth=depths, cooling=coolings, film=films, share=st.floats(-0.5, 0.9))
def test_plane_thickness_undoes_its_time(depth, cooling, film, share):
    # the liquid's heat as a share of what would hold the front at this very depth
    liquid = share * cooling / (1.0 / film + depth / ICE[0])
    time = plane_freezing_time(depth, cooling, film, *ICE, liquid_heat_flux=liquid)
    assert np.isfinite(time)
    assert time > 0.0
    found = plane_frozen_thickness(time, cooling, film, *ICE, liquid_heat_flux=liquid)
    assert found == pytest.approx(depth, rel=1e-8)


@given(depth=depths, cooling=coolings, film=films, radius=radii)
def test_cylinder_thickness_undoes_its_time_and_lags_the_wall(depth, cooling, film, radius):
    time = cylinder_freezing_time(depth, radius, cooling, film, *ICE)
    found = cylinder_frozen_thickness(time, radius, cooling, film, *ICE)
    assert found == pytest.approx(depth, rel=1e-8)
    assert time > plane_freezing_time(depth, cooling, film, *ICE)


@given(depth=depths, cooling=coolings, film=films, more=st.floats(1.05, 3.0))
def test_colder_brine_better_wall_and_less_ice_are_quicker(depth, cooling, film, more):
    time = plane_freezing_time(depth, cooling, film, *ICE)
    assert plane_freezing_time(depth, cooling * more, film, *ICE) == pytest.approx(time / more)
    assert plane_freezing_time(depth, cooling, film * more, *ICE) < time
    assert plane_freezing_time(depth * more, cooling, film, *ICE) > time * more


@given(cooling=st.floats(-10.0, 0.0), film=films)
def test_nothing_freezes_on_a_wall_no_colder_than_freezing(cooling, film):
    assert np.isinf(plane_freezing_time(1e-3, cooling, film, *ICE))
    assert plane_frozen_thickness(1e5, cooling, film, *ICE) == 0.0
    assert np.isinf(cylinder_freezing_time(1e-3, 0.01, cooling, film, *ICE))
    assert cylinder_frozen_thickness(1e5, 0.01, cooling, film, *ICE) == 0.0


def test_a_lane_is_the_same_alone():
    time = np.array([0.0, 60.0, 3600.0, 86400.0])
    cooling = np.array([-2.0, 3.0, 8.0, 20.0])
    liquid = np.array([0.0, 200.0, 5e4, 10.0])  # the third: more than the wall can take
    plane = plane_frozen_thickness(time, cooling, 300.0, *ICE, liquid_heat_flux=liquid)
    tube = cylinder_frozen_thickness(time, np.array([0.004, 0.01, 0.01, 0.1]), cooling, 300.0, *ICE)
    assert plane[0] == 0.0
    assert plane[2] == 0.0
    assert plane[3] > 0.0
    for lane in range(4):
        alone = plane_frozen_thickness(
            time[lane], cooling[lane], 300.0, *ICE, liquid_heat_flux=liquid[lane]
        )
        assert alone == plane[lane]
    assert tube[0] == 0.0
    assert np.all(np.diff(tube) > 0.0)
