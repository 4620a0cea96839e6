"""Look-ups: every row sound and sourced, unknown names answered with the nearest."""

import dataclasses
import re
from itertools import pairwise

import pytest

from coldwright.errors import InputError
from coldwright.fluids.oils import oil_names, suiting_oils
from coldwright.shop.capillary_bores import bores, nearest_bore
from coldwright.shop.cautions import SAFETY_CLASSES, cautions_for
from coldwright.shop.compressor_classes import (
    Estimate,
    compressor_class,
    compressor_class_names,
)
from coldwright.shop.materials import (
    air_gap_resistance,
    material,
    material_names,
    still_air_gap,
)
from coldwright.shop.products import product, product_names
from coldwright.shop.refrigerant_safety import refrigerant_names, safety
from coldwright.shop.surfaces import surface, surface_names
from coldwright.shop.tubes import tube, tube_names
from coldwright.sources import source

LOOKUPS = {
    tube: tube_names,
    material: material_names,
    surface: surface_names,
    product: product_names,
    safety: refrigerant_names,
    compressor_class: compressor_class_names,
}
ROWS = [(find, name) for find, names in LOOKUPS.items() for name in names()]


@pytest.mark.parametrize(("find", "name"), ROWS, ids=[name for _, name in ROWS])
def test_every_row_is_found_frozen_and_sourced(find, name):
    row = find(name)
    assert row.name == name
    assert find(f" {name.upper()} ").name == name
    assert source(row.source).label
    with pytest.raises(dataclasses.FrozenInstanceError):
        row.name = "other"


@pytest.mark.parametrize("row", bores(), ids=[row.name for row in bores()])
def test_bores(row):
    assert source(row.source).label
    assert 0.0005 < row.inside_diameter < 0.002
    assert row.outside_diameter is None or row.outside_diameter > row.inside_diameter + 0.0008


@pytest.mark.parametrize("name", material_names())
def test_materials_are_in_bounds(name):
    row = material(name)
    assert 0.004 < row.conductivity < 420
    assert 0.01 <= row.conductivity_uncertainty <= 0.3
    assert 1.0 < row.density < 12000
    assert 100 < row.specific_heat < 2500
    assert row.group in {"insulation", "wood", "metal", "other"}
    assert (row.group == "insulation") == (row.conductivity < 0.116)


def test_material_groups_share_out_all_names():
    parts = [material_names(group) for group in ("insulation", "wood", "metal", "other")]
    assert sorted(name for part in parts for name in part) == sorted(material_names())


@pytest.mark.parametrize("name", surface_names())
def test_emissivities_are_in_bounds(name):
    row = surface(name)
    assert row.emissivity - row.emissivity_uncertainty > 0.0
    assert row.emissivity + 0.5 * row.emissivity_uncertainty <= 1.0


@pytest.mark.parametrize(
    ("find", "wrong", "near"),
    [
        (tube, "3/16", "3/16 in"),
        (tube, "7 x 1 mm", "6 x 1 mm"),
        (material, "cork", "slab cork"),
        (material, "polyurethane", "aged polyurethane foam"),
        (surface, "galvanized", "galvanised"),
        (product, "cheese", "hard cheese"),
        (product, "apple", "apples"),
        (product, "buter", "butter"),
        (safety, "R601", "R600a"),
        (compressor_class, "LBP 1/7 hp", "LBP 1/8 hp"),
    ],
)
def test_unknown_names_give_the_nearest(find, wrong, near):
    with pytest.raises(InputError) as error:
        find(wrong)
    (fault,) = error.value.faults
    assert near in fault.hint
    assert repr(wrong) in fault.message
    assert fault.field


def test_nothing_near_lists_everything():
    with pytest.raises(InputError) as error:
        safety("")
    assert all(name in error.value.faults[0].hint for name in refrigerant_names())


def test_names_as_people_write_them():
    assert tube('3/16"').name == "3/16 in"
    assert safety("R-600a").name == safety("600a").name == "R600a"
    assert compressor_class("1/8 hp lbp").name == "LBP 1/8 hp"


def test_nearest_bore():
    assert nearest_bore(0.00078).name == "0.031 in"
    assert nearest_bore(0.0).name == "0.60 mm"


def test_air_gap_as_a_material():
    gap = still_air_gap(0.020)
    assert gap.conductivity == pytest.approx(material("still air gap").conductivity, rel=1e-3)
    assert 0.05 / still_air_gap(0.05).conductivity == pytest.approx(air_gap_resistance(0.05))
    for wrong in (0.0, -0.01, 0.4, float("nan")):
        with pytest.raises(InputError, match="greater than 0 m"):
            still_air_gap(wrong)


@pytest.mark.parametrize("name", refrigerant_names())
def test_refrigerants_are_consistent(name):
    row = safety(name)
    assert row.safety_class in SAFETY_CLASSES
    assert row.flammable == (row.lower_flammability_limit_kg_m3 is not None)
    assert set(row.oils) <= set(oil_names())
    assert set(row.oils) <= set(suiting_oils(name))
    if row.flammable:
        assert row.rcl_kg_m3 <= 0.26 * row.lower_flammability_limit_kg_m3
        assert row.least_room_volume(0.1) == pytest.approx(0.4 / row.lower_flammability_limit_kg_m3)
    else:
        assert row.least_room_volume(0.1) == 0.0


def test_old_gases_are_never_offered_for_a_new_charge():
    assert {"R12", "R22"} == set(refrigerant_names()) - set(refrigerant_names(historic=False))
    assert "never a new charge" in safety("R12").note


def codes(*arguments, **options):
    return [notice.code for notice in cautions_for(*arguments, **options)]


def test_cautions_by_class():
    assert "flammable_refrigerant" not in codes("A1")
    assert {"flammable_refrigerant", "class_2_is_not_2L", "toxic_combustion"} <= set(codes("A2"))
    assert "class_2_is_not_2L" not in codes("A2L")
    assert "toxic_combustion" not in codes("A3")
    assert "flammable_refrigerant" in codes("a3")
    with pytest.raises(InputError, match="Nearest"):
        cautions_for("B2")


def test_cautions_by_work():
    bare = codes("A1", has_brazing=False, mains=False, food=False, old_cabinet=False)
    everything = codes("A1")
    gone = set(everything) - set(bare)
    assert gone == {"brazing", "mains", "coolant_near_food", "food_temperature", "old_materials"}
    assert {"local_law", "no_venting", "test_pressure"} <= set(bare)


@pytest.mark.parametrize("safety_class", SAFETY_CLASSES)
def test_cautions_are_sourced_ordered_and_defer_to_the_law(safety_class):
    notices = cautions_for(safety_class)
    assert len({notice.code for notice in notices}) == len(notices)
    assert all(source(notice.source).label for notice in notices)
    order = [("danger", "warning", "info").index(notice.severity) for notice in notices]
    assert order == sorted(order)
    assert any("local" in notice.text and "certified" in notice.text for notice in notices)
    # Nothing here may read as a permission.
    assert not any(re.search(r"\b(is|are) (legal|safe)\b", notice.text) for notice in notices)


@pytest.mark.parametrize("name", compressor_class_names())
def test_compressor_classes_are_sound(name):
    row = compressor_class(name)
    estimates = [
        getattr(row, each.name)
        for each in dataclasses.fields(row)
        if isinstance(getattr(row, each.name), Estimate)
    ]
    assert len(estimates) == 11
    assert all(each.value > 0 and 0.05 <= each.relative_uncertainty <= 0.4 for each in estimates)
    assert 0.55 < row.isentropic_efficiency < 0.75
    assert 1e-6 < row.displacement.value < 15e-6
    assert row.evaporating_range[0] < row.evaporating_range[1]


def test_bigger_compressors_are_bigger_and_better():
    rows = [row for row in map(compressor_class, compressor_class_names()) if "LBP" in row.name]
    for small, large in pairwise(rows):
        assert small.displacement.value < large.displacement.value
        assert small.overall_efficiency.value < large.overall_efficiency.value
        assert small.shell_conductance.value < large.shell_conductance.value
