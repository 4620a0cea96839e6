"""`expect` and `thermostat` as a user types them."""

from __future__ import annotations

import json
from io import StringIO
from pathlib import Path

import pytest
from rich.console import Console
from typer.testing import CliRunner

from coldwright.build import loads
from coldwright.cli.app import app
from coldwright.cli.expect import print_expectations
from coldwright.verdict.expect import expect
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
def expected():
    found = expect(loads(changed("cheese")), charge=0.04, empty=True, draws=60)
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


def test_the_table_is_one_page(expected):
    """60 lines of 100 columns: it can hang beside the bench."""
    _, page = expected
    lines = page.splitlines()
    assert len(lines) <= 60
    assert max(len(line) for line in lines) <= 100
    assert "kPa abs" in page


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
