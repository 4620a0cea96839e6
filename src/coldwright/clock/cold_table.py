"""Films of the cold side on the clock: tabulated once over stored air and air less node.

Free convection goes with about the fourth root of the difference, so the table is laid out over
that root: conductances are then nearly straight lines, also where the difference changes its sign.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any, cast

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array
from coldwright.parts.air_circuit import AirPath
from coldwright.parts.cold_exchange import cold_exchange
from coldwright.parts.cold_side.surface_answer import without_frost_resistance
from coldwright.parts.cold_side.surface_heat import ColdSide
from coldwright.plant.hermite import Sheet

AIR_FILM, LINER_FILM, INWARD, CAPACITY_FLOW, RETURN_OFFSET, DEPOSITION, AREA = range(7)
AIR_STEP = 8.0
ROOTS = np.linspace(-2.4, 2.8, 27)  # of the difference air less node, K^(1/4)
LEAST_RESISTANCE = 1e-5
"""Resistance [K/W] between surface and node where they are one."""


@dataclass(frozen=True)
class ColdTable:
    """What `parts.cold_exchange` says; the way from surface to node as a resistance [K/W]."""

    sheet: Sheet

    def at(self, air: Array, node: Array) -> Array:
        """`[quantity, lane]` at stored air and node [K], flat lanes alike; held at the edges."""
        apart = air - node
        root = np.copysign(np.sqrt(np.sqrt(np.abs(apart))), apart)
        return self.sheet.at(air, root)

    def taken(self, wanted: NDArray[np.intp]) -> ColdTable:
        """The table of only the `wanted` lanes."""
        return ColdTable(self.sheet.taken(wanted))

    def drawn(self, film: Array) -> ColdTable:
        """One table for each draw: lane 0 with what passes air and liner times `film[draw]`."""
        values = np.repeat(self.sheet.values[:1], len(film), axis=0)
        for each in (AIR_FILM, LINER_FILM, DEPOSITION):
            values[..., each] *= film[:, None, None]
        return ColdTable(Sheet.through(self.sheet.rows, self.sheet.columns, values))


def shelves(
    surface: Array, to_surface: Array, return_offset: Array, capacity_flow: Array
) -> tuple[Array, Array]:
    """Air [K] at the lowest and the highest shelf: off the cold surface, and back at it.

    surface: the cold surface [K]; to_surface: heat that the air gives it [W]; the last two as
    tabulated.
    """
    back = surface + to_surface * return_offset
    leaving = back - to_surface / capacity_flow
    return np.minimum(leaving, back), np.maximum(leaving, back)


def dry_cold_side(cold_side: ColdSide) -> ColdSide:
    """The same cold side as if its frost did not resist: the clock counts its frost itself."""
    surface = without_frost_resistance(cold_side.surface)
    return cast(ColdSide, replace(cast(Any, cold_side), surface=surface))


def cold_table(
    cold_side: ColdSide, air_path: AirPath, span: tuple[float, float], pressure: float, lanes: int
) -> ColdTable:
    """Tabulate over stored air within `span` [K]; `lanes` of the parts along their last axis."""
    airs = np.linspace(*span, 2 + int((span[1] - span[0]) // AIR_STEP))
    shape = (len(airs), len(ROOTS), lanes)
    air = np.broadcast_to(airs[:, None, None], shape)
    node = air - np.sign(ROOTS)[None, :, None] * (ROOTS**4)[None, :, None]
    found = cold_exchange(cold_side, air_path, node, air, pressure)
    rows = (
        found.air,
        found.liner,
        np.maximum(1.0 / found.source, LEAST_RESISTANCE),
        found.capacity_flow,
        found.return_offset,
        found.deposition,
        found.area,
    )
    values = np.stack([np.broadcast_to(row, shape) for row in rows], axis=-1)
    return ColdTable(Sheet.through(airs, ROOTS, np.moveaxis(values, 2, 0)))
