"""Loop of air and frost against their own balances, solved another way."""

import runpy
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq

from coldwright.fluids.moist_air import film_properties
from coldwright.heat.free_convection.numbers import STANDARD_GRAVITY
from coldwright.parts.air_circuit import SHARP_OPENING_LOSS, circulate, shelf_loss_coefficient
from coldwright.parts.cold_box import box_at_air
from coldwright.verdict.frost_figures import costly_thickness

box = SimpleNamespace(**runpy.run_path(str(Path(__file__).parents[1] / "box_scenario.py")))
HEIGHT, OPENING, PLAN, HEAT, RETURN = 0.7, 0.02, 0.15, 30.0, 280.0


def pressure_balance(mass_flow, *, duct=0.0, shelves=0, blocked=0.0):
    """Drive less losses [Pa] around the loop, densities integrated leg by leg."""
    air = film_properties(RETURN, 101325.0)
    chill = HEAT / (mass_flow * air.specific_heat)
    cold = air.density * (1.0 + air.expansion_coefficient * chill)
    centre, foot = 0.6 * HEIGHT, -duct
    warms_at = foot + 0.25 * (HEIGHT - foot)

    def difference(height):
        falling = cold if height < centre else air.density
        rising = cold if height < warms_at else air.density
        return float(falling - rising)

    breaks = sorted((warms_at, centre))
    drive, _ = quad(difference, foot, HEIGHT, points=breaks)
    openings = 2.0 * SHARP_OPENING_LOSS / OPENING**2
    loss = openings + shelves * float(shelf_loss_coefficient(blocked)) / PLAN**2
    return STANDARD_GRAVITY * drive - mass_flow**2 * loss / (2.0 * float(air.density))


@pytest.mark.parametrize(
    "changes",
    [
        {},
        {"duct": 0.3},
        {"shelves": 3, "blocked": 0.8},
        {"duct": 0.2, "shelves": 2, "blocked": 0.9},
    ],
)
def test_the_loop_flows_as_its_pressures_balance(changes):
    solved = brentq(lambda flow: pressure_balance(flow, **changes), 1e-4, 1.0)
    path = box.air_path(
        True,
        OPENING,
        height_difference=HEIGHT,
        free_area=PLAN,
        duct_height=changes.get("duct", 0.0),
        shelves=changes.get("shelves", 0),
        shelf_blocked=changes.get("blocked", 0.0),
    )
    flow = circulate(path, HEAT, RETURN, surface_conductance=3.0).mass_flow
    # 1 %: the column is rounded where cooling and heating lie level
    assert flow == pytest.approx(solved, rel=0.01)


def test_shelves_that_rule_alone_set_the_flow_of_one_space():
    # blocked so far that the layer's own losses no longer count
    path = box.air_path(False, shelves=20, shelf_blocked=0.98, free_area=0.05)
    air = film_properties(RETURN, 101325.0)
    flow = circulate(path, HEAT, RETURN, surface_conductance=30.0).mass_flow
    loss = 20 * float(shelf_loss_coefficient(0.98)) / 0.05**2
    drive = STANDARD_GRAVITY * air.expansion_coefficient * HEAT * path.column_height
    alone = np.cbrt(2.0 * air.density**2 * drive / (air.specific_heat * loss))
    assert flow == pytest.approx(float(alone), rel=0.02)


@pytest.mark.parametrize("name", ["plate", "drum"])
def test_a_flat_layer_costs_a_tenth_at_a_ninth_of_the_films(name):
    # Fourier's law: what passes falls to nine tenths where the layer resists a ninth of the films.
    cold_side = {"plate": box.plate, "drum": box.drum}[name](skin=box.surface(emissivity=0.95))
    state = box_at_air(box.cupboard(), box.air_path(), cold_side, 275.15, box.room())
    films = state.surface.films
    both = films.convective_conductance + films.radiative_conductance
    expected = 0.108 * films.outside_area / (9.0 * both)
    found = costly_thickness(cold_side, state, 100.0, np.asarray(101325.0))
    assert found == pytest.approx(float(expected), rel=0.03)


def test_frost_on_a_thin_tube_helps_before_it_costs():
    # critical radius of insulation k / h, here 0.108 / 8: about 13 mm, beyond the tube's 5 mm
    tube = box.bare_tube(box.surface(emissivity=0.95))
    state = box_at_air(box.cupboard(), box.air_path(), tube, 275.15, box.room())
    found = costly_thickness(tube, state, 100.0, np.asarray(101325.0))
    assert found is None or found > 0.013 - 0.5 * 0.00952


def test_a_bright_surface_gains_by_its_first_frost():
    bright, dull = (box.plate(box.surface(emissivity=emissivity)) for emissivity in (0.05, 0.95))
    state = box_at_air(box.cupboard(), box.air_path(), dull, 275.15, box.room())
    pressure = np.asarray(101325.0)
    later = costly_thickness(bright, state, 100.0, pressure)
    sooner = costly_thickness(dull, state, 100.0, pressure)
    # frost of 0.5 mm has made it dull (`ColdSurface.seen_emissivity`); only then does it cost
    assert sooner < later < sooner + 1e-3
