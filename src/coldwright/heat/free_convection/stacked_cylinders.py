"""Free convection on lying tubes that stand above one another: each in the plume of the lower."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.sources import correlation

SINGLE_TUBE = 0.513
"""Nu over Ra^0.235 of a single tube in air near Ra 1e3 to 1e4, to which the stack is referred."""
LEAST_SHARE = 0.2
ROUNDING = 0.02


@correlation(
    quantity="free convection on a stack of lying cylinders",
    source="corcione_2005",
    ranges={"pitch_ratio": (2.0, 10.0), "count": (2.0, 6.0)},
    bias="coefficients from memory; carried on beyond six tubes; a gain by the draft is left out",
)
def stacked_cylinders_share(pitch_ratio: FloatOrArray, count: FloatOrArray) -> Array:
    """Mean film of lying tubes one above the other over that of a tube alone, 0.2 to 1.

    {0.292 ln[(S/D)^0.4 N^-0.2] + 0.447} / 0.513, held under 1

    pitch_ratio S/D, middle to middle over diameter, >= 1 (below counts as 1); count N of tubes,
    >= 1 (below counts as 1), any fraction. Published for Ra 5e2 to 5e5 on the diameter. Wide stacks
    gain up to 20 % by the draft of the lower tubes: left out, so that one tube alone is the limit.
    Source: Corcione (2005), from memory; that the stack is given as a share, and the cap, are
    our own.
    """
    ratio, tubes = np.maximum(lanes(pitch_ratio), 1.0), np.maximum(lanes(count), 1.0)
    share = (0.292 * (0.4 * np.log(ratio) - 0.2 * np.log(tubes)) + 0.447) / SINGLE_TUBE
    held = 0.5 * (share + 1.0 - np.sqrt((share - 1.0) ** 2 + ROUNDING**2))
    return np.maximum(held, LEAST_SHARE)
