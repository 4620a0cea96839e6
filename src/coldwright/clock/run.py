"""The clock itself: minute after minute, all lanes in step, each switching at its own instant."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array
from coldwright.clock.advance import FLOWS, Advanced, heat_of, step_after_break, step_from
from coldwright.clock.air import Lines, opened, outside_of
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

WHOLE, LEAST_PART = 1.0 - 1e-9, 1e-3
"""A switch at this share of a step is at its end; least part [s] that a step is cut into."""

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
        bend=np.zeros((3, lanes)),
        before=np.zeros(lanes),
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
    lines = Lines.of(plant)
    tally = Tally(plant.lanes, heat_of(plant, start))
    records = Records.empty(plant.lanes, np.arange(1, minutes + 1) if rows_at is None else rows_at)
    clock = _Clock(plant, plan, lines, steps_per_minute)
    moment, done = start, 0
    try:
        for minute in range(minutes):
            moment, passed = clock.minute(moment, first_minute + minute)
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

    def __init__(self, plant: ClockPlant, plan: Plan, lines: Lines, steps: int) -> None:
        self.plant, self.plan, self.lines = plant, plan, lines
        self.outside: Outside | None = None
        self.weather: tuple[float, float] | None = None
        self.begins = True
        even = np.full(plant.lanes, MINUTE / steps)
        self.even = [Ladders.of(plant.walls, even)] * steps
        self.broken = [Ladders.of(plant.walls, share * even) for share in AFTER_DOOR]

    def minute(self, moment: Moment, minute: int) -> tuple[Moment, Passed]:
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
        parts = [*self.broken, *self.even[1:]] if doors > 0.0 else self.even
        for place, ladders in enumerate(parts):
            felt = _sensed(plant, moment, outside)
            want = wanted(plant.control, felt, moment.running, moment.standing, mains)
            turned = want != moment.running
            started, stopped = started + (turned & want), stopped | (turned & ~want)
            moment = replace(moment, running=want)
            step = _Step(plant, self.lines, outside, mains)
            # the air that a door let in drifts otherwise in each part
            self.begins |= doors > 0.0 and place < len(self.broken)
            ahead, events = step.all_lanes(moment, turned | self.begins, ladders)
            moment, self.begins = ahead.moment, False
            flows += ahead.flows * (ladders.length / MINUTE)
            started, stopped = started + events.started, stopped | events.stopped
        passed = Passed(
            flows,
            ahead.machine,
            ahead.films,
            started,
            stopped,
            brought,
            outside.room,
        )
        return moment, passed

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
class _Events:
    """Starts and stops of the lanes within a step."""

    started: Array
    stopped: NDArray[np.bool_]

    @classmethod
    def none(cls, lanes: int) -> _Events:
        """Nothing yet."""
        return cls(np.zeros(lanes), np.zeros(lanes, dtype=np.bool_))

    def put(self, wanted_lanes: NDArray[np.intp], part: _Events) -> None:
        """Note what some lanes did."""
        self.started[wanted_lanes] += part.started
        self.stopped[wanted_lanes] |= part.stopped


@dataclass(frozen=True)
class _Step:
    """One step of all lanes; lanes that switch, or whose drift is not known, are taken again."""

    plant: ClockPlant
    lines: Lines
    outside: Outside
    mains: bool

    def all_lanes(
        self, moment: Moment, fresh: NDArray[np.bool_], ladders: Ladders
    ) -> tuple[Advanced, _Events]:
        """Go on by the ladders' length; `fresh` lanes have just begun or switched."""
        length = ladders.length
        events = _Events.none(self.plant.lanes)
        new = np.flatnonzero(fresh)
        if new.size == self.plant.lanes:
            return self._after_break(moment, length, events, SWITCHES), events
        ahead = step_from(self.plant, self.lines, moment, self.outside, ladders)
        share = np.where(fresh, np.inf, self._share(moment, ahead, length))
        cut = np.flatnonzero(share < WHOLE)
        if cut.size:
            part = self._taken(cut)
            found = _Events.none(cut.size)
            then = part._switched(moment.taken(cut), share[cut], length[cut], found, SWITCHES)
            ahead = _put(ahead, cut, then)
            events.put(cut, found)
        if new.size:
            found = _Events.none(new.size)
            then = self._taken(new)._after_break(moment.taken(new), length[new], found, SWITCHES)
            ahead = _put(ahead, new, then)
            events.put(new, found)
        return ahead, events

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

    def _after_break(self, moment: Moment, length: Array, events: _Events, left: int) -> Advanced:
        """Lanes whose drift is not known go on by `length` [s]; they switch at most `left` times.

        What they do is noted in `events`.
        """
        whole, begun = step_after_break(self.plant, self.lines, moment, self.outside, length)
        share = self._share(begun, whole, length)
        cut = np.flatnonzero(share < WHOLE) if left else np.zeros(0, dtype=np.intp)
        if cut.size == 0:
            return whole
        found = _Events.none(cut.size)
        then = self._taken(cut)._switched(begun.taken(cut), share[cut], length[cut], found, left)
        events.put(cut, found)
        return _put(whole, cut, then)

    def _switched(
        self, moment: Moment, share: Array, length: Array, events: _Events, left: int
    ) -> Advanced:
        """Lanes that all switch after a `share` of `length` [s]: up to there, and what is left."""
        until = np.maximum(share * length, LEAST_PART)
        ladders = Ladders.of(self.plant.walls, until)
        first = step_from(self.plant, self.lines, moment, self.outside, ladders)
        running = ~moment.running
        rest = np.maximum(length - until, LEAST_PART)
        turned = replace(first.moment, running=running)
        then = self._after_break(turned, rest, events, left - 1)
        events.started[:] += running
        events.stopped[:] |= ~running
        weight = until / (until + rest)
        return replace(then, flows=weight * first.flows + (1.0 - weight) * then.flows)


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
