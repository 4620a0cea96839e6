"""A bare tube in the air: lying runs one above the other, without sheet or wires."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar, Self

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids import moist_air
from coldwright.heat.free_convection.horizontal import horizontal_cylinder_nusselt
from coldwright.heat.free_convection.numbers import film_coefficient, rayleigh_number
from coldwright.heat.free_convection.stacked_cylinders import stacked_cylinders_share
from coldwright.heat.views import grey_exchange_factor, row_of_cylinders_view
from coldwright.parts.hot_side.condenser import Condenser, Kind, Outside, excess_over
from coldwright.parts.hot_side.place import room_side_radiation, share_of_film, to_warmed_wall


@dataclass(frozen=True, kw_only=True)
class BareCondenser(Condenser):
    """A serpentine of lying runs; a coil counts as a serpentine of its own length and pitch.

    Each run stands in the plume of those under it and sees its neighbours. Toward the cabinet half
    of the film keeps what a plate of the panel's height would keep before a wall (assumed).
    """

    kind: ClassVar[Kind] = "bare"

    @property
    def outside_metal_volume(self) -> Array:
        """Nothing beside the tube [m3]."""
        return np.zeros_like(self.length)

    @property
    def runs(self) -> Array:
        """Runs one above the other."""
        return self.sheet_height / self.pitch

    def enlarged(self, factor: FloatOrArray) -> Self:
        """Longer runs, as far apart as before."""
        return replace(self, length=self.length * factor, sheet_width=self.sheet_width * factor)

    def outside(
        self, wall_temperature: FloatOrArray, room_temperature: FloatOrArray, pressure: FloatOrArray
    ) -> Outside:
        """From the tube's wall to the room: lying cylinder (Churchill and Chu 1975), stacked."""
        wall, room = lanes(wall_temperature), lanes(room_temperature)
        coming = room + self.air_rise
        excess = excess_over(coming, wall)
        surface = coming + excess
        air = moist_air.film_properties(0.5 * (surface + coming), pressure)
        rayleigh = rayleigh_number(
            excess,
            self.outside_diameter,
            air.expansion_coefficient,
            air.kinematic_viscosity,
            air.thermal_diffusivity,
        )
        alone = film_coefficient(
            horizontal_cylinder_nusselt(rayleigh, air.prandtl),
            air.conductivity,
            self.outside_diameter,
        )
        sides = share_of_film(air, excess, self.gap, self.sheet_height)
        sides = sides + share_of_film(air, excess, self.wall_distance, self.sheet_height)
        stacked = stacked_cylinders_share(self.pitch / self.outside_diameter, self.runs)
        convection = self.kept * 0.5 * alone * stacked * sides
        view = row_of_cylinders_view(self.pitch, self.outside_diameter)
        factor = grey_exchange_factor(self.emissivity, view)
        radiated = room_side_radiation(self, surface, room, factor, factor)
        radiated = radiated + to_warmed_wall(surface, room, factor)
        radiation = self.kept * 0.5 * radiated
        area = np.pi * self.outside_diameter
        both = convection + radiation
        return Outside(
            conductance=area * both,
            sink_temperature=room + self.air_rise * convection / both,
            convection_film=convection,
            radiation_film=radiation,
            area_per_length=area,
            efficiency=np.ones_like(both),
            bond_resistance=lanes(0.0),
            surface_temperature=wall,
        )
