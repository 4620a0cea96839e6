"""The clock itself: minute after minute, all lanes in step, each switching at its own instant."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array
from coldwright.clock.advance import FLOWS, Advanced, heat_of, step_after_break, step_from
from coldwright.clock.air import SaturationLine, opened, outside_of
from coldwright.clock.network import AIR, BULB, CONTENTS, NODE, Ladders, State
from coldwright.clock.plan import Plan
from coldwright.clock.plant import ClockPlant, Moment, Outside
from coldwright.clock.tally import Records, Tally
from coldwright.clock.thermostat import sensed, share_until_switch, wanted
from coldwright.fluids.moist_air import humidity_ratio

MINUTE = 60.0
AIR_MINUTES = 5
"""The flow through the gaps is worked out anew every so many minutes."""

AFTER_DOOR = np.array([1.0, 2.0, 4.0, 8.0]) / 15.0
"""Parts of the step after a door was opened: the air is back within a few seconds of its walls."""

SWITCHES = 6
"""Most switches of a lane within one step."""

Progress = Callable[[float], None]


@dataclass(frozen=True)
class Course:
    """A run: where it ended, sums over it, and rows by the minute; `minutes` that were done."""

    plant: ClockPlant
    moment: Moment
    tally: Tally
    records: Records
    minutes: int
    complete: bool


def at_rest(plant: ClockPlant, air: Array, outer: Array, humidity: Array) -> Moment:
    """Everything inside at `air` [K], walls straight to `outer` [K], the machine cold and still.

    humidity: relative, of the stored air. With air and outer alike: a box that has stood open.
    """
    lanes = plant.lanes
    warm = np.broadcast_to(outer, (lanes,)).astype(np.float64)
    cold = np.broadcast_to(air, (lanes,)).astype(np.float64)
    nodes = np.stack([cold, cold, cold, warm, warm, cold])
    capacity = plant.walls.capacity
    depth = np.arange(len(capacity)).reshape(-1, 1, 1) / max(len(capacity) - 1, 1)
    walls = np.broadcast_to(cold + (warm - cold) * depth, capacity.shape).copy()
    return Moment(
        state=State(nodes, walls),
        humidity=humidity_ratio(cold, np.broadcast_to(humidity, (lanes,)), plant.pressure),
        frost=np.zeros(lanes),
        running=np.zeros(lanes, dtype=np.bool_),
        returned=np.zeros(lanes),
        standing=np.full(lanes, 1e6),
        drift=np.zeros((3, lanes)),
    )


def run(
    plant: ClockPlant,
    start: Moment,
    plan: Plan,
    minutes: int,
    *,
    first_minute: int = 0,
    count_from: int = 0,
    rows_at: NDArray[np.intp] | None = None,
    steps_per_minute: int = 1,
    target: Array | float = 0.0,
    progress: Progress = lambda _: None,
) -> Course:
    """Run `minutes` of `plan` from `start`, its clock at `first_minute` of the plan.

    Sums are kept from minute `count_from` on; rows at the ends of the minutes `rows_at` (counted
    from 1; None: of all). target [K]: the stored air whose first reaching is noted. Interrupted
    (KeyboardInterrupt), it gives what it has.
    """
    line = SaturationLine.at(float(plant.pressure[0]))
    tally = Tally(plant.lanes, heat_of(plant, start))
    records = Records.empty(plant.lanes, np.arange(1, minutes + 1) if rows_at is None else rows_at)
    clock = _Clock(plant, plan, line, steps_per_minute)
    moment, fresh = start, np.ones(plant.lanes, dtype=np.bool_)
    done = 0
    try:
        for minute in range(minutes):
            moment, fresh, passed = clock.minute(moment, fresh, first_minute + minute)
            tally.add(passed, moment, minute, counted=minute >= count_from, target=target)
            records.add(minute + 1, passed, moment)
            done = minute + 1
            progress(done / minutes)
    except KeyboardInterrupt:
        return Course(plant, moment, tally, records.cut(done), done, complete=False)
    return Course(plant, moment, tally, records, done, complete=True)


@dataclass(frozen=True)
class Passed:
    """One minute: mean flows `[FLOWS, lane]`, the last step's machine and films, events."""

    flows: Array
    machine: Array
    films: Array
    started: Array  # starts in it
    stopped: NDArray[np.bool_]
    brought: Array  # heat [J] by door and warm goods
    room: Array  # [K]


class _Clock:
    """One plan upon one plant; keeps the room's air between the minutes."""

    def __init__(self, plant: ClockPlant, plan: Plan, line: SaturationLine, steps: int) -> None:
        self.plant, self.plan, self.line = plant, plan, line
        self.outside: Outside | None = None
        self.weather: tuple[float, float] | None = None
        even = np.full(plant.lanes, MINUTE / steps)
        self.even = [Ladders.of(plant.walls, even)] * steps
        self.broken = [Ladders.of(plant.walls, share * even) for share in AFTER_DOOR]

    def minute(
        self, moment: Moment, fresh: NDArray[np.bool_], minute: int
    ) -> tuple[Moment, NDArray[np.bool_], Passed]:
        """Doors and goods at its beginning, then its steps."""
        plant = self.plant
        doors, load, room, humidity, mains = self.plan.minute(minute)
        outside = self._outside(moment, minute, room, humidity)
        brought = np.zeros(plant.lanes)
        if doors > 0.0:
            moment, heat = opened(plant, moment, outside, np.full(plant.lanes, doors))
            brought = brought + heat
        if load > 0.0:
            moment, heat = _loaded(plant, moment, load)
            brought = brought + heat
        started, stopped = np.zeros(plant.lanes), np.zeros(plant.lanes, dtype=np.bool_)
        flows = np.zeros((len(FLOWS), plant.lanes))
        for ladders in [*self.broken, *self.even[1:]] if doors > 0.0 else self.even:
            felt = _sensed(plant, moment, outside)
            want = wanted(plant.control, felt, moment.running, moment.standing, mains)
            turned = want != moment.running
            started, stopped = started + (turned & want), stopped | (turned & ~want)
            moment, fresh = replace(moment, running=want), fresh | turned
            step = _Step(plant, self.line, outside, mains)
            ahead, again = step.all_lanes(moment, fresh, ladders)
            moment, fresh = ahead.moment, again.turned
            flows += ahead.flows * (ladders.length / MINUTE)
            started, stopped = started + again.started, stopped | again.stopped
        passed = Passed(
            flows,
            ahead.machine,
            ahead.films,
            started,
            stopped,
            brought,
            outside.room,
        )
        return moment, fresh, passed

    def _outside(self, moment: Moment, minute: int, room: float, humidity: float) -> Outside:
        """The room, with the flow through the gaps where it is due."""
        if self.outside is None or self.weather != (room, humidity) or minute % AIR_MINUTES == 0:
            plant = self.plant
            warm = room + plant.room_offset
            ratio = humidity_ratio(warm, humidity, plant.pressure)
            air = moment.state.nodes[AIR]
            self.outside = outside_of(
                plant.openings, warm, ratio, air, moment.humidity, plant.pressure
            )
            self.weather = (room, humidity)
        return self.outside


@dataclass(frozen=True)
class _Again:
    """What lanes did that were taken again: whether they turned, starts, stops."""

    turned: NDArray[np.bool_]
    started: Array
    stopped: NDArray[np.bool_]


@dataclass(frozen=True)
class _Step:
    """One step of all lanes; lanes that switch or have just switched are taken again by parts."""

    plant: ClockPlant
    line: SaturationLine
    outside: Outside
    mains: bool

    def all_lanes(
        self, moment: Moment, fresh: NDArray[np.bool_], ladders: Ladders
    ) -> tuple[Advanced, _Again]:
        """Go on by the ladders' length."""
        length = ladders.length
        lanes = self.plant.lanes
        started, stopped = np.zeros(lanes), np.zeros(lanes, dtype=np.bool_)
        turned = np.zeros(lanes, dtype=np.bool_)
        if np.all(fresh):
            ahead, again = None, np.arange(lanes)
        else:
            ahead = step_from(self.plant, self.line, moment, self.outside, ladders)
            again = np.flatnonzero(fresh | np.isfinite(self._share(moment, ahead, length)))
        if again.size or ahead is None:
            part, starts, stops = self._taken(again)._by_parts(
                moment.taken(again), length[again], SWITCHES
            )
            started[again], stopped[again] = starts, stops
            turned[again] = (starts > 0.0) | stops
            ahead = part if ahead is None or again.size == lanes else _put(ahead, again, part)
        return ahead, _Again(turned, started, stopped)

    def _taken(self, wanted_lanes: NDArray[np.intp]) -> _Step:
        if wanted_lanes.size == self.plant.lanes:
            return self
        return replace(
            self,
            plant=self.plant.taken(wanted_lanes),
            outside=self.outside.taken(wanted_lanes),
        )

    def _share(self, moment: Moment, ahead: Advanced, length: Array) -> Array:
        """Share of the step after which each lane switches."""
        if not self.mains:
            return np.full(length.shape, np.inf)
        return share_until_switch(
            self.plant.control,
            _sensed(self.plant, moment, self.outside),
            _sensed(self.plant, ahead.moment, self.outside),
            moment.running,
            moment.standing,
            length,
        )

    def _by_parts(
        self, moment: Moment, length: Array, left: int
    ) -> tuple[Advanced, Array, NDArray[np.bool_]]:
        """Go on by `length` [s], stopping and starting at each lane's own instant."""
        whole = step_after_break(self.plant, self.line, moment, self.outside, length)
        share = self._share(moment, whole, length)
        cut = np.flatnonzero(share < 1.0 - 1e-9) if left else np.zeros(0, dtype=np.intp)
        starts, stops = np.zeros(length.size), np.zeros(length.size, dtype=np.bool_)
        if cut.size == 0:
            return whole, starts, stops
        part, before = self._taken(cut), moment.taken(cut)
        first_length = np.maximum(share[cut] * length[cut], 1e-3)
        first = step_after_break(part.plant, self.line, before, part.outside, first_length)
        running = ~before.running
        turned = replace(first.moment, running=running)
        rest = np.maximum(length[cut] - first_length, 1e-3)
        then, more, fewer = part._by_parts(turned, rest, left - 1)
        starts[cut], stops[cut] = running + more, ~running | fewer
        weight = first_length / (first_length + rest)
        flows = weight * first.flows + (1.0 - weight) * then.flows
        return _put(whole, cut, replace(then, flows=flows)), starts, stops


def _sensed(plant: ClockPlant, moment: Moment, outside: Outside) -> Array:
    """What the thermostat obeys [K]."""
    nodes = moment.state.nodes
    return sensed(plant.control, nodes[BULB], nodes[NODE], nodes[AIR], outside.room)


def _put(whole: Advanced, wanted_lanes: NDArray[np.intp], part: Advanced) -> Advanced:
    """`whole` with the lanes of `part` in their places."""
    if wanted_lanes.size == whole.flows.shape[-1]:
        return part
    flows, machine, films = whole.flows.copy(), whole.machine.copy(), whole.films.copy()
    flows[:, wanted_lanes], machine[:, wanted_lanes] = part.flows, part.machine
    films[:, wanted_lanes] = part.films
    return Advanced(whole.moment.put(wanted_lanes, part.moment), flows, machine, films)


def _loaded(plant: ClockPlant, moment: Moment, mass: float) -> tuple[Moment, Array]:
    """Warm goods come to the contents and as many leave; and the heat [J] they bring."""
    nodes = moment.state.nodes.copy()
    share = np.minimum(mass * plant.load_specific_heat / plant.contents_capacity, 1.0)
    warmer = share * (plant.load_temperature - nodes[CONTENTS])
    nodes[CONTENTS] += warmer
    heat = warmer * plant.contents_capacity
    return replace(moment, state=replace(moment.state, nodes=nodes)), np.asarray(heat)
