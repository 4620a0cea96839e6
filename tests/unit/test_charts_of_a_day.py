"""Charts of a day and of one cycle: what they name, in both systems, and what they draw."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest

from coldwright.build import loads
from coldwright.sheet.charts.courses import APART, Line, Panel, _names
from coldwright.sheet.charts.day import day_chart
from coldwright.sheet.charts.one_cycle import one_cycle
from coldwright.sheet.figure import Undrawn
from coldwright.sheet.render import as_html, as_svg
from coldwright.verdict.day import Day, run_day
from support.assessed import changed

CUT = '\n[day]\npower_cut_at = "15 h"\npower_cut_length = "1 h"\n\n[compressor]\n'
SYSTEMS = ("shop", "si")


@pytest.fixture(scope="module")
def day() -> Day:
    text = changed("cheese", ('fill = "28 g"', 'fill = "40 g"'), ("\n[compressor]\n", CUT))
    return run_day(loads(text), hours=30.0)


def read_by(day: Day, system) -> Day:
    return replace(day, clock=replace(day.clock, system=system))


def shown_in(figure) -> list[str]:
    svg = as_svg(figure)
    for other in ("NaN", "undefined", "null", "Infinity"):
        assert other not in svg
    return re.findall(r"<text[^>]*>([^<]*)</text>", svg)


@pytest.mark.parametrize(("system", "unit"), [("shop", "°F"), ("si", "°C")])
def test_a_day_names_its_lines_and_marks(day, system, unit):
    figure = day_chart(read_by(day, system))
    shown = shown_in(figure)
    lines = ("goods", "stored air", "lowest shelf", "metal of the cold side", "room", "target")
    marks = ("door opened", "warm goods put in", "no power", "hour of the day", unit, "W")
    for word in (*lines, *marks):
        assert word in shown, word
    assert unit in figure.caption
    assert figure.spec["description"] == figure.caption
    assert figure.title in as_html(figure)


def test_a_days_table_is_what_was_run(day):
    """In SI units: mean power as the energy has it, the power cut as its hour without watts."""
    figure = day_chart(read_by(day, "si"))
    rows = figure.rows
    hours = np.array([row["hour"] for row in rows])
    assert hours[-1] == pytest.approx(30.0)
    assert 6.0 < hours[0] < 6.2
    power = np.array([row["power"] for row in rows])
    energy = float(day.course.tally.energy[0]) / 24.0 / 3600.0
    assert np.mean(power) == pytest.approx(energy, rel=1e-3)
    dead = (hours > 15.05) & (hours <= 16.0)
    assert np.all(power[dead] == 0.0)
    assert sum("door opened" in (row["event"] or "") for row in rows) == 4
    assert {column.unit for column in figure.columns} == {"h", "°C", "W", ""}


@pytest.mark.parametrize("system", SYSTEMS)
def test_one_cycle_runs_and_rests(day, system):
    figure = one_cycle(read_by(day, system))
    assert not isinstance(figure, Undrawn)
    shown = shown_in(figure)
    for word in ("suction", "discharge", "bulb", "cold metal", "condenser", "shell", "cut in",
                 "cut out", "gauges", "minutes from the start of the machine"):  # fmt: skip
        assert word in shown, word
    run, rest = (int(each) for each in re.findall(r"(\d+) min", figure.caption)[:2])
    power = np.array([row["power"] for row in figure.rows])
    assert run + rest == len(figure.rows) - 2
    assert np.sum(power > 0.0) == pytest.approx(run, abs=2)
    assert ("psi abs" if system == "shop" else "kPa abs") in {each.unit for each in figure.columns}


def test_a_machine_that_does_not_switch_has_no_cycle(day):
    records = replace(day.course.records, values=day.course.records.values.copy())
    records.values[:, -1] = 1.0
    found = one_cycle(replace(day, course=replace(day.course, records=records)))
    assert isinstance(found, Undrawn)
    assert found.because == "the machine does not switch"


def test_names_at_the_edge_keep_apart():
    lines = tuple(Line(name, name, {"color": "#000000"}) for name in "abc")
    values = {"a": np.full(5, 1.0), "b": np.full(5, 1.01), "c": np.full(5, 9.0)}
    panel = Panel("", "", lines, values, height=100)
    heights = sorted(10.0 * height for height, _, _ in _names(panel, 0.0, 10.0))
    assert heights[1] - heights[0] >= APART - 0.1
    assert heights[2] == pytest.approx(90.0)
