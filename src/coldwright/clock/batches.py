"""Many lanes in batches, so that their maps and rows stay small in memory."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray


def in_batches(count: int, most: int) -> list[NDArray[np.intp]]:
    """Indices of `count` lanes in batches of nearly one size, none of more than `most`."""
    return np.array_split(np.arange(count), max(-(-count // most), 1))
