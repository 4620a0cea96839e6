"""One small tool: bring a set of quantities to rest that each depend gently on all the others."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from coldwright.arrays import Array

_STEP_LIMIT = 3.0
MOST_PASSES = 50
BOLD_PASSES = 20
"""Passes after which a lane that still swings (at the onset of dew, say) goes on by half steps."""


def _mixing(residual: Array, newest: Array, older: Array) -> tuple[Array, Array]:
    """Weights that make `residual` smallest along two known changes, lane by lane."""
    aa = np.sum(newest * newest, axis=0)
    bb = np.sum(older * older, axis=0)
    ab = np.sum(newest * older, axis=0)
    ra = np.sum(residual * newest, axis=0)
    rb = np.sum(residual * older, axis=0)
    # nearly parallel changes say nothing new: the second then gets no weight
    product = aa * bb
    determinant = product - ab * ab
    usable = determinant > 1e-8 * product
    safe = np.where(usable, determinant, 1.0)
    single = ra / np.where(aa > 0.0, aa, 1.0)
    first = np.where(usable, (ra * bb - rb * ab) / safe, single)
    second = np.where(usable, (rb * aa - ra * ab) / safe, 0.0)
    return (
        np.clip(first, -_STEP_LIMIT, _STEP_LIMIT),
        np.clip(second, -_STEP_LIMIT, _STEP_LIMIT),
    )


def settle(step: Callable[[Array], Array], start: Array, *, at_rest: float = 1e-10) -> Array:
    """Fixed point of `step`, found by passes over all lanes together, at most `MOST_PASSES`.

    start: one row per quantity, lanes behind; rows should have like magnitudes. `step` must
    contract (films grow only by about the fourth root of a difference, so a network of frozen
    films does); each pass then extrapolates along the last two changes (Anderson's method of depth
    two), which makes the approach faster than geometric. A lane whose rows move by less than
    `at_rest` is frozen, so that its result is the same in whatever company it is solved; a
    lane that never comes to rest shows in the caller's residual.
    Source: Anderson (1965), Iterative procedures for nonlinear integral equations.
    """
    point, image = start, step(start)
    residual = image - point
    newest_residual = older_residual = np.zeros_like(image)
    newest_image = older_image = np.zeros_like(image)
    rested = np.sum(residual * residual, axis=0) < at_rest**2
    for count in range(MOST_PASSES - 1):
        if np.all(rested):
            break
        first, second = _mixing(residual, newest_residual, older_residual)
        bold = image - first * newest_image - second * older_image
        if count >= BOLD_PASSES:
            bold = 0.5 * (point + image)
        last_image, last_residual = image, residual
        point = np.where(rested, image, bold)
        found = step(point)
        image = np.where(rested, image, found)
        residual = found - point
        rested = rested | (np.sum(residual * residual, axis=0) < at_rest**2)
        older_residual, older_image = newest_residual, newest_image
        newest_residual, newest_image = residual - last_residual, image - last_image
    return image
