"""What friction takes in the tubes: the balance leaves it out, and here is what it is worth."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array
from coldwright.fluids.refrigerants import Refrigerant, Saturated
from coldwright.heat.pressure_drop import friction_gradient, momentum_flux, two_phase_friction
from coldwright.parts.condenser import CondenserState
from coldwright.parts.hot_side import Condenser
from coldwright.plant.evaluation import Evaluation
from coldwright.plant.system import SealedSystem


@dataclass(frozen=True)
class PressureLoss:
    """Pressure drop of one part; arrays over lanes."""

    drop: Array  # [Pa], negative where condensing gives back more than friction takes
    shift: Array  # [K] of saturation temperature that it is worth


@dataclass(frozen=True)
class PressureLosses:
    """Of the three parts whose drop the balance leaves out."""

    condenser: PressureLoss
    evaporator: PressureLoss
    suction_line: PressureLoss


def condenser_drop(
    condenser: Condenser,
    state: CondenserState,
    saturated: Saturated,
    inlet_enthalpy: Array,
    inlet_density: Array,
    mass_flow: Array,
) -> Array:
    """Pressure drop [Pa] along gas, condensing and liquid length of a condenser's tube."""
    flux, bore = mass_flow / condenser.area, condenser.inside_diameter
    latent = saturated.latent_heat
    last = np.clip((state.exit_enthalpy - saturated.liquid_enthalpy) / latent, 0.0, 1.0)
    first = np.clip((inlet_enthalpy - saturated.liquid_enthalpy) / latent, 0.0, 1.0)
    first = np.where(state.condensing_share > 0.0, first, last)
    densities = (saturated.liquid_density, saturated.vapour_density)
    viscosities = (saturated.liquid_viscosity, saturated.vapour_viscosity)
    gas_density = 0.5 * (inlet_density + saturated.vapour_density)
    gas = friction_gradient(flux, bore, gas_density, saturated.vapour_viscosity) * state.gas_share
    liquid = friction_gradient(flux, bore, densities[0], viscosities[0]) * state.liquid_share
    both = two_phase_friction(
        flux, first, last, state.condensing_share, bore, *densities, *viscosities
    )
    gained = momentum_flux(flux, last, *densities) - momentum_flux(flux, first, *densities)
    return np.asarray(condenser.length * (gas + liquid + both) + gained)


def pressure_losses(system: SealedSystem, e: Evaluation) -> PressureLosses:
    """The losses of an evaluated system, each in Pa and in K of saturation temperature.

    Friction by Mueller-Steinhagen and Heck (1986) where both phases flow, by Churchill (1977)
    elsewhere, and the change of momentum (Smith's void fraction). Bends, fittings and oil are left
    out: a drawn tube with its bends has some 10 to 30 % more.
    """
    refrigerant, flow = system.refrigerant, e.compressor.mass_flow
    low = refrigerant.saturated(e.unknowns.evaporating_temperature)
    high = refrigerant.saturated(e.unknowns.condensing_temperature)
    gas = refrigerant.vapour(high.pressure, e.compressor.discharge_temperature)
    hot = condenser_drop(system.condenser, e.condenser, high, gas.enthalpy, gas.density, flow)
    return PressureLosses(
        condenser=PressureLoss(hot, _shift(refrigerant, high, hot)),
        evaporator=_of(refrigerant, low, _evaporator_drop(system, e, low)),
        suction_line=_of(refrigerant, low, _line_drop(system, e, low)),
    )


def _of(refrigerant: Refrigerant, saturated: Saturated, drop: Array) -> PressureLoss:
    return PressureLoss(drop, _shift(refrigerant, saturated, drop))


def _shift(refrigerant: Refrigerant, saturated: Saturated, drop: Array) -> Array:
    """Saturation temperature [K] that a drop from the pressure of `saturated` costs."""
    left = np.maximum(saturated.pressure - drop, 0.2 * saturated.pressure)
    return np.asarray(saturated.temperature - refrigerant.saturation_temperature(left))


def _evaporator_drop(system: SealedSystem, e: Evaluation, low: Saturated) -> Array:
    tube, flow = system.evaporator, e.compressor.mass_flow
    flux, bore = flow / tube.area, tube.inside_diameter
    entering = e.condenser.exit_enthalpy - e.unknowns.exchanged_heat
    first = np.clip((entering - low.liquid_enthalpy) / low.latent_heat, 0.0, 1.0)
    last = np.clip(e.returning.exit_quality, first, 1.0)
    densities = (low.liquid_density, low.vapour_density)
    viscosities = (low.liquid_viscosity, low.vapour_viscosity)
    wet = two_phase_friction(
        flux, first, last, e.evaporator.wet_share, bore, *densities, *viscosities
    )
    dry = friction_gradient(flux, bore, densities[1], viscosities[1])
    gained = momentum_flux(flux, last, *densities) - momentum_flux(flux, first, *densities)
    return np.asarray(tube.length * (wet + dry * (1.0 - e.evaporator.wet_share)) + gained)


def _line_drop(system: SealedSystem, e: Evaluation, low: Saturated) -> Array:
    line = system.suction_line
    flux = e.compressor.mass_flow / (0.25 * np.pi * line.inside_diameter**2)
    gradient = friction_gradient(
        flux, line.inside_diameter, e.returning.mean_density, low.vapour_viscosity
    )
    return np.asarray(gradient * line.length)
