"""The body of a brine vessel: a drum, a flat box or a measured shape, and the fins on it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.film_properties import FilmProperties
from coldwright.parts.cold_side.cold_surface import nothing
from coldwright.parts.cold_side.films import upright_cylinder_film, upright_plate_film
from coldwright.parts.cold_side.upright_fins import FinnedSide, UprightFins

Form = Literal["round", "flat", "measured"]


@dataclass(frozen=True, kw_only=True)
class VesselShell:
    """The vessel's body by its outside sizes [m], one value per lane.

    form: `round` (width is the diameter, depth is not used), `flat` (a box) or `measured` (width
    and depth are not used). Wall: thickness [m], conductivity [W/mK], density [kg/m3], specific
    heat [J/kgK]. top_exposed, bottom_exposed: share of lid and floor that air reaches (0 standing
    on a shelf or under a wooden lid, 1 free).

    A `measured` body is any closed shape whose whole outside has measured_area [m2] and encloses
    measured_volume [m3]. Which part of it lies flat is not known, so all of it counts as upright
    side of that height (leave both `exposed` at 0): its perimeter is area over height, its
    cross-section volume over height, and the wall takes area times thickness off the inside, which
    holds for a wall that is thin beside the body.
    """

    form: Form
    width: Array
    depth: Array
    height: Array
    wall_thickness: Array
    wall_conductivity: Array
    wall_density: Array
    wall_specific_heat: Array
    top_exposed: Array
    bottom_exposed: Array
    measured_area: Array = field(default_factory=nothing)
    measured_volume: Array = field(default_factory=nothing)

    def perimeter(self, outward: FloatOrArray = 0.0) -> Array:
        """Perimeter [m] of the side, or of a line `outward` [m] of it (negative: inside)."""
        if self.form == "round":
            return lanes(np.pi * (self.width + 2.0 * lanes(outward)))
        if self.form == "measured":  # any outline without corners grows by 2 pi times the distance
            return lanes(self.measured_area / self.height + 2.0 * np.pi * lanes(outward))
        return lanes(2.0 * (self.width + self.depth) + 8.0 * lanes(outward))

    def cross_section(self, outward: FloatOrArray = 0.0) -> Array:
        """Area [m2] of the lid, or of the inside with a negative `outward` [m]."""
        if self.form == "measured":
            volume = self.measured_volume + self.measured_area * lanes(outward)
            return lanes(volume / (self.height + 2.0 * lanes(outward)))
        width = self.width + 2.0 * lanes(outward)
        if self.form == "round":
            return lanes(np.pi / 4.0 * width**2)
        return lanes(width * (self.depth + 2.0 * lanes(outward)))

    @property
    def lid_length(self) -> Array:
        """Characteristic length of lid and floor, area over perimeter [m]."""
        return lanes(self.cross_section() / self.perimeter())

    @property
    def inside_height(self) -> Array:
        """Height between floor and lid [m]."""
        return lanes(self.height - 2.0 * self.wall_thickness)

    @property
    def inside_volume(self) -> Array:
        """Volume inside, empty [m3]."""
        return lanes(self.cross_section(-self.wall_thickness) * self.inside_height)

    @property
    def mass(self) -> Array:
        """Mass of side, floor and lid [kg]."""
        metal = self.cross_section() * self.height - self.inside_volume
        return lanes(metal * self.wall_density)

    @property
    def heat_capacity(self) -> Array:
        """Heat capacity of side, floor and lid [J/K]."""
        return lanes(self.mass * self.wall_specific_heat)

    def side_film(self, air: FilmProperties, difference: FloatOrArray) -> Array:
        """Convection on the bare side [W/m2K]; difference: surface less air [K]."""
        if self.form == "round":
            return upright_cylinder_film(air, difference, self.height, self.width)
        return upright_plate_film(air, difference, self.height)

    def finned_side(
        self, fins: UprightFins, frost_thickness: FloatOrArray
    ) -> tuple[FinnedSide, Array]:
        """The band of the side that carries the fins, and the bare area [m2] left beside it."""
        perimeter = self.perimeter()
        # on a flat vessel fins stand square to each side, so none reaches into the corners
        envelope = self.perimeter(fins.projection)
        middle = perimeter if self.form == "flat" else envelope
        side = FinnedSide.around(fins, perimeter, middle, envelope, lanes(frost_thickness))
        return side, lanes(perimeter * np.maximum(self.height - fins.length, 0.0))
