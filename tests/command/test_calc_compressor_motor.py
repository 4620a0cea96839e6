"""`coldwright calc compressor` and `calc motor`, typed as a mechanic types them."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from coldwright.cli.app import app
from support import compressor_map as sheet

POINT = (
    "evaporating -23.3C, condensing 54.4C, return gas 32.2C, liquid 32.2C, capacity 115W, "
    "power 100W, current 1.35A"
)
RATED = ("compressor", "--rated", POINT, "--frequency", "60Hz", "--displacement", "3.3 cm3")
LBP = ("--at", "ASHRAE LBP")
EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "compressor_r600a.csv"
HEADER = "evaporating_C,condensing_C,capacity_W,power_W,current_A,mass_flow_kg_per_h"
READ = ("motor", "--voltage", "120V", "--reading", "163W,1.79A")
KEYS = (
    "capacity_W capacity_low_W capacity_high_W power_W current_A mass_flow_kg_per_h "
    "discharge_gas_C misfit_percent notices"
)


def run(*words):
    return CliRunner().invoke(app, ["calc", *words])


def data_of(*words):
    found = run(*words, "--json")
    assert found.exit_code == 0, found.output
    return json.loads(found.stdout)


def codes(data):
    return {notice["code"] for notice in data["notices"]}


@pytest.fixture(scope="module")
def published(tmp_path_factory):
    """The published map as a file, its columns as the sheet has them."""
    path = tmp_path_factory.mktemp("sheet") / "map.csv"
    rows = [",".join(f"{cell:g}" for cell in row) for row in sheet.POINTS]
    path.write_text("\n".join([HEADER, *rows]) + "\n")
    return ("compressor", "--map", str(path), "--refrigerant", "R600a", "--frequency", "60 Hz")


def test_a_published_map_at_a_point_between(published):
    """Between the sheet's 362 W at 35 C and 350 W at 55 C; 177 and 211 W; 1.32 and 1.41 A."""
    data = data_of(
        *published,
        *("--displacement", "13.53cm3", "--evaporating", "-20C", "--condensing", "45C"),
        *("--return-gas", "32.2C", "--liquid", "32.2C", "--voltage", "220V"),
    )
    assert set(KEYS.split()) <= set(data)
    assert data["capacity_W"] == pytest.approx(356.0, rel=0.015)
    assert data["power_W"] == pytest.approx(195.0, rel=0.02)
    assert data["current_A"] == pytest.approx(1.37, rel=0.02)
    assert data["capacity_low_W"] < data["capacity_W"] < data["capacity_high_W"]
    assert 0.0 < data["misfit_percent"] < 3.0
    told = next(each for each in data["notices"] if each["code"] == "ten_coefficients")
    assert "9 of the 10" in told["text"]


def test_without_a_voltage_there_is_no_current(published):
    data = data_of(*published, *LBP)
    assert data["current_A"] is None
    assert "no_voltage" in codes(data)
    assert "--voltage is missing" in run(*published, *LBP).stdout


def test_a_rated_point_comes_back():
    data = data_of(*RATED, *LBP, "--voltage", "115 V")
    assert data["capacity_W"] == pytest.approx(115.0, rel=0.01)
    assert data["power_W"] == pytest.approx(100.0, rel=0.01)
    assert data["current_A"] == pytest.approx(1.35, rel=0.01)
    assert data["conditions"]["ASHRAE LBP"]["capacity_W"] == pytest.approx(data["capacity_W"])


def test_another_condition_by_its_name_is_the_same_as_typed():
    named = data_of(*RATED, "--at", "en 12900 household")
    typed = data_of(
        *RATED,
        *("--evaporating=-25C", "--condensing=131F", "--return-gas=32 °C", "--liquid=55C"),
    )
    assert named["capacity_W"] == pytest.approx(typed["capacity_W"], rel=1e-6)
    # Per volume of suction gas 0.753 of it (computed with CoolProp 8); re-expansion takes more.
    assert 115.0 * 0.70 < named["capacity_W"] < 115.0 * 0.753


def test_another_gas_widens_the_interval_and_warns():
    own, other = data_of(*RATED, *LBP), data_of(*RATED, *LBP, "--as", "r152a", "--oil", "mineral")

    def width(data):
        return (data["capacity_high_W"] - data["capacity_low_W"]) / data["capacity_W"]

    assert width(other) > 1.2 * width(own)
    # Cabello et al. 2015 (abstract): R152a gives -3 to -12 % by displacement.
    assert -0.12 < other["capacity_W"] / own["capacity_W"] - 1.0 < -0.03
    assert {"gas_not_on_the_plate", "flammable_refrigerant", "oil_does_not_suit"} <= codes(other)
    assert not {"gas_not_on_the_plate", "flammable_refrigerant"} & codes(own)


def test_a_gas_that_asks_for_too_much_of_the_motor():
    assert "motor_overload" in codes(data_of(*RATED, *LBP, "--as", "R290"))


def test_a_displacement_that_does_not_go_with_the_capacity():
    words = ("compressor", "--rated", POINT, "--frequency", "60Hz", "--displacement", "7 cm3")
    assert "data_sheet" in codes(data_of(*words, *LBP))
    assert "data_sheet" not in codes(data_of(*RATED, *LBP))


def test_another_frequency_scales_about_with_it():
    slow = data_of(*RATED, *LBP, "--running-frequency", "50Hz")
    fast = data_of(*RATED, *LBP)
    assert slow["capacity_W"] / fast["capacity_W"] == pytest.approx(50 / 60, rel=0.04)
    assert "other_frequency" in codes(slow)


def test_a_class_alone_is_a_wide_guess():
    data = data_of("compressor", "--class", "lbp", "--size", "1/8 hp", *LBP)
    assert data["misfit_percent"] is None
    assert data["capacity_high_W"] > 1.3 * data["capacity_W"]
    assert any("wide guess" in note for note in data["notes"])
    # an uncertain entry adds its own part
    doubt = data_of(
        "compressor", "--class", "LBP", "--size", "1/8 hp", "--evaporating", "-23.3C ± 4K",
        "--condensing", "54.4C",
    )  # fmt: skip
    assert doubt["capacity_high_W"] > data["capacity_high_W"]


def test_a_hotter_room_warms_the_shell():
    cool, warm = (data_of(*RATED, *LBP, "--room", text) for text in ("20C", "43C"))
    assert warm["shell_C"] > cool["shell_C"] + 10.0
    assert warm["capacity_W"] < cool["capacity_W"]


def test_the_example_table_and_its_remarks():
    data = data_of("compressor", "--map", str(EXAMPLE), "--refrigerant", "R600a", *LBP)
    assert data["capacity_W"] == pytest.approx(86.0, rel=0.03)


TABLES = [
    (f"{HEADER}\n-20,45,100,abc,1,1\n", "line 2: --map: column power_W of map.csv must be a"),
    (f"{HEADER}\n\n-20,45,1e9,90,1,1\n", "line 3: --map: column capacity_W of map.csv must be"),
    ("evaporating_C,condensing_C,power_W\n-20,45,90\n", "must have a column capacity_W or"),
    ("evaporating_C,condensing,capacity_W,power_W\n-20,45,9,9\n", "column 'condensing' of map"),
    (f"{HEADER}\n-20,45,100,90\n", "line 2: --map: map.csv must have 6 cells; received 4"),
    (f"# nothing\n{HEADER}\n", "must hold at least one point"),
    (f"{HEADER}\n10,9,100,90,1,1\n", "must be from 15 to 70; received 9"),
    (f"{HEADER}\n-20,45,,90,1,\n", "must give capacity"),
]


@pytest.mark.parametrize(("text", "message"), TABLES, ids=[each[1][-24:] for each in TABLES])
def test_a_faulty_table_names_line_and_column(tmp_path, text, message):
    path = tmp_path / "map.csv"
    path.write_text(text)
    found = run("compressor", "--map", str(path), *LBP)
    assert found.exit_code == 2
    assert message in found.stderr
    assert "nothing was done" in found.stderr


FAULTS = [
    ((*LBP,), "One of --map, --rated and --class must be given"),
    (("--map", "none.csv", *LBP), "file none.csv does not exist"),
    (("--rated", "evap -20C, condensing 45C", *LBP), "'evap -20C' must begin with one of"),
    (("--rated", "evaporating -20C, condensing 45C", *LBP), "must give capacity"),
    (("--rated", "evaporating -20, condensing 45C, capacity 9W", *LBP), "which has no unit"),
    (("--rated", f"{POINT}, power 9W", *LBP), "power stands twice"),
    (("--class", "XBP", *LBP), "--class must be one of LBP, MBP, HBP"),
    (("--class", "LBP", "--size", "9 hp", *LBP), "Compressor class must be one of"),
    (("--class", "LBP", "--at", "ASHRAE XBP"), "Rating condition must be one of"),
    (("--class", "LBP", "--evaporating", "-20C"), "--condensing must be given, or --at"),
    (("--class", "LBP", "--as", "R999", *LBP), "Refrigerant must be one of"),
    (("--class", "LBP", "--oil", "butter", *LBP), "Kind of oil must be one of"),
    (("--class", "LBP", "--displacement", "5 kg", *LBP), "which is a mass"),
    (
        ("--class", "LBP", "--evaporating", "18C", "--condensing", "16C"),
        "--condensing must be above --evaporating",
    ),
    (("--class", "LBP", "--liquid", "60C", *LBP), "--liquid must not be warmer"),
]


@pytest.mark.parametrize(("words", "message"), FAULTS, ids=[each[1][:40] for each in FAULTS])
def test_what_is_entered_wrongly(words, message):
    found = run("compressor", *words)
    assert found.exit_code == 2
    assert message in found.stderr


def test_all_faults_come_together_as_data():
    found = run("compressor", "--class", "XBP", "--as", "R999", "--evaporating", "5", "--json")
    fields = [fault["field"] for fault in json.loads(found.stdout)["faults"]]
    assert {"--class", "--as", "--evaporating", "--condensing"} <= set(fields)


# A 1/8 hp motor at 115 to 120 V: common practice, no source.
def test_amperes_from_watts_and_back():
    data = data_of(*READ, "--power", "155 W")
    assert data["current_A"] == pytest.approx(1.75, rel=0.02)
    assert data["power_factor"] == pytest.approx(155.0 / (120.0 * data["current_A"]))
    back = data_of(*READ, "--current", f"{data['current_A']:.6f} A")
    assert back["power_W"] == pytest.approx(155.0, rel=1e-4)
    same = data_of(*READ, "--current", "1.79A")
    assert same["power_W"] == pytest.approx(163.0, rel=1e-6)


def test_a_reading_at_another_voltage_and_its_doubt():
    data = data_of("motor", "--voltage", "120V", "--reading", "157W, 1.78A, 118V", "--power=155W")
    assert 1.2 < data["magnetising_current_A"] < 1.25
    doubt = data_of(
        "motor", "--voltage", "120V", "--reading", "163W,1.79A ± 3 %", "--power", "155W"
    )
    assert doubt["half_widths"]["current_A"] > 0.02


def test_below_the_magnetising_current_nothing_is_known():
    data = data_of(*READ, "--current", "1.0A")
    assert data["power_W"] == 0.0
    assert "below_magnetising" in codes(data)
    assert "flat_current" in codes(data_of(*READ, "--current", "1.2A"))


def test_a_thin_lead_and_a_small_fuse():
    words = ("--lead", "60 m", "--gauge", "18", "--locked-rotor", "14A", "--fuse", "2A")
    data = data_of(*READ, "--power", "155W", *words)
    assert {"lead_drop", "lead_start_drop", "fuse_rating"} == codes(data)
    assert data["lead_drop_V"] == pytest.approx(data["lead_ohm"] * data["current_A"])
    thick = data_of(*READ, "--power", "155W", "--lead", "40m", "--cross-section", "6 mm2")
    assert not codes(thick)
    assert "electrical codes" in run(*READ, "--power", "155W", *words).stdout


def test_a_battery_machine_by_the_day():
    words = ("motor", "--dc", "--voltage", "12V", "--power", "60W", "--run-fraction", "40%")
    bare, wired = data_of(*words), data_of(*words, "--lead", "4m", "--gauge", "12")
    assert bare["battery_Ah_per_day"] == pytest.approx(0.4 * 24 * 60 / 12)
    more = wired["battery_Ah_per_day"] / bare["battery_Ah_per_day"] - 1.0
    assert more == pytest.approx(wired["lead_loss_W"] / 60.0)
    assert bare["magnetising_current_A"] == 0.0


MOTOR_FAULTS = [
    (("--voltage", "120V", "--power", "155W"), "--reading must be given"),
    (("--voltage", "120V", "--reading", "163W", "--power", "1W"), "must hold watts and amperes"),
    (("--voltage", "120V", "--reading", "163,1.79A", "--power", "9W"), "must hold watts and"),
    (("--voltage", "120V", "--reading", "263W,1.79A", "--power", "9W"), "volts times amperes"),
    (READ[1:], "One of --power and --current must be given"),
    ((*READ[1:], "--power", "90W", "--lead", "5m"), "One of --cross-section and --gauge"),
    ((*READ[1:], "--power", "90W", "--gauge", "14"), "--lead must be given with its wire"),
    ((*READ[1:], "--power", "90W", "--lead", "5m", "--gauge", "99"), "--gauge must be from 0 to"),
    ((*READ[1:], "--power", "90W", "--dc"), "--reading must be left out with --dc"),
    (("--reading", "163W,1.79A", "--power", "9W"), "--voltage must be given"),
]


@pytest.mark.parametrize(("words", "message"), MOTOR_FAULTS, ids=[e[1][:36] for e in MOTOR_FAULTS])
def test_what_is_entered_wrongly_of_a_motor(words, message):
    found = run("motor", *words)
    assert found.exit_code == 2
    assert message in found.stderr
