"""One evaluation of all the equations of a sealed system, for assumed unknowns."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from coldwright.arrays import Array, lanes
from coldwright.fluids.refrigerants import Saturated, Suction, Vapour
from coldwright.parts.capillary import (
    FIRST_PLACING,
    CapillaryFlow,
    Placing,
    capillary_flow,
)
from coldwright.parts.charge import Inventory, density_at, dissolved_mass, shell_state
from coldwright.parts.compressor import CompressorState, compress
from coldwright.parts.condenser import CondenserState, condense
from coldwright.parts.evaporator import EvaporatorState, evaporate
from coldwright.parts.return_exchanger import gas_side, line_heat
from coldwright.plant.system import SealedSystem

# A returning gas counts as holding at least this share of gas.
LEAST_QUALITY = 0.02


@dataclass(frozen=True)
class Conditions:
    """What surrounds the sealed system; arrays over lanes."""

    source_temperature: Array  # [K] brine, or compartment air for a plate or bare tube
    room_temperature: Array  # [K] air at the condenser
    compressor_room_temperature: Array  # [K] air at the shell
    atmospheric_pressure: Array  # [Pa]


@dataclass(frozen=True)
class Unknowns:
    """The five unknowns of the balance; arrays over lanes."""

    evaporating_temperature: Array  # [K]
    condensing_temperature: Array  # [K]
    return_enthalpy: Array  # [J/kg] at the compressor's shell
    shell_superheat: Array  # [K] over saturation; negative: liquid lies in it (`shell_state`)
    exchanged_heat: Array  # [J/kg] from capillary to suction gas

    def stacked(self) -> Array:
        """All five along a new first axis."""
        return np.stack(
            np.broadcast_arrays(
                self.evaporating_temperature,
                self.condensing_temperature,
                self.return_enthalpy,
                self.shell_superheat,
                self.exchanged_heat,
            )
        )


@dataclass(frozen=True)
class ReturnGas:
    """The gas between evaporator and compressor; arrays over lanes."""

    superheat: Array  # [K] at the evaporator's exit, 0 when wet
    exit_quality: Array  # at the evaporator's exit, 1 when dry
    temperature: Array  # [K] at the shell
    quality: Array  # at the shell
    line_heat: Array  # [J/kg] from the room
    mean_density: Array  # [kg/m3] in the suction line
    excess: Array  # [J/kg] found enthalpy at the shell less assumed
    exchanger_excess: Array  # [J/kg] found exchanged heat less assumed


@dataclass(frozen=True)
class Evaluation:
    """Every part's state for assumed unknowns, and what is left over in each equation."""

    unknowns: Unknowns
    suction_pressure: Array
    discharge_pressure: Array
    compressor: CompressorState
    condenser: CondenserState
    evaporator: EvaporatorState
    capillary: CapillaryFlow
    shell_temperature: Array  # [K]
    inventory: Inventory
    returning: ReturnGas
    subcooling: Array  # [K] at the condenser's exit, 0 when gas is left
    net_flow: Array  # [kg/s] capillary less compressor
    latent_heat: Array  # [J/kg] at the evaporating temperature


def evaluate(
    system: SealedSystem, at: Conditions, unknowns: Unknowns, placing: Placing = FIRST_PLACING
) -> Evaluation:
    """Evaluate every part once for assumed `unknowns` and `placing` of the exchanger's heat."""
    refrigerant = system.refrigerant
    low = refrigerant.saturated(unknowns.evaporating_temperature)
    high = refrigerant.saturated(unknowns.condensing_temperature)
    shell_temperature, shell_liquid = shell_state(low.temperature, unknowns.shell_superheat)
    compressor = compress(
        system.compressor,
        refrigerant,
        low,
        high,
        unknowns.return_enthalpy,
        shell_temperature,
        at.compressor_room_temperature,
    )
    flow = compressor.mass_flow
    gas = refrigerant.vapour(high.pressure, compressor.discharge_temperature)
    condenser = condense(
        system.condenser, high, gas, flow, at.room_temperature, at.atmospheric_pressure
    )
    liquid = condenser.exit_enthalpy
    evaporator = evaporate(
        system.evaporator,
        system.cold_side,
        low,
        flow,
        liquid - unknowns.exchanged_heat,
        at.source_temperature,
    )
    capillary, exchanged = _capillary_and_exchanger(
        system, unknowns, low, high, flow, liquid, evaporator.exit_enthalpy, placing
    )
    returning = _return_gas(
        system, at, unknowns, low, compressor, evaporator.exit_enthalpy, exchanged
    )
    inventory = _inventory(
        system, shell_temperature, low, high, gas, condenser, evaporator, capillary, returning
    )
    # A homogeneous tube passes flow about as the inverse root of its length; the sign, and zero,
    # are exact.
    surplus = np.sqrt(capillary.required_length / system.capillary.length) - 1.0
    return Evaluation(
        unknowns=unknowns,
        suction_pressure=low.pressure,
        discharge_pressure=high.pressure,
        compressor=compressor,
        condenser=condenser,
        evaporator=evaporator,
        capillary=capillary,
        shell_temperature=shell_temperature,
        inventory=replace(inventory, shell_liquid=shell_liquid),
        returning=returning,
        subcooling=_subcooling(high, liquid),
        net_flow=flow * surplus,
        latent_heat=low.latent_heat,
    )


def _subcooling(high: Saturated, liquid: Array) -> Array:
    """How far [K] liquid of this enthalpy [J/kg] lies under saturation; 0 where gas is left."""
    return lanes(np.maximum(high.liquid_enthalpy - liquid, 0.0) / high.liquid_specific_heat)


def _capillary_and_exchanger(
    system: SealedSystem,
    unknowns: Unknowns,
    low: Saturated,
    high: Saturated,
    flow: Array,
    liquid: Array,
    exit_enthalpy: Array,
    placing: Placing,
) -> tuple[CapillaryFlow, Array]:
    """The capillary less the assumed heat, and the heat [J/kg] that the gas would take."""
    gas_in_exchanger = gas_side(
        system.suction_line,
        system.refrigerant,
        low,
        system.refrigerant.suction(low, exit_enthalpy),
        flow,
        high.temperature - _subcooling(high, liquid),
        exit_enthalpy,
    )
    capillary = capillary_flow(
        system.capillary,
        system.refrigerant,
        flow,
        high.pressure,
        liquid,
        low.pressure,
        unknowns.exchanged_heat,
        gas_in_exchanger.transfer_units_per_metre,
        gas_in_exchanger.inlet_temperature,
        cells=placing.cells,
        placing=placing,
    )
    joined = system.suction_line.joined_length
    return capillary, gas_in_exchanger.heat(capillary.felt_temperature, joined)


def _return_gas(
    system: SealedSystem,
    at: Conditions,
    unknowns: Unknowns,
    low: Saturated,
    compressor: CompressorState,
    exit_enthalpy: Array,
    exchanged: Array,
) -> ReturnGas:
    """From the evaporator's exit through exchanger and suction line to the shell."""
    refrigerant, flow, arriving = system.refrigerant, compressor.mass_flow, compressor.arriving
    leaving = refrigerant.suction(low, exit_enthalpy)
    warmed_enthalpy = exit_enthalpy + unknowns.exchanged_heat
    warmed = refrigerant.suction(low, warmed_enthalpy)
    gained = line_heat(system.suction_line, flow, warmed, at.compressor_room_temperature)
    return ReturnGas(
        superheat=leaving.temperature - low.temperature,
        exit_quality=leaving.quality,
        temperature=arriving.temperature,
        quality=arriving.quality,
        line_heat=gained,
        mean_density=0.5 * (_homogeneous(leaving) + _homogeneous(arriving)),
        excess=warmed_enthalpy + gained - unknowns.return_enthalpy,
        exchanger_excess=exchanged - unknowns.exchanged_heat,
    )


def _homogeneous(gas: Suction) -> Array:
    """Density [kg/m3] of returning gas with the liquid that it carries, both equally fast."""
    return lanes(gas.gas_density / np.maximum(gas.quality, LEAST_QUALITY))


def _inventory(
    system: SealedSystem,
    shell_temperature: Array,
    low: Saturated,
    high: Saturated,
    gas: Vapour,
    condenser: CondenserState,
    evaporator: EvaporatorState,
    capillary: CapillaryFlow,
    returning: ReturnGas,
) -> Inventory:
    """Refrigerant in every volume."""
    refrigerant, volumes = system.refrigerant, system.volumes
    liquid_density = density_at(high, condenser.exit_enthalpy)
    return Inventory(
        evaporator=evaporator.mass,
        suction_line=system.suction_line.volume * returning.mean_density,
        shell_gas=system.compressor.shell_volume
        * refrigerant.vapour(low.pressure, shell_temperature).density,
        oil=dissolved_mass(
            system.oil, volumes.oil_mass, refrigerant, low.pressure, shell_temperature
        ),
        shell_liquid=np.zeros(()),
        discharge_line=volumes.discharge_line * gas.density,
        condenser=condenser.mass,
        liquid_line=volumes.liquid_line * liquid_density,
        drier=volumes.drier * liquid_density,
        capillary=capillary.mass,
    )
