"""The best of a few runs, and how a row of the table is written."""

from __future__ import annotations

import time
from collections.abc import Callable

REPEATS = 3
Row = tuple[str, str, str, str, str]


def best(work: Callable[[], object]) -> float:
    """Shortest of a few runs [s]."""
    found = []
    for _ in range(REPEATS):
        start = time.perf_counter()
        work()
        found.append(time.perf_counter() - start)
    return min(found)


def row(what: str, seconds: float, reference: str, seconds_reference: float) -> Row:
    """One line of the table."""
    ratio = seconds_reference / seconds
    return (
        what,
        f"{seconds * 1e3:.1f} ms",
        reference,
        f"{seconds_reference * 1e3:.1f} ms",
        f"{ratio:.1f} x",
    )
