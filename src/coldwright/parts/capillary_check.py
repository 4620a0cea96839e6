"""The flow model beside published formulas, and how far it may be trusted."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.refrigerants import Refrigerant
from coldwright.heat.capillary_correlation import (
    QUALITY,
    SUBCOOLING,
    algebraic_capillary_flow,
    bridged_flow,
    subcooled_capillary_flow,
    two_phase_capillary_flow,
)

# Refrigerants that Wolf, Bittle and Pate measured (R152a as a check), among ours.
CORRELATED = ("R134a", "R152a", "R22")
# Standard uncertainty of the model's flow. Where it meets the formulas below: within 10 % for 90 %
# of measured points (Hermes, Melo and Knabben 2010). Others stand up to 15 % beside them, and where
# gas enters the formulas and the model differ most (docs/theory/capillary.md).
NEAR = ("R134a", "R152a")
NEAR_DOUBT, OTHER_DOUBT, GAS_DOUBT = 0.06, 0.09, 0.12


def flow_doubt(name: str, *, gas_enters: bool = False) -> float:
    """Relative standard uncertainty of the model's flow for the refrigerant called `name`."""
    liquid = NEAR_DOUBT if name in NEAR else OTHER_DOUBT
    return GAS_DOUBT if gas_enters else liquid


@dataclass(frozen=True)
class CrossCheck:
    """Flows [kg/s] by published formulas for an adiabatic tube; NaN outside what each covers."""

    correlation: Array
    bridged: Array  # whether the correlation's value lies between its two branches
    algebraic: Array


def cross_check(
    refrigerant: Refrigerant,
    bore: FloatOrArray,
    length: FloatOrArray,
    inlet_pressure: FloatOrArray,
    inlet_enthalpy: FloatOrArray,
    outlet_pressure: FloatOrArray,
) -> CrossCheck:
    """What the published formulas say of an adiabatic tube [m, Pa, J/kg]; arrays over lanes."""
    pressure, enthalpy = np.broadcast_arrays(lanes(inlet_pressure), lanes(inlet_enthalpy))
    saturation = refrigerant.saturation_temperature(pressure)
    at = refrigerant.saturated(saturation)
    liquid = refrigerant.liquid_at_enthalpy(np.minimum(enthalpy, at.liquid_enthalpy))
    subcooling = np.maximum(saturation - liquid.temperature, 0.0)
    quality = np.maximum((enthalpy - at.liquid_enthalpy) / at.latent_heat, 0.0)
    cold = _subcooled(refrigerant, bore, length, pressure, saturation, subcooling)
    wet = _two_phase(refrigerant, bore, length, pressure, saturation, quality)
    first = refrigerant.liquid_enthalpy(pressure, saturation - SUBCOOLING[0])
    second = at.liquid_enthalpy + QUALITY[0] * at.latent_heat
    between = bridged_flow(cold, wet, (enthalpy - first) / (second - first))
    inside = (subcooling <= SUBCOOLING[1]) & (quality <= QUALITY[1])
    bridged = (enthalpy > first) & (enthalpy < second)
    own = refrigerant.saturated(liquid.temperature)
    algebraic = algebraic_capillary_flow(
        bore, length, pressure, own.pressure, outlet_pressure, own.liquid_density
    )
    return CrossCheck(
        correlation=np.asarray(np.where(inside, between, np.nan)),
        bridged=np.asarray(bridged),
        algebraic=np.asarray(np.where(quality > 0.0, np.nan, algebraic)),
    )


def _subcooled(
    refrigerant: Refrigerant,
    bore: FloatOrArray,
    length: FloatOrArray,
    pressure: Array,
    saturation: Array,
    subcooling: Array,
) -> Array:
    """The subcooled branch, held at its ends."""
    held = np.clip(subcooling, *SUBCOOLING)
    at = refrigerant.saturated(saturation - held)
    return subcooled_capillary_flow(
        bore,
        length,
        pressure,
        held,
        at.liquid_density,
        at.vapour_density,
        at.liquid_viscosity,
        at.vapour_viscosity,
        at.latent_heat,
        at.liquid_specific_heat,
    )


def _two_phase(
    refrigerant: Refrigerant,
    bore: FloatOrArray,
    length: FloatOrArray,
    pressure: Array,
    saturation: Array,
    quality: Array,
) -> Array:
    """The two-phase branch, held at its ends."""
    at = refrigerant.saturated(saturation)
    return two_phase_capillary_flow(
        bore,
        length,
        pressure,
        np.clip(quality, *QUALITY),
        at.liquid_density,
        at.vapour_density,
        at.liquid_viscosity,
        at.vapour_viscosity,
        at.latent_heat,
    )
