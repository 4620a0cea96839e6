"""Entries of a vessel: measured shapes, a coil by its turns, filler, lid and floor."""

from __future__ import annotations

import math

import numpy as np
import pytest

from coldwright.build import loads
from coldwright.build.translation.box import box_of
from coldwright.errors import InputError
from coldwright.parts.cold_side.vessel import Vessel
from support.assessed import changed

SHAPE = ('shape = "cylinder"\ndiameter = "0.25 m"', 'shape = "measured"\n{}')
SIZES = 'area = "0.42 m2"\nvolume = "20 L"'
LENGTH = ('size = "1/4 in"\nlength = "9 m"', 'size = "1/4 in"')


def larder(*changes: tuple[str, str]) -> Vessel:
    vessel = box_of(loads(changed("larder", *changes))).cold_side
    assert isinstance(vessel, Vessel)
    return vessel


def measured(sizes: str = SIZES) -> tuple[str, str]:
    return SHAPE[0], SHAPE[1].format(sizes)


def faults(*changes: tuple[str, str]) -> dict[str, str]:
    with pytest.raises(InputError) as caught:
        loads(changed("larder", *changes))
    assert all(fault.line for fault in caught.value.faults)
    return {fault.field: f"{fault.message} {fault.hint}" for fault in caught.value.faults}


def test_a_measured_vessel_is_its_area_and_volume():
    shell = larder(measured()).shell
    assert shell.form == "measured"
    assert shell.perimeter() * shell.height == pytest.approx(0.42)
    assert shell.cross_section() * shell.height == pytest.approx(0.020)
    assert shell.inside_volume == pytest.approx(0.020 - 0.42 * 0.0012)
    assert shell.mass == pytest.approx(0.42 * 0.0012 * 8900.0)
    assert shell.top_exposed == shell.bottom_exposed == 0.0


@pytest.mark.parametrize(
    ("sizes", "field", "message"),
    [
        ('area = "0.42 m2"', "volume", "must be given for a measured shape"),
        ('volume = "20 L"', "area", "must be given for a measured shape"),
        (SIZES + '\nwidth = "0.3 m"', "width", "no meaning for a measured shape"),
        # a sphere of 0.42 m2 holds 25.6 L
        ('area = "0.42 m2"\nvolume = "26 L"', "volume", "at most 25.6 L"),
        (SIZES + '\nlid_exposed = "50 %"', "lid_exposed", "no meaning for a measured shape"),
        ('area = "-1 m2"\nvolume = "20 L"', "area", "greater than 0"),
        ('area = "0.42 L"\nvolume = "20 L"', "area", "which is a volume"),
    ],
)
def test_a_measured_shape_that_cannot_be(sizes, field, message):
    found = faults(measured(sizes))
    assert message in found[f"cold_side.vessel.{field}"]


def test_a_measured_body_has_a_least_height():
    # what lies between two planes holds at most half its area times their distance
    found = faults(
        measured('area = "0.42 m2"\nvolume = "20 L"'), ('height = "0.42 m"', 'height = "90 mm"')
    )
    assert "at least 95.2 mm" in found["cold_side.vessel.height"]


def test_a_wall_leaves_an_inside_in_a_measured_vessel():
    found = faults(
        measured('area = "1.9 m2"\nvolume = "20 L"'),
        ('wall_thickness = "1.2 mm"', 'wall_thickness = "11 mm"'),
    )
    assert "leave an inside" in found["cold_side.vessel.wall_thickness"]


def test_turns_give_the_length_of_the_tube():
    build = loads(changed("larder", LENGTH, ('coil_diameter = "0.19 m"', "coil_turns = 15.5\n")))
    tube = box_of(build).cold_side.tube
    assert tube.length == pytest.approx(15.5 * math.pi * 0.76 * 0.25, rel=1e-5)
    told = {entry.field: entry.source for entry in build.assumed}
    assert "turns" in told["cold_side.tube.length"]
    assert "cold_side.vessel.coil_diameter" in told


def test_turns_and_length_give_the_diameter():
    build = loads(changed("larder", ('coil_diameter = "0.19 m"', "coil_turns = 15")))
    assert build.cold_side.vessel is not None
    assert build.cold_side.vessel.coil_diameter.value == pytest.approx(9.0 / (15 * math.pi), 1e-5)


def test_a_coil_that_is_not_one_coil():
    both = 'coil_diameter = "0.19 m"\ncoil_turns = 18'
    message = faults(('coil_diameter = "0.19 m"', both))["cold_side.tube.length"]
    for named in ("18 turns (coil_turns)", "0.19 m", "10.7 m of tube", "received '9 m'"):
        assert named in message
    loads(changed("larder", ('coil_diameter = "0.19 m"', both.replace("18", "15.3"))))


def test_a_coil_tighter_than_a_tube_bends():
    message = faults(('coil_diameter = "0.19 m"', "coil_turns = 200"))[
        "cold_side.vessel.coil_turns"
    ]
    assert "it comes to 14.3 mm across; received 200" in message


def test_without_turns_or_length_the_length_is_asked_for():
    assert "must be given" in faults(LENGTH)["cold_side.tube.length"]


def test_a_filler_has_a_material():
    plain = larder()
    assert plain.filler_density == 0.0
    volume = ('headspace = "20 mm"', 'headspace = "20 mm"\nfiller_volume = "5 L"')
    build = loads(changed("larder", volume))
    told = {entry.field: entry.text for entry in build.assumed}
    assert told["cold_side.vessel.filler_material"] == "polyethylene"
    assert larder(volume).dry_mass_by_part["filler"] == pytest.approx(0.005 * 950.0)
    glass = (volume[0], volume[1] + '\nfiller_material = "glass"')
    assert larder(glass).dry_mass_by_part["filler"] == pytest.approx(0.005 * 2500.0)
    assert larder(volume).brine_volume == pytest.approx(plain.brine_volume - 0.005)
    unknown = (volume[0], volume[1] + '\nfiller_material = "glas"')
    assert "did you mean 'glass'" in faults(unknown)["cold_side.vessel.filler_material"]


def test_lid_and_floor_that_the_air_does_not_reach():
    free = larder()
    assert free.shell.top_exposed == free.shell.bottom_exposed == 1.0
    shares = 'headspace = "20 mm"\nlid_exposed = "0 %"\nfloor_exposed = "40 %"'
    covered = larder(('headspace = "20 mm"', shares))
    state = [np.asarray(value) for value in (265.0, 275.0, 276.0)]
    lid = math.pi / 4.0 * 0.25**2
    assert free.films(*state).outside_area - covered.films(*state).outside_area == pytest.approx(
        1.6 * lid
    )
    wrong = ('headspace = "20 mm"', 'headspace = "20 mm"\nlid_exposed = "140 %"')
    assert "at most 100 %" in faults(wrong)["cold_side.vessel.lid_exposed"]
