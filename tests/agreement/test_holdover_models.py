"""A holdover beside quadratures, a moving front and a vessel."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

import box_scenario as box
from coldwright.fluids.brines import brine
from coldwright.fluids.filling import filling, heat_of_fusion
from coldwright.fluids.ice import ice_conductivity, ice_specific_heat
from coldwright.heat.freezing import cylinder_freezing_time, plane_freezing_time
from coldwright.parts.cold_box import box_at_source
from coldwright.parts.cold_side.frozen_layer import frozen_layer_resistance, frozen_layer_thickness
from coldwright.parts.cold_side.holdover import store_time


@pytest.mark.parametrize(
    ("kind", "fraction", "greatest"),
    [("propylene glycol", 0.10, 0.4), ("sodium chloride", 0.08, 0.22), ("ethanol", 0.06, 0.4)],
)
def test_enthalpy_of_a_brine_is_its_sensible_and_latent_heat(kind, fraction, greatest):
    store = filling(kind, fraction)
    cold = store.first_ice - 6.0

    def ice(temperature):
        # the strength whose own freezing point this is, sought anew
        def off(strength):
            return brine(kind, round(strength, 6)).freezing_temperature - temperature

        return 1.0 - fraction / brentq(off, fraction, greatest, xtol=1e-5)

    axis = np.linspace(cold, store.first_ice - 1e-6, 25)
    shares = np.array([ice(value) for value in axis])
    strengths = fraction / (1.0 - shares)
    heats = [
        float(brine(kind, round(strength, 6)).specific_heat(value + 0.02))
        for strength, value in zip(strengths, axis, strict=True)
    ]
    mixed = shares * ice_specific_heat(axis) + (1.0 - shares) * heats
    sensible = np.trapezoid(mixed, axis)
    latent = -np.trapezoid(heat_of_fusion(axis), shares)
    gained = store.enthalpy(store.first_ice) - store.enthalpy(cold)
    assert gained == pytest.approx(sensible + latent, rel=3e-3)
    share = store.frozen_share_at(cold)
    assert share * store.latent_heat == pytest.approx(latent, rel=3e-3)


@pytest.mark.parametrize("name", ["water", "potassium chloride eutectic"])
def test_enthalpy_of_a_pure_filling_closes(name):
    store = filling(name)
    low, high = store.first_ice - 12.0, store.first_ice + 15.0
    cold = quad(ice_specific_heat, low, store.first_ice)[0] if name == "water" else 1730.0 * 12.0
    warm = (
        quad(lambda t: float(store.liquid.specific_heat(t)), store.first_ice, high)[0]
        if name == "water"
        else 3200.0 * 15.0
    )
    gained = store.enthalpy(high) - store.enthalpy(low)
    # between 0.1 K of melting the specific heat is the mean of both
    assert gained == pytest.approx(cold + store.latent_heat + warm, rel=4e-4)


def icy(state_of_charge, **changes):
    """A water store with a coil so wide apart that the cylinders never meet, film aside."""
    return replace(
        box.holdover("water", 0.0, state_of_charge, pitch=0.5, **changes),
        through_melt=np.asarray(0.0),
    )


@pytest.mark.parametrize("difference", [4.0, 12.0])
def test_the_layer_grows_as_a_front_does(difference):
    wall = 273.15 - difference
    store = icy(0.0)
    shares = np.array([0.2, 0.5, 0.9])
    per_metre = float(store.latent_store) / float(store.tube.length)

    def growing(_, share):
        conductance = icy(np.asarray(share)).outer_conductance_per_length(273.15, wall)
        return conductance * difference / per_metre

    # from a layer that is there, since a bare tube has no resistance here
    begun = 1e-3
    far = solve_ivp(growing, (0.0, 1e7), [begun], rtol=1e-8, dense_output=True, max_step=5e3)
    sizes = icy(np.array([begun, *shares])).frozen_layer
    times = cylinder_freezing_time(
        sizes,
        0.5 * store.tube.outside_diameter,
        difference,
        1e9,
        ice_conductivity(0.5 * (wall + 273.15)),
        store.filling.liquid_density / (1.0 + store.filling.growth_when_full),
        store.filling.latent_heat,
    )
    for share, time in zip(shares, times[1:] - times[0], strict=True):
        assert far.sol(time)[0] == pytest.approx(share, rel=1e-4)


def test_the_sheet_of_close_runs_grows_as_on_a_wall():
    # beyond the cylinders: both faces of a sheet with what lies before it as its wall
    pitch, outside, k, density, latent, difference = 0.012, 0.0064, 2.2, 917.0, 333.4e3, 10.0
    meeting = np.pi / 4.0 * (pitch**2 - outside**2)
    before = frozen_layer_resistance(meeting, outside, pitch, k)
    wall = 1.0 / (before * 2.0 * pitch)  # [W/m2K] on both faces
    depth = np.linspace(0.0, 0.03, 301)
    area = meeting + 2.0 * pitch * depth
    through = frozen_layer_resistance(area, outside, pitch, k)
    found = np.trapezoid(through, area) * density * latent / difference
    assert found == pytest.approx(
        plane_freezing_time(0.03, difference, wall, k, density, latent), rel=1e-4
    )
    thickness = frozen_layer_thickness(area, outside, pitch)
    assert thickness[-1] - thickness[0] == pytest.approx(0.03)


def test_melting_on_the_clock():
    # a brine that warms as it melts: enthalpy on the clock beside a quadrature over temperature
    store = box.holdover()
    room, conductance = 293.15, 1.6
    start, end = store.enthalpy(store.filling.last_ice), store.enthalpy(store.filling.first_ice)

    def warming(_, held):
        return conductance * (room - store.state_at(held)[0])

    def melted(_, held):
        return held[0] - end

    melted.terminal = True
    run = solve_ivp(warming, (0.0, 1e7), [float(start)], events=melted, rtol=1e-8, max_step=2e3)
    held = np.linspace(start, end, 4001)
    by_hand = np.trapezoid(1.0 / (conductance * (room - store.state_at(held)[0])), held)
    assert run.t_events[0][0] == pytest.approx(by_hand, rel=1e-4)
    # the store alone, at the mean temperature: what is sensible is left out, a tenth or so
    mean = store.filling.melting_temperature(0.5)
    assert store_time(store.latent_store, conductance * (room - mean)) == pytest.approx(
        by_hand, rel=0.2
    )
    assert store_time(store.latent_store, conductance * (room - mean)) < by_hand


@pytest.mark.parametrize("name", ["water", "sodium chloride eutectic"])
def test_all_melted_it_is_a_vessel(name):
    store = box.holdover(name, 0.0, 0.0)
    vessel = box.drum(brine=store.filling.liquid)
    source = np.array([260.0, 268.0, 275.0])
    wall = source - 5.0
    assert store.outer_conductance_per_length(source, wall) == pytest.approx(
        vessel.outer_conductance_per_length(source, wall), rel=1e-12
    )
    parts = (box.cupboard(), box.air_path())
    held = [box_at_source(*parts, each, source, box.room()) for each in (store, vessel)]
    assert held[0].heat == pytest.approx(held[1].heat, rel=1e-9)


def test_frozen_full_the_tank_conducts():
    # half the mean depth of the filling in series with nothing else
    store = box.holdover("water", 0.0, 1.0)
    area = sum(store.wetted_areas)
    conductance = store.inside_conductance(268.0, 269.0)
    depth = 0.5 * store.brine_volume / area
    assert conductance == pytest.approx(ice_conductivity(268.5) * area / depth, rel=1e-9)
