"""The drawings: true to scale, whole within the sheet, no text over another, named and linked."""

from __future__ import annotations

import math
import re
from itertools import pairwise

import pytest

from coldwright.sheet.drawing import PARTS, describe_drawing, section_drawing
from coldwright.sheet.drawing.cabinet_parts import goods
from coldwright.sheet.drawing.colours import (
    Palette,
    paint_properties,
    temperature_declarations,
    temperature_properties,
)
from coldwright.sheet.drawing.geometry import geometry_of
from coldwright.sheet.drawing.hatches import hatch_definitions, hatch_kind
from coldwright.sheet.drawing.plan_cold import fin_gap
from coldwright.sheet.drawing.standalone import standalone
from coldwright.shop.materials import material_names
from support.drawn import BUILDS, DRAW, STARTERS, SYSTEMS, bent, made_up, picture, real_figures
from support.pictures import SVG

REVISED = (
    *((name, None) for name in BUILDS),
    ("cheese", "soldered plate"),
    ("galley", "thicker lid"),
    ("larder", "fins"),
    ("larder", "longer capillary"),
)
SIDES = ("width", "height", "depth")
FINS = {
    "cold_side.fins.height": "30 mm",
    "cold_side.fins.length": "0.38 m",
    "cold_side.fins.thickness": "1 mm",
    "cold_side.fins.material": "copper",
    "cold_side.fins.attachment": "soldered",
}
# Odd sizes: what is changed of which starter.
ODD = {
    "tiny": ("galley", {f"cabinet.inside_{side}": "0.2 m" for side in SIDES}),
    "large": ("cheese", {f"cabinet.inside_{side}": "2 m" for side in SIDES}),
    "deep": ("cheese", {"cabinet.inside_depth": "2 m"}),
    "wide": ("galley", {"cabinet.inside_width": "2 m"}),
    "thick": ("cheese", {"cabinet.layers[2].thickness": "400 mm"}),
    "40 fins": ("larder", {"cold_side.fins.count": 40, **FINS}),
    "60 runs": ("cheese", {"condenser.tube.length": "30.5 m"}),
    "wire": (
        "cheese",
        {
            "condenser.kind": "wire",
            "condenser.bond": "",
            "condenser.wires.diameter": "1.5 mm",
            "condenser.wires.pitch": "6 mm",
        },
    ),
    "bare": (
        "larder",
        {"condenser.kind": "bare", "condenser.bond": "", "condenser.sheet_thickness": ""},
    ),
    "wall behind": ("larder", {"condenser.wall_behind": "80 mm"}),
    "duct": ("larder", {"cabinet.air_path.duct_height": "0.3 m"}),
    "blocked": ("cheese", {"cabinet.air_path.shelf_blocked": "40 %"}),
    "20 shelves": ("larder", {"cabinet.air_path.shelves": 20}),
    "no shelf": ("galley", {"cabinet.air_path.shelves": 0}),
    "heavy": ("cheese", {"cabinet.contents.mass": "400 kg"}),
    "empty": ("cheese", {"cabinet.contents.mass": "0 kg"}),
    "half immersed": ("larder", {"cold_side.vessel.immersed_fraction": "50 %"}),
    "filler": ("larder", {"cold_side.vessel.filler_volume": "6 L"}),
    "insulated": ("larder", {"suction_line.insulation": "9 mm"}),
    "own shell": (
        "larder",
        {"compressor.shell_diameter": "17 cm", "compressor.shell_height": "21 cm"},
    ),
}  # fmt: skip


def odd(label):
    name, changes = ODD[label]
    return bent(name, changes)


def ratio(sides):
    return sides[0] / sides[1]


@pytest.fixture(scope="module", params=REVISED, ids=lambda each: f"{each[0]}-{each[1]}")
def revised(request):
    name, revision = request.param
    return bent(name, revision=revision)


def scale_of(drawn, build):
    """Pixels a metre, by the inside depth."""
    return drawn.sides("inside")[0] / build.cabinet.inside_depth.value


def test_the_section_has_one_scale_for_cabinet_cold_side_and_condenser(revised):
    build, drawn = revised, picture("section", revised)
    scale = scale_of(drawn, build)
    assert drawn.sides("inside")[1] == pytest.approx(
        scale * build.cabinet.inside_height.value, abs=0.02
    )
    sheet = drawn.sides("sheet")
    assert sheet[1] == pytest.approx(scale * build.condenser.sheet_height.value, abs=0.02)
    cold = build.cold_side
    if cold.vessel is not None:
        across = cold.vessel.diameter or cold.vessel.depth
        assert drawn.sides("vessel") == pytest.approx(
            (scale * across.value, scale * cold.vessel.height.value), abs=0.02
        )
    elif cold.plate is not None:
        assert drawn.sides("plate")[1] == pytest.approx(scale * cold.plate.height.value, abs=0.02)
    if cold.fins is not None:
        for fin in drawn.marked("fin"):
            assert float(fin.get("width")) == pytest.approx(
                scale * cold.fins.height.value, abs=0.02
            )
            assert float(fin.get("height")) == pytest.approx(
                scale * cold.fins.length.value, abs=0.02
            )


def test_every_layer_of_every_wall_has_its_own_thickness(revised):
    drawn = picture("section", revised)
    scale = scale_of(drawn, revised)
    bands = [each for each in drawn.painted if each.get("data-layer")]
    drawn_layers = 0
    for face in ("top", "bottom", "front", "back"):
        across = 1 if face in ("top", "bottom") else 0
        own = [each for each in bands if each.get("data-layer").startswith(f"{face}: ")]
        layers = revised.cabinet.layers_of(face)
        assert [each.get("data-layer") for each in own] == [
            f"{face}: {layer.material}" for layer in layers
        ]
        for band, layer in zip(own, layers, strict=True):
            places = [float(pair.split(",")[across]) for pair in band.get("points").split()]
            assert max(places) - min(places) == pytest.approx(
                scale * layer.thickness.value, abs=0.021
            )
            drawn_layers += 1
    assert drawn_layers == len(bands)


def test_the_condenser_hangs_at_its_gap_with_its_runs_at_their_pitch(revised):
    drawn = picture("section", revised)
    scale = scale_of(drawn, revised)
    tube = revised.condenser.tube
    runs = [each for each in drawn.marked("run") if part_of(drawn, each) == "condenser"]
    levels = [float(each.get("cy")) for each in runs]
    steps = {round(low - high, 1) for high, low in pairwise(levels)}
    assert all(step == pytest.approx(scale * tube.pitch.value, abs=0.06) for step in steps)
    # All of the tube is drawn: straight runs and half-round bends.
    runs_drawn = geometry_of(revised).condenser.runs
    assert len(runs) == runs_drawn.count
    bends = (len(runs) - 1) * math.pi / 2 * tube.pitch.value
    assert runs_drawn.count * runs_drawn.straight + bends == pytest.approx(tube.length.value)
    (sheet,) = drawn.marked("sheet")
    (inside,) = drawn.marked("inside")
    back = float(inside.get("x")) + float(inside.get("width"))
    back += scale * sum(layer.thickness.value for layer in revised.cabinet.layers_of("back"))
    gap = float(sheet.get("x")) - back
    assert gap == pytest.approx(scale * revised.condenser.gap.value, abs=0.05)


def part_of(drawn, wanted):
    for group in drawn.root.iter():
        if group.get("data-part") and wanted in list(group.iter()):
            return group.get("data-part")
    return None


@pytest.mark.parametrize("what", ["front", "back"])
def test_front_and_back_are_true_to_the_outside(revised, what):
    drawn = picture(what, revised)
    geometry = geometry_of(revised)
    wide, high = drawn.sides("outside")
    assert wide / high == pytest.approx(geometry.outside_width / geometry.outside.height, rel=1e-4)
    scale = wide / geometry.outside_width
    if what == "back":
        section = revised.condenser
        assert drawn.sides("sheet") == pytest.approx(
            (scale * section.sheet_width.value, scale * section.sheet_height.value), abs=0.02
        )
    else:
        cabinet = revised.cabinet
        assert drawn.sides("inside") == pytest.approx(
            (scale * cabinet.inside_width.value, scale * cabinet.inside_height.value), abs=0.02
        )


def test_the_plan_is_true_to_width_and_depth_and_shows_every_fin(revised):
    drawn = picture("plan", revised)
    cabinet = revised.cabinet
    wide, deep = drawn.sides("inside")
    scale = wide / cabinet.inside_width.value
    assert deep == pytest.approx(scale * cabinet.inside_depth.value, abs=0.02)
    for face in ("left", "right", "front", "back"):
        across = 0 if face in ("left", "right") else 1
        own = [e for e in drawn.painted if (e.get("data-layer") or "").startswith(f"{face}: ")]
        for band, layer in zip(own, cabinet.layers_of(face), strict=True):
            places = [float(pair.split(",")[across]) for pair in band.get("points").split()]
            assert max(places) - min(places) == pytest.approx(
                scale * layer.thickness.value, abs=0.021
            )
    fins = revised.cold_side.fins
    lengths = [
        math.hypot(float(e.get("x2")) - float(e.get("x1")), float(e.get("y2")) - float(e.get("y1")))
        for e in drawn.marked("fin")
    ]
    assert len(lengths) == (0 if fins is None else fins.count.value)
    for length in lengths:
        assert length == pytest.approx(scale * fins.height.value, abs=0.03)


def test_the_gap_between_fins_is_that_of_their_pitch():
    # 24 fins of 1 mm, 50 mm out from a drum of 250 mm: pi (250 + 50) / 24 less 1 mm.
    found = fin_gap(geometry_of(bent("larder", revision="fins")))
    assert found == (24, pytest.approx((math.pi * 300.0 / 24 - 1.0) / 1e3))
    assert fin_gap(geometry_of(bent("larder"))) is None


def test_the_back_shows_all_of_the_condensers_tube():
    build = bent("larder")
    drawn = picture("back", build)
    scale = drawn.sides("outside")[0] / geometry_of(build).outside_width
    (tube,) = drawn.marked("tube")
    pairs = [each.split(",") for each in re.findall(r"-?[\d.]+,-?[\d.]+", tube.get("d"))]
    points = [(float(x), float(y)) for x, y in pairs]
    length = sum(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5 for a, b in pairwise(points))
    # Half-rounds are drawn as six chords: 1 % short of the arc.
    assert length / scale == pytest.approx(build.condenser.tube.length.value, rel=3e-3)


def test_a_deeper_taller_thicker_box_looks_it():
    plain = picture("section", bent("cheese"))
    deep = picture("section", bent("cheese", {"cabinet.inside_depth": "0.8 m"}))
    assert ratio(deep.sides("inside")) == pytest.approx(
        2.0 * ratio(plain.sides("inside")), rel=1e-3
    )
    tall = picture("section", bent("cheese", {"cabinet.inside_height": "1.8 m"}))
    assert ratio(tall.sides("inside")) == pytest.approx(
        ratio(plain.sides("inside")) / 1.5, rel=1e-3
    )
    thick = bent("cheese", {"cabinet.layers[2].thickness": "120 mm"})
    assert geometry_of(thick).thickness("back") == pytest.approx(0.148)
    inside, outer = geometry_of(thick).inside, geometry_of(thick).outside
    assert outer.width - inside.width == pytest.approx(2 * 0.148)


def test_fins_appear_with_their_number():
    bare, finned = bent("larder"), bent("larder", revision="fins")
    assert not picture("section", bare).marked("fin")
    assert len(picture("section", finned).marked("fin")) == 2
    # 24 round a drum: 13 tips on the near half, both edges included.
    assert len(picture("front", finned).marked("fin")) == 13


def test_the_brine_stands_at_its_level_and_covers_the_immersed_share_of_the_coil():
    build = bent("larder", {"cold_side.vessel.immersed_fraction": "50 %"})
    size = geometry_of(build).cold.size
    vessel = build.cold_side.vessel
    inside = vessel.height.value - 2.0 * vessel.wall_thickness.value
    assert size.level == pytest.approx(inside - vessel.headspace.value)
    wet = sum(height < size.level for height in size.coil)
    assert wet / len(size.coil) == pytest.approx(0.5, abs=0.03)
    assert len(size.coil) == round(14.0 / (math.pi * 0.19))
    assert len(picture("section", build).marked("turn")) == 2 * len(size.coil)


def test_ice_grows_with_the_state_of_charge():
    widths = []
    for charge in ("0 %", "20 %", "60 %"):
        drawn = picture("section", bent("holdover", {"cold_side.holdover.state_of_charge": charge}))
        ice = drawn.marked("ice")
        widths.append(sum(float(each.get("width", 0.0)) for each in ice))
    assert widths[0] == 0.0
    assert widths[0] < widths[1] < widths[2]


@pytest.mark.parametrize("label", ["heavy", "20 shelves", "large", "no shelf"])
def test_goods_take_their_room_by_their_mass(label):
    build = odd(label)
    cabinet, boxes = build.cabinet, goods(geometry_of(build))
    section = sum(box.width * box.height for box in boxes)
    volume = section * 0.9 * cabinet.inside_width.value
    held = cabinet.contents.mass.value / 1000.0  # m3, goods of water's density
    # What does not go on the shelves of a crammed box is left out, never drawn over them.
    assert volume <= held * (1.0 + 1e-9)
    assert volume == pytest.approx(held) or label == "heavy"
    levels = geometry_of(build).shelves.levels
    for box in boxes:
        assert any(box.bottom == pytest.approx(level) for level in levels)


def test_a_shell_of_stated_size_is_drawn_so_and_a_guessed_one_dashed():
    stated = geometry_of(odd("own shell")).compressor
    assert (stated.shell.width, stated.shell.height) == pytest.approx((0.17, 0.21))
    assert not stated.size_assumed
    (shell,) = picture("section", odd("own shell")).marked("shell")
    assert shell.get("stroke-dasharray") is None
    (guess,) = picture("section", bent("larder")).marked("shell")
    assert guess.get("stroke-dasharray")


def test_the_compressor_stands_where_it_warms():
    assert geometry_of(bent("larder")).compressor.place == "under"
    assert geometry_of(bent("cheese")).compressor.place == "behind"
    assert geometry_of(bent("galley")).compressor.place == "beyond"  # no room below its sheet


@pytest.mark.parametrize("compact", [False, True], ids=["usual", "compact"])
@pytest.mark.parametrize("what", DRAW)
@pytest.mark.parametrize("units", SYSTEMS)
def test_no_text_lies_over_another_and_all_is_on_the_sheet(revised, what, units, compact):
    for figures in (None, made_up(), made_up(31.0, "running")):
        drawn = picture(what, revised, figures, units=units, compact=compact)
        assert drawn.clashes == []
        assert drawn.strays == []
        assert drawn.size[0] == (360.0 if compact else 760.0)
        sizes = [float(e.get("font-size")) for e in drawn.painted if e.tag == f"{SVG}text"]
        assert min(sizes) >= 11.0


@pytest.mark.parametrize("label", ODD)
@pytest.mark.parametrize("what", DRAW)
def test_odd_sizes_are_drawn_whole(label, what):
    build = odd(label)
    for compact in (False, True):
        drawn = picture(what, build, made_up(), compact=compact)
        assert drawn.clashes == []
        assert drawn.strays == []


def test_60_runs_and_40_fins_are_all_there():
    build = odd("60 runs")
    drawn = picture("section", build)
    runs = [e for e in drawn.marked("run") if part_of(drawn, e) == "condenser"]
    assert len(runs) == geometry_of(build).condenser.runs.count == 60
    assert geometry_of(odd("40 fins")).cold.size.fins == 40


@pytest.mark.parametrize("name", STARTERS)
def test_every_part_is_a_named_link_or_a_named_group(name):
    build = bent(name)
    linked = picture("section", build, link=lambda part: f"/box?a=1&part={part}#x")
    anchors = list(linked.root.iter(f"{SVG}a"))
    assert [each.get("data-part") for each in anchors] == list(PARTS)
    for anchor in anchors:
        assert anchor.get("href") == f"/box?a=1&part={anchor.get('data-part')}#x"
        assert anchor.get("aria-label") == anchor[0].text
        assert anchor[0].tag == f"{SVG}title"
    plain = picture("section", build)
    assert not list(plain.root.iter(f"{SVG}a"))
    assert [e.get("data-part") for e in plain.root.iter() if e.get("data-part")] == list(PARTS)
    for what in ("front", "back"):
        parts = [e.get("data-part") for e in picture(what, build).root.iter()]
        assert {part for part in parts if part} <= set(PARTS)


def test_names_are_escaped_and_forbidden_characters_left_out():
    build = bent("cheese", {"name": "A <b> & \"c\" 'd' \u0007", "targets.use": "1 < 2 & ]]>"})
    for what in DRAW:
        drawn = picture(what, build, made_up())
        assert drawn.root[0].text.startswith("A <b> & \"c\" 'd'")
        assert any("1 < 2 & ]]>" in (e.text or "") for e in drawn.root.iter())


def test_assumed_sizes_look_assumed():
    drawn = picture("section", bent("larder"))
    groups = {e.get("data-part"): e for e in drawn.root.iter() if e.get("data-part")}
    (shelf, *_) = [e for e in groups["shelves"] if e.tag == f"{SVG}line"]
    assert shelf.get("stroke-dasharray")
    stated = picture("section", bent("larder", {"cabinet.air_path.shelves": 3}))
    groups = {e.get("data-part"): e for e in stated.root.iter() if e.get("data-part")}
    (shelf, *_) = [e for e in groups["shelves"] if e.tag == f"{SVG}line"]
    assert shelf.get("stroke-dasharray") is None


@pytest.mark.parametrize("units", SYSTEMS)
def test_a_real_assessment_is_written_out(units):
    figures = real_figures("cheese")
    drawn = picture("section", bent("cheese"), figures, units=units)
    texts = [area.what for area in drawn.texts]
    degree = "°F" if units == "shop" else "°C"
    assert sum(degree in text for text in texts) >= 8
    assert any("psig" in text or "kPa" in text for text in texts)
    assert any("W ·" in text for text in texts)
    assert not [text for text in texts if "not known" in text or "None" in text or "nan" in text]
    assert drawn.clashes == []


def test_words_say_the_same_as_the_picture():
    build, figures = bent("larder"), made_up()
    words = describe_drawing(build, figures, "si")
    assert "\n" not in words
    assert "inside 700 mm wide, 1150 mm high and 500 mm deep" in words
    assert "outside 846 mm, 1296 mm and 646 mm" in words
    assert "21 runs at 51 mm, 45 mm behind the back" in words
    assert "the stored air has 4.0 °C in the mean" in words
    assert "Nothing is worked out yet." in describe_drawing(build, None, "si")
    drawn = picture("section", build, figures)
    assert drawn.root[1].text == words


def test_a_box_without_a_balance_shows_its_sizes_and_the_reason():
    figures = made_up()
    figures["running"] = {"reason": "the low side is pumped empty", "residual": 0.2}
    figures["cycling"] = {"run_fraction": None, "while_on": figures["running"]}
    for what in DRAW:
        drawn = picture(what, bent("larder"), figures)
        assert any("the low side is pumped empty" in area.what for area in drawn.texts)
        assert drawn.clashes == []
    words = describe_drawing(bent("larder"), figures, "si")
    assert words.endswith("There is no balance to show: the low side is pumped empty.")


def test_a_dark_sheet_changes_the_fallbacks_alone():
    build = bent("cheese")
    light, dark = (
        section_drawing(build, made_up(), units="si", dark=dark) for dark in (False, True)
    )
    assert light != dark
    plain = [re.sub(r"#[0-9a-f]{6}", "#", svg) for svg in (light, dark)]
    plain[1] = plain[1].replace("section-dark-", "section-")
    assert plain[0] == plain[1]
    assert "var(" not in standalone(light)


def test_no_name_within_a_drawing_is_also_in_another():
    names = [
        e.get("id")
        for what in DRAW
        for compact in (False, True)
        for dark in (False, True)
        for e in picture(what, bent("larder"), made_up(), compact=compact, dark=dark).root.iter()
        if e.get("id")
    ]
    assert len(names) > 20
    assert len(names) == len(set(names))


def test_what_a_shape_is_filled_with_is_there():
    for what in DRAW:
        root = picture(what, bent("larder"), made_up(), compact=True).root
        names = {e.get("id") for e in root.iter()}
        used = {e.get("fill")[5:-1] for e in root.iter() if (e.get("fill") or "").startswith("url")}
        assert used
        assert used <= names


def test_the_same_build_is_drawn_the_same():
    build = bent("galley")
    assert len({section_drawing(build, made_up(), units="shop") for _ in range(2)}) == 1


def test_every_material_of_the_shop_has_a_hatch_and_kinds_differ():
    kinds = {name: hatch_kind(name) for name in material_names()}
    assert kinds["slab cork"] == "cork"
    assert kinds["extruded polystyrene"] == "foam"
    assert kinds["hair felt"] == kinds["mineral wool"] == "wool"
    assert kinds["oak"] == "wood"
    assert kinds["still air gap"] == "air"
    patterns = {kind: hatch_definitions([kind], "p", Palette()) for kind in set(kinds.values())}
    bare = {text.replace(f"p-{kind}", "") for kind, text in patterns.items()}
    assert len(bare) == len(patterns) == 9


@pytest.mark.parametrize("dark", [False, True])
def test_a_page_may_set_every_colour_that_a_drawing_uses(dark):
    svg = section_drawing(bent("larder"), made_up(), units="si", dark=dark)
    used = dict(re.findall(r"var\((--[\w-]+), (#[0-9a-f]{6})\)", svg))
    offered = {**paint_properties(dark=dark), **temperature_properties(dark=dark)}
    assert len(used) > 10
    assert used.items() <= offered.items()
    declared = dict(re.findall(r"(--[\w-]+): (#[0-9a-f]{6});", temperature_declarations(dark=dark)))
    assert declared == temperature_properties(dark=dark)
