"""What a sealed system settles at: five unknowns, found in pseudo-time and finished by Newton.

The march follows the machine's own way to its balance: the low side's content changes by what the
capillary passes less what the compressor draws, the return gas, the exchanger and the shell follow
with a lag, and the charge is conserved. Each step is linearly implicit; as the steps lengthen it
becomes Newton's method. Following the physical path keeps a flooding system with a return
exchanger, where the charge folds over in condensing temperature, on its stable branch.

Lanes that are done are frozen. A lane without a balance ends with a reason from `REASONS`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array
from coldwright.parts.capillary import CELLS, FIRST_PLACING, Placing
from coldwright.parts.lane_tools import flat_lanes, joined_lanes, shaped_lanes, take_lanes
from coldwright.plant.charge_rule import ChargeRule
from coldwright.plant.evaluation import Conditions, Evaluation, Unknowns
from coldwright.plant.look import even_share, merits, whole_evaluation
from coldwright.plant.march import (
    BOLD,
    CAREFUL,
    COARSE,
    CONVERGED,
    MARGIN,
    STUBBORN,
    Pace,
    Track,
    march,
)
from coldwright.plant.system import SealedSystem

REASONS = (
    "balanced",
    "the condenser cannot shed the heat: the condensing temperature leaves the refrigerant's range",
    "the low side is pumped empty: too little charge, or the capillary passes too little",
    "the charge is more than the tubes can hold beside room for gas",
    "no steady balance was found in the allowed steps",
    "the source is colder than this machine can make it: it would be warmed, not cooled",
)
BALANCED, TOO_HOT, TOO_COLD, TOO_FULL, UNSETTLED, OUT_OF_REACH = range(6)

GOOD_ENOUGH = 1e-8
MOST_STEPS = 90
# How the march is tried, one after another for the lanes that are left: its pace, the most steps
# (nine lanes in ten need under 16 of the first) and the first step [s] from a guess nearby.
PACES = ((BOLD, 18, 600.0), (CAREFUL, 45, 60.0), (STUBBORN, MOST_STEPS, 60.0))
# The same where a lane that is left out does no harm.
QUICK_PACES = ((BOLD, 25, 600.0),)
# More than this share of both tubes full of liquid counts as a charge that does not fit.
FULL_SHARE = 0.4
DROWNED_SHARE = 0.5
# An overfull condenser runs up to the end of the range; the march is lost within so much of it [K].
NEARLY_CRITICAL, FLOODED_SHARE = 15.0, 0.4
# A lane whose residual came under this stands near its balance.
CLOSE = 0.1
# Lanes settled together: some 60 kB each of the march's own.
AT_ONCE = 5000
# Grid of the start: evaporating under the source, condensing over the room [K].
BELOW_SOURCE = np.array([3.0, 8.0, 16.0, 28.0, 45.0])
ABOVE_ROOM = np.array([2.0, 7.0, 15.0, 28.0])


@dataclass(frozen=True)
class Balance:
    """A settled sealed system; arrays over lanes."""

    evaluation: Evaluation
    charge: Array  # [kg]
    residual: Array  # greatest relative residual of flow, charge and the three heat balances
    reason: NDArray[np.int_]  # index into REASONS
    steps: NDArray[np.int_]


def settle(
    system: SealedSystem,
    at: Conditions,
    rule: ChargeRule,
    guess: Unknowns | None = None,
    most_steps: int = MOST_STEPS,
    taken: Array | None = None,
    *,
    quick: bool = False,
) -> Balance:
    """Settle every lane of `system` at `at` under the charge equation `rule`.

    The lanes' shape is that of the conditions, the system and the rule broadcast together (given
    by `at.source_temperature`, to which the caller broadcasts it). `guess` is a state nearby and
    `taken` that of its capillary (`CapillaryFlow.taken`), where they are known. `quick` tries the
    bold pace alone, for rungs of a ladder. Returns a `Balance` of that shape; never raises for a
    lane without a balance. Lanes are settled `AT_ONCE` at a time, so that what the march itself
    needs of memory does not grow with them.
    """
    shape = np.shape(at.source_temperature)
    count = int(np.prod(shape))
    parts: Any = (flat_lanes(system, shape), flat_lanes(at, shape), flat_lanes(rule, shape))
    near = None if guess is None else guess.stacked().reshape(5, -1)
    known = None if taken is None else taken.reshape(len(taken), -1)
    paces = [(p, min(n, most_steps), step) for p, n, step in (QUICK_PACES if quick else PACES)]
    settled = []
    for first in range(0, count, AT_ONCE):
        some = np.arange(first, min(first + AT_ONCE, count))
        here = parts if count <= AT_ONCE else [take_lanes(part, some, count) for part in parts]
        begun = None if near is None else near[:, some]
        heat = None if known is None else known[:, some]
        flat, there, wanted = here
        done = _settled(flat, there, wanted, begun, heat, paces)
        settled.append(shaped_lanes(done, some.shape))
    return shaped_lanes(joined_lanes(settled), shape)


def _settled(
    system: SealedSystem,
    at: Conditions,
    rule: ChargeRule,
    near: Array | None,
    taken: Array | None,
    paces: Sequence[tuple[Pace, int, float]],
) -> Balance:
    """Settle flat lanes, from states nearby where they are known."""
    y = _start(system, at, rule) if near is None else near
    tried, count = _Tries(y, taken), y.shape[1]
    for pace, steps, near_step in paces:
        track = tried.begun(pace, near_step, is_near=near is not None)
        _march_on(
            take_lanes(system, tried.left, count),
            take_lanes(at, tried.left, count),
            take_lanes(rule, tried.left, count),
            track,
            pace,
            steps,
        )
        tried.keep(track)
        if tried.left.size == 0:
            break
    # As the last look left it: a lane whose heat finds no rest stays where it was closed.
    placing = FIRST_PLACING if tried.taken is None else Placing(0, tried.taken)
    final, left_over = whole_evaluation(system, at, rule, Unknowns(*tried.unknowns), placing)
    residual = np.max(np.abs(left_over), axis=0)
    # Rounding may keep a lane from the march's goal, though its balance is good enough.
    balanced = (tried.apart < CONVERGED) | (residual < GOOD_ENOUGH)
    reason = np.where(balanced, BALANCED, _why_not(system, at, final))
    reason = np.where(balanced & _drowned(system, final), TOO_FULL, reason)
    return Balance(final, final.inventory.total, residual, reason, tried.used)


class _Tries:
    """Where the lanes stand between one pace and the next."""

    def __init__(self, start: Array, taken: Array | None) -> None:
        self._start = start
        self._first_taken = taken
        self.unknowns = start.copy()
        self.apart = np.full(start.shape[1], np.inf)
        self.used = np.zeros(start.shape[1], dtype=np.int_)
        self.taken: Array | None = None
        self.left = np.arange(start.shape[1])

    def begun(self, pace: Pace, near_step: float, *, is_near: bool) -> Track:
        """A march of the lanes that are left: on from where one came near, else from the start."""
        left = self.left
        first_step = np.full(left.size, near_step if is_near else pace.first_step)
        if self.taken is None:
            return Track.start(self._start, first_step, pace.haste, self._first_taken)
        close = self.apart[left] < CLOSE
        return Track.start(
            np.where(close, self.unknowns[:, left], self._start[:, left]),
            np.where(close, near_step, first_step),
            pace.haste,
            np.where(close, self.taken[:, left], even_share(left.size, CELLS)),
        )

    def keep(self, track: Track) -> None:
        """What a march of the lanes that were left has come to."""
        left = self.left
        self.unknowns[:, left], self.apart[left] = track.unknowns, track.apart
        self.used[left] += track.used
        if self.taken is None:
            self.taken = track.taken  # the first pace sees all lanes
        elif track.taken is not None:
            self.taken[:, left] = track.taken
        self.left = np.flatnonzero(self.apart >= CONVERGED)


def _march_on(
    system: SealedSystem, at: Conditions, rule: ChargeRule, track: Track, pace: Pace, steps: int
) -> None:
    """March boldly from far with half of the cells first, else with all of them."""
    if pace is BOLD and track.taken is None:
        march(system, at, rule, track, COARSE, steps)
        track.refine()
    march(system, at, rule, track, pace, steps)


def _start(system: SealedSystem, at: Conditions, rule: ChargeRule) -> Array:
    """Start of the march: the best of a grid of evaporating and condensing temperatures.

    Every lane tries all of the grid in one evaluation; flow and charge together choose.
    """
    refrigerant = system.refrigerant
    room, source = np.broadcast_arrays(at.room_temperature, at.source_temperature)
    room, source = np.atleast_1d(room), np.atleast_1d(source)
    coldest = refrigerant.least_temperature + MARGIN
    hottest = refrigerant.greatest_temperature - MARGIN
    evaporating = np.clip(source - BELOW_SOURCE[:, None, None], coldest, hottest - 30.0)
    condensing = np.clip(room + ABOVE_ROOM[:, None], evaporating + 8.0, hottest)
    evaporating, condensing, room = np.broadcast_arrays(evaporating, condensing, room)
    low = refrigerant.saturated(evaporating)
    warm = refrigerant.vapour(low.pressure, np.maximum(room - 5.0, evaporating + 5.0)).enthalpy
    trial = Unknowns(
        evaporating,
        condensing,
        warm,
        room + 30.0 - evaporating,
        0.5 * (warm - low.vapour_enthalpy),
    )
    count = source.size
    asked = np.tile(np.arange(count), BELOW_SOURCE.size * ABOVE_ROOM.size)
    grid = trial.stacked().reshape(5, -1)
    merit = merits(system, at, rule, count, asked, grid).reshape(-1, count)
    best = np.argmin(merit, axis=0)
    return grid.reshape(5, -1, count)[:, best, np.arange(count)]


def _drowned(system: SealedSystem, e: Evaluation) -> NDArray[np.bool_]:
    """Where liquid refrigerant lies over half of the compressor shell's free volume."""
    low = system.refrigerant.saturated(e.unknowns.evaporating_temperature)
    room_for_liquid = DROWNED_SHARE * system.compressor.shell_volume * low.liquid_density
    return np.asarray(e.inventory.shell_liquid > room_for_liquid)


def _why_not(system: SealedSystem, at: Conditions, e: Evaluation) -> NDArray[np.int_]:
    """Reason of a lane that did not settle, from where its march ended."""
    refrigerant = system.refrigerant
    hot = e.unknowns.condensing_temperature > refrigerant.greatest_temperature - 2.0 * MARGIN
    cold = e.unknowns.evaporating_temperature < refrigerant.least_temperature + 2.0 * MARGIN
    liquid = refrigerant.saturated(e.unknowns.evaporating_temperature).liquid_density
    tubes = system.evaporator.volume + system.condenser.volume
    full = e.inventory.total > FULL_SHARE * liquid * tubes
    # A condenser that runs hot because liquid fills most of it is overfull, not too small.
    warm = e.unknowns.condensing_temperature > refrigerant.greatest_temperature - NEARLY_CRITICAL
    full = full | (warm & (e.condenser.liquid_share > FLOODED_SHARE))
    reach = e.unknowns.evaporating_temperature > at.source_temperature
    return np.select(
        [full, hot, cold, reach], [TOO_FULL, TOO_HOT, TOO_COLD, OUT_OF_REACH], UNSETTLED
    )
