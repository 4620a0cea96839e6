"""`day` as a user types it: text, data, rows, chart, and what is refused."""

from __future__ import annotations

import csv
import json
import signal
from contextlib import contextmanager
from pathlib import Path

import numpy as np
import pytest
from typer.testing import CliRunner

from coldwright import run_day
from coldwright.build import loads
from coldwright.cli.app import app
from support.assessed import changed

QUICK = ('fill = "find"', 'fill = "36 g"')


def box(folder: Path, *changes: tuple[str, str], name: str = "galley") -> str:
    path = folder / "box.toml"
    path.write_text(changed(name, *changes), encoding="utf-8")
    return str(path)


def call(*arguments: str):
    return CliRunner().invoke(app, ["day", *arguments])


@pytest.fixture(scope="module")
def typed(tmp_path_factory):
    folder = tmp_path_factory.mktemp("day")
    rows = folder / "rows.csv"
    found = call(box(folder, QUICK), "--json", "--csv", str(rows), "--hours", "30")
    assert found.exit_code == 0, found.output
    with rows.open(encoding="utf-8") as file:
        return json.loads(found.stdout), list(csv.DictReader(file))


def test_the_data_hold_the_day(typed):
    data, _ = typed
    for key in [
        "energy_kWh_per_day",
        "run_fraction",
        "starts_per_hour",
        "air_mean_C",
        "air_min_C",
        "air_max_C",
        "power_mean_running_W",
        "hours_to_target",
    ]:
        assert isinstance(data[key], float), key
    assert abs(data["energy_closure"]) < 1e-3
    assert data["counted_hours"] == 24.0
    assert data["air_min_C"] <= data["air_mean_C"] <= data["air_max_C"]


def test_the_rows_tell_the_same_day(typed):
    """One row a minute; their watts are the energy, their starts the starts."""
    data, rows = typed
    assert [int(row["minute"]) for row in rows] == list(range(1, 1801))
    power = np.array([float(row["power_W"]) for row in rows])
    last = power[-1440:]
    assert np.sum(last) / 60e3 == pytest.approx(data["energy_kWh_per_day"], rel=1e-4)
    running = np.array([float(row["running"]) for row in rows])
    starts = np.sum(np.diff(running[-1441:]) > 0)
    assert starts == pytest.approx(24.0 * data["starts_per_hour"], abs=1)
    air = np.array([float(row["air_C"]) for row in rows])[-1440:]
    assert np.mean(air) == pytest.approx(data["air_mean_C"], abs=0.01)


def test_gauges_meet_at_rest_and_part_while_running(typed):
    """A mechanic's look: at rest one pressure, running the discharge far above the suction."""
    _, rows = typed
    ratio = np.array([float(r["discharge_Pa"]) / float(r["suction_Pa"]) for r in rows])
    running = np.array([float(r["running"]) for r in rows]) > 0.5
    rested = np.convolve(~running, np.ones(16), "full")[: len(running)] > 15.5
    assert np.all(ratio[rested] < 1.02)
    ran = np.convolve(running, np.ones(6), "full")[: len(running)] > 5.5
    assert np.all(ratio[ran] > 3.0)


def test_text_says_first_what_is_asked_most(tmp_path):
    found = call(box(tmp_path, QUICK), "--hours", "24", "--units", "si", "--price", "0.30")
    assert found.exit_code == 0
    lines = found.stdout.splitlines()
    assert lines[0] == "Galley box, as built"
    assert lines[1].strip().startswith("From warm it brings the stored air to")
    assert "kWh a day" in found.stdout
    assert "price of a year" in found.stdout


@pytest.mark.parametrize("ending", ["svg", "html"])
def test_a_chart_is_written_that_fetches_nothing(tmp_path, ending):
    pytest.importorskip("vl_convert")
    chart = tmp_path / f"chart.{ending}"
    found = call(box(tmp_path, QUICK), "--hours", "3", "--chart", str(chart))
    assert found.exit_code == 0, found.output
    text = chart.read_text(encoding="utf-8")
    assert "stored air" in text
    assert 'src="http' not in text


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["--hours", "0"], "--hours must be greater than 0 h and at most 1440 h; received 0 h."),
        (["--chart", "day.pdf"], "--chart must end in .svg, .html, .json; received 'day.pdf'."),
        (["--room", "70 °F", "--swing"], "Only one of --room, --swing and --room-csv"),
        (["--csv", "nowhere/rows.csv"], "--csv must lie in a folder that exists"),
        (["--room-csv", "nowhere.csv"], "The room's CSV 'nowhere.csv' cannot be read"),
        (["--room", "20 °F"], "Room temperature must be above the target air temperature"),
        (["--price", "-1"], "--price must be 0 or more; received -1."),
    ],
)
def test_odd_options_are_refused_in_one_sentence(tmp_path, arguments, told):
    found = call(box(tmp_path, QUICK), *arguments)
    assert found.exit_code == 2
    assert told in found.stderr
    assert "Traceback" not in found.stderr


def test_a_rooms_csv_is_read_line_by_line(tmp_path):
    good, bad = tmp_path / "good.csv", tmp_path / "bad.csv"
    good.write_text("minute,room\n0,18\n60,24\n120;18\n", encoding="utf-8")
    bad.write_text("0,18\n60,warm\n", encoding="utf-8")
    rows = tmp_path / "rows.csv"
    found = call(
        box(tmp_path, QUICK), "--hours", "2", "--room-csv", str(good), "--csv", str(rows), "--json"
    )
    assert found.exit_code == 0, found.output
    with rows.open(encoding="utf-8") as file:
        room = [float(row["room_C"]) for row in csv.DictReader(file)]
    assert max(room) == pytest.approx(24.0, abs=0.2)
    refused = call(box(tmp_path, QUICK), "--room-csv", str(bad))
    assert refused.exit_code == 2
    assert "Line 2 of" in refused.stderr


def test_python_gives_the_same_run():
    """`run_day` on a loaded build; interrupted, it gives what is done."""
    build = loads(changed("galley", QUICK))

    def stop(text: str) -> None:
        if "50 %" in text:
            raise KeyboardInterrupt

    day = run_day(build, hours=4.0, progress=stop)
    assert not day.course.complete
    assert 100 < day.course.minutes < 140
    assert len(day.rows["air_C"]) == day.course.minutes


@pytest.mark.parametrize(
    ("moment", "hours"), [("minute by minute, 50 %", 2.0), ("days before the first, 10 %", None)]
)
def test_a_real_interrupt_gives_what_is_done(tmp_path, monkeypatch, moment, hours):
    """Ctrl-C in the hours asked for ends with their first half; before them there is nothing."""

    @contextmanager
    def stopping():
        yield lambda text: signal.raise_signal(signal.SIGINT) if text == moment else None

    monkeypatch.setattr("coldwright.cli.day.shown_progress", stopping)
    start = "warm" if hours is not None else "settled"
    found = call(box(tmp_path, QUICK), "--hours", "4", "--from", start, "--json")
    if hours is None:
        assert found.exit_code != 0
        assert not found.stdout
        return
    assert found.exit_code == 0, found.output
    data = json.loads(found.stdout)
    assert data["complete"] is False
    assert data["hours"] == pytest.approx(hours, abs=0.05)
    assert data["power_cut"]["hours"] is None
    assert "interrupted" in {notice["code"] for notice in data["notices"]}


def test_a_machine_without_any_balance_is_told_and_does_nothing(tmp_path):
    """A gram of gas: a result with its reason, no fault of the program."""
    found = call(box(tmp_path, QUICK), "--fill", "1 g", "--hours", "2", "--json")
    assert found.exit_code == 0, found.output
    data = json.loads(found.stdout)
    codes = {notice["code"] for notice in data["notices"]}
    assert codes & {"no_balance", "map_holes"}
    assert data["hours_to_target"] is None
