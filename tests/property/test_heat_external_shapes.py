"""What must hold of the outside heat transfer for any sensible input."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.heat.fins import (
    annular_fin_efficiency,
    sheet_between_tubes_efficiency,
    straight_fin_efficiency,
    tube_on_sheet_conductance,
)
from coldwright.heat.free_convection.channel import best_fin_spacing, vertical_channel_nusselt
from coldwright.heat.free_convection.chimney import (
    chimney_channel_film_coefficient,
    draft_velocity_for_heat,
)
from coldwright.heat.free_convection.coil import helical_coil_nusselt
from coldwright.heat.free_convection.enclosure import (
    vertical_air_layer_nusselt,
    vertical_enclosure_nusselt,
)
from coldwright.heat.free_convection.horizontal import (
    horizontal_cylinder_nusselt,
    horizontal_plate_stable_nusselt,
    horizontal_plate_unstable_nusselt,
)
from coldwright.heat.free_convection.numbers import rayleigh_number, smooth_greatest
from coldwright.heat.free_convection.vertical import (
    vertical_cylinder_nusselt,
    vertical_plate_joined_nusselt,
    vertical_plate_laminar_nusselt,
    vertical_plate_nusselt,
)
from coldwright.heat.free_convection.wire_on_tube import wire_on_tube_nusselt
from coldwright.heat.frost import (
    frost_conductivity,
    frost_density,
    frost_growth_rate,
    frost_layer_resistance,
    vapour_mass_flux,
)
from coldwright.heat.leakage import (
    door_air_exchanged,
    door_exchange_flow,
    neutral_level,
    stack_openings,
    stack_outflow,
)
from coldwright.heat.radiation import (
    cavity_emissivity,
    enclosure_exchange_factor,
    radiation_film_coefficient,
)
from coldwright.heat.walls import (
    box_face_conductance,
    box_face_outside_area,
    conductance_with_films,
    effective_mean_area,
    layers_resistance,
)
from coldwright.sources import correlations, source

NUSSELT = {
    "vertical plate": (lambda ra: vertical_plate_nusselt(ra, 0.7), 0.825**2),
    "vertical plate, laminar": (lambda ra: vertical_plate_laminar_nusselt(ra, 0.7), 0.68),
    "vertical plate, joined": (
        lambda ra: vertical_plate_joined_nusselt(ra, 0.7),
        2.0 / np.log1p(2e12),
    ),
    "vertical cylinder": (
        lambda ra: vertical_cylinder_nusselt(ra, 0.7, 1.0, 0.05),
        36.0 / np.log1p(36.0 / 0.825**2),
    ),
    "horizontal cylinder": (lambda ra: horizontal_cylinder_nusselt(ra, 0.7), 0.36),
    "unstable plate": (horizontal_plate_unstable_nusselt, 2.0 / np.pi),
    "stable plate": (horizontal_plate_stable_nusselt, 2.0 / np.pi),
    "coil": (helical_coil_nusselt, 0.36),
    "enclosure": (lambda ra: vertical_enclosure_nusselt(ra, 0.7, 20.0), 1.0),
    "air layer": (lambda ra: vertical_air_layer_nusselt(ra, 20.0), 1.0),
    "channel": (vertical_channel_nusselt, 0.0),
    "channel, one wall": (lambda ra: vertical_channel_nusselt(ra, both_sides=False), 0.0),
}
positive = st.floats(1e-3, 1e3)
emissivities = st.floats(0.02, 1.0)


@pytest.mark.parametrize("shape", NUSSELT)
def test_nusselt_rises_steadily_from_its_still_limit(shape):
    function, still = NUSSELT[shape]
    rayleigh = np.concatenate([[0.0], np.logspace(-9.0, 12.0, 2101)])
    values = function(rayleigh)
    assert np.all(np.isfinite(values))
    assert values[0] == pytest.approx(still, rel=1e-9)
    assert np.all(np.diff(values) >= -1e-12 * values[1:])
    # 1 % steps of Rayleigh leave no jump: the local exponent stays below 1.2 (channel: 1 or 2)
    slope = np.diff(np.log(values[1:])) / np.diff(np.log(rayleigh[1:]))
    assert np.max(slope) < 1.2


@pytest.mark.parametrize("shape", NUSSELT)
def test_heat_is_an_odd_smooth_function_of_the_difference(shape):
    function, _ = NUSSELT[shape]
    difference = np.array([-1e-6, 0.0, 1e-6, -1e-3, 1e-3])
    rayleigh = rayleigh_number(difference, 0.3, 1 / 280.0, 1.4e-5, 2e-5)
    heat = function(rayleigh) * difference
    assert heat[1] == 0.0
    assert heat[0] == -heat[2]
    assert heat[3] == -heat[4]
    assert heat[2] > 0.0


@given(st.lists(st.floats(1e-3, 1e6), min_size=2, max_size=4), st.floats(2.0, 40.0))
def test_smooth_greatest_stays_close_above(values, power):
    joined = smooth_greatest(*values, power=power)
    assert (
        max(values) * (1 - 1e-12)
        <= joined
        <= max(values) * len(values) ** (1 / power) * (1 + 1e-12)
    )


@given(st.floats(0.0, 60.0), st.floats(0.004, 0.1), st.floats(0.2, 1.5), st.floats(0.0, 50.0))
def test_opening_loss_cuts_and_chimney_restores_the_draft(excess, gap, height, loss):
    arguments = {
        "conductivity": 0.026,
        "expansion_coefficient": 1 / 300.0,
        "kinematic_viscosity": 1.6e-5,
        "thermal_diffusivity": 2.25e-5,
    }
    free, choked, helped = (
        chimney_channel_film_coefficient(
            excess, gap, height, chimney_height=above, opening_loss=k, **arguments
        )
        for above, k in ((0.0, 0.0), (0.0, loss), (0.6, loss))
    )
    assert 0.0 <= choked <= helped * (1 + 1e-12)
    assert helped <= free * (1 + 1e-12)


@given(st.floats(0.0, 500.0), st.floats(1e-6, 100.0), st.floats(0.0, 2.0))
def test_draft_for_heat_satisfies_its_balance(heat, loss, above):
    velocity = draft_velocity_for_heat(
        heat,
        0.02,
        0.6,
        chimney_height=above,
        opening_loss=loss,
        expansion_coefficient=1 / 300.0,
        kinematic_viscosity=1.6e-5,
        volumetric_heat_capacity=1180.0,
    )
    left = 0.5 * loss * velocity**3 + 12 * 1.6e-5 * (0.6 + above) / 0.02**2 * velocity**2
    right = 9.80665 / 300.0 * heat * (0.3 + above) / (1180.0 * 0.02)
    assert left == pytest.approx(right, rel=1e-9, abs=1e-290)


def test_best_spacing_is_finite_without_a_difference():
    assert np.all(np.isfinite(best_fin_spacing(np.array([0.0, 1e6]), 0.3)))


@given(st.floats(0.0, 40.0))
def test_wire_on_tube_is_finite_down_to_no_excess(excess):
    value = wire_on_tube_nusselt(
        1e7 * excess,
        excess,
        height=0.6,
        tube_diameter=5e-3,
        tube_pitch=0.05,
        wire_diameter=1.5e-3,
        wire_pitch=6e-3,
    )
    assert np.isfinite(value)
    assert value >= 0.0


@given(st.floats(200.0, 400.0), st.floats(200.0, 400.0), emissivities)
def test_radiation_film_times_difference_is_exact(one, other, factor):
    film = radiation_film_coefficient(one, other, factor)
    exact = factor * 5.670374419e-8 * (one**4 - other**4)
    assert film * (one - other) == pytest.approx(exact, rel=1e-9, abs=1e-9)


@given(emissivities, emissivities, positive, positive)
def test_exchange_is_reciprocal_and_bounded(inner, outer, area, other_area):
    factor = enclosure_exchange_factor(inner, area, outer, other_area)
    assert 0.0 < factor <= inner * (1 + 1e-12)
    conductance = 1.0 / (
        (1 - inner) / (inner * area) + 1 / area + (1 - outer) / (outer * other_area)
    )
    assert factor * area == pytest.approx(conductance, rel=1e-9)
    assert cavity_emissivity(inner, area + other_area, area) >= inner * (1 - 1e-12)


@given(st.floats(0.0, 1e3), st.floats(1.0, 400.0), st.floats(1e-4, 5e-3), st.floats(1e-3, 0.2))
def test_fin_efficiencies_lie_between_none_and_all(film, k, thickness, height):
    values = [
        straight_fin_efficiency(film, k, thickness, height),
        annular_fin_efficiency(film, k, thickness, 0.01, 0.01 + 2 * height),
        sheet_between_tubes_efficiency(film, k, thickness, height + 0.008, 0.008),
    ]
    worse = straight_fin_efficiency(film + 1.0, k, thickness, height)
    assert all(0.0 < value <= 1.0 for value in values)
    assert worse < values[0]


@given(st.floats(1.0, 40.0), st.floats(0.01, 0.3), st.floats(0.5, 100.0))
def test_tube_on_sheet_is_bounded_by_its_bond_and_its_sheet(loss, pitch, bond):
    value = tube_on_sheet_conductance(loss, pitch, 0.006, 50.0, 6e-4, bond)
    assert 0.0 < value < min(bond, loss * max(pitch, 0.006)) * (1 + 1e-12)
    better = tube_on_sheet_conductance(loss, pitch, 0.006, 380.0, 6e-4, 2 * bond)
    assert better > value
    with_tube = tube_on_sheet_conductance(
        loss, pitch, 0.006, 50.0, 6e-4, bond, tube_exposed_conductance=0.1
    )
    assert with_tube == pytest.approx(value + 0.1)


@given(st.floats(0.2, 2.0), st.floats(0.2, 2.0), st.floats(0.01, 0.15))
def test_mean_area_lies_between_inside_and_outside(width, height, thickness):
    resistance = layers_resistance([0.3 * thickness, 0.7 * thickness], [0.12, 0.04])
    wall = box_face_conductance(width, height, thickness, resistance)
    outside = box_face_outside_area(width, height, thickness)
    mean = effective_mean_area(wall, resistance)
    assert width * height < mean < outside
    with_films = conductance_with_films(wall, width * height, 7.7, outside, 7.7)
    assert with_films < min(wall, 7.7 * width * height)


def test_layers_must_match():
    with pytest.raises(ValueError, match="argument"):
        layers_resistance([0.1, 0.2], [0.04])


areas = st.floats(1e-6, 0.1)


@given(areas, areas, st.floats(0.01, 2.0), st.floats(1.0, 1.4))
def test_stack_flow_needs_two_openings_and_a_difference(low, high, height, inside):
    levels = (0.0, height)

    def flow(*sizes, within=inside):
        return stack_outflow(sum(stack_openings(sizes, levels)), 0.6, within, 1.2)

    through = flow(low, high)
    assert np.isfinite(through)
    assert through >= 0.0
    assert flow(low, 0.0) == pytest.approx(0.0, abs=1e-7 * low)
    assert flow(0.0, high) == pytest.approx(0.0, abs=1e-7 * high)
    assert flow(0.0, 0.0) == 0.0
    assert flow(low, high, within=1.2) == 0.0
    # two holes in series let through no more than the smaller one alone
    both = sum(stack_openings((low, high), levels))
    assert both <= min(low, high) * np.sqrt(height) * (1 + 1e-5)
    assert 0.0 <= neutral_level((low, high), levels) <= height


@given(areas, areas, st.floats(0.01, 2.0))
def test_two_openings_flow_as_one_of_their_area_in_series(low, high, height):
    # ASHRAE Fundamentals, ventilation: one opening of (1/A1^2 + 1/A2^2)^(-1/2) under the whole head
    alone = low * high / np.hypot(low, high) * np.sqrt(height)
    assert sum(stack_openings((low, high), (0.0, height))) == pytest.approx(alone, rel=1e-6)


@given(st.lists(st.tuples(areas, st.floats(0.0, 2.0)), min_size=2, max_size=5))
def test_what_leaves_below_the_neutral_level_enters_above(openings):
    sizes, heights = zip(*openings, strict=True)
    out = sum(stack_openings(sizes, heights))
    upside_down = sum(stack_openings(sizes, [-height for height in heights]))
    assert out == pytest.approx(upside_down, rel=1e-5, abs=1e-7)


@given(st.floats(1.0, 1.4), st.floats(1.0, 1.4), st.floats(0.0, 600.0))
def test_a_door_exchanges_no_more_than_the_box_holds(inside, outside, seconds):
    flow = door_exchange_flow(0.5, 0.8, inside, outside)
    assert flow == door_exchange_flow(0.5, 0.8, outside, inside)
    exchanged = door_air_exchanged(flow, seconds, 0.2)
    assert 0.0 <= exchanged <= min(0.2, flow * seconds) * (1 + 1e-12)
    assert door_air_exchanged(flow, seconds + 1.0, 0.2) >= exchanged


@given(st.floats(220.0, 290.0))
def test_frost_stays_between_air_and_ice(temperature):
    density = frost_density(temperature)
    assert 1.3 < density < 917.0
    # air at -20 C 0.0226, ice at 0 C 2.2 W/mK
    assert 0.0226 < frost_conductivity(density) < 2.2
    assert frost_density(temperature + 0.5) >= density


@given(st.floats(1.0, 10.0), st.floats(1e-5, 0.02), st.floats(1e-5, 0.02))
def test_vapour_settles_only_towards_the_drier_side(film, air, surface):
    flux = vapour_mass_flux(film, 1006.0, air, surface)
    assert np.sign(flux) == np.sign(air - surface)
    assert frost_growth_rate(flux, 100.0) == pytest.approx(flux / 100.0)
    layer = frost_layer_resistance(0.5, np.array([80.0, 300.0]))
    assert layer[0] > layer[1]


def test_analogy_with_unit_lewis_number_gives_the_enthalpy_potential():
    # with Le = 1 sensible and latent flux share one coefficient h/cp (Lewis)
    assert vapour_mass_flux(5.0, 1006.0, 0.01, 0.004, lewis_number=1.0) == pytest.approx(
        5.0 / 1006.0 * 0.006
    )


def test_every_correlation_here_names_a_known_source():
    used = {record.source for record in correlations().values() if "frost" in record.quantity}
    used |= {record.source for record in correlations().values() if "convection" in record.quantity}
    assert len(used) >= 8
    assert all(source(key).title for key in used)
