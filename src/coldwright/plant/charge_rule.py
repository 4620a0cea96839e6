"""The charge equation of the balance: a known charge, or the charge that leaves a superheat."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

import numpy as np

from coldwright.arrays import Array, lanes
from coldwright.plant.evaluation import Conditions, Evaluation

# The exit gas is asked to come at most this share of the way to the source.
GREATEST_SHARE = 0.5


class ChargeRule(Protocol):
    """What closes the balance beside flow and heat."""

    def residual(self, at: Conditions, evaluation: Evaluation) -> Array:
        """Relative residual of the charge equation; 0 when it is met."""
        ...


@dataclass(frozen=True)
class FixedCharge:
    """The parts together hold `charge` [kg]."""

    charge: Array

    def residual(self, at: Conditions, evaluation: Evaluation) -> Array:  # noqa: ARG002 (protocol)
        """Content over charge, less one."""
        return lanes(evaluation.inventory.total / self.charge - 1.0)


@dataclass(frozen=True)
class StatedSuperheat:
    """As much charge as leaves the evaporator's exit at `superheat` [K].

    Where the source is less than twice that above the evaporating temperature, the exit comes half
    way to the source instead. Written on the share of the difference to the source, so that a
    flooded tube whose refrigerant is as warm as the source is no solution.
    """

    superheat: Array

    def residual(self, at: Conditions, evaluation: Evaluation) -> Array:
        """Share of the difference to the source that the exit has warmed, less the wanted share."""
        difference = at.source_temperature - evaluation.unknowns.evaporating_temperature
        span = 0.5 * (difference + np.sqrt(difference**2 + 0.2**2))
        wanted = self.superheat / span
        gap = wanted - GREATEST_SHARE
        wanted = 0.5 * (wanted + GREATEST_SHARE - np.sqrt(gap**2 + 0.02**2))
        return lanes(evaluation.returning.superheat / span - wanted)
