"""The refrigerant tube of the cold side: a coil in brine, a run on a plate, a bare serpentine."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from coldwright.arrays import Array, lanes

COPPER_DENSITY, COPPER_SPECIFIC_HEAT = 8940.0, 385.0
"""[kg/m3, J/kgK] of a tube whose metal is not told."""


def _copper_density() -> Array:
    return lanes(COPPER_DENSITY)


def _copper_specific_heat() -> Array:
    return lanes(COPPER_SPECIFIC_HEAT)


@dataclass(frozen=True, kw_only=True)
class EvaporatorTube:
    """Tube carrying evaporating refrigerant: diameters and length [m], wall conductivity [W/mK].

    wall_density [kg/m3], wall_specific_heat [J/kgK]: of the tube's metal, copper unless given.
    """

    inside_diameter: Array
    outside_diameter: Array
    length: Array
    wall_conductivity: Array
    wall_density: Array = field(default_factory=_copper_density)
    wall_specific_heat: Array = field(default_factory=_copper_specific_heat)

    @property
    def inside_volume(self) -> Array:
        """Volume that refrigerant can fill [m3]."""
        return np.pi / 4.0 * self.inside_diameter**2 * self.length

    @property
    def displaced_volume(self) -> Array:
        """Volume that the tube displaces in brine [m3]."""
        return np.pi / 4.0 * self.outside_diameter**2 * self.length

    @property
    def metal_volume(self) -> Array:
        """Volume of the tube wall [m3]."""
        return self.displaced_volume - self.inside_volume

    @property
    def mass(self) -> Array:
        """Mass of the tube wall [kg]."""
        return self.metal_volume * self.wall_density

    @property
    def outside_area(self) -> Array:
        """Outside surface [m2]."""
        return np.pi * self.outside_diameter * self.length

    @property
    def heat_capacity(self) -> Array:
        """Heat capacity of the tube wall [J/K]."""
        return self.mass * self.wall_specific_heat

    @property
    def wall_conductance_per_length(self) -> Array:
        """Conductance of the tube wall per metre of tube [W/mK], inside to outside surface."""
        ratio = self.outside_diameter / self.inside_diameter
        return 2.0 * np.pi * self.wall_conductivity / np.log(ratio)
