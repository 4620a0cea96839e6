"""The books of a settled system: energy, mass and flow added up again, apart from the search.

A balance is found by five residuals. The audit asks something else: whether the figures that are
told belong to one machine. It sums heats and works over the whole and over each part, by the
refrigerant's states and by what stands outside, adds up the places of the charge one by one, and
marches the capillary once more.
"""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np

from coldwright.arrays import Array
from coldwright.fluids.refrigerants import Saturated
from coldwright.parts.capillary import Placing, capillary_flow
from coldwright.parts.charge import Inventory
from coldwright.parts.return_exchanger import gas_side, line_heat
from coldwright.plant.evaluation import Conditions, Evaluation
from coldwright.plant.system import SealedSystem


@dataclass(frozen=True)
class Audit:
    """What is left over, relative; arrays over lanes, 0 where the books close."""

    energy_closure: Array  # of all heat and power that comes in, the worst of the sums
    mass_closure: Array  # of the charge
    flow_closure: Array  # of the compressor's flow

    @property
    def worst(self) -> Array:
        """The greatest of the three."""
        both = np.maximum(self.energy_closure, self.mass_closure)
        return np.asarray(np.maximum(both, self.flow_closure))


def audit(system: SealedSystem, at: Conditions, e: Evaluation, charge: Array) -> Audit:
    """Audit an evaluation that was settled at `at` with `charge` [kg].

    Energy: the worst of `energy_sums` and of the exchanger (what the gas takes less what the
    capillary gives). Source: conservation of energy and mass.
    """
    through = np.abs(e.compressor.power) + np.abs(e.evaporator.heat)
    joint = _joint(system, e)
    sums = {
        **energy_sums(system, at, e),
        "exchanger": e.compressor.mass_flow * (joint.heat - e.unknowns.exchanged_heat),
    }
    energy = np.max(np.abs(np.stack(np.broadcast_arrays(*sums.values()))), axis=0) / through
    content = np.zeros(())
    for place in fields(Inventory):
        content = content + getattr(e.inventory, place.name)
    return Audit(
        energy_closure=np.asarray(energy),
        mass_closure=np.asarray(np.abs(content / charge - 1.0)),
        flow_closure=np.asarray(np.abs(joint.passed - 1.0)),
    )


def energy_sums(system: SealedSystem, at: Conditions, e: Evaluation) -> dict[str, Array]:
    """What is left over [W] in the whole and in each part; 0 where the books close.

    whole: power, heat from the source and from the room into the suction line, less the heat of
    condenser and shell. evaporator: its heat less the refrigerant's gain, and less what wall and
    gas length take from the source. condenser: its heat less the refrigerant's loss, from the
    discharge's own temperature. compressor: power and enthalpies, less the shell's loss by its
    conductance. return: from the evaporator's exit through exchanger and line to the shell.
    """
    flow, power = e.compressor.mass_flow, e.compressor.power
    low = system.refrigerant.saturated(e.unknowns.evaporating_temperature)
    high = system.refrigerant.saturated(e.unknowns.condensing_temperature)
    hot = system.refrigerant.vapour(high.pressure, e.compressor.discharge_temperature).enthalpy
    room = at.compressor_room_temperature
    shell = system.compressor.shell_conductance * (e.shell_temperature - room)
    left, taken = e.evaporator.exit_enthalpy, e.unknowns.exchanged_heat
    warmed = system.refrigerant.suction(low, left + taken)
    from_room = line_heat(system.suction_line, flow, warmed, room)
    return {
        "whole": e.evaporator.heat + power + flow * from_room - e.condenser.heat - shell,
        "evaporator": e.evaporator.heat - flow * (left - e.condenser.exit_enthalpy + taken),
        "evaporator, outside": e.evaporator.heat - _source_heat(system, at, e, low),
        "condenser": e.condenser.heat - flow * (hot - e.condenser.exit_enthalpy),
        "compressor": power + flow * (e.unknowns.return_enthalpy - hot) - shell,
        "return": flow * (left + taken + from_room - e.unknowns.return_enthalpy),
    }


def _source_heat(system: SealedSystem, at: Conditions, e: Evaluation, low: Saturated) -> Array:
    """Heat [W] that the source gives: through the wall of the wet length, and to the dry gas."""
    state, length = e.evaporator, system.evaporator.length
    wet = state.outer_conductance * (at.source_temperature - state.wall_temperature)
    dry = 1.0 - np.exp(-length * (1.0 - state.wet_share) / state.gas_length)
    reach = e.compressor.mass_flow * low.vapour_specific_heat
    difference = at.source_temperature - low.temperature
    return np.asarray(wet * length * state.wet_share + reach * difference * dry)


@dataclass(frozen=True)
class _Joint:
    """Capillary and return gas of a settled system, marched once more."""

    passed: Array  # what the capillary passes over what the compressor draws
    heat: Array  # [J/kg] that the gas takes from it


def _joint(system: SealedSystem, e: Evaluation) -> _Joint:
    """One more march with the exchanger's heat where it was taken.

    A homogeneous tube passes flow about as the inverse root of the length that it asks for.
    """
    refrigerant, flow = system.refrigerant, e.compressor.mass_flow
    low = refrigerant.saturated(e.unknowns.evaporating_temperature)
    high = refrigerant.saturated(e.unknowns.condensing_temperature)
    gas = gas_side(
        system.suction_line,
        refrigerant,
        low,
        refrigerant.suction(low, e.evaporator.exit_enthalpy),
        flow,
        high.temperature - e.subcooling,
        e.evaporator.exit_enthalpy,
    )
    found = capillary_flow(
        system.capillary,
        refrigerant,
        flow,
        high.pressure,
        e.condenser.exit_enthalpy,
        low.pressure,
        e.unknowns.exchanged_heat,
        gas.transfer_units_per_metre,
        gas.inlet_temperature,
        placing=Placing(0, e.capillary.taken),
    )
    return _Joint(
        passed=np.asarray(np.sqrt(found.required_length / system.capillary.length)),
        heat=gas.heat(found.felt_temperature, system.suction_line.joined_length),
    )
