"""What the cold side's node holds: heat by temperature.

Everything on the clock asks the node's store, never a heat capacity: a store whose heat jumps at a
temperature (a tank that freezes) can stand in the place of `SteadyStore` by offering the same
three methods; `Step` then sees the secant of its heat between a step's start and its expected end.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array


class Store(Protocol):
    """Heat of the node; arrays over lanes."""

    def heat(self, temperature: Array) -> Array:
        """Heat [J] at a temperature [K], from any fixed zero."""
        ...

    def capacity(self, start: Array, end: Array) -> Array:
        """(heat(end) - heat(start)) / (end - start) [J/K], the slope where they meet."""
        ...

    def taken(self, wanted: NDArray[np.intp]) -> Store:
        """The store of only the `wanted` lanes."""
        ...


@dataclass(frozen=True)
class SteadyStore:
    """A constant heat capacity [J/K]: brine without ice, metal."""

    heat_capacity: Array

    def heat(self, temperature: Array) -> Array:
        """Heat [J] from 0 K."""
        return np.asarray(self.heat_capacity * temperature)

    def capacity(self, start: Array, end: Array) -> Array:
        """The heat capacity, whatever the temperatures."""
        del start, end
        return self.heat_capacity

    def taken(self, wanted: NDArray[np.intp]) -> SteadyStore:
        """The store of only the `wanted` lanes."""
        return SteadyStore(self.heat_capacity[wanted])
