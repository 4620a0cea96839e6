"""One machine over source and room: settled states laid out so that curves follow the bends.

Capacity bends where gas begins to leave the evaporator wet and where liquid comes back to the
shell (within a kelvin of source, some per cent), and the bends lie aslant over source and room: an
even grid would need a hundred rooms. Here each room has a column of its own whose points are
counted from the bends. A common coordinate runs through all columns, whole numbers at the bends and
at the ends of what is rounded about them; between rooms one goes along it, and so along the bends.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array
from coldwright.plant.balance import BALANCED, Balance, settle
from coldwright.plant.charge_rule import FixedCharge
from coldwright.plant.evaluation import Conditions
from coldwright.plant.hermite import Sheet
from coldwright.plant.operating_layout import (
    along_columns,
    between_rooms,
    carried_on,
    filled_rows,
    first_columns,
    knots_of,
    pieces_of,
)
from coldwright.plant.system import SealedSystem

READ = (
    "capacity",
    "power",
    "condenser_heat",
    "mass_flow",
    "evaporating_temperature",
    "condensing_temperature",
    "superheat",
    "subcooling",
    "return_temperature",
    "return_quality",
    "discharge_temperature",
    "shell_temperature",
)
CAPACITY, POWER, CONDENSER_HEAT, MASS_FLOW, EVAPORATING, CONDENSING = range(6)
# Rooms at first, and at most; sources of the search for bends; rounds that place a bend [secant].
FIRST_ROOMS, MOST_ROOMS = 5, 13
SEARCHED, PLACED = 15, 4
# What a curve half-way between points may miss before more are put there.
SHARE_GOOD, KELVIN_GOOD = 2e-3, 0.04
LEAST_CAPACITY = 50.0  # W; a share is taken of no less
ROUNDS = 2
EACH_CHECKED = 3  # of the points of the coordinate, half-way between rooms
# Bends are sought so far [K] beyond the sources, but only so near to the table's end, and to here.
BEYOND, COLDEST_SOURCE, HOTTEST_SOURCE = 6.0, 12.0, 328.15


@dataclass(frozen=True)
class OperatingMap:
    """`READ` over rooms (rows) and the common coordinate (columns)."""

    sheets: tuple[Sheet, ...]  # one from each whole number of the coordinate to the next
    columns: Array
    knots: Array  # [K] source at each whole number of the coordinate, `[knot, room]`
    known: NDArray[np.bool_]  # `[room, column]`: settled; others are carried over from neighbours
    settled: int  # balances that it took

    @property
    def rooms(self) -> Array:
        """Its rooms [K]."""
        return self.sheets[0].rows

    def at(self, source: Array, room: Array) -> Array:
        """`[READ, lane]` for flat lanes [K]; held at the edges."""
        column = self._coordinate(source, room)
        piece = np.clip(column.astype(np.intp), 0, len(self.sheets) - 1)
        found = np.empty((len(READ), column.size))
        for i, sheet in enumerate(self.sheets):
            here = piece == i
            if np.any(here):
                found[:, here] = sheet.at(room[here], column[here])
        return found

    def sure(self, source: Array, room: Array) -> NDArray[np.bool_]:
        """Where the points about a place have settled."""
        column, row = self._coordinate(source, room), np.clip(room, *self.rooms[[0, -1]])
        i = np.clip(self.rooms.searchsorted(row, "right") - 1, 0, len(self.rooms) - 2)
        axis = self.columns
        j = np.clip(axis.searchsorted(column, "right") - 1, 0, len(axis) - 2)
        return np.asarray(
            self.known[i, j]
            & self.known[i + 1, j]
            & self.known[i, j + 1]
            & self.known[i + 1, j + 1]
        )

    def _coordinate(self, source: Array, room: Array) -> Array:
        """The common coordinate of a place."""
        knots = between_rooms(self.rooms, self.knots, room)
        cell = np.clip(np.sum(knots <= source, axis=0) - 1, 0, len(knots) - 2)
        lane = np.arange(len(cell))
        low, high = knots[cell, lane], knots[cell + 1, lane]
        return np.asarray(cell + np.clip((source - low) / (high - low), 0.0, 1.0))


def operating_map(
    system: SealedSystem,
    charge: float,
    sources: tuple[float, float],
    rooms: tuple[float, float],
    atmospheric_pressure: float = 101325.0,
) -> OperatingMap:
    """Map one machine with its `charge` [kg] over `sources` and `rooms` [K], each low and high.

    `system` has one lane. Aimed at 0.5 % of capacity and power and 0.1 K of evaporating and
    condensing temperature; where the machine has two states (`plant.fold`) or none there is no such
    aim. Temperatures of return, discharge and shell turn by ten kelvin for one of the source where
    liquid comes back, and are as much coarser there.
    """
    work = _Work(system, charge, atmospheric_pressure)
    axis = np.linspace(*rooms, FIRST_ROOMS)
    wide = _searched(sources, system)
    seen = work.bends(axis, wide)
    knots = knots_of(carried_on(seen, axis, wide), sources)
    columns, rows = work.columns(axis, knots)
    untried = np.ones(len(axis) - 1, dtype=bool)
    while True:
        for i, room in enumerate(axis):
            if room not in rows or not np.array_equal(rows[room].knots, knots[:, i]):
                rows[room] = work.row(columns, knots[:, i], room)
        off = work.off_between(columns, knots, axis, rows, untried)
        worst = np.argsort(off)[::-1][: MOST_ROOMS - len(axis)]
        poor = worst[off[worst] > 1.0]
        if poor.size == 0:
            break
        new = 0.5 * (axis[:-1] + axis[1:])[poor]
        order = np.argsort(np.concatenate([axis, new]))
        seen = np.concatenate([seen, work.bends(new, wide)], axis=1)[:, order]
        axis = np.concatenate([axis, new])[order]
        untried = np.isin(axis[:-1], new) | np.isin(axis[1:], new)
        knots = knots_of(carried_on(seen, axis, wide), sources)
    values = np.stack([rows[room].values for room in axis])
    known = np.stack([rows[room].known for room in axis])
    filled = filled_rows(values, known, columns)
    sheets = tuple(
        Sheet.through(axis, columns[piece], filled[None][:, :, piece])
        for piece in pieces_of(columns)
    )
    return OperatingMap(sheets, columns, knots, known, work.count)


@dataclass(frozen=True)
class _Row:
    """One room's column: its knots, `READ` at the points of the coordinate, what has settled."""

    knots: Array
    values: Array  # [column, READ]
    known: NDArray[np.bool_]


def _searched(sources: tuple[float, float], system: SealedSystem) -> tuple[float, float]:
    """Where bends are sought: somewhat beyond `sources`, so that one near their ends is placed."""
    least = system.refrigerant.least_temperature + COLDEST_SOURCE
    low, high = max(sources[0] - BEYOND, least), min(sources[1] + BEYOND, HOTTEST_SOURCE)
    return min(low, sources[0]), max(high, sources[1])


class _Work:
    """The machine, settled wherever it is asked; counts what it settles."""

    def __init__(self, system: SealedSystem, charge: float, pressure: float) -> None:
        self.system, self.charge, self.pressure = system, charge, pressure
        self.count = 0

    def balance(self, source: Array, room: Array) -> Balance:
        """Settled at flat `source` and `room` [K]."""
        room = np.broadcast_to(room, source.shape).copy()
        at = Conditions(source, room, room, np.full(source.shape, self.pressure))
        self.count += source.size
        return settle(self.system, at, FixedCharge(np.full(source.shape, self.charge)))

    def values(self, source: Array, room: Array) -> tuple[Array, NDArray[np.bool_]]:
        """`READ` along a new last axis, and where there is a balance."""
        balance = self.balance(source, room)
        return quantities(balance), np.asarray(balance.reason == BALANCED)

    def bends(self, rooms: Array, sources: tuple[float, float]) -> Array:
        """Sources [K] of both bends, `[bend, room]`; NaN where the search does not show one.

        A bend is where the gas that leaves the evaporator, or that comes to the shell, passes from
        wet to dry.
        """
        axis = np.linspace(*sources, SEARCHED)
        source, room = np.meshgrid(axis, rooms, indexing="ij")
        balance = self.balance(source, room)
        return np.stack([self._placed(which, balance, axis, rooms) for which in range(2)])

    def _placed(self, which: int, balance: Balance, axis: Array, rooms: Array) -> Array:
        """One bend in every room, closed in on by regula falsi kept off the ends."""
        dry, place = self._dryness(balance)[which], np.full(len(rooms), np.nan)
        good = balance.reason == BALANCED
        crossing = good[:-1] & good[1:] & (dry[:-1] < 0.0) & (dry[1:] >= 0.0)
        there = np.flatnonzero(np.any(crossing, axis=0))
        if there.size == 0:
            return place
        cell = np.argmax(crossing[:, there], axis=0)
        low, high = axis[cell], axis[cell + 1]
        below, above = dry[cell, there], dry[cell + 1, there]
        for _ in range(PLACED):
            share = np.clip(-below / (above - below), 0.1, 0.9)
            middle = low + share * (high - low)
            here = self._dryness(self.balance(middle, rooms[there]))[which]
            wet = here < 0.0
            low, below = np.where(wet, middle, low), np.where(wet, here, below)
            high, above = np.where(wet, high, middle), np.where(wet, above, here)
        place[there] = low + np.clip(-below / (above - below), 0.0, 1.0) * (high - low)
        return place

    def _dryness(self, balance: Balance) -> tuple[Array, Array]:
        """How far over saturated gas, by latent heat: at the evaporator's exit, at the shell."""
        e = balance.evaluation
        low = self.system.refrigerant.saturated(e.unknowns.evaporating_temperature)
        return (
            (e.evaporator.exit_enthalpy - low.vapour_enthalpy) / low.latent_heat,
            (e.unknowns.return_enthalpy - low.vapour_enthalpy) / low.latent_heat,
        )

    def columns(self, rooms: Array, knots: Array) -> tuple[Array, dict[float, _Row]]:
        """The points of the coordinate, dense about the bends and denser where curves miss.

        Placed by the coolest, the middle and the hottest room, whose rows are given with them.
        """
        axis = first_columns(len(knots) - 1)
        some = np.array([0, len(rooms) // 2, len(rooms) - 1])
        values, known = self.settled(axis, knots[:, some], rooms[some])
        doubtful = np.ones(len(axis) - 1, dtype=bool)
        for _ in range(ROUNDS):
            cells = np.flatnonzero(doubtful)
            if cells.size == 0:
                break
            middle = 0.5 * (axis[cells] + axis[cells + 1])
            expected = along_columns(axis, filled_rows(values, known, axis), middle)
            found, good = self.settled(middle, knots[:, some], rooms[some])
            poor = np.any(good & (_off(expected, found) > 1.0), axis=0)
            axis = np.insert(axis, cells + 1, middle)
            values = np.insert(values, cells + 1, found, axis=1)
            known = np.insert(known, cells + 1, good, axis=1)
            doubtful = np.zeros(len(axis) - 1, dtype=bool)
            new = cells + 1 + np.arange(cells.size)
            doubtful[new] = doubtful[new - 1] = poor
        rows = {float(rooms[i]): _Row(knots[:, i], values[k], known[k]) for k, i in enumerate(some)}
        return axis, rows

    def row(self, columns: Array, knots: Array, room: float) -> _Row:
        """One room's column."""
        values, known = self.settled(columns, knots[:, None], np.array([room]))
        return _Row(knots, values[0], known[0])

    def settled(
        self, columns: Array, knots: Array, rooms: Array
    ) -> tuple[Array, NDArray[np.bool_]]:
        """`READ` at `[room, column]`, and where there is a balance."""
        whole = np.arange(len(knots))
        source = np.stack([np.interp(columns, whole, knots[:, i]) for i in range(len(rooms))])
        return self.values(source, np.broadcast_to(rooms[:, None], source.shape))

    def off_between(
        self,
        columns: Array,
        knots: Array,
        rooms: Array,
        rows: dict[float, _Row],
        untried: NDArray[np.bool_],
    ) -> Array:
        """How far curves along the coordinate miss balances half-way between `untried` rooms."""
        off = np.zeros(len(rooms) - 1)
        middle = (0.5 * (rooms[:-1] + rooms[1:]))[untried]
        if middle.size == 0:
            return off
        some = np.arange(1, len(columns), EACH_CHECKED)
        there = between_rooms(rooms, knots, middle)
        found, good = self.settled(columns[some], there, middle)
        values = np.stack([rows[room].values for room in rooms])
        known = np.stack([rows[room].known for room in rooms])
        along = np.moveaxis(filled_rows(values, known, columns)[:, some], 0, -1)
        expected = np.moveaxis(between_rooms(rooms, along, middle), -1, 0)
        off[untried] = np.max(np.where(good, _off(expected, found), 0.0), axis=1)
        return off


def quantities(balance: Balance) -> Array:
    """`READ` of settled states along a new last axis."""
    e = balance.evaluation
    rows = (
        e.evaporator.heat,
        e.compressor.power,
        e.condenser.heat,
        e.compressor.mass_flow,
        e.unknowns.evaporating_temperature,
        e.unknowns.condensing_temperature,
        e.returning.superheat,
        e.subcooling,
        e.returning.temperature,
        e.returning.quality,
        e.compressor.discharge_temperature,
        e.shell_temperature,
    )
    return np.stack(np.broadcast_arrays(*rows), axis=-1)


def _off(expected: Array, found: Array) -> Array:
    """How far curves are off at each point, 1 at what is good; the last axis is `READ`."""
    heats, kelvins = [CAPACITY, POWER], [EVAPORATING, CONDENSING]
    size = np.maximum(np.abs(found[..., heats]), LEAST_CAPACITY)
    by_share = np.abs(expected - found)[..., heats] / size / SHARE_GOOD
    by_kelvin = np.abs(expected - found)[..., kelvins] / KELVIN_GOOD
    return np.asarray(np.max(np.concatenate([by_share, by_kelvin], axis=-1), axis=-1))
