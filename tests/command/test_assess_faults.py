"""Faults of what a user types: all together, field, line, value and what is allowed; exit 2."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from coldwright.cli.app import app
from support.assessed import changed


def call(*arguments: str):
    result = CliRunner().invoke(app, [str(argument) for argument in arguments])
    assert not isinstance(result.exception, Exception) or isinstance(result.exception, SystemExit)
    assert "Traceback" not in result.output
    return result


def written(folder: Path, text: str | bytes) -> Path:
    path = folder / "box.toml"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return path


def refused(result, *said: str):
    assert result.exit_code == 2
    assert result.stdout == ""
    for each in said:
        assert each in result.stderr, (each, result.stderr)


@pytest.mark.parametrize(
    ("content", "said"),
    [
        ('format = 1\nname = "box\n', ("line 2:", "is not valid TOML", "does not end on its line")),
        ("format = 1\n[site\n", ("line 2:", "is not valid TOML")),
        ("", ("is empty",)),
        ("   \n\n", ("is empty",)),
        (b"\xff\xfe\x00bad", ("is not UTF-8 text",)),
        ("format = 2\n", ("line 1:", "Format must be 1", "received 2")),
        ("[site]\n", ("Format must be given", "write format = 1 without quotes")),
        ("[" * 5000, ("TOML",)),
    ],
)
def test_a_file_that_is_no_build(tmp_path, content, said):
    refused(call("assess", written(tmp_path, content)), *said)


def test_a_missing_file_and_a_folder(tmp_path):
    refused(call("assess", tmp_path / "none.toml"), "does not exist", "check the name")
    refused(call("assess", tmp_path), "is a folder")


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('gap = "35 mm"', 'gap = "35 kg"', ("line 115:", "Gap of condenser", "'35 kg'", "units:")),
        ('gap = "35 mm"', 'gap = "-35 mm"', ("greater than 0", "'-35 mm'")),
        ('gap = "35 mm"', "gap = nan", ("line 115:", "Gap of condenser")),
        ('gap = "35 mm"', 'gap = "9e99 m"', ("Gap of condenser", "at most")),
        ('gap = "35 mm"', "gap = true", ("Gap of condenser", "received true or false")),
        ('gap = "35 mm"', 'gapp = "35 mm"', ("Key 'gapp' is not known", "did you mean 'gap'")),
        ('name = "R134a"', 'name = "R143a"', ("received 'R143a'", "did you mean 'R134a'")),
        ('inside_width = "0.60 m"', 'inside_width = "60 m"', ("Inside width", "at most", "'60 m'")),
        ('door = "lid"', 'door = "flap"', ("'front' or 'lid'", "'flap'")),
        ('cut_in = "6.5 °C"', 'cut_in = "2 °C"', ("above the cut-out", "'2 °C'")),
        (
            'return_gas_temperature = "32 °C"',
            'return_gas_temperature = "-30 °C"',
            ("at least the evaporating temperature", "'-30 °C'"),
        ),
        ('air_temperature = "5 °C"', 'air_temperature = "25 °C"', ("below the room", "'25 °C'")),
    ],
)
def test_an_impossible_entry(tmp_path, old, new, said):
    refused(call("assess", written(tmp_path, changed("galley", (old, new)))), *said)


def test_all_faults_of_options_and_file_come_together(tmp_path):
    text = changed(
        "galley",
        ('gap = "35 mm"', 'gap = "35 kg"'),
        ('name = "R134a"', 'name = "R999"'),
        ('use = "milk, meat for two days, drinks"', 'purpose = "milk"'),
    )
    path = written(tmp_path, text)
    options = ("--room", "hot", "--fill", "3 lb gold", "--units", "metric", "--explain", "nosuch")
    result = call("assess", path, *options)
    refused(
        result,
        "--room must be a temperature",
        "'hot'",
        "unit 'gold' is not known",
        "--units must be shop or si; received 'metric'",
        "received 'nosuch'",
        "Gap of condenser",
        "R999",
        "Key 'purpose'",
        "7 faults; nothing was done.",
    )
    as_data = call("assess", path, *options, "--json")
    assert as_data.exit_code == 2
    faults = json.loads(as_data.stdout)["faults"]
    assert len(faults) == 7
    assert {fault["field"] for fault in faults} >= {"--room", "--fill", "--units", "condenser.gap"}
    for fault in faults:
        assert set(fault) == {"field", "line", "message", "hint"}
    assert all(fault["line"] for fault in faults if not fault["field"].startswith("--"))


@pytest.mark.parametrize(
    ("option", "value", "said"),
    [
        ("--room", "", "is empty"),
        ("--room", "nan", "received 'nan'"),
        ("--room", "21", "has no unit"),
        ("--room", "900 °C", "must be -20 °C to 60 °C; received '900 °C'"),
        ("--room", "5 °C", "must be above the target air temperature 5.0 °C"),
        ("--room", "1e999 °C", "1e999"),
        ("--fill", "-3 g", "must be 1 g to 5 kg; received '-3 g'"),
        ("--fill", "0", "has no unit"),
        ("--fill", "12 kg", "must be 1 g to 5 kg"),
        ("--rev", "thicker lit", "thicker lid"),
        ("--rev", "", "does not stand in the file"),
        ("--explain", "", "Figure must be one of the report's"),
        ("--explain", "runing.power_W", "Perhaps running.power_W"),
    ],
)
def test_an_impossible_option(tmp_path, option, value, said):
    refused(call("assess", written(tmp_path, changed("galley")), option, value), said)


def test_a_map_without_a_machine_in_it(tmp_path):
    text = changed("galley")
    start, end = text.index("[[compressor.rated_points]]"), text.index("[condenser]")
    sheet = (
        "[compressor.map]\ncapacity = [0,0,0,0,0,0,0,0,0,0]\npower = [9e300,9e300,9e300,9e300,"
        "9e300,9e300,9e300,9e300,9e300,9e300]\n\n"
    ).replace("[0,0,0,0,0,0,0,0,0,0]", str([0.0] * 10))
    path = written(tmp_path, text[:start] + sheet + text[end:])
    refused(call("assess", path), "mass flow", "it comes to 0 kg/h", "power must be", "no sensible")


def test_coefficients_that_are_no_numbers_are_not_counted_as_missing(tmp_path):
    text = changed("galley")
    start, end = text.index("[[compressor.rated_points]]"), text.index("[condenser]")
    sheet = f"[compressor.map]\ncapacity = {[0.0] * 9 + ['x']}\npower = {[1.0] * 9}\n\n"
    result = call("assess", written(tmp_path, text[:start] + sheet + text[end:]))
    refused(result, "received 'x'", "Power of compressor map must hold 10 numbers; received 9")
    assert "received 10" not in result.stderr


def test_a_bound_itself_is_allowed_in_any_unit(tmp_path):
    # The least rated evaporating temperature, -60 °C, is no round number of kelvins.
    edge = ('evaporating_temperature = "-25 °C"', 'evaporating_temperature = "-60 °C"')
    result = call("assess", written(tmp_path, changed("galley", edge)), "--rev", "none")
    assert "Evaporating temperature" not in result.stderr


def test_the_version_and_a_command_that_does_not_exist():
    assert call("--version").stdout.startswith("coldwright ")
    assert call("asess").exit_code == 2
    assert call("assess").exit_code == 2
