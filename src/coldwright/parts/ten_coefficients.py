"""The ten-coefficient polynomial of compressor data sheets: its terms, and a fit to points."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes

COEFFICIENTS = 10
# A direction that the points move by less than this share of the widest is not settled by them.
LEAST_SINGULAR = 1e-9


def ten_terms(suction_dew: FloatOrArray, discharge_dew: FloatOrArray) -> Array:
    """The ten terms along a first axis: X = C . terms.

    1, S, D, S^2, S D, D^2, S^3, D S^2, S D^2, D^3 with S and D the suction and discharge dew
    temperatures in the sheet's own unit. Source: AHRI 540 / EN 12900 (`ahri_540`).
    """
    s, d = np.broadcast_arrays(lanes(suction_dew), lanes(discharge_dew))
    return np.stack([s**0, s, d, s**2, s * d, d**2, s**3, d * s**2, s * d**2, d**3])


@dataclass(frozen=True)
class TenFit:
    """Ten coefficients by least squares, and how many directions the points settle."""

    coefficients: Array
    rank: int

    @property
    def settled(self) -> bool:
        """Whether the points settle all ten: fewer hold only along the sheet's own rows."""
        return self.rank == COEFFICIENTS


def fit_ten(suction_dew: Array, discharge_dew: Array, values: Array) -> TenFit:
    """Fit the ten coefficients to `values`; the shortest ones where they are not settled.

    The temperatures are centred and scaled first, since their cubes differ by orders of magnitude,
    and the rank is taken there: three condensing temperatures settle nine directions, for D^3 is
    then a mixture of 1, D and D^2. The coefficients are for the temperatures as given.
    """
    s, d = lanes(suction_dew), lanes(discharge_dew)

    def scaled(x: Array) -> Array:
        half = 0.5 * (np.max(x) - np.min(x))
        return (x - 0.5 * (np.max(x) + np.min(x))) / np.where(half > 0.0, half, 1.0)

    singular = np.linalg.svd(ten_terms(scaled(s), scaled(d)).T, compute_uv=False)
    rank = int(np.sum(singular > LEAST_SINGULAR * singular[0]))
    terms = ten_terms(s, d).T
    size = np.max(np.abs(terms), axis=0)
    size = np.where(size > 0.0, size, 1.0)
    found = np.linalg.lstsq(terms / size, lanes(values), rcond=LEAST_SINGULAR)[0]
    return TenFit(found / size, rank)
