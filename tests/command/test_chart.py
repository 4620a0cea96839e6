"""`coldwright chart`, typed as a mechanic types it: what it writes, prints and refuses."""

from __future__ import annotations

import json
import subprocess
import sys
from dataclasses import replace

import pytest
from typer.testing import CliRunner

from coldwright import verdict
from coldwright.cli.app import app
from coldwright.sheet.charts import CHARTS
from coldwright.sheet.drawing import DRAWINGS
from coldwright.verdict import day, expect
from support.assessed import altered, assessed, changed, window_of


def chart(*words: str):
    return CliRunner().invoke(app, ["chart", *words])


@pytest.fixture
def build(tmp_path, monkeypatch):
    """A build file whose assessment is worked out already."""
    path = tmp_path / "cheese.toml"
    path.write_text(changed("cheese"), encoding="utf-8")

    def known(found, *, system, **_):
        whole = assessed("cheese")
        return replace(whole, case=replace(whole.case, build=found, system=system or found.units))

    monkeypatch.setattr(verdict, "assess", known)
    return path


def test_a_picture_is_written_beside_the_build(build):
    found = chart(str(build), "--what", "watts")
    assert found.exit_code == 0, found.output
    picture = build.with_name("cheese-watts.svg")
    assert picture.read_text(encoding="utf-8").startswith("<svg")
    title, *caption, last = found.stdout.splitlines()
    assert title == "Where the heat comes in"
    assert "come in" in " ".join(caption)
    assert last == f"  Wrote {picture}"
    assert not [each for each in build.parent.iterdir() if each.suffix == ".part"]


@pytest.mark.parametrize("what", ["pressure-enthalpy", "tubes", "resistances", "watts"])
def test_each_chart_as_data_in_the_units_asked_for(build, tmp_path, what):
    out = tmp_path / "found.json"
    found = chart(str(build), "--what", what, "--out", str(out), "--units", "shop")
    assert found.exit_code == 0, found.output
    data = json.loads(out.read_text(encoding="utf-8"))
    assert data["chart"] == what
    assert data["caption"] in " ".join(found.stdout.split())
    units = {column["unit"] for column in data["columns"]} - {"", "%"}
    assert units & {"°F", "Btu/h", "°F diff"}


def test_a_page_is_written_whole_over_an_old_one(build, tmp_path):
    out = tmp_path / "found.html"
    out.write_text("old", encoding="utf-8")
    found = chart(str(build), "--what", "tubes", "--out", str(out))
    assert found.exit_code == 0, found.output
    text = out.read_text(encoding="utf-8")
    assert text.startswith("<!doctype html>")
    assert text.rstrip().endswith("</html>")


@pytest.mark.parametrize(
    ("words", "parts"),
    [
        ((), ("--what must say what to draw", "pressure-enthalpy")),
        (("--what", "pie"), ("--what must be one of", "received 'pie'")),
        (("--what", "tubes", "--out", "x.pdf"), ("--out must end in one of .svg, .html, .json",)),
        (("--what", "front", "--out", "x.html"), ("--out must end in one of .svg, .png, .pdf",)),
        (("--what", "all", "--out", "x.svg"), ("folder that exists for all charts",)),
        (("--what", "tubes", "--out", "nowhere/x.svg"), ("folder that exists",)),
        (("--what", "tubes", "--units", "metric"), ("shop or si",)),
        (("--what", "tubes", "--rev", "none such"), ("none such",)),
        (("--what", "pie", "--out", "x.pdf"), ("2 faults; nothing was done.",)),
    ],
)
def test_bad_entries(build, words, parts):
    before = sorted(build.parent.iterdir())
    found = chart(str(build), *words)
    assert found.exit_code == 2
    for part in parts:
        assert part in found.stderr
    assert "Traceback" not in found.output
    assert sorted(build.parent.iterdir()) == before


def test_a_folder_that_refuses_is_said(build, monkeypatch):
    def refused(*_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("coldwright.cli.chart.save", refused)
    found = chart(str(build), "--what", "watts")
    assert found.exit_code == 2
    assert "could not be written: Permission denied" in found.stderr


def test_a_build_without_a_balance_gets_a_sentence(build, monkeypatch):
    none = {"reason": "the low side is pumped empty"}
    whole = assessed("cheese")
    bare = replace(whole, case=altered(whole.case, {"cycling": none, "running": none}))
    monkeypatch.setattr(verdict, "assess", lambda *_, **__: bare)
    found = chart(str(build), "--what", "pressure-enthalpy")
    assert found.exit_code == 1
    assert "Nothing to draw" in found.stderr
    assert "the low side is pumped empty" in found.stderr
    assert not list(build.parent.glob("*.svg"))


def test_a_fault_that_the_balance_shows_ends_with_2(build, monkeypatch):
    from coldwright.errors import Fault

    whole = replace(assessed("cheese"), faults=(Fault("x", "The brine freezes."),))
    monkeypatch.setattr(verdict, "assess", lambda *_, **__: whole)
    found = chart(str(build), "--what", "watts")
    assert found.exit_code == 2
    assert "Fault of the input: The brine freezes." in found.stderr


def test_a_revisions_chart_has_its_own_name(build):
    text = build.read_text(encoding="utf-8")
    name = '\n[[revision]]\nname = "dry room/2"\ndate = 2026-02-02\nwhy = "x"\n'
    changes = '[revision.changes]\n"site.room_temperature" = "21 °C"\n'
    build.write_text(text + name + changes, encoding="utf-8")
    found = chart(str(build), "--what", "watts", "--rev", "dry room/2")
    assert found.exit_code == 0, found.output
    assert build.with_name("cheese-dry_room_2-watts.svg").is_file()


@pytest.fixture
def short_days(monkeypatch):
    """A day of a few hours, and a first start of few draws that is told for half an hour."""
    long_day, many = day.run_day, expect.expect

    def few(build, *, minutes, **options):
        return many(
            build, draws=6, minutes=tuple(each for each in minutes if each <= 30), **options
        )

    monkeypatch.setattr(day, "run_day", lambda build, **kept: long_day(build, hours=8.0, **kept))
    monkeypatch.setattr(expect, "expect", few)


@pytest.mark.usefixtures("short_days")
def test_all_charts_into_a_folder(build, tmp_path, monkeypatch):
    name = "coldwright.sheet.charts.charge.fill_window"
    monkeypatch.setattr(name, lambda *_: window_of("cheese"))
    text = build.read_text(encoding="utf-8")
    build.write_text(text.replace('fill = "28 g"', 'fill = "40 g"'), encoding="utf-8")
    folder = tmp_path / "pictures"
    folder.mkdir()
    found = chart(str(build), "--what", "all", "--out", str(folder))
    assert found.exit_code == 0, found.output
    every = (*CHARTS, *DRAWINGS)
    assert {each.name for each in folder.iterdir()} == {f"cheese-{each}.svg" for each in every}
    assert found.stdout.count("  Wrote ") == len(every)


def test_a_drawing_is_written_with_plain_colours_and_described(build):
    found = chart(str(build), "--what", "drawing")
    assert found.exit_code == 0, found.output
    picture = build.with_name("cheese-drawing.svg").read_text(encoding="utf-8")
    assert "var(" not in picture
    shown = " ".join(found.stdout.split())
    assert shown.startswith(
        "The box cut from front to back Cheese cupboard: a cabinet that opens at the front"
    )
    assert "1200 mm high" in shown
    assert "condenses at" in shown


@pytest.mark.parametrize(
    ("what", "ending", "start"),
    [
        ("drawing", "SVG", b"<svg"),
        ("front", "pdf", b"%PDF-"),
        ("back", "png", b"\x89PNG\r\n"),
    ],
)
def test_a_drawing_by_the_ending_of_its_name(build, tmp_path, what, ending, start):
    out = tmp_path / f"mine.{ending}"
    found = chart(str(build), "--what", what, "--out", str(out), "--units", "shop")
    assert found.exit_code == 0, found.output
    assert out.read_bytes().startswith(start)
    assert found.stdout.startswith("The box ")
    assert found.stdout.endswith(f"  Wrote {out}\n")


def test_a_build_without_a_balance_is_drawn_with_its_sizes(build, monkeypatch):
    none = {"reason": "the low side is pumped empty"}
    whole = assessed("cheese")
    bare = replace(whole, case=altered(whole.case, {"cycling": none, "running": none}))
    monkeypatch.setattr(verdict, "assess", lambda *_, **__: bare)
    found = chart(str(build), "--what", "drawing")
    assert found.exit_code == 0, found.output
    assert "no balance to show: the low side is pumped empty" in " ".join(found.stdout.split())
    assert "600 mm wide" in " ".join(found.stdout.split())


def test_help_does_not_wait_for_the_drawing_libraries():
    code = (
        "import sys; from coldwright.cli.app import app; import coldwright; "
        "assert not {'altair', 'vl_convert'} & set(sys.modules)"
    )
    found = subprocess.run(
        [sys.executable, "-c", code], check=False, capture_output=True, text=True
    )
    assert found.returncode == 0, found.stderr
