"""Charts as pictures and pages: they render, say what they draw, and ask no network."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from html.parser import HTMLParser
from xml.etree import ElementTree

import numpy as np
import pytest

from coldwright.sheet import theme
from coldwright.sheet.charts.charge import charge
from coldwright.sheet.charts.pressure_enthalpy import pressure_enthalpy
from coldwright.sheet.charts.resistances import resistances
from coldwright.sheet.charts.tubes import tubes
from coldwright.sheet.charts.watts import watts
from coldwright.sheet.figure import Undrawn
from coldwright.sheet.reader import Reader
from coldwright.sheet.render import as_data, as_html, as_png, as_svg
from coldwright.units import Kind, format_quantity, scale_of
from support.assessed import altered, assessed, read_in, window_of

DRAWN = {
    "pressure-enthalpy": pressure_enthalpy,
    "tubes": tubes,
    "watts": watts,
    "resistances": resistances,
}
SYSTEMS = ("shop", "si")


def figure_of(what, system, name="cheese"):
    case = read_in(name, system)
    if what == "charge":
        return charge(case.build, case.translation, system, window_of(name))
    return DRAWN[what](case)


@pytest.fixture(scope="module")
def figures():
    return {(w, s): figure_of(w, s) for w in (*DRAWN, "charge") for s in SYSTEMS}


@pytest.fixture(scope="module")
def pictures(figures):
    return {key: as_svg(figure) for key, figure in figures.items()}


WORDS = {
    "pressure-enthalpy": ("condensing", "boiling in the evaporator", "compressor", "capillary",
                          "holding the target", "never stopping", "discharge gas"),
    "tubes": ("condenser", "capillary", "evaporator", "suction line", "exchanger", "return gas"),
    "charge": ("hottest start", "coldest run", "starved", "liquid comes back", "this charge"),
    "watts": ("back wall", "door gasket", "goods"),
    "resistances": ("outside film", "boiling refrigerant", "bond and sheet"),
}  # fmt: skip
UNITS = {
    "pressure-enthalpy": (("Btu/lb", "psig", "pressure, on the gauge"), ("kJ/kg", "kPa abs")),
    "tubes": (("°F", "ft from its inlet"), ("°C", "m from its inlet")),
    "charge": (("charge, oz", "Btu/h"), ("charge, g", "W")),
    "watts": (("Btu/h",), (" W",)),
    "resistances": (("°F diff",), (" K",)),
}


@pytest.mark.parametrize("what", WORDS)
def test_every_chart_names_its_lines_in_words_and_units(pictures, what):
    for system, units in zip(SYSTEMS, UNITS[what], strict=True):
        svg = pictures[what, system]
        shown = re.findall(r"<text[^>]*>([^<]*)</text>", svg)
        for word in WORDS[what]:
            assert any(word in text for text in shown), (word, system)
        for unit in units:
            assert any(unit in text for text in shown), (unit, system)
        for other in ("NaN", "undefined", "null", "Infinity"):
            assert other not in svg


def test_the_picture_says_its_caption_to_a_screen_reader(figures, pictures):
    for key, figure in figures.items():
        assert figure.spec["description"] == figure.caption
        root = ElementTree.fromstring(pictures[key])
        assert root.attrib["role"] == "img"
        assert root.findtext("{http://www.w3.org/2000/svg}desc") == figure.caption


def test_a_still_picture_can_be_printed(figures):
    picture = as_png(figures["watts", "si"], 1.0)
    assert picture.startswith(b"\x89PNG")


def test_nothing_is_told_by_red_or_green(pictures):
    # sRGB: a hue between 80 and 170 degrees is green, within 15 degrees of 0 is red.
    import colorsys

    for svg in pictures.values():
        for code in set(re.findall(r"#[0-9a-fA-F]{6}", svg)):
            red, green, blue = (int(code[place : place + 2], 16) / 255.0 for place in (1, 3, 5))
            hue, _, saturation = colorsys.rgb_to_hls(red, green, blue)
            if saturation > 0.3:
                assert 15.0 < 360.0 * hue < 80.0 or 170.0 < 360.0 * hue < 345.0, code


def luminance(code):
    """Relative luminance of a colour, W3C Web Content Accessibility Guidelines 2.1."""
    parts = [int(code[place : place + 2], 16) / 255.0 for place in (1, 3, 5)]
    linear = [
        each / 12.92 if each <= 0.03928 else ((each + 0.055) / 1.055) ** 2.4 for each in parts
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("colour", [theme.INK, theme.COPPER, theme.SLATE, theme.SOFT])
@pytest.mark.parametrize("ground", [theme.PAPER, theme.BAND])
def test_text_and_lines_stand_out_on_paper(colour, ground):
    # 4.5 to 1 for small text on paper (the same guidelines, criterion 1.4.3); lines and names of
    # lines on a band: 3 to 1 (1.4.11).
    light, dark = sorted((luminance(ground), luminance(colour)), reverse=True)
    assert (light + 0.05) / (dark + 0.05) >= (4.5 if ground == theme.PAPER else 3.0)


def test_lines_of_one_chart_differ_in_dash_too(figures):
    for what in ("pressure-enthalpy", "charge"):
        text = json.dumps(figures[what, "si"].spec)
        assert '"strokeDash": [6, 3]' in text


class Page(HTMLParser):
    """What a page would fetch, how many scripts it has, and its words."""

    def __init__(self):
        super().__init__()
        self.fetched, self.scripts, self.words = [], 0, ""

    def handle_starttag(self, tag, attrs):
        self.scripts += tag == "script"
        self.fetched += [value for name, value in attrs if name in ("src", "href", "data")]

    def handle_data(self, data):
        self.words += data


def test_a_page_holds_all_it_needs(figures):
    figure = figures["watts", "shop"]
    nasty = 'box </script><script>alert("x")</script> & "co"'
    figure = replace(figure, subtitle=nasty, spec={**figure.spec, "usermeta": {"name": nasty}})
    text = as_html(figure)
    page = Page()
    page.feed(text)
    assert page.fetched == []
    assert page.scripts == 1
    assert text.count("</script>") == 1
    assert figure.caption in page.words
    assert "door gasket" in page.words
    # the rest of the library's addresses are names of grammars and a menu that is switched off
    assert "actions:false" in text.replace(" ", "")
    assert not re.search(r"@import|<link|cdn\.", text)


def test_the_data_of_a_figure_are_plain_and_its_columns_complete(figures):
    for figure in figures.values():
        data = json.loads(json.dumps(as_data(figure), allow_nan=False))
        keys = {column["key"] for column in data["columns"]}
        assert data["rows"]
        for row in data["rows"]:
            assert set(row) == keys
        assert "url" not in json.dumps(data["spec"])


@pytest.mark.parametrize("what", DRAWN)
def test_without_a_balance_there_is_a_reason_and_no_chart(what):
    none = {"reason": "the condenser cannot shed the heat"}
    case = altered(assessed("galley").case, {"cycling": none, "running": none})
    assert DRAWN[what](case) == Undrawn(none["reason"])


def test_one_state_without_a_balance_leaves_the_other():
    none = {"running": {"reason": "no steady balance was found"}}
    figure = pressure_enthalpy(altered(assessed("galley").case, none))
    assert {row["state"] for row in figure.rows} == {"holding the target"}
    assert "Never stopping has no balance: no steady balance was found." in figure.caption


def test_a_target_out_of_reach_is_said_and_not_drawn():
    # With run_fraction above 1 the balance at the target's own source is no state of the machine.
    case = altered(assessed("galley").case, properties={"run_fraction": 1.4})
    assert case.state == "running"
    figure = pressure_enthalpy(case)
    assert {row["state"] for row in figure.rows} == {"never stopping"}
    assert figure.caption.endswith("The target is out of reach.")
    assert "numbered points are those of never stopping" in figure.subtitle
    assert "without a stop" in watts(case).caption


def test_liquid_that_leaves_the_evaporator_is_said():
    case = altered(assessed("galley").case, {"cycling": {"evaporator_exit_quality": 0.93}})
    assert "gas with 7 % of liquid leaves it" in tubes(case).caption
    assert "; gas leaves it" in tubes(assessed("galley").case).caption


def test_no_charge_at_all_that_balances_is_a_reason():
    case, window = assessed("cheese").case, window_of("cheese")

    def unsettled(rungs):
        none = np.full_like(rungs.balance.reason, 4)
        return replace(rungs, balance=replace(rungs.balance, reason=none))

    empty = replace(
        window, hot_pull_down=unsettled(window.hot_pull_down), coldest=unsettled(window.coldest)
    )
    assert isinstance(charge(case.build, case.translation, "si", empty), Undrawn)


@pytest.mark.parametrize(
    ("least", "most", "words"),
    [
        (None, 0.03, "No charge tried is enough for the hottest start"),
        (0.02, None, "Liquid comes back with every charge tried"),
        (None, 0.03, "None of the charges tried does both."),
        (0.04, 0.03, "So the window is shut"),
    ],
)
def test_a_window_that_is_not_whole_is_said(least, most, words):
    case = assessed("cheese").case
    window = replace(window_of("cheese"), least=least, most=most)
    figure = charge(case.build, case.translation, "si", window)
    assert words in figure.caption
    assert ("from:Q" in json.dumps(figure.spec)) is window.open
    assert as_svg(figure)


def shown_in(figure):
    return re.findall(r"<text[^>]*>([^<]*)</text>", as_svg(figure))


def test_words_without_room_stand_elsewhere():
    case, window = assessed("cheese").case, window_of("cheese")
    charges = window.hot_pull_down.charge
    crowded = replace(window, least=float(charges[1]), most=float(charges[-2]))
    shown = shown_in(charge(case.build, case.translation, "si", crowded))
    assert shown.count("← starved") == 2 * 4  # each on its rim, in each panel
    assert shown.count("liquid comes back →") == 2 * 4
    assert "starved" not in shown


def test_captions_carry_the_reports_figures():
    case = assessed("galley").case
    machine = case.machine(case.state)
    shop = read_in("galley", "shop")
    text = pressure_enthalpy(shop).caption
    assert shop.temperature(machine.evaporating_C) in text
    assert shop.written(machine.discharge_Pa, "absolute_pressure") in text
    ratio = machine.discharge_Pa / machine.suction_Pa
    assert f"{ratio:.1f} times the absolute pressure" in text
    taken = machine.capacity_W / (machine.mass_flow_kg_per_h / 3600.0) / 2326.0
    assert f"each lb takes up {taken:.3g} Btu in the evaporator" in text
    text = watts(case).caption
    assert case.written(case.cabinet(case.state).heat_gain_W, "heat_flow") in text
    assert case.written(machine.power_W, "power") in text
    text = tubes(case).caption
    assert f"comes to the machine at {case.temperature(machine.return_gas_C)}" in text


@pytest.mark.parametrize(
    ("kind", "value", "system"),
    [
        (Kind.temperature, 293.15, "shop"),
        (Kind.temperature, 263.15, "si"),
        (Kind.length, 7.5, "shop"),
        (Kind.length, 0.8, "si"),
        (Kind.heat_flow, 66.7, "shop"),
        (Kind.mass, 0.04, "shop"),
        (Kind.absolute_pressure, 813.2e3, "si"),
    ],
)
def test_a_scale_shows_what_a_figure_shows(kind, value, system):
    scale = scale_of(kind, system, value)
    number, unit = format_quantity(value, kind, system, digits=3).split(" ", 1)
    assert scale.label == unit
    assert scale.of(value) == pytest.approx(float(number), abs=6e-4)


def test_marks_of_pressure_are_those_of_the_gauge():
    shop = Reader("shop", 101325.0, "a box")
    marks = shop.pressure_marks(50e3, 900e3)
    assert marks[round(101325.0 / 6894.757, 4)] == "0 psig"
    assert list(marks.values()) == [
        "10 inHg vac", "0 psig", "10 psig", "20 psig", "50 psig", "100 psig"
    ]  # fmt: skip
    # In the hills the gauge's zero lies lower.
    high = Reader("shop", 80e3, "a box").pressure_marks(50e3, 900e3)
    assert high[round(80e3 / 6894.757, 4)] == "0 psig"
    assert list(Reader("si", 101325.0, "a box").pressure_marks(50e3, 900e3)) == [
        50.0, 100.0, 200.0, 500.0
    ]  # fmt: skip
