"""The tubes of one settled state as sections of a chart: zones, lengths and temperatures, in SI."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array
from coldwright.plant.box import conditions
from coldwright.plant.evaluation import Evaluation
from coldwright.plant.system import SealedSystem
from coldwright.plant.tube_courses import (
    Course,
    capillary_course_of,
    condenser_courses,
    evaporator_courses,
    suction_line_courses,
)
from coldwright.sheet.charts.cycle import point_of
from coldwright.verdict.case import Case
from coldwright.verdict.figures import at_lane

# A zone that takes less of its tube than this is left out.
LEAST_ZONE = 0.01
# Quality under which a flow counts as liquid only; the march rounds its flash point over 5e-4.
LIQUID_ONLY = 2e-3


@dataclass(frozen=True)
class Zone:
    """One zone of a tube; both tuples as long as each other."""

    name: str
    positions: tuple[float, ...]  # [m] from the tube's inlet
    temperatures: tuple[float, ...]  # [K]

    @property
    def length(self) -> float:
        """Length [m]."""
        return abs(self.positions[-1] - self.positions[0])


@dataclass(frozen=True)
class Section:
    """One tube in the order of the flow."""

    name: str
    length: float  # [m]
    zones: tuple[Zone, ...]
    beside: Zone | None = None  # the gas that a capillary gives its heat to
    enters_with_gas: bool = False  # a capillary's inlet is not all liquid
    flash: float | None = None  # [m] where what is all liquid in a capillary begins to flash

    def zone(self, name: str) -> Zone | None:
        """The zone called `name`; None where there is none."""
        return next((each for each in self.zones if each.name == name), None)


def sections(case: Case, state: str) -> tuple[Section, ...]:
    """Condenser, capillary, evaporator and suction line of `case` at a balanced state."""
    point, system = point_of(case, state), case.translation.plant.system
    e, source = point.balance.evaluation, point.box.source_temperature
    at = conditions(case.translation.room, source)
    line = suction_line_courses(system, e, at)
    return (
        _section("condenser", system.condenser.length, condenser_courses(system, e)),
        _capillary(system, e, line["exchanger"]),
        _section("evaporator", system.evaporator.length, evaporator_courses(system, e, source)),
        _section("suction line", system.suction_line.length, line),
    )


def _section(name: str, length: Array, courses: dict[str, Course]) -> Section:
    whole = at_lane(length, 0)
    zones = (_zone(each, course) for each, course in courses.items())
    return Section(name, whole, tuple(each for each in zones if each.length > LEAST_ZONE * whole))


def _zone(name: str, course: Course) -> Zone:
    positions = np.broadcast_to(course.position, course.temperature.shape)
    return Zone(name, tuple(_lane_0(positions)), tuple(_lane_0(course.temperature)))


def _lane_0(values: Array) -> Iterator[float]:
    return (at_lane(each, 0) for each in values)


def _capillary(system: SealedSystem, e: Evaluation, gas: Course) -> Section:
    """The capillary, with what falls behind its end, and the gas of its exchanger beside it."""
    course, tube = capillary_course_of(system, e), system.capillary
    length, joined = at_lane(tube.length, 0), at_lane(tube.exchanger_length, 0)
    positions = (*_lane_0(course.position), length)
    boiling = at_lane(e.unknowns.evaporating_temperature, 0)
    flow = Zone("capillary", positions, (*_lane_0(course.temperature), boiling))
    beside = None
    if joined > 0.0:
        end = at_lane(tube.exchanger_start, 0) + joined
        along = tuple(end - each for each in _lane_0(gas.position))
        beside = Zone("return gas", along, tuple(_lane_0(gas.temperature)))
    qualities = list(_lane_0(course.quality))
    liquid = [place for place, quality in enumerate(qualities) if quality < LIQUID_ONLY]
    flash = positions[liquid[-1]] if liquid and liquid[-1] + 1 < len(qualities) else None
    return Section(
        "capillary", length, (flow,), beside, enters_with_gas=0 not in liquid, flash=flash
    )
