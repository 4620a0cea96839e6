"""`coldwright calc surface` and `calc wall`, typed as a mechanic types them."""

import json

import pytest
from typer.testing import CliRunner

from coldwright.cli.app import app
from coldwright.shop.insulation_decline import decline_families, decline_of
from coldwright.shop.materials import material_names
from coldwright.sources import sources

PLATE = ("surface", "--shape", "vertical-plate", "--height", "500mm", "--width", "400mm")
DRUM = ("surface", "--shape", "vertical cylinder", "--diameter", "150mm", "--height", "400 mm")
TUBE = ("surface", "--shape", "horizontal-tube", "--diameter", "10mm", "--length", "4 m")
BOX = ("surface", "--shape", "BOX", "--width", "16 in", "--depth", "5in", "--height", "12 in")
COLD = ("--surface-temperature", "-18C", "--air", "4C")
PAINTED = ("--emissivity", "0.9")
FINS = ("--fins", "12", "--fin-height", "25mm", "--fin-thickness", "1mm", "--fin-material")
CORK = ("wall", "--layer", "oak 22mm", "--layer", "slab cork 75mm", "--inside", "2C")
ROOM = ("--room", "25C", "--humidity", "60%")


def run(*words):
    return CliRunner().invoke(app, ["calc", *words])


def data_of(*words):
    found = run(*words, "--json")
    assert found.exit_code == 0, found.output
    return json.loads(found.stdout)


@pytest.mark.parametrize("shape", [PLATE, DRUM, TUBE, BOX])
def test_each_shape_has_its_figures(shape):
    data = data_of(*shape, *COLD, *PAINTED)
    wanted = (
        "conductance_W_per_K heat_W heat_W_per_m2 convection_W radiation_W film_W_m2K "
        "radiation_film_W_m2K fin_efficiency area_m2 frosted notes sources half_widths"
    )
    assert set(wanted.split()) <= set(data)
    assert "sizes" not in data
    assert data["fin_efficiency"] is None
    assert data["heat_W"] == pytest.approx(data["convection_W"] + data["radiation_W"])
    assert data["heat_W_per_m2"] * data["area_m2"] == pytest.approx(data["heat_W"])
    assert list(data["frosted"]) == ["0.5_mm", "3_mm"]
    assert all("[" in citation for citation in data["sources"])


def test_areas_are_those_of_the_shapes():
    assert data_of(*PLATE, *COLD, *PAINTED)["area_m2"] == pytest.approx(0.4)
    assert data_of(*PLATE, *COLD, *PAINTED, "--faces", "1")["area_m2"] == pytest.approx(0.2)
    assert data_of(*TUBE, *COLD, *PAINTED)["area_m2"] == pytest.approx(0.12566, rel=1e-4)
    side = data_of(*DRUM, *COLD, *PAINTED, "--ends", "none")["area_m2"]
    assert side == pytest.approx(0.18850, rel=1e-4)
    both = data_of(*DRUM, *COLD, *PAINTED)["area_m2"]
    top = data_of(*DRUM, *COLD, *PAINTED, "--ends", "top")["area_m2"]
    assert both - side == pytest.approx(2.0 * (top - side))


def test_one_face_takes_half_of_what_two_take():
    two = data_of(*PLATE, *COLD, *PAINTED)
    one = data_of(*PLATE, *COLD, *PAINTED, "--faces=1")
    assert one["heat_W"] == pytest.approx(0.5 * two["heat_W"], rel=0.005)


def test_a_finish_brings_its_own_doubt():
    data = data_of(*PLATE, *COLD, "--finish", "galvanised")
    assert data["emissivity"] == 0.25
    assert data["half_widths"]["radiation_W"] > 0.3 * data["radiation_W"]
    assert any("Bright metal" in note for note in data["notes"])
    # thin frost makes bright metal dull: it then takes more, not less
    assert data["frosted"]["0.5_mm"]["heat_W"] > 1.2 * data["heat_W"]


def test_fins_on_a_drum():
    bare = data_of(*DRUM, *COLD, *PAINTED)
    data = data_of(*DRUM, *COLD, *PAINTED, *FINS, "copper", "--fin-bond", "soldered")
    assert data["heat_W"] > 1.3 * bare["heat_W"]
    assert data["area_m2"] > 1.8 * bare["area_m2"]
    assert 0.9 < data["fin_efficiency"] < 1.0
    assert data["half_widths"]["fin_efficiency"] > 0.0
    bolted = data_of(*DRUM, *COLD, *PAINTED, *FINS, "copper", "--fin-bond", "bolted")
    assert bolted["fin_efficiency"] < data["fin_efficiency"]
    assert bolted["heat_W"] < data["heat_W"]
    assumed = data_of(*DRUM, *COLD, *PAINTED, "--fins", "12", "--fin-height", "25mm")
    assert sum("assumed" in note for note in assumed["notes"]) == 3


def test_frost_that_fills_the_gaps_is_told():
    data = data_of(*DRUM, *COLD, *PAINTED, "--fins=100", "--fin-height=25mm", "--fin-thickness=1mm")
    assert any("fills the gaps" in note for note in data["notes"])


def test_thin_air_convects_less_and_radiates_the_same():
    low = data_of(*PLATE, *COLD, *PAINTED)
    high = data_of(*PLATE, *COLD, *PAINTED, "--altitude", "2000m")
    assert high["convection_W"] < 0.9 * low["convection_W"]
    assert high["radiation_W"] == pytest.approx(low["radiation_W"])


def test_a_liner_warmer_than_the_air():
    data = data_of(*PLATE, *COLD, *PAINTED, "--liner", "10C")
    assert data["liner_C"] == pytest.approx(10.0)
    assert data["radiation_W"] > 1.2 * data_of(*PLATE, *COLD, *PAINTED)["radiation_W"]


def test_metal_above_freezing_grows_no_frost_and_a_warm_one_gives_heat():
    data = data_of(*PLATE, "--surface-temperature", "45F", "--air", "60F", *PAINTED)
    assert data["frosted"] == {}
    assert any("No frost" in note for note in data["notes"])
    warm = run(*PLATE, "--surface-temperature", "45C", "--air", "25C", *PAINTED)
    assert "out of the metal" in warm.stdout
    still = data_of(*PLATE, "--surface-temperature", "4C", "--air", "4C", *PAINTED)
    assert still["heat_W"] == 0.0


def test_a_wall_as_typed():
    data = data_of(*CORK, *ROOM)
    wanted = "conductance_W_per_K transmittance_W_m2K heat_W outer_skin_C dew_point_C sweats layers"
    assert set(wanted.split()) <= set(data)
    # by hand: 0.26 + 0.022/0.17 + 0.075/0.043 m2K/W
    resistance = 0.26 + 0.022 / 0.17 + 0.075 / 0.043
    assert data["heat_W"] == pytest.approx(23.0 / resistance)
    assert data["outer_skin_C"] == pytest.approx(25.0 - 0.13 * 23.0 / resistance)
    assert data["sweats"] is False
    assert [layer["name"] for layer in data["layers"]] == ["oak", "slab cork"]
    assert list(data["declined"]) == ["aged", "wet"]
    assert any("dew point lies inside the slab cork" in note for note in data["notes"])
    assert data["half_widths"]["heat_W"] > 0.1 * data["heat_W"]


@pytest.mark.parametrize(
    "layer",
    [
        "cork=0.045 W/(m K) 60mm",
        "cork = 0.045 W/(m K) 60 mm",
        "cork=45 mW/(m K) 6 cm",
        "60mm cork=0.045 W/(m K)",
        "cork=0.31201 Btu in/(h ft2 °F) 2.3622 in",
    ],
)
def test_a_layer_by_its_own_conductivity(layer):
    (row,) = data_of("wall", "--layer", layer, "--inside=2C", *ROOM)["layers"]
    assert row["name"] == "cork"
    assert row["conductivity_W_mK"] == pytest.approx(0.045, rel=1e-4)
    assert row["thickness_m"] == pytest.approx(0.06, rel=1e-4)
    assert row["source"] == "as given"


def test_layers_in_inches_with_their_doubt_and_gaps():
    data = data_of(
        "wall",
        *("--layer", "oak 7/8 in"),
        *("--layer", "still air gap 20mm"),
        *("--layer", "slab cork 3 in ± 1/4 in"),
        *("--inside", "35F", "--room", "77F"),
    )
    oak, gap, cork = data["layers"]
    assert oak["thickness_m"] == pytest.approx(0.022225)
    assert gap["resistance_m2K_per_W"] == pytest.approx(0.175)
    assert cork["thickness_m"] == pytest.approx(0.0762)
    assert data["half_widths"]["heat_W"] > 0.0
    assert data["dew_point_C"] is data["sweats"] is None
    assert 80.0 < data["sweats_above_percent"] < 100.0


def test_a_whole_box_has_edges():
    sides = ("--width", "500mm", "--height", "900mm", "--depth", "450mm")
    box = data_of(*CORK, *ROOM, *sides)
    flat = data_of(*CORK, *ROOM, "--area", "2.16 m2")
    assert box["area_m2"] == pytest.approx(2.16) == pytest.approx(flat["area_m2"])
    assert 1.1 < box["heat_W"] / flat["heat_W"] < 1.6
    assert box["coldest_skin_C"] <= box["outer_skin_C"]
    assert "coldest face" in run(*CORK, *ROOM, *sides).stdout


def test_a_wall_that_sweats_says_so():
    words = ("wall", "--layer", "pine 10mm", "--inside=2C", "--room=25C", "--humidity=85%")
    assert data_of(*words)["sweats"] is True
    assert "it sweats" in run(*words).stdout


def test_metal_alone_does_not_age():
    data = data_of("wall", "--layer", "enamelled steel 1mm", "--inside=2C", *ROOM)
    assert data["declined"] == {}


@pytest.mark.parametrize("units", ["shop", "si"])
@pytest.mark.parametrize(
    "words",
    [
        (*PLATE, *COLD, *PAINTED),
        (*DRUM, *COLD, "--finish", "painted", *FINS, "copper", "--fin-bond", "bonded"),
        (*TUBE, *COLD, *PAINTED),
        (*CORK, *ROOM),
    ],
)
def test_text_ends_with_its_sources_in_either_system(words, units):
    found = run(*words, "--units", units)
    assert found.exit_code == 0, found.output
    lines = found.stdout.rstrip().splitlines()
    first = next(i for i, line in enumerate(lines) if line.startswith("  Source: "))
    assert all(line.startswith("  ") for line in lines[first:])
    text = "".join(lines[:first])
    mark = {"shop": ("Btu/h", "°F"), "si": (" W ", "°C")}[units]
    assert all(each in text for each in mark)
    assert "nan" not in text


FAULTS = [
    (("surface",), ["--shape", "--emissivity", "--surface-temperature", "--air"]),
    ((*PLATE, *COLD), ["--emissivity"]),
    ((*PLATE, *COLD, *PAINTED, "--finish", "painted"), ["--emissivity"]),
    ((*PLATE, *COLD, "--finish", "galvanized"), ["--finish"]),
    ((*PLATE, *COLD, "--emissivity", "0"), ["--emissivity"]),
    ((*PLATE, *COLD, *PAINTED, "--depth", "1cm", "--faces", "3"), ["--depth", "--faces"]),
    ((*PLATE, *COLD, *PAINTED, "--ends", "top"), ["--ends"]),
    (("surface", "--shape", "sphere", "--height", "5", *COLD, *PAINTED), ["--shape", "--height"]),
    (("surface", "--shape", "box", *COLD, *PAINTED), ["--width", "--depth", "--height"]),
    ((*TUBE, *COLD, *PAINTED, "--fins", "12"), ["--fins"]),
    ((*DRUM, *COLD, *PAINTED, "--fin-height", "25mm"), ["--fins"]),
    ((*DRUM, *COLD, *PAINTED, "--fins", "12.5"), ["--fins", "--fin-height"]),
    (
        (*DRUM, *COLD, *PAINTED, *FINS, "cupper", "--fin-bond", "glued", "--fin-length", "50cm"),
        ["--fin-material", "--fin-bond", "--fin-length"],
    ),
    ((*DRUM, *COLD, *PAINTED, "--fins=600", "--fin-height=9mm", "--fin-thickness=1mm"), ["--fins"]),
    ((*PLATE, "--surface-temperature=-90C", "--air=4", *PAINTED), ["--surface-temperature"]),
    (("wall",), ["--layer", "--inside", "--room"]),
    (("wall", "--layer", "oak", "--layer", "corc 5cm", *CORK[5:], *ROOM), ["--layer", "--layer"]),
    (("wall", "--layer", "cork=0.045 60mm", *CORK[5:], *ROOM), ["--layer"]),
    (("wall", "--layer", "still air gap 400mm", *CORK[5:], *ROOM), ["--layer"]),
    ((*CORK, *ROOM, "--width", "50cm", "--area", "1m2"), ["--area", "--height", "--depth"]),
    ((*CORK, "--room", "25", "--humidity", "160%"), ["--room", "--humidity"]),
    ((*CORK, *ROOM, "--units", "metric"), ["--units"]),
]


@pytest.mark.parametrize(("words", "fields"), FAULTS)
def test_each_fault_names_its_field(words, fields):
    found = run(*words, "--json")
    assert found.exit_code == 2, found.output
    faults = json.loads(found.stdout)["faults"]
    named = [fault["field"] for fault in faults]
    assert set(fields) <= set(named)
    assert len(named) >= len(fields)
    for fault in faults:
        assert "must be" in fault["message"]


@pytest.mark.parametrize(("words", "fields"), FAULTS)
def test_text_is_one_line_a_fault(words, fields):
    found = run(*words)
    assert found.exit_code == 2
    assert found.stdout == ""
    lines = found.stderr.splitlines()
    assert "Traceback" not in found.stderr
    assert lines[-1].startswith(f"{len(lines) - 1} fault")


def test_every_insulation_has_a_family_and_every_family_a_source():
    for name in material_names("insulation"):
        if name not in ("still air gap",):
            assert decline_of(name) is not None, name
    for name in material_names("metal"):
        assert decline_of(name) is None, name
    for family in decline_families():
        assert family.source in sources()
        assert 1.0 <= family.aged <= family.wet
    aged = decline_of("aged polyurethane foam")
    assert aged is not None
    assert aged.factor("aged") == (1.0, 0.0)


WALL = ("wall", "--inside", "2C", "--room", "25C")


@pytest.mark.parametrize("state", ["aged", "wet"])
def test_a_layer_in_its_state_is_the_declined_wall(state):
    # alone in its wall, the layer that is said to be wet is what the wet wall of the dry one is
    plain = data_of(*WALL, "--layer", "slab cork 75mm")
    said = data_of(*WALL, "--layer", f"slab cork 75mm, {state}")
    assert said["heat_W"] == pytest.approx(plain["declined"][state]["heat_W"])
    assert said["half_widths"]["heat_W"] > plain["half_widths"]["heat_W"]
    assert said["declined"] == {}
    assert said["layers"][0]["source"].endswith(state)


def test_foil_in_a_gap_keeps_heat_out():
    dull, bright = (
        data_of(*WALL, "--layer", "oak 22mm", "--layer", f"still air gap 20mm{facing}")
        for facing in ("", ", bright foil")
    )
    assert bright["heat_W"] < 0.7 * dull["heat_W"]


@pytest.mark.parametrize(
    ("layer", "words"),
    [
        ("copper 2mm, wet", "State 'wet' must be left out for copper"),
        ("cork=0.04 W/(m K) 60mm, aged", "what is stated is of the layer as it is"),
        ("slab cork 20mm, bright foil", "Facing 'bright foil' must be of a still air gap"),
    ],
)
def test_a_state_that_does_not_fit_is_refused(layer, words):
    answer = run(*WALL, "--layer", layer)
    assert answer.exit_code == 2
    assert words in answer.output
    assert "Traceback" not in answer.output
