"""Free convection on a helical coil of tube, as in a brine vessel."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.heat.free_convection.numbers import smooth_greatest
from coldwright.sources import correlation

STILL_FLUID_NUSSELT = 0.36
"""Limit of a long tube without flow, taken from the single horizontal cylinder (0.60^2)."""


@correlation(
    quantity="free convection outside a helical coil",
    source="xin_ebadian_1996",
    ranges={"rayleigh": (5e3, 1e5)},
    bias="measured in air; in cold glycol 15-25 % below the single horizontal cylinder",
)
def helical_coil_nusselt(
    rayleigh: FloatOrArray, *, axis_horizontal: bool | np.bool_ | NDArray[np.bool_] = False
) -> Array:
    """Mean Nusselt number outside a helically wound tube in still fluid.

    Nu = 0.290 Ra^0.293 (axis upright), 0.318 Ra^0.293 (axis lying)

    rayleigh: on the tube's outside diameter, >= 0; Nu likewise. axis_horizontal: flag or array of
    flags. Fitted from Ra 5e3 to 1e5. At Ra = 0 it ends at 0.36, joined by fourth powers
    (0.01 % at Ra 5e3).
    Example: Ra 1.4e4, 4.756 upright and 5.215 lying.
    Source: Xin and Ebadian (1996).
    """
    factor = np.where(axis_horizontal, 0.318, 0.290)
    return smooth_greatest(factor * lanes(rayleigh) ** 0.293, STILL_FLUID_NUSSELT, power=4.0)
