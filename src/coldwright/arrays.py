"""Array types shared by every layer: a *lane* is one index of a broadcasting float64 array."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]
FloatOrArray = float | Array

__all__ = ["Array", "FloatOrArray", "lanes"]


def lanes(value: ArrayLike) -> Array:
    """Return `value` as a float64 array (0-d for a scalar), without copying when it is one.

    What stands for lanes while operations are written down (`tracing`) is returned as it is.
    """
    if getattr(type(value), "stands_for_lanes", False):
        return value  # type: ignore[return-value]  # computes as an array does
    return np.asarray(value, dtype=np.float64)
