"""Refrigerant properties over lanes, from tables made of CoolProp's reference equations.

All temperatures K, pressures Pa, enthalpies J/kg (CoolProp's reference state), SI throughout.
Range: saturation 210 K to 2 K under the critical temperature; vapour to 160 K of superheat; a
look-up past the end is carried on for two cells and then held. Accuracy against CoolProp is
measured in tests/agreement.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, cached_property

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.errors import unknown_name
from coldwright.fluids.refrigerant_samples import FLUIDS, MOLAR_GAS_CONSTANT, root_of
from coldwright.fluids.refrigerant_states import FlashLine, LiquidPoint, Saturated, Suction, Vapour
from coldwright.fluids.refrigerant_tables import RISE_TEMPERATURE, Tables, rise_root, tables

__all__ = [
    "FlashLine",
    "LiquidPoint",
    "Refrigerant",
    "Saturated",
    "Suction",
    "Vapour",
    "refrigerant",
    "refrigerant_names",
]

SUCTION_ROUNDING = 200.0  # J/kg, about 0.2 K of superheat


@dataclass(frozen=True, eq=False)
class Refrigerant:
    """One refrigerant: its constants and its tables."""

    name: str
    _tables: Tables

    @property
    def molar_mass(self) -> float:
        """Molar mass [kg/mol]."""
        return self._tables.molar_mass

    @property
    def critical_temperature(self) -> float:
        """Critical temperature [K]."""
        return self._tables.critical_temperature

    @property
    def critical_pressure(self) -> float:
        """Critical pressure [Pa]."""
        return self._tables.critical_pressure

    @property
    def least_temperature(self) -> float:
        """Lower end of the saturation table [K]."""
        return self._tables.least_temperature

    @property
    def greatest_temperature(self) -> float:
        """Upper end of the saturation table [K]."""
        return self._tables.greatest_temperature

    @cached_property
    def gas_constant(self) -> float:
        """Specific gas constant [J/(kg K)]."""
        return MOLAR_GAS_CONSTANT / self.molar_mass

    def saturated(self, temperature: FloatOrArray) -> Saturated:
        """Both saturated phases at `temperature` [K]."""
        at = lanes(temperature)
        return Saturated(at, self._tables.saturation.locate(at))

    def saturation_pressure(self, temperature: FloatOrArray) -> Array:
        """Saturation pressure [Pa] at `temperature` [K]."""
        return self.saturated(temperature).pressure

    def saturation_temperature(self, pressure: FloatOrArray) -> Array:
        """Saturation temperature [K] at `pressure` [Pa]; undoes `saturation_pressure` to 1e-8 K."""
        return self._tables.by_pressure.locate(np.log(lanes(pressure))).column(0)

    def flash_line(self, pressure: FloatOrArray) -> FlashLine:
        """What a flow that may flash needs of saturation at `pressure` [Pa]."""
        place = self._tables.by_pressure.locate(np.log(lanes(pressure)))
        return FlashLine(
            place.column(1),
            place.column(2),
            np.exp(place.column(3)),
            np.exp(place.column(4)),
        )

    def liquid_at_enthalpy(self, enthalpy: FloatOrArray) -> LiquidPoint:
        """Liquid saturated at `enthalpy` [J/kg].

        Subcooled liquid has the properties of its own temperature; its compression is left out.
        """
        place = self._tables.by_liquid_enthalpy.locate(lanes(enthalpy))
        return LiquidPoint(np.exp(place.column(0)), np.exp(place.column(1)), place.column(2))

    def vapour(self, pressure: FloatOrArray, temperature: FloatOrArray) -> Vapour:
        """Vapour at `pressure` [Pa] and `temperature` [K], not below saturation."""
        p, T = _of_one_shape(pressure, temperature)
        log_pressure = np.log(p)
        saturated = self._tables.by_pressure.locate(log_pressure).column(0)
        return self._at(p, log_pressure, T, T - saturated)

    def _at(self, p: Array, log_pressure: Array, T: Array, superheat: Array) -> Vapour:
        return Vapour(self._tables.vapour, self.gas_constant, p, log_pressure, T, superheat)

    def vapour_at_enthalpy(self, pressure: FloatOrArray, enthalpy: FloatOrArray) -> Vapour:
        """Vapour at `pressure` [Pa] and `enthalpy` [J/kg], not below saturation."""
        p, wanted = _of_one_shape(pressure, enthalpy)
        log_pressure = np.log(p)
        place = self._tables.by_pressure.locate(log_pressure)
        saturated, least = place.column(0), place.column(2)
        rise = rise_root((wanted - least) / RISE_TEMPERATURE, self.gas_constant)
        start = self._tables.superheat_by_enthalpy.locate(log_pressure, rise).column(0)
        superheat = self._corrected(log_pressure, start, 1, wanted)
        return self._at(p, log_pressure, saturated + superheat, superheat)

    def _corrected(self, log_pressure: Array, start: Array, column: int, wanted: Array) -> Array:
        """Superheat at which vapour property `column` is as `wanted`, from one close to it.

        The start is near: one Newton step makes the pair inverse to rounding.
        """
        table, root = self._tables.vapour, root_of(start)
        value, slope = table.locate(log_pressure, root).column_and_slope(column)
        # The slope is along the root of superheat, by cell; d(superheat) = 2 root d(root).
        return start + (wanted - value) / slope * (2.0 * table.step[1] * root)

    def suction(self, saturated: Saturated, enthalpy: FloatOrArray) -> Suction:
        """Gas at the pressure of `saturated` and `enthalpy` [J/kg], which may still carry liquid.

        Under saturated vapour the temperature is that of saturation; the corner between is rounded
        over SUCTION_ROUNDING of enthalpy so that derivatives exist.
        """
        excess = lanes(enthalpy) - saturated.vapour_enthalpy
        held = 0.5 * (excess + np.sqrt(excess**2 + SUCTION_ROUNDING**2))
        gas = self.vapour_at_enthalpy(saturated.pressure, saturated.vapour_enthalpy + held)
        return Suction(
            temperature=gas.temperature,
            gas_density=gas.density,
            quality=1.0 + (excess - held) / saturated.latent_heat,
            specific_heat=gas.specific_heat,
        )

    def vapour_at_entropy(self, pressure: FloatOrArray, entropy: FloatOrArray) -> Vapour:
        """Vapour at `pressure` [Pa] and `entropy` [J/(kg K)], not below saturation."""
        p, wanted = _of_one_shape(pressure, entropy)
        log_pressure = np.log(p)
        place = self._tables.by_pressure.locate(log_pressure)
        saturated, least = place.column(0), place.column(5)
        rise = rise_root(wanted - least, self.gas_constant)
        start = self._tables.superheat_by_entropy.locate(log_pressure, rise).column(0)
        # The column holds s + R ln p.
        held = wanted + self.gas_constant * log_pressure
        superheat = self._corrected(log_pressure, start, 2, held)
        return self._at(p, log_pressure, saturated + superheat, superheat)

    def liquid_enthalpy(self, pressure: FloatOrArray, temperature: FloatOrArray) -> Array:
        """Enthalpy [J/kg] of liquid at `pressure` [Pa] and `temperature` [K], not above saturation.

        Saturated liquid at the same temperature plus (dh/dp)_T times the pressure above it.
        """
        at = self.saturated(temperature)
        return at.liquid_enthalpy + at.liquid_enthalpy_pressure_slope * (
            lanes(pressure) - at.pressure
        )

    def liquid_density(self, pressure: FloatOrArray, temperature: FloatOrArray) -> Array:
        """Density [kg/m3] of liquid at `pressure` [Pa] and `temperature` [K]."""
        at = self.saturated(temperature)
        return at.liquid_density * np.exp(
            at.liquid_compressibility * (lanes(pressure) - at.pressure)
        )


def _of_one_shape(one: FloatOrArray, other: FloatOrArray) -> tuple[Array, Array]:
    """Both as arrays of their common shape; two numbers as NumPy's, quicker than its arrays."""
    a, b = lanes(one), lanes(other)
    if a.shape != b.shape:
        a, b = np.broadcast_arrays(a, b)
    return (a, b) if a.ndim else (a[()], b[()])


def refrigerant_names() -> tuple[str, ...]:
    """Names of the refrigerants that have tables."""
    return tuple(FLUIDS)


@cache
def refrigerant(name: str) -> Refrigerant:
    """Return the refrigerant called `name`, as the trade writes it (`R152a`).

    Raises InputError when there are no tables for it.
    """
    if name not in FLUIDS:
        raise unknown_name("refrigerant.name", "Refrigerant", name, FLUIDS)
    return Refrigerant(name, tables(name))
