"""Bench answers against published figures: boiling, standing pressure, thin air, limits."""

import numpy as np
import pytest

from coldwright.fluids import moist_air
from coldwright.fluids.oils import oil
from coldwright.fluids.refrigerants import refrigerant
from coldwright.fluids.thin_air import boiling_temperature, thermostat_shift
from coldwright.parts.standing import stand
from coldwright.shop.charge_in_room import charge_limits, least_rooms, spread
from coldwright.shop.refrigerant_safety import safety
from coldwright.units import atmosphere_at

ATMOSPHERE = 101325.0
FOOT = 0.3048
ASHRAE_34 = "ASHRAE 34, normal boiling points (from memory)"
STEAM = "steam tables, IAPWS-IF97 (from memory)"
ICAO = "ICAO Doc 7488 (from memory)"
PRACTICE = "computed with CoolProp 8.0.0 (outside figures, practice table)"
SAFETY = "computed from ISO 817 limits (outside figures, safety table)"


@pytest.mark.parametrize(
    ("name", "celsius", "source"),
    [
        ("R152a", -24.0, ASHRAE_34),
        ("R134a", -26.1, ASHRAE_34),
        ("R600a", -11.7, ASHRAE_34),
        ("R290", -42.1, ASHRAE_34),
        ("R1270", -47.6, ASHRAE_34),
        ("R1234yf", -29.5, ASHRAE_34),
        ("R12", -29.8, ASHRAE_34),
        ("R22", -40.8, ASHRAE_34),
    ],
)
def test_normal_boiling_points(name, celsius, source):
    found = refrigerant(name).saturation_temperature(ATMOSPHERE) - 273.15
    assert found == pytest.approx(celsius, abs=0.1)


@pytest.mark.parametrize(
    ("name", "grams", "source"),
    [
        ("R134a", 97.0, PRACTICE),
        pytest.param(
            "R152a",
            56.0,
            PRACTICE,
            marks=pytest.mark.xfail(
                reason="saturated vapour of R152a at 25 °C is 18.47 kg/m3 by the reference "
                "equation named there: 55.4 g in 3.0 L, not 56"
            ),
        ),
        ("R600a", 27.0, PRACTICE),
    ],
)
def test_the_whole_charge_is_vapour_below(name, grams, source):
    """3.0 L at 25 °C; the figures are whole grams."""
    state = stand(refrigerant(name), grams / 1000.0, 3e-3, 298.15)
    assert 1000.0 * state.greatest_all_vapour_charge == pytest.approx(grams, abs=0.5)


def test_pressure_rises_with_temperature_as_an_ideal_gas_when_dilute():
    """Gay-Lussac's law: 5 g of R134a in 3 L, where the gas is within 1 % of ideal."""
    cold, warm = stand(refrigerant("R134a"), 5e-3, 3e-3, np.array([283.15, 313.15])).pressure
    assert warm / cold == pytest.approx(313.15 / 283.15, rel=0.01)
    assert cold == pytest.approx(5e-3 / 3e-3 * 8.314462618 / 0.10203 * 283.15, rel=0.02)


def test_oil_holds_the_measured_share():
    """Wahlstrom and Vamling 1999: R134a in PEB8 at 303 K and 214.2 kPa, mole fraction 0.3244.

    standard uncertainties of the pair, as in the isotherm tests; molar mass 640.9 g/mol.
    """
    light = 0.3244 * 102.03
    measured = light / (light + 0.6756 * 640.9)
    gas, ester = refrigerant("R134a"), oil("ester")
    # What stands at that pressure with 0.2 kg of oil in 2 L: measured share, and gas.
    dissolved = 0.2 * measured / (1.0 - measured)
    charge = dissolved + 2e-3 * float(gas.vapour(214200.0, 303.0).density)
    state = stand(gas, charge, 2e-3, 303.0, ester, 0.2)
    spread_of_pair = 2.0 * ester.pair("R134a").relative_uncertainty
    assert float(state.pressure) == pytest.approx(214200.0, rel=spread_of_pair)


@pytest.mark.parametrize(
    ("kilopascals", "celsius", "source"),
    [
        (50.0, 81.32, STEAM),
        (60.0, 85.93, STEAM),
        (70.0, 89.93, STEAM),
        (80.0, 93.49, STEAM),
        (90.0, 96.69, STEAM),
        (100.0, 99.61, STEAM),
        (101.325, 99.97, STEAM),
    ],
)
def test_water_boils(kilopascals, celsius, source):
    found = boiling_temperature(1000.0 * kilopascals) - 273.15
    assert found == pytest.approx(celsius, abs=0.03)


@pytest.mark.parametrize(
    ("metres", "kilopascals", "source"),
    [
        (0.0, 101.325, ICAO),
        (1000.0, 89.875, ICAO),
        (1500.0, 84.556, ICAO),
        (3000.0, 70.109, ICAO),
    ],
)
def test_standard_atmosphere(metres, kilopascals, source):
    assert atmosphere_at(metres) == pytest.approx(1000.0 * kilopascals, rel=1e-4)


@pytest.mark.parametrize(
    ("fill", "celsius", "kelvins", "tolerance", "source"),
    [
        ("R134a", -20.0, 0.63, 0.02, PRACTICE),
        ("R134a", -10.0, 0.46, 0.02, PRACTICE),
        ("R134a", 0.0, 0.35, 0.02, PRACTICE),
        # the same row of the outside figures stands for R12 too, "a fill like"
        ("R12", -20.0, 0.63, 0.04, PRACTICE),
        ("R12", -10.0, 0.46, 0.04, PRACTICE),
        ("R12", 0.0, 0.35, 0.04, PRACTICE),
        ("R600a", -20.0, 1.2, 0.05, PRACTICE),
        ("R600a", -10.0, 0.86, 0.02, PRACTICE),
        ("R600a", 0.0, 0.65, 0.02, PRACTICE),
    ],
)
def test_a_thermostat_runs_too_cold_by_each_thousand_feet(
    fill, celsius, kelvins, tolerance, source
):
    pressure = atmosphere_at(1000.0 * FOOT)
    shift = thermostat_shift(refrigerant(fill), celsius + 273.15, pressure)
    assert -shift == pytest.approx(kelvins, abs=tolerance)


@pytest.mark.parametrize(
    ("fahrenheit", "percent", "dew_F", "grains_per_lb", "btu_per_lb", "source"),
    [
        # Read off ASHRAE psychrometric chart no. 1, sea level (from memory).
        (75.0, 50.0, 55.1, 64.8, 28.1, "ASHRAE chart no. 1 (from memory)"),
        (95.0, 40.0, 66.7, 99.0, 38.4, "ASHRAE chart no. 1 (from memory)"),
    ],
)
def test_psychrometric_chart(fahrenheit, percent, dew_F, grains_per_lb, btu_per_lb, source):
    kelvin = (fahrenheit + 459.67) / 1.8
    ratio = moist_air.humidity_ratio(kelvin, percent / 100.0)
    dew = 1.8 * moist_air.dew_point(kelvin, percent / 100.0) - 459.67
    assert dew == pytest.approx(dew_F, abs=0.3)
    assert 7000.0 * ratio == pytest.approx(grains_per_lb, rel=0.015)
    # That chart counts from dry air at 0 °F, the equation from 0 °C.
    enthalpy = moist_air.enthalpy(kelvin, ratio) / 2326.0 + 0.240 * 32.0
    assert enthalpy == pytest.approx(btu_per_lb, rel=0.01)


@pytest.mark.parametrize(
    ("name", "litres", "grams", "source"),
    [("R152a", 100.0, 13.0, SAFETY), ("R600a", 100.0, 4.3, SAFETY), ("R290", 100.0, 3.8, SAFETY)],
)
def test_a_closed_cabinet_reaches_the_lower_limit(name, litres, grams, source):
    found = spread(safety(name), grams / 1000.0, litres / 1000.0)
    assert found.share_of_lower_limit == pytest.approx(1.0, rel=0.01)


@pytest.mark.parametrize(
    ("name", "rule", "grams", "tolerance", "source"),
    [
        ("R290", "household appliance", 150.0, 0.0, "IEC 60335-2-24 (from memory)"),
        ("R152a", "household appliance", 150.0, 0.0, "IEC 60335-2-24 (from memory)"),
        ("R290", "commercial appliance", 500.0, 10.0, "IEC 60335-2-89:2019 as reported (read)"),
        ("R152a", "commercial appliance", 1200.0, 0.0, "IEC 60335-2-89:2019 as reported (read)"),
        ("R290", "any room", 152.0, 0.5, "ISO 5149-1 (rule from memory)"),
        ("R600a", "any room", 172.0, 0.5, "ISO 5149-1 (rule from memory)"),
        ("R152a", "any room", 520.0, 0.5, "ISO 5149-1 (rule from memory)"),
    ],
)
def test_charges_that_rules_name(name, rule, grams, tolerance, source):
    limits = {limit.name: limit for limit in charge_limits(safety(name))}
    assert 1000.0 * limits[rule].charge_kg == pytest.approx(grams, abs=tolerance, rel=1e-12)


def test_room_for_a_quarter_of_the_lower_limit():
    """m / (0.25 LFL), from the limits of ISO 817 (outside figures, safety table)."""
    rooms = least_rooms(safety("R290"), 0.150)
    assert rooms.quarter_of_lower_limit == pytest.approx(0.150 / (0.25 * 0.038))
    # EN 378 practical limit of R290, 8 g/m3 (read in a hydrocarbon handbook page).
    assert rooms.practical_limit == pytest.approx(18.75)
    assert least_rooms(safety("R134a"), 0.150).quarter_of_lower_limit is None
