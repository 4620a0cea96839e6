"""Entries for what a maker sees on a cabinet: old walls, seals, drain, goods, frost."""

from __future__ import annotations

import numpy as np
import pytest

from coldwright.build import loads
from coldwright.build.translation.box import box_of
from coldwright.errors import InputError
from coldwright.fluids.moist_air import saturation_pressure
from coldwright.shop.gaskets import gasket, gasket_names
from coldwright.shop.insulation_decline import decline_of
from coldwright.shop.materials import material, still_air_gap
from coldwright.verdict.wall_uncertainty import layers_uncertainty
from support.assessed import changed
from support.builds import build_text

CORK = 'material = "slab cork"'
XPS = 'material = "extruded polystyrene"'
AIR = "[cabinet.air_path]\n"
CONTENTS = "[cabinet.contents]\n"


def faults(text: str) -> str:
    with pytest.raises(InputError) as raised:
        loads(text)
    return "\n".join(str(fault) for fault in raised.value.faults)


def layer_of(build, name):
    return next(layer for layer in build.cabinet.layers if layer.material == name)


def source_of(build, field):
    return next(entry.source for entry in build.assumed if entry.field == field)


@pytest.mark.parametrize("condition", ["aged", "wet"])
def test_a_condition_multiplies_and_widens(condition):
    name = "extruded polystyrene"
    plain = layer_of(loads(build_text("cheese")), name).conductivity
    build = loads(changed("cheese", (XPS, f'{XPS}\ncondition = "{condition}"')))
    worse = layer_of(build, name).conductivity
    factor, doubt = decline_of(name).factor(condition)
    assert worse.value == pytest.approx(plain.value * factor, rel=1e-5)
    of_new = material(name).conductivity_uncertainty
    spread = np.hypot(of_new, doubt / factor)
    assert worse.standard_uncertainty / worse.value == pytest.approx(spread, rel=0.01)
    assert spread > of_new
    assert f"{condition}: {factor:g}" in source_of(build, "cabinet.layers[2].conductivity")


def test_new_is_assumed_of_insulation_and_shown():
    build = loads(build_text("cheese"))
    assert layer_of(build, "extruded polystyrene").condition == "new"
    assert "new and dry" in source_of(build, "cabinet.layers[2].condition")


def test_a_damp_wall_widens_the_doubt_of_the_whole_wall():
    dry = loads(build_text("cheese")).cabinet.layers
    wet = loads(changed("cheese", (XPS, f'{XPS}\ncondition = "wet"'))).cabinet.layers
    assert layers_uncertainty(wet) > layers_uncertainty(dry)


def test_a_condition_beside_a_written_conductivity_is_refused():
    text = changed("cheese", (XPS, f'{XPS}\ncondition = "wet"\nconductivity = "0.04 W/(m K)"'))
    assert "must be left out where conductivity is written; received 'wet'" in faults(text)


def test_what_keeps_its_figure_has_no_condition():
    text = changed(
        "galley",
        ('material = "stainless steel"', 'material = "stainless steel"\ncondition = "aged"'),
    )
    assert "must be 'new' for stainless steel" in faults(text)


def test_an_unknown_condition_is_refused():
    assert "soggy" in faults(changed("cheese", (XPS, f'{XPS}\ncondition = "soggy"')))


def gap_build(facing: str = "", place: str = XPS) -> str:
    lines = f'material = "still air gap"\n{facing}'
    return changed("cheese", (place, lines))


def test_foil_in_a_gap():
    dull = layer_of(loads(gap_build()), "still air gap")
    bright = layer_of(loads(gap_build('facing = "bright foil"')), "still air gap")
    width = bright.thickness.value
    assert dull.facing == "dull"
    assert bright.conductivity.value == pytest.approx(
        still_air_gap(width, "bright foil").conductivity, rel=1e-5
    )
    assert bright.conductivity.value < 0.5 * dull.conductivity.value


@pytest.mark.parametrize(("face", "flow"), [("top", "down"), ("bottom", "up"), ("left", "level")])
def test_a_gap_of_a_face_by_the_way_its_heat_flows(face, flow):
    own = '{ material = "still air gap", thickness = "25 mm", facing = "bright foil" }'
    more = f'[[cabinet.faces]]\nname = "{face}"\nlayers = [{own}]\n\n'
    build = loads(changed("cheese", (AIR, more + AIR)))
    layer = build.cabinet.layers_of(face)[0]
    expected = still_air_gap(0.025, "bright foil", flow).conductivity
    assert layer.conductivity.value == pytest.approx(expected, rel=1e-5)


def test_foil_lines_only_a_gap():
    text = changed("cheese", (XPS, f'{XPS}\nfacing = "bright foil"'))
    assert "must be left out for extruded polystyrene: it lines a still air gap" in faults(text)


@pytest.mark.parametrize("kind", gasket_names())
def test_a_kind_of_seal_gives_heat_and_gap(kind):
    build = loads(changed("cheese", (AIR, f'[cabinet.gasket]\nkind = "{kind}"\n\n{AIR}')))
    seal, row = build.cabinet.gasket, gasket(kind)
    assert seal.linear_conductance.value == pytest.approx(row.linear_conductance)
    area = build.cabinet.leakage_area
    assert area.value == pytest.approx(row.leakage_area * seal.length.value, rel=1e-5)
    assert area.standard_uncertainty / area.value == pytest.approx(row.leakage_area_uncertainty)
    assert f"seal '{kind}'" in source_of(build, "cabinet.leakage_area")


def test_written_figures_beat_the_kind_of_seal():
    seal = '[cabinet.gasket]\nkind = "none"\nlinear_conductance = "0.04 W/(m K)"\n\n'
    text = changed(
        "cheese", (AIR, seal + AIR), ("[cabinet]\n", '[cabinet]\nleakage_area = "1 cm2"\n')
    )
    build = loads(text)
    assert build.cabinet.gasket.linear_conductance.value == pytest.approx(0.04)
    assert build.cabinet.leakage_area.value == pytest.approx(1e-4)


def test_an_unknown_seal_names_the_near_ones():
    text = changed("cheese", (AIR, f'[cabinet.gasket]\nkind = "felt stripe"\n\n{AIR}'))
    assert "felt strip" in faults(text)


def drained(lines: str) -> str:
    return changed("galley", (AIR, f"[cabinet.drain]\n{lines}\n\n{AIR}"))


def test_a_trap_shuts_the_drain():
    open_ = box_of(loads(drained('diameter = "20 mm"\noutlet = "open"'))).cabinet
    shut = box_of(loads(drained('diameter = "20 mm"\noutlet = "trapped"'))).cabinet
    assert float(open_.drain_area) == pytest.approx(np.pi / 4 * 0.02**2)
    assert float(open_.drain_depth) == pytest.approx(0.45)
    assert float(shut.drain_area) == 0.0


def test_a_drain_is_open_unless_said():
    build = loads(drained('diameter = "20 mm"'))
    assert build.cabinet.drain.outlet == "open"
    assert build.is_assumed("cabinet.drain.outlet")


def test_a_drain_lies_in_the_box():
    assert "at most the inside height" in faults(drained('diameter = "20 mm"\ndepth = "0.9 m"'))
    assert "diameter" in faults(drained('diameter = "-20 mm"')).lower()


def test_the_gaps_of_a_lid_lie_level():
    lid, front = loads(build_text("galley")).cabinet, loads(build_text("cheese")).cabinet
    assert lid.leakage_height.value == pytest.approx(0.05)
    assert front.leakage_height.value == pytest.approx(front.inside_height.value)


@pytest.mark.parametrize(("target", "thickness"), [("4 °C", 0.5e-3), ("6 °C", 0.0)])
def test_frost_follows_the_target_unless_written(target, thickness):
    at = ('air_temperature = "5 °C"', f'air_temperature = "{target}"')
    build = loads(changed("galley", at))
    assert build.cold_side.frost.value == pytest.approx(thickness)
    assert build.is_assumed("cold_side.frost")
    stated = loads(changed("galley", at, ("[cold_side]\n", '[cold_side]\nfrost = "3 mm"\n')))
    assert float(box_of(stated).cold_side.surface.frost_thickness) == pytest.approx(3e-3)


def test_moisture_of_apples_by_their_transpiration():
    # 42 ng/(kg s Pa), from memory (`products_sastry_transpiration`): 30 kg, a fifth of the
    # saturation pressure lacking at 12 C.
    text = changed("cheese", ('mass = "30 kg"', 'mass = "30 kg"\nproduct = "apples"'))
    build = loads(text)
    lost = 42e-12 * 30 * 0.2 * float(saturation_pressure(285.15))
    assert build.cabinet.contents.moisture_per_day.value == pytest.approx(lost, rel=1e-4)
    assert float(box_of(build).cabinet.contents_moisture) == pytest.approx(lost, rel=1e-4)
    assert "transpiration of apples" in source_of(build, "cabinet.contents.moisture_per_day")


@pytest.mark.parametrize(("goods", "words"), [("butter", "wrapped"), ("hard cheese", "not known")])
def test_no_moisture_says_why(goods, words):
    text = changed("cheese", ('mass = "30 kg"', f'mass = "30 kg"\nproduct = "{goods}"'))
    build = loads(text)
    assert build.cabinet.contents.moisture_per_day.value == 0.0
    assert words in source_of(build, "cabinet.contents.moisture_per_day")


def test_frozen_goods_give_off_none():
    text = changed(
        "cheese",
        ('mass = "30 kg"', 'mass = "30 kg"\nproduct = "carrots"'),
        ('air_temperature = "12 °C"', 'air_temperature = "-18 °C"'),
    )
    build = loads(text)
    assert build.cabinet.contents.moisture_per_day.value == 0.0
    assert "frozen" in source_of(build, "cabinet.contents.moisture_per_day")


def test_a_revision_renews_the_seal():
    more = '\n[[revision]]\nname = "seal"\nwhy = "It was hard."\n\n[revision.changes]\n'
    change = '"cabinet.gasket.kind" = "new magnetic"\n'
    old = ("[cabinet.air_path]\n", '[cabinet.gasket]\nkind = "old hardened"\n\n' + AIR)
    text = changed("cheese", old) + more + change
    before, after = loads(text), loads(text, revision="seal")
    assert after.cabinet.leakage_area.value < 0.1 * before.cabinet.leakage_area.value


def test_written_moisture_stays():
    more = 'mass = "30 kg"\nproduct = "apples"\nmoisture_per_day = "60 g/day"'
    build = loads(changed("cheese", ('mass = "30 kg"', more)))
    assert build.cabinet.contents.moisture_per_day.value == pytest.approx(0.060 / 86400)


def test_a_duct_needs_a_partition_and_room():
    single = changed("cheese", (AIR, f'{AIR}duct_height = "0.2 m"\n'))
    assert "left out where the air's way is of kind 'single'" in faults(single)
    long = changed("larder", (AIR, f'{AIR}duct_height = "2 m"\n'))
    assert "leave room under the inside height" in faults(long)


def test_a_shelf_is_never_closed_altogether():
    assert "98 %" in faults(changed("cheese", (AIR, f'{AIR}shelf_blocked = "100 %"\n')))
    assert "whole number" in faults(changed("cheese", (AIR, f'{AIR}shelves = "2.5"\n')))
