"""What a worse wall, an open drain, moister goods or a blocked shelf must do, for any of them."""

import runpy
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coldwright.parts.air_circuit import shelf_loss_coefficient
from coldwright.parts.cold_box import box_at_air
from coldwright.shop.insulation_decline import STATES, decline_families
from coldwright.shop.materials import FACINGS, faced_gap_resistance

box = SimpleNamespace(**runpy.run_path(str(Path(__file__).parents[1] / "box_scenario.py")))
few = settings(max_examples=12)


def kept(cabinet=None, path=None, target=4.0, room=20.0):
    return box_at_air(
        cabinet or box.cupboard(),
        path or box.air_path(),
        box.drum(),
        box.ZERO_C + np.asarray(target),
        box.room(box.ZERO_C + room),
    )


@few
@given(
    blocked=st.floats(0.0, 0.9),
    more=st.floats(0.02, 0.08),
    shelves=st.integers(1, 6),
    divided=st.booleans(),
)
def test_more_blocking_less_flow_and_a_wider_spread(blocked, more, shelves, divided):
    free, full = (
        kept(path=box.air_path(divided, shelves=shelves, shelf_blocked=share))
        for share in (blocked, blocked + more)
    )
    assert full.air.mass_flow < free.air.mass_flow
    assert full.shelf_spread > free.shelf_spread
    assert full.residual < 1e-8


@few
@given(divided=st.booleans(), shelves=st.integers(0, 6))
def test_open_shelves_change_nothing(divided, shelves):
    plain, shelved = (
        kept(path=box.air_path(divided)),
        kept(path=box.air_path(divided, shelves=shelves, shelf_blocked=0.0)),
    )
    assert shelved.air.mass_flow == pytest.approx(plain.air.mass_flow, rel=1e-9)


@few
@given(duct=st.floats(0.01, 0.5), opening=st.floats(0.005, 0.04))
def test_a_duct_moves_more_air_and_cools_the_top(duct, opening):
    bare, ducted = (
        kept(path=box.air_path(True, opening, duct_height=length)) for length in (0.0, duct)
    )
    assert ducted.air.mass_flow > bare.air.mass_flow
    assert ducted.warmest_shelf_temperature < bare.warmest_shelf_temperature
    assert ducted.coldest_shelf_temperature > bare.coldest_shelf_temperature


@few
@given(
    diameter=st.floats(0.002, 0.05),
    wider=st.floats(0.001, 0.02),
    depth=st.floats(0.1, 0.9),
    gaps=st.floats(1e-6, 1e-3),
    height=st.floats(0.0, 0.9),
)
def test_a_wider_drain_brings_more_heat_and_moisture(diameter, wider, depth, gaps, height):
    half = 0.5 * gaps

    def drained(size):
        cabinet = box.cupboard(
            leakage_area_low=half,
            leakage_area_high=half,
            leakage_height=height,
            drain_area=np.pi / 4 * size**2,
            drain_depth=depth,
        )
        return kept(cabinet).gain

    shut, narrow, wide = drained(0.0), drained(diameter), drained(diameter + wider)
    assert shut.drain == 0.0
    assert narrow.drain >= 0.0
    through = [float(gain.leakage + gain.drain) for gain in (shut, narrow, wide)]
    assert through[0] <= through[1] * (1 + 1e-9)
    assert through[1] <= through[2] * (1 + 1e-9)
    if depth > height:
        assert narrow.drain > 0.0
        assert wide.total > narrow.total > shut.total
        assert wide.moisture_flow > narrow.moisture_flow


@few
@given(drain=st.floats(1e-6, 1e-3), depth=st.floats(0.05, 0.9), gaps=st.floats(1e-6, 1e-3))
def test_the_deeper_the_drain_the_more_runs_out(drain, depth, gaps):
    def drained(below):
        cabinet = box.cupboard(
            leakage_area_low=0.0, leakage_area_high=gaps, drain_area=drain, drain_depth=below
        )
        return kept(cabinet).gain.drain

    assert drained(1.5 * depth) > drained(depth)


@few
@given(given_off=st.floats(1e-9, 5e-6), more=st.floats(1.2, 5.0), target=st.floats(1.0, 12.0))
def test_moister_goods_moister_air_and_more_frost(given_off, more, target):
    dry, damp, damper = (
        kept(box.cupboard(contents_moisture=each), target=target)
        for each in (0.0, given_off, more * given_off)
    )
    humidities = [float(state.inside_relative_humidity) for state in (dry, damp, damper)]
    assert humidities[0] < humidities[1] < humidities[2] < 1.0
    assert damper.frost_kg_per_day > damp.frost_kg_per_day > dry.frost_kg_per_day


@given(first=st.floats(0.0, 0.98), second=st.floats(0.0, 0.98))
def test_the_loss_rises_with_what_is_closed(first, second):
    least, most = sorted((first, second))
    losses = shelf_loss_coefficient(np.array([least, most]))
    assert losses[0] <= losses[1]
    assert losses[0] >= 0.0


@given(
    thickness=st.floats(0.002, 0.3),
    thicker=st.floats(1.0, 3.0),
    flow=st.sampled_from(["level", "up", "down"]),
)
def test_foil_and_width_help_a_gap(thickness, thicker, flow):
    resistances = [faced_gap_resistance(thickness, FACINGS[name], flow) for name in FACINGS]
    assert resistances == sorted(resistances)
    wide = faced_gap_resistance(thicker * thickness, 0.9, flow)
    assert wide >= resistances[0] * (1 - 1e-12)
    assert faced_gap_resistance(thickness, 0.9, "down") >= faced_gap_resistance(
        thickness, 0.9, "up"
    )


@pytest.mark.parametrize("state", STATES)
@given(cork=st.floats(0.02, 0.15), room=st.floats(12.0, 35.0))
@few
def test_a_declined_wall_lets_more_in(state, cork, room):
    for family in decline_families():
        factor, _ = family.factor(state)
        sound = kept(box.cupboard(cork), room=room)
        # a wall k times as conductive is as one k times thinner, edges aside
        worse = replace(
            box.cupboard(cork), conductance_multiplier=np.asarray(1.0 + 0.5 * (factor - 1.0))
        )
        assert kept(worse, room=room).heat >= sound.heat * (1 - 1e-9)
