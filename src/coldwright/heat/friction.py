"""Friction factor in a round tube, over all flow regimes."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.sources import correlation


@correlation(
    quantity="friction factor in a round tube",
    source="churchill_1977_friction",
    ranges={"reynolds": (1.0, 1e8), "relative_roughness": (0.0, 0.05)},
    bias="within a few per cent of the Moody chart, transition only indicative",
)
def darcy_friction_factor(reynolds: FloatOrArray, relative_roughness: FloatOrArray) -> Array:
    """Darcy friction factor, laminar to fully rough, in one smooth expression.

    f = 8 [(8/Re)^12 + (A + B)^-1.5]^(1/12),
    A = [2.457 ln(1 / ((7/Re)^0.9 + 0.27 roughness))]^16, B = (37530/Re)^16.

    `reynolds` [-] and `relative_roughness` (height over diameter) [-] broadcast. Source: Churchill
    1977, Friction-factor equation spans all fluid-flow regimes, Chemical Engineering 84(24) 91-92.
    """
    re = np.maximum(lanes(reynolds), 1.0)
    smooth_part = (7.0 / re) ** 0.9 + 0.27 * lanes(relative_roughness)
    # Whole powers by squaring: this stands in the capillary's innermost loop.
    a, b = -2.457 * np.log(smooth_part), 37530.0 / re
    for _ in range(4):
        a, b = a * a, b * b
    turbulent = 1.0 / ((a + b) * np.sqrt(a + b))
    laminar = (8.0 / re) ** 3
    result: Array = 8.0 * (laminar**4 + turbulent) ** (1.0 / 12.0)
    return result
