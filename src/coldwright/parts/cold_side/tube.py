"""The refrigerant tube of the cold side: a coil in brine, a run on a plate, a bare serpentine."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array

COPPER_DENSITY, COPPER_SPECIFIC_HEAT = 8940.0, 385.0
"""[kg/m3, J/kgK]; a tube of aluminium or steel stores a little less or more, unseen in the sum."""


@dataclass(frozen=True, kw_only=True)
class EvaporatorTube:
    """Tube carrying evaporating refrigerant: diameters and length [m], wall conductivity [W/mK]."""

    inside_diameter: Array
    outside_diameter: Array
    length: Array
    wall_conductivity: Array

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
    def outside_area(self) -> Array:
        """Outside surface [m2]."""
        return np.pi * self.outside_diameter * self.length

    @property
    def heat_capacity(self) -> Array:
        """Heat capacity of the tube wall, taken as copper [J/K]."""
        return self.metal_volume * COPPER_DENSITY * COPPER_SPECIFIC_HEAT

    @property
    def wall_conductance_per_length(self) -> Array:
        """Conductance of the tube wall per metre of tube [W/mK], inside to outside surface."""
        ratio = self.outside_diameter / self.inside_diameter
        return 2.0 * np.pi * self.wall_conductivity / np.log(ratio)
