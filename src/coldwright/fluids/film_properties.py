"""The properties that a film correlation asks of a fluid, gas or liquid, in one record."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.arrays import Array


@dataclass(frozen=True)
class FilmProperties:
    """Transport properties at film temperature; every field an array over lanes, SI."""

    density: Array  # kg/m3
    specific_heat: Array  # J/(kg K), at constant pressure
    conductivity: Array  # W/(m K)
    dynamic_viscosity: Array  # Pa s
    expansion_coefficient: Array  # 1/K; negative for water below 4 °C

    @property
    def kinematic_viscosity(self) -> Array:
        """Dynamic viscosity over density [m2/s]."""
        return self.dynamic_viscosity / self.density

    @property
    def thermal_diffusivity(self) -> Array:
        """Conductivity over the heat capacity of unit volume [m2/s]."""
        return self.conductivity / (self.density * self.specific_heat)

    @property
    def prandtl(self) -> Array:
        """Kinematic viscosity over thermal diffusivity [-]."""
        return self.dynamic_viscosity * self.specific_heat / self.conductivity


@dataclass(frozen=True)
class AirProperties(FilmProperties):
    """Film properties of dry air."""


@dataclass(frozen=True)
class LiquidProperties(FilmProperties):
    """Film properties of a brine."""
