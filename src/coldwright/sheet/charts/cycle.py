"""The real points of a settled machine's cycle, once round, in SI."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array
from coldwright.plant.evaluation import Evaluation
from coldwright.plant.operation import Point
from coldwright.plant.system import SealedSystem
from coldwright.plant.tube_courses import capillary_course_of, evaporator_courses
from coldwright.verdict.case import Case
from coldwright.verdict.figures import at_lane

# A zone that takes less of its tube than this is not told apart.
LEAST_ZONE = 0.01
STATES = {"cycling": "holding the target", "running": "never stopping"}


@dataclass(frozen=True)
class CyclePoint:
    """One state on the way round."""

    name: str
    pressure: float  # [Pa]
    enthalpy: float  # [J/kg]
    temperature: float  # [K]


@dataclass(frozen=True)
class Cycle:
    """One state of the machine: its named points, and the capillary's own line between two."""

    state: str
    points: tuple[CyclePoint, ...]
    throttling: tuple[tuple[float, float], ...]  # pressure [Pa], enthalpy [J/kg]
    flow: float  # [kg/s]
    capacity: float  # [W]
    exchanged: float  # [J/kg] from capillary to return gas

    def at(self, name: str) -> CyclePoint:
        """The point called `name`."""
        return next(each for each in self.points if each.name == name)

    @property
    def way(self) -> tuple[tuple[float, float], ...]:
        """Pressure [Pa] and enthalpy [J/kg] once round, from the shell back to it."""
        names = [each.name for each in self.points]
        before = names.index(LEAVES_CONDENSER) + 1
        corners = [(each.pressure, each.enthalpy) for each in self.points]
        return (*corners[:before], *self.throttling, *corners[before:], corners[0])


AT_SHELL, IN_CYLINDER, DISCHARGE = "gas at the shell", "gas in the cylinder", "discharge gas"
BEGINS_CONDENSING, ALL_LIQUID = "begins to condense", "all liquid"
LEAVES_CONDENSER, ENTERS_EVAPORATOR = "leaves the condenser", "enters the evaporator"
ALL_GAS, LEAVES_EVAPORATOR = "all gas", "leaves the evaporator"
AFTER_EXCHANGER = "after the exchanger"


def point_of(case: Case, state: str) -> Point:
    """The plant at a key of `STATES`."""
    return case.operation.cycling if state == "cycling" else case.operation.running


def cycle(case: Case, state: str) -> Cycle | None:
    """The cycle of `case` at a key of `STATES`; None without a balance.

    Enthalpies along the capillary count the flow's kinetic energy, so that differences are heat.
    """
    if not case.machine(state).balanced:
        return None
    point, system = point_of(case, state), case.translation.plant.system
    e = point.balance.evaluation
    return Cycle(
        state=state,
        points=(
            *_machine_points(system, e),
            *_hot_points(system, e),
            *_cold_points(system, e, point.box.source_temperature),
        ),
        throttling=tuple(_throttling(system, e)),
        flow=at_lane(e.compressor.mass_flow, 0),
        capacity=at_lane(e.evaporator.heat, 0),
        exchanged=at_lane(e.unknowns.exchanged_heat, 0),
    )


def _point(name: str, pressure: Array, enthalpy: Array, temperature: Array) -> CyclePoint:
    return CyclePoint(name, *(at_lane(each, 0) for each in (pressure, enthalpy, temperature)))


def _machine_points(system: SealedSystem, e: Evaluation) -> Iterator[CyclePoint]:
    """Shell inlet, cylinder as its suction valve shuts, discharge."""
    low, inside = e.suction_pressure, e.compressor.cylinder_inlet_temperature
    throttled = low**2 / (low + system.compressor.suction_valve_drop)
    drawn = system.refrigerant.vapour(throttled, inside).enthalpy
    yield _point(AT_SHELL, low, e.unknowns.return_enthalpy, e.returning.temperature)
    yield _point(IN_CYLINDER, throttled, drawn, inside)
    yield _point(
        DISCHARGE,
        e.discharge_pressure,
        e.compressor.discharge_enthalpy,
        e.compressor.discharge_temperature,
    )


def _hot_points(system: SealedSystem, e: Evaluation) -> Iterator[CyclePoint]:
    """Where the condenser's zones meet, and what leaves it."""
    state, condensing = e.condenser, e.unknowns.condensing_temperature
    high = system.refrigerant.saturated(condensing)
    pressure, leaving = e.discharge_pressure, state.exit_enthalpy
    if at_lane(state.condensing_share, 0) > LEAST_ZONE:
        begins = np.maximum(high.vapour_enthalpy, leaving)
        yield _point(BEGINS_CONDENSING, pressure, begins, condensing)
    if at_lane(state.liquid_share, 0) > LEAST_ZONE:
        ends = np.maximum(high.liquid_enthalpy, leaving)
        yield _point(ALL_LIQUID, pressure, ends, condensing)
    yield _point(LEAVES_CONDENSER, pressure, leaving, condensing - e.subcooling)


def _cold_points(system: SealedSystem, e: Evaluation, source: Array) -> Iterator[CyclePoint]:
    """Evaporator inlet, where it runs dry, its exit, and the gas behind the exchanger."""
    low, boiling = e.suction_pressure, e.unknowns.evaporating_temperature
    entering = e.condenser.exit_enthalpy - e.unknowns.exchanged_heat
    leaving = e.evaporator.exit_enthalpy
    yield _point(ENTERS_EVAPORATOR, low, entering, boiling)
    if at_lane(e.evaporator.wet_share, 0) < 1.0 - LEAST_ZONE:
        dry = evaporator_courses(system, e, source)["dry"]
        yield _point(ALL_GAS, low, dry.enthalpy[0], boiling)
    yield _point(LEAVES_EVAPORATOR, low, leaving, boiling + e.returning.superheat)
    if at_lane(system.suction_line.joined_length, 0) > 0.0:
        at = system.refrigerant.saturated(boiling)
        warmed = leaving + e.unknowns.exchanged_heat
        yield _point(
            AFTER_EXCHANGER, low, warmed, system.refrigerant.suction(at, warmed).temperature
        )


def _throttling(system: SealedSystem, e: Evaluation) -> Iterator[tuple[float, float]]:
    """The capillary's own line, and the fall behind its end where it is choked."""
    course, taken = capillary_course_of(system, e), e.unknowns.exchanged_heat
    shares = np.broadcast_to(course.taken_share, course.pressure.shape)
    for pressure, share in zip(course.pressure, shares, strict=True):
        yield at_lane(pressure, 0), at_lane(e.condenser.exit_enthalpy - taken * share, 0)
    yield at_lane(e.suction_pressure, 0), at_lane(e.condenser.exit_enthalpy - taken, 0)
