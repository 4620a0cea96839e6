"""The clock against limits and conservation: heat, the step, steady states."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from coldwright.build import loads
from coldwright.clock.advance import heat_of
from coldwright.clock.cold_table import dry_cold_side
from coldwright.clock.network import AIR, CONTENTS, NODE
from coldwright.clock.run import run
from coldwright.clock.store import SteadyStore
from coldwright.parts.cold_box import box_at_source
from coldwright.parts.conditions import Surroundings
from coldwright.plant import machine_map
from coldwright.plant.balance import settle
from coldwright.plant.box import conditions
from coldwright.plant.charge_rule import FixedCharge
from coldwright.plant.evaluation import Conditions
from coldwright.plant.operation import operate
from coldwright.verdict.day import run_day
from support.builds import build_text
from support.on_clock import on_clock, set_to

DAY = 1440
NAMES = ("larder", "cheese", "galley")


@pytest.mark.parametrize("name", NAMES)
def test_heat_closes_over_two_days_of_doors_and_goods(name):
    """What came in is what went out, melted and is stored, to rounding (asked for: 0.1 %)."""
    case = on_clock(name)
    plant = case.plant()
    course = run(plant, case.warm(plant), case.plan, 2 * DAY)
    assert np.all(course.tally.closure(heat_of(plant, course.moment)) < 1e-6)


@pytest.mark.parametrize("name", NAMES)
def test_half_the_step_gives_the_same_day(name):
    """From warm, two days with doors: mean air within 0.02 K, energy within 0.5 %."""
    case = on_clock(name)
    plant = case.plant()
    whole, half = (
        run(plant, case.warm(plant), case.plan, 2 * DAY, steps_per_minute=steps).tally
        for steps in (1, 2)
    )
    assert whole.mean(AIR) == pytest.approx(half.mean(AIR), abs=0.02)
    assert whole.energy == pytest.approx(half.energy, rel=0.005)
    assert whole.starts == pytest.approx(half.starts, abs=1.0)


def test_more_slices_give_the_same_day():
    """Walls cut twice as fine: pull-down air within 0.05 K, energy of two days within 0.3 %."""
    case = on_clock("larder")
    courses = [
        run(plant, case.warm(plant), case.plan, 2 * DAY)
        for plant in (case.plant(), case.plant(slices=12))
    ]
    coarse, fine = (each.records["air"][:, 0] for each in courses)
    assert np.max(np.abs(coarse - fine)[:400]) < 0.05
    assert courses[0].tally.energy == pytest.approx(courses[1].tally.energy, rel=0.003)


def test_lanes_do_not_touch_each_other():
    """Three thermostats side by side do what each does alone."""
    case = on_clock("galley")
    into, out = np.array([278.0, 279.0, 280.5]), np.array([276.0, 276.5, 278.0])
    plant = replace(case, parts=set_to(case.parts, into, out)).plant(count=3)
    together = run(plant, case.warm(plant), case.plan, DAY)
    for lane in range(3):
        alone = replace(case, parts=set_to(case.parts, into[lane], out[lane])).plant()
        single = run(alone, case.warm(alone), case.plan, DAY)
        assert together.tally.starts[lane] == single.tally.starts[0]
        air = together.records["air"][:, lane]
        assert air == pytest.approx(single.records["air"][:, 0], abs=1e-6)


def test_a_head_in_the_cold_takes_the_control_over():
    """A bulb in the air whose tube runs over the cold plate starts once the plate is at cut-in.

    So its air is warmer than with a liquid fill, and the plate stops the machine long before the
    air would.
    """
    case = on_clock("cheese")
    into, out = 285.0, 283.0
    air, node = {}, {}
    for head in ("cold side", "room", "none"):
        control = replace(set_to(case.parts, into, out).control, head=head)
        plant = replace(case, parts=replace(case.parts, control=control)).plant()
        course = run(plant, case.warm(plant), case.plan.shut(), 2 * DAY, count_from=DAY)
        running = course.records["running"][DAY:, 0] > 0.5
        starts = np.flatnonzero(running[1:] & ~running[:-1])
        assert starts.size > 3
        air[head] = course.tally.mean(AIR)[0]
        node[head] = np.min(course.records["node"][DAY:, 0][starts])
    assert air["none"] == air["room"] == pytest.approx(284.0, abs=0.5)
    assert node["cold side"] > into - 0.3
    assert air["cold side"] > into > air["none"]


@pytest.mark.parametrize("name", ["larder", "galley"])
def test_walls_and_air_come_to_the_box_at_rest(name):
    """Held node, machine off, door shut: after ten days the box of `box_at_source`, 0.1 K, 1 %."""
    case = on_clock(name)
    plant = replace(case, parts=set_to(case.parts, 400.0, 100.0)).plant()
    plant = replace(plant, store=SteadyStore(np.array([1e12])))
    node = 270.0
    start = case.warm(plant)
    nodes = start.state.nodes.copy()
    nodes[NODE] = node
    start = replace(start, state=replace(start.state, nodes=nodes), humidity=np.array([1e-4]))
    dry = replace(case.plan.shut(), humidity=np.array([0.02]))
    course = run(plant, start, dry, 10 * DAY, count_from=9 * DAY)
    plain = case.found.plant.box
    cabinet = replace(
        plain.cabinet, door_openings_per_day=np.zeros(()), warm_load_capacity_flow=np.zeros(())
    )
    around = Surroundings.of_room(float(dry.room[0]), 0.02, case.pressure)
    cold_side = dry_cold_side(plain.cold_side)
    source = np.array(node)
    if cold_side.source_is_air:
        # a held metal: its compartment is warmer by heat over both conductances
        source = np.array(node) + 0.0
        for _ in range(30):
            at_rest = box_at_source(cabinet, plain.air_path, cold_side, source, around)
            source = source + 0.5 * (node - at_rest.surface_temperature)
    at_rest = box_at_source(cabinet, plain.air_path, cold_side, source, around)
    assert course.tally.mean(AIR)[0] == pytest.approx(float(at_rest.air_temperature), abs=0.1)
    assert course.tally.mean(CONTENTS)[0] == pytest.approx(course.tally.mean(AIR)[0], abs=0.02)
    heat = float(course.tally.gained[0]) / (DAY * 60.0)
    assert heat == pytest.approx(float(at_rest.heat), rel=0.01)


def test_a_held_node_is_cooled_as_the_balance_says():
    """Machine never stopping on a held brine: capacity and power of `settle`, within 0.5 %."""
    case = on_clock("larder")
    plant = replace(case, parts=set_to(case.parts, 200.0, 100.0)).plant()
    plant = replace(plant, store=SteadyStore(np.array([1e12])))
    course = run(plant, case.warm(plant), case.plan.shut(), 600, count_from=540)
    cold_side = dry_cold_side(case.found.plant.box.cold_side)
    system = replace(case.found.plant.system, cold_side=cold_side)
    at = conditions(case.found.room, case.found.room.temperature)
    e = settle(system, at, FixedCharge(np.array(case.charge))).evaluation
    hour = 3600.0
    assert course.tally.removed[0] / hour == pytest.approx(float(e.evaporator.heat), rel=0.005)
    assert course.tally.energy[0] / hour == pytest.approx(float(e.compressor.power), rel=0.005)
    assert course.records["shell"][-1, 0] == pytest.approx(float(e.shell_temperature), abs=0.5)


def test_a_brine_box_runs_as_much_as_the_steady_states_say():
    """Brine, door shut: heat within 3 %, run fraction within 4 % of `operate` at the same air."""
    case = on_clock("larder")
    plant = case.plant()
    tally = run(plant, case.warm(plant), case.plan.shut(), 5 * DAY, count_from=3 * DAY).tally
    plain = case.found.plant
    shut = replace(
        plain.box.cabinet,
        door_openings_per_day=np.zeros(()),
        warm_load_capacity_flow=np.zeros(()),
    )
    cold_side = dry_cold_side(plain.box.cold_side)
    box = replace(plain.box, cabinet=shut, cold_side=cold_side)
    steady = operate(
        replace(plain, box=box, system=replace(plain.system, cold_side=cold_side)),
        case.found.room,
        tally.mean(AIR),
        np.array([case.charge]),
        np.array(5.0),
    ).cycling
    assert tally.removed / (2 * DAY * 60.0) == pytest.approx(steady.box.heat, rel=0.03)
    assert tally.run_fraction == pytest.approx(steady.run_fraction, rel=0.04)


def test_the_map_meets_balances_between_its_points():
    """Capacity and power off the grid against `settle` there: within 2 %, 0.5 % in the mean."""
    case = on_clock("larder")
    draw = np.random.default_rng(1)
    source, room = draw.uniform(258.0, 294.0, 40), draw.uniform(276.0, 295.0, 40)
    cold_side = dry_cold_side(case.found.plant.box.cold_side)
    system = replace(case.found.plant.system, cold_side=cold_side)
    at = Conditions(source, room, room, np.full(40, case.pressure))
    e = settle(system, at, FixedCharge(np.full(40, case.charge))).evaluation
    read, _ = case.machine.at(e.unknowns.condensing_temperature, source)
    off = read[[machine_map.CAPACITY, machine_map.POWER]] / [
        e.evaporator.heat,
        e.compressor.power,
    ]
    assert np.max(np.abs(off - 1.0)) < 0.02
    assert np.sqrt(np.mean((off - 1.0) ** 2)) < 0.005


def test_a_freezing_tank_closes_its_heat_and_holds_through_a_cut():
    """A holdover three days from warm: heat closes, it freezes, a cut lasts."""
    day = run_day(loads(build_text("holdover")), hours=72.0)
    stored = heat_of(day.clock.plant, day.course.moment)
    assert np.all(day.course.tally.closure(stored) < 1e-6)
    share = day.rows["state_of_charge"]
    assert share[0] == 0.0
    assert np.max(share) > 0.95
    assert day.cut_hours is not None
    assert day.cut_hours > 24.0
