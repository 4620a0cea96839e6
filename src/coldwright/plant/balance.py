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
from coldwright.plant.charge_rule import ChargeRule
from coldwright.plant.evaluation import Conditions, Evaluation, Unknowns, evaluate
from coldwright.plant.lane_tools import flat_lanes, shaped_lanes, take_lanes
from coldwright.plant.system import SealedSystem

REASONS = (
    "balanced",
    "the condenser cannot shed the heat: the condensing temperature leaves the refrigerant's range",
    "the low side is pumped empty: too little charge, or the capillary passes too little",
    "the charge is more than the tubes can hold beside room for gas",
    "no steady balance was found in the allowed steps",
)
BALANCED, TOO_HOT, TOO_COLD, TOO_FULL, UNSETTLED = range(5)

CONVERGED = 1e-9
GOOD_ENOUGH = 1e-8
MOST_STEPS = 90
# How near [K] to the ends of the refrigerant's table the march may come.
MARGIN = 2.0
# More than this share of both tubes full of liquid counts as a charge that does not fit.
FULL_SHARE = 0.4
DROWNED_SHARE = 0.5
# Lags [s] of the pseudo-time march and heat capacity of its shell [J/K]; only its path depends on
# them, never its end.
LAG = 10.0
CHARGING_LAG = 60.0
SHELL_CAPACITY = 30.0
FIRST_STEP = 3.0
GROWTH = 1.8
LEAST_GROWTH = 0.3
# Growth of the step for the factor by which the last one lowered the residual.
FOR_GAIN = 1.3
STEP_RANGE = (0.3, 1e12)
# Longest move of each unknown in one step, and the nudge of its slope: K, K, J/kg, K, J/kg.
LONGEST_MOVE = np.array([4.0, 5.0, 15e3, 12.0, 10e3])
NUDGE = np.array([2e-4, 2e-4, 2.0, 1e-3, 1.0])
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


def residuals(at: Conditions, rule: ChargeRule, e: Evaluation) -> Array:
    """Relative residuals [equation, lane]: flow, charge, return gas, shell, exchanger."""
    return np.stack(
        np.broadcast_arrays(
            e.net_flow / e.compressor.mass_flow,
            rule.residual(at, e),
            e.returning.excess / e.latent_heat,
            e.compressor.shell_excess / e.compressor.power,
            e.returning.exchanger_excess / e.latent_heat,
        )
    )


def settle(
    system: SealedSystem,
    at: Conditions,
    rule: ChargeRule,
    guess: Unknowns | None = None,
    most_steps: int = MOST_STEPS,
) -> Balance:
    """Settle every lane of `system` at `at` under the charge equation `rule`.

    The lanes' shape is that of the conditions, the system and the rule broadcast together (given
    by `at.source_temperature`, to which the caller broadcasts it). Returns a `Balance` of that
    shape; never raises for a lane without a balance.
    """
    shape = np.shape(at.source_temperature)
    system, at, rule = flat_lanes(system, shape), flat_lanes(at, shape), flat_lanes(rule, shape)
    y = _start(system, at, rule) if guess is None else guess.stacked().reshape(5, -1).copy()
    count = y.shape[1]
    step = np.full(count, FIRST_STEP if guess is None else 20.0 * FIRST_STEP)
    norm = np.full(count, np.inf)
    reason = np.full(count, UNSETTLED)
    used = np.zeros(count, dtype=int)
    active = np.arange(count)
    for turn in range(most_steps):
        moved, step[active], norm[active] = _advance(
            take_lanes(system, active, count),
            take_lanes(at, active, count),
            take_lanes(rule, active, count),
            y[:, active],
            step[active],
            norm[active],
        )
        y[:, active] = moved
        used[active] = turn + 1
        reason[norm < CONVERGED] = BALANCED
        active = np.flatnonzero(norm >= CONVERGED)
        if active.size == 0:
            break
    final = evaluate(system, at, Unknowns(*y))
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
    e = evaluate(system, at, trial)
    flow = np.log(np.maximum(e.capillary.required_length / system.capillary.length, 1e-6))
    merit = np.abs(0.5 * flow) + np.abs(rule.residual(at, e))
    best = np.argmin(merit.reshape(-1, merit.shape[-1]), axis=0)
    grid = trial.stacked().reshape(5, -1, merit.shape[-1])
    return grid[:, best, np.arange(merit.shape[-1])]


def _advance(
    system: SealedSystem,
    at: Conditions,
    rule: ChargeRule,
    y: Array,
    step: Array,
    norm_before: Array,
) -> tuple[Array, Array, Array]:
    """One linearly implicit step of all lanes; returns the new unknowns, steps and the norm."""
    nudges = np.concatenate([np.zeros((5, 1)), np.diag(NUDGE)], axis=1)
    e = evaluate(system, at, Unknowns(*(y[:, None, :] + nudges[..., None])))
    f = residuals(at, rule, e)  # [equation, nudge, lane]
    low_side = np.broadcast_to(e.inventory.low_side, f.shape[1:])
    slope = (f[:, 1:] - f[:, :1]) / NUDGE[:, None]  # [equation, unknown, lane]
    storage = np.zeros_like(slope)
    storage[0] = (low_side[1:] - low_side[0]) / NUDGE[:, None] / e.compressor.mass_flow[0]
    storage[2, 2] = LAG / e.latent_heat[0]
    storage[3, 3] = SHELL_CAPACITY / e.compressor.power[0]
    storage[4, 4] = LAG / e.latent_heat[0]
    least, greatest = system.refrigerant.least_temperature, system.refrigerant.greatest_temperature
    lowest, highest = least + MARGIN, greatest - MARGIN
    wanted = f[:, 0].copy()
    # The charge is let in over a while, so that the low side keeps pace with the high side.
    wanted[1] = wanted[1] / (1.0 + CHARGING_LAG / step)
    move = _moves(storage / step - slope, wanted, y[0] <= lowest, y[1] >= highest)
    longest = np.max(np.abs(move) / LONGEST_MOVE[:, None], axis=0)
    shortened = 1.0 / np.maximum(longest, 1.0)
    y = y + move * shortened
    y[0] = np.clip(y[0], lowest, highest)
    y[1] = np.clip(y[1], y[0] + 0.5, highest)
    norm = np.max(np.abs(f[:, 0]), axis=0)
    growth = np.where(longest < 0.2, 4.0 * GROWTH, GROWTH)
    # A step that gained little must not be followed by a longer one: the march would swing to and
    # fro over a bend, such as where the first liquid appears in the condenser.
    growth = np.clip(FOR_GAIN * norm_before / np.maximum(norm, 1e-300), LEAST_GROWTH, growth)
    step = np.where(longest < 1.0, step * growth, step * np.maximum(0.5, shortened))
    return y, np.clip(step, *STEP_RANGE), np.asarray(norm)


def _moves(matrix: Array, right: Array, cold: NDArray[np.bool_], hot: NDArray[np.bool_]) -> Array:
    """Solve `matrix[equation, unknown, lane]` for the moves of the five unknowns.

    A condensing temperature that stands at the table's end (`hot`) and would go on is held there,
    its charge equation waived: an overfull condenser meanwhile empties into the low side, and the
    march comes back. So is an evaporating temperature at its end (`cold`), flow waived.
    """
    square, wanted = np.moveaxis(matrix, -1, 0), right.T
    move = np.linalg.solve(square, wanted[..., None])[..., 0]
    held = np.stack([cold & (move[:, 0] < 0.0), hot & (move[:, 1] > 0.0)], axis=-1)
    if np.any(held):
        fixed = np.pad(held, ((0, 0), (0, 3)))
        square = np.where(fixed[..., None], np.eye(5), square)
        move = np.linalg.solve(square, np.where(fixed, 0.0, wanted)[..., None])[..., 0]
    return np.asarray(move.T)


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
