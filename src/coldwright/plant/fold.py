"""A second steady state beside the one found: where a machine may flip from dry to flooded.

With a strong return exchanger the flow through the capillary rises once liquid leaves the
evaporator: the liquid boils in the exchanger, cools the capillary and so feeds itself. Near there
the same charge, brine and room may settle in two ways, and which one is met depends on where the
machine comes from. It is looked for as the machine would find it: from a colder source (flooded)
and from a warmer one (dry), each settled state carried back to the source asked for.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array
from coldwright.parts.lane_tools import flat_lanes, take_lanes
from coldwright.plant.balance import BALANCED, Balance, settle
from coldwright.plant.charge_rule import FixedCharge
from coldwright.plant.evaluation import Conditions
from coldwright.plant.system import SealedSystem

# Sources from which the machine may come, off the one asked for [K].
AWAY = np.array([-8.0, -3.0, 3.0, 8.0])
# Steps of the way back, as shares of it that are left.
WAY_BACK = (0.4, 0.0)
# States this far apart in evaporating temperature [K] or this share of capacity are two.
APART_KELVIN, APART_SHARE = 0.3, 0.02


@dataclass(frozen=True)
class SecondState:
    """What was found beside a settled state; arrays over lanes."""

    exists: NDArray[np.bool_]
    evaporating_temperature: Array  # [K]; that of the first state where there is no second
    capacity: Array  # [W]
    superheat: Array  # [K] at the evaporator's exit
    return_quality: Array  # at the shell; under 1 liquid comes back


def second_state(
    system: SealedSystem, at: Conditions, charge: Array, first: Balance
) -> SecondState:
    """Look for a second steady state of each lane beside `first`, which is settled at `at`.

    `charge` [kg]. The one farthest from the first in evaporating temperature is told.
    """
    count = np.size(at.source_temperature)
    flat_system, flat_at = flat_lanes(system, (count,)), flat_lanes(at, (count,))
    lane = np.tile(np.arange(count), len(AWAY))
    many = take_lanes(flat_system, lane, count)
    there = take_lanes(flat_at, lane, count)
    held = FixedCharge(np.broadcast_to(charge, (count,)).astype(np.float64)[lane])
    source = there.source_temperature
    off = np.repeat(AWAY, count)
    balance = settle(many, _moved(there, source + off), held)
    for left in WAY_BACK:
        near = balance.evaluation
        balance = settle(
            many,
            _moved(there, source + left * off),
            held,
            near.unknowns,
            taken=near.capillary.taken,
        )
    return _farthest(balance, first, count)


def _moved(at: Conditions, source: Array) -> Conditions:
    return Conditions(
        source, at.room_temperature, at.compressor_room_temperature, at.atmospheric_pressure
    )


def _farthest(found: Balance, first: Balance, count: int) -> SecondState:
    """Of the states found for each lane, the one farthest from its first."""
    e, own = found.evaluation, first.evaluation

    def per_way(value: Array) -> Array:
        return np.broadcast_to(value, (len(AWAY) * count,)).reshape(len(AWAY), count)

    def of_first(value: Array) -> Array:
        return np.broadcast_to(value, np.shape(first.reason)).reshape(count)

    evaporating = per_way(e.unknowns.evaporating_temperature)
    capacity = per_way(e.evaporator.heat)
    warmer = np.abs(evaporating - of_first(own.unknowns.evaporating_temperature))
    stronger = np.abs(capacity / of_first(own.evaporator.heat) - 1.0)
    sound = (found.reason == BALANCED).reshape(len(AWAY), count)
    sound = sound & (first.reason == BALANCED).reshape(count)
    other = sound & ((warmer > APART_KELVIN) | (stronger > APART_SHARE))
    pick = np.argmax(np.where(other, warmer + 1e-9, -1.0), axis=0)
    exists = np.any(other, axis=0)

    def told(second: Array, of_own: Array) -> Array:
        values = np.take_along_axis(per_way(second), pick[None], axis=0)[0]
        return np.asarray(np.where(exists, values, of_first(of_own)))

    return SecondState(
        exists=exists,
        evaporating_temperature=told(
            e.unknowns.evaporating_temperature, own.unknowns.evaporating_temperature
        ),
        capacity=told(e.evaporator.heat, own.evaporator.heat),
        superheat=told(e.returning.superheat, own.returning.superheat),
        return_quality=told(e.returning.quality, own.returning.quality),
    )
