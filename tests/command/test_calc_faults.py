"""Faults of `coldwright calc`: all together, each with its field, code 2, never a traceback."""

import json

import pytest
from typer.testing import CliRunner

from coldwright.cli.app import app


def run(*words):
    return CliRunner().invoke(app, ["calc", *words])


FAULTS = [
    (("saturation", "R152a"), ["--pressure"]),
    (("saturation", "R152a", "--pressure", "10psig", "--temperature", "5C"), ["--pressure"]),
    (("saturation", "R152b", "--pressure", "10", "--dial", "R13"), ["REFRIGERANT", "--dial"]),
    (("saturation", "R152a", "--pressure", "900 psig"), ["--pressure"]),
    (("saturation", "R152a", "--temperature", "-90C", "--altitude", "9 km"), ["--altitude"]),
    (("saturation", "R152a", "--temperature", "5 K diff"), ["--temperature"]),
    (("brine", "propylene glycol", "--fraction", "40 %"), ["--basis"]),
    (("brine", "propylene glycol", "--fraction", "40%m", "--basis", "volume"), ["--basis"]),
    (("brine", "propylene glycol", "--fraction", "40 %", "--basis", "molar"), ["--basis"]),
    (("brine", "propylene glycol", "--fraction", "80%m"), ["--fraction"]),
    (("brine", "sodium chloride", "--fraction", "20%v"), ["--basis"]),
    (("brine", "syrup", "--fraction", "x", "--at", "-90C"), ["KIND", "--basis", "--fraction"]),
    (("standing", "R152a"), ["--charge", "--volume", "--temperature"]),
    (
        ("standing", "R152a", "--charge=45g", "--volume=2.5L", "--temperature=22C", "--oil=ester"),
        ["--oil-amount"],
    ),
    (
        ("standing", "R152a", "--charge=4kg", "--volume=2.5L", "--temperature=22C"),
        ["--charge"],
    ),
    (("charge-room", "R152a", "--room", "18"), ["--charge", "--room"]),
    (("charge-room", "R000", "--charge=50g", "--room=18m3"), ["refrigerant"]),
    (("dewpoint", "--temperature", "21C", "--humidity", "155 %"), ["--humidity"]),
    (("altitude", "1500"), ["ALTITUDE"]),
    (("altitude", "1500", "--units", "metric"), ["--units", "ALTITUDE"]),
    (("altitude", "12 km"), ["ALTITUDE"]),
]


@pytest.mark.parametrize(("words", "fields"), FAULTS)
def test_each_fault_names_its_field(words, fields):
    found = run(*words, "--json")
    assert found.exit_code == 2, found.output
    faults = json.loads(found.stdout)["faults"]
    named = [fault["field"] for fault in faults]
    assert named[: len(fields)] == fields or set(fields) <= set(named)
    for fault in faults:
        assert "must be" in fault["message"] or "must be given" in fault["message"]


@pytest.mark.parametrize(("words", "fields"), FAULTS)
def test_text_is_one_line_a_fault(words, fields):
    found = run(*words)
    assert found.exit_code == 2
    assert found.stdout == ""
    lines = found.stderr.splitlines()
    assert lines[-1].endswith("nothing was done.")
    assert "Traceback" not in found.stderr
    assert lines[-1].startswith(f"{len(lines) - 1} fault")


def test_the_hint_for_a_basis():
    found = run("brine", "propylene glycol", "--fraction", "40 %")
    assert "freezes up to 3 K apart" in found.stderr


def test_what_is_allowed_is_told_with_its_unit():
    found = run("dewpoint", "--temperature", "200C", "--humidity", "50%")
    assert "from -40.0 °C to 60.0 °C (-40.0 °F to 140.0 °F); received '200C'" in found.stderr
    found = run("saturation", "R152a", "--pressure", "900 psig")
    assert "psig" in found.stderr
    assert "kPa abs" in found.stderr


def test_a_charge_that_would_burst_the_system():
    found = run("standing", "R152a", "--charge=4kg", "--volume=2.5L", "--temperature=22C")
    assert "fills the volume with liquid" in found.stderr
