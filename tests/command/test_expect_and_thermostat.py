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


KNOB = """bulb = "air"
head = "cabinet"

[thermostat.knob]
cut_out_warmest = "{warm} °C"
cut_out_coldest = "-4 °C"
difference = "3 K"
position = "3 of 7"
"""
SETTING = 'bulb = "air"\ncut_in = "6.5 °C"\ncut_out = "3.5 °C"\n'


@pytest.mark.parametrize(("warm", "reaches"), [(10, True), (0, False)])
def test_a_knob_is_told_where_to_stand_or_that_its_range_does_not_do(tmp_path, warm, reaches):
    """The galley's target of 5 °C lies in the range of a control of -4 to 10, not of -4 to 0 °C."""
    path = box(tmp_path, QUICK, (SETTING, KNOB.format(warm=warm)))
    found = call("thermostat", path, "--units", "si")
    assert found.exit_code == 0, found.output
    text = " ".join(found.stdout.split())
    assert ("Set the knob to" in text) is reaches
    assert ("This control's range does not hold 5.0 °C" in text) is not reaches
    advice = json.loads(call("thermostat", path, "--json").stdout)
    assert [each["share"] for each in advice["tried"]][::8] == [0.0, 1.0]
    if not reaches:
        assert advice["knob"] is None
        return
    assert advice["knob"].endswith(" of 7")
    assert advice["advised"]["air_mean_C"] == pytest.approx(5.0, abs=0.3)
    shelf = advice["advised"]["low_shelf_least_C"]
    assert advice["limits"]["shelf_unfrozen"] is (shelf >= 0.0)
    assert "lowest shelf" in text
