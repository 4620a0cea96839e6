"""`assess` as a user types it: what is printed, as text and as data, and how it ends."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from typer.testing import CliRunner

from coldwright import verdict
from coldwright.cli.app import app
from support.assessed import assessed, changed

# The charge that "find" comes to, rounded: a stated charge is worked out in half the time.
QUICK = ('fill = "find"', 'fill = "36 g"')


def build_file(folder: Path, *changes: tuple[str, str], name: str = "galley") -> str:
    path = folder / "box.toml"
    path.write_text(changed(name, *changes), encoding="utf-8")
    return str(path)


def call(*arguments: str):
    return CliRunner().invoke(app, ["assess", *arguments])


@pytest.fixture(scope="module")
def typed(tmp_path_factory):
    """One whole run in a process of its own."""
    path = build_file(tmp_path_factory.mktemp("typed"), QUICK)
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path), "PYTHONUTF8": "1"}
    return subprocess.run(
        [sys.executable, "-m", "coldwright", "assess", path, "--units", "shop"],
        capture_output=True,
        text=True,
        encoding="utf-8",
        env=environment,
        check=False,
        timeout=120,
    )


@pytest.fixture(scope="module")
def as_data(tmp_path_factory):
    path = build_file(tmp_path_factory.mktemp("data"), QUICK)
    return call(path, "--json", "--room", "85 °F", "--fill", "1.3 oz")


def test_a_box_that_holds_ends_with_0_and_says_so_first(typed):
    assert typed.returncode == 0
    assert typed.stderr == ""
    lines = typed.stdout.splitlines()
    assert lines[0] == "Galley box, as built"
    assert lines[1].startswith("  HOLDS: ")


def test_the_groups_come_in_a_makers_order(typed):
    titles = [line for line in typed.stdout.splitlines() if line and not line.startswith(" ")]
    wanted = (
        "Cabinet,",
        "Cold side,",
        "Machine",
        "Gas",
        "Day",
        "What a change would do",
        "Assumed,",
        "Notices",
        "Cautions",
        "Sources",
    )
    found = [next(i for i, title in enumerate(titles) if title.startswith(w)) for w in wanted]
    assert found == sorted(found)


def test_shop_units_are_used_and_nothing_unreadable_is_printed(typed):
    text = typed.stdout
    assert " psig" in text
    assert " °F" in text
    assert " oz" in text
    figures = text.split("\nAssumed,")[0]
    for odd in ("nan", " inf", "None", "°C", "kPa", "_", "e-0", "e+0"):
        assert odd not in figures, odd


def test_each_assumed_source_heads_its_entries_once(typed):
    assumed = typed.stdout.split("\nAssumed,")[1].split("\nNotices")[0]
    assert assumed.count("  common practice, no source:") == 1
    assert "compressor.oil_amount" in assumed
    assert "200 mL ± 30 %" in assumed


def test_options_reach_the_figures(as_data):
    data = json.loads(as_data.stdout)
    assert data["room_C"] == pytest.approx((85.0 - 32.0) / 1.8)
    assert data["charge"]["fill_g"] == pytest.approx(1.3 * 28.349523125)
    assert data["charge"]["found"] is False
    # The hottest day is never cooler than the room of this run.
    assert data["hottest_day"]["room_C"] >= data["room_C"]


def test_the_exit_code_follows_the_verdict(as_data):
    data = json.loads(as_data.stdout)
    assert as_data.exit_code == (1 if data["verdict"] == "fails" else 0)


def test_one_figure_is_explained(tmp_path, monkeypatch):
    monkeypatch.setattr(verdict, "assess", lambda *_, **__: assessed("galley"))
    path = build_file(tmp_path)
    result = call(path, "--explain", "running.power_W", "--json")
    assert result.exit_code == 0
    shown = json.loads(result.stdout)
    assert shown["field"] == "running.power_W"
    assert shown["value"] > 0.0
    assert "isentropic work" in shown["formula"]
    assert set(shown["inputs"]) == {
        "running.mass_flow_kg_per_h",
        "running.suction_Pa",
        "running.discharge_Pa",
    }
    assert shown["sources"]
    text = call(path, "--explain", "running.power_W").stdout.splitlines()
    assert text[0].startswith("running.power_W = ")


def test_a_box_that_does_not_hold_ends_with_1_and_says_by_how_much(tmp_path):
    result = call(build_file(tmp_path, ('fill = "find"', 'fill = "5 g"')))
    assert result.exit_code == 1
    assert "DOES NOT HOLD: running without a stop" in result.stdout
    assert "above" in result.stdout
    assert "While the target is held" not in result.stdout


@pytest.mark.parametrize("typed_in", [("--fill", "3 lb"), ()])
def test_a_charge_that_fills_everything_is_a_fault_of_the_input(tmp_path, typed_in):
    path = build_file(tmp_path, ('fill = "find"', 'fill = "900 g"'))
    result = call(path, *typed_in)
    assert result.exit_code == 2
    assert "Refrigerant charge must leave room for gas; received" in result.stderr
    assert "both tubes full of liquid would hold" in result.stderr
    assert result.stderr.startswith("line ") == (not typed_in)
    assert 'fill = "find"' in result.stderr


def test_a_condenser_that_cannot_shed_the_heat_is_a_fault_of_the_input(tmp_path):
    tiny = (
        ('fill = "find"', 'fill = "30 g"'),
        ('sheet_width = "0.60 m"', 'sheet_width = "0.1 m"'),
        ('sheet_height = "0.55 m"', 'sheet_height = "0.1 m"'),
        ('length = "7 m"', 'length = "0.5 m"'),
    )
    result = call(build_file(tmp_path, *tiny), "--json")
    assert result.exit_code == 2
    data = json.loads(result.stdout)
    assert data["verdict"] == "fails"
    assert data["limit"] == "condenser_too_small"
    assert data["faults"][0]["field"] == "condenser.tube.length"
    assert data["faults"][0]["line"] is not None


def test_a_brine_that_freezes_on_the_coil_is_a_fault_of_the_input(tmp_path):
    line = next(row for row in changed("larder").splitlines() if row.startswith("fraction = "))
    path = build_file(tmp_path, (line, 'fraction = "20 %"'), name="larder")
    result = call(path, "--fill", "40 g")
    assert result.exit_code == 2
    assert "must freeze below the evaporating temperature" in result.stdout
    assert "(Use a stronger brine" in result.stdout
