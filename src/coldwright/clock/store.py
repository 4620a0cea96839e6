"""What the cold side's node holds: heat by temperature.

Everything on the clock asks the node's store, never a heat capacity: a store whose heat jumps at a
temperature (`FreezingStore`: a tank that freezes) stands in the place of `SteadyStore`. A step sees
the secant of its heat between the start and the expected end, and ends where the heat that it has
taken up says.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array
from coldwright.fluids.filling import Filling

LEAST_SPAN = 5e-3
"""Shortest span [K] over which a freezing store's heat is taken as a slope."""

HALVINGS = 50


class Store(Protocol):
    """Heat of the node; arrays over lanes."""

    def heat(self, temperature: Array) -> Array:
        """Heat [J] at a temperature [K], from any fixed zero."""
        ...

    def capacity(self, start: Array, end: Array) -> Array:
        """(heat(end) - heat(start)) / (end - start) [J/K], the slope where they meet."""
        ...

    def after(self, start: Array, heat: Array) -> Array:
        """Temperature [K] once `heat` [J] has been taken up."""
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

    def after(self, start: Array, heat: Array) -> Array:
        """Temperature [K] once `heat` [J] has been taken up."""
        return np.asarray(start + heat / self.heat_capacity)

    def taken(self, wanted: NDArray[np.intp]) -> SteadyStore:
        """The store of only the `wanted` lanes."""
        return SteadyStore(self.heat_capacity[wanted])


@dataclass(frozen=True)
class FreezingStore:
    """A filling that freezes and the tank, coil and filler round it, all at one temperature.

    mass: of the filling [kg]; beside: heat capacity of all else [J/K].
    """

    filling: Filling
    mass: Array
    beside: Array

    def heat(self, temperature: Array) -> Array:
        """Heat [J], latent heat included, from a fixed zero."""
        return np.asarray(
            self.mass * self.filling.enthalpy(temperature) + self.beside * temperature
        )

    def capacity(self, start: Array, end: Array) -> Array:
        """Secant over the step, over `LEAST_SPAN` at least."""
        span = end - start
        span = np.where(np.abs(span) < LEAST_SPAN, np.where(span < 0.0, -1.0, 1.0), 0.0) * (
            LEAST_SPAN
        ) + np.where(np.abs(span) < LEAST_SPAN, 0.0, span)
        return np.asarray((self.heat(start + span) - self.heat(start)) / span)

    def after(self, start: Array, heat: Array) -> Array:
        """Temperature [K] once `heat` [J] has been taken up, by halving between two bounds."""
        wanted = self.heat(start) + heat
        reach = np.abs(heat) / self.beside + 1e-6
        low, high = start - reach, start + reach
        for _ in range(HALVINGS):
            middle = 0.5 * (low + high)
            below = self.heat(middle) < wanted
            low, high = np.where(below, middle, low), np.where(below, high, middle)
        return np.asarray(0.5 * (low + high))

    def frozen_share(self, temperature: Array) -> Array:
        """State of charge, 0 melted to 1 full."""
        return self.filling.frozen_share_at(temperature)

    def taken(self, wanted: NDArray[np.intp]) -> FreezingStore:
        """The store of only the `wanted` lanes."""
        return FreezingStore(self.filling, self.mass[wanted], self.beside[wanted])
