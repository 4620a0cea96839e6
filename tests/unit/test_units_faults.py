"""What is refused, and in which words."""

import math

import pytest

from coldwright.errors import InputError
from coldwright.units import Kind, parse_quantity


def fault_of(text, kind, **more):
    with pytest.raises(InputError) as caught:
        parse_quantity(text, kind, field=more.pop("field", "cabinet.layer[0].thickness"), **more)
    (fault,) = caught.value.faults
    return fault


def test_the_sentence():
    fault = fault_of("60", Kind.length, subject="Wall thickness of face 'back'")
    assert str(fault) == (
        "Wall thickness of face 'back' must be a length with its unit, such as 60 mm or 2 3/8 in; "
        "received '60', which has no unit. (units: mm, cm, m, µm, in, ft, yd)"
    )
    assert fault.field == "cabinet.layer[0].thickness"


@pytest.mark.parametrize(
    ("field", "opening"),
    [
        ("cabinet.layer[0].inside_width", "Inside width must be"),
        ("mass", "Mass must be"),
        ("", "The value must be"),
    ],
)
def test_the_subject_comes_from_the_field(field, opening):
    assert fault_of("x", Kind.length, field=field).message.startswith(opening)


@pytest.mark.parametrize(
    ("given", "kind", "what"),
    [
        (60, Kind.length, "received 60, which has no unit"),
        (60.5, Kind.power, "received 60.5, which has no unit"),
        (True, Kind.number, "received True, which is neither text nor a number"),
        (None, Kind.length, "received None, which is neither text nor a number"),
        ([5], Kind.number, "received [5], which is neither text nor a number"),
        ("", Kind.length, "received '', which is empty"),
        ("  ", Kind.length, "received '', which is empty"),
        ("5 W", Kind.length, "received '5 W', which is a power"),
        ("5 kg", Kind.volume, "received '5 kg', which is a mass"),
        ("5 V", Kind.heat_flow, "received '5 V', which is a voltage"),
        ("5 oz", Kind.volume, "received '5 oz', which is a mass"),
        ("5 kg m", Kind.length, "which measures something else"),
        ("5 W", Kind.temperature, "which is a power"),
        ("5 W", Kind.absolute_pressure, "which is a power"),
        ("5 m ± 1 kg", Kind.length, "which is a mass"),
        ("5 K diff", Kind.temperature, "which is a difference"),
        ("-300 °C", Kind.temperature, "which is below absolute zero"),
        ("5 °C ± 10 %", Kind.temperature, "with a percentage of a temperature"),
        ("5 °C", Kind.temperature_difference, "which is a temperature"),
        ("10 psig", Kind.pressure_difference, "which is marked gauge"),
        ("170 kPa", Kind.absolute_pressure, "which does not say gauge or absolute"),
        ("170 kPa", Kind.gauge_pressure, "which does not say gauge or absolute"),
        ("10 psi", Kind.absolute_pressure, "which does not say gauge or absolute"),
        ("10 psid", Kind.absolute_pressure, "which does not say gauge or absolute"),
        ("20 inHg", Kind.absolute_pressure, "which does not say gauge or absolute"),
        ("-20 psig", Kind.absolute_pressure, "which is below a full vacuum"),
        ("30 inHg vacuum", Kind.gauge_pressure, "which is below a full vacuum"),
        ("6 m", Kind.number, "with the unit 'm'"),
        ("6 W", Kind.ratio, "whose unit 'W' is not allowed"),
        ("40 % ± 5 W", Kind.ratio, "whose unit 'W' is not allowed"),
    ],
)
def test_what_is_wrong_is_said(given, kind, what):
    assert what in fault_of(given, kind).message


@pytest.mark.parametrize(
    ("given", "kind", "hint"),
    [
        ("nan", Kind.ratio, "does not start with a number"),
        ("inf m", Kind.length, "does not start with a number"),
        (math.nan, Kind.ratio, "a quantity is finite"),
        (math.inf, Kind.number, "a quantity is finite"),
        (10**400, Kind.number, "a quantity is finite"),
        ("1e999 m", Kind.length, "a quantity is finite"),
        ("1/0 in", Kind.length, "divided by 0"),
        ("1,234.5 mm", Kind.length, "without thousands marks"),
        ("1.234,5 mm", Kind.length, "without thousands marks"),
        ("1 234 mm", Kind.length, "without thousands marks"),
        ("1_000 mm", Kind.length, "without thousands marks"),
        ("5 m ± -1 mm", Kind.length, "cannot be negative"),
        ("5 m ± 1 ± 2", Kind.length, "more than one ±"),
        ("5 m ±", Kind.length, "does not start with a number"),
        ("40 ± 5 %", Kind.ratio, "on both sides"),
        ("10 pzig", Kind.absolute_pressure, "did you mean 'psig'?"),
        ("5 milimeters", Kind.length, "did you mean 'millimeters'?"),
        ("5 wats", Kind.power, "did you mean 'watts'?"),
        ("5 Btu/hour-ish", Kind.heat_flow, "did you mean"),
        ("5 furlongs", Kind.length, "units: mm, cm, m"),
        ("170 kPa", Kind.absolute_pressure, "write '170 kPa gauge' or '170 kPa abs'"),
        ("20 inHg", Kind.absolute_pressure, "write '20 inHg vacuum' or '20 inHg abs'"),
        ("30 inHg vac", Kind.absolute_pressure, "a full vacuum is 29.92 inHg"),
        ("-3 inHg vac", Kind.absolute_pressure, "without a minus sign"),
        ("500 micron gauge", Kind.absolute_pressure, "a micron is always absolute"),
        ("10 psig", Kind.pressure_difference, "write '10 psi'"),
        ("5 °C", Kind.temperature_difference, "'5 °C difference' or '5 K'"),
        ("9 °F", Kind.temperature_difference, "'9 °F difference'"),
        ("5 °C ± 10 %", Kind.temperature, "± 1 K"),
        ("6 per day", Kind.number, "leave the unit out"),
        ("5 mPa", Kind.pressure_difference, "units: Pa, kPa"),
    ],
)
def test_the_hint_helps(given, kind, hint):
    assert hint in fault_of(given, kind).hint


def test_a_milli_is_not_taken_for_a_mega():
    assert "did you mean 'MJ'?" in fault_of("5 mj", Kind.energy).hint
    assert "did you mean 'mA'?" in fault_of("5 ma", Kind.current).hint
    assert parse_quantity("5 MJ", Kind.energy, field="x").value == 5.0e6


def test_a_long_entry_is_cut_in_the_message():
    assert len(fault_of("9" * 5000, Kind.length).message) < 250
