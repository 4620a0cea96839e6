"""Sample CoolProp's reference equations at the nodes of one refrigerant's tables."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array

MOLAR_GAS_CONSTANT = 8.31446261815324  # J/(mol K), exact since the 2019 SI

LEAST_TEMPERATURE = 210.0
BELOW_CRITICAL = 2.0
GREATEST_SUPERHEAT = 160.0
SATURATION_NODES = 360
PRESSURE_NODES = 80
SUPERHEAT_NODES = 61
# The vapour bends most beside saturation: its nodes are even in the root of superheat plus this.
ROOT_OFFSET = 10.0  # K
SUPERHEAT_ENDS = np.array([0.0, GREATEST_SUPERHEAT])

# Trade name -> CoolProp's name.
FLUIDS = {
    "R152a": "R152A",
    "R134a": "R134a",
    "R600a": "IsoButane",
    "R290": "n-Propane",
    "R1270": "Propylene",
    "R1234yf": "R1234yf",
    "R12": "R12",
    "R22": "R22",
}


@dataclass(frozen=True)
class Samples:
    """Values at the nodes of one refrigerant's tables, SI."""

    molar_mass: float
    critical_temperature: float
    critical_pressure: float
    temperature: Array  # [saturation node]
    saturation: Array  # [saturation node, property], see SATURATION_COLUMNS
    log_pressure: Array  # [pressure node]
    superheat: Array  # [superheat node], even in `root_of`
    vapour: Array  # [pressure node, superheat node, property], see VAPOUR_COLUMNS


SATURATION_COLUMNS = (
    "log_pressure",
    "log_liquid_density",
    "log_vapour_density",
    "liquid_enthalpy",
    "vapour_enthalpy",
    "liquid_entropy",
    "vapour_entropy",
    "log_liquid_viscosity",
    "log_vapour_viscosity",
    "liquid_conductivity",
    "vapour_conductivity",
    "liquid_specific_heat",
    "vapour_specific_heat",
    "surface_tension",
    "liquid_compressibility",
    "liquid_enthalpy_pressure_slope",
)
# The entropy column is s + R ln p: smooth over pressure where s itself is not.
VAPOUR_COLUMNS = (
    "compressibility_factor",
    "enthalpy",
    "entropy_plus_R_log_pressure",
    "viscosity",
    "conductivity",
    "specific_heat",
)


def root_of(superheat: Array) -> Array:
    """The coordinate [K^0.5] in which the nodes of superheat [K] are even.

    Held 5 K under saturation, well past what a table is carried on to.
    """
    result: Array = np.sqrt(np.maximum(superheat, -0.5 * ROOT_OFFSET) + ROOT_OFFSET)
    return result


def superheat_of(root: Array) -> Array:
    """Undo `root_of`; zero to rounding where it is zero."""
    return root**2 - ROOT_OFFSET


def sample(name: str) -> Samples:
    """Values of refrigerant `name` (a key of FLUIDS) at all nodes; takes a second or two."""
    # Loading CoolProp takes seconds: done only where the samples are not on disk yet.
    from CoolProp import CoolProp  # noqa: PLC0415 (see above)

    state = CoolProp.AbstractState("HEOS", FLUIDS[name])
    molar_mass, critical = state.molar_mass(), state.T_critical()
    greatest = critical - BELOW_CRITICAL
    temperature = np.linspace(LEAST_TEMPERATURE, greatest, SATURATION_NODES, dtype=np.float64)
    saturation = np.array([_saturation_row(state, CoolProp, float(T)) for T in temperature])
    gas = CoolProp.AbstractState("HEOS", FLUIDS[name])
    log_pressure = np.linspace(saturation[0, 0], saturation[-1, 0], PRESSURE_NODES)
    least_root, greatest_root = root_of(SUPERHEAT_ENDS).tolist()
    superheat = superheat_of(np.linspace(least_root, greatest_root, SUPERHEAT_NODES))
    # Not the constant of the fluid's own equation, which may be an older one: the look-ups undo
    # with this one what is done with it here.
    gas_constant = MOLAR_GAS_CONSTANT / molar_mass
    vapour = np.empty((PRESSURE_NODES, SUPERHEAT_NODES, len(VAPOUR_COLUMNS)))
    for i, u in enumerate(log_pressure):
        pressure = float(np.exp(u))
        state.update(CoolProp.PQ_INPUTS, pressure, 1.0)
        saturated = state.T()
        for j, w in enumerate(superheat):
            source, at = (state, saturated) if j == 0 else (gas, saturated + float(w))
            vapour[i, j] = _vapour_row(source, CoolProp, pressure, at, gas_constant, j == 0)
        _bridge(superheat, vapour[i])
    return Samples(
        molar_mass,
        critical,
        state.p_critical(),
        temperature,
        saturation,
        log_pressure,
        superheat,
        vapour,
    )


def _bridge(superheat: Array, rows: Array) -> None:
    """Fill single missing values in `rows[superheat node, property]` from their neighbours."""
    for column in rows.T:
        missing = np.isnan(column)
        column[missing] = np.interp(superheat[missing], superheat[~missing], column[~missing])


def _saturation_row(state, CoolProp, temperature: float) -> list[float]:  # type: ignore[no-untyped-def]  # noqa: ANN001 (CoolProp has no stubs)
    state.update(CoolProp.QT_INPUTS, 0.0, temperature)
    density = state.rhomass()
    liquid = {
        "density": density,
        "enthalpy": state.hmass(),
        "entropy": state.smass(),
        "viscosity": state.viscosity(),
        "conductivity": state.conductivity(),
        "specific_heat": state.cpmass(),
    }
    pressure, tension = state.p(), state.surface_tension()
    compressibility = state.isothermal_compressibility()
    enthalpy_slope = (1.0 - temperature * state.isobaric_expansion_coefficient()) / density
    state.update(CoolProp.QT_INPUTS, 1.0, temperature)
    return [
        np.log(pressure),
        np.log(density),
        np.log(state.rhomass()),
        liquid["enthalpy"],
        state.hmass(),
        liquid["entropy"],
        state.smass(),
        np.log(liquid["viscosity"]),
        np.log(state.viscosity()),
        liquid["conductivity"],
        state.conductivity(),
        liquid["specific_heat"],
        state.cpmass(),
        tension,
        compressibility,
        enthalpy_slope,
    ]


def _vapour_row(  # type: ignore[no-untyped-def]
    state,  # noqa: ANN001 (CoolProp has no stubs)
    CoolProp,  # noqa: ANN001
    pressure: float,
    temperature: float,
    gas_constant: float,
    saturated: bool,
) -> list[float]:
    if saturated:
        state.update(CoolProp.PQ_INPUTS, pressure, 1.0)
    else:
        state.specify_phase(CoolProp.iphase_gas)
        state.update(CoolProp.PT_INPUTS, pressure, temperature)
    return [
        pressure / (state.rhomass() * gas_constant * temperature),
        state.hmass(),
        state.smass() + gas_constant * np.log(pressure),
        _or_missing(state.viscosity),
        _or_missing(state.conductivity),
        state.cpmass(),
    ]


def _or_missing(transport: Callable[[], float]) -> float:
    """NaN where CoolProp's corresponding-states solver fails (single points; see `_bridge`)."""
    try:
        return transport()
    except ValueError:
        return float("nan")
