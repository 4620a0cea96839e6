"""`assess` on a cabinet as a maker finds it: old cork, a hard seal, an open drain, moist goods."""

from __future__ import annotations

import json

import pytest
from typer.testing import CliRunner

from coldwright.cli.app import app
from coldwright.verdict import report
from support.assessed import assessed, changed

QUICK = ('fill = "find"', 'fill = "36 g"')
FOUND = (
    (
        "[cabinet.air_path]\n",
        '[cabinet.gasket]\nkind = "old hardened"\n\n'
        '[cabinet.drain]\ndiameter = "20 mm"\n\n[cabinet.air_path]\nshelf_blocked = "60 %"\n',
    ),
    (
        'material = "aged polyurethane foam"',
        'material = "aged polyurethane foam"\ncondition = "wet"',
    ),
    ("[cabinet.contents]\n", '[cabinet.contents]\nproduct = "carrots"\n'),
    ("[cold_side]\n", '[cold_side]\nfrost = "2 mm"\n'),
)


def call(*arguments: str):
    return CliRunner().invoke(app, ["assess", *arguments])


@pytest.fixture(scope="module")
def files(tmp_path_factory):
    folder = tmp_path_factory.mktemp("cabinet")
    for name, changes in (("sound", ()), ("found", FOUND)):
        (folder / f"{name}.toml").write_text(changed("galley", QUICK, *changes), encoding="utf-8")
    return {name: str(folder / f"{name}.toml") for name in ("sound", "found")}


@pytest.fixture(scope="module")
def data(files):
    return {name: json.loads(call(path, "--json").stdout) for name, path in files.items()}


@pytest.fixture(scope="module")
def text(files):
    return call(files["found"]).stdout


def test_each_fault_of_the_cabinet_shows_in_its_own_way(data):
    sound, found = (data[name]["cabinet"]["gain_by_way_W"] for name in ("sound", "found"))
    assert sound["drain"] == 0.0
    assert found["drain"] > 0.1
    assert found["gasket"] > sound["gasket"]
    assert found["face front"] > 1.3 * sound["face front"]
    # what the ways bring is what the cold side takes
    total = sum(found.values())
    assert total == pytest.approx(data["found"]["cabinet"]["heat_gain_W"], rel=1e-6)


def test_what_is_not_known_well_widens_the_interval(data):
    sound, found = (
        data[name]["cycling"]["run_fraction_half_width"] / data[name]["cycling"]["run_fraction"]
        for name in ("sound", "found")
    )
    assert found > 1.1 * sound


def test_moist_goods_moisten_the_air(data):
    humid = data["found"]["cabinet"]["relative_humidity"]
    assert humid > data["sound"]["cabinet"]["relative_humidity"] + 0.05


def test_the_air_way_is_told_with_its_changes(data):
    way = data["found"]["air_way"]
    assert way["flow_m3_per_h"] == pytest.approx(
        data["found"]["cabinet"]["air_flow_m3_per_h"], rel=1e-3
    )
    assert way["if_half_blocked_flow_m3_per_h"] < way["flow_m3_per_h"]
    assert way["if_half_blocked_warmest_shelf_C"] > way["warmest_shelf_C"]
    assert way["with_duct_flow_m3_per_h"] is None  # one space


def test_frost_is_told_below_freezing(data):
    frost = data["found"]["frost"]
    assert data["found"]["cabinet"]["cold_surface_C"] < 0.0
    assert frost["g_per_day"] == pytest.approx(data["found"]["cabinet"]["frost_g_per_day"])
    assert frost["density_kg_per_m3"] >= 100.0
    assert frost["growth_mm_per_day"] > 0.5
    # the galley's bare tube grows thicker with its frost, and gives the more for it
    assert frost["days_until_surface_loses_10_percent"] is None


def test_frost_on_a_drum_costs_after_some_days():
    frost = report(assessed("larder"))["frost"]
    days = frost["thickness_at_that_mm"] / frost["growth_mm_per_day"]
    assert frost["days_until_surface_loses_10_percent"] == pytest.approx(days)
    assert 0.2 < days < 5.0


def test_the_screen_says_what_to_mend(text):
    plain = " ".join(text.split())
    assert "put a trap in the drain" in plain
    assert "frost grows" in plain
    assert "half of what is free on each shelf closed by goods" in plain
    assert "seal 'old hardened'" in plain
    assert "transpiration of carrots" in plain
    for odd in ("nan", "inf ", "None"):
        assert odd not in text.split("\nAssumed,")[0]


@pytest.mark.parametrize("way", ["drain", "face bottom", "gasket", "latent"])
def test_each_way_of_heat_is_explained(files, data, way):
    path = f"cabinet.gain_by_way_W.{way}"
    shown = call(files["found"], "--explain", path, "--json")
    assert shown.exit_code in (0, 1)
    answer = json.loads(shown.stdout)
    assert answer["value"] == pytest.approx(data["found"]["cabinet"]["gain_by_way_W"][way])
    assert answer["formula"]


def test_a_duct_of_a_single_space_is_refused(tmp_path):
    path = tmp_path / "box.toml"
    more = ("[cabinet.air_path]\n", '[cabinet.air_path]\nduct_height = "10 cm"\n')
    path.write_text(changed("galley", QUICK, more), encoding="utf-8")
    answer = call(str(path))
    assert answer.exit_code == 2
    assert "kind 'single'" in " ".join(answer.output.split())
