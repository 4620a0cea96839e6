"""What a first start should read, minute by minute, with the range that the build's doubts leave.

Many plants that the build might be (its entries drawn within their uncertainties) start side by
side. The machine's map is settled for the build and for one change of each uncertain part; the map
of a draw lies on the straight lines between them.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from coldwright.arrays import Array, lanes
from coldwright.build.result import Build
from coldwright.clock.batches import in_batches
from coldwright.clock.columns import columns
from coldwright.clock.plan import Plan
from coldwright.clock.plant import ClockPlant
from coldwright.clock.run import Course, at_rest, run
from coldwright.clock.setup import ClockParts, clock_plant, map_of
from coldwright.clock.store import SteadyStore
from coldwright.parts.cold_box import box_at_air
from coldwright.plant.box import Plant, surroundings
from coldwright.plant.machine_map import MachineMap
from coldwright.units import System
from coldwright.verdict.alternatives import CHANGES, changed_plant
from coldwright.verdict.day import OnClock, in_percent, on_clock
from coldwright.verdict.figures import at_lane
from coldwright.verdict.wall_uncertainty import wall_uncertainty

Progress = Callable[[str], None]

MINUTES = (1, 5, 10, 20, 30, 60, 90, 120, 180, 240, 360, 480)
DRAWS = 160
TOGETHER = 64
"""Draws that run side by side: their maps are what takes memory."""

LOW, HIGH = 0.05, 0.95
ROOM_STEP = 9.0
"""Coarser rooms [K] for the maps of the changes: their differences are smooth."""

FOUND_CHARGE, WEIGHED_CHARGE = 0.15, 0.02
"""Relative standard uncertainty of a charge that the program found, and of a weighed one (common
practice, no source)."""

MEASURED_ROOM = 0.5
"""Standard uncertainty [K] of a room that was measured: common practice, no source."""

STORE, POWER = 0.05, 0.03
"""Relative standard uncertainty of the cold side's heat capacity, and least of the power."""

IN_MACHINE = ("coil", "condenser", "compressor", "capillary")
BOTH_WAYS = ("condenser", "capillary", "charge")
SHOWN = (
    "power_W",
    "current_A",
    "suction_Pa",
    "discharge_Pa",
    "evaporating_C",
    "condensing_C",
    "brine_C",
    "cold_metal_C",
    "air_C",
    "return_line_C",
    "discharge_line_C",
    "shell_C",
)


@dataclass(frozen=True)
class Expectations:
    """What to expect at `minutes`; `values[name]` has shape (draw, minute), draw 0 the build's own.

    first_stop: minutes until each draw's first cut-out, infinite where it does not come in time;
    uncertainties: relative standard uncertainty of what was drawn, the room's in kelvin.
    """

    clock: OnClock
    minutes: tuple[int, ...]
    values: dict[str, Array]
    first_stop: Array
    uncertainties: dict[str, float]
    empty: bool
    complete: bool

    def expected(self, name: str) -> Array:
        """The build's own course; shape (minute,)."""
        return np.asarray(self.values[name][0])

    def between(self, name: str) -> tuple[Array, Array]:
        """5 and 95 % of the draws; shapes (minute,)."""
        low, high = np.quantile(self.values[name][1:], (LOW, HIGH), axis=0)
        return low, high

    @property
    def first_stops(self) -> tuple[float, float, float]:
        """Minutes to the first cut-out: the build's own, 5 and 95 %; infinite where none comes."""
        low, high = np.quantile(self.first_stop[1:], (LOW, HIGH), method="nearest")
        return float(self.first_stop[0]), float(low), float(high)


def expect(
    build: Build,
    *,
    room_temperature: float | None = None,
    charge: float | None = None,
    empty: bool = False,
    draws: int = DRAWS,
    minutes: tuple[int, ...] = MINUTES,
    system: System | None = None,
    progress: Progress = lambda _: None,
) -> Expectations:
    """Start `build` with everything at room temperature and the door shut.

    room_temperature [K], charge [kg]: instead of the file's; empty: without goods; minutes: told,
    rising. Deterministic.
    Raises InputError as `run_day` does.
    """
    clock = on_clock(
        build,
        room_temperature=room_temperature,
        charge=charge,
        system=system,
        rough=True,
        progress=progress,
    )
    doubts = _uncertainties(clock, weighed=charge is not None)
    if room_temperature is not None:
        doubts["room"] = min(doubts["room"], MEASURED_ROOM)
    z = _latin_hypercube(draws, len(doubts))
    drawn = {name: doubts[name] * np.concatenate([[0.0], z[:, k]]) for k, name in enumerate(doubts)}
    progress("the machine with each part changed")
    changed = _changed_machines(clock, drawn)
    runs = _all_started(clock, drawn, changed, minutes, progress, empty=empty)
    done = runs[0].records.minutes
    read = [columns(each, is_metal=clock.is_metal) for each in runs]
    values = {
        name: np.concatenate([each[name][: len(done)] for each in read], axis=-1).T
        for name in SHOWN
        if name in read[0]
    }
    complete = all(each.complete for each in runs) and len(values["power_W"]) == draws + 1
    stops = np.concatenate([each.tally.to_cut_out for each in runs])
    return Expectations(clock, tuple(map(int, done)), values, stops, doubts, empty, complete)


def _all_started(
    clock: OnClock,
    drawn: dict[str, Array],
    changed: _Changed,
    minutes: tuple[int, ...],
    progress: Progress,
    *,
    empty: bool,
) -> list[Course]:
    """The starts of all draws, batch by batch; interrupted, those that are done.

    Of the first batch, which has the build's own, its minutes so far stand for all.
    """
    batches = in_batches(len(drawn["room"]), TOGETHER)
    runs: list[Course] = []
    for number, some in enumerate(batches):
        plant = _drawn_plant(
            clock, {name: each[some] for name, each in drawn.items()}, changed, empty=empty
        )
        what = f"many starts side by side, {number + 1} of {len(batches)}"
        found = _started(plant, clock.plan, minutes, in_percent(progress, what))
        if found.complete or not runs:
            runs.append(found)
        if not found.complete:
            break
    if not runs[0].records.minutes.size:  # not one of the minutes asked for is done
        raise KeyboardInterrupt
    return runs


def _started(
    plant: ClockPlant, plan: Plan, minutes: tuple[int, ...], progress: Callable[[float], None]
) -> Course:
    """The starts of some draws side by side."""
    room = lanes(plan.room[0]) + plant.room_offset
    start = at_rest(plant, room, room, lanes(plan.humidity[0]))
    at = np.array(minutes, dtype=np.intp)
    return run(plant, start, plan.shut(), minutes[-1], rows_at=at, progress=progress)


def _uncertainties(clock: OnClock, *, weighed: bool) -> dict[str, float]:
    """Relative standard uncertainty of each part; the room's in kelvin."""
    build, found = clock.build, clock.translation
    changes = {change.key: change.usual_uncertainty for change in CHANGES}
    box = found.plant.box
    gain = box_at_air(
        box.cabinet, box.air_path, box.cold_side, found.target, surroundings(found.room)
    ).gain
    flow, power = found.machine.fit.standard_uncertainty
    stated = build.refrigerant.fill
    charge = FOUND_CHARGE
    if weighed or stated is not None:
        spread = 0.0 if stated is None else stated.standard_uncertainty / stated.value
        charge = max(spread, WEIGHED_CHARGE)
    goods = build.cabinet.contents.mass
    return {
        **{name: changes[name] for name in IN_MACHINE},
        "compressor": max(float(flow), 0.01),
        "charge": charge,
        "cold_surface": changes["cold_surface"],
        "insulation": max(wall_uncertainty(build, box.cabinet, gain), 0.05),
        "power": max(float(power), POWER),
        "store": STORE,
        "goods": goods.standard_uncertainty / goods.value if goods.value > 0.0 else 0.0,
        "room": build.site.room_temperature.standard_uncertainty,
    }


def _latin_hypercube(draws: int, count: int) -> Array:
    """Standard normal draws, each quantity spread evenly over its chances; `[draw, quantity]`.

    Source: McKay, Beckman and Conover (1979), Technometrics 21, 239 (from memory).
    """
    from scipy.special import ndtri  # noqa: PLC0415 (slow to load)

    generator = np.random.default_rng(20)
    chances = (np.arange(draws)[:, None] + generator.random((draws, count))) / draws
    shuffled = np.stack([generator.permutation(chances[:, k]) for k in range(count)], axis=-1)
    return np.asarray(ndtri(shuffled))


@dataclass(frozen=True)
class _Changed:
    """The machine and changed ones beside it; steps: what each has multiplied, and by how much."""

    machine: MachineMap
    steps: tuple[tuple[str, float], ...]

    def drawn(self, drawn: dict[str, Array]) -> MachineMap:
        """The machine of each draw, on the straight lines to the changed ones."""
        weights = np.zeros((len(drawn["room"]), len(self.steps)))
        for k, (name, step) in enumerate(self.steps):
            way = drawn[name] / np.log(step)
            weights[:, k] = np.maximum(way, 0.0) if name in BOTH_WAYS else way
        return self.machine.drawn(weights)


def _changed_machines(clock: OnClock, drawn: dict[str, Array]) -> _Changed:
    """Settle the machine and its changes."""
    steps = _steps(drawn)
    factors = {
        name: np.array([1.0, *(step if each == name else 1.0 for each, step in steps)])
        for name in (*IN_MACHINE, "charge")
    }
    charge = clock.charge * factors.pop("charge")
    machine = map_of(
        changed_plant(clock.translation.plant, factors).system,
        clock.translation.plant,
        charge,
        clock.plan,
        at_lane(clock.plant.pressure, 0),
        room_step=ROOM_STEP,
        rounds=1,
    )
    return _Changed(machine, steps)


def _drawn_plant(
    clock: OnClock, drawn: dict[str, Array], changed: _Changed, *, empty: bool
) -> ClockPlant:
    """The plant with one lane for each draw."""
    found = _with_walls(clock.translation.plant, np.exp(drawn["insulation"]))
    parts = _with_goods(clock.parts, np.exp(drawn["goods"]), empty=empty)
    plant = clock_plant(
        found,
        parts,
        changed.drawn(drawn),
        clock.plant.table.drawn(np.exp(drawn["cold_surface"])),
        at_lane(clock.plant.pressure, 0),
        count=len(drawn["room"]),
        room_offset=drawn["room"],
        power_factor=np.exp(drawn["power"]),
    )
    store = plant.store
    if isinstance(store, SteadyStore):
        store = SteadyStore(store.heat_capacity * np.exp(drawn["store"]))
    return replace(plant, store=store)


def _steps(drawn: dict[str, Array]) -> tuple[tuple[str, float], ...]:
    """What each changed machine has multiplied: by as much as bounds the range that is told.

    A capillary, a charge or a condenser does not do the opposite when it is off the other way
    (liquid comes back, or gas goes through): each is settled both ways.
    """
    found = []
    for name in (*IN_MACHINE, "charge"):
        step = float(np.exp(np.quantile(drawn[name], HIGH)))
        found.append((name, step))
        if name in BOTH_WAYS:
            found.append((name, 1.0 / step))
    return tuple(found)


def _with_walls(plant: Plant, factor: Array) -> Plant:
    cabinet = plant.box.cabinet
    multiplied = replace(cabinet, conductance_multiplier=cabinet.conductance_multiplier * factor)
    return replace(plant, box=replace(plant.box, cabinet=multiplied))


def _with_goods(parts: ClockParts, factor: Array, *, empty: bool) -> ClockParts:
    kept = np.zeros_like(factor) if empty else factor
    return replace(
        parts,
        contents_mass=parts.contents_mass * kept,
        contents_conductance=parts.contents_conductance * np.maximum(kept, 1e-6),
    )
