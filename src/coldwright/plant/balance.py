"""What a sealed system settles at: five unknowns, found in pseudo-time and finished by Newton.

The march follows the machine's own way to its balance: the low side's content changes by what the
capillary passes less what the compressor draws, the return gas, the exchanger and the shell follow
with a lag, and the charge is conserved. Each step is linearly implicit; as the steps lengthen it
becomes Newton's method. Following the physical path keeps a flooding system with a return
exchanger, where the charge folds over in condensing temperature, on its stable branch.

Lanes that are done are frozen. A lane without a balance ends with a reason from `REASONS`.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array
from coldwright.parts.capillary import FIRST_PLACING, Placing
from coldwright.plant.charge_rule import ChargeRule
from coldwright.plant.evaluation import Conditions, Evaluation, Unknowns, evaluate
from coldwright.plant.lane_tools import flat_lanes, shaped_lanes, take_lanes
from coldwright.plant.march import (
    BOLD,
    CAREFUL,
    CONVERGED,
    MARGIN,
    STUBBORN,
    march,
    residuals,
)
from coldwright.plant.system import SealedSystem

REASONS = (
    "balanced",
    "the condenser cannot shed the heat: the condensing temperature leaves the refrigerant's range",
    "the low side is pumped empty: too little charge, or the capillary passes too little",
    "the charge is more than the tubes can hold beside room for gas",
    "no steady balance was found in the allowed steps",
)
BALANCED, TOO_HOT, TOO_COLD, TOO_FULL, UNSETTLED = range(5)

GOOD_ENOUGH = 1e-8
MOST_STEPS = 90
# How the march is tried, one after another for the lanes that are left: its pace, the most steps
# (nine lanes in ten need under 16 of the first) and the first step [s] from a guess nearby.
PACES = ((BOLD, 18, 600.0), (CAREFUL, 45, 60.0), (STUBBORN, MOST_STEPS, 60.0))
# The same where a lane that is left out does no harm.
QUICK_PACES = ((BOLD, 25, 600.0),)
# The start's merit asks no more of the exchanger's heat than about where it is.
ROUGHLY = Placing(passes=1)
# More than this share of both tubes full of liquid counts as a charge that does not fit.
FULL_SHARE = 0.4
DROWNED_SHARE = 0.5
# Grid of the start: evaporating under the source, condensing over the room [K].
BELOW_SOURCE = np.array([2.0, 5.0, 10.0, 18.0, 28.0, 40.0, 55.0])
ABOVE_ROOM = np.array([1.0, 4.0, 9.0, 16.0, 25.0, 36.0])


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
    lane without a balance.
    """
    shape = np.shape(at.source_temperature)
    system, at, rule = flat_lanes(system, shape), flat_lanes(at, shape), flat_lanes(rule, shape)
    y = _start(system, at, rule) if guess is None else guess.stacked().reshape(5, -1)
    count = y.shape[1]
    found, apart, used = y.copy(), np.full(count, np.inf), np.zeros(count, dtype=np.int_)
    where: Array | None = None
    left = np.arange(count)
    for pace, steps, near_step in QUICK_PACES if quick else PACES:
        track = march(
            take_lanes(system, left, count),
            take_lanes(at, left, count),
            take_lanes(rule, left, count),
            y[:, left],
            pace,
            min(steps, most_steps),
            None if guess is None else near_step,
            None if taken is None or where is not None else taken.reshape(len(taken), -1),
        )
        found[:, left], apart[left] = track.unknowns, track.apart
        used[left] += track.used
        if where is None:
            where = track.taken  # the first pace sees all lanes
        elif track.taken is not None:
            where[:, left] = track.taken
        left = np.flatnonzero(apart >= CONVERGED)
        if left.size == 0:
            break
    reason = np.where(apart < CONVERGED, BALANCED, UNSETTLED)
    # As the last look left it: a lane whose heat finds no rest stays where it was closed.
    placing = FIRST_PLACING if where is None else Placing(0, where)
    final = evaluate(system, at, Unknowns(*found), placing)
    residual = np.max(np.abs(residuals(at, rule, final)), axis=0)
    # Rounding may keep a lane from the march's goal, though its balance is good enough.
    reason = np.where((reason == UNSETTLED) & (residual < GOOD_ENOUGH), BALANCED, reason)
    reason = np.where(reason == UNSETTLED, _why_not(system, final), reason)
    reason = np.where((reason == BALANCED) & _drowned(system, final), TOO_FULL, reason)
    return shaped_lanes(Balance(final, final.inventory.total, residual, reason, used), shape)


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
    e = evaluate(system, at, trial, ROUGHLY)
    flow = np.log(np.maximum(e.capillary.required_length / system.capillary.length, 1e-6))
    merit = np.abs(0.5 * flow) + np.abs(rule.residual(at, e))
    best = np.argmin(merit.reshape(-1, merit.shape[-1]), axis=0)
    grid = trial.stacked().reshape(5, -1, merit.shape[-1])
    return grid[:, best, np.arange(merit.shape[-1])]


def _drowned(system: SealedSystem, e: Evaluation) -> NDArray[np.bool_]:
    """Where liquid refrigerant lies over half of the compressor shell's free volume."""
    low = system.refrigerant.saturated(e.unknowns.evaporating_temperature)
    room_for_liquid = DROWNED_SHARE * system.compressor.shell_volume * low.liquid_density
    return np.asarray(e.inventory.shell_liquid > room_for_liquid)


def _why_not(system: SealedSystem, e: Evaluation) -> NDArray[np.int_]:
    """Reason of a lane that did not settle, from where its march ended."""
    refrigerant = system.refrigerant
    hot = e.unknowns.condensing_temperature > refrigerant.greatest_temperature - 2.0 * MARGIN
    cold = e.unknowns.evaporating_temperature < refrigerant.least_temperature + 2.0 * MARGIN
    liquid = refrigerant.saturated(e.unknowns.evaporating_temperature).liquid_density
    tubes = system.evaporator.volume + system.condenser.volume
    full = e.inventory.total > FULL_SHARE * liquid * tubes
    # A condenser that runs hot because liquid fills most of it is overfull, not too small.
    full = full | (hot & (e.condenser.liquid_share > 0.5))
    return np.select([full, hot, cold], [TOO_FULL, TOO_HOT, TOO_COLD], UNSETTLED)
