"""Courses along the tubes against the balance's own sums, energy, and an independent march."""

from __future__ import annotations

import numpy as np
import pytest

from coldwright.plant.box import conditions
from coldwright.plant.tube_courses import (
    capillary_course_of,
    condenser_courses,
    evaporator_courses,
    suction_line_courses,
)
from support.assessed import assessed

STATES = [
    ("larder", "cycling"),
    ("cheese", "running"),
    ("galley", "cycling"),
    ("galley", "running"),
]


@pytest.fixture(params=STATES, ids=" ".join)
def settled(request):
    """The system, its evaluation, and what surrounds it, of one settled state."""
    name, state = request.param
    case = assessed(name).case
    point = getattr(case.operation, state)
    at = conditions(case.translation.room, point.box.source_temperature)
    return case.translation.plant.system, point.balance.evaluation, at


def first(values) -> float:
    return float(np.ravel(values)[0])


def test_the_condenser_gives_off_what_the_balance_says(settled):
    system, e, _ = settled
    zones = condenser_courses(system, e)
    drop = sum(first(each.enthalpy[0] - each.enthalpy[-1]) for each in zones.values())
    flow, heat = first(e.compressor.mass_flow), first(e.condenser.heat)
    assert drop * flow == pytest.approx(heat, rel=1e-4)
    lengths = sum(first(each.position[-1] - each.position[0]) for each in zones.values())
    assert lengths == pytest.approx(first(system.condenser.length), rel=1e-9)
    start, end = zones["gas"].temperature[0], zones["liquid"].temperature[-1]
    assert first(start) == pytest.approx(first(e.compressor.discharge_temperature), abs=1e-9)
    leaving = first(e.unknowns.condensing_temperature - e.subcooling)
    assert first(end) == pytest.approx(leaving, abs=1e-6)


def test_gas_in_the_condenser_cools_towards_its_sink_exponentially(settled):
    system, e, _ = settled
    gas = condenser_courses(system, e)["gas"]
    over = gas.temperature[:, 0] - first(e.condenser.outside.sink_temperature)
    steps = np.diff(np.log(over))
    assert np.all(over > 0.0)
    # even steps of the logarithm; the driving difference is rounded by a hundredth of a kelvin
    assert steps == pytest.approx(np.full(len(steps), steps.mean()), rel=2e-3)


def test_the_capillary_ends_where_the_tube_ends(settled):
    system, e, _ = settled
    course = capillary_course_of(system, e)
    needed = first(e.capillary.required_length)
    assert first(course.position[-1]) == pytest.approx(needed, rel=1e-9)
    assert needed == pytest.approx(first(system.capillary.length), rel=1e-6)
    assert first(course.taken_share[-1]) == pytest.approx(1.0, abs=1e-6)
    assert np.all(np.diff(course.pressure[:, 0]) < 0.0)
    assert np.all(np.diff(course.position[:, 0]) >= 0.0)


def test_the_evaporator_takes_in_what_the_balance_says(settled):
    system, e, at = settled
    zones = evaporator_courses(system, e, at.source_temperature)
    rise = sum(first(each.enthalpy[-1] - each.enthalpy[0]) for each in zones.values())
    flow, heat = first(e.compressor.mass_flow), first(e.evaporator.heat)
    assert rise * flow == pytest.approx(heat, rel=1e-6)
    superheat = first(zones["dry"].temperature[-1] - e.unknowns.evaporating_temperature)
    assert superheat == pytest.approx(first(e.returning.superheat), abs=1e-6)


def test_the_return_gas_comes_to_the_shell_as_the_balance_says(settled):
    system, e, at = settled
    zones = suction_line_courses(system, e, at)
    assert first(zones["line"].temperature[-1]) == pytest.approx(
        first(e.returning.temperature), abs=1e-3
    )
    warmed = first(zones["exchanger"].enthalpy[-1] - zones["exchanger"].enthalpy[0])
    assert warmed == pytest.approx(first(e.unknowns.exchanged_heat), rel=1e-4)
    assert first(zones["line"].position[-1]) == pytest.approx(first(system.suction_line.length))


def test_gas_in_the_exchanger_obeys_its_own_heat_balance():
    # An independent march: explicit steps of dT = n (T_capillary - T) ds along the joined length,
    # n from the film and the capacity that `gas_side` gives; the course itself is an integral.
    from coldwright.parts.return_exchanger import gas_side

    case = assessed("galley").case
    system, point = case.translation.plant.system, case.operation.cycling
    e = point.balance.evaluation
    at = conditions(case.translation.room, point.box.source_temperature)
    low = system.refrigerant.saturated(e.unknowns.evaporating_temperature)
    leaving = system.refrigerant.suction(low, e.evaporator.exit_enthalpy)
    liquid = e.unknowns.condensing_temperature - e.subcooling
    gas = gas_side(
        system.suction_line,
        system.refrigerant,
        low,
        leaving,
        e.compressor.mass_flow,
        liquid,
        e.evaporator.exit_enthalpy,
    )
    course = capillary_course_of(system, e)
    places, temperatures = course.position[:, 0], course.temperature[:, 0]
    start, joined = (
        first(each)
        for each in (system.capillary.exchanger_start, system.capillary.exchanger_length)
    )
    units, here = first(gas.transfer_units_per_metre), first(gas.inlet_temperature)
    steps = 4000
    for step in range(steps):
        place = start + joined * (1.0 - (step + 0.5) / steps)
        here += units * (np.interp(place, places, temperatures) - here) * joined / steps
    warmed = (here - first(gas.inlet_temperature)) * first(gas.capacity)
    assert warmed == pytest.approx(first(e.unknowns.exchanged_heat), rel=0.01)
    line = suction_line_courses(system, e, at)["exchanger"]
    assert np.all(np.diff(line.temperature[:, 0]) >= -1e-9)


def test_lanes_stay_apart():
    # The changes beside the build are lanes of the same evaluation; a course of one lane alone is
    # that lane of all of them.
    from coldwright.parts.lane_tools import take_lanes

    case = assessed("cheese").case
    point = case.operation.cycling
    e, count = point.balance.evaluation, len(np.ravel(point.balance.charge))
    system = take_lanes(case.translation.plant.system, np.array([0]), count)
    one = take_lanes(e, np.array([0]), count)
    source = np.ravel(point.box.source_temperature)[:1]
    whole = evaporator_courses(case.translation.plant.system, e, point.box.source_temperature)
    alone = evaporator_courses(system, one, source)
    assert whole["dry"].temperature.shape[1] == count
    assert alone["dry"].temperature[:, 0] == pytest.approx(whole["dry"].temperature[:, 0])
