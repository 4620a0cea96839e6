"""Capillary flow against the generalised correlation of measurements, and a worked example."""

import numpy as np
import pytest

from coldwright.arrays import lanes
from coldwright.fluids.refrigerants import refrigerant
from coldwright.parts.capillary import ENTRANCE_LOSS, Capillary, capillary_flow
from coldwright.parts.capillary_check import cross_check
from coldwright.parts.capillary_solution import Ends, ReturnGas, solve_flow
from coldwright.parts.return_exchanger import SuctionLine
from support.capillary_points import ROUGHNESS, WOLF_BITTLE_PATE, inlet_enthalpy, model_at


def tube(bore, length, joined=0.0, start=0.0):
    return Capillary(lanes(bore), lanes(length), lanes(ROUGHNESS), lanes(start), lanes(joined))


def checked(point):
    fluid, pressure = refrigerant(point.fluid), 1e6 * point.inlet_MPa
    enthalpy = inlet_enthalpy(fluid, pressure, point.subcooling, point.quality)
    return cross_check(
        fluid,
        1e-3 * point.bore_mm,
        point.length,
        pressure,
        enthalpy,
        fluid.saturation_pressure(248),
    )


@pytest.mark.parametrize("point", WOLF_BITTLE_PATE, ids=lambda point: point.case)
def test_correlation_with_our_tables(point):
    assert 3600.0 * checked(point).correlation == pytest.approx(point.kg_per_h, rel=5e-3)


@pytest.mark.parametrize("point", WOLF_BITTLE_PATE, ids=lambda point: point.case)
def test_flow_model_against_the_correlation(point):
    found = model_at(point)
    assert found.found
    assert 3600.0 * found.mass_flow == pytest.approx(point.kg_per_h, rel=point.near)


# Hermes, Melo and Knabben 2010: their algebraic solution and good models alike come within 10 % of
# over 90 % and within 15 % of nearly all of the points measured on R134a and R600a (abstract read;
# the equation from memory). Two that do so stand at most 20 % apart, and mostly 10 %.
def test_flow_model_against_the_algebraic_solution():
    points = [point for point in WOLF_BITTLE_PATE if point.quality is None]
    apart = np.array(
        [float(model_at(point).mass_flow / checked(point).algebraic) - 1.0 for point in points]
    )
    assert np.all(np.abs(apart) < 0.15)
    assert np.mean(np.abs(apart) < 0.10) > 0.9


def test_correlation_is_bridged_where_its_branches_do_not_meet():
    fluid, pressure = refrigerant("R134a"), 1.2e6
    saturated = fluid.saturated(fluid.saturation_temperature(pressure))
    # From 3 K of subcooling to 6 % of gas.
    enthalpy = saturated.liquid_enthalpy + np.linspace(-4500.0, 9500.0, 200)
    found = cross_check(fluid, 0.0007, 3.0, pressure, enthalpy, 1.2e5)
    change = np.diff(np.log(found.correlation))
    assert np.all(change < 0.0)
    assert np.all(np.abs(change) < 0.01)
    assert 20 < np.sum(found.bridged) < 150
    # Outside what it was fitted on it is not known.
    far = saturated.liquid_enthalpy + np.array([-30e3, 50e3])
    assert np.all(np.isnan(cross_check(fluid, 0.0007, 3.0, pressure, far, 1.2e5).correlation))


# A return-line exchanger raises the flow by 0 to 20 % (from memory; no place along the tube named).
USUAL = [("R134a", 0.66, 3.3, 318.15, 5.0), ("R600a", 0.66, 3.0, 313.15, 3.0)]
USUAL += [("R152a", 0.79, 3.0, 318.15, 5.0)]


def gain(name, bore_mm, length, condensing, subcooling, start):
    fluid, joined, cold = refrigerant(name), 1.2, 250.15
    pressure = fluid.saturation_pressure(condensing)
    ends = Ends(pressure, fluid.liquid_enthalpy(pressure, condensing - subcooling), lanes(cold))
    line = SuctionLine(lanes(0.0048), lanes(1.2), lanes(joined), lanes(60.0), lanes(0.0))
    beside = ReturnGas(line, fluid.saturated(cold).vapour_enthalpy)
    plain = solve_flow(tube(1e-3 * bore_mm, length), fluid, ends)
    with_it = solve_flow(tube(1e-3 * bore_mm, length, joined, start), fluid, ends, beside)
    return float(with_it.mass_flow / plain.mass_flow) - 1.0


@pytest.mark.parametrize(("name", "bore_mm", "length", "condensing", "subcooling"), USUAL)
def test_gain_by_an_exchanger_at_the_end_of_the_tube(name, bore_mm, length, condensing, subcooling):
    start = length - 1.2 - 0.15
    assert 0.0 < gain(name, bore_mm, length, condensing, subcooling, start) < 0.20


@pytest.mark.xfail(
    strict=True,
    reason="In the middle of the tube the liquid is cooled before it flashes and the model gains "
    "40 to 50 %; the figure names no place, and the model's heat balance agrees with a slow one.",
)
@pytest.mark.parametrize(("name", "bore_mm", "length", "condensing", "subcooling"), USUAL)
def test_gain_by_an_exchanger_in_the_middle(name, bore_mm, length, condensing, subcooling):
    start = 0.5 * (length - 1.2)
    assert 0.0 < gain(name, bore_mm, length, condensing, subcooling, start) < 0.20


# Stoecker and Jones 1982, chapter 13, example 13-1 and table 13-1 (from memory): R22 at 36 kg/h
# from saturated liquid at 40 C in a 1.63 mm bore needs 0.2306 m down to 39 C by the book's
# property formulas. With today's properties it is 10 to 13 % longer, for the book's liquid
# viscosity is higher; the book's friction factor 0.33 Re^-0.25 and linear mixture viscosity.
BOOK_STEP = 0.2306


def test_first_step_of_the_book_with_its_friction():
    fluid = refrigerant("R22")
    flux = 0.010 / (np.pi / 4.0 * 0.00163**2)
    at = fluid.saturated(np.array([313.15, 312.15]))
    v_f, v_g = 1.0 / at.liquid_density, 1.0 / at.vapour_density
    a = 0.5 * flux**2 * (v_g - v_f) ** 2
    b = at.latent_heat + flux**2 * v_f * (v_g - v_f)
    total = at.liquid_enthalpy[0] + 0.5 * (flux * v_f[0]) ** 2
    c = at.liquid_enthalpy - total + 0.5 * (flux * v_f) ** 2
    quality = (-b + np.sqrt(b**2 - 4.0 * a * c)) / (2.0 * a)
    volume = v_f + quality * (v_g - v_f)
    viscosity = (1.0 - quality) * at.liquid_viscosity + quality * at.vapour_viscosity
    friction = np.mean(0.33 / (flux * 0.00163 / viscosity) ** 0.25)
    velocity = flux * volume
    drop = at.pressure[0] - at.pressure[1] - flux * (velocity[1] - velocity[0])
    length = drop * 2.0 * 0.00163 / (friction * np.mean(velocity) * flux)
    assert 1.10 < length / BOOK_STEP < 1.13


def test_first_step_of_the_book_by_the_flow_model():
    fluid = refrigerant("R22")
    smooth = Capillary(lanes(0.00163), lanes(2.0), lanes(0.0), lanes(0.0), lanes(0.0))
    at = fluid.saturated(313.15)
    velocity_head = 0.5 * (0.010 / smooth.area) ** 2 / at.liquid_density
    flow = capillary_flow(
        smooth,
        fluid,
        0.010,
        # The book starts inside the tube: our entrance loss is put on top.
        at.pressure + ENTRANCE_LOSS * velocity_head,
        at.liquid_enthalpy + velocity_head / at.liquid_density,
        fluid.saturation_pressure(312.15),
    )
    # Churchill's smooth friction is below the book's 0.33 Re^-0.25 (0.0226 at Re 46 000 against
    # 0.0209) and McAdams' mixture viscosity below the linear one: longer again.
    assert 1.10 < flow.required_length / BOOK_STEP < 1.25


# A published trade chart of capillary conversions, L2 = L1 (d2/d1)^4.6 at equal flow, exponents
# 4.43 to 4.81 (read).
@pytest.mark.parametrize("bore", [0.00066, 0.00079])
def test_length_for_another_bore(bore):
    fluid = refrigerant("R134a")
    enthalpy = fluid.liquid_enthalpy(1.2e6, 310.0)
    suction = fluid.saturation_pressure(250.0)
    bores = bore * np.array([1.0, 1.1])
    lengths = capillary_flow(tube(bores, 3.0), fluid, 3.0 / 3600.0, 1.2e6, enthalpy, suction)
    exponent = np.log(lengths.required_length[1] / lengths.required_length[0]) / np.log(1.1)
    assert 4.43 < exponent < 5.1
