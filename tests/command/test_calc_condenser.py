"""`coldwright calc condenser`, typed as a mechanic types it."""

import json

import pytest
from typer.testing import CliRunner

from coldwright.cli.app import app

PANEL = ("--width", "550mm", "--height", "1.1m", "--tube", "3/16 in", "--length", "12 m")
WIRES = ("--kind", "wire", "--wire-diameter", "1.5mm", "--wire-pitch", "6mm")
GAS = ("--refrigerant", "r-152a", "--room", "25C")
AT = ("--condensing", "40C")


def run(*words):
    return CliRunner().invoke(app, ["calc", "condenser", *words])


def data_of(*words):
    found = run(*words, "--json")
    assert found.exit_code == 0, found.output
    return json.loads(found.stdout)


@pytest.mark.parametrize("kind", [(), WIRES, ("--kind", "bare")])
def test_each_kind_has_its_figures(kind):
    data = data_of(*GAS, *PANEL, *AT, *kind)
    wanted = (
        "heat_W condensing_C conductance_W_per_K radiation_share convection_W radiation_W "
        "film_W_m2K radiation_film_W_m2K bond_efficiency sheet_efficiency volume_cm3 weight_kg "
        "pressure_drop_Pa notices notes sources half_widths"
    )
    assert set(wanted.split()) <= set(data)
    assert data["condensing_C"] == pytest.approx(40.0)
    assert data["heat_W"] == pytest.approx(data["convection_W"] + data["radiation_W"])
    assert data["conductance_W_per_K"] * 15.0 == pytest.approx(data["heat_W"])
    assert sum(data["resistance_share"].values()) == pytest.approx(1.0)
    assert sum(data["zone_share"].values()) == pytest.approx(1.0)
    assert data["half_widths"]["heat_W"] > 0.05 * data["heat_W"]
    assert data["volume_cm3"] == pytest.approx(98.9, rel=0.01)
    assert "found" not in data
    assert any(each["code"] == "flammable_refrigerant" for each in data["cautions"])


def test_heat_and_condensing_answer_each_other():
    there = data_of(*GAS, *PANEL, *AT)
    back = data_of(*GAS, *PANEL, "--heat", f"{there['heat_W']:.6f} W")
    assert back["condensing_C"] == pytest.approx(40.0, abs=1e-3)
    assert "heat_W" not in back["half_widths"]
    assert back["half_widths"]["condensing_C"] > 0.5


def test_finish_bond_and_place_go_the_right_way():
    heat = data_of(*GAS, *PANEL, *AT)["heat_W"]
    for words in (
        ("--finish", "galvanised"),
        ("--bond", "clipped"),
        ("--bond", "4 W/(m K)"),
        ("--wall-behind", "30mm"),
        ("--opening", "30 %"),
        ("--dirt", "20 %"),
        ("--shaded", "0.2"),
        ("--air-rise", "3 K"),
        ("--gap", "12mm"),
        ("--altitude", "2500 m"),
        ("--thickness", "0.3mm"),
    ):
        assert data_of(*GAS, *PANEL, *AT, *words)["heat_W"] < heat, words
    taller = data_of(*GAS, *PANEL, *AT, "--gap", "12mm", "--chimney-height", "2m")["heat_W"]
    assert taller > data_of(*GAS, *PANEL, *AT, "--gap", "12mm")["heat_W"]
    assert data_of(*GAS, *PANEL, *AT, "--area-factor", "1.3")["heat_W"] > heat


def test_text_says_what_was_assumed_and_what_to_mind():
    found = run(*GAS, *PANEL, *AT)
    assert found.exit_code == 0
    for words in ("condensing", "Assumed: gap 40 mm", "by radiation", "brazing", "Source:"):
        assert words.lower() in found.stdout.lower()
    hot = data_of(*GAS, *PANEL, "--heat", "600W", "--discharge-gas", "110C")
    told = {notice["code"]: notice["severity"] for notice in hot["notices"]}
    assert told["condensing_hot"] == "danger"
    assert told["pressure_drop"] == "info"
    cold = data_of(*GAS, *PANEL, "--heat", "200W", "--discharge-gas", "40C")
    assert cold["notices"][0]["code"] == "gas_held"
    assert cold["discharge_gas_C"] == pytest.approx(cold["condensing_C"] + 0.5)
    tight = data_of(*GAS, "--width=500mm", "--height=500mm", "--tube=1/4 in", "--length=20m", *AT)
    assert "tight_bend" in {notice["code"] for notice in tight["notices"]}


FAULTS = [
    ((), ["--refrigerant", "--room", "--width", "--height", "--length", "--tube", "--condensing"]),
    ((*GAS, *PANEL), ["--condensing"]),
    ((*GAS, *PANEL, *AT, "--heat", "100W"), ["--condensing"]),
    ((*GAS, *PANEL, "--condensing", "20C"), ["--condensing"]),
    ((*GAS, *PANEL, "--condensing", "90C"), ["--condensing"]),
    ((*GAS, *PANEL, *AT, "--subcooling", "20 K"), ["--subcooling"]),
    ((*GAS, *PANEL, "--heat", "4 kW"), ["--heat"]),
    ((*GAS, *PANEL, *AT, "--kind", "fan"), ["--kind"]),
    ((*GAS, *PANEL, *AT, "--kind", "wire"), ["--wire-diameter", "--wire-pitch"]),
    ((*GAS, *PANEL, *AT, *WIRES[:-1], "1mm"), ["--wire-pitch"]),
    ((*GAS, *PANEL, *AT, *WIRES, "--wire-sides", "3"), ["--wire-sides"]),
    ((*GAS, *PANEL, *AT, "--wire-pitch", "6mm"), ["--wire-pitch"]),
    ((*GAS, *PANEL, *AT, "--kind", "bare", "--bond", "taped"), ["--bond"]),
    ((*GAS, *PANEL, *AT, "--bond", "glued up"), ["--bond"]),
    ((*GAS, *PANEL, *AT, "--bond", "5 W/K"), ["--bond"]),
    ((*GAS, *PANEL, *AT, "--finish", "chromed", "--emissivity", "0.1"), ["--emissivity"]),
    ((*GAS, *PANEL, *AT, "--emissivity", "90"), ["--emissivity"]),
    ((*GAS, *PANEL, *AT, "--sheet-material", "tinfoil"), ["--sheet-material"]),
    ((*GAS, "--width=100mm", "--height=100mm", "--tube=1/4 in", "--length=9m", *AT), ["--length"]),
    ((*GAS, *PANEL[:4], "--tube", "7/16 in", "--length", "9m", *AT), ["--tube"]),
    (("--refrigerant", "R000", "--room", "25C", *PANEL, *AT, "--gap", "-4mm"), ["--gap"]),
]


@pytest.mark.parametrize(("words", "fields"), FAULTS)
def test_each_fault_names_its_option(words, fields):
    found = run(*words, "--json")
    assert found.exit_code == 2, found.output
    faults = json.loads(found.stdout)["faults"]
    assert set(fields) <= {fault["field"] for fault in faults}
    assert all(fault["message"] for fault in faults)
    assert "Traceback" not in run(*words).output
