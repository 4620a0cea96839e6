"""How the whole plant works: cycling at the target, running all the time, and starting warm.

Quasi-steady: the refrigerant settles in minutes, brine and walls in hours, so each of the three
is a balance. What a cycle loses at its start is not in these figures.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array
from coldwright.parts.cold_box import BoxState, box_at_air, box_at_source
from coldwright.parts.conditions import Surroundings
from coldwright.parts.lane_tools import flat_lanes, take_first_axis
from coldwright.plant.balance import BALANCED, Balance, settle
from coldwright.plant.box import Plant, Room, conditions, surroundings
from coldwright.plant.charge_rule import FixedCharge, StatedSuperheat
from coldwright.plant.evaluation import Unknowns
from coldwright.plant.fill import find_charge

# Passes in which the condenser's warmth, the back wall's heat and the running share agree.
CYCLING_PASSES = 3
# Sources of the operating map, under the one that holds the target and above it [K].
MAP_BELOW = np.array([-45.0, -32.0, -22.0, -14.0, -7.0, 0.0])
MAP_ABOVE = np.array([0.3, 0.65, 1.0])  # shares of the way to the room's temperature
SEARCH_STEPS = 9
# A rung that takes longer is left out; a balance close to its start that does is sought anew.
LADDER_STEPS, NEAR_STEPS = 40, 30
# The two heat flows of the running state agree to this share.
SEARCH_AGREEMENT = 1e-6
HOURS_PER_DAY = 24.0


@dataclass(frozen=True)
class Point:
    """The plant at one source temperature; arrays over lanes."""

    box: BoxState
    balance: Balance
    run_fraction: Array  # heat needed over heat removed while running; above 1: not enough
    heat_misfit: Array  # heat removed less heat needed, over heat needed (running state only)


@dataclass(frozen=True)
class Operation:
    """The three states a maker asks for; arrays over lanes."""

    charge: Array  # [kg]
    cycling: Point  # the target held by switching
    running: Point  # never switched off
    pull_down: Balance  # everything still at room temperature

    @property
    def energy_kWh_per_day(self) -> Array:  # noqa: N802 (the unit is part of the name)
        """Electrical energy of a day at the target [kWh]; never more than running all day."""
        share = np.minimum(self.cycling.run_fraction, 1.0)
        power = np.where(
            self.cycling.run_fraction > 1.0,
            self.running.balance.evaluation.compressor.power,
            self.cycling.balance.evaluation.compressor.power,
        )
        return np.asarray(share * power * HOURS_PER_DAY / 1000.0)


def operate(
    plant: Plant,
    room: Room,
    target: Array,
    charge: Array | None,
    superheat: Array,
) -> Operation:
    """Work out cycling, running and start of every lane.

    `target` is the mean air temperature [K]; `charge` [kg], or None to find the one that leaves
    `superheat` [K] at the evaporator's exit while the target is held.
    """
    shape = np.broadcast_shapes(np.shape(target), np.shape(room.temperature))
    target = np.atleast_1d(np.broadcast_to(target, shape)).astype(np.float64)
    room = flat_lanes(
        Room(*(np.broadcast_to(a, target.shape) for a in vars(room).values())), target.shape
    )
    plant = flat_lanes(plant, target.shape)
    held, rule = _cycling(plant, room, target, charge, superheat)
    running, warm = _running(plant, room, held, rule)
    short = (held.run_fraction > 1.0) & (running.balance.reason == BALANCED)
    if charge is None and np.any(short):
        # A target out of reach: the charge belongs to where the box comes to, not to the target.
        refound = _charge_where_it_runs(plant, room, running, rule, superheat, short)
        held, rule = _cycling(plant, room, target, refound, superheat)
        running, warm = _running(plant, room, held, rule)
    return Operation(rule.charge, held, running, warm)


def _charge_where_it_runs(
    plant: Plant,
    room: Room,
    running: Point,
    rule: FixedCharge,
    superheat: Array,
    short: NDArray[np.bool_],
) -> Array:
    """Charge [kg]: found anew at the running state's source where `short`, else as it is."""
    at = conditions(room, running.box.source_temperature)
    found = find_charge(plant.system, at, superheat)
    return np.asarray(np.where(short & (found.reason == BALANCED), found.charge, rule.charge))


def _cycling(
    plant: Plant, room: Room, target: Array, charge: Array | None, superheat: Array
) -> tuple[Point, FixedCharge]:
    """The target held by switching, and the charge that is in."""
    box = plant.box
    around = surroundings(room)
    state = box_at_air(box.cabinet, box.air_path, box.cold_side, target, around)
    at = conditions(room, state.source_temperature)
    rule: FixedCharge | StatedSuperheat
    if charge is None:
        rule = flat_lanes(StatedSuperheat(np.asarray(superheat)), target.shape)
        balance = find_charge(plant.system, at, superheat)
    else:
        charge = np.broadcast_to(charge, target.shape).astype(np.float64)
        rule = FixedCharge(charge)
        balance = settle(plant.system, at, rule)
    for _ in range(CYCLING_PASSES):
        around = surroundings(room, balance.evaluation, _run_share(state, balance))
        state = box_at_air(box.cabinet, box.air_path, box.cold_side, target, around)
        at = conditions(room, state.source_temperature)
        near = balance.evaluation
        balance = settle(plant.system, at, rule, near.unknowns, NEAR_STEPS, near.capillary.taken)
        if charge is None and np.any(balance.reason != BALANCED):
            balance = find_charge(plant.system, at, superheat)
    share = _run_share(state, balance)
    held = Point(state, balance, share, np.zeros_like(share))
    return held, FixedCharge(balance.charge) if charge is None else FixedCharge(charge)


def _run_share(state: BoxState, balance: Balance) -> Array:
    """Heat needed over heat removed while on; infinite where there is no balance."""
    removed = np.maximum(balance.evaluation.evaporator.heat, 1e-3)
    needed = np.maximum(state.heat, 0.0)
    return np.asarray(np.where(balance.reason == BALANCED, needed / removed, np.inf))


def _running(plant: Plant, room: Room, held: Point, rule: FixedCharge) -> tuple[Point, Balance]:
    """Running without a stop, and the start with everything at room temperature.

    A ladder of source temperatures is settled at once; a secant held between the two rungs where
    heat removed passes heat gained ends it. The first ladder's top, the source
    at room temperature, is the start.
    """
    least = plant.system.refrigerant.least_temperature + 8.0
    source = held.box.source_temperature
    top = np.maximum(room.temperature, source + 1.0)
    below = np.maximum(source + MAP_BELOW[:, None], least)
    sources = np.concatenate([below, source + MAP_ABOVE[:, None] * (top - source)])
    around = surroundings(room, held.balance.evaluation)
    rungs, bracket, guess = _ladder(plant, room, rule, sources, around, None)
    return _search(plant, room, rule, bracket, guess), take_first_axis(rungs, len(sources) - 1)


def _ladder(
    plant: Plant,
    room: Room,
    rule: FixedCharge,
    sources: Array,
    around: Surroundings,
    guess: Unknowns | None,
) -> tuple[Balance, _Bracket, Unknowns]:
    """Settle `sources[rung, lane]`, coldest first, and bracket where enough heat is removed.

    Counted from the top: the last rung with enough before one without, rungs without a balance
    left out.
    """
    box = plant.box
    rooms = Room(*(np.broadcast_to(a, sources.shape) for a in vars(room).values()))
    at = conditions(rooms, sources)
    rungs = settle(plant.system, at, rule, guess, LADDER_STEPS, quick=True)
    state = box_at_source(box.cabinet, box.air_path, box.cold_side, sources, around)
    misfit = _misfit(rungs, state)
    rung = np.arange(len(sources))[:, None]
    short = (rungs.reason == BALANCED) & (misfit <= 0.0)
    lower = np.max(np.where(short, rung, 0), axis=0)
    above = (rungs.reason == BALANCED) & (misfit > 0.0) & (rung >= lower)
    upper = np.min(np.where(above, rung, len(sources) - 1), axis=0)
    lane = np.arange(sources.shape[1])
    bracket = _Bracket(
        sources[lower, lane], sources[upper, lane], misfit[lower, lane], misfit[upper, lane]
    )
    guess = Unknowns(*rungs.evaluation.unknowns.stacked()[:, upper, lane])
    return rungs, bracket, guess


@dataclass(frozen=True)
class _Bracket:
    """Two source temperatures [K] and their misfits, below and above the running state."""

    low: Array
    high: Array
    misfit_low: Array
    misfit_high: Array

    @property
    def first(self) -> Array:
        """Regula falsi between the two; an end where both lie on one side."""
        crossing = (self.misfit_low < 0.0) & (self.misfit_high > 0.0)
        span = np.where(crossing, self.misfit_high - self.misfit_low, 1.0)
        share = np.where(crossing, -self.misfit_low / span, self.misfit_high <= 0.0)
        return self.low + share * (self.high - self.low)

    def narrowed(self, source: Array, misfit: Array) -> _Bracket:
        """The part that holds the crossing."""
        above = misfit > 0.0
        return _Bracket(
            low=np.where(above, self.low, source),
            high=np.where(above, source, self.high),
            misfit_low=np.where(above, self.misfit_low, misfit),
            misfit_high=np.where(above, misfit, self.misfit_high),
        )

    def secant(self, source: Array, misfit: Array, before: Array, misfit_before: Array) -> Array:
        """Where the line through the last two points crosses; the middle if that lies outside."""
        rise = misfit - misfit_before
        step = -misfit * (source - before) / np.where(rise == 0.0, 1.0, rise)
        found = np.where(rise == 0.0, source, source + step)
        inside = (found > self.low) & (found < self.high)
        return np.where(inside, found, 0.5 * (self.low + self.high))


def _misfit(balance: Balance, box: BoxState) -> Array:
    """Heat removed less heat that comes in, relative to what comes in."""
    removed = balance.evaluation.evaporator.heat
    return np.asarray((removed - box.heat) / np.maximum(np.abs(box.heat), 1.0))


def _search(
    plant: Plant, room: Room, rule: FixedCharge, bracket: _Bracket, guess: Unknowns
) -> Point:
    """Narrow the bracket until removed and gained heat agree."""
    box = plant.box
    source = bracket.first
    nearer_low = np.abs(bracket.misfit_low) < np.abs(bracket.misfit_high)
    before = np.where(nearer_low, bracket.low, bracket.high)
    misfit_before = np.where(nearer_low, bracket.misfit_low, bracket.misfit_high)
    taken: Array | None = None
    for _ in range(SEARCH_STEPS):
        balance = settle(plant.system, conditions(room, source), rule, guess, LADDER_STEPS, taken)
        if np.any(balance.reason != BALANCED):
            # Over a fold the nearest start leads nowhere: begin again from the grid.
            balance = settle(plant.system, conditions(room, source), rule)
        around = surroundings(room, balance.evaluation)
        state = box_at_source(box.cabinet, box.air_path, box.cold_side, source, around)
        misfit = _misfit(balance, state)
        # A lane without a balance does not hold the others up.
        if np.all((np.abs(misfit) < SEARCH_AGREEMENT) | (balance.reason != BALANCED)):
            break
        guess, taken = balance.evaluation.unknowns, balance.evaluation.capillary.taken
        bracket = bracket.narrowed(source, misfit)
        following = bracket.secant(source, misfit, before, misfit_before)
        before, misfit_before, source = source, misfit, following
    return Point(state, balance, np.ones_like(misfit), misfit)
