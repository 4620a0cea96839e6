"""Friction factor in a round tube, over all flow regimes, and what winding the tube adds."""

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
    # One division, and whole powers by squaring: this stands in the capillary's innermost loop.
    inverse = 1.0 / np.maximum(lanes(reynolds), 1.0)
    smooth_part = (7.0 * inverse) ** 0.9 + 0.27 * lanes(relative_roughness)
    a, b = -2.457 * np.log(smooth_part), 37530.0 * inverse
    for _ in range(4):
        a, b = a * a, b * b
    turbulent = 1.0 / ((a + b) * np.sqrt(a + b))
    laminar = (8.0 * inverse) ** 3
    result: Array = 8.0 * (laminar**4 + turbulent) ** (1.0 / 12.0)
    return result


@correlation(
    quantity="friction of a wound tube over that of a straight one",
    source="ito_1959_coil",
    ranges={"reynolds": (4e3, 1e6), "diameter_ratio": (0.0, 0.05)},
    bias="a few per cent beside other coil formulas; fitted on single-phase flow",
)
def coil_friction_ratio(reynolds: FloatOrArray, diameter_ratio: FloatOrArray) -> Array:
    """Turbulent friction in a coil over that in the straight tube; 1 for a straight one.

    f_coil = 0.304 Re^-0.25 + 0.029 (d/D)^0.5, divided by 0.3164 Re^-0.25. `diameter_ratio` is bore
    over coil diameter, 0 for straight. Holds for 0.034 < Re (d/D)^2 < 300; below that a coil is as
    a straight tube, which the ratio meets at 1. Two-phase flow is taken at its homogeneous Reynolds
    number. Source: Ito 1959, Friction factors for turbulent flow in curved pipes, J. Basic
    Engineering 81, 123-134.
    """
    curvature = np.minimum(lanes(reynolds) * lanes(diameter_ratio) ** 2, 300.0)
    ratio = (0.304 + 0.029 * np.sqrt(np.sqrt(curvature))) / 0.3164
    return lanes(np.maximum(ratio, 1.0))
