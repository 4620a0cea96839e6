"""`coldwright calc map`, typed as a mechanic types it, and what its figures must agree with."""

import csv
import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from coldwright.build import load
from coldwright.build.translation.plant import translate
from coldwright.cli.app import app
from coldwright.plant.operation import operate
from coldwright.verdict.performance import round_axis
from support import builds

CHEESE = str(Path(builds.__file__).parent / "cheese.toml")


def run(*words):
    return CliRunner().invoke(app, ["calc", "map", *words])


@pytest.fixture(scope="module")
def table(tmp_path_factory):
    path = tmp_path_factory.mktemp("map") / "states.csv"
    temperatures = ("--source", "0C", "--source", "-12C", "--room", "20C", "--room", "28C")
    found = run(CHEESE, *temperatures, "--csv", str(path), "--json")
    assert found.exit_code == 0, found.output
    return json.loads(found.stdout), path


def test_states_come_source_by_room_each_with_its_figures(table):
    data, _ = table
    assert data["sources_C"] == pytest.approx([-12.0, 0.0])
    assert data["rooms_C"] == pytest.approx([20.0, 28.0])
    pairs = [(point["compartment_C"], point["room_C"]) for point in data["points"]]
    assert pairs == [pytest.approx(pair) for pair in ((-12, 20), (-12, 28), (0, 20), (0, 28))]
    cold, _, warm, hot = data["points"]
    # Warmer goods, more cooling; a warmer room, a higher head and more watts.
    assert cold["capacity_W"] < warm["capacity_W"]
    assert warm["discharge_Pa"] < hot["discharge_Pa"]
    assert warm["power_W"] < hot["power_W"]
    for point in data["points"]:
        assert point["residual"] < 1e-8
        through = point["capacity_W"] + point["power_W"]
        # What is not shed by the condenser goes by the shell, or came in by the suction line.
        assert 0.6 * through < point["condenser_heat_W"] < 1.3 * through


def test_a_state_of_the_box_stands_in_the_table_as_assess_has_it():
    found = translate(load(CHEESE))
    o = operate(found.plant, found.room, found.target, found.charge, found.superheat)
    source = float(o.running.box.source_temperature[0]) - 273.15
    room = float(found.room.temperature) - 273.15
    shown = run(CHEESE, "--source", f"{source:.9f} °C", "--room", f"{room:.9f} °C", "--json")
    (point,) = json.loads(shown.stdout)["points"]
    state = o.running.balance.evaluation
    assert point["capacity_W"] == pytest.approx(float(state.evaporator.heat[0]), rel=1e-5)
    assert point["power_W"] == pytest.approx(float(state.compressor.power[0]), rel=1e-5)


def test_csv_holds_the_same_states(table):
    data, path = table
    rows = list(csv.DictReader(path.read_text(encoding="utf-8").splitlines()))
    assert len(rows) == len(data["points"])
    for row, point in zip(rows, data["points"], strict=True):
        assert set(row) == set(point)
        assert float(row["capacity_W"]) == pytest.approx(point["capacity_W"], rel=1e-5)


def test_as_text_in_shop_units():
    found = run(CHEESE, "--source", "10 °F", "--room", "70 °F", "--units", "shop")
    for words in ("room 70.0 °F", "air 10.0 °F", "Btu/h", "psig", "How to compare"):
        assert words in found.stdout
    assert " w" in found.stdout
    assert "liquid comes back" in found.stdout


def test_a_source_out_of_reach_has_no_cooling():
    found = run(CHEESE, "--source", "-40C", "--room", "28C")
    assert "none" in found.stdout
    assert "cannot make the air" in found.stdout


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (("--room", "20"), "--room"),
        (("--source", "-90C"), "--source must be from"),
        (("--csv", "/no/such/folder/x.csv"), "--csv must name a file"),
        (("--units", "metric"), "--units must be"),
        (("--fill", "900 g"), "leave room for gas"),
    ],
)
def test_bad_input_is_one_clear_message(words, part):
    found = run(CHEESE, *words)
    assert found.exit_code == 2
    assert part in found.output
    assert "Traceback" not in found.output


def test_axes_are_round_in_the_readers_units():
    metric = [t - 273.15 for t in round_axis(261.2, 303.0, most=8)]
    assert metric == pytest.approx([-20.0, -10.0, 0.0, 10.0, 20.0, 30.0])
    shop = [1.8 * (t - 273.15) + 32.0 for t in round_axis(287.0, 301.0, most=5, shop_units=True)]
    assert len(shop) <= 5
    assert all(round(t) % 10 == 0 and t == pytest.approx(round(t), abs=1e-3) for t in shop)
    assert shop[0] <= 1.8 * (287.0 - 273.15) + 32.0 <= 1.8 * (301.0 - 273.15) + 32.0 <= shop[-1]
