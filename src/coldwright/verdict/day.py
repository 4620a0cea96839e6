"""A build on the clock: from warm through pull-down into its days, and what a power cut does."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array, lanes
from coldwright.build.result import Build
from coldwright.build.translation.clock import clock_parts_of, plan_of
from coldwright.build.translation.plant import Translation, translate
from coldwright.clock.columns import columns
from coldwright.clock.network import CONTENTS, NODE
from coldwright.clock.plan import MINUTES_PER_DAY, Plan
from coldwright.clock.plant import ClockPlant, Moment
from coldwright.clock.run import Course, at_rest, run
from coldwright.clock.setup import ClockParts, clock_plant, map_of, table_of
from coldwright.clock.store import FreezingStore
from coldwright.errors import Fault, InputError
from coldwright.plant.operation import operate
from coldwright.units import System
from coldwright.verdict.checks.circuit import FIND_IT, full_tubes, too_full
from coldwright.verdict.figures import at_lane

Start = Literal["warm", "settled"]
Progress = Callable[[str], None]

SETTLING_MINUTES = 3 * MINUTES_PER_DAY
"""A box that is asked for as settled has run so long before its hours begin."""

CUT_DAYS = 4
"""A power cut is followed no longer."""

MELTED = 0.01
"""Frozen share under which a store counts as melted."""

COLD_FOOD = 278.15
"""Chilled food is to be kept at 5 C (41 F) or colder: food codes (from memory)."""

ROUGH_STEP = 20
"""Rooms [K] of a rough map."""

CUT_RISE = 3.0
"""A box kept warmer than that counts as lost when its goods are so much [K] over the target."""


@dataclass(frozen=True)
class OnClock:
    """A build made ready for the clock: its plant with maps, its plan, its charge [kg]."""

    build: Build
    translation: Translation
    parts: ClockParts
    plan: Plan
    plant: ClockPlant
    charge: float
    system: System

    @property
    def is_metal(self) -> bool:
        """Whether the cold side's node is a plate's or a tube's metal."""
        return self.translation.plant.box.cold_side.source_is_air

    @property
    def target(self) -> float:
        """Wanted mean of the stored air [K]."""
        return at_lane(self.translation.target, 0)

    def warm(self) -> Moment:
        """Everything at the room's temperature of the plan's first minute."""
        room = lanes(self.plan.room[0]) + self.plant.room_offset
        return at_rest(self.plant, room, room, lanes(self.plan.humidity[0]))

    def with_settings(self, cut_in: Array, cut_out: Array) -> OnClock:
        """The same with other thermostat settings [K], one lane for each."""
        control = replace(self.parts.control, cut_in=cut_in, cut_out=cut_out)
        parts = replace(self.parts, control=control)
        plant = clock_plant(
            self.translation.plant,
            parts,
            self.plant.machine,
            self.plant.table,
            at_lane(self.plant.pressure, 0),
            count=np.size(cut_in),
        )
        return replace(self, parts=parts, plant=plant)


@dataclass(frozen=True)
class Day:
    """A run of some hours, its last day counted, and a power cut at its end.

    cut_hours: until the goods pass `cut_limit` [K] with the door shut; melted_hours: until a
    holdover's store has melted; None where that does not come within four days, is so already, or
    there is no store.
    """

    clock: OnClock
    start: Start
    course: Course
    cut_limit: float
    cut_hours: float | None
    melted_hours: float | None

    @property
    def rows(self) -> dict[str, Array]:
        """One row a minute, by the names of `clock.columns`; shapes (minutes,)."""
        found = columns(self.course, is_metal=self.clock.is_metal)
        return {name: each if each.ndim == 1 else each[:, 0] for name, each in found.items()}


def run_day(
    build: Build,
    *,
    hours: float = 48.0,
    start: Start = "warm",
    room_temperature: float | None = None,
    swinging: bool = False,
    room_course: Array | None = None,
    charge: float | None = None,
    system: System | None = None,
    progress: Progress = lambda _: None,
) -> Day:
    """Run `build` for `hours` from warm, or as settled after days of the same; count the last day.

    room_temperature [K] stands for the site's design temperature; `swinging` lets the room swing
    between the site's low and high every day; room_course [K] gives it minute by minute. charge
    [kg]: instead of the file's. Interrupted, it gives what is done. Raises InputError for a build
    that names what does not exist, a charge that the tubes cannot hold or a room not warmer than
    the target.
    """
    clock = on_clock(
        build,
        room_temperature=room_temperature,
        swinging=swinging,
        room_course=room_course,
        charge=charge,
        system=system,
        progress=progress,
    )
    return days_of(clock, hours=hours, start=start, progress=progress)


def days_of(
    clock: OnClock,
    *,
    hours: float = 48.0,
    start: Start = "warm",
    steps_per_minute: int = 1,
    progress: Progress = lambda _: None,
) -> Day:
    """Run a build that was made ready, as `run_day` does; its maps may serve several runs.

    Interrupted (KeyboardInterrupt) within its hours it gives what is done, the power cut left out.
    """
    minutes = max(round(60.0 * hours), 1)
    moment = clock.warm()
    if start == "settled":
        settling = run(
            clock.plant,
            moment,
            clock.plan,
            SETTLING_MINUTES,
            rows_at=np.zeros(0, dtype=np.intp),
            steps_per_minute=steps_per_minute,
            progress=in_percent(progress, "days before the first"),
        )
        if not settling.complete:  # none of the hours asked for is done
            raise KeyboardInterrupt
        moment = settling.moment
    course = run(
        clock.plant,
        moment,
        clock.plan,
        minutes,
        count_from=max(minutes - MINUTES_PER_DAY, 0),
        target=clock.target,
        steps_per_minute=steps_per_minute,
        progress=in_percent(progress, "minute by minute"),
    )
    limit = COLD_FOOD if clock.target < COLD_FOOD else clock.target + CUT_RISE
    if not course.complete:
        return Day(clock, start, course, limit, None, None)
    progress("a power cut")
    return Day(clock, start, course, limit, *_cut(clock, course, minutes, limit))


def in_percent(progress: Progress, what: str) -> Callable[[float], None]:
    """What is being done with its share in whole per cent, told once each."""
    told = -1

    def tell(share: float) -> None:
        nonlocal told
        percent = int(100.0 * share)
        if percent > told:
            told = percent
            progress(f"{what}, {percent} %")

    return tell


def on_clock(
    build: Build,
    *,
    room_temperature: float | None = None,
    swinging: bool = False,
    room_course: Array | None = None,
    charge: float | None = None,
    system: System | None = None,
    rough: bool = False,
    progress: Progress = lambda _: None,
) -> OnClock:
    """`build` made ready: parts, charge (found where the file asks for it), map and films.

    rough: a map of few points, for a caller that brings its own.
    """
    progress("parts from the build")
    shown = system or build.units
    plan = plan_of(build, room=room_temperature, swinging=swinging)
    if room_course is not None:
        plan = replace(plan, room=room_course)
    _room_is_warmer(build, plan)
    mean = float(np.mean(plan.room))
    found = translate(build, room_temperature=mean, charge=charge)
    held = _charge_of(build, found, charge, shown, progress)
    parts = clock_parts_of(build, found, held, mean)
    pressure = at_lane(found.room.atmospheric_pressure, 0)
    progress("the machine over all its temperatures")
    points = {"room_step": ROUGH_STEP, "rounds": 0} if rough else {}
    machine = map_of(found.plant.system, found.plant, np.array([held]), plan, pressure, **points)
    table = table_of(found.plant, plan, pressure)
    plant = clock_plant(found.plant, parts, machine, table, pressure)
    return OnClock(build, found, parts, plan, plant, held, shown)


def _charge_of(
    build: Build, found: Translation, charge: float | None, system: System, progress: Progress
) -> float:
    """The charge [kg] of the file or the option, or the one that the steady balance finds."""
    if found.charge is None:
        progress("the charge")
        operation = operate(found.plant, found.room, found.target, None, found.superheat)
        return at_lane(operation.charge, 0)
    given = at_lane(found.charge, 0)
    if given > full_tubes(found):
        field = "refrigerant.fill" if charge is None else "--fill"
        line = None if charge is not None else build.line_of(field)
        raise InputError(Fault(field, too_full(found, given, system), line, FIND_IT.rstrip(".")))
    return given


def _room_is_warmer(build: Build, plan: Plan) -> None:
    """Refuse a room in which there is nothing to do, as the file's own is refused."""
    target = build.targets.air_temperature
    if float(np.max(plan.room)) <= target.value:
        raise InputError(
            Fault(
                "--room",
                f"Room temperature must be above the target air temperature {target.text}; "
                f"received {float(np.max(plan.room)) - 273.15:.1f} °C.",
            )
        )


def _cut(
    clock: OnClock, course: Course, minutes: int, limit: float
) -> tuple[float | None, float | None]:
    """Hours without power until the goods pass `limit` [K], and until a store has melted."""
    store, moment = clock.plant.store, course.moment
    passed = melted = None
    warm = at_lane(moment.state.nodes[CONTENTS], 0) > limit
    frozen = isinstance(store, FreezingStore) and _frozen(store, moment.state.nodes[NODE]) > MELTED
    for day in range(CUT_DAYS):
        if (warm or passed is not None) and (not frozen or melted is not None):
            break
        since = day * MINUTES_PER_DAY
        cut = run(
            clock.plant,
            moment,
            clock.plan.without_mains(),
            MINUTES_PER_DAY,
            first_minute=minutes + since,
        )
        moment = cut.moment
        if not warm and passed is None:
            passed = _hour_of(cut.records["contents"][:, 0] > limit, since)
        if frozen and melted is None and isinstance(store, FreezingStore):
            melted = _hour_of(store.frozen_share(cut.records["node"])[:, 0] < MELTED, since)
    return passed, melted


def _frozen(store: FreezingStore, node: Array) -> float:
    return at_lane(store.frozen_share(node), 0)


def _hour_of(came: NDArray[np.bool_], since: int) -> float | None:
    """Hour of the first minute at which something came, `since` minutes after the beginning."""
    return (since + int(np.argmax(came)) + 1) / 60.0 if np.any(came) else None
