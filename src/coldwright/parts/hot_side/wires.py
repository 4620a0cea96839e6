"""Wires welded across the runs of a tube: the wire-on-tube condenser."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar, Self

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids import moist_air
from coldwright.heat.fins import wire_between_tubes_efficiency
from coldwright.heat.free_convection.numbers import film_coefficient, rayleigh_number
from coldwright.heat.free_convection.wire_on_tube import wire_on_tube_nusselt
from coldwright.heat.views import grey_exchange_factor, row_opacity
from coldwright.parts.hot_side.condenser import Condenser, Kind, Outside, excess_over
from coldwright.parts.hot_side.place import room_side_radiation, share_of_film, to_warmed_wall

FILM_PASSES = 3
CLOSEST = 1.05  # runs count as at least this many diameters apart, so that a gap is left


@dataclass(frozen=True, kw_only=True)
class WireCondenser(Condenser):
    """Lying runs of tube with upright wires on one or both sides.

    The published film is that of a panel standing free; here the half of it toward the cabinet
    keeps what a plate of the same height would keep before a wall at that gap (assumed).
    """

    kind: ClassVar[Kind] = "wire"

    wire_diameter: Array
    wire_pitch: Array
    wire_sides: Array  # 2 when both sides of the tube carry wires
    wire_conductivity: Array

    @property
    def wire_area_per_length(self) -> Array:
        """Surface of the wires [m2] for a metre of tube."""
        return np.pi * self.wire_diameter * self.wire_sides * self.pitch / self.wire_pitch

    @property
    def outside_metal_volume(self) -> Array:
        """Metal of the wires [m3]."""
        return 0.25 * self.wire_diameter * self.wire_area_per_length * self.length

    def enlarged(self, factor: FloatOrArray) -> Self:
        """Longer tube in a wider panel."""
        return replace(self, length=self.length * factor, sheet_width=self.sheet_width * factor)

    @property
    def view(self) -> Array:
        """Share of what tube and wires see that is not one another.

        The rows (wires, tube, wires) lie behind one another, and each stops its share of what the
        others send: both faces of the panel together send 2 [1 - (1 - a_w)^n (1 - a_t)].
        """
        wires = row_opacity(self.wire_pitch, self.wire_diameter)
        tubes = row_opacity(self.pitch, self.outside_diameter)
        passed = (1.0 - wires) ** self.wire_sides * (1.0 - tubes)
        area = np.pi * self.outside_diameter + self.wire_area_per_length
        return 2.0 * (1.0 - passed) * self.pitch / area

    def films(
        self,
        surface_temperature: FloatOrArray,
        room_temperature: FloatOrArray,
        pressure: FloatOrArray,
    ) -> tuple[Array, Array]:
        """Convection and radiation [W/m2K] on tube and wires, before dirt and trim.

        Convection: Tagliafico and Tanda 1997 (from memory). Radiation: tube and wires are grey and
        partly see one another (`view`).
        """
        surface, room = lanes(surface_temperature), lanes(room_temperature)
        coming = room + self.air_rise
        excess = excess_over(coming, surface)
        air = moist_air.film_properties(0.5 * (surface + coming), pressure)
        rayleigh = rayleigh_number(
            excess,
            self.sheet_height,
            air.expansion_coefficient,
            air.kinematic_viscosity,
            air.thermal_diffusivity,
        )
        nusselt = wire_on_tube_nusselt(
            rayleigh,
            excess,
            height=self.sheet_height,
            tube_diameter=self.outside_diameter,
            tube_pitch=np.maximum(self.pitch, CLOSEST * self.outside_diameter),
            wire_diameter=self.wire_diameter,
            wire_pitch=self.wire_pitch,
        )
        free = film_coefficient(nusselt, air.conductivity, self.sheet_height)
        sides = share_of_film(air, excess, self.gap, self.sheet_height)
        sides = sides + share_of_film(air, excess, self.wall_distance, self.sheet_height)
        factor = grey_exchange_factor(self.emissivity, self.view)
        radiated = room_side_radiation(self, surface, room, factor, factor)
        radiated = radiated + to_warmed_wall(surface, room, factor)
        return 0.5 * free * sides, 0.5 * radiated

    def outside(
        self, wall_temperature: FloatOrArray, room_temperature: FloatOrArray, pressure: FloatOrArray
    ) -> Outside:
        """From the tube's wall to the room; films at the mean of tube and wires."""
        wall, room = lanes(wall_temperature), lanes(room_temperature)
        coming = room + self.air_rise
        bare, wires = np.pi * self.outside_diameter, self.wire_area_per_length
        surface = coming + 0.9 * excess_over(coming, wall)
        for _ in range(FILM_PASSES):
            convection, radiation = (
                self.kept * film for film in self.films(surface, room, pressure)
            )
            both = convection + radiation
            sink = room + self.air_rise * convection / both
            efficiency = wire_between_tubes_efficiency(
                both, self.wire_conductivity, self.wire_diameter, self.pitch, self.outside_diameter
            )
            share = (bare + efficiency * wires) / (bare + wires)
            surface = coming + excess_over(coming, sink + share * (wall - sink))
        return Outside(
            conductance=both * (bare + efficiency * wires),
            sink_temperature=sink,
            convection_film=convection,
            radiation_film=radiation,
            area_per_length=bare + wires,
            efficiency=efficiency,
            bond_resistance=lanes(0.0),
            surface_temperature=sink + share * (wall - sink),
        )
