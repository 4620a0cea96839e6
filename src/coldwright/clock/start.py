"""What a start and a stop cost: refrigerant that moves to the cold side at rest and comes back.

While the machine runs the condenser holds `high_side` kilograms. When it stops, they pass through
the capillary to the evaporator within minutes: the liquid cools down there and the gas condenses,
which is a load. After the start the compressor must carry them back before the condenser feeds
the capillary again, which takes high_side / mass_flow, less while the suction is still high;
meanwhile the capacity rises with the share that is back. All follows from the balance's own
figures; no loss is put in by hand.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array

EQUALISING = 150.0
"""Time constant [s] of the high side's emptying at rest: pressures meet in 7 to 10 minutes
(maker service manual, read)."""

LEAST_SURPLUS = 1e-6  # so that the logarithms keep a divisor

LEAST_RETURN = 5.0
"""Shortest time constant [s] of a start."""


def returned_share(
    share: Array, running: NDArray[np.bool_], returning: Array, surplus: Array, step: Array
) -> tuple[Array, Array]:
    """Share of the charge that is back where it belongs, after `step` [s], and its mean meanwhile.

    share: at the beginning; returning: time constant of the start [s] at the flow of the run;
    surplus: by how much more the compressor carries at the pressure of rest, over that flow. The
    suction, and with it the flow, comes down as the charge comes back, so that what is away falls
    by du/dt = -u (1 + surplus u) / returning, which has a closed answer.
    """
    constant = np.where(running, np.maximum(returning, LEAST_RETURN), EQUALISING)
    more = np.where(running, np.maximum(surplus, LEAST_SURPLUS), LEAST_SURPLUS)
    z = np.maximum(step / constant, 1e-9)
    away = np.where(running, 1.0 - share, share)
    left = away * np.exp(-z) / (1.0 - more * away * np.expm1(-z))
    mean = (np.log1p(more * away) - np.log1p(more * left)) / (more * z)
    return np.where(running, 1.0 - left, left), np.where(running, 1.0 - mean, mean)
