"""Where a stand-in's lanes stand in a table: as `grids.Place`, written down as operations."""

from __future__ import annotations

from typing import cast

import numpy as np

from coldwright.arrays import Array
from coldwright.tracing.functions import combined
from coldwright.tracing.stand_in import StandIn

POWERS = 4


class PlaceOfStandIn:
    """A place in a table `[cell, property, power, ...]`; evaluates its properties when asked.

    The powers of the last coordinate stand before those of the first.
    """

    def __init__(self, table: Array, cell: StandIn, local: tuple[StandIn, ...]) -> None:
        self._cell = cell
        self._local = local
        self._table = cell.graph.table(table)
        self._properties = table.shape[1]

    def column(self, wanted: int) -> Array:
        """One property."""
        powers = self._powers(wanted)
        for local in self._local[::-1]:
            powers = _horners(powers, local)
        return cast(Array, powers[0])

    def column_and_slope(self, wanted: int) -> tuple[Array, Array]:
        """One property and its first derivative along the last coordinate, by cell."""
        powers, local = self._powers(wanted), self._local[-1]
        rest = len(powers) // POWERS
        slopes = [
            (powers[3 * rest + k] * (1.5 * local) + powers[2 * rest + k]) * (2.0 * local)
            + powers[rest + k]
            for k in range(rest)
        ]
        for other in self._local[-2::-1]:
            slopes = _horners(slopes, other)
        return self.column(wanted), cast(Array, slopes[0])

    @property
    def columns(self) -> Array:
        """All properties, along a new first axis."""
        return np.stack([self.column(k) for k in range(self._properties)])

    def _powers(self, wanted: int) -> list[StandIn]:
        """The coefficients of one property, in the table's order."""
        count = POWERS ** len(self._local)
        stride, graph, cell = self._properties * count, self._cell.graph, self._cell
        length = graph.nodes[cell.node].length
        return [
            StandIn(
                graph,
                graph.add("entry", (cell.node,), (self._table, stride, wanted * count + k), length),
                cell.shape,
            )
            for k in range(count)
        ]


def _horners(powers: list[StandIn], at: StandIn) -> list[StandIn]:
    """The cubics whose coefficients stand one behind the other, lowest power first."""
    rest = len(powers) // POWERS
    return [
        ((powers[3 * rest + k] * at + powers[2 * rest + k]) * at + powers[rest + k]) * at
        + powers[k]
        for k in range(rest)
    ]


def cell_of_stand_in(
    position: StandIn | Array, cells: int, beyond: float
) -> tuple[StandIn, StandIn]:
    """Cell and local coordinate of `position` (in cells from the first), as `grids` finds them."""
    held = np.minimum(np.maximum(cast(Array, position), -beyond), cells + beyond)
    cell = np.minimum(np.maximum(np.floor(held), 0.0), cells - 1.0)
    return cast(StandIn, cell), cast(StandIn, held - cell)


def cell_number(row: StandIn, column: StandIn, columns: int) -> StandIn:
    """Number of the cell at (row, column) of a table."""
    scaled = combined(row.graph, "multiply", (row, float(columns)))
    return combined(row.graph, "add", (scaled, column))
