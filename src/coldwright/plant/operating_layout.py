"""How the operating map is laid out: bends, columns counted from them, curves along both.

The common coordinate runs over whole numbers: the coldest source, then for each bend the end of
what is rounded before it, the bend, and the end of what is rounded behind it, then the warmest.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array

# About a bend so much [K] is rounded; bends nearer than this to one another are one.
ROUNDED, LEAST_GAP = 2.0, 0.5
# A bend is carried on so far [K] beyond the sources in which it was sought.
CARRIED = 4.0
# Points between two whole numbers of the common coordinate: about a bend, and between bends.
NEAR, FAR = np.array([0.0, 0.15, 0.4, 0.7]), np.array([0.0, 0.25, 0.5, 0.75])


def between_rooms(axis: Array, values: Array, room: Array) -> Array:
    """`values[..., room]` at other rooms, monotone between; held at the edges."""
    from scipy.interpolate import PchipInterpolator  # noqa: PLC0415 (slow to load)

    held = np.clip(room, axis[0], axis[-1])
    return np.asarray(PchipInterpolator(axis, values, axis=-1)(held))


def knots_of(bends: Array, sources: tuple[float, float]) -> Array:
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


def carried_on(seen: Array, rooms: Array, sources: tuple[float, float]) -> Array:
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
        on = np.clip(on, sources[0] - CARRIED, sources[1] + CARRIED)
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


def filled_rows(values: Array, known: NDArray[np.bool_], columns: Array) -> Array:
    """Values with those that did not settle put on straight lines along their own column."""
    found = values.copy()
    for room in range(len(values)):
        good = known[room]
        if np.any(good) and not np.all(good):
            for what in range(values.shape[-1]):
                found[room, :, what] = np.interp(columns, columns[good], values[room, good, what])
    return found


def pieces_of(columns: Array) -> list[NDArray[np.intp]]:
    """Indices of the points between one whole number and the next, both with them."""
    count = round(float(columns[-1]))
    return [np.flatnonzero((columns >= i) & (columns <= i + 1)) for i in range(count)]


def along_columns(columns: Array, values: Array, at: Array) -> Array:
    """`values[room, column, READ]` at other points of the coordinate, piece by piece."""
    from scipy.interpolate import PchipInterpolator  # noqa: PLC0415 (slow to load)

    found = np.empty((values.shape[0], at.size, values.shape[2]))
    for i, piece in enumerate(pieces_of(columns)):
        here = (at >= i) & (at <= i + 1)
        if np.any(here):
            curve = PchipInterpolator(columns[piece], values[:, piece], axis=1)
            found[:, here] = curve(at[here])
    return found


def first_columns(pieces: int) -> Array:
    """Points of the coordinate to begin with: dense near each bend, on both sides alike."""
    rows = []
    for i in range(pieces):
        # Of three pieces the first lies between bends, the next two about one: ahead of it, behind.
        inside = (FAR, np.append(0.0, 1.0 - NEAR[:0:-1]), NEAR)[i % 3]
        rows.append(i + inside)
    axis = np.concatenate([*rows, [float(pieces)]])
    return np.unique(np.round(axis, 9))
