"""The best of a few runs, and how a row of the table is written."""

from __future__ import annotations

import time
from collections.abc import Callable

REPEATS = 3
# Short work is repeated for about this long [s], so that one quiet moment is among the runs.
LEAST_TIME = 0.5
ROUNDS = 12
Row = tuple[str, str, str, str, str]


def best(work: Callable[[], object]) -> float:
    """Shortest of a few runs [s]."""
    found: list[float] = []
    while len(found) < REPEATS or sum(found) < LEAST_TIME:
        start = time.perf_counter()
        work()
        found.append(time.perf_counter() - start)
    return min(found)


def best_each(*works: Callable[[], object]) -> list[float]:
    """Shortest run [s] of each, run in turns so that a busy moment of the machine meets all."""
    found = [float("inf")] * len(works)
    for _ in range(ROUNDS):
        for i, work in enumerate(works):
            start = time.perf_counter()
            work()
            found[i] = min(found[i], time.perf_counter() - start)
    return found


def row(what: str, seconds: float, reference: str, seconds_reference: float) -> Row:
    """One line of the table."""
    ratio = seconds_reference / seconds
    return (
        what,
        in_words(seconds),
        reference,
        in_words(seconds_reference),
        f"{ratio:.1f} x",
    )


def in_words(seconds: float) -> str:
    """A time with the unit that suits it."""
    return f"{seconds * 1e6:.1f} µs" if seconds < 1e-4 else f"{seconds * 1e3:.1f} ms"
