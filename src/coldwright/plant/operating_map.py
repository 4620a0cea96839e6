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
# About a bend so much [K] is rounded; bends nearer than this to one another are one.
ROUNDED, LEAST_GAP = 2.0, 0.5
# Points between two whole numbers of the common coordinate: about a bend, and between bends.
NEAR, FAR = np.array([0.0, 0.15, 0.4, 0.7]), np.array([0.0, 0.25, 0.5, 0.75])
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
        knots = _between_rooms(self.rooms, self.knots, room)
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
    knots = _knots(_carried_on(seen, axis, wide), sources)
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
        knots = _knots(_carried_on(seen, axis, wide), sources)
    values = np.stack([rows[room].values for room in axis])
    known = np.stack([rows[room].known for room in axis])
    filled = _filled(values, known, columns)
    sheets = tuple(
        Sheet.through(axis, columns[piece], filled[None][:, :, piece]) for piece in _pieces(columns)
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


def _carried_on(seen: Array, rooms: Array, sources: tuple[float, float]) -> Array:
    """Bends `[bend, room]`, coldest first: those `seen` (NaN: not in the search), carried on.

    A bend that fewer than two rooms show is none. Beyond the rooms that show it, it goes on
    straight, and stays out of `sources`, the range in which it was not seen.
    """
    kept = np.sum(np.isfinite(seen), axis=1) >= 2
    shown = np.isfinite(seen[kept])
    if not np.any(kept):
        return np.zeros((0, len(rooms)))
    rows = []
    for row, there in zip(seen[kept], shown, strict=True):
        slope, level = np.polyfit(rooms[there], row[there], 1)
        on = slope * rooms + level
        colder = (rooms < np.mean(rooms[there])) == (slope > 0.0)
        beyond = (np.minimum(on, sources[0]), np.maximum(on, sources[1]))
        rows.append(np.where(there, row, np.where(colder, *beyond)))
    order = np.argsort([np.mean(row[there]) for row, there in zip(rows, shown, strict=True)])
    bends, shown = np.stack(rows)[order], shown[order]
    # What is carried on gives way to the bend beside it.
    for k in range(1, len(bends)):
        low, high = bends[k - 1], bends[k]
        bends[k - 1] = np.where(shown[k - 1], low, np.minimum(low, high - ROUNDED))
        bends[k] = np.where(shown[k], high, np.maximum(high, bends[k - 1] + ROUNDED))
    apart = np.all(np.diff(bends, axis=0) > LEAST_GAP, axis=1)
    return np.asarray(bends[np.concatenate([[True], apart])])


def _between_rooms(axis: Array, values: Array, room: Array) -> Array:
    """`values[..., room]` at other rooms, monotone between; held at the edges."""
    from scipy.interpolate import PchipInterpolator  # noqa: PLC0415 (slow to load)

    held = np.clip(room, axis[0], axis[-1])
    return np.asarray(PchipInterpolator(axis, values, axis=-1)(held))


def _knots(bends: Array, sources: tuple[float, float]) -> Array:
    """Sources [K] at the whole numbers of the coordinate, `[knot, room]`, rising in each room.

    The ends, and for each bend its place with what is rounded before and behind it.
    """
    low, high = (np.full(bends.shape[1], each) for each in sources)
    if len(bends) == 0:
        return np.stack([low, high])
    low = np.minimum(low, bends[0] - 2.0 * ROUNDED)
    high = np.maximum(high, bends[-1] + 2.0 * ROUNDED)
    ends = np.concatenate([low[None], bends, high[None]])
    gaps = np.diff(ends, axis=0)
    rows = [low]
    for i, bend in enumerate(bends):
        before, behind = (np.minimum(ROUNDED, gaps[i + side] / 3.0) for side in (0, 1))
        rows += [bend - before, bend, bend + behind]
    return np.stack([*rows, high])


def _filled(values: Array, known: NDArray[np.bool_], columns: Array) -> Array:
    """Values with those that did not settle put on straight lines along their own column."""
    found = values.copy()
    for room in range(len(values)):
        good = known[room]
        if np.any(good) and not np.all(good):
            for what in range(values.shape[-1]):
                found[room, :, what] = np.interp(columns, columns[good], values[room, good, what])
    return found


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
        axis = _first_columns(len(knots) - 1)
        some = np.array([0, len(rooms) // 2, len(rooms) - 1])
        values, known = self.settled(axis, knots[:, some], rooms[some])
        doubtful = np.ones(len(axis) - 1, dtype=bool)
        for _ in range(ROUNDS):
            cells = np.flatnonzero(doubtful)
            if cells.size == 0:
                break
            middle = 0.5 * (axis[cells] + axis[cells + 1])
            expected = _along(axis, _filled(values, known, axis), middle)
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
        there = _between_rooms(rooms, knots, middle)
        found, good = self.settled(columns[some], there, middle)
        values = np.stack([rows[room].values for room in rooms])
        known = np.stack([rows[room].known for room in rooms])
        along = np.moveaxis(_filled(values, known, columns)[:, some], 0, -1)
        expected = np.moveaxis(_between_rooms(rooms, along, middle), -1, 0)
        off[untried] = np.max(np.where(good, _off(expected, found), 0.0), axis=1)
        return off


def _pieces(columns: Array) -> list[NDArray[np.intp]]:
    """Indices of the points between one whole number and the next, both with them."""
    count = round(float(columns[-1]))
    return [np.flatnonzero((columns >= i) & (columns <= i + 1)) for i in range(count)]


def _along(columns: Array, values: Array, at: Array) -> Array:
    """`values[room, column, READ]` at other points of the coordinate, piece by piece."""
    from scipy.interpolate import PchipInterpolator  # noqa: PLC0415 (slow to load)

    found = np.empty((values.shape[0], at.size, values.shape[2]))
    for i, piece in enumerate(_pieces(columns)):
        here = (at >= i) & (at <= i + 1)
        if np.any(here):
            curve = PchipInterpolator(columns[piece], values[:, piece], axis=1)
            found[:, here] = curve(at[here])
    return found


def _first_columns(pieces: int) -> Array:
    """Points of the coordinate to begin with: dense near each bend, on both sides alike."""
    rows = []
    for i in range(pieces):
        # Of three pieces the first lies between bends, the next two about one: ahead of it, behind.
        inside = (FAR, np.append(0.0, 1.0 - NEAR[:0:-1]), NEAR)[i % 3]
        rows.append(i + inside)
    axis = np.concatenate([*rows, [float(pieces)]])
    return np.unique(np.round(axis, 9))


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
