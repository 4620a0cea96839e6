"""`expect` and `thermostat` as a user types them."""

from __future__ import annotations

import json
import re
import signal
from dataclasses import replace
from io import StringIO
from pathlib import Path

import pytest
from rich.console import Console
from typer.testing import CliRunner

from coldwright.build import loads
from coldwright.cli.app import app
from coldwright.cli.expect import print_expectations
from coldwright.sheet.charts.pull_down import MINUTES as DRAWN
from coldwright.sheet.charts.pull_down import pull_down
from coldwright.sheet.render import as_svg
from coldwright.verdict.expect import MINUTES, TOGETHER, _Changed, expect
from coldwright.verdict.expect_report import expect_report
from support.assessed import changed

QUICK = ('fill = "find"', 'fill = "36 g"')


def box(folder: Path, *changes: tuple[str, str]) -> str:
    path = folder / "box.toml"
    path.write_text(changed("galley", *changes), encoding="utf-8")
    return str(path)


def call(*arguments: str):
    return CliRunner().invoke(app, list(arguments))


@pytest.fixture(scope="module")
def started():
    """A first start at the minutes of the table and of the chart."""
    both = tuple(sorted({*MINUTES, *DRAWN}))
    return expect(loads(changed("cheese")), charge=0.04, empty=True, draws=60, minutes=both)


def only_at(found, minutes):
    """The same start told at `minutes` alone."""
    kept = [found.minutes.index(each) for each in minutes]
    values = {name: each[:, kept] for name, each in found.values.items()}
    return replace(found, minutes=minutes, values=values)


@pytest.fixture(scope="module")
def expected(started):
    found = only_at(started, MINUTES)
    data = expect_report(found)
    shown = Console(record=True, width=100, file=StringIO())
    print_expectations(found, data, shown)
    return data, shown.export_text()


def test_every_reading_stands_in_its_range(expected):
    """At each minute low <= high, and the build's own course lies between while all run."""
    data, _ = expected
    assert [row["minute"] for row in data["rows"]][:8] == [1, 5, 10, 20, 30, 60, 90, 120]
    for row in data["rows"]:
        for name, value in row.items():
            if name == "minute":
                continue
            assert value["low"] <= value["high"], name
            if row["minute"] <= 20:
                assert value["low"] <= value["expected"] <= value["high"], (name, row["minute"])


@pytest.mark.parametrize(("system", "units"), [("shop", ("°F", "psig")), ("si", ("°C", "kPa abs"))])
def test_the_start_is_drawn_until_it_stops_with_its_bands(started, system, units):
    """Every course lies in its band while the machine runs; names and units as everywhere."""
    found = only_at(started, DRAWN)
    figure = pull_down(replace(found, clock=replace(found.clock, system=system)))
    shown = re.findall(r"<text[^>]*>([^<]*)</text>", as_svg(figure))
    for word in ("suction", "discharge", "stored air", "cold metal", "target", *units):
        assert any(word in text for text in shown), word
    assert len(figure.rows) > 10
    for row in figure.rows:
        assert row["power"] > 0.0
        for name in ("power", "suction", "discharge", "air", "cold_metal"):
            assert row[f"{name}_low"] <= row[f"{name}_high"], (name, row["minute"])
            if row["minute"] <= 20:
                assert row[f"{name}_low"] <= row[name] <= row[f"{name}_high"], row["minute"]
    assert all(unit in figure.caption for unit in units)


def test_the_first_stop_lies_in_its_range_and_ends_the_drawing(started, expected):
    stop = expected[0]["first_stop_minutes"]
    assert stop["low"] <= stop["expected"] <= stop["high"]
    last = pull_down(only_at(started, DRAWN)).rows[-1]["minute"]
    assert last < stop["expected"]


def test_the_table_is_one_page(expected):
    """60 lines of 100 columns: it can hang beside the bench."""
    _, page = expected
    lines = page.splitlines()
    assert len(lines) <= 60
    assert "stop it for the first time" in page
    assert max(len(line) for line in lines) <= 100
    assert "kPa abs" in page


def test_an_interrupt_keeps_the_draws_that_are_done(monkeypatch):
    """Ctrl-C in the second batch of draws: the first stands, and it is said."""
    alone = "coldwright.verdict.expect._changed_machines"
    monkeypatch.setattr(alone, lambda clock, _: _Changed(clock.plant.machine, ()))

    def stop(text):
        if text == "many starts side by side, 2 of 2, 50 %":
            signal.raise_signal(signal.SIGINT)

    found = expect(loads(changed("galley", QUICK)), draws=80, minutes=(1, 2, 4), progress=stop)
    assert not found.complete
    assert 1 < len(found.values["power_W"]) <= TOGETHER
    assert found.minutes == (1, 2, 4)
    shown = Console(record=True, width=100, file=StringIO())
    print_expectations(found, expect_report(found), shown)
    assert "Stopped by hand" in shown.export_text()


def test_the_advised_setting_holds_the_target(tmp_path):
    """What is advised held the target while it was run, and warmer settings cost less."""
    advice = json.loads(call("thermostat", box(tmp_path, QUICK), "--json").stdout)
    advised = advice["advised"]
    assert advised["air_mean_C"] == pytest.approx(advice["target_air_C"], abs=0.5)
    assert advised["cut_in_C"] > advised["cut_out_C"]
    switching = [each for each in advice["tried"] if 0.0 < each["run_fraction"] < 0.95]
    air = [each["air_mean_C"] for each in switching]
    energy = [each["energy_kWh_per_day"] for each in switching]
    assert air == sorted(air)
    assert energy == sorted(energy, reverse=True)


def test_a_bulb_on_the_return_line_is_not_advised_on(tmp_path):
    path = box(tmp_path, QUICK)
    text = Path(path).read_text(encoding="utf-8")
    with_line = text.replace('bulb = "air"', 'bulb = "return line"', 1)
    assert with_line != text
    Path(path).write_text(with_line, encoding="utf-8")
    found = call("thermostat", path)
    assert found.exit_code == 2
    assert "A bulb on the return line follows the machine" in found.stderr


KNOB = """bulb = "air"
head = "cabinet"

[thermostat.knob]
cut_out_warmest = "{warm} °C"
cut_out_coldest = "-4 °C"
difference = "3 K"
position = "3 of 7"
"""
SETTING = 'bulb = "air"\ncut_in = "6.5 °C"\ncut_out = "3.5 °C"\n'


def test_a_knob_is_told_where_to_stand(tmp_path):
    """The galley's target of 5 °C lies in the range of a control of -4 to 10 °C."""
    path = box(tmp_path, QUICK, (SETTING, KNOB.format(warm=10)))
    found = call("thermostat", path, "--json")
    assert found.exit_code == 0, found.output
    advice = json.loads(found.stdout)
    assert [each["share"] for each in advice["tried"]][::8] == [0.0, 1.0]
    assert advice["knob"].endswith(" of 7")
    assert advice["advised"]["air_mean_C"] == pytest.approx(5.0, abs=0.3)
    shelf = advice["advised"]["low_shelf_least_C"]
    assert advice["limits"]["shelf_unfrozen"] is (shelf >= 0.0)


def test_a_range_that_does_not_reach_is_said(tmp_path):
    """One of -4 to 0 °C does not; its head is in the cabinet."""
    found = call(
        "thermostat", box(tmp_path, QUICK, (SETTING, KNOB.format(warm=0))), "--units", "si"
    )
    assert found.exit_code == 0, found.output
    text = " ".join(found.stdout.split())
    assert "This control's range does not hold 5.0 °C" in text
    assert "obeys whichever is colder, bulb or head" in text
    assert "1.0 of 7" in text
