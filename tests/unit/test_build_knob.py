"""The knob of a control as a scale: its positions, the settings they bring, entries that clash."""

from __future__ import annotations

import pytest

from coldwright.build import loads
from coldwright.build.knob import Scale, at_altitude, position_of, share_of
from coldwright.errors import InputError
from support.builds import build_text

KNOB = """
[thermostat.knob]
cut_out_warmest = "9 °C"
cut_out_coldest = "-8 °C"
difference = "7 K"
position = "4 of 7"
"""
SETTING = 'bulb = "air"\ncut_in = "13 °C"\ncut_out = "11 °C"\n'


def with_knob(*changes: tuple[str, str], bulb: str = "plate") -> str:
    text = build_text("cheese")
    assert SETTING in text
    knob = KNOB
    for old, new in changes:
        assert old in knob
        knob = knob.replace(old, new)
    return text.replace(SETTING, f'bulb = "{bulb}"\n{knob}', 1)


@pytest.mark.parametrize(
    ("text", "share"),
    [
        ("1 of 7", 0.0),
        ("7 of 7", 1.0),
        ("4 of 7", 0.5),
        ("2,5/6", 0.3),
        ("40 %", 0.4),
        ("0 of 7", None),
        ("8 of 7", None),
        ("1 of 1", None),
        ("140 %", None),
        ("cold", None),
    ],
)
def test_a_position_is_a_share_from_warm_to_cold(text, share):
    found = share_of(text)
    assert found == (None if share is None else pytest.approx(share))


def test_a_share_is_written_as_the_file_writes_it():
    assert position_of(0.5, "3 of 7") == "4.0 of 7"
    assert position_of(0.5, "3 %") == position_of(0.5, None) == "50 %"


def test_either_kind_of_knob():
    """One moves cut-in and cut-out together, the other the cut-out alone."""
    sea = 101325.0
    both = Scale(280.0, 270.0, sea, vapour=True, difference=6.0, fixed_cut_in=None)
    alone = Scale(280.0, 270.0, sea, vapour=True, difference=None, fixed_cut_in=284.0)
    assert [float(each) for each in both.settings(0.3)] == pytest.approx([283.0, 277.0], abs=1e-4)
    assert [float(each) for each in alone.settings(0.3)] == pytest.approx([284.0, 277.0], abs=1e-4)
    assert both.share_at(277.0) == pytest.approx(0.3, abs=1e-4)
    assert alone.share_at(290.0) < 0.0


def test_only_a_vapour_fill_feels_the_altitude():
    assert float(at_altitude(270.0, 80e3, vapour=False)) == 270.0
    assert float(at_altitude(270.0, 80e3, vapour=True)) < 268.5


def test_cut_in_and_cut_out_follow_from_the_knob():
    """The middle of 9 and -8 °C is 0.5 °C; 30 m of altitude move it by less than 0.1 K."""
    control = loads(with_knob()).thermostat
    assert control.cut_out.value - 273.15 == pytest.approx(0.5, abs=0.5)
    assert control.cut_in.value - control.cut_out.value == pytest.approx(7.0, abs=0.15)
    warm = loads(with_knob(('position = "4 of 7"', 'position = "0 %"'))).thermostat
    assert warm.cut_out.value - control.cut_out.value == pytest.approx(8.5, abs=0.15)


def test_without_a_position_the_knob_stands_in_the_middle_and_says_so():
    build = loads(with_knob(('position = "4 of 7"\n', "")))
    assert any(each.field == "thermostat.knob.position" for each in build.assumed)
    assert any(each.field == "thermostat.cut_out" for each in build.assumed)


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (('"-8 °C"', '"11 °C"'), "must be below the warm end's"),
        (('difference = "7 K"\n', ""), "neither is"),
        (('difference = "7 K"', 'difference = "7 K"\nfixed_cut_in = "12 °C"'), "both are told"),
        (('"4 of 7"', '"cold"'), 'must be like "3 of 7" or "40 %"'),
    ],
)
def test_a_knob_that_cannot_be_is_refused(change, told):
    with pytest.raises(InputError) as caught:
        loads(with_knob(change))
    assert any(told in str(fault) for fault in caught.value.faults)


def test_a_cut_out_that_the_knob_does_not_bring_is_refused():
    text = with_knob().replace('bulb = "plate"', 'bulb = "plate"\ncut_out = "-4 °C"', 1)
    with pytest.raises(InputError, match="agree with the knob, which at 4 of 7 brings"):
        loads(text)
