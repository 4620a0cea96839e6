"""Lanes shared out among the processor's cores.

Compiled code runs without Python's lock, and its lanes know nothing of one another: each core takes
a run of them, and what comes out is the same for any number of cores.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from functools import cache

# Fewer lanes than this are not worth another core.
LEAST_SHARE = 32


_most: list[int] = []


@contextmanager
def at_most(count: int) -> Iterator[None]:
    """Within it no more than `count` cores are used."""
    _most.append(count)
    try:
        yield
    finally:
        _most.pop()


def cores() -> int:
    """Cores that this process may use."""
    if _most:
        return _most[-1]
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


@cache
def _helpers(_process: int, count: int) -> ThreadPoolExecutor:
    """Threads beside the calling one, of this process alone (a fork has none of its parent's)."""
    return ThreadPoolExecutor(count, thread_name_prefix="lanes")


def in_shares(work: Callable[[int, int], object], count: int) -> None:
    """Call `work(first, last)` for runs that make up `count` lanes."""
    parts = min(cores(), count // LEAST_SHARE)
    if parts < 2:
        work(0, count)
        return
    ends = [count * k // parts for k in range(parts + 1)]
    helpers = _helpers(os.getpid(), parts - 1)
    begun = [helpers.submit(work, ends[k], ends[k + 1]) for k in range(1, parts)]
    work(0, ends[1])
    for each in begun:
        each.result()
