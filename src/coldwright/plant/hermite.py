"""Monotone cubic interpolation on an uneven grid of two coordinates, many quantities at once."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array

# Powers of t in [0, 1] to the cubic's weights: value and slope at the near end, then at the far.
BASIS = np.array([[1, 0, 0, 0], [0, 1, 0, 0], [-3, -2, 3, -1], [2, 1, -2, 1]], dtype=np.float64)
EXPONENTS = np.arange(4.0)


@dataclass(frozen=True)
class Sheet:
    """Quantities over rows and columns; between the points cubic, C1 and without overshoot.

    values: `[sheet, row, column, quantity]`; cells: coefficients of each cell's polynomial in the
    two shares of the way across it, `[sheet, row, column, 16, quantity]`; sheet_of: which sheet
    each lane reads (a single one serves all).
    """

    rows: Array
    columns: Array
    values: Array
    cells: Array
    sheet_of: NDArray[np.intp] | None = None

    @classmethod
    def through(cls, rows: Array, columns: Array, values: Array) -> Sheet:
        """Through `values[lane, row, column, quantity]` on axes of two points or more that rise.

        Slopes by Fritsch and Butland's rule (SciPy's PCHIP), along columns and along rows.
        """
        along = _slopes(columns, values, axis=2)
        down = _slopes(rows, values, axis=1)
        both = _slopes(rows, along, axis=1)
        high = np.diff(rows)[:, None, None]
        wide = np.diff(columns)[:, None]

        def ends(a: Array) -> Array:
            """Values at both ends of each cell, `[row's end, column's end, sheet, row, ...]`."""
            near = np.stack([a[:, :, :-1], a[:, :, 1:]])
            return np.stack([near[:, :, :-1], near[:, :, 1:]])

        corners = np.stack(
            [
                np.stack([ends(values), ends(along) * wide]),
                np.stack([ends(down) * high, ends(both) * high * wide]),
            ]
        )  # [of row, of column, row's end, column's end, sheet, row, column, quantity]
        basis = BASIS.reshape(4, 2, 2)  # power, end, (value, slope)
        found = np.einsum("mis,njt,stijlrcq->lrcmnq", basis, basis, corners, optimize=True)
        shape = (*found.shape[:3], 16, found.shape[-1])
        return cls(rows, columns, values, np.ascontiguousarray(found.reshape(shape)))

    def taken(self, wanted: NDArray[np.intp]) -> Sheet:
        """The same sheets, read by only the `wanted` lanes."""
        if len(self.cells) == 1:
            return self
        return replace(self, sheet_of=wanted if self.sheet_of is None else self.sheet_of[wanted])

    def at(self, row: Array, column: Array) -> Array:
        """All quantities at (row, column), flat lanes alike; `[quantity, lane]`. Held at edges."""
        cell, by_row, by_column, _ = self._place(row, column)
        weights = (by_row[:, :, None] * by_column[:, None, :]).reshape(len(cell), 1, 16)
        return np.asarray((weights @ cell)[:, 0].T)

    def with_slope(self, row: Array, column: Array, quantity: int) -> tuple[Array, Array]:
        """As `at`, and how one quantity changes along the columns (0 beyond the edges)."""
        cell, by_row, by_column, width = self._place(row, column)
        weights = (by_row[:, :, None] * by_column[:, None, :]).reshape(len(cell), 1, 16)
        inside = (column >= self.columns[0]) & (column <= self.columns[-1])
        steep = np.zeros_like(by_column)
        steep[:, 1:] = by_column[:, :3] * EXPONENTS[1:] * (inside / width)[:, None]
        steep = (by_row[:, :, None] * steep[:, None, :]).reshape(len(cell), 16)
        return (weights @ cell)[:, 0].T, np.einsum("lw,lw->l", steep, cell[:, :, quantity])

    def _place(self, row: Array, column: Array) -> tuple[Array, Array, Array, Array]:
        """Each lane's cell, the powers of the shares across it, and its width."""
        i, by_row, _ = _powers(self.rows, row)
        j, by_column, width = _powers(self.columns, column)
        if len(self.cells) == 1:
            return self.cells[0][i, j], by_row, by_column, width
        sheet = np.arange(len(i)) if self.sheet_of is None else self.sheet_of
        return self.cells[sheet, i, j], by_row, by_column, width


def _slopes(points: Array, values: Array, axis: int) -> Array:
    """Slopes along one axis that keep the curve between its points."""
    from scipy.interpolate import PchipInterpolator  # noqa: PLC0415 (slow to load)

    return np.asarray(PchipInterpolator(points, values, axis=axis).derivative()(points))


def _powers(axis: Array, at: Array) -> tuple[NDArray[np.intp], Array, Array]:
    """Cell of `at`, the powers `[lane, 0 to 3]` of the share of the way across it, its width."""
    held = np.minimum(np.maximum(at, axis[0]), axis[-1])
    cell = np.minimum(axis.searchsorted(held, side="right") - 1, len(axis) - 2)
    start = axis[cell]
    width = axis[cell + 1] - start
    share = (held - start) / width
    powers = np.empty((len(share), 4))
    powers[:, 0], powers[:, 1] = 1.0, share
    np.multiply(share, share, out=powers[:, 2])
    np.multiply(powers[:, 2], share, out=powers[:, 3])
    return cell, powers, width
