"""States of a refrigerant: what a look-up returns.

Saturated and Vapour compute a property when it is first asked for, and keep it: a caller pays for
what it reads.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from coldwright.arrays import Array
from coldwright.fluids.grids import AnyPlace, Surface
from coldwright.fluids.refrigerant_samples import root_of


class Saturated:
    """Saturated liquid and vapour at `temperature` [K]; every property an array over lanes, SI."""

    def __init__(self, temperature: Array, place: AnyPlace) -> None:
        self.temperature = temperature
        self._place = place

    @cached_property
    def pressure(self) -> Array:
        """Saturation pressure [Pa]."""
        return np.exp(self._place.column(0))

    @cached_property
    def liquid_density(self) -> Array:
        """Density of the liquid [kg/m3]."""
        return np.exp(self._place.column(1))

    @cached_property
    def vapour_density(self) -> Array:
        """Density of the vapour [kg/m3]."""
        return np.exp(self._place.column(2))

    @cached_property
    def liquid_enthalpy(self) -> Array:
        """Enthalpy of the liquid [J/kg]."""
        return self._place.column(3)

    @cached_property
    def vapour_enthalpy(self) -> Array:
        """Enthalpy of the vapour [J/kg]."""
        return self._place.column(4)

    @cached_property
    def liquid_entropy(self) -> Array:
        """Entropy of the liquid [J/(kg K)]."""
        return self._place.column(5)

    @cached_property
    def vapour_entropy(self) -> Array:
        """Entropy of the vapour [J/(kg K)]."""
        return self._place.column(6)

    @cached_property
    def liquid_viscosity(self) -> Array:
        """Dynamic viscosity of the liquid [Pa s]."""
        return np.exp(self._place.column(7))

    @cached_property
    def vapour_viscosity(self) -> Array:
        """Dynamic viscosity of the vapour [Pa s]."""
        return np.exp(self._place.column(8))

    @cached_property
    def liquid_conductivity(self) -> Array:
        """Thermal conductivity of the liquid [W/(m K)]."""
        return self._place.column(9)

    @cached_property
    def vapour_conductivity(self) -> Array:
        """Thermal conductivity of the vapour [W/(m K)]."""
        return self._place.column(10)

    @cached_property
    def liquid_specific_heat(self) -> Array:
        """Specific heat of the liquid at constant pressure [J/(kg K)]."""
        return self._place.column(11)

    @cached_property
    def vapour_specific_heat(self) -> Array:
        """Specific heat of the vapour at constant pressure [J/(kg K)]."""
        return self._place.column(12)

    @cached_property
    def surface_tension(self) -> Array:
        """Surface tension [N/m]."""
        return self._place.column(13)

    @cached_property
    def liquid_compressibility(self) -> Array:
        """Isothermal compressibility of the liquid [1/Pa]."""
        return self._place.column(14)

    @cached_property
    def liquid_enthalpy_pressure_slope(self) -> Array:
        """Slope of the liquid's enthalpy over pressure at constant temperature [J/(kg Pa)]."""
        return self._place.column(15)

    @cached_property
    def latent_heat(self) -> Array:
        """Heat of vaporisation [J/kg]."""
        return self.vapour_enthalpy - self.liquid_enthalpy


class Vapour:
    """Superheated (or saturated) vapour; every property an array over lanes, SI.

    `table` is over (ln p, root of superheat); `gas_constant` is specific [J/(kg K)].
    """

    def __init__(
        self,
        table: Surface,
        gas_constant: float,
        pressure: Array,
        log_pressure: Array,
        temperature: Array,
        superheat: Array,
    ) -> None:
        self.pressure = pressure
        self.temperature = temperature
        self._log_pressure = log_pressure
        self._superheat = superheat
        self._table = table
        self._gas_constant = gas_constant

    @cached_property
    def _place(self) -> AnyPlace:
        return self._table.locate(self._log_pressure, root_of(self._superheat))

    @cached_property
    def density(self) -> Array:
        """Density [kg/m3]."""
        compressibility_factor = self._place.column(0)
        return self.pressure / (compressibility_factor * self._gas_constant * self.temperature)

    @cached_property
    def enthalpy(self) -> Array:
        """Enthalpy [J/kg]."""
        return self._place.column(1)

    @cached_property
    def entropy(self) -> Array:
        """Entropy [J/(kg K)]."""
        return self._place.column(2) - self._gas_constant * self._log_pressure

    @cached_property
    def viscosity(self) -> Array:
        """Dynamic viscosity [Pa s]."""
        return self._place.column(3)

    @cached_property
    def conductivity(self) -> Array:
        """Thermal conductivity [W/(m K)]."""
        return self._place.column(4)

    @cached_property
    def specific_heat(self) -> Array:
        """Specific heat at constant pressure [J/(kg K)]."""
        return self._place.column(5)


@dataclass(frozen=True)
class FlashLine:
    """Saturation along pressure, as far as a flashing flow needs it; arrays over lanes, SI."""

    liquid_enthalpy: Array
    vapour_enthalpy: Array
    vapour_density: Array
    vapour_viscosity: Array

    def row(self, index: int) -> FlashLine:
        """The lanes at one place of the first axis."""
        return FlashLine(
            self.liquid_enthalpy[index],
            self.vapour_enthalpy[index],
            self.vapour_density[index],
            self.vapour_viscosity[index],
        )


@dataclass(frozen=True)
class LiquidPoint:
    """Liquid in a flow that may flash; arrays over lanes, SI."""

    density: Array
    viscosity: Array
    temperature: Array


@dataclass(frozen=True)
class Suction:
    """Gas on its way to the compressor, with or without liquid in it; arrays over lanes, SI."""

    temperature: Array
    gas_density: Array
    quality: Array
    specific_heat: Array  # of the gas
