"""What must rise or fall when one thing about the box is changed, and lanes that stay apart."""

import runpy
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coldwright.parts.cold_box import box_at_air, box_at_source
from coldwright.parts.conditions import Surroundings

box = SimpleNamespace(**runpy.run_path(str(Path(__file__).parents[1] / "box_scenario.py")))

degrees = st.floats(-15.0, 4.0)
rooms = st.floats(12.0, 38.0)
few = settings(max_examples=10)


def at(cabinet=None, path=None, cold_side=None, source=-6.0, room=20.0):
    return box_at_source(
        cabinet or box.cupboard(),
        path or box.air_path(),
        cold_side or box.drum(),
        box.ZERO_C + np.asarray(source),
        box.room(box.ZERO_C + room),
    )


@few
@given(source=degrees, room=rooms, some=st.integers(4, 20), more=st.integers(1, 10))
def test_more_fins_colder_air(source, room, some, more):
    fewer, most = (
        at(cold_side=box.drum(box.fins(n)), source=source, room=room) for n in (some, some + more)
    )
    assert most.air_temperature < fewer.air_temperature
    assert most.heat > fewer.heat


@few
@given(source=degrees, room=rooms, thin=st.floats(0.02, 0.1), extra=st.floats(0.005, 0.1))
def test_more_insulation_less_heat(source, room, thin, extra):
    thinner, thicker = (
        at(box.cupboard(cork), source=source, room=room) for cork in (thin, thin + extra)
    )
    assert thicker.heat < thinner.heat
    assert thicker.air_temperature < thinner.air_temperature


@few
@given(source=degrees, dull=st.floats(0.3, 1.0), less=st.floats(0.05, 0.25))
@pytest.mark.parametrize("name", ["drum", "fins", "plate"])
def test_duller_surface_more_heat(name, source, dull, less):
    def cold_side(emissivity):
        skin = box.surface(emissivity=emissivity)
        return {
            "drum": lambda: box.drum(skin=skin),
            "fins": lambda: box.drum(box.fins(), skin=skin),
            "plate": lambda: box.plate(skin=skin),
        }[name]()

    # at a given tube or brine: a plate's own source is the compartment, so ask its surface
    bright, grey = (
        cold_side(value).films(box.ZERO_C + source, 284.0, 285.0) for value in (dull - less, dull)
    )
    assert grey.radiative_conductance > bright.radiative_conductance
    if name != "plate":
        heats = [
            at(cold_side=cold_side(value), source=source).heat for value in (dull - less, dull)
        ]
        assert heats[1] > heats[0]


@few
@given(source=degrees, room=rooms, opening=st.floats(0.003, 0.05), factor=st.floats(1.2, 4.0))
def test_wider_openings_smaller_spread(source, room, opening, factor):
    narrow, wide = (
        at(path=box.air_path(opening=area), source=source, room=room)
        for area in (opening, opening * factor)
    )
    assert wide.shelf_spread < narrow.shelf_spread
    assert wide.coldest_shelf_temperature > narrow.coldest_shelf_temperature
    assert wide.warmest_shelf_temperature < narrow.warmest_shelf_temperature
    assert wide.air.mass_flow > narrow.air.mass_flow


@few
@given(source=degrees, room=rooms, step=st.floats(0.5, 5.0))
@pytest.mark.parametrize("name", box.COLD_SIDES)
def test_colder_source_colder_air_more_heat(name, source, room, step):
    cold_side = box.COLD_SIDES[name]()
    warm, cold = (
        at(cold_side=cold_side, source=value, room=room) for value in (source, source - step)
    )
    assert cold.air_temperature < warm.air_temperature
    assert cold.heat > warm.heat


@few
@given(source=degrees, thickness=st.floats(0.0, 0.004), more=st.floats(1e-3, 4e-3))
def test_frost_on_a_dull_drum_warms_the_air(source, thickness, more):
    drums = (
        box.drum(skin=box.surface(emissivity=0.95, frost_thickness=depth))
        for depth in (thickness, thickness + more)
    )
    thin, thick = (at(cold_side=drum, source=source) for drum in drums)
    assert thick.air_temperature > thin.air_temperature


@few
@given(source=degrees, room=rooms)
@pytest.mark.parametrize("name", box.COLD_SIDES)
def test_temperatures_stand_in_order(name, source, room):
    state = at(cold_side=box.COLD_SIDES[name](), source=source, room=room)
    assert state.surface_temperature < state.compartment_air_temperature
    assert state.coldest_shelf_temperature < state.air_temperature
    assert state.air_temperature < state.warmest_shelf_temperature
    assert state.air_temperature < state.liner_temperature
    assert state.liner_temperature < box.ZERO_C + room + 6.0
    assert state.residual < 1e-9


@few
@given(room=rooms, above=st.floats(1.0, 20.0))
@pytest.mark.parametrize("divided", [True, False])
def test_brine_warmer_than_the_room_warms_the_box(divided, room, above):
    state = box_at_source(
        box.cupboard(),
        box.air_path(divided),
        box.drum(box.fins()),
        box.ZERO_C + room + above,
        Surroundings.of_room(box.ZERO_C + room, 0.5),
    )
    assert state.heat < 0.0
    assert state.air_temperature > box.ZERO_C + room
    assert state.air.temperature_drop < 0.0
    assert state.frost_kg_per_day < 2e-4
    assert state.residual < 1e-9


@pytest.mark.parametrize("divided", [True, False])
@pytest.mark.parametrize("name", box.COLD_SIDES)
def test_everything_at_room_temperature_is_at_rest(name, divided):
    state = box_at_source(
        box.cupboard(),
        box.air_path(divided),
        box.COLD_SIDES[name](),
        293.15,
        Surroundings.of_room(293.15, 0.4),
    )
    assert abs(state.heat) < 0.02
    assert state.air_temperature == pytest.approx(293.15, abs=0.05)
    assert np.isfinite(state.surface.film_coefficient)


@pytest.mark.parametrize("divided", [True, False, "each other"])
@pytest.mark.parametrize("name", box.COLD_SIDES)
def test_a_lane_is_the_same_alone(name, divided):
    count = 9
    source = box.ZERO_C + np.linspace(-14.0, 25.0, count)
    warm = box.ZERO_C + np.linspace(10.0, 35.0, count)
    cork = np.linspace(0.03, 0.12, count)
    split = np.arange(count) % 2 == 0 if divided == "each other" else np.full(count, divided)
    cold_side = box.COLD_SIDES[name]()
    together = box_at_source(
        box.cupboard(cork), box.air_path(split), cold_side, source, box.room(warm)
    )
    back = box_at_air(
        box.cupboard(cork), box.air_path(split), cold_side, source + 5.0, box.room(warm)
    )
    for lane in range(count):
        parts = (box.cupboard(cork[lane]), box.air_path(split[lane]), cold_side)
        alone = box_at_source(*parts, source[lane], box.room(warm[lane]))
        assert alone.heat == pytest.approx(together.heat[lane], rel=1e-9, abs=1e-9)
        assert alone.air_temperature == pytest.approx(together.air_temperature[lane], rel=1e-12)
        other = box_at_air(*parts, source[lane] + 5.0, box.room(warm[lane]))
        assert other.source_temperature == pytest.approx(back.source_temperature[lane], rel=1e-11)


@few
@given(
    draw=st.lists(st.floats(0.0, 1.0), min_size=10, max_size=10),
    name=st.sampled_from(sorted(box.COLD_SIDES)),
    divided=st.booleans(),
)
def test_any_sensible_box_closes(draw, name, divided):
    def between(index, low, high):
        return low + draw[index] * (high - low)

    cabinet = box.cupboard(
        between(0, 0.02, 0.15),
        leakage_area_high=between(1, 0.0, 5e-5),
        door_openings_per_day=between(2, 0.0, 40.0),
        contents_heat=between(3, 0.0, 10.0),
        contents_moisture=between(4, 0.0, 5e-7),
    )
    room = box.ZERO_C + between(5, 8.0, 40.0)
    path = box.air_path(
        divided, between(6, 0.006, 0.1), ledge_loss=between(7, 0.0, 5.0), cold_surface_centre=0.5
    )
    state = box_at_source(
        cabinet,
        path,
        box.COLD_SIDES[name](),
        room - between(8, 8.0, 35.0),
        box.room(room, between(9, 0.2, 0.9)),
    )
    assert state.residual < 1e-9
    assert state.heat > 0.0
