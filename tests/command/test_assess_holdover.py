"""`assess` on a holdover and on a measured vessel, as a user types it."""

from __future__ import annotations

import json

import pytest
from typer.testing import CliRunner

from coldwright.cli.app import app
from support.assessed import changed


def call(folder, *arguments, name="holdover", changes=()):
    path = folder / "box.toml"
    path.write_text(changed(name, *changes), encoding="utf-8")
    return CliRunner().invoke(app, ["assess", str(path), *arguments], env={"COLUMNS": "120"})


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("holdover")


def test_the_store_as_data(folder):
    result = call(folder, "--json")
    assert result.exit_code == 0
    data = json.loads(result.stdout)
    held = data["holdover"]
    keys = {"store_kWh", "melting_C", "first_ice_C", "last_ice_C", "state_of_charge"}
    keys |= {"hours_to_freeze", "hours_it_holds", "air_while_melting_C"}
    assert keys <= set(held)
    assert 0.5 < held["store_kWh"] < 2.0
    codes = {notice["code"] for notice in data["notices"]}
    assert "frozen_tank" in codes
    assert not codes & {"brine_freezes", "brine_slush", "headspace"}
    assert data["vessel"]["weight_full_kg"] > data["vessel"]["brine_kg"] > 15.0
    assumed = {entry["field"] for entry in data["assumed"]}
    assert "model.store_of_brine" in assumed


def test_the_store_on_the_screen(folder):
    result = call(folder, "--units", "si")
    text = " ".join(result.stdout.split())
    for words in (
        "Store of propylene glycol, 50 % frozen",
        "to freeze it",
        "it holds",
        "air while it melts",
        "weight, full",
        "ice on the coil",
        "A tank that freezes full can burst",
    ):
        assert words in text


def test_a_figure_of_the_store_is_explained(folder):
    result = call(folder, "--explain", "holdover.hours_it_holds")
    assert "holdover.store_kWh" in result.stdout
    assert "Voller" in result.stdout


def test_a_tank_that_would_burst_is_a_danger(folder):
    result = call(folder, "--json", changes=(('headspace = "55 mm"', 'headspace = "5 mm"'),))
    notices = {each["code"]: each for each in json.loads(result.stdout)["notices"]}
    assert notices["ice_headspace"]["severity"] == "danger"


def test_a_faulty_filling_is_one_sentence(folder):
    result = call(folder, changes=(('fraction = "10 %"', ""),))
    assert result.exit_code == 2
    assert "Fraction of cold side holdover must be given" in result.output
    assert "Traceback" not in result.output


def test_a_measured_vessel_by_its_turns(folder):
    changes = (
        ('shape = "cylinder"\ndiameter = "0.25 m"', 'shape = "measured"\narea = "0.42 m2"\n'
         'volume = "20 L"'),
        ('fill = "find"', 'fill = "40 g"'),
        ('size = "1/4 in"\nlength = "9 m"', 'size = "1/4 in"'),
        ('coil_diameter = "0.19 m"', 'coil_diameter = "0.19 m"\ncoil_turns = 15'),
    )  # fmt: skip
    result = call(folder, "--json", name="larder", changes=changes)
    assert result.exit_code == 0
    data = json.loads(result.stdout)
    assert data["vessel"]["brine_L"] == pytest.approx(18.2, abs=0.5)
    told = {entry["field"]: entry["text"] for entry in data["assumed"]}
    assert told["cold_side.tube.length"].startswith("8.95")
    assert "cold_side.vessel.lid_exposed" not in told
