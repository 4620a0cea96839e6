"""A cold plate: refrigerant tube bonded on a sheet that stands or lies in the air."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.heat.fins import tube_on_sheet_conductance
from coldwright.parts.cold_side.air_source import AirSourced
from coldwright.parts.cold_side.cold_surface import unity
from coldwright.parts.cold_side.films import (
    air_at_film,
    lying_plate_films,
    share_before_wall,
    upright_plate_film,
)
from coldwright.parts.cold_side.surface_heat import SurfaceFilms
from coldwright.parts.conditions import STANDARD_PRESSURE

SHEET_PASSES = 5

Stance = Literal["upright", "lying"]


def _open_gap() -> Array:
    """Gap [m] so wide that the rear face convects like the front."""
    return lanes(1.0)


@dataclass(frozen=True, kw_only=True)
class Plate(AirSourced):
    """Cold plate, arrays over lanes: sheet (width, height, thickness [m]), tube, bond, skin.

    stance: `upright` (height is its upright length) or `lying` (a shelf or ceiling plate, height is
    its depth; the lower face is the front). The tube covers the whole sheet evenly, so the pitch of
    its runs is sheet area over tube length. bond_conductance: tube to sheet [W/mK].
    rear_exposed: 1 when the rear face meets the air, 0 when it lies on a wall; rear_gap [m]: clear
    space behind an upright plate (the channel narrows its rear film).
    """

    width: Array
    height: Array
    thickness: Array
    conductivity: Array
    density: Array
    specific_heat: Array
    bond_conductance: Array
    stance: Stance = "upright"
    rear_exposed: Array = field(default_factory=unity)
    rear_gap: Array = field(default_factory=_open_gap)

    @property
    def sheet_area(self) -> Array:
        """Area of one face [m2]."""
        return lanes(self.width * self.height)

    @property
    def pitch(self) -> Array:
        """Mean distance between neighbouring runs of tube [m]."""
        return lanes(self.sheet_area / self.tube.length)

    @property
    def heat_capacity(self) -> Array:
        """Heat capacity of sheet and tube [J/K]."""
        sheet = self.sheet_area * self.thickness * self.density * self.specific_heat
        return lanes(sheet + self.tube.heat_capacity)

    def _convection(
        self,
        sheet_temperature: FloatOrArray,
        air_temperature: FloatOrArray,
        pressure: FloatOrArray,
    ) -> Array:
        """Sum of both faces' convection films [W/m2K], on the area of one face."""
        air = air_at_film(sheet_temperature, air_temperature, pressure)
        difference = lanes(lanes(sheet_temperature) - air_temperature)
        if self.stance == "upright":
            front = upright_plate_film(air, difference, self.height)
            kept = share_before_wall(air, difference, self.rear_gap, self.height)
            return lanes(front * (1.0 + self.rear_exposed * kept))
        length = self.sheet_area / (2.0 * (self.width + self.height))
        driving, holding = lying_plate_films(air, difference, length)
        cold = difference < 0.0
        lower, upper = np.where(cold, driving, holding), np.where(cold, holding, driving)
        return lanes(lower + self.rear_exposed * upper)

    def films(
        self,
        surface_temperature: FloatOrArray,
        air_temperature: FloatOrArray,
        liner_temperature: FloatOrArray,
        pressure: FloatOrArray = STANDARD_PRESSURE,
    ) -> SurfaceFilms:
        """Conductances [W/K] from the sheet (below its frost) to air and liner; temperatures [K].

        surface_temperature: mean of the sheet. Frost acts on both ways alike.
        """
        area = lanes(self.sheet_area * (1.0 + self.rear_exposed))
        convection = self._convection(surface_temperature, air_temperature, pressure)
        convection = convection * self.sheet_area
        radiation = area * self.surface.radiation_film(
            surface_temperature, liner_temperature, self.surface.seen_emissivity, area
        )
        frost = self.surface.frost_resistance(area)
        passed = self.surface.film_multiplier / (1.0 + frost * (convection + radiation))
        return SurfaceFilms(
            convective_conductance=lanes(convection * passed),
            radiative_conductance=lanes(radiation * passed),
            outside_area=area,
            fin_efficiency=lanes(np.ones_like(area)),
            frost_resistance=frost,
        )

    def outer_conductance_per_length(
        self,
        source_temperature: FloatOrArray,
        tube_wall_temperature: FloatOrArray,
        pressure: FloatOrArray | None = None,
    ) -> Array:
        """Conductance [W/mK] per metre from the tube's outside wall to the compartment.

        source_temperature [K]: effective one of the compartment, air and liner weighted by their
        conductances; pressure [Pa]: that of `surface` unless given. Bond, sheet as fin
        between runs and both films in series; the films stand at the sheet's mean temperature,
        found in a few passes.
        """
        air_pressure = self.surface.air_pressure if pressure is None else pressure
        source, wall = np.broadcast_arrays(lanes(source_temperature), lanes(tube_wall_temperature))
        sheet = lanes(0.8 * wall + 0.2 * source)
        conductance = lanes(np.zeros_like(sheet))
        for _ in range(SHEET_PASSES):
            films = self.films(sheet, source, source, air_pressure)
            both = films.convective_conductance + films.radiative_conductance
            loss = both / self.sheet_area
            conductance = tube_on_sheet_conductance(
                loss,
                self.pitch,
                self.tube.outside_diameter,
                self.conductivity,
                self.thickness,
                self.bond_conductance,
            )
            sheet = lanes(source - conductance * (source - wall) / (loss * self.pitch))
        return conductance
