"""A root between two bounds, found for all lanes together."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from coldwright.arrays import Array

MOST_STEPS = 60
# Every so many steps the bracket is halved, so that no lane creeps along one of its ends.
HALVING_EVERY = 6


def root_between(
    function: Callable[[Array], Array], low: Array, high: Array, *, at_rest: float
) -> Array:
    """Where `function` passes zero between `low` and `high`, lane by lane.

    The bracket is narrowed by the line between its ends, an end that stays being weighed down
    (Anderson and Bjorck 1973), and halved now and then. A lane is done when its last step was under
    `at_rest` (in the unit of the argument). Where both ends lie on one side of zero the end nearer
    to zero is returned. Source: Anderson and Bjorck 1973, A new high order method of regula falsi
    type, BIT 13, 253-264.
    """
    a, b = np.broadcast_arrays(low, high)
    a, b = a.astype(np.float64), b.astype(np.float64)
    at_a, at_b = np.broadcast_arrays(function(a), function(b))
    crossing = at_a * at_b < 0.0
    best = np.where(np.abs(at_a) <= np.abs(at_b), a, b)
    done = ~crossing
    for step in range(1, MOST_STEPS + 1):
        rise = np.where(at_b == at_a, 1.0, at_b - at_a)
        trial = b - at_b * (b - a) / rise
        inside = (trial - a) * (trial - b) < 0.0
        trial = np.where(inside & (step % HALVING_EVERY > 0), trial, 0.5 * (a + b))
        # A lane that is done keeps its answer, whatever company it is solved in.
        trial = np.where(done, best, trial)
        value = function(trial)
        moved = np.abs(trial - best)
        best = trial
        same = value * at_b > 0.0
        weight = 1.0 - value / np.where(at_b == 0.0, 1.0, at_b)
        at_a = np.where(same, at_a * np.where(weight > 0.0, weight, 0.5), at_b)
        a, b, at_b = np.where(same, a, b), trial, value
        done = done | (moved < at_rest) | (value == 0.0)
        if np.all(done):
            break
    return best
