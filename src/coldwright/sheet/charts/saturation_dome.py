"""What a pressure-enthalpy chart shows of a refrigerant itself: its dome and its isotherms."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.fluids.refrigerants import Refrigerant
from coldwright.units import System

POINTS = 60
ISOTHERM_POINTS = 24
# Of the gas's table [K]; a little inside it.
MOST_SUPERHEAT = 155.0
# Where enthalpy is counted from, by the custom of each system's charts: saturated liquid has
# 200 kJ/kg at 0 °C (IIR), or 0 Btu/lb at -40 °F (ASHRAE). Of practice, no source.
REFERENCES: dict[System, tuple[float, float]] = {"si": (273.15, 200e3), "shop": (233.15, 0.0)}
J_PER_KG: dict[System, float] = {"si": 1e3, "shop": 2326.0}
UNITS: dict[System, str] = {"si": "kJ/kg", "shop": "Btu/lb"}


@dataclass(frozen=True)
class EnthalpyScale:
    """Enthalpies of one refrigerant as a system's charts count them."""

    unit: str
    per: float  # [J/kg] in one unit
    zero: float  # [J/kg] of the tables at 0 of the chart

    @classmethod
    def of(cls, refrigerant: Refrigerant, system: System) -> EnthalpyScale:
        """The scale of `refrigerant` in `system`."""
        at, shown = REFERENCES[system]
        liquid = float(refrigerant.saturated(at).liquid_enthalpy)
        return cls(UNITS[system], J_PER_KG[system], liquid - shown)

    def shown(self, enthalpy: float) -> float:
        """An enthalpy [J/kg] on the chart."""
        return (float(enthalpy) - self.zero) / self.per

    def heat(self, difference: float) -> str:
        """The heat that one unit of mass takes up over a `difference` [J/kg]: `112 Btu`."""
        return f"{difference / self.per:.3g} {self.unit.partition('/')[0]}"

    @property
    def mass(self) -> str:
        """The unit of mass: `lb`."""
        return self.unit.partition("/")[2]


def dome(
    refrigerant: Refrigerant, least_pressure: float, greatest_pressure: float
) -> list[tuple[float, float]]:
    """Pressure [Pa] and enthalpy [J/kg] of saturated liquid upward, then of gas downward."""
    ends = [
        float(refrigerant.saturation_temperature(each))
        for each in (least_pressure, greatest_pressure)
    ]
    coldest = max(ends[0], refrigerant.least_temperature)
    hottest = min(ends[1], refrigerant.greatest_temperature)
    at = refrigerant.saturated(np.linspace(coldest, hottest, POINTS))
    up = list(zip(at.pressure.tolist(), at.liquid_enthalpy.tolist(), strict=True))
    down = list(zip(at.pressure.tolist(), at.vapour_enthalpy.tolist(), strict=True))
    return up + down[::-1]


def isotherm(
    refrigerant: Refrigerant,
    temperature: float,
    least_pressure: float,
    greatest_pressure: float,
) -> list[tuple[float, float]]:
    """Pressure [Pa] and enthalpy [J/kg] of gas at `temperature` [K], from thin gas to saturation.

    Empty where the gas is not known so far from saturation, or condenses on all of the chart.
    """
    if temperature - float(refrigerant.saturation_temperature(least_pressure)) > MOST_SUPERHEAT:
        return []
    top = greatest_pressure
    if temperature < refrigerant.greatest_temperature:
        top = min(top, float(refrigerant.saturation_pressure(temperature)))
    if top <= least_pressure:
        return []
    pressures = np.geomspace(least_pressure, top, ISOTHERM_POINTS)
    enthalpies = refrigerant.vapour(pressures, np.full(ISOTHERM_POINTS, temperature)).enthalpy
    return list(zip(pressures.tolist(), enthalpies.tolist(), strict=True))
