"""A bare tube in the air: lying runs of refrigerant tube without sheet or fins."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.parts.cold_side.air_source import AirSourced
from coldwright.parts.cold_side.films import air_at_film, lying_cylinder_film
from coldwright.parts.cold_side.surface_heat import SurfaceFilms
from coldwright.parts.conditions import STANDARD_PRESSURE


@dataclass(frozen=True, kw_only=True)
class BareTube(AirSourced):
    """Bare evaporator tube: lying runs far enough apart (three diameters) to count as single ones.

    Runs close above each other stand in each other's fallen air and screen each other's radiation:
    lower the film multiplier of `surface` then.
    """

    @property
    def heat_capacity(self) -> Array:
        """Heat capacity of the tube [J/K]."""
        return self.tube.heat_capacity

    @property
    def frosted_diameter(self) -> Array:
        """Outside diameter over the frost [m]."""
        return lanes(self.tube.outside_diameter + 2.0 * self.surface.frost_thickness)

    @property
    def frost_resistance_per_length(self) -> Array:
        """Resistance of the frost for a metre of tube [m K/W]."""
        ratio = self.frosted_diameter / self.tube.outside_diameter
        return lanes(np.log(ratio) / (2.0 * np.pi * self.surface.frost_conductivity))

    def films(
        self,
        surface_temperature: FloatOrArray,
        air_temperature: FloatOrArray,
        liner_temperature: FloatOrArray,
        pressure: FloatOrArray = STANDARD_PRESSURE,
    ) -> SurfaceFilms:
        """Conductances [W/K] from the tube's wall (below its frost) to air and liner.

        Frost acts on both ways alike; temperatures [K].
        """
        diameter = self.frosted_diameter
        area = lanes(np.pi * diameter * self.tube.length)
        air = air_at_film(surface_temperature, air_temperature, pressure)
        difference = lanes(surface_temperature) - air_temperature
        convection = area * lying_cylinder_film(air, difference, diameter)
        radiation = area * self.surface.radiation_film(
            surface_temperature, liner_temperature, self.surface.seen_emissivity, area
        )
        frost = lanes(self.frost_resistance_per_length / self.tube.length)
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
        conductances; pressure [Pa]: that of `surface` unless given. Horizontal cylinder
        (Churchill and Chu 1975) and radiation.
        """
        air_pressure = self.surface.air_pressure if pressure is None else pressure
        films = self.films(
            tube_wall_temperature, source_temperature, source_temperature, air_pressure
        )
        both = films.convective_conductance + films.radiative_conductance
        return lanes(both / self.tube.length)
