"""How far a fitted compressor may be trusted away from where it was rated.

The standard uncertainty of flow and of power is that of the fit and, added as squares, a part for
each distance from the nearest rated point: per e-fold of pressure ratio, per e-fold of suction
pressure and per e-fold of speed; and a part for another refrigerant.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array, FloatOrArray
from coldwright.fluids.refrigerants import Refrigerant
from coldwright.parts.compressor_fit import CompressorFit, RatedPoints

SOURCE = "compressor_carry_law"


@dataclass(frozen=True)
class CarryLaw:
    """Relative standard uncertainty that each distance adds."""

    pressure_ratio: float  # per e-fold
    suction_pressure: float  # per e-fold
    speed: float  # per e-fold
    other_refrigerant: float


# Pressures: fits to one point each of the published R600a map, against its eleven others, rounded
# up (computed). Another refrigerant: a measured swap of R152a for R134a fell some 5 % from what
# equal displacement gives (Cabello et al. 2015). Speed: assumed, no source.
FLOW_LAW = CarryLaw(0.06, 0.03, 0.05, 0.05)
POWER_LAW = CarryLaw(0.03, 0.06, 0.10, 0.06)


@dataclass(frozen=True)
class Carried:
    """Distances from the nearest rated point and what they make uncertain; arrays over lanes."""

    pressure_ratio_distance: Array  # ln of the ratio of pressure ratios
    suction_pressure_distance: Array  # ln of the ratio of suction pressures
    flow: Array  # relative standard uncertainty
    power: Array


def carried_uncertainty(
    fit: CompressorFit,
    points: RatedPoints,
    rated_on: Refrigerant,
    fluid: Refrigerant,
    suction_pressure: FloatOrArray,
    discharge_pressure: FloatOrArray,
    speed_ratio: FloatOrArray = 1.0,
) -> Carried:
    """Uncertainty of `fit` at other pressures [Pa], on `fluid`, at `speed_ratio` of its speed.

    Lanes are those of the pressures; the rated points stand along an axis of their own.
    """
    low, high = (np.asarray(p, dtype=np.float64) for p in (suction_pressure, discharge_pressure))
    rated_low = rated_on.saturation_pressure(points.evaporating_temperature)
    rated_high = rated_on.saturation_pressure(points.condensing_temperature)
    suction = np.log(low[..., None] / rated_low)
    ratio = np.log((high / low)[..., None] / (rated_high / rated_low))
    other = float(rated_on.name != fluid.name)
    faster = np.abs(np.log(np.asarray(speed_ratio, dtype=np.float64)))

    def added(law: CarryLaw) -> Array:
        """Square of what distance adds, at each rated point."""
        near = (law.pressure_ratio * ratio) ** 2 + (law.suction_pressure * suction) ** 2
        return np.asarray(
            np.min(near, axis=-1) + (law.speed * faster) ** 2 + (law.other_refrigerant * other) ** 2
        )

    nearest = np.argmin(ratio**2 + suction**2, axis=-1)[..., None]
    flow, power = fit.standard_uncertainty
    return Carried(
        np.abs(np.take_along_axis(ratio, nearest, axis=-1)[..., 0]),
        np.abs(np.take_along_axis(suction, nearest, axis=-1)[..., 0]),
        np.sqrt(flow**2 + added(FLOW_LAW)),
        np.sqrt(power**2 + added(POWER_LAW)),
    )
