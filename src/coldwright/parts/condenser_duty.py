"""A condenser by itself: what it sheds at a condensing temperature, or where a heat takes it.

The flow is the one that the whole tube just condenses and subcools as stated.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.refrigerants import Refrigerant, Saturated, Vapour
from coldwright.parts.condenser import CondenserState, condense
from coldwright.parts.hot_side import Condenser

FLOWS = (1e-7, 0.3)  # kg/s, between which the flow is sought
HALVINGS = 48
LEAST_SUPERHEAT = 0.5  # K of the gas that comes in
ABOVE_ROOM = 0.2  # K, least condensing temperature over the room that is tried


@dataclass(frozen=True)
class Duty:
    """One condenser at work; arrays over lanes."""

    heat: Array  # [W]
    mass_flow: Array  # [kg/s]
    saturated: Saturated
    inlet: Vapour
    state: CondenserState
    found: Array  # 1 where the flow or temperature was found, 0 where none does it


@dataclass(frozen=True)
class DutyConditions:
    """What the condenser works with; arrays over lanes."""

    refrigerant: Refrigerant
    room_temperature: Array  # [K]
    pressure: Array  # [Pa] of the air
    gas_temperature: Array  # [K] of the discharge gas; held 0.5 K above condensing
    subcooling: Array  # [K] of the liquid that leaves, >= 0


def duty_at_condensing(
    condenser: Condenser, at: DutyConditions, condensing_temperature: FloatOrArray
) -> Duty:
    """What `condenser` sheds at a condensing temperature [K]; found by halving the flow's range."""
    saturated = at.refrigerant.saturated(lanes(condensing_temperature))
    inlet, wanted = _ends(at, saturated)
    shape = np.shape(_exit(condenser, at, saturated, inlet, lanes(FLOWS[0])).exit_enthalpy)
    low, high = (np.full(shape, np.log(end)) for end in FLOWS)
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        state = _exit(condenser, at, saturated, inlet, np.exp(middle))
        too_much = state.exit_enthalpy > wanted
        low, high = np.where(too_much, low, middle), np.where(too_much, middle, high)
    flow = np.exp(0.5 * (low + high))
    return _duty(condenser, at, saturated, flow)


def duty_for_heat(condenser: Condenser, at: DutyConditions, heat: FloatOrArray) -> Duty:
    """Where `condenser` comes to when it has to shed `heat` [W]; condensing found by halving.

    `found` is 0 where even the hottest condensing temperature of the refrigerant's table is not
    enough, or where the coldest tried already sheds more.
    """
    room, wanted_heat = lanes(at.room_temperature), lanes(heat)
    hottest = at.refrigerant.greatest_temperature - 2.0
    shape = np.broadcast_shapes(np.shape(room), np.shape(wanted_heat), np.shape(condenser.length))
    low = np.broadcast_to(room + ABOVE_ROOM, shape) + 0.0
    high = np.full(shape, hottest)
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        saturated = at.refrigerant.saturated(middle)
        inlet, wanted = _ends(at, saturated)
        flow = wanted_heat / (inlet.enthalpy - wanted)
        state = _exit(condenser, at, saturated, inlet, flow)
        too_cold = state.exit_enthalpy > wanted
        low, high = np.where(too_cold, middle, low), np.where(too_cold, high, middle)
    saturated = at.refrigerant.saturated(0.5 * (low + high))
    inlet, wanted = _ends(at, saturated)
    return _duty(condenser, at, saturated, wanted_heat / (inlet.enthalpy - wanted))


def _ends(at: DutyConditions, saturated: Saturated) -> tuple[Vapour, Array]:
    """Gas that comes in, and the enthalpy [J/kg] of the liquid that is to leave."""
    gas = np.maximum(at.gas_temperature, saturated.temperature + LEAST_SUPERHEAT)
    inlet = at.refrigerant.vapour(saturated.pressure, gas)
    leaving = saturated.liquid_enthalpy - saturated.liquid_specific_heat * at.subcooling
    return inlet, leaving


def _exit(
    condenser: Condenser, at: DutyConditions, saturated: Saturated, inlet: Vapour, flow: Array
) -> CondenserState:
    return condense(condenser, saturated, inlet, flow, at.room_temperature, at.pressure)


def _duty(condenser: Condenser, at: DutyConditions, saturated: Saturated, flow: Array) -> Duty:
    inlet, wanted = _ends(at, saturated)
    state = _exit(condenser, at, saturated, inlet, flow)
    misfit = np.abs(state.exit_enthalpy - wanted) / saturated.latent_heat
    return Duty(state.heat, flow, saturated, inlet, state, np.where(misfit < 1e-6, 1.0, 0.0))
