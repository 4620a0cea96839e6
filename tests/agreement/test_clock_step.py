"""The clock's step: halved, what is printed of a day stays."""

from __future__ import annotations

import re
from io import StringIO

import pytest
from rich.console import Console

from coldwright.build import loads
from coldwright.cli.day import print_day
from coldwright.verdict.day import days_of, on_clock
from coldwright.verdict.day_report import day_report
from support.assessed import changed

NUMBER = re.compile(r"\d+(?:\.\d+)?")


def days(name: str, *changes: tuple[str, str]):
    """Two days of a build, by the minute and by half of it."""
    clock = on_clock(loads(changed(name, *changes)))
    return [days_of(clock, steps_per_minute=steps) for steps in (1, 2)]


def printed(day) -> list[str]:
    shown = Console(record=True, width=100, file=StringIO())
    print_day(day, day_report(day), shown)
    return shown.export_text().splitlines()


def apart_by_a_last_digit(first: str, second: str) -> bool:
    """Whether two lines differ only by one unit in the last digit of their numbers."""
    if NUMBER.sub("", first) != NUMBER.sub("", second):
        return False
    pairs = zip(NUMBER.findall(first), NUMBER.findall(second), strict=True)
    return all(
        abs(float(a) - float(b)) <= 1.01 * 10.0 ** -len(a.partition(".")[2]) for a, b in pairs
    )


def test_half_the_step_changes_nothing_that_is_printed():
    """A brine box over two days, line by line.

    A figure may lie on the edge between two last digits (707.5 Wh): one line may differ by one.
    """
    whole, half = (printed(each) for each in days("larder", ('fill = "find"', 'fill = "43 g"')))
    assert len(whole) == len(half) > 30
    other = [(a, b) for a, b in zip(whole, half, strict=True) if a != b]
    assert len(other) <= 1
    assert all(apart_by_a_last_digit(a, b) for a, b in other), other


def test_of_a_plate_that_switches_often_only_extremes_hang_on_the_phase():
    """Twenty cycles a day: after two days a cycle begins some minutes sooner or later.

    So an opening or warm goods meet it elsewhere, which moves extremes; energy stays within 0.3 %,
    means within 0.02 K, starts and all times to the minute.
    """
    whole, half = (day_report(each) for each in days("cheese", ('fill = "28 g"', 'fill = "40 g"')))
    assert whole["energy_kWh_per_day"] == pytest.approx(half["energy_kWh_per_day"], rel=3e-3)
    for name in ("air_mean_C", "contents_mean_C", "contents_warmest_C"):
        assert whole[name] == pytest.approx(half[name], abs=0.02)
    assert whole["run_fraction"] == pytest.approx(half["run_fraction"], abs=1e-3)
    for name in ("starts_per_hour", "hours_to_target", "hours_to_first_cut_out"):
        assert whole[name] == half[name]
