"""Cubic interpolation of many properties at once on evenly spaced grids, over lanes.

The coefficients come from SciPy's splines, once, when a table is made. A look-up has two steps:
`locate` finds the cell and the place in it, and the `Place` it returns evaluates the properties
asked for, each as one gather and one Horner step per coordinate. Both are continuous with their
first derivatives, which the Newton finish of the balance needs. A single number takes a path of
plain Python floats, where an array operation would cost more than the arithmetic.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array, FloatOrArray
from coldwright.fluids.traced_place import PlaceOfStandIn, cell_number, cell_of_stand_in
from coldwright.tracing.stand_in import stand_in

# How far, in cells, a look-up may run past the table before it is held at that place.
CELLS_BEYOND = 2.0
# Lanes worked on at once, so that the gathered coefficients stay in the processor's cache.
BLOCK = 2048
# Up to this many lanes all properties cost about as much as one: the calls count, not the sums.
FEW = 48

Index = NDArray[np.intp]


def _cell(position: Array, cells: FloatOrArray) -> tuple[Array, Array]:
    """Cell number, still a float, and local coordinate of `position` (in cells from the first)."""
    held = np.minimum(np.maximum(position, -CELLS_BEYOND), cells + CELLS_BEYOND)
    cell = np.minimum(np.maximum(np.floor(held), 0.0), cells - 1.0)
    return cell, held - cell


def _blocks(count: int) -> Iterator[slice]:
    """All lanes, a block at a time."""
    for start in range(0, count, BLOCK):
        yield slice(start, min(start + BLOCK, count))


def _cell_of_one(position: float, cells: int) -> tuple[int, float]:
    """The same for one number; not a number stays one."""
    if 0.0 <= position < cells:
        index = int(position)
        return index, position - index
    if position != position:  # noqa: PLR0124 (the test for "not a number")
        return 0, position
    held = min(max(position, -CELLS_BEYOND), cells + CELLS_BEYOND)
    index = min(max(int(held), 0), cells - 1)
    return index, held - index


def _horner(coefficients: Array, at: Array) -> Array:
    """Cubic with `coefficients[power, ...]`, lowest first."""
    result: Array = coefficients[3] * at
    result += coefficients[2]
    result *= at
    result += coefficients[1]
    result *= at
    result += coefficients[0]
    return result


def _horner_slope(coefficients: Array, at: Array) -> Array:
    """First derivative of the same cubic."""
    slope: Array = coefficients[3] * (1.5 * at)
    slope += coefficients[2]
    slope *= 2.0 * at
    slope += coefficients[1]
    return slope


class Place:
    """Where lanes stand in a table; evaluates its properties when asked.

    The table is `[property, power, ..., cell]`, with one axis of powers for each coordinate, the
    last coordinate's first: gathering runs along one power at a time, in a short stretch of memory.
    """

    def __init__(self, table: Array, cell: Index, local: Array, shape: tuple[int, ...]) -> None:
        self._table = table
        self._cell = cell  # [lane]
        self._local = local  # [coordinate, lane]
        self._shape = shape

    def column(self, wanted: int) -> Array:
        """One property, over the lanes."""
        count = self._cell.size
        if count <= FEW:
            every: Array = self.columns
            return np.asarray(every[wanted])
        table, result = self._table[wanted], np.empty(count)
        gathered = np.empty((*table.shape[:-1], min(count, BLOCK)))
        for part in _blocks(count):
            value = gathered[..., : part.stop - part.start]
            table.take(self._cell[part], axis=-1, out=value, mode="clip")
            for local in self._local[::-1]:
                value = _horner(value, local[part])
            result[part] = value
        return result.reshape(self._shape)

    def column_and_slope(self, wanted: int) -> tuple[Array, Array]:
        """One property and its first derivative along the last coordinate, by cell."""
        count = self._cell.size
        table, result, slope = self._table[wanted], np.empty(count), np.empty(count)
        gathered = np.empty((*table.shape[:-1], min(count, BLOCK)))
        for part in _blocks(count):
            powers = gathered[..., : part.stop - part.start]
            table.take(self._cell[part], axis=-1, out=powers, mode="clip")
            local = self._local[-1, part]
            value, rise = _horner(powers, local), _horner_slope(powers, local)
            for other in self._local[-2::-1]:
                value, rise = _horner(value, other[part]), _horner(rise, other[part])
            result[part], slope[part] = value, rise
        return result.reshape(self._shape), slope.reshape(self._shape)

    @cached_property
    def columns(self) -> Array:
        """All properties, along a new first axis."""
        if self._cell.size > FEW:
            return np.stack([self.column(k) for k in range(len(self._table))])
        value = np.moveaxis(self._table.take(self._cell, axis=-1), 0, -2)
        for local in self._local[::-1]:
            value = _horner(value, local)
        return value.reshape(-1, *self._shape)


class PlaceOfOne:
    """Where one number stands in a table; as `Place`."""

    def __init__(self, table: Array, cell: int, local: tuple[float, ...]) -> None:
        self._table = table
        self._cell = cell
        self._local = local

    def column(self, wanted: int) -> Array:
        """One property, as a NumPy scalar."""
        powers = self._table[wanted, ..., self._cell].tolist()
        for local in self._local[::-1]:
            powers = _horner_of_one(powers, local)
        return np.float64(powers)  # type: ignore[return-value]  # a lane of no dimension

    def column_and_slope(self, wanted: int) -> tuple[Array, Array]:
        """One property and its first derivative along the last coordinate, by cell."""
        powers = self._table[wanted, ..., self._cell]
        slope = _horner_slope(powers, np.array(self._local[-1])).tolist()
        for local in self._local[-2::-1]:
            slope = _horner_of_one(slope, local)
        return self.column(wanted), np.float64(slope)  # type: ignore[return-value]  # see above

    @property
    def columns(self) -> Array:
        """All properties."""
        return np.array([self.column(k) for k in range(len(self._table))])


def _horner_of_one(powers: list[Any], at: float) -> Any:  # noqa: ANN401 (a number, or a list of them)
    """The cubic with plain numbers, or a list of cubics side by side."""
    w, x, y, z = powers
    if isinstance(w, list):
        return [((d * at + c) * at + b) * at + a for a, b, c, d in zip(w, x, y, z, strict=True)]
    return ((z * at + y) * at + x) * at + w


AnyPlace = Place | PlaceOfOne | PlaceOfStandIn


@dataclass(frozen=True)
class Curve:
    """Cubics of several properties over one axis; `coefficients[cell, property, power]`."""

    first: float
    step: float
    coefficients: Array

    @classmethod
    def through(cls, axis: Array, values: Array) -> Curve:
        """Fit the C2 spline through `values[node, property]` on the evenly spaced `axis`."""
        # Slow to load, and needed only where a table is not on disk yet.
        from scipy.interpolate import CubicSpline  # noqa: PLC0415 (see above)

        step = float(axis[1] - axis[0])
        spline = CubicSpline(axis, values, axis=0)
        powers = step ** np.arange(4.0)
        # SciPy gives the highest power first; ours is the lowest first, in units of one cell.
        coefficients = np.moveaxis(spline.c[::-1], 0, -1) * powers
        return cls(float(axis[0]), step, np.ascontiguousarray(coefficients))

    @cached_property
    def _table(self) -> Array:
        """The coefficients in the order in which they are gathered."""
        return np.ascontiguousarray(self.coefficients.transpose(1, 2, 0))

    def locate(self, at: Array) -> AnyPlace:
        """Where `at` stands, for its properties to be read."""
        cells = len(self.coefficients)
        if stand_in(at) is not None:
            cell_, local_ = cell_of_stand_in((at - self.first) / self.step, cells, CELLS_BEYOND)
            return PlaceOfStandIn(self.coefficients, cell_, (local_,))
        if at.ndim == 0:
            cell, local = _cell_of_one((float(at) - self.first) / self.step, cells)
            return PlaceOfOne(self._table, cell, (local,))
        flat = at.reshape(-1)
        index, locals_ = np.empty(flat.size, dtype=np.intp), np.empty((1, flat.size))
        for part in _blocks(flat.size):
            index[part], locals_[0, part] = _cell((flat[part] - self.first) / self.step, cells)
        return Place(self._table, index, locals_, at.shape)

    def __call__(self, at: Array) -> Array:
        """All properties at `at`; the property axis is the last of the result."""
        columns = self.locate(at).columns
        return columns.transpose((*range(1, columns.ndim), 0))

    def slope(self, at: Array) -> Array:
        """First derivative of all properties with respect to the axis at `at`."""
        cell, local = _cell((at - self.first) / self.step, len(self.coefficients))
        coefficients = np.moveaxis(self.coefficients[cell.astype(np.intp)], -1, 0)
        return _horner_slope(coefficients, local[..., None]) / self.step

    def packed(self, name: str) -> dict[str, Array]:
        """The curve as arrays to keep on disk, their keys beginning with `name`."""
        axis = np.array([self.first, self.step])
        return {f"{name}_axis": axis, f"{name}_coefficients": self.coefficients}

    @classmethod
    def unpacked(cls, name: str, held: Mapping[str, Array]) -> Curve:
        """Undo `packed`."""
        first, step = held[f"{name}_axis"].tolist()
        return cls(first, step, held[f"{name}_coefficients"])


@dataclass(frozen=True)
class Surface:
    """Bicubics; `coefficients[property, column's power, row's power, row cell, column cell]`."""

    first: tuple[float, float]
    step: tuple[float, float]
    coefficients: Array

    @classmethod
    def through(cls, rows: Array, columns: Array, values: Array) -> Surface:
        """Fit the tensor spline through `values[row, column, property]` on even axes."""
        from scipy.interpolate import CubicSpline  # noqa: PLC0415 (slow to load, see `Curve`)

        steps = (float(rows[1] - rows[0]), float(columns[1] - columns[0]))
        powers = np.arange(4.0)
        along_rows = np.moveaxis(CubicSpline(rows, values, axis=0).c[::-1], 0, -1)
        along_rows = along_rows * steps[0] ** powers
        # [column cell's power, column cell, row cell, property, row's power]
        both = CubicSpline(columns, along_rows, axis=1).c[::-1]
        both = both * (steps[1] ** powers)[:, None, None, None, None]
        ordered = np.ascontiguousarray(both.transpose(3, 0, 4, 2, 1))
        return cls((float(rows[0]), float(columns[0])), steps, ordered)

    @cached_property
    def _axes(self) -> tuple[Array, Array, Array]:
        """First node, step and number of cells, of rows above columns."""
        cells = np.array(self.coefficients.shape[-2:], dtype=np.float64)
        return np.array(self.first)[:, None], np.array(self.step)[:, None], cells[:, None]

    @cached_property
    def _table(self) -> Array:
        return self.coefficients.reshape(*self.coefficients.shape[:3], -1)

    @cached_property
    def _by_cell(self) -> Array:
        """The coefficients with all those of one cell side by side."""
        return np.ascontiguousarray(np.moveaxis(self._table, -1, 0))

    def locate(self, row: Array, column: Array) -> AnyPlace:
        """Where (row, column) stand, for the properties to be read; the two may broadcast."""
        rows, columns = self.coefficients.shape[-2:]
        if stand_in(row) is not None or stand_in(column) is not None:
            return self._of_stand_ins(row, column)
        if row.ndim == 0 and column.ndim == 0:
            i, t = _cell_of_one((float(row) - self.first[0]) / self.step[0], rows)
            j, u = _cell_of_one((float(column) - self.first[1]) / self.step[1], columns)
            return PlaceOfOne(self._table, i * columns + j, (t, u))
        if row.shape != column.shape:
            row, column = np.broadcast_arrays(row, column)
        first, step, cells = self._axes
        index, local = np.empty(row.size, dtype=np.intp), np.empty((2, row.size))
        local[0] = row.reshape(-1)
        local[1] = column.reshape(-1)
        for part in _blocks(row.size):
            cell, local[:, part] = _cell((local[:, part] - first) / step, cells)
            index[part] = cell[0] * columns + cell[1]
        return Place(self._table, index, local, row.shape)

    def _of_stand_ins(self, row: Array, column: Array) -> PlaceOfStandIn:
        """The same while operations are written down."""
        rows, columns = self.coefficients.shape[-2:]
        i, t = cell_of_stand_in((row - self.first[0]) / self.step[0], rows, CELLS_BEYOND)
        j, u = cell_of_stand_in((column - self.first[1]) / self.step[1], columns, CELLS_BEYOND)
        return PlaceOfStandIn(self._by_cell, cell_number(i, j, columns), (t, u))

    def __call__(self, row: Array, column: Array) -> Array:
        """All properties at (row, column); the property axis is the last of the result."""
        columns = self.locate(row, column).columns
        return columns.transpose((*range(1, columns.ndim), 0))

    def packed(self, name: str) -> dict[str, Array]:
        """The surface as arrays to keep on disk, their keys beginning with `name`."""
        axes = np.array([self.first, self.step])
        return {f"{name}_axes": axes, f"{name}_coefficients": self.coefficients}

    @classmethod
    def unpacked(cls, name: str, held: Mapping[str, Array]) -> Surface:
        """Undo `packed`."""
        first, step = held[f"{name}_axes"].tolist()
        return cls(tuple(first), tuple(step), held[f"{name}_coefficients"])
