"""Contracts of the box's parts, one by one."""

import runpy
import time
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest

from coldwright.fluids.moist_air import humidity_ratio
from coldwright.parts.air_circuit import AirPath
from coldwright.parts.box_network import WallTerms
from coldwright.parts.cabinet import heat_gain
from coldwright.parts.cabinet_faces import FACE_NAMES, Layer, box_faces, layered_face
from coldwright.parts.cold_box import box_at_source
from coldwright.parts.cold_side.surface_heat import relative_residual
from coldwright.parts.conditions import Surroundings
from coldwright.parts.moisture import (
    contents_evaporation,
    deposit_latent_heat,
    deposition_conductance,
    saturation_slope,
    settled_humidity_ratio,
)
from coldwright.parts.settling import settle

box = SimpleNamespace(**runpy.run_path(str(Path(__file__).parents[1] / "box_scenario.py")))
CORK = (Layer(np.asarray(0.05), np.asarray(0.043)),)


def test_surroundings_by_the_space_that_a_face_adjoins():
    around = Surroundings.of_room(293.15, condenser_side_rise=8.0, compressor_space_rise=5.0)
    assert around.temperature_of("room") == 293.15
    assert around.temperature_of("condenser") == pytest.approx(301.15)
    assert around.temperature_of("compressor") == pytest.approx(298.15)


def test_a_face_needs_a_layer():
    with pytest.raises(ValueError, match="'back' has no layer"):
        layered_face("back", 0.5, 0.9, ())


def test_a_box_needs_all_faces():
    with pytest.raises(KeyError):
        box_faces(0.5, 0.9, 0.4, {"top": CORK})


def test_faces_stand_in_order_with_their_neighbours():
    faces = box_faces(0.5, 0.9, 0.4, dict.fromkeys(FACE_NAMES, CORK), {"back": "condenser"})
    assert tuple(face.name for face in faces) == FACE_NAMES
    assert [face.adjoining for face in faces] == ["room"] * 5 + ["condenser"]
    assert sum(face.area for face in faces) == pytest.approx(2 * (0.45 + 0.36 + 0.2))
    top, bottom = faces[0], faces[1]
    assert top.conductance < bottom.conductance  # heat goes harder down than up


def test_gain_is_the_sum_of_its_lines_and_follows_the_multiplier():
    cabinet, room = box.cupboard(leakage_area_low=0.0, door_openings_per_day=0.0), box.room()
    more = box.cupboard(leakage_area_low=0.0, door_openings_per_day=0.0, conductance_multiplier=1.2)
    gain, greater = (heat_gain(item, 277.15, room, 0.004) for item in (cabinet, more))
    assert greater.total == pytest.approx(1.2 * gain.total, rel=1e-12)
    assert gain.gasket == pytest.approx(2.6 * 0.06 * 16.0)
    assert gain.bridges == pytest.approx(0.05 * 16.0)
    walls = WallTerms.of(cabinet, room)
    faces = sum(gain.by_face.values()) + gain.gasket + gain.bridges
    assert walls.constant - walls.slope * 277.15 == pytest.approx(faces)
    liner = walls.liner_constant + walls.liner_slope * 277.15
    assert liner == pytest.approx(gain.liner_temperature)


def test_radiation_cools_the_liner_and_draws_heat():
    cabinet, room = box.cupboard(), box.room()
    still, drawn = (
        heat_gain(cabinet, 277.15, room, 0.004, liner_radiation=heat) for heat in (0.0, 10.0)
    )
    assert drawn.liner_temperature < still.liner_temperature
    assert still.total < drawn.total < still.total + 2.0


def test_warm_load_and_moist_contents():
    room = box.room()
    plain = box.cupboard()
    loaded = box.cupboard(
        contents_heat=2.0,
        contents_moisture=1e-7,
        warm_load_capacity_flow=2.0 * 3500.0 / 86400.0,
        warm_load_temperature=294.15,
    )
    bare, full = (heat_gain(item, 277.15, room, 0.004) for item in (plain, loaded))
    deficit = 1.0 - 0.004 / humidity_ratio(277.15, 1.0)
    evaporated = 1e-7 * deficit / 0.2
    expected = 2.0 + 2.0 * 3500.0 / 86400.0 * 17.0 - evaporated * 2.501e6
    assert bare.contents == 0.0
    assert full.contents == pytest.approx(expected, rel=2e-3)
    assert full.moisture_flow - bare.moisture_flow == pytest.approx(evaporated, rel=1e-2)


def test_latent_heat_on_ice_and_on_water():
    assert deposit_latent_heat(263.15) == pytest.approx(2.835e6, rel=1e-6)
    assert deposit_latent_heat(283.15) == pytest.approx(2.4774e6, rel=1e-4)
    assert deposit_latent_heat(273.15) == pytest.approx((2.835e6 + 2.501e6) / 2)


def test_evaporation_stops_in_saturated_air():
    assert contents_evaporation(1e-6, 0.004, 0.005) == pytest.approx(1e-6)
    assert contents_evaporation(1e-6, 0.005, 0.005) == 0.0


def test_a_warm_surface_takes_no_moisture():
    dry = settled_humidity_ratio(1e-4, 0.004, 0.0, 0.010, 1e-3, 0.009)
    wet = settled_humidity_ratio(1e-4, 0.009, 0.0, 0.010, 1e-3, 0.004)
    assert dry == pytest.approx(0.004, abs=2e-6)
    assert wet == pytest.approx((1e-4 * 0.009 + 1e-3 * 0.004) / 1.1e-3, rel=1e-3)


def test_no_surface_settles_more_than_the_air_brings():
    assert deposition_conductance(50.0, 1006.0, 1e-3) == pytest.approx(1e-3, rel=1e-6)
    assert deposition_conductance(1.0, 1006.0, 10.0) == pytest.approx(
        1.0 / (1006.0 * 0.85 ** (2 / 3)), rel=1e-3
    )


def test_saturation_slope_is_near_the_true_one():
    for temperature in (275.0, 285.0, 295.0):
        rise = humidity_ratio(temperature + 0.05, 1.0) - humidity_ratio(temperature - 0.05, 1.0)
        slope = saturation_slope(temperature, humidity_ratio(temperature, 1.0))
        assert slope == pytest.approx(rise / 0.1, rel=0.05)


def test_volumes_and_heat_capacity_of_a_drum():
    vessel = box.drum(
        filler_volume=np.asarray(0.004),
        filler_density=np.asarray(1000.0),
        filler_specific_heat=np.asarray(2000.0),
    )
    inside = np.pi / 4 * 0.248**2
    level = 0.4 - 0.002 - 0.03
    coil = np.pi / 4 * 0.00635**2 * 9.0
    assert vessel.level == pytest.approx(level)
    assert vessel.brine_volume == pytest.approx(inside * level - coil - 0.004)
    steel = (np.pi / 4 * 0.25**2 * 0.4 - inside * 0.398) * 7900.0 * 500.0
    copper = np.pi / 4 * (0.00635**2 - 0.0048**2) * 9.0 * 8940.0 * 385.0
    brine = vessel.brine_mass * vessel.brine.specific_heat(275.15)
    assert vessel.heat_capacity == pytest.approx(steel + copper + brine + 0.004 * 2e6)
    more = box.drum(box.fins(), filler_volume=np.asarray(0.004)).heat_capacity
    less = box.drum(filler_volume=np.asarray(0.004)).heat_capacity
    assert more - less == pytest.approx(24 * 0.03 * 0.36 * 0.001 * 2700.0 * 900.0)


def test_sizes_of_a_flat_vessel():
    body = box.shell("flat", width=0.35, depth=0.12)
    assert body.perimeter() == pytest.approx(0.94)
    assert body.perimeter(-0.001) == pytest.approx(0.932)
    assert body.cross_section(-0.001) == pytest.approx(0.348 * 0.118)
    assert body.inside_volume == pytest.approx(0.348 * 0.118 * 0.398)


def test_plate_capacity_and_pitch():
    sheet = box.plate()
    assert sheet.pitch == pytest.approx(0.045)
    copper = np.pi / 4 * (0.00635**2 - 0.0048**2) * 5.0 * 8940.0 * 385.0
    assert sheet.heat_capacity == pytest.approx(0.225 * 0.001 * 2700.0 * 900.0 + copper)
    assert box.bare_tube().heat_capacity > 0.0


def test_tube_volumes_and_wall():
    pipe = box.tube(0.008, 0.006, 10.0)
    assert pipe.inside_volume == pytest.approx(np.pi * 9e-5)
    assert pipe.displaced_volume == pytest.approx(np.pi * 16e-5)
    assert pipe.outside_area == pytest.approx(np.pi * 0.08)
    assert pipe.wall_conductance_per_length == pytest.approx(2 * np.pi * 390.0 / np.log(8 / 6))


def test_a_narrow_gap_behind_a_plate_stills_its_rear_face():
    sheets = (box.plate(rear_gap=np.asarray(gap)) for gap in (0.001, 0.01, 0.03, 1.0))
    films = [sheet.films(263.15, 275.15, 276.15).convective_conductance for sheet in sheets]
    alone = box.plate(rear_exposed=np.asarray(0.0)).films(263.15, 275.15, 276.15)
    assert np.all(np.diff(films) > 0.0)
    assert films[0] == pytest.approx(alone.convective_conductance, rel=0.02)
    assert films[3] == pytest.approx(2.0 * alone.convective_conductance, rel=0.001)


def test_fin_bond_and_gap():
    good, poor = box.fins(bond=np.inf), box.fins(bond=1.0)
    assert poor.bonded_efficiency(8.0) < good.bonded_efficiency(8.0) < 1.0
    side, bare = box.shell().finned_side(good, 0.001)
    perimeter = np.pi * 0.25
    assert side.gap == pytest.approx(np.pi * 0.28 / 24 - 0.001 - 0.002)
    assert side.base_area == pytest.approx((perimeter - 24 * 0.001) * 0.36)
    assert side.fin_area == pytest.approx(24 * 2 * 0.0305 * 0.36)
    assert bare == pytest.approx(perimeter * 0.04)


def test_frost_dulls_a_bright_surface():
    bright = box.surface(emissivity=0.05)
    frosted = box.surface(emissivity=0.05, frost_thickness=0.001)
    assert bright.seen_emissivity == pytest.approx(0.05)
    assert frosted.seen_emissivity == pytest.approx(0.95, abs=1e-3)


def test_what_drives_the_air():
    def column(centre):
        return box.air_path(cold_surface_centre=centre).column_height

    assert column(0.9) == pytest.approx(0.7 * 0.65, rel=0.01)
    assert column(0.25) == pytest.approx(0.7 * 0.05)
    assert 0.0 < column(0.0) < column(0.25)
    assert box.air_path().loss_by_area == pytest.approx(2 * 2.7 / 0.02**2)
    assert isinstance(box.air_path(), AirPath)


def test_settle_finds_the_fixed_point_of_each_lane():
    aim = np.array([0.3, 0.5, 2.0, 4.0])

    def step(state):
        return np.stack([aim + 0.3 * np.sin(state[1]), 0.5 * state[0] - 0.2 * state[1] ** 2 / 10])

    found = settle(step, np.zeros((2, 4)))
    assert step(found) == pytest.approx(found, abs=1e-9)
    alone = settle(lambda state: step(np.repeat(state, 4, axis=1))[:, 2:3], np.zeros((2, 1)))
    assert alone[:, 0] == pytest.approx(found[:, 2], abs=1e-12)


def test_settle_goes_on_by_half_steps_where_it_swings():
    # |x| turns a corner at its fixed point, where extrapolation alone finds no hold
    found = settle(lambda state: 1.0 - 0.9 * np.abs(state) - 0.4 * state, np.array([[5.0, -3.0]]))
    assert found == pytest.approx(1.0 / 2.3, abs=1e-9)


def test_residual_is_relative_with_a_floor():
    assert relative_residual(np.asarray(10.0), np.asarray(11.0)) == pytest.approx(1 / 11)
    assert relative_residual(np.asarray(0.0), np.asarray(1e-6)) == pytest.approx(1e-3)


def test_what_a_settled_box_shows():
    vessel = box.drum(box.fins())
    state = box_at_source(box.cupboard(), box.air_path(), vessel, 267.15, box.room())
    shown = state.surface
    assert set(shown.resistances) == {
        "convection to air",
        "radiation to liner",
        "frost",
        "vessel wall",
        "brine on the wall",
    }
    assert 0.0 < shown.radiation_share < 1.0
    assert 0.7 < shown.fin_efficiency < 1.0
    assert 1.0 < shown.film_coefficient < 6.0
    drop = shown.heat_W * (
        shown.resistances["vessel wall"] + shown.resistances["brine on the wall"]
    )
    assert shown.surface_temperature - 267.15 == pytest.approx(drop, rel=1e-9)
    inner = shown.inner_surface_temperature - 267.15
    assert inner == pytest.approx(shown.heat_W * shown.resistances["brine on the wall"], rel=1e-9)
    assert vessel.source_is_air is False
    assert box.plate().source_is_air
    assert box.bare_tube().source_is_air


def test_two_hundred_lanes_cost_little_more_than_one():
    parts = box.cupboard(), box.air_path(), box.drum(box.fins())

    def seconds(source):
        box_at_source(*parts, source, box.room())
        best = np.inf
        for _ in range(3):
            started = time.perf_counter()
            box_at_source(*parts, source, box.room())
            best = min(best, time.perf_counter() - started)
        return best

    assert seconds(np.linspace(255.0, 275.0, 200)) < 5.0 * seconds(np.asarray([265.0]))


@pytest.mark.parametrize("name", ["plate", "bare tube"])
def test_thin_air_convects_less(name):
    make = {"plate": box.plate, "bare tube": box.bare_tube}[name]
    high = make(skin=box.surface(air_pressure=8e4))
    low = make()
    given = low.outer_conductance_per_length(278.15, 263.15, 8e4)
    assert high.outer_conductance_per_length(278.15, 263.15) == pytest.approx(given, rel=1e-12)
    assert given < low.outer_conductance_per_length(278.15, 263.15)
