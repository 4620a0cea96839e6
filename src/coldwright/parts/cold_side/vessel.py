"""A vessel of brine around an immersed coil: the coil cools the brine, the vessel cools the air."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.brines import FILLING_TEMPERATURE, Brine
from coldwright.parts.cold_side.cold_surface import ColdSurface, nothing, unity
from coldwright.parts.cold_side.films import (
    film_temperature,
    helical_coil_film,
    lying_cylinder_film,
    lying_plate_films,
    upright_plate_film,
)
from coldwright.parts.cold_side.surface_heat import (
    SourceLink,
    SurfaceFilms,
    SurfaceHeat,
    settled_surface_heat,
)
from coldwright.parts.cold_side.tube import EvaporatorTube
from coldwright.parts.cold_side.upright_fins import UprightFins
from coldwright.parts.cold_side.vessel_outside import finned_films, plain_films
from coldwright.parts.cold_side.vessel_shell import VesselShell
from coldwright.parts.conditions import STANDARD_PRESSURE

CAPACITY_TEMPERATURE = 275.15
"""Temperature [K] at which the brine's specific heat is taken: every brine is liquid."""

LEAST_LEVEL = 0.005
"""Brine level [m] below which a vessel counts as filled this high: an empty one cools nothing."""

CoilForm = Literal["helix", "serpentine"]


@dataclass(frozen=True, kw_only=True)
class Vessel:
    """Brine vessel: shell, brine, coil, fins, skin, filler; arrays over lanes.

    headspace: air above the brine [m]; filler: a body that displaces brine (volume [m3], density,
    specific heat); immersed_fraction: share of the tube below the brine level; fins: None without.
    Multipliers correct a film by what a bench shows (1: as computed): inside (brine on the wall)
    and coil (brine on the coil); the outside one is in `surface`.

    Brine is taken as mixed (one temperature) and its films as those of open liquid: in a narrow gap
    beside a filler, below some 20 mm, they are too high and the inside multiplier should be
    lowered; no trustworthy correlation for a tall annulus around a filler was found.
    """

    shell: VesselShell
    brine: Brine
    tube: EvaporatorTube
    surface: ColdSurface
    headspace: Array
    coil_form: CoilForm = "helix"
    fins: UprightFins | None = None
    immersed_fraction: Array = field(default_factory=unity)
    filler_volume: Array = field(default_factory=nothing)
    filler_density: Array = field(default_factory=nothing)
    filler_specific_heat: Array = field(default_factory=nothing)
    inside_film_multiplier: Array = field(default_factory=unity)
    coil_film_multiplier: Array = field(default_factory=unity)

    @property
    def source_is_air(self) -> bool:
        """The source is the brine, not the compartment's air."""
        return False

    @property
    def level(self) -> Array:
        """Height of the brine above the floor [m]."""
        return lanes(np.maximum(self.shell.inside_height - self.headspace, LEAST_LEVEL))

    @property
    def headspace_volume(self) -> Array:
        """Free volume above the brine [m3]."""
        clear = np.maximum(self.shell.inside_height - self.level, 0.0)
        return lanes(self.shell.cross_section(-self.shell.wall_thickness) * clear)

    @property
    def brine_volume(self) -> Array:
        """Volume of brine [m3]: below the level, without filler and coil."""
        below = self.shell.cross_section(-self.shell.wall_thickness) * self.level
        displaced = self.filler_volume + self.tube.displaced_volume * self.immersed_fraction
        return lanes(np.maximum(below - displaced, 0.0))

    @property
    def brine_mass(self) -> Array:
        """Mass of brine [kg], filled to the level at 20 °C."""
        return lanes(self.brine_volume * self.brine.density(FILLING_TEMPERATURE))

    @property
    def dry_mass_by_part(self) -> dict[str, Array]:
        """Mass [kg] of everything but the brine: shell, fins, tube, filler."""
        return {
            "shell": self.shell.mass,
            "fins": lanes(0.0) if self.fins is None else lanes(self.fins.mass),
            "tube": lanes(self.tube.mass),
            "filler": lanes(self.filler_volume * self.filler_density),
        }

    @property
    def heat_capacity(self) -> Array:
        """Heat capacity of brine, shell, filler, coil and fins [J/K]."""
        brine = self.brine_mass * self.brine.specific_heat(CAPACITY_TEMPERATURE)
        filler = self.filler_volume * self.filler_density * self.filler_specific_heat
        fins = lanes(0.0) if self.fins is None else self.fins.heat_capacity
        return lanes(brine + filler + fins + self.shell.heat_capacity + self.tube.heat_capacity)

    def outer_conductance_per_length(
        self,
        source_temperature: FloatOrArray,
        tube_wall_temperature: FloatOrArray,
        pressure: FloatOrArray | None = None,
    ) -> Array:
        """Conductance [W/mK] per metre of immersed tube, from its outside wall to the brine.

        Temperatures of brine and tube wall [K], the wall's below the brine's or above it; pressure
        is not used. Free convection on a helix (Xin and Ebadian 1996) or on lying runs (Churchill
        and Chu 1975), brine at the mean temperature.
        """
        del pressure
        brine = self.brine.properties(film_temperature(tube_wall_temperature, source_temperature))
        difference = lanes(tube_wall_temperature) - source_temperature
        diameter = self.tube.outside_diameter
        film = helical_coil_film if self.coil_form == "helix" else lying_cylinder_film
        coefficient = film(brine, difference, diameter) * self.coil_film_multiplier
        return lanes(np.pi * diameter * coefficient)

    def films(
        self,
        surface_temperature: FloatOrArray,
        air_temperature: FloatOrArray,
        liner_temperature: FloatOrArray,
        pressure: FloatOrArray = STANDARD_PRESSURE,
    ) -> SurfaceFilms:
        """Conductances to air and liner; temperatures [K], the surface's that of the frost if any.

        Side: vertical cylinder or plate; fins: channels open below and above; lid and floor:
        horizontal plates; radiation: two-surface enclosure.
        """
        if self.fins is None:
            return plain_films(
                self.shell,
                self.surface,
                surface_temperature,
                air_temperature,
                liner_temperature,
                pressure,
            )
        return finned_films(
            self.shell,
            self.fins,
            self.surface,
            surface_temperature,
            air_temperature,
            liner_temperature,
            pressure,
        )

    def source_link(
        self,
        source_temperature: FloatOrArray,
        inner_surface_temperature: FloatOrArray,
        films: SurfaceFilms,
    ) -> SourceLink:
        """Resistances [K/W] of frost, wall and brine film, from surface to brine.

        Side up to the level and floor; the lid is not wetted, its heat comes down the wall (taken
        as without loss). The wall counts where it is wetted.
        """
        shell = self.shell
        inside = self.inside_conductance(source_temperature, inner_surface_temperature)
        film = 1.0 / (self.inside_film_multiplier * inside)
        wall = shell.wall_thickness / (shell.wall_conductivity * sum(self.wetted_areas))
        return SourceLink(
            resistance=lanes(film + wall + films.frost_resistance),
            film_resistance=lanes(film),
            steps={
                "frost": films.frost_resistance,
                "vessel wall": lanes(wall),
                f"{self.inside_name} on the wall": lanes(film),
            },
        )

    @property
    def inside_name(self) -> str:
        """What wets the wall, for the name of its resistance."""
        return "brine"

    @property
    def wetted_areas(self) -> tuple[Array, Array]:
        """Inside of the side up to the level and of the floor that counts [m2]."""
        inward = -self.shell.wall_thickness
        side = self.shell.perimeter(inward) * self.level
        return lanes(side), lanes(self.shell.cross_section(inward) * self.shell.bottom_exposed)

    def inside_conductance(
        self, source_temperature: FloatOrArray, inner_surface_temperature: FloatOrArray
    ) -> Array:
        """Conductance [W/K] from the wetted wall to the brine by free convection."""
        shell = self.shell
        brine = self.brine.properties(
            film_temperature(inner_surface_temperature, source_temperature)
        )
        difference = lanes(inner_surface_temperature) - source_temperature
        inward = -shell.wall_thickness
        side_area, floor_area = self.wetted_areas
        length = shell.cross_section(inward) / shell.perimeter(inward)
        driving, holding = lying_plate_films(brine, difference, length)
        # a floor that makes the brine above it lighter drives it (water below 4 C: the reverse)
        floor = np.where(difference * brine.expansion_coefficient > 0.0, driving, holding)
        side = upright_plate_film(brine, difference, self.level)
        return lanes(side * side_area + floor * floor_area)

    def surface_heat(
        self,
        source_temperature: FloatOrArray,
        compartment_air_temperature: FloatOrArray,
        liner_temperature: FloatOrArray,
        pressure: FloatOrArray = STANDARD_PRESSURE,
        *,
        latent_heat: FloatOrArray = 0.0,
    ) -> SurfaceHeat:
        """Heat [W] from compartment air and liner into the brine, its surface temperature found.

        Temperatures [K]; latent_heat [W] of moisture that settles on the surface is added to what
        passes through the wall. Negative where the brine is the warmer.
        """
        return settled_surface_heat(
            self,
            source_temperature,
            compartment_air_temperature,
            liner_temperature,
            pressure,
            latent_heat,
        )
