"""Contracts of the bench answers' parts: ends of ranges, fault texts, spread."""

import math

import numpy as np
import pytest

from coldwright.cli.calc.answer import Writer, worked_out
from coldwright.cli.calc.entries import Entries, Entry
from coldwright.errors import InputError
from coldwright.fluids.burst_protection import burst_temperature
from coldwright.fluids.gauge_dial import dial_temperature
from coldwright.fluids.refrigerants import refrigerant
from coldwright.fluids.thin_air import thermostat_shift
from coldwright.parts.standing import stand
from coldwright.shop.charge_in_room import charge_limits, law_lines
from coldwright.shop.refrigerant_safety import refrigerant_names, safety
from coldwright.shop.rows import table
from coldwright.sources import sources
from coldwright.units import Kind


def test_a_dial_has_no_mark_outside_its_range():
    shown = dial_temperature(refrigerant("R12"), np.array([1.0, 2e5, 1e7]))
    np.testing.assert_array_equal(np.isnan(shown), [True, False, True])


def test_a_thermostat_has_no_shift_below_its_fill():
    fill = refrigerant("R600a")
    shift = thermostat_shift(fill, np.array([220.0, 273.15]), 60000.0)
    np.testing.assert_array_equal(np.isnan(shift), [True, False])
    assert thermostat_shift(fill, 273.15, 101325.0) == pytest.approx(0.0, abs=1e-9)


def test_a_charge_that_does_not_fit_has_no_state():
    state = stand(refrigerant("R134a"), np.array([0.1, 9.0]), 3e-3, 298.15)
    np.testing.assert_array_equal(np.isnan(state.pressure), [False, True])
    np.testing.assert_array_equal(np.isnan(state.liquid_mass), [False, True])


def test_burst_table_knows_its_kinds():
    assert burst_temperature("sodium chloride", 0.2) is None
    assert burst_temperature("propylene glycol", 0.0) == pytest.approx(273.15)
    assert burst_temperature("propylene glycol", 0.5) == -math.inf


def test_every_rule_and_law_line_has_a_known_source():
    for file in ("charge_limits.toml", "charge_law.toml"):
        for row in table(file).values():
            assert row["source"] in sources()


def test_rules_are_for_gases_that_burn_and_law_for_all():
    for name in refrigerant_names():
        gas = safety(name)
        assert bool(charge_limits(gas)) == gas.flammable
        assert {line.place for line in law_lines(gas)} == {"United States", "European Union"}


def test_entries_keep_every_fault():
    entries = Entries()
    entries.needed("--charge", None, Kind.mass)
    entries.needed("--room", "18", Kind.volume)
    entries.needed("--humidity", "55", Kind.ratio, (0.01, 1.0))
    entries.altitude("--altitude", "1500 m ± 20 m")
    with pytest.raises(InputError) as caught:
        entries.settle()
    charge, room, humidity, altitude = caught.value.faults
    assert str(charge) == ("--charge must be given: a mass with its unit, such as 40 g or 1.4 oz.")
    assert "which has no unit" in room.message
    assert str(humidity) == (
        "--humidity must be from 1 % to 100 %; received '55'. (for 55 per cent write '55 %')"
    )
    assert "without ±" in altitude.message


def test_a_range_is_told_in_both_systems():
    entries = Entries()
    entries.needed("--temperature", "90 °C", Kind.temperature, (233.15, 333.15))
    with pytest.raises(InputError, match=r"from -40.0 °C to 60.0 °C \(-40.0 °F to 140.0 °F\)"):
        entries.settle()


def test_spread_adds_squares():
    inputs = {"first": Entry(3.0, 0.5), "second": Entry(2.0, 0.25), "exact": Entry(1.0)}
    data = worked_out(
        lambda first, second, exact: {"sum_m": 3.0 * first + 4.0 * second, "one": exact}, inputs
    )
    assert data["half_widths"] == {"sum_m": pytest.approx(2.0 * math.hypot(1.5, 1.0))}
    # a bound cuts the move, not the slope
    cut = worked_out(lambda first: {"sum_m": 3.0 * first}, {"first": Entry(3.0, 0.5, (0.0, 3.0))})
    assert cut["half_widths"]["sum_m"] == pytest.approx(3.0)
    assert "half_widths" not in worked_out(lambda exact: {"one": exact}, {"exact": Entry(1.0)})


@pytest.mark.parametrize(
    ("key", "value", "half", "system", "text"),
    [
        ("viscosity_Pas", 0.00438, 0.0007, "si", "4.38 ± 0.70 mPa s"),
        ("rcl_g_per_m3", 32.0, 0.0, "shop", "2 lb/1000 ft3"),
        ("rcl_g_per_m3", 32.0, 0.0, "si", "32 g/m3"),
        ("dial_error_K", -5.0, 0.0, "shop", "-9.0 °F diff"),
        ("pressure_Pa", 170272.57, 0.0, "shop", "10.0 psig"),
        ("freezing_C", None, 0.0, "si", "not known"),
    ],
)
def test_figures_are_written_by_their_key(key, value, half, system, text):
    halves = {key: half} if half else {}
    assert Writer({key: value, "half_widths": halves}, system).figure(key) == text
