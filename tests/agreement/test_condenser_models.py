"""Condenser and pressure drop against independent libraries, quadrature and energy."""

import numpy as np
import pytest
from fluids.two_phase import Muller_Steinhagen_Heck
from ht.conv_free_immersed import Nu_horizontal_cylinder_Churchill_Chu, Nu_vertical_plate_Churchill
from scipy.integrate import solve_bvp
from scipy.optimize import brentq

from coldwright.arrays import lanes
from coldwright.fluids import moist_air
from coldwright.fluids.refrigerants import refrigerant
from coldwright.heat.condensing import condensing_film_coefficient
from coldwright.heat.pressure_drop import two_phase_friction_gradient
from coldwright.heat.views import parallel_rectangles_view, row_of_cylinders_view
from coldwright.parts.condenser import CONDENSING_QUALITIES, condense
from coldwright.parts.condenser_duty import DutyConditions, duty_at_condensing, duty_for_heat
from coldwright.parts.suction_line import dry_insulation_thickness, sweating_length
from coldwright.plant.evaluation import evaluate
from coldwright.plant.pressure_losses import pressure_losses
from support.condensers import KINDS, ROOM, SEA_LEVEL, condenser_of
from support.systems import sealed_system, surroundings

G = 9.80665


def test_two_phase_friction_is_the_library_s():
    draw = np.random.default_rng(7)
    for _ in range(40):
        bore, flux, x = draw.uniform(2e-3, 8e-3), draw.uniform(20.0, 200.0), draw.uniform(0, 1)
        rho_l, rho_g = draw.uniform(500.0, 1300.0), draw.uniform(2.0, 60.0)
        mu_l, mu_g = draw.uniform(1e-4, 3e-4), draw.uniform(7e-6, 1.3e-5)
        reynolds = flux * bore / np.array([mu_l, mu_g])
        if np.any((reynolds > 1500.0) & (reynolds < 5000.0)):
            continue  # in transition the two friction factors go their own ways
        mass = flux * 0.25 * np.pi * bore**2
        wanted = Muller_Steinhagen_Heck(
            m=mass, x=x, rhol=rho_l, rhog=rho_g, mul=mu_l, mug=mu_g, D=bore, L=1.0
        )
        found = two_phase_friction_gradient(flux, x, bore, rho_l, rho_g, mu_l, mu_g)
        assert found == pytest.approx(wanted, rel=0.02)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("rise", [4.0, 12.0, 30.0])
def test_wall_of_the_condensing_length_by_a_bracket(kind, rise):
    """Film, tube and outside carry one heat: the wall between them sought by Brent's method."""
    part, fluid, flow = condenser_of(kind), refrigerant("R600a"), 4e-4
    high = fluid.saturated(lanes(ROOM + rise))
    flux, perimeter = flow / part.area, np.pi * part.inside_diameter

    def film(difference):
        return condensing_film_coefficient(
            flux,
            CONDENSING_QUALITIES,
            part.inside_diameter,
            difference,
            high.latent_heat,
            high.liquid_density,
            high.vapour_density,
            high.liquid_viscosity,
            high.vapour_viscosity,
            high.liquid_conductivity,
            high.liquid_specific_heat,
        ).mean()

    def excess(wall):
        passed = part.outside(wall, ROOM, SEA_LEVEL).conductance * (wall - ROOM)
        across = high.temperature - wall - passed * part.tube_resistance
        return perimeter * film(across) * across - passed

    wall = brentq(excess, ROOM + 0.5 * rise, ROOM + rise - 1e-6)
    outside = part.outside(wall, ROOM, SEA_LEVEL)
    passed = outside.conductance * (wall - ROOM)
    gas = fluid.vapour(high.pressure, high.temperature + 25.0)
    found = condense(part, high, gas, lanes(flow), lanes(ROOM), lanes(SEA_LEVEL))
    assert found.outside.conductance == pytest.approx(outside.conductance, rel=2e-3)
    across = high.temperature - wall - passed * part.tube_resistance
    assert found.film_coefficient == pytest.approx(film(across), rel=0.02)
    inside = 1.0 / (perimeter * found.film_coefficient) + part.tube_resistance
    whole = 1.0 / (inside + 1.0 / found.outside.conductance)
    assert whole * rise == pytest.approx(passed, rel=2e-3)


@pytest.mark.parametrize(("width", "height", "distance"), [(0.5, 1.1, 0.05), (0.5, 1.1, 0.6)])
def test_parallel_rectangles_by_quadrature(width, height, distance):
    nodes, weights = np.polynomial.legendre.leggauss(200)

    def along(side):
        # the double integral over both points of a side folds into one over their distance
        apart = 0.5 * side * (1.0 + nodes)
        return apart, 2.0 * (side - apart) * 0.5 * side * weights

    (x, wx), (y, wy) = along(width), along(height)
    kernel = distance**2 / (np.pi * (x[:, None] ** 2 + y**2 + distance**2) ** 2)
    wanted = wx @ kernel @ wy / (width * height)
    assert parallel_rectangles_view(width, height, distance) == pytest.approx(wanted, rel=1e-3)


@pytest.mark.parametrize("ratio", [1.3, 3.0, 10.0])
def test_row_of_cylinders_by_rays(ratio):
    """Rays from a cylinder in a row, evenly in angle and by Lambert, that miss both neighbours."""
    angle = (np.arange(720) + 0.5) / 720.0 * 2.0 * np.pi
    sines = 2.0 * (np.arange(720) + 0.5) / 720.0 - 1.0
    outward, lean = np.meshgrid(angle, np.arcsin(sines), indexing="ij")
    x, y = 0.5 * np.cos(outward), 0.5 * np.sin(outward)
    dx, dy = np.cos(outward + lean), np.sin(outward + lean)
    hit = np.zeros(x.shape, dtype=bool)
    for centre in (-ratio, ratio):
        ahead = (centre - x) * dx - y * dy
        beside = np.abs((centre - x) * dy + y * dx)
        hit |= (ahead > 0.0) & (beside < 0.5)
    assert row_of_cylinders_view(ratio, 1.0) == pytest.approx(1.0 - hit.mean(), abs=2e-3)


def test_the_open_face_is_the_library_s_plate():
    part = condenser_of("sheet")
    air = moist_air.film_properties(ROOM + 7.5, SEA_LEVEL)
    grashof = G * air.expansion_coefficient * 15.0 * 1.1**3 / air.kinematic_viscosity**2
    wanted = Nu_vertical_plate_Churchill(float(air.prandtl), float(grashof)) * air.conductivity
    found = part.faces(ROOM + 15.0, ROOM, SEA_LEVEL).open_convection
    assert found == pytest.approx(float(wanted / 1.1), rel=1e-5)


def test_one_bare_run_is_the_library_s_cylinder():
    part = condenser_of("bare", length=0.5, gap=50.0, outside_diameter=0.008)
    air = moist_air.film_properties(ROOM + 7.5, SEA_LEVEL)
    grashof = G * air.expansion_coefficient * 15.0 * 0.008**3 / air.kinematic_viscosity**2
    nusselt = Nu_horizontal_cylinder_Churchill_Chu(float(air.prandtl), float(grashof))
    found = part.outside(ROOM + 15.0, ROOM, SEA_LEVEL).convection_film
    assert found == pytest.approx(float(nusselt * air.conductivity / 0.008), rel=2e-3)


def test_the_sheet_is_the_solved_fin():
    """Sheet between two runs as a boundary-value problem, with the films that the part found."""
    part = condenser_of("sheet", sheet_conductivity=17.0, sheet_thickness=0.0005)
    found = part.outside(ROOM + 15.0, ROOM, SEA_LEVEL)
    both = 2.0 * float(found.convection_film + found.radiation_film)
    half = 0.5 * (float(part.pitch) - 0.00476)
    squared = both / (17.0 * 0.0005)
    mesh = np.linspace(0.0, half, 41)
    solved = solve_bvp(
        lambda _, y: np.stack([y[1], squared * y[0]]),
        lambda root, middle: np.array([root[0] - 1.0, middle[1]]),
        mesh,
        np.ones((2, mesh.size)),
        tol=1e-8,
    )
    mean = np.trapezoid(solved.sol(np.linspace(0, half, 2001))[0], dx=half / 2000) / half
    assert found.efficiency == pytest.approx(mean, rel=1e-4)
    sheet = 0.00476 + 2.0 * half * mean
    assert found.conductance == pytest.approx(1.0 / (1.0 / 20.0 + 1.0 / (both * sheet)), rel=1e-4)


@pytest.mark.parametrize("kind", KINDS)
def test_heat_leaves_by_the_films(kind):
    """Conductance times wall less sink is what both films give off at the mean of the surface."""
    part = condenser_of(kind, air_rise=3.0, dirt=0.2)
    found = part.outside(ROOM + 15.0, ROOM, SEA_LEVEL)
    heat = found.conductance * (ROOM + 15.0 - found.sink_temperature)
    films = found.convection_film + found.radiation_film
    given = films * found.area_per_length * (found.surface_temperature - found.sink_temperature)
    assert given == pytest.approx(float(heat), rel=1e-9)
    by_air = found.convection_film * (found.surface_temperature - ROOM - 3.0)
    by_radiation = found.radiation_film * (found.surface_temperature - ROOM)
    assert (by_air + by_radiation) * found.area_per_length == pytest.approx(float(heat), rel=1e-9)
    assert sum(found.resistances.values()) == pytest.approx(float(1.0 / found.conductance))


@pytest.mark.parametrize("kind", KINDS)
def test_heat_and_condensing_temperature_go_both_ways(kind):
    at = DutyConditions(
        refrigerant("R600a"), lanes(ROOM), lanes(SEA_LEVEL), lanes(348.15), lanes(2.0)
    )
    part = condenser_of(kind)
    there = duty_at_condensing(part, at, ROOM + np.array([8.0, 14.0, 22.0]))
    assert np.all(there.found == 1.0)
    carried = there.mass_flow * (there.inlet.enthalpy - there.state.exit_enthalpy)
    assert there.heat == pytest.approx(carried, rel=1e-9)
    back = duty_for_heat(part, at, there.heat)
    assert back.saturated.temperature - ROOM == pytest.approx([8.0, 14.0, 22.0], abs=1e-4)
    assert duty_for_heat(part, at, 5000.0).found == 0.0
    shares = there.state.gas_share + there.state.condensing_share + there.state.liquid_share
    assert shares == pytest.approx(np.ones(3), abs=1e-9)


def test_losses_of_a_system_follow_their_law():
    """Friction of a dry line goes as length; its shift is the slope of the saturation curve."""
    system, at = sealed_system(), surroundings(-5.0, 25.0)
    from coldwright.plant.balance import settle
    from coldwright.plant.charge_rule import StatedSuperheat

    balance = settle(system, at, StatedSuperheat(np.asarray(5.0)))
    e = evaluate(system, at, balance.evaluation.unknowns)
    losses = pressure_losses(system, e)
    low = refrigerant("R152a").saturated(e.unknowns.evaporating_temperature)
    slope = low.latent_heat / (
        low.temperature * (1.0 / low.vapour_density - 1.0 / low.liquid_density)
    )
    for loss in (losses.evaporator, losses.suction_line):
        assert loss.drop > 0.0
        assert loss.shift == pytest.approx(float(loss.drop / slope), rel=0.08)


def test_sweat_and_its_insulation_by_marching():
    """The bare line marched in small steps, and the skin of its insulation worked back."""
    room, dew, skin, units = 298.15, 289.15, 278.15, 1.5
    steps = np.linspace(0.0, 2.0, 200001)
    course = room - (room - skin) * np.exp(-units * steps)
    wanted = steps[np.argmax(course >= dew)]
    assert sweating_length(skin, room, dew, units, 2.0) == pytest.approx(wanted, abs=1e-4)
    thickness = float(
        dry_insulation_thickness(
            263.15, room, dew, 0.00635, conductivity=0.038, film_coefficient=8.0
        )
    )
    outer = 0.00635 + 2.0 * thickness
    flow = (room - dew) * np.pi * outer * 8.0
    inner = dew - flow * np.log(outer / 0.00635) / (2.0 * np.pi * 0.038)
    assert inner == pytest.approx(263.15, abs=1e-6)
