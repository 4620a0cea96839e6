"""What every condenser has: its tube, the place it stands in, and what is asked of its outside."""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import dataclass, field
from typing import ClassVar, Literal, Self

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes

# Rounds the magnitude of the sheet's excess over the air [K]: a wall at the air's temperature
# still has a film, and logarithms stay finite in a starved system that condenses at the room's.
LEAST_DIFFERENCE = 0.05
NO_WALL = 50.0  # m: so far off that nothing of it is felt

Kind = Literal["sheet", "wire", "bare"]


def _none() -> Array:
    return lanes(0.0)


def _far() -> Array:
    return lanes(NO_WALL)


@dataclass(frozen=True)
class Outside:
    """From the tube's wall to what stands around; arrays over lanes.

    The heat of a metre of tube is `conductance` times (wall less `sink_temperature`); the sink lies
    between the room, to which the surface radiates, and the air that comes in, which may be warmer.
    """

    conductance: Array  # [W/(m K)] per metre of tube
    sink_temperature: Array  # [K]
    convection_film: Array  # [W/(m2 K)] on the outside area, surface less sink
    radiation_film: Array  # [W/(m2 K)] likewise
    area_per_length: Array  # [m2/m] outside area
    efficiency: Array  # of the sheet or the wires between runs of tube
    bond_resistance: Array  # [m K/W] per metre of tube
    surface_temperature: Array  # [K] mean of the outside

    @property
    def resistances(self) -> dict[str, Array]:
        """Steps in series [m K/W] per metre of tube, from the tube's wall out."""
        ideal = self.area_per_length * (self.convection_film + self.radiation_film)
        outward = 1.0 / self.conductance - self.bond_resistance
        return {"bond": self.bond_resistance, "sheet": outward - 1.0 / ideal, "air": 1.0 / ideal}

    @property
    def radiation_share(self) -> Array:
        """Radiation's share of the heat."""
        return self.radiation_film / (self.convection_film + self.radiation_film)


@dataclass(frozen=True, kw_only=True)
class Condenser(ABC):
    """Tube and place of a condenser in still air; arrays over lanes, SI.

    `sheet_width` and `sheet_height` are the sheet's, or those of the upright panel that wires or
    runs of tube make.
    """

    kind: ClassVar[Kind]

    inside_diameter: Array
    outside_diameter: Array
    length: Array
    tube_conductivity: Array
    sheet_width: Array
    sheet_height: Array
    emissivity: Array
    gap: Array  # [m] to the cabinet's back
    back_emissivity: Array  # of the cabinet's back
    shaded_fraction: Array  # of both faces that trim or frame keeps from the air
    dirt: Array = field(default_factory=_none)  # share of the outside film that dust takes
    wall_distance: Array = field(default_factory=_far)  # [m] to a wall or panel on the room's side
    air_rise: Array = field(default_factory=_none)  # [K] air that comes in over the room's

    @property
    def area(self) -> Array:
        """Flow area of the tube [m2]."""
        return np.pi / 4.0 * self.inside_diameter**2

    @property
    def volume(self) -> Array:
        """Inside volume of the tube [m3]."""
        return self.area * self.length

    @property
    def tube_metal_volume(self) -> Array:
        """Metal of the tube [m3]."""
        return np.pi / 4.0 * (self.outside_diameter**2 - self.inside_diameter**2) * self.length

    @property
    def tube_resistance(self) -> Array:
        """Resistance of the tube's wall [m K/W] per metre."""
        ratio = self.outside_diameter / self.inside_diameter
        return np.log(ratio) / (2.0 * np.pi * self.tube_conductivity)

    @property
    def pitch(self) -> Array:
        """Distance between runs [m] when the tube covers the panel evenly."""
        return self.sheet_width * self.sheet_height / self.length

    @property
    def kept(self) -> Array:
        """What dirt, trim and frame leave of the outside film."""
        return (1.0 - self.shaded_fraction) * (1.0 - self.dirt)

    @property
    @abstractmethod
    def outside_metal_volume(self) -> Array:
        """Metal of sheet or wires [m3], beside the tube's."""

    @abstractmethod
    def outside(
        self, wall_temperature: FloatOrArray, room_temperature: FloatOrArray, pressure: FloatOrArray
    ) -> Outside:
        """What a tube wall at `wall_temperature` [K] finds outside; `pressure` of the air [Pa]."""

    @abstractmethod
    def enlarged(self, factor: FloatOrArray) -> Self:
        """`factor` times as large: tube and width, runs as far apart as before."""


def excess_over(air: Array, surface: Array) -> Array:
    """Magnitude of the surface's excess over the air [K], rounded at nothing."""
    return np.sqrt((surface - air) ** 2 + LEAST_DIFFERENCE**2)
