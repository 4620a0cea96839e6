"""Smooth stand-ins for corners, so that the Newton finish of the balance has derivatives."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes

# The share of a tube's length over which a zone boundary at the tube's end is rounded.
ZONE_ROUNDING = 0.002


def rounded_minimum(value: FloatOrArray, most: FloatOrArray, width: float = ZONE_ROUNDING) -> Array:
    """Smaller of `value` and `most`, rounded over `width` (same unit); never above either."""
    a, b = lanes(value), lanes(most)
    result: Array = 0.5 * (a + b - np.sqrt((a - b) ** 2 + width**2))
    # The rounding would dip under zero for a value near zero; a length never does.
    return np.maximum(result, 0.0)
