"""What is shown can be written again; no text makes the parser fall over."""

import math
import re
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.units import Kind, format_estimate, format_quantity, parse_quantity

# SI values that a build or a result may hold.
RANGES = {
    Kind.temperature: (200.0, 450.0),
    Kind.temperature_difference: (-80.0, 80.0),
    Kind.absolute_pressure: (1.0, 4.0e6),
    Kind.gauge_pressure: (-9.5e4, 4.0e6),
    Kind.pressure_difference: (0.01, 3.0e6),
    Kind.length: (-1.0, 60.0),
    Kind.area: (1e-7, 30.0),
    Kind.volume: (1e-7, 200.0),
    Kind.mass: (1e-6, 500.0),
    Kind.power: (0.0, 5000.0),
    Kind.heat_flow: (-5000.0, 5000.0),
    Kind.energy: (1.0, 1e8),
    Kind.current: (0.001, 50.0),
    Kind.voltage: (0.0, 480.0),
    Kind.frequency: (40.0, 70.0),
    Kind.conductance: (0.001, 100.0),
    Kind.linear_conductance: (0.001, 500.0),
    Kind.conductivity: (0.001, 500.0),
    Kind.film_coefficient: (0.1, 1e5),
    Kind.density: (0.05, 2e4),
    Kind.specific_heat: (100.0, 5000.0),
    Kind.mass_flow: (1e-7, 0.1),
    Kind.volume_flow: (1e-7, 1.0),
    Kind.velocity: (0.001, 50.0),
    Kind.time: (0.1, 1e7),
    Kind.angle: (-3.0, 3.0),
    Kind.ratio: (-0.5, 3.0),
    Kind.number: (-1e6, 1e6),
}
PRESSURES = (Kind.absolute_pressure, Kind.gauge_pressure)
ATMOSPHERES = st.sampled_from([101325.0, 84000.0, 103000.0])


def value_of(text, kind, atmosphere_Pa=101325.0):
    return parse_quantity(text, kind, field="x", atmosphere_Pa=atmosphere_Pa).value


def resolution(text, kind):
    """Half of the last place shown, in SI."""
    number, _, unit = text.partition(" ")
    if "/" in number or re.match(r"\d+/\d+ ", unit):  # a fraction of an inch is exact
        return 0.0
    one, two = (f"{count} {unit}".strip() for count in (1, 2))
    scale = abs(value_of(two, kind) - value_of(one, kind))
    return 0.5 * 10.0 ** Decimal(number).as_tuple().exponent * scale


def test_every_kind_has_a_range():
    assert set(RANGES) == set(Kind)


@pytest.mark.parametrize("system", ["shop", "si"])
@pytest.mark.parametrize("kind", list(Kind))
@given(data=st.data())
@settings(max_examples=25)
def test_shown_text_reads_back_within_what_it_shows(kind, system, data):
    value = data.draw(st.floats(*RANGES[kind]))
    atmosphere_Pa = data.draw(ATMOSPHERES)
    if kind is Kind.gauge_pressure:
        value *= atmosphere_Pa / 103000.0
    text = format_quantity(value, kind, system, atmosphere_Pa=atmosphere_Pa)
    back = value_of(text, kind, atmosphere_Pa)
    slack = 1e-9 * abs(value) + 1e-12 + 1e-9 * atmosphere_Pa * (kind in PRESSURES)
    assert abs(back - value) <= 1.0001 * resolution(text, kind) + slack


@pytest.mark.parametrize("system", ["shop", "si"])
@pytest.mark.parametrize("kind", [kind for kind in Kind if kind is not Kind.gauge_pressure])
@given(share=st.floats(0.05, 0.95), uncertainty=st.floats(1e-3, 0.05))
@settings(max_examples=15)
def test_shown_estimate_reads_back_with_its_uncertainty(kind, system, share, uncertainty):
    least, greatest = RANGES[kind]
    value = max(least, 0.0) + share * (greatest - max(least, 0.0))
    width = uncertainty * value
    text = format_estimate(value, width, kind, system)
    back = parse_quantity(text, kind, field="x")
    # Two figures of the half-width: at worst 5 in 100 of it.
    assert back.standard_uncertainty == pytest.approx(width, rel=0.051)
    assert abs(back.value - value) <= 0.11 * width


@given(whole=st.integers(0, 200), over=st.integers(0, 63))
def test_every_64th_of_an_inch_shows_as_a_fraction(whole, over):
    inches = whole + over / 64.0
    if not 0.0 < inches < 120.0:
        return
    text = format_quantity(0.0254 * inches, Kind.length, "shop")
    assert "." not in text
    assert value_of(text, Kind.length) == pytest.approx(0.0254 * inches, rel=1e-12)


@given(text=st.text(max_size=24), kind=st.sampled_from(list(Kind)))
@settings(max_examples=150)
def test_any_text_is_read_or_refused_with_a_sentence(text, kind):
    try:
        quantity = parse_quantity(text, kind, field="a.b")
    except InputError as error:
        (fault,) = error.faults
        assert fault.field == "a.b"
        assert " must be " in fault.message
        assert fault.message.endswith(".")
    else:
        assert math.isfinite(quantity.value)
        assert quantity.standard_uncertainty >= 0.0


PIECES = st.sampled_from(
    [
        "5",
        "1,5",
        "1 1/4",
        "-",
        "±",
        "+/-",
        "10 %",
        "psig",
        "°C",
        "diff",
        "in",
        "ft",
        "'",
        '"',
        "W",
        "/",
        "(m K)",
        "vacuum",
        "abs",
        "gauge",
        "m2K",
        "Btu",
        "h",
        "micron",
        "e9",
        "oz",
        "1/0",
    ]
)


@given(pieces=st.lists(PIECES, min_size=1, max_size=7), kind=st.sampled_from(list(Kind)))
@settings(max_examples=300)
def test_scrambled_entries_are_read_or_refused(pieces, kind):
    try:
        quantity = parse_quantity(" ".join(pieces), kind, field="a.b")
    except InputError as error:
        (fault,) = error.faults
        assert "; received '" in fault.message
    else:
        assert math.isfinite(quantity.value)


@given(value=st.integers(1, 5000), half=st.integers(0, 50))
def test_percent_half_width_is_relative(value, half):
    quantity = parse_quantity(f"{value} W ± {half} %", Kind.power, field="x")
    assert quantity.standard_uncertainty == pytest.approx(value * half / 200.0)


@given(gauge=st.floats(-13.0, 500.0), atmosphere_Pa=st.floats(9.2e4, 1.05e5))
def test_gauge_and_absolute_differ_by_the_atmosphere(gauge, atmosphere_Pa):
    text = f"{gauge:.3f} psig"
    absolute = value_of(text, Kind.absolute_pressure, atmosphere_Pa)
    above = value_of(text, Kind.gauge_pressure, atmosphere_Pa)
    assert absolute - above == pytest.approx(atmosphere_Pa, rel=1e-12)
