"""`coldwright calc capillary`, typed as a mechanic types it."""

import json
from itertools import pairwise

import pytest
from typer.testing import CliRunner

from coldwright.cli.app import app
from coldwright.shop.capillary_bores import bores

TUBE = ("R134a", "--bore", "0.66 mm", "--length", "3.0 m")
ENDS = ("--condensing", "45C", "--subcooling", "5K", "--evaporating", "-23C")
JOINED = ("--exchanger-length", "1.2m", "--exchanger-start", "1.6m")


def run(*words):
    return CliRunner().invoke(app, ["calc", "capillary", *words])


def data_of(*words):
    found = run(*words, "--json")
    assert found.exit_code == 0, found.output
    return json.loads(found.stdout)


def faults_of(*words):
    found = run(*words, "--json")
    assert found.exit_code == 2
    return {fault["field"]: fault["message"] for fault in json.loads(found.stdout)["faults"]}


def test_flow_of_a_tube():
    data = data_of(*TUBE, *ENDS)
    wanted = (
        "mass_flow_kg_per_h low_kg_per_h high_kg_per_h choked exit_pressure_Pa flash_position_m "
        "correlation_kg_per_h algebraic_kg_per_h capacity_W exit_quality evaporator_quality sources"
    )
    assert set(wanted.split()) <= set(data)
    flow = data["mass_flow_kg_per_h"]
    # Wolf, Bittle and Pate 1995 at 1.0 and 1.3 MPa: 2.65 and 3.05 kg/h; 45 °C is 1.16 MPa.
    assert 2.65 * 0.95 < flow < 3.05 * 1.05
    assert data["correlation_kg_per_h"] == pytest.approx(flow, rel=0.10)
    assert data["algebraic_kg_per_h"] == pytest.approx(flow, rel=0.15)
    assert data["choked"]
    assert data["exit_pressure_Pa"] > data["evaporating_pressure_Pa"]
    assert 0.0 < data["flash_position_m"] < 3.0
    assert 0.0 < data["exit_quality"] < data["evaporator_quality"]
    # 0.02 mm of 0.66 mm is 3 % of bore and 8 % of flow; 12 % is the model's own.
    assert data["bore_half_width_kg_per_h"] == pytest.approx(0.08 * flow, rel=0.1)
    assert data["model_half_width_kg_per_h"] == pytest.approx(0.12 * flow, rel=1e-3)
    assert data["high_kg_per_h"] - flow == pytest.approx(flow - data["low_kg_per_h"])
    assert data["high_kg_per_h"] - flow == pytest.approx(
        (data["bore_half_width_kg_per_h"] ** 2 + data["model_half_width_kg_per_h"] ** 2) ** 0.5
    )


def test_a_gauged_bore_narrows_the_interval_and_a_gas_by_option_is_the_same():
    stock = data_of(*TUBE, *ENDS)
    gauged = data_of("--refrigerant", "r-134a", *TUBE[1:2], "0.66 mm ± 0.005 mm", *TUBE[3:], *ENDS)
    assert gauged["mass_flow_kg_per_h"] == pytest.approx(stock["mass_flow_kg_per_h"])
    assert gauged["bore_half_width_kg_per_h"] == pytest.approx(
        0.25 * stock["bore_half_width_kg_per_h"], rel=0.02
    )


def test_pressure_before_the_tube_in_place_of_condensing():
    data = data_of(*TUBE, *ENDS)
    kilopascal = data["inlet_pressure_Pa"] / 1e3
    again = data_of(*TUBE, "--inlet-pressure", f"{kilopascal} kPa abs", *ENDS[2:])
    assert again["mass_flow_kg_per_h"] == pytest.approx(data["mass_flow_kg_per_h"], rel=1e-6)


def test_an_exchanger_raises_flow_and_warms_the_gas():
    plain, data = data_of(*TUBE, *ENDS), data_of(*TUBE, *ENDS, *JOINED)
    assert data["adiabatic_kg_per_h"] == pytest.approx(plain["mass_flow_kg_per_h"])
    assert data["mass_flow_kg_per_h"] > plain["mass_flow_kg_per_h"]
    assert 0.0 < data["flow_gain_percent"] < 25.0
    assert -23.0 < data["return_gas_C"] < 40.0
    assert data["evaporator_quality"] < plain["evaporator_quality"]
    assert data["capacity_W"] > plain["capacity_W"]
    wrapped = data_of(*TUBE, *ENDS, *JOINED, "--exchanger-kind", "wrapped")
    inside = data_of(*TUBE, *ENDS, *JOINED, "--exchanger-kind", "Inside")
    assert wrapped["exchanged_W"] < data["exchanged_W"]
    assert wrapped["return_gas_C"] < data["return_gas_C"]
    assert 0.5 < inside["exchanged_W"] / data["exchanged_W"] < 1.2
    warm = data_of(*TUBE, *ENDS, *JOINED, "--return-gas", "0C")
    assert warm["exchanged_W"] < data["exchanged_W"]
    assert warm["return_gas_C"] > data["return_gas_C"]


def test_loops_and_late_flashing():
    flow = data_of(*TUBE, *ENDS)["mass_flow_kg_per_h"]
    wound = data_of(*TUBE, *ENDS, "--coil-diameter", "60mm")["mass_flow_kg_per_h"]
    assert 0.94 < wound / flow < 0.99
    late = data_of(*TUBE, *ENDS, "--late-flashing")
    assert 1.0 < late["mass_flow_kg_per_h"] / flow < 1.06
    assert any("R12" in note for note in late["notes"])


def test_length_of_each_stock_bore():
    data = data_of("R134a", "--flow", "3 kg/h", *ENDS)
    rows = data["bores"]
    assert [row["name"] for row in rows] == [bore.name for bore in bores()]
    assert data["flow_kg_per_h"] == pytest.approx(3.0)
    there = [row for row in rows if row["length_m"] is not None]
    assert all(a["length_m"] < b["length_m"] for a, b in pairwise(there))
    assert all(row["low_m"] < row["length_m"] < row["high_m"] for row in there)
    one = next(row for row in rows if row["name"] == "0.70 mm")
    assert one["usual"]
    again = data_of("R134a", "--bore", "0.70 mm", "--length", f"{one['length_m']} m", *ENDS)
    assert again["mass_flow_kg_per_h"] == pytest.approx(3.0, rel=1e-4)
    assert again["capacity_W"] == pytest.approx(one["capacity_W"], rel=1e-4)
    # 0.02 mm on 0.7 mm is 13 % in length (a published trade chart, read), the model the rest.
    assert one["high_m"] / one["length_m"] > 1.25
    given = data_of("R134a", "--flow", "3 kg/h", "--bore", "0.72 mm ± 0.01 mm", *ENDS)
    assert len(given["bores"]) == len(rows) + 1
    assert "as given" in [row["name"] for row in given["bores"]]


def test_lengths_as_text():
    found = run("R600a", "--flow", "1 kg/h", *ENDS, "--units", "si")
    assert found.exit_code == 0
    assert "0.66 mm" in found.stdout
    assert "wider bores would need more than 15 m" in " ".join(found.stdout.split())
    assert "This refrigerant burns" in " ".join(found.stdout.split())


def test_flow_as_text():
    found = run(*TUBE, *ENDS, *JOINED)
    text = " ".join(found.stdout.split())
    assert found.exit_code == 0
    assert "lb/h" in text
    assert "choked: does not feel the" in text
    assert "gauge the piece in hand" in text


def test_correlation_is_left_out_of_its_range_and_told_where_it_is_stretched():
    words = (*TUBE, "--condensing", "45C", "--evaporating", "-23C")
    far = data_of(*words, "--subcooling", "20K")
    assert far["correlation_kg_per_h"] is None
    assert far["cautions"][0]["code"] == "correlation_range"
    assert "no value is given" in far["cautions"][0]["text"]
    wet = data_of(*words, "--quality", "30 %")
    assert wet["correlation_kg_per_h"] is None
    assert wet["algebraic_kg_per_h"] is None
    assert wet["flash_position_m"] == 0.0
    between = data_of(*words, "--quality", "1 %")
    assert "correlation_bridge" in [each["code"] for each in between["cautions"]]
    butane = data_of("R600a", *TUBE[1:], *ENDS)
    assert "correlation_refrigerant" in [each["code"] for each in butane["cautions"]]
    old = data_of("R12", *TUBE[1:], *ENDS)
    assert any("historic" in note for note in old["notes"])
    assert butane["model_half_width_kg_per_h"] > 0.15 * butane["mass_flow_kg_per_h"]


def test_all_that_is_missing_is_told_at_once():
    faults = faults_of()
    wanted = "REFRIGERANT --length --bore --condensing --subcooling --evaporating"
    assert set(faults) == set(wanted.split())


@pytest.mark.parametrize(
    ("words", "field", "part"),
    [
        ((*TUBE, *ENDS, "--flow", "2 kg/h"), "--length", "only one"),
        ((*TUBE[:1], "--bore", "7 mm", *TUBE[3:], *ENDS), "--bore", "from 0.2 mm to 4 mm"),
        ((*TUBE[:3], "--length", "-3 m", *ENDS), "--length", "received '-3 m'"),
        ((*TUBE, *ENDS[:4], "--evaporating", "43C"), "--evaporating", "colder than what enters"),
        ((*TUBE, *ENDS, "--exchanger-length", "4 m"), "--exchanger-length", "at most --length"),
        ((*TUBE, *ENDS, "--return-gas", "5C"), "--return-gas", "must be left out"),
        ((*TUBE, *ENDS, *JOINED, "--return-gas", "-40C"), "--return-gas", "evaporating temp"),
        ((*TUBE, *ENDS, *JOINED, "--exchanger-kind", "glued"), "--exchanger-kind", "'glued'"),
        ((*TUBE, *ENDS, *JOINED, "--outside-diameter", "2mm"), "--outside-diameter", "left out"),
        (
            (*TUBE, *ENDS, *JOINED, "--exchanger-kind=inside", "--outside-diameter=4mm"),
            "--outside-diameter",
            "70 %",
        ),
        ((*TUBE, *ENDS, "--refrigerant", "R12"), "--refrigerant", "left out"),
        (("R13", *TUBE[1:], *ENDS), "REFRIGERANT", "must be one of"),
        ((*TUBE, *ENDS, "--quality", "5"), "--quality", "from 0 % to 90 %"),
        ((*TUBE, *ENDS, "--units", "imperial"), "--units", "shop or si"),
    ],
)
def test_bad_entries(words, field, part):
    assert part in faults_of(*words)[field]
