from __future__ import annotations

import math

import numpy as np
import pytest

from coldwright.build import load, loads, starter_names, starter_text
from coldwright.build.translation.box import box_of
from coldwright.build.translation.plant import capillary_of, suction_line_of
from coldwright.errors import InputError
from coldwright.parts.cold_side.vessel import Vessel
from coldwright.units import Kind
from support.builds import build_text

# The least that a maker must say: everything else has a default.
MINIMAL = """\
format = 1
[targets]
air_temperature = "4 °C"
[cabinet]
inside_width = "0.5 m"
inside_height = "0.6 m"
inside_depth = "0.4 m"
layers = [{ material = "slab cork", thickness = "60 mm" }]
[cold_side]
kind = "bare_tube"
tube = { size = "1/4 in", length = "6 m" }
[compressor]
class = "LBP"
size = "1/8 hp"
[condenser]
sheet_width = "0.5 m"
sheet_height = "0.9 m"
tube = { size = "3/16 in", length = "8 m" }
[capillary]
bore = "0.031 in"
length = "2.5 m"
[refrigerant]
name = "R134a"
"""


def test_a_minimal_file_is_completed_and_says_what_it_assumed():
    build = loads(MINIMAL)
    assert build.cabinet.inside_width.value == pytest.approx(0.5)
    assert build.capillary.bore.value == pytest.approx(0.031 * 0.0254)
    # Door edge of a front door: twice width and height.
    assert build.cabinet.gasket.length.value == pytest.approx(2.0 * (0.5 + 0.6))
    assert build.is_assumed("cabinet.gasket.length")
    assert not build.is_assumed("cabinet.inside_width")
    assert build.return_exchanger.kind == "none"
    assert build.return_exchanger.length.value == 0.0
    assert build.refrigerant.fill is None
    assert build.is_assumed("refrigerant.fill")
    assert build.revision is None
    assert build.path is None


def test_every_assumed_value_is_the_value_in_the_build():
    build = loads(MINIMAL)
    assert len(build.assumed) > 40
    for entry in build.assumed:
        quantity = build.quantities.get(entry.field)
        assert entry.source
        assert entry.text
        if quantity is None:
            assert entry.value_SI is None
            assert entry.kind is None
        else:
            assert entry.value_SI == quantity.value
            assert entry.kind is quantity.kind
            assert entry.standard_uncertainty == quantity.standard_uncertainty


def test_half_width_is_two_standard_uncertainties():
    build = loads(MINIMAL.replace('"60 mm"', '"60 mm ± 4 mm"'))
    thickness = build.cabinet.layers[0].thickness
    assert thickness.standard_uncertainty == pytest.approx(0.002)
    assert "cabinet.layers[1].thickness" not in build.usual_uncertainties


def test_usual_uncertainty_is_filled_in_and_named():
    build = loads(MINIMAL)
    # 5 % of a layer's thickness: usual_relative_uncertainty of the glossary.
    assert build.cabinet.layers[0].thickness.standard_uncertainty == pytest.approx(0.05 * 0.06)
    assert "cabinet.layers[1].thickness" in build.usual_uncertainties
    exact = loads(MINIMAL.replace('"60 mm"', '"60 mm ± 0 mm"'))
    assert exact.cabinet.layers[0].thickness.standard_uncertainty == 0.0


def test_all_six_faces_are_there_and_take_the_common_layers():
    build = loads(build_text("galley"))
    assert {face.name for face in build.cabinet.faces} == {
        "top",
        "bottom",
        "left",
        "right",
        "front",
        "back",
    }
    assert build.cabinet.face("back").adjoining == "condenser"
    assert build.cabinet.face("left").adjoining == "room"
    assert build.cabinet.layers_of("left") == build.cabinet.layers
    assert build.cabinet.layers_of("top")[1].thickness.value == pytest.approx(0.045)
    assert build.cabinet.door_face == "top"


def test_stock_tube_gives_diameter_and_wall():
    tube = loads(MINIMAL).cold_side.tube
    # 1/4 in soft coil: 6.35 mm outside, 0.76 mm wall (ASTM B280, as listed by tube suppliers).
    assert tube.outside_diameter.value == pytest.approx(6.35e-3)
    assert tube.inside_diameter == pytest.approx(4.83e-3, abs=0.01e-3)


def test_stock_names_may_be_spelled_freely_and_come_out_as_the_shop_spells_them():
    text = MINIMAL.replace('"slab cork"', '"Slab  Cork"').replace('"R134a"', '"r-134a"')
    build = loads(text)
    assert build.cabinet.layers[0].material == "slab cork"
    assert build.refrigerant.name == "R134a"


def test_tube_by_its_own_sizes_needs_no_stock_name():
    text = MINIMAL.replace(
        'tube = { size = "1/4 in", length = "6 m" }',
        'tube = { outside_diameter = "7 mm", wall_thickness = "0.7 mm", length = "6 m" }',
    )
    tube = loads(text).cold_side.tube
    assert tube.size is None
    assert tube.inside_diameter == pytest.approx(5.6e-3)


def test_a_line_by_its_own_diameter_is_not_given_a_stock_size():
    build = loads(MINIMAL + '[suction_line]\noutside_diameter = "8 mm"\n')
    assert build.suction_line.size is None
    assert build.is_assumed("suction_line.wall_thickness")
    assert loads(MINIMAL).suction_line.size == "1/4 in"


def test_exchanger_with_a_length_is_soldered_unless_told_otherwise():
    build = loads(MINIMAL + '[return_exchanger]\nlength = "1 m"\n')
    assert build.return_exchanger.kind == "soldered"
    assert build.is_assumed("return_exchanger.kind")
    # The free 1.5 m of capillary stand half before and half behind the exchanger.
    assert build.return_exchanger.start.value == pytest.approx(0.75)


def test_a_capillary_inside_the_suction_line_leaves_the_gas_an_annulus():
    soldered = loads(MINIMAL + '[return_exchanger]\nlength = "1 m"\n')
    build = loads(MINIMAL + '[return_exchanger]\nlength = "1 m"\nkind = "inside"\n')
    line, plain = suction_line_of(build), suction_line_of(soldered)
    assert line.core_diameter == build.capillary.outside_diameter.value
    assert plain.core_diameter == 0.0
    # What the capillary takes up of the line's volume: 1 m of it.
    core = np.pi / 4.0 * line.core_diameter**2
    assert plain.volume - line.volume == pytest.approx(core)
    # No joint holds heat back but the copper of the capillary.
    assert line.joint_conductance > 5.0 * plain.joint_conductance
    assert capillary_of(build).coil_diameter == build.capillary.coil_diameter.value


def test_mains_follow_the_compressor_and_the_compressor_follows_the_mains():
    by_plate = loads(MINIMAL.replace('size = "1/8 hp"', 'size = "1/8 hp"\nvoltage = "120 V"'))
    assert by_plate.site.mains_voltage.value == 120.0
    by_mains = loads(MINIMAL + '[site]\nmains_frequency = "60 Hz"\n')
    assert by_mains.compressor.frequency.value == 60.0


def test_class_and_size_give_displacement_and_isobutane_takes_more():
    small = loads(MINIMAL).compressor
    text = MINIMAL.replace('class = "LBP"', 'class = "LBP"\nrated_refrigerant = "R600a"')
    isobutane = loads(text).compressor
    assert small.description == "class"
    assert small.class_name == "LBP 1/8 hp"
    assert small.displacement is not None
    assert isobutane.displacement is not None
    # An R600a machine of the same size displaces about 1.8 times as much (shop's class table).
    ratio = isobutane.displacement.value / small.displacement.value
    assert ratio == pytest.approx(1.8)
    assert (small.oil, isobutane.oil) == ("ester", "mineral")


def test_liquid_of_a_rated_point_by_subcooling_or_by_the_usual_temperature():
    point = """[[compressor.rated_points]]
evaporating_temperature = "-25 °C"
condensing_temperature = "55 °C"
capacity = "90 W"
"""
    text = MINIMAL.replace('class = "LBP"\nsize = "1/8 hp"', 'rated_refrigerant = "R134a"') + point
    usual = loads(text).compressor.rated_points[0]
    assert usual.subcooling is None
    assert usual.liquid_temperature is not None
    assert usual.liquid_temperature.value == pytest.approx(273.15 + 32.2)
    given = loads(text + 'subcooling = "3 K"\n').compressor.rated_points[0]
    assert given.liquid_temperature is None
    assert given.subcooling is not None
    assert given.subcooling.kind is Kind.temperature_difference


def test_map_holds_ten_coefficients_in_its_units():
    sheet = """[compressor.map]
capacity = [100, 1.0, 2.0, 0, 0, 0, 0, 0, 0, 0]
power = [90.0, 0, 1, 0, 0, 0, 0, 0, 0, 0]
temperature_unit = "F"
capacity_unit = "Btu/h"
subcooling = "0 K"
"""
    text = MINIMAL.replace('class = "LBP"\nsize = "1/8 hp"', 'rated_refrigerant = "R134a"') + sheet
    compressor = loads(text).compressor
    assert compressor.description == "map"
    assert compressor.map is not None
    assert compressor.map.capacity == (100.0, 1.0, 2.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
    assert compressor.map.return_gas_temperature is not None


def test_thermostat_holds_the_target_unless_told_otherwise():
    thermostat = loads(MINIMAL).thermostat
    assert thermostat.bulb == "air"
    assert 0.5 * (thermostat.cut_in.value + thermostat.cut_out.value) == pytest.approx(277.15)
    with pytest.raises(InputError, match="Cut in of thermostat must be given"):
        loads(MINIMAL + '[thermostat]\nbulb = "return line"\ncut_out = "-8 °C"\n')


def test_vessel_volume_is_that_of_its_inside():
    vessel = box_of(loads(build_text("larder"))).cold_side
    assert isinstance(vessel, Vessel)
    inside = math.pi / 4.0 * (0.25 - 0.0024) ** 2 * (0.42 - 0.0024)
    assert vessel.shell.inside_volume == pytest.approx(inside, rel=1e-12)


def test_doubtful_number_is_remarked_on():
    build = loads(MINIMAL.replace('"2.5 m"', '"2,500 m"'))
    assert build.capillary.length.value == pytest.approx(2.5)
    assert [notice.code for notice in build.remarks] == ["doubtful_number"]
    assert "2.5" in build.remarks[0].text


def test_quantities_cover_the_build_by_the_paths_of_the_file():
    build = loads(build_text("larder"))
    assert build.quantities["cabinet.layers[2].thickness"].value == pytest.approx(0.075)
    assert build.quantities["compressor.rated_points[1].capacity"].value == pytest.approx(115.0)
    assert all(math.isfinite(quantity.value) for quantity in build.quantities.values())


@pytest.mark.parametrize("name", starter_names())
def test_windows_line_ends_and_byte_order_mark_change_nothing(tmp_path, name):
    plain = loads(starter_text(name))
    path = tmp_path / "box.toml"
    path.write_bytes(b"\xef\xbb\xbf" + starter_text(name).replace("\n", "\r\n").encode())
    build = load(path)
    assert build.document == plain.document
    assert build.path == path


def test_atmosphere_follows_the_altitude():
    build = loads(MINIMAL + '[site]\naltitude = "1000 m"\n')
    # U.S. Standard Atmosphere 1976, table I: 898.76 hPa at 1000 m (from memory).
    assert build.site.atmospheric_pressure == pytest.approx(89876.0, rel=1e-4)
