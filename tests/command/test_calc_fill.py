"""`coldwright calc fill`, typed as a mechanic types it, and what its figures must agree with."""

import json
from pathlib import Path

import numpy as np
import pytest
from typer.testing import CliRunner

from coldwright.build import load
from coldwright.build.translation.plant import translate
from coldwright.cli.app import app
from coldwright.cli.calc.fill_signs import sign_notes, sign_rows
from coldwright.plant.operation import operate
from support import builds

CHEESE = str(Path(builds.__file__).parent / "cheese.toml")


def run(*words):
    return CliRunner().invoke(app, ["calc", "fill", *words])


@pytest.fixture(scope="module")
def stated():
    found = run(CHEESE, "--json")
    assert found.exit_code == 0, found.output
    return json.loads(found.stdout)


def test_the_charge_is_all_accounted_for(stated):
    assert set(stated["places"]) == {"held_g", "running_g", "hot_pull_down_g"}
    for places in stated["places"].values():
        assert sum(places.values()) == pytest.approx(stated["charge_g"], rel=1e-6)
        assert all(mass >= 0.0 for mass in places.values())


def test_the_stopped_machine_holds_the_charge_too(stated):
    rest = stated["at_rest"]
    for state in ("between_runs", "in_the_room", "hottest_day", "coolest_room"):
        whole = sum(rest[state][place] for place in ("vapour_g", "dissolved_g", "liquid_g"))
        assert whole == pytest.approx(stated["charge_g"], rel=1e-9)
    # Between two runs the oil still holds what it held.
    assert rest["between_runs"]["dissolved_g"] == pytest.approx(stated["places"]["held_g"]["oil"])


def test_the_window_lies_between_starved_and_wet(stated):
    assert stated["window_open"]
    assert stated["width_g"] == pytest.approx(stated["most_g"] - stated["least_g"])
    assert stated["width_g"] > 0.0
    rows = [row for row in stated["ladder"] if row["hot_superheat_K"] is not None]
    for row in rows:
        starved = row["hot_superheat_K"] > 20.0
        assert starved == (row["charge_g"] < stated["least_g"])
    for row in stated["ladder"]:
        if row["cold_return_quality"] is not None:
            assert (row["cold_return_quality"] < 0.995) == (row["charge_g"] > stated["most_g"])
    # Overcharge raises the evaporating temperature and undercharge lowers it (common practice).
    cold = [row["cold_evaporating_C"] for row in rows if row["cold_evaporating_C"] is not None]
    assert np.all(np.diff(cold) > -0.2)


def test_what_one_gram_is_worth_is_the_difference_of_two_runs(stated):
    found = translate(load(CHEESE))
    charge = 1e-3 * stated["charge_g"] + np.array([-1e-3, 1e-3])
    two = np.full(2, float(found.target))
    o = operate(found.plant, found.room, two, charge, found.superheat)
    held = o.cycling.balance.evaluation
    one = stated["one_gram"]
    evaporating = float(np.diff(held.unknowns.evaporating_temperature)[0]) / 2.0
    power = float(np.diff(held.compressor.power)[0]) / 2.0
    air = float(np.diff(o.running.box.air_temperature)[0]) / 2.0
    assert one["evaporating_K_per_g"] == pytest.approx(evaporating, abs=0.01)
    assert one["power_W_per_g"] == pytest.approx(power, abs=0.01)
    assert one["running_air_K_per_g"] == pytest.approx(air, abs=0.01)


@pytest.mark.parametrize(
    ("charge", "verdict", "part"),
    [("15 g", "starved", "starves the coil"), ("42 g", "liquid returns", "liquid comes back")],
)
def test_too_little_and_too_much(charge, verdict, part):
    found = run(CHEESE, "--fill", charge, "--json")
    data = json.loads(found.stdout)
    assert data["verdict"] == verdict
    assert part in data["notes"][0]


def test_what_to_do_follows_from_the_window():
    for charge, words in (("22 g", "serves the hottest start"), ("29 g", "leave it at 29 g")):
        notes = json.loads(run(CHEESE, "--fill", charge, "--json").stdout)["notes"]
        assert any(note.startswith("So:") and words in note for note in notes)


def test_a_charge_without_a_balance_has_no_signs():
    assert sign_rows({"right": None, "short": None, "over": None}, None) == []
    assert sign_notes({"right": None, "short": None, "over": None}, None) == []


def test_the_sign_that_tells_most_is_weighed_by_how_well_it_reads(stated):
    # Power reads to 2 %, a thermometer to 2 K: the greatest change over that is named.
    signs = stated["signs"]
    right, over = signs["right"], signs["over"]
    by_power = abs(over["power_W"] - right["power_W"]) / (0.02 * right["power_W"])
    by_gas = abs(over["return_gas_C"] - right["return_gas_C"]) / 2.0
    by_superheat = abs(over["superheat_K"] - right["superheat_K"]) / 2.0
    note = next(note for note in stated["notes"] if note.startswith("What tells 20 % more"))
    names = {"power": by_power, "gas back": by_gas, "superheat": by_superheat}
    assert max(names, key=names.get) in note


def test_as_text():
    found = run(CHEESE, "--units", "shop")
    text = " ".join(found.stdout.split())
    assert found.exit_code == 0
    assert "oz" in text
    assert "one gram more: evaporating" in text
    assert "in the condenser" in text
    assert "in all else" in text
    assert "signs, air at its target" in text
    assert "What tells 20 % less soonest here" in text
    assert "pressure between two runs" in text
    assert "known to about 15 %" in text


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (("nothing.toml",), "nothing.toml"),
        ((CHEESE, "--fill", "0 g"), "--fill must be"),
        ((CHEESE, "--fill", "3 kg"), "--fill"),
        ((CHEESE, "--units", "metric"), "shop or si"),
        ((CHEESE, "--rev", "no such"), "no such"),
    ],
)
def test_bad_entries(words, part):
    found = run(*words, "--json")
    assert found.exit_code == 2
    assert part in found.stdout
