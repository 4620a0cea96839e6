"""Fit the compressor model to rated points, starting from what is typical of its class.

Maximum a posteriori by Gauss-Newton: the points pull with the data sheet's uncertainty, the class
with its own. One point settles pumping and efficiency; more points move what shapes the map:
clearance, suction warming, valves and the motor's losses. Fitted on one refrigerant, the model
answers for another.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from coldwright.arrays import Array
from coldwright.fluids.refrigerants import Refrigerant
from coldwright.parts.compressor import Compressor, CompressorState, settled_shell

FIT_STEPS = 12
FIT_NUDGE = 1e-4
# Fitted, as logarithms.
FITTED = (
    "pumping",
    "clearance",
    "suction_conductance",
    "suction_valve_drop",
    "efficiency",
    "valve_work",
    "constant_loss",
    "load_loss",
)
# Air around a compressor on the rating stand [K]; ASHRAE 23, 32.2 C (from memory).
RATING_AIR = 305.35


@dataclass(frozen=True)
class RatedPoints:
    """Rated points as arrays over points, SI; a power that is not known is NaN."""

    evaporating_temperature: Array
    condensing_temperature: Array
    return_temperature: Array
    mass_flow: Array
    power: Array


@dataclass(frozen=True)
class CompressorFit:
    """A fitted compressor and how well it meets its points."""

    compressor: Compressor
    standard_uncertainty: tuple[float, float]  # relative: of mass flow, of power
    flow_error: Array  # model over rated, less one, at each point
    power_error: Array  # NaN where no power was given


def fit_compressor(
    typical: Compressor,
    spread: Mapping[str, float],
    refrigerant: Refrigerant,
    points: RatedPoints,
    relative_uncertainty: float,
) -> CompressorFit:
    """Fit `typical` to `points` rated on `refrigerant`.

    `spread` holds the relative standard uncertainty of the class for each of `FITTED`;
    `relative_uncertainty` is that of the rated values against one another.
    """
    prior = np.log([float(getattr(typical, name)) for name in FITTED])
    weight = 1.0 / np.array([spread[name] for name in FITTED])
    known = np.isfinite(points.power)
    parameters = prior.copy()
    for _ in range(FIT_STEPS):
        nudged = parameters + np.concatenate(
            [np.zeros((1, len(FITTED))), FIT_NUDGE * np.eye(len(FITTED))]
        )
        misfit = _misfits(typical, nudged, refrigerant, points, known, relative_uncertainty)
        slope = (misfit[1:] - misfit[0]) / FIT_NUDGE  # [parameter, misfit]
        normal = slope @ slope.T + np.diag(weight**2)
        pull = slope @ misfit[0] + weight**2 * (parameters - prior)
        parameters = parameters - np.clip(np.linalg.solve(normal, pull), -0.5, 0.5)
    fitted = _with(typical, parameters[None, :])
    fitted = replace(fitted, **{name: getattr(fitted, name)[0, 0] for name in FITTED})
    state = _states(fitted, refrigerant, points)
    covariance = np.linalg.inv(normal)
    return CompressorFit(
        fitted,
        _uncertainty(covariance, slope, known, relative_uncertainty),
        state.mass_flow / points.mass_flow - 1.0,
        state.power / points.power - 1.0,
    )


def _with(typical: Compressor, parameters: Array) -> Compressor:
    """Compressors with `parameters[lane, FITTED]`, one lane each, points along the last axis."""
    values = np.exp(parameters)[:, :, None]
    return replace(typical, **{name: values[:, i] for i, name in enumerate(FITTED)})


def _states(
    compressor: Compressor, refrigerant: Refrigerant, points: RatedPoints
) -> CompressorState:
    low = refrigerant.saturated(points.evaporating_temperature)
    high = refrigerant.saturated(points.condensing_temperature)
    enthalpy = refrigerant.vapour(low.pressure, points.return_temperature).enthalpy
    return settled_shell(compressor, refrigerant, low, high, enthalpy, RATING_AIR)[1]


def _misfits(
    typical: Compressor,
    parameters: Array,
    refrigerant: Refrigerant,
    points: RatedPoints,
    known: Array,
    relative_uncertainty: float,
) -> Array:
    """Misfits [lane, flow points then power points] in standard uncertainties."""
    state = _states(_with(typical, parameters), refrigerant, points)
    flow = np.log(state.mass_flow / points.mass_flow)
    power = np.log(state.power / np.where(known, points.power, 1.0)) * known
    return np.concatenate([flow, power], axis=-1) / relative_uncertainty


def _uncertainty(
    covariance: Array, slope: Array, known: Array, relative_uncertainty: float
) -> tuple[float, float]:
    """Relative standard uncertainty of flow and of power at the first point."""
    scaled = slope * relative_uncertainty
    variance = np.einsum("ip,ij,jp->p", scaled, covariance, scaled)
    first_power = len(known)
    flow = float(np.sqrt(variance[0]))
    power = float(np.sqrt(variance[first_power])) if known[0] else float("nan")
    return flow, power
