"""Cubic interpolation of many properties at once on evenly spaced grids, over lanes.

The coefficients come from SciPy's splines (once, when a table is made); a look-up is one gather
and one Horner step per axis for all properties together. Both are continuous with their first
derivatives, which the Newton finish of the balance needs.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import CubicSpline

from coldwright.arrays import Array

# How far, in cells, a look-up may run past the table before it is held at that place.
CELLS_BEYOND = 2.0


Index = NDArray[np.intp]


def _cell(position: Array, cells: int) -> tuple[Index, Array]:
    """Cell index and local coordinate of `position` (in cells from the first node)."""
    held = np.minimum(np.maximum(position, -CELLS_BEYOND), cells + CELLS_BEYOND)
    index = np.minimum(np.maximum(held.astype(np.intp), 0), cells - 1)
    return index, held - index


@dataclass(frozen=True)
class Curve:
    """Cubics of several properties over one axis; `coefficients[cell, property, power]`."""

    first: float
    step: float
    coefficients: Array

    @classmethod
    def through(cls, axis: Array, values: Array) -> Curve:
        """Fit the C2 spline through `values[node, property]` on the evenly spaced `axis`."""
        step = float(axis[1] - axis[0])
        spline = CubicSpline(axis, values, axis=0)
        powers = step ** np.arange(4.0)
        # SciPy gives the highest power first; ours is the lowest first, in units of one cell.
        coefficients = np.moveaxis(spline.c[::-1], 0, -1) * powers
        return cls(float(axis[0]), step, np.ascontiguousarray(coefficients))

    def __call__(self, at: Array) -> Array:
        """All properties at `at`; the property axis is the last of the result."""
        cell, local = _cell((at - self.first) / self.step, len(self.coefficients))
        c = self.coefficients[cell]
        t = local[..., None]
        result: Array = ((c[..., 3] * t + c[..., 2]) * t + c[..., 1]) * t + c[..., 0]
        return result

    def slope(self, at: Array) -> Array:
        """First derivative of all properties with respect to the axis at `at`."""
        cell, local = _cell((at - self.first) / self.step, len(self.coefficients))
        c = self.coefficients[cell]
        t = local[..., None]
        result: Array = ((3.0 * c[..., 3] * t + 2.0 * c[..., 2]) * t + c[..., 1]) / self.step
        return result


@dataclass(frozen=True)
class Surface:
    """Bicubics of several properties; `coefficients[row cell, column cell, property, 4, 4]`."""

    first: tuple[float, float]
    step: tuple[float, float]
    coefficients: Array

    @classmethod
    def through(cls, rows: Array, columns: Array, values: Array) -> Surface:
        """Fit the tensor spline through `values[row, column, property]` on even axes."""
        steps = (float(rows[1] - rows[0]), float(columns[1] - columns[0]))
        powers = np.arange(4.0)
        along_rows = np.moveaxis(CubicSpline(rows, values, axis=0).c[::-1], 0, -1)
        along_rows = along_rows * steps[0] ** powers
        both = np.moveaxis(CubicSpline(columns, along_rows, axis=1).c[::-1], [0, 1, 2], [-1, 1, 0])
        both = both * steps[1] ** powers
        return cls((float(rows[0]), float(columns[0])), steps, np.ascontiguousarray(both))

    def __call__(self, row: Array, column: Array) -> Array:
        """All properties at (row, column); the property axis is the last of the result."""
        cells = self.coefficients.shape
        i, t = _cell((row - self.first[0]) / self.step[0], cells[0])
        j, u = _cell((column - self.first[1]) / self.step[1], cells[1])
        c = self.coefficients[i, j]
        u_ = u[..., None, None]
        line = ((c[..., 3] * u_ + c[..., 2]) * u_ + c[..., 1]) * u_ + c[..., 0]
        t_ = t[..., None]
        result: Array = ((line[..., 3] * t_ + line[..., 2]) * t_ + line[..., 1]) * t_ + line[..., 0]
        return result
