"""Published flows of adiabatic capillary tubes, and the flow model at the same points."""

from __future__ import annotations

from typing import NamedTuple

from coldwright.arrays import Array, lanes
from coldwright.fluids.refrigerants import Refrigerant, refrigerant
from coldwright.parts.capillary import Capillary
from coldwright.parts.capillary_solution import Ends, SolvedCapillary, solve_flow

# Height of the roughness of drawn copper capillary: below 1 micrometre (common practice, no
# source).
ROUGHNESS = 5e-7
EVAPORATING = 248.15


class Point(NamedTuple):
    """One flow; `near` is how near the flow model must come."""

    case: str
    fluid: str
    bore_mm: float
    length: float
    inlet_MPa: float
    subcooling: float | None
    quality: float | None
    kg_per_h: float
    near: float


# Wolf, Bittle and Pate 1995, ASHRAE RP-762 (coefficients from memory, groups read): R134a, R22 and
# R410A measured, R152a as a check; R600a and R290 are extrapolations. 10 % is what good models
# reach on 90 % of measured points (Hermes, Melo and Knabben 2010, read).
WOLF_BITTLE_PATE = [
    Point("wbp-01", "R134a", 0.66, 3.0, 1.00, 5.0, None, 2.652, 0.10),
    Point("wbp-02", "R134a", 0.66, 3.0, 1.30, 5.0, None, 3.052, 0.10),
    Point("wbp-03", "R134a", 0.70, 2.5, 1.20, 10.0, None, 4.208, 0.10),
    Point("wbp-04", "R134a", 0.86, 3.3, 1.50, 10.0, None, 7.052, 0.10),
    Point("wbp-05", "R152a", 0.70, 3.0, 1.10, 10.0, None, 3.003, 0.10),
    Point("wbp-06", "R290", 0.70, 3.0, 1.50, 5.0, None, 2.644, 0.10),
    Point("wbp-07", "R600a", 0.60, 2.5, 0.60, 5.0, None, 1.175, 0.18),
    Point("wbp-08", "R134a", 0.70, 2.5, 1.20, None, 0.05, 2.517, 0.12),
    Point("wbp-09", "R152a", 0.70, 2.5, 1.10, None, 0.05, 2.025, 0.12),
]


def inlet_enthalpy(
    fluid: Refrigerant, pressure: float, subcooling: float | None, quality: float | None
) -> Array:
    """Enthalpy [J/kg] before the tube."""
    saturation = fluid.saturation_temperature(pressure)
    if quality is None:
        return fluid.liquid_enthalpy(pressure, saturation - (subcooling or 0.0))
    at = fluid.saturated(saturation)
    return at.liquid_enthalpy + quality * at.latent_heat


def model_at(point: Point, *, late_flashing: bool = False) -> SolvedCapillary:
    """The flow model at a published point."""
    fluid, pressure = refrigerant(point.fluid), 1e6 * point.inlet_MPa
    tube = Capillary(
        lanes(1e-3 * point.bore_mm), lanes(point.length), lanes(ROUGHNESS), lanes(0.0), lanes(0.0)
    )
    enthalpy = inlet_enthalpy(fluid, pressure, point.subcooling, point.quality)
    ends = Ends(lanes(pressure), enthalpy, lanes(EVAPORATING))
    return solve_flow(tube, fluid, ends, late_flashing=late_flashing)
