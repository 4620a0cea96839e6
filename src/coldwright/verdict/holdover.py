"""A holdover at its melting point: what freezes it, what melts it, and the air meanwhile."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from coldwright.arrays import Array, lanes
from coldwright.parts.cold_box import BoxState, box_at_source
from coldwright.parts.cold_side.holdover import Holdover, store_time
from coldwright.parts.conditions import Surroundings
from coldwright.parts.lane_tools import flat_lanes
from coldwright.plant.balance import BALANCED, Balance, settle
from coldwright.plant.box import Plant, Room, conditions, surroundings
from coldwright.plant.charge_rule import FixedCharge
from coldwright.plant.evaluation import Unknowns
from coldwright.verdict.figures import CELSIUS, at_lane

SECONDS_PER_HOUR = 3600.0
JOULES_PER_KWH = 3.6e6
# Passes in which what freezes and what comes through the melt agree; no less comes than this share.
PASSES, LEAST_THROUGH_MELT = 3, 0.02
# States of charge, each the middle of a fifth, over which the hours are summed.
STATES = np.arange(0.1, 1.0, 0.2)


@dataclass(frozen=True)
class Melting:
    """The plant with its filling at the melting point, in the room of the assessment.

    Lane 0 is the state of charge of the build, the others are `STATES`, over which the hours are
    summed. store: the cold side as built; temperature [K]: of the filling in lane 0; melting: the
    box with the machine off; freezing: the box while the machine runs; balance: of the machine
    then.
    """

    store: Holdover
    temperature: float
    melting: BoxState
    freezing: BoxState
    balance: Balance

    @property
    def balanced(self) -> bool:
        """Whether the machine has a working state at the melting point."""
        return int(at_lane(self.balance.reason, 0)) == BALANCED

    @property
    def evaporating(self) -> float:
        """Evaporating temperature there [K]."""
        return at_lane(self.balance.evaluation.unknowns.evaporating_temperature, 0)

    @property
    def capacity(self) -> Array:
        """Heat that the machine takes from the filling [W]; 0 without a working state."""
        taken = self.balance.evaluation.evaporator.heat
        return np.where(self.balance.reason == BALANCED, taken, 0.0)

    @property
    def freezing_heat(self) -> Array:
        """What is left of the capacity to freeze, the box's heat taken off [W]."""
        return lanes(self.capacity - self.freezing.heat)

    @property
    def reached(self) -> float:
        """State of charge up to which the machine freezes the store, in steps of `STATES`."""
        short = np.flatnonzero(self.freezing_heat[1:] <= 0.0)
        return 1.0 if short.size == 0 else float(STATES[short[0]] - 0.5 / STATES.size)

    @property
    def time_to_freeze(self) -> float:
        """From all melted to full [s]; inf where the machine cannot."""
        return float(np.mean(store_time(self.store.latent_store, self.freezing_heat)[1:]))

    @property
    def time_it_holds(self) -> float:
        """From full to all melted with the machine off [s]."""
        return float(np.mean(store_time(self.store.latent_store, self.melting.heat)[1:]))


def melting(plant: Plant, room: Room, charge: Array) -> Melting | None:
    """The plant at its filling's melting point; None for a cold side that is no holdover.

    charge [kg]: that of the assessment. The state of charge is the cold side's own.
    """
    store = plant.box.cold_side
    if not isinstance(store, Holdover):
        return None
    states = np.concatenate([np.ravel(store.state_of_charge)[:1], STATES])
    here = Room(*(np.broadcast_to(a, states.shape) for a in vars(room).values()))
    one = flat_lanes(plant, states.shape)
    charged = replace(store, state_of_charge=states)
    source = np.full_like(states, store.filling.first_ice)
    if store.filling.freezes_over_a_range:
        source = store.filling.melting_temperature(states)
    rule = FixedCharge(np.broadcast_to(charge, states.shape).astype(np.float64))

    def box_in(around: Surroundings) -> BoxState:
        return box_at_source(one.box.cabinet, one.box.air_path, charged, source, around)

    def frozen_with(share: Array, guess: Unknowns | None) -> tuple[Balance, BoxState]:
        system = replace(one.system, cold_side=replace(charged, through_melt=share))
        balance = settle(system, conditions(here, source), rule, guess)
        return balance, box_in(surroundings(here, balance.evaluation))

    balance, freezing = frozen_with(np.ones_like(states), None)
    for _ in range(PASSES):
        taken = np.maximum(balance.evaluation.evaporator.heat, 1.0)
        share = np.clip(freezing.heat / taken, LEAST_THROUGH_MELT, 1.0)
        balance, freezing = frozen_with(share, balance.evaluation.unknowns)
    return Melting(store, float(source[0]), box_in(surroundings(here)), freezing, balance)


def holdover_figures(found: Melting | None) -> dict[str, Any] | None:
    """The holdover's part of the report; None for a cold side that is none."""
    if found is None:
        return None
    store = found.store
    filling, mass = store.filling, at_lane(store.brine_mass, 0)
    latent = at_lane(store.latent_store, 0)
    return {
        "filling": filling.name,
        "state_of_charge": at_lane(store.state_of_charge, 0),
        "melting_C": found.temperature - CELSIUS,
        "first_ice_C": filling.first_ice - CELSIUS,
        "last_ice_C": filling.last_ice - CELSIUS,
        "store_kWh": latent / JOULES_PER_KWH,
        "latent_heat_kJ_per_kg": 1e-3 * latent / mass,
        "frozen_layer_m": at_lane(store.frozen_layer, 0),
        "growth_when_full_L": 1e3 * at_lane(store.brine_volume, 0) * filling.growth_when_full,
        "evaporating_C": found.evaporating - CELSIUS if found.balanced else None,
        "capacity_W": at_lane(found.capacity, 0) if found.balanced else None,
        "heat_gain_freezing_W": at_lane(found.freezing.heat, 0) if found.balanced else None,
        "hours_to_freeze": found.time_to_freeze / SECONDS_PER_HOUR,
        "heat_gain_melting_W": at_lane(found.melting.heat, 0),
        "hours_it_holds": found.time_it_holds / SECONDS_PER_HOUR,
        "air_while_melting_C": at_lane(found.melting.air_temperature, 0) - CELSIUS,
    }
