"""Pieces of the clock by their own contracts: interpolation, plan, walls, thermostat, stores."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.interpolate import PchipInterpolator

from coldwright.build import loads
from coldwright.build.translation.clock import plan_of
from coldwright.clock.ladder import WallLayer, joined, ladder_of
from coldwright.clock.plan import Plan, once, spread_openings, swing
from coldwright.clock.start import EQUALISING, returned_share
from coldwright.clock.store import FreezingStore, SteadyStore
from coldwright.clock.thermostat import Thermostat, sensed, share_until_switch, wanted
from coldwright.errors import InputError
from coldwright.fluids.filling import filling
from coldwright.parts.cabinet_faces import Layer, layered_face
from coldwright.plant.hermite import Sheet
from support.builds import build_text


def drawn_sheet() -> tuple[Sheet, np.ndarray]:
    draw = np.random.default_rng(4)
    rows, columns = np.array([0.0, 1.0, 2.5, 4.0]), np.array([-2.0, 0.0, 0.5, 3.0, 4.0])
    values = draw.normal(size=(2, 4, 5, 3))
    return Sheet.through(rows, columns, values), values


def test_a_sheet_goes_through_its_points_and_holds_its_edges():
    sheet, values = drawn_sheet()
    at = sheet.at(np.array([1.0, 2.5]), np.array([0.5, 3.0]))
    assert at[:, 0] == pytest.approx(values[0, 1, 2])
    assert at[:, 1] == pytest.approx(values[1, 2, 3])
    beyond = sheet.at(np.array([-9.0, 9.0]), np.array([-9.0, 9.0]))
    assert beyond[:, 0] == pytest.approx(values[0, 0, 0])
    assert beyond[:, 1] == pytest.approx(values[1, -1, -1])


def test_along_a_row_it_is_the_monotone_cubic_of_scipy():
    sheet, values = drawn_sheet()
    at = np.linspace(-2.0, 4.0, 25)
    read, slope = sheet.taken(np.zeros(25, dtype=np.intp)).with_slope(np.full(25, 2.5), at, 1)
    curve = PchipInterpolator(sheet.columns, values[0, 2])
    assert pytest.approx(curve(at)) == read.T
    assert slope == pytest.approx(curve.derivative()(at)[:, 1], abs=1e-9)


def test_a_days_openings_and_loads_add_up():
    for count in (0.0, 1.0, 7.5, 20.0):
        assert np.sum(spread_openings(count)) == pytest.approx(count)
    assert np.sum(once(3.0, 10.0)) == 3.0
    plan = Plan.usual(8.0, 2.0, 294.0, 0.5)
    assert plan.minute(600)[1] == plan.minute(600 + 1440)[1] == 2.0
    assert not plan.without_mains().minute(5)[4]


def test_a_swinging_room_is_warmest_at_three():
    course = swing(288.0, 298.0)
    assert course.argmax() == 15 * 60
    assert (course.min(), course.max()) == pytest.approx((288.0, 298.0))


def test_a_ladder_at_rest_carries_what_its_face_does():
    """Resistances in series are the face's, edges and corners included; heat is kept in slicing."""
    layers = [
        Layer(np.asarray(t), np.asarray(k)) for t, k in ((8e-4, 50.0), (0.05, 0.043), (0.02, 0.17))
    ]
    face = layered_face("left", 0.5, 1.0, layers)
    held = [
        WallLayer(np.asarray(t / k), np.asarray(c))
        for (t, k), c in zip(
            ((8e-4, 50.0), (0.05, 0.043), (0.02, 0.17)), (2900.0, 12e3, 24e3), strict=True
        )
    ]
    ladder = ladder_of(face, held, np.asarray(0.9))
    through = 1.0 / np.sum(1.0 / ladder.conductance, axis=0)
    assert through == pytest.approx(0.9 * face.conductance)
    plane = float(ladder.capacity[0, 0]) / 2900.0
    assert np.sum(ladder.capacity) == pytest.approx(plane * (2900.0 + 36e3))
    both = joined([ladder, ladder])[0]
    assert both.conductance == pytest.approx(2.0 * ladder.conductance)


def test_a_thermostat_waits_for_its_rest_and_its_mains():
    one = np.ones(1)
    control = Thermostat("air", "none", 280.0 * one, 276.0 * one, 60.0 * one, 300.0 * one)
    still, runs = np.zeros(1, dtype=bool), np.ones(1, dtype=bool)
    assert not wanted(control, 281.0 * one, still, 200.0 * one, True)[0]
    assert wanted(control, 281.0 * one, still, 300.0 * one, True)[0]
    assert wanted(control, 278.0 * one, runs, 0.0 * one, True)[0]
    assert not wanted(control, 276.0 * one, runs, 0.0 * one, True)[0]
    assert not wanted(control, 281.0 * one, still, 900.0 * one, False)[0]
    fall = share_until_switch(control, 276.5 * one, 275.5 * one, runs, 0.0 * one, 60.0 * one)
    assert fall == pytest.approx(0.5)
    rest = share_until_switch(control, 281.0 * one, 281.1 * one, still, 270.0 * one, 60.0 * one)
    assert rest == pytest.approx(0.5)


def test_a_vapour_fill_obeys_the_coldest_of_bulb_and_head():
    """A liquid fill its bulb alone."""
    one = np.ones(1)
    for head, felt in (("room", 278.0), ("cabinet", 276.0), ("cold side", 270.0), ("none", 280.0)):
        control = Thermostat("plate", head, 283.0 * one, 275.0 * one, 60.0 * one, 300.0 * one)
        assert sensed(control, 280.0 * one, 270.0 * one, 276.0 * one, 278.0 * one) == felt


def test_the_charge_moves_by_its_time_constants():
    running, none = np.array([True, False]), np.zeros(2)
    after, mean = returned_share(
        np.array([0.0, 1.0]), running, np.full(2, 40.0), none, np.array([40.0, EQUALISING])
    )
    assert after == pytest.approx([1.0 - np.exp(-1.0), np.exp(-1.0)], abs=1e-5)
    assert mean == pytest.approx([np.exp(-1.0), 1.0 - np.exp(-1.0)], abs=1e-5)


def test_a_high_suction_brings_the_charge_back_sooner():
    """Against small steps of the same rate; two halves of a step are the whole."""
    share, surplus, constant, step = 0.1, 1.7, 50.0, 60.0
    one = np.ones(1, dtype=bool)
    found, mean = returned_share(
        np.array([share]), one, np.array([constant]), np.array([surplus]), np.array([step])
    )
    away, passed = 1.0 - share, 0.0
    for _ in range(60000):
        passed += (1.0 - away) / 60000
        away -= step / 60000 * away * (1.0 + surplus * away) / constant
    assert float(found[0]) == pytest.approx(1.0 - away, abs=1e-4)
    assert float(mean[0]) == pytest.approx(passed, abs=1e-4)


@pytest.mark.parametrize("name", ["water", "propylene glycol"])
def test_a_freezing_store_gives_back_what_it_took(name):
    """Heat taken and given again returns to the same temperature; its secant is its heat."""
    store = FreezingStore(filling(name, 0.1), np.array([6.0, 6.0]), np.array([2000.0, 2000.0]))
    start = np.array([285.0, 266.0])
    heat = np.array([-2.2e6, 0.9e6])
    end = store.after(start, heat)
    assert store.heat(end) - store.heat(start) == pytest.approx(heat, rel=1e-9)
    assert store.after(end, -heat) == pytest.approx(start, abs=1e-6)
    assert store.capacity(start, end) * (end - start) == pytest.approx(heat, rel=1e-9)
    assert 0.0 < store.frozen_share(end)[0] <= 1.0


def test_a_steady_store_is_its_heat_capacity():
    store = SteadyStore(np.array([5000.0]))
    assert store.after(np.array([270.0]), np.array([1e4])) == pytest.approx(272.0)
    assert store.capacity(np.array([270.0]), np.array([290.0])) == pytest.approx(5000.0)


DAY = """
[day]
room = "swinging"
first_opening = "8 h"
last_opening = "9 h"
warm_load_at = "12 h"
power_cut_at = "23 h"
power_cut_length = "2 h"
price = "0.25"
"""


def with_day(text: str) -> str:
    return build_text("galley").replace("\n[compressor]\n", f"{text}\n[compressor]\n", 1)


def test_a_build_may_tell_its_day():
    plan = plan_of(loads(with_day(DAY)))
    doors = np.flatnonzero(plan.doors) / 60.0
    assert doors.min() >= 8.0
    assert doors.max() <= 9.0
    assert np.flatnonzero(plan.load) == [720]
    assert not plan.minute(23 * 60 + 30)[4]
    assert not plan.minute(1440 + 30)[4]
    assert plan.minute(90)[4]
    assert np.ptp(plan.room) > 5.0
    assert np.ptp(plan_of(loads(with_day(DAY)), room=295.0).room) == 0.0


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        (('last_opening = "9 h"', 'last_opening = "7 h"'), "after the first opening"),
        (('power_cut_length = "2 h"', ""), "'power_cut_length' is missing"),
        (('first_opening = "8 h"', 'first_opening = "30 h"'), "First"),
    ],
)
def test_a_day_that_cannot_be_is_refused(changed, told):
    with pytest.raises(InputError) as caught:
        loads(with_day(DAY.replace(*changed)))
    assert any(told.lower() in str(fault).lower() for fault in caught.value.faults)
