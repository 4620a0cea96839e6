"""What one look at a sealed system tells the march: residuals and slopes' scales, compiled.

The same functions run as plain NumPy and, once they have earned it, as compiled code
(`tracing.earned`).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array, lanes
from coldwright.parts.capillary import Placing
from coldwright.parts.lane_tools import has_no_lanes, take_lanes
from coldwright.plant.charge_rule import ChargeRule
from coldwright.plant.evaluation import Conditions, Evaluation, Unknowns, evaluate
from coldwright.plant.system import SealedSystem
from coldwright.tracing.earned import Use
from coldwright.tracing.kernel import Inputs

UNKNOWNS = 5
# Looks one after another that place the exchanger's heat from nothing.
RESTS = 3
# The start's merit asks no more of the exchanger's heat than about where it is.
ROUGHLY = Placing(passes=1, cells=16)


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


@dataclass(frozen=True)
class Look:
    """What the march reads of an evaluation; arrays over the lanes looked at."""

    residual: Array  # [equation, lane]
    low_side: Array  # [kg] refrigerant between the capillary's end and the compressor's valve
    mass_flow: Array  # [kg/s]
    power: Array  # [W]
    latent_heat: Array  # [J/kg]
    taken: Array  # [point, lane] where the exchanger's heat is taken
    misplaced: Array  # how far from it the share lies that this look asks for


def look(
    system: SealedSystem, at: Conditions, rule: ChargeRule, unknowns: Unknowns, placing: Placing
) -> Look:
    """Evaluate all equations once."""
    e = evaluate(system, at, unknowns, placing)
    return Look(
        residuals(at, rule, e),
        e.inventory.low_side,
        e.compressor.mass_flow,
        e.compressor.power,
        e.latent_heat,
        e.capillary.taken,
        e.capillary.misplaced,
    )


def evaluated(
    system: SealedSystem, at: Conditions, rule: ChargeRule, unknowns: Unknowns, placing: Placing
) -> tuple[Evaluation, Array]:
    """All that an evaluation holds, and its residuals."""
    e = evaluate(system, at, unknowns, placing)
    return e, residuals(at, rule, e)


class Looker:
    """Looks at some of the flat lanes of a system, again and again."""

    def __init__(
        self,
        system: SealedSystem,
        at: Conditions,
        rule: ChargeRule,
        count: int,
        haste: float,
        cells: int,
    ) -> None:
        self._parts: tuple[Any, Any, Any] = (system, at, rule)
        self._first = even_share(count, cells)
        self._count = count
        self._haste = lanes(haste)
        self._inputs: Inputs | None = None
        self._use: Use | None = None

    def __call__(self, lane: NDArray[np.intp], trial: Array, taken: Array | None) -> Look:
        """Look at lanes `lane` with unknowns `trial[unknown, place]`.

        `taken[point, lane]` is where the exchanger's heat was taken, for all lanes; None at first.
        """
        return self._seen(lane, trial, self._first if taken is None else taken, by_place=False)

    def at_rest(self, lane: NDArray[np.intp], trial: Array) -> Look:
        """A look that places the exchanger's heat anew, by passes that always come to an end."""
        seen = self(lane, trial, None)
        for _ in range(RESTS - 1):
            seen = self._seen(lane, trial, seen.taken, by_place=True)
        return seen

    def _seen(self, lane: NDArray[np.intp], trial: Array, taken: Array, *, by_place: bool) -> Look:
        if self._use is None:
            self._use = Use(look, self._all(trial, taken), has_no_lanes)
        kernel = self._use.kernel(lane.size)
        if kernel is None:
            return self._plainly(lane, trial, taken if by_place else taken[:, lane])
        if self._inputs is None:
            self._inputs = Inputs(self._all(trial, taken), has_no_lanes)
        place = self._inputs.by_place if by_place else self._inputs.by_lane
        place(-2, taken)
        self._inputs.by_place(-2 - UNKNOWNS, *trial)
        found: Look = kernel(self._inputs, lane)
        return found

    def _all(self, trial: Array, taken: Array) -> tuple[Any, ...]:
        return (*self._parts, Unknowns(*trial), Placing.near(taken, self._haste))

    def _plainly(self, lane: NDArray[np.intp], trial: Array, taken: Array) -> Look:
        """The same without compiled code."""
        system, at, rule = (take_lanes(part, lane, self._count) for part in self._parts)
        found = look(system, at, rule, Unknowns(*trial), Placing.near(taken, self._haste))
        wide = {
            name: np.broadcast_to(value, (*np.shape(value)[:-1], lane.size))
            for name, value in vars(found).items()
        }
        return Look(**wide)


def whole_evaluation(
    system: SealedSystem, at: Conditions, rule: ChargeRule, unknowns: Unknowns, placing: Placing
) -> tuple[Evaluation, Array]:
    """Evaluation of all flat lanes, and its residuals [equation, lane]."""
    parts = (system, at, rule, unknowns, placing)
    count = np.size(unknowns.evaporating_temperature)
    kernel = Use(evaluated, parts, has_no_lanes).kernel(count)
    if kernel is None:
        return evaluated(*parts)
    found: tuple[Evaluation, Array] = kernel(Inputs(parts, has_no_lanes), np.arange(count))
    return found


def merit(system: SealedSystem, at: Conditions, rule: ChargeRule, unknowns: Unknowns) -> Array:
    """How far a state is from a balance of flow and charge; 0 where both are met."""
    e = evaluate(system, at, unknowns, ROUGHLY)
    flow = np.log(np.maximum(e.capillary.required_length / system.capillary.length, 1e-6))
    return np.abs(0.5 * flow) + np.abs(rule.residual(at, e))


def merits(
    system: SealedSystem,
    at: Conditions,
    rule: ChargeRule,
    count: int,
    lane: NDArray[np.intp],
    trial: Array,
) -> Array:
    """`merit` of lanes `lane` (of `count`) with unknowns `trial[unknown, place]`."""
    parts = (system, at, rule, Unknowns(*trial))
    kernel = Use(merit, parts, has_no_lanes).kernel(lane.size)
    if kernel is None:
        asked = (take_lanes(part, lane, count) for part in (system, at, rule))
        return np.broadcast_to(merit(*asked, parts[3]), lane.shape)  # type: ignore[arg-type, call-arg]  # in order
    inputs = Inputs(parts, has_no_lanes)
    inputs.by_place(-UNKNOWNS, *trial)
    found: Array = kernel(inputs, lane)
    return found


def even_share(count: int, cells: int) -> Array:
    """Share of the exchanger's heat taken at each point [point, lane], spread over pressure."""
    return np.broadcast_to(np.linspace(0.0, 1.0, cells + 1)[:, None], (cells + 1, count))


def refined(taken: Array, cells: int) -> Array:
    """`taken[point, lane]` at the points of `cells`, a whole number of times as many."""
    times = cells // (len(taken) - 1)
    share = np.linspace(0.0, 1.0, times, endpoint=False)[:, None]
    between = taken[:-1, None] + share * (taken[1:, None] - taken[:-1, None])
    return np.concatenate([between.reshape(-1, taken.shape[1]), taken[-1:]])
