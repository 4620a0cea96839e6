"""A tube bonded on a sheet, flat or corrugated, behind the cabinet."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import ClassVar, Self

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids import moist_air
from coldwright.heat.fins import sheet_between_tubes_efficiency, tube_on_sheet_conductance
from coldwright.heat.free_convection.chimney import chimney_channel_film_coefficient
from coldwright.heat.free_convection.numbers import film_coefficient, rayleigh_number
from coldwright.heat.free_convection.vertical import vertical_plate_nusselt
from coldwright.heat.radiation import cavity_emissivity, parallel_plates_exchange_factor
from coldwright.parts.hot_side.condenser import Condenser, Kind, Outside, excess_over
from coldwright.parts.hot_side.place import room_side_radiation, share_of_film, to_warmed_wall

FILM_PASSES = 3


def _one() -> Array:
    return lanes(1.0)


@dataclass(frozen=True)
class Faces:
    """Films of both faces [W/m2K] on the plane area of one, and the air that comes in [K]."""

    open_convection: Array
    open_radiation: Array
    channel_convection: Array
    channel_radiation: Array

    @property
    def convection(self) -> Array:
        """Sum of both faces."""
        return self.open_convection + self.channel_convection

    @property
    def radiation(self) -> Array:
        """Sum of both faces."""
        return self.open_radiation + self.channel_radiation


@dataclass(frozen=True, kw_only=True)
class SheetCondenser(Condenser):
    """Tube on sheet: the sheet is a fin between the runs, behind the bond.

    `area_factor` is a corrugated sheet's developed over its plane area (1 flat): convection grows
    by it (folds much deeper than wide gain less), radiation only as far as a dull cavity does, and
    heat has the longer way from run to run. `covered_share` is the share of the sheet that the runs
    cover at their pitch, half a pitch to either side; what lies outside is not counted.
    """

    kind: ClassVar[Kind] = "sheet"

    sheet_thickness: Array
    sheet_conductivity: Array
    bond_conductance: Array  # [W/(m K)] per metre of tube
    chimney_height: Array  # [m] of duct of the same gap above the sheet
    opening_loss: Array  # loss coefficient of the channel's openings
    area_factor: Array = field(default_factory=_one)
    covered_share: Array = field(default_factory=_one)

    @property
    def run_pitch(self) -> Array:
        """Plane width of sheet that serves one run of tube [m]."""
        return self.covered_share * self.pitch

    @property
    def outside_metal_volume(self) -> Array:
        """Metal of the sheet [m3]."""
        plane = self.sheet_width * self.sheet_height
        return plane * self.area_factor * self.sheet_thickness

    def enlarged(self, factor: FloatOrArray) -> Self:
        """Longer tube on a wider sheet."""
        return replace(self, length=self.length * factor, sheet_width=self.sheet_width * factor)

    def faces(
        self,
        sheet_temperature: FloatOrArray,
        room_temperature: FloatOrArray,
        pressure: FloatOrArray,
    ) -> Faces:
        """Films of the open and of the channel face, before dirt and trim; temperatures [K].

        Open face: vertical plate (Churchill and Chu 1975), less before a wall, and radiation to
        the room. Channel face: one warm wall before the cabinet's back (Bar-Cohen and Rohsenow
        1984, chimney added). Convection is on the air that comes in, radiation on the room.
        """
        sheet, room = lanes(sheet_temperature), lanes(room_temperature)
        coming = room + self.air_rise
        excess = excess_over(coming, sheet)
        air = moist_air.film_properties(0.5 * (sheet + coming), pressure)
        properties = (air.expansion_coefficient, air.kinematic_viscosity, air.thermal_diffusivity)
        rayleigh = rayleigh_number(excess, self.sheet_height, *properties)
        plate = film_coefficient(
            vertical_plate_nusselt(rayleigh, air.prandtl), air.conductivity, self.sheet_height
        )
        channel = chimney_channel_film_coefficient(
            excess,
            self.gap,
            self.sheet_height,
            chimney_height=self.chimney_height,
            opening_loss=self.opening_loss,
            conductivity=air.conductivity,
            expansion_coefficient=air.expansion_coefficient,
            kinematic_viscosity=air.kinematic_viscosity,
            thermal_diffusivity=air.thermal_diffusivity,
        )
        dull = cavity_emissivity(self.emissivity, self.area_factor, 1.0)
        facing = parallel_plates_exchange_factor(dull, self.back_emissivity)
        before_wall = share_of_film(air, excess, self.wall_distance, self.sheet_height)
        return Faces(
            open_convection=self.area_factor * plate * before_wall,
            open_radiation=room_side_radiation(self, sheet, room, dull, facing),
            channel_convection=self.area_factor * channel,
            channel_radiation=to_warmed_wall(sheet, room, facing),
        )

    def outside(
        self, wall_temperature: FloatOrArray, room_temperature: FloatOrArray, pressure: FloatOrArray
    ) -> Outside:
        """From the tube's wall to the room; films at the sheet's mean, found in a few passes."""
        wall, room = lanes(wall_temperature), lanes(room_temperature)
        coming = room + self.air_rise
        surface = coming + 0.8 * excess_over(coming, wall)
        share = lanes(0.8)
        developed = self.run_pitch * self.area_factor
        for _ in range(FILM_PASSES):
            films = self.faces(surface, room, pressure)
            convection, radiation = self.kept * films.convection, self.kept * films.radiation
            both = convection + radiation
            sink = room + self.air_rise * convection / both
            conductance = tube_on_sheet_conductance(
                both / self.area_factor,
                developed,
                self.outside_diameter,
                self.sheet_conductivity,
                self.sheet_thickness,
                self.bond_conductance,
            )
            share = np.minimum(conductance / (both * self.run_pitch), 1.0)
            surface = coming + excess_over(coming, sink + share * (wall - sink))
        return Outside(
            conductance=conductance,
            sink_temperature=sink,
            convection_film=0.5 * convection,
            radiation_film=0.5 * radiation,
            area_per_length=2.0 * self.run_pitch,
            efficiency=sheet_between_tubes_efficiency(
                both / self.area_factor,
                self.sheet_conductivity,
                self.sheet_thickness,
                developed,
                self.outside_diameter,
            ),
            bond_resistance=1.0 / self.bond_conductance,
            surface_temperature=sink + share * (wall - sink),
        )
