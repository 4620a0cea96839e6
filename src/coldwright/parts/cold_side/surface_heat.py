"""What a cold side answers: the films on its surface, the way to its source, the heat it takes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.parts.cold_side.cold_surface import ColdSurface
from coldwright.parts.cold_side.tube import EvaporatorTube
from coldwright.parts.conditions import STANDARD_PRESSURE
from coldwright.parts.settling import settle


@dataclass(frozen=True)
class SurfaceFilms:
    """Conductances [W/K] from the cold surface to the compartment's air and to the liner.

    Fin efficiency and bond are inside them. outside_area: all area that air touches [m2];
    fin_efficiency: of that area as a whole with its bonds, 1 without fins; frost_resistance:
    of the frost below the surface [K/W].
    """

    convective_conductance: Array
    radiative_conductance: Array
    outside_area: Array
    fin_efficiency: Array
    frost_resistance: Array

    @property
    def film_coefficient(self) -> Array:
        """Mean coefficient of convection [W/m2K] over the area that counts."""
        return self.convective_conductance / (self.outside_area * self.fin_efficiency)

    @property
    def radiation_share(self) -> Array:
        """Radiation's share of the two conductances [-]."""
        both = self.convective_conductance + self.radiative_conductance
        return self.radiative_conductance / both


@dataclass(frozen=True)
class SourceLink:
    """Resistance [K/W] from cold surface to source, and how much of it is the source's own film.

    surface - source = resistance * heat, inner surface - source = film_resistance * heat. Where
    the source IS the compartment (plate, bare tube), surface - source is negative, and so is
    the resistance: the surface lies colder than the source by heat / (both conductances).
    """

    resistance: Array
    film_resistance: Array
    steps: Mapping[str, Array]


@dataclass(frozen=True)
class SurfaceHeat:
    """Heat into the cold surface [W], how it came, and what stood in its way [K/W by step]."""

    heat_W: Array
    convective_heat_W: Array
    radiative_heat_W: Array
    latent_heat_W: Array
    surface_temperature: Array
    inner_surface_temperature: Array
    films: SurfaceFilms
    resistances: Mapping[str, Array]
    residual: Array

    @property
    def film_coefficient(self) -> Array:
        """Mean coefficient of outside convection [W/m2K]."""
        return self.films.film_coefficient

    @property
    def radiation_share(self) -> Array:
        """Radiation's share of the outside conductance [-]."""
        return self.films.radiation_share

    @property
    def fin_efficiency(self) -> Array:
        """Efficiency of the outside surface as a whole, bonds included [-]."""
        return self.films.fin_efficiency


class ColdSide(Protocol):
    """What the box, the balance and the clock ask of any cold side."""

    @property
    def source_is_air(self) -> bool:
        """Whether the source is the compartment itself (plate, bare tube), not a brine."""

    @property
    def tube(self) -> EvaporatorTube:
        """The refrigerant's tube."""

    @property
    def surface(self) -> ColdSurface:
        """The skin that air and liner see."""

    @property
    def heat_capacity(self) -> Array:
        """Heat capacity of metal, brine and filler [J/K]."""

    def outer_conductance_per_length(
        self,
        source_temperature: FloatOrArray,
        tube_wall_temperature: FloatOrArray,
        pressure: FloatOrArray | None = None,
    ) -> Array:
        """Conductance [W/mK] from the tube's outside wall to the source, per metre of tube."""

    def films(
        self,
        surface_temperature: FloatOrArray,
        air_temperature: FloatOrArray,
        liner_temperature: FloatOrArray,
        pressure: FloatOrArray = STANDARD_PRESSURE,
    ) -> SurfaceFilms:
        """Conductances on the outside at these temperatures."""

    def source_link(
        self,
        source_temperature: FloatOrArray,
        inner_surface_temperature: FloatOrArray,
        films: SurfaceFilms,
    ) -> SourceLink:
        """Resistance from surface to source at these temperatures."""

    def surface_heat(
        self,
        source_temperature: FloatOrArray,
        compartment_air_temperature: FloatOrArray,
        liner_temperature: FloatOrArray,
        pressure: FloatOrArray = STANDARD_PRESSURE,
        *,
        latent_heat: FloatOrArray = 0.0,
    ) -> SurfaceHeat:
        """Heat from compartment air and liner into the source."""


def heat_at(
    films: SurfaceFilms,
    link: SourceLink,
    temperatures: tuple[Array, Array, Array, Array],
    latent_heat: FloatOrArray,
    passed_on: Array | None,
) -> SurfaceHeat:
    """Gather a `SurfaceHeat` from known (surface, inner surface, air, liner) temperatures.

    passed_on: heat that reaches the source by its own resistances, for the residual; None where
    nothing lies between.
    """
    surface, inner, air, liner = temperatures
    convective = films.convective_conductance * (air - surface)
    radiative = films.radiative_conductance * (liner - surface)
    steps = {
        "convection to air": 1.0 / films.convective_conductance,
        # an infinite resistance is no finite number to show: a polished surface stays below it
        "radiation to liner": 1.0 / np.maximum(films.radiative_conductance, 1e-12),
        **link.steps,
    }
    heat = lanes(convective + radiative + latent_heat)
    return SurfaceHeat(
        heat_W=heat,
        convective_heat_W=lanes(convective),
        radiative_heat_W=lanes(radiative),
        latent_heat_W=lanes(latent_heat + np.zeros_like(convective)),
        surface_temperature=lanes(surface),
        inner_surface_temperature=lanes(inner),
        films=films,
        resistances=steps,
        residual=relative_residual(heat, heat if passed_on is None else passed_on),
    )


def settled_surface_heat(
    cold_side: ColdSide,
    source_temperature: FloatOrArray,
    compartment_air_temperature: FloatOrArray,
    liner_temperature: FloatOrArray,
    pressure: FloatOrArray,
    latent_heat: FloatOrArray,
) -> SurfaceHeat:
    """Find the surface temperature at which what comes in from outside passes on to the source.

    For a cold side with a resistance of its own (vessel). residual: of the heat, relative.
    """
    source, air, liner, latent = np.broadcast_arrays(
        lanes(source_temperature),
        lanes(compartment_air_temperature),
        lanes(liner_temperature),
        lanes(latent_heat),
    )

    def step(state: Array) -> Array:
        films = cold_side.films(state[0], air, liner, pressure)
        link = cold_side.source_link(source, state[1], films)
        gained = films.convective_conductance * air + films.radiative_conductance * liner + latent
        both = films.convective_conductance + films.radiative_conductance
        surface = (source + link.resistance * gained) / (1.0 + link.resistance * both)
        inner = source + link.film_resistance * (gained - both * surface)
        return np.stack(np.broadcast_arrays(surface, inner))

    rows = np.broadcast_arrays(source + 0.3 * (air - source), source + 0.1 * (air - source))
    start = step(np.stack(rows))  # takes on the lanes of the cold side as well
    state = settle(step, start)
    films = cold_side.films(state[0], air, liner, pressure)
    link = cold_side.source_link(source, state[1], films)
    passed_on = lanes((state[0] - source) / link.resistance)
    return heat_at(films, link, (state[0], state[1], air, liner), latent, passed_on)


def heat_of_surface(
    cold_side: ColdSide,
    surface_temperature: FloatOrArray,
    compartment_air_temperature: FloatOrArray,
    liner_temperature: FloatOrArray,
    pressure: FloatOrArray,
    latent_heat: FloatOrArray,
) -> SurfaceHeat:
    """Heat into a surface of known temperature: cold sides without a resistance of their own."""
    surface, air, liner = np.broadcast_arrays(
        lanes(surface_temperature), lanes(compartment_air_temperature), lanes(liner_temperature)
    )
    films = cold_side.films(surface, air, liner, pressure)
    link = cold_side.source_link(surface, surface, films)
    return heat_at(films, link, (surface, surface, air, liner), latent_heat, None)


def compartment_link(films: SurfaceFilms) -> SourceLink:
    """Link of a cold side whose source is the compartment that it cools."""
    resistance = lanes(-1.0 / (films.convective_conductance + films.radiative_conductance))
    return SourceLink(resistance, resistance, {"frost": films.frost_resistance})


def relative_residual(first: Array, second: Array) -> Array:
    """Difference of two heats that ought to be equal, over their size (at least 1 mW)."""
    size = np.maximum(np.maximum(np.abs(first), np.abs(second)), 1e-3)
    return lanes(np.abs(first - second) / size)
