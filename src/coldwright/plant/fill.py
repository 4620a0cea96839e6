"""Find the charge that leaves a stated superheat at the evaporator's exit."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array
from coldwright.parts.lane_tools import flat_lanes, shaped_lanes, take_lanes
from coldwright.plant.balance import BALANCED, Balance, settle
from coldwright.plant.charge_rule import FixedCharge, StatedSuperheat
from coldwright.plant.evaluation import Conditions, Unknowns
from coldwright.plant.system import SealedSystem

# Trial charges as shares of both tubes filled with liquid.
LADDER = np.geomspace(0.03, 0.3, 9)
# Rungs of each finer ladder, and how many of them are tried.
FINER = 5
LADDERS = 4
# A final solution from near enough needs fewer steps than this.
FINAL_STEPS = 25
# A rung that takes longer than this is left out.
LADDER_STEPS = 45


def find_charge(system: SealedSystem, at: Conditions, superheat: Array) -> Balance:
    """Settle each lane with the charge that gives `superheat` [K] at the evaporator's exit.

    A ladder of charges is settled at once; superheat falls as the charge rises. The last rung
    before it passes the wanted value starts a finer ladder, and that one's the final solution, in
    which the charge is free; where it does not settle, a yet finer ladder starts it again.
    """
    shape = np.shape(at.source_temperature)
    system, at = flat_lanes(system, shape), flat_lanes(at, shape)
    rule = flat_lanes(StatedSuperheat(np.asarray(superheat)), shape)
    source = np.atleast_1d(at.source_temperature)
    count = source.size
    tubes = system.evaporator.volume + system.condenser.volume
    full = system.refrigerant.saturated(source).liquid_density * tubes
    start, low, high, _ = _climb(system, at, rule, LADDER[:, None] * full, None)
    left = np.arange(count)
    for _ in range(LADDERS):
        part, there = take_lanes(system, left, count), take_lanes(at, left, count)
        charges = low[left] * (high[left] / low[left]) ** np.linspace(0.0, 1.0, FINER)[:, None]
        guess = Unknowns(*np.broadcast_to(start[:, None, left], (5, *charges.shape)))
        climbed = _climb(part, there, take_lanes(rule, left, count), charges, guess)
        new, lower, upper, risen = climbed
        start[:, left] = np.where(risen, new, start[:, left])
        # A ladder none of whose rungs settled was too coarse: keep to its first part.
        low[left] = np.where(risen, lower, low[left])
        high[left] = np.where(risen, upper, charges[1])
        found = settle(system, at, rule, Unknowns(*start), most_steps=FINAL_STEPS)
        # Where the charge is found the solution is kept: it settles at once in the next round.
        done = found.reason == BALANCED
        start = np.where(done, found.evaluation.unknowns.stacked(), start)
        left = np.flatnonzero(~done)
        if left.size == 0:
            break
    return shaped_lanes(found, shape)


def _climb(
    system: SealedSystem,
    at: Conditions,
    rule: StatedSuperheat,
    charges: Array,
    guess: Unknowns | None,
) -> tuple[Array, Array, Array, NDArray[np.bool_]]:
    """Settle `charges[rung, lane]`.

    Returns the unknowns at the last starved rung, its charge, the next rung's, and whether there
    is a starved rung at all.
    """
    rungs, count = charges.shape
    spread = Conditions(*(np.broadcast_to(a, charges.shape) for a in vars(at).values()))
    ladder = settle(system, spread, FixedCharge(charges), guess, LADDER_STEPS, quick=True)
    starved = (ladder.reason == BALANCED) & (rule.residual(spread, ladder.evaluation) > 0.0)
    risen = starved.any(axis=0)
    best = np.where(risen, rungs - 1 - np.argmax(starved[::-1], axis=0), 0)
    lane = np.arange(count)
    unknowns = ladder.evaluation.unknowns.stacked()[:, best, lane]
    # Where even the last rung is starved, the next ladder goes on above it.
    above = charges[-1:] * (charges[-1:] / charges[-2:-1]) ** (FINER - 1)
    taller = np.concatenate([charges, above])
    return unknowns, taller[best, lane], taller[best + 1, lane], risen
