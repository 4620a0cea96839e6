"""What a bare metal surface of known temperature takes from still air, clean and frosted.

A bench question: no brine, no refrigerant, no cabinet. The metal's temperature is given, frost
lies between it and the air, and the films are those of the frost's own surface.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Protocol

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.parts.cold_side.cold_surface import ColdSurface
from coldwright.parts.cold_side.surface_heat import SurfaceFilms
from coldwright.parts.cold_side.upright_fins import UprightFins
from coldwright.parts.cold_side.vessel_outside import finned_films, plain_films
from coldwright.parts.cold_side.vessel_shell import VesselShell
from coldwright.parts.conditions import STANDARD_PRESSURE
from coldwright.parts.settling import settle

SHEET_THICKNESS = 1e-3
"""Thickness [m] given to a sheet that stands as a shell: its edges take no part."""


class Outside(Protocol):
    """A surface with films: a plate, a bare tube or the outside of a vessel."""

    @property
    def surface(self) -> ColdSurface:
        """The skin."""

    def films(
        self,
        surface_temperature: FloatOrArray,
        air_temperature: FloatOrArray,
        liner_temperature: FloatOrArray,
        pressure: FloatOrArray = STANDARD_PRESSURE,
    ) -> SurfaceFilms:
        """Conductances to air and liner."""


@dataclass(frozen=True, kw_only=True)
class Shell:
    """The outside of a shell, with or without fins; what is inside does not matter here."""

    shell: VesselShell
    surface: ColdSurface
    fins: UprightFins | None = None

    def films(
        self,
        surface_temperature: FloatOrArray,
        air_temperature: FloatOrArray,
        liner_temperature: FloatOrArray,
        pressure: FloatOrArray = STANDARD_PRESSURE,
    ) -> SurfaceFilms:
        """Conductances [W/K] to air and liner; temperatures [K], the frost's for the surface."""
        seen = (surface_temperature, air_temperature, liner_temperature, pressure)
        if self.fins is None:
            return plain_films(self.shell, self.surface, *seen)
        return finned_films(self.shell, self.fins, self.surface, *seen)


@dataclass(frozen=True, kw_only=True)
class SheetShell(VesselShell):
    """An upright flat sheet as a shell whose side is one face or two: fins may stand on it."""

    faces: Array

    @classmethod
    def of(
        cls, width: FloatOrArray, height: FloatOrArray, faces: FloatOrArray, conductivity: float
    ) -> SheetShell:
        """Sheet of width and height [m] with `faces` (1 or 2) in the air."""
        none = lanes(0.0)
        return cls(
            form="flat",
            width=lanes(width),
            depth=lanes(SHEET_THICKNESS),
            height=lanes(height),
            wall_thickness=none,
            wall_conductivity=lanes(conductivity),
            wall_density=none,
            wall_specific_heat=none,
            top_exposed=none,
            bottom_exposed=none,
            faces=lanes(faces),
        )

    def perimeter(self, outward: FloatOrArray = 0.0) -> Array:
        """Width of the faces [m], wider by `outward` at both ends (the outermost slots)."""
        return lanes(self.faces * (self.width + 2.0 * lanes(outward)))


@dataclass(frozen=True)
class SurfaceAnswer:
    """What the surface takes; lanes as of the inputs.

    conductance: metal to air and liner, frost included [W/K]; heat, convection, radiation: into
    the metal [W], negative where it is the warmer; frost_surface_temperature [K];
    fin_efficiency: of the fins with their joint, 1 without fins [-]; films: at that state.
    """

    conductance: Array
    heat: Array
    convection: Array
    radiation: Array
    frost_surface_temperature: Array
    fin_efficiency: Array
    films: SurfaceFilms
    residual: Array


def surface_answer(
    outside: Outside,
    metal_temperature: FloatOrArray,
    air_temperature: FloatOrArray,
    liner_temperature: FloatOrArray,
    pressure: FloatOrArray = STANDARD_PRESSURE,
    *,
    frost_resistance: FloatOrArray | None = None,
    fins: UprightFins | None = None,
) -> SurfaceAnswer:
    """What `outside` takes when its metal stands at `metal_temperature` [K].

    The frost's surface is found where what comes in from outside passes through the frost;
    frost_resistance [K/W]: that of the films unless given (a part that keeps the frost inside its
    films is asked without, see `without_frost_resistance`). Latent heat is left out: frost that
    grows brings its own.
    """
    metal, air, liner = np.broadcast_arrays(
        lanes(metal_temperature), lanes(air_temperature), lanes(liner_temperature)
    )

    def resistance_of(films: SurfaceFilms) -> Array:
        return films.frost_resistance if frost_resistance is None else lanes(frost_resistance)

    def step(state: Array) -> Array:
        films = outside.films(state[0], air, liner, pressure)
        to_air, to_liner = films.convective_conductance, films.radiative_conductance
        frost = resistance_of(films)
        gained = to_air * air + to_liner * liner
        return lanes([(metal + frost * gained) / (1.0 + frost * (to_air + to_liner))])

    skin = settle(step, step(lanes([metal])))[0]
    films = outside.films(skin, air, liner, pressure)
    convection = films.convective_conductance * (air - skin)
    radiation = films.radiative_conductance * (liner - skin)
    both = films.convective_conductance + films.radiative_conductance
    frost = resistance_of(films)
    return SurfaceAnswer(
        conductance=lanes(1.0 / (1.0 / both + frost)),
        heat=lanes(convection + radiation),
        convection=lanes(convection),
        radiation=lanes(radiation),
        frost_surface_temperature=lanes(skin),
        fin_efficiency=fins_alone(films, fins),
        films=films,
        residual=lanes(np.abs(skin - metal - frost * (convection + radiation))),
    )


def fins_alone(films: SurfaceFilms, fins: UprightFins | None) -> Array:
    """Efficiency of the fins with their joint, out of that of the whole surface; 1 without."""
    if fins is None:
        return lanes(np.ones_like(films.fin_efficiency))
    fin_area = fins.count * fins.area_of_one
    missing = (1.0 - films.fin_efficiency) * films.outside_area
    some = fin_area > 0.0
    return lanes(1.0 - np.where(some, missing, 0.0) / np.where(some, fin_area, 1.0))


def without_frost_resistance(surface: ColdSurface) -> ColdSurface:
    """The same skin, its frost as thick and as dull, conducting without resistance.

    For a part (plate, bare tube) that counts its frost inside its films.
    """
    return replace(surface, frost_conductivity=lanes(np.inf))
