"""The outside of a vessel: convection and radiation of its side, fins, lid and floor."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.film_properties import FilmProperties
from coldwright.parts.cold_side.cold_surface import ColdSurface
from coldwright.parts.cold_side.films import air_at_film, lying_plate_films
from coldwright.parts.cold_side.surface_heat import SurfaceFilms
from coldwright.parts.cold_side.upright_fins import UprightFins
from coldwright.parts.cold_side.vessel_shell import VesselShell


def lid_and_floor(
    shell: VesselShell, air: FilmProperties, difference: Array
) -> tuple[Array, Array]:
    """Convective conductance [W/K] and area [m2] of the exposed lid and floor.

    Colder than the air, the lid holds its air and the floor drives it away; warmer, the reverse.
    """
    driving, holding = lying_plate_films(air, difference, shell.lid_length)
    cold = difference < 0.0
    lid, floor = np.where(cold, holding, driving), np.where(cold, driving, holding)
    one = shell.cross_section()
    conductance = one * (shell.top_exposed * lid + shell.bottom_exposed * floor)
    return lanes(conductance), lanes(one * (shell.top_exposed + shell.bottom_exposed))


def _gathered(
    surface: ColdSurface, convection: Array, radiation: Array, area: Array, efficiency: Array
) -> SurfaceFilms:
    return SurfaceFilms(
        convective_conductance=lanes(convection * surface.film_multiplier),
        radiative_conductance=lanes(radiation * surface.film_multiplier),
        outside_area=area,
        fin_efficiency=efficiency,
        frost_resistance=surface.frost_resistance(area * efficiency),
    )


def plain_films(
    shell: VesselShell,
    surface: ColdSurface,
    surface_temperature: FloatOrArray,
    air_temperature: FloatOrArray,
    liner_temperature: FloatOrArray,
    pressure: FloatOrArray,
) -> SurfaceFilms:
    """Films of a vessel without fins; temperatures [K], pressure [Pa]."""
    air = air_at_film(surface_temperature, air_temperature, pressure)
    difference = lanes(lanes(surface_temperature) - air_temperature)
    ends, ends_area = lid_and_floor(shell, air, difference)
    side_area = shell.perimeter() * shell.height
    area = lanes(side_area + ends_area)
    radiation = area * surface.radiation_film(
        surface_temperature, liner_temperature, surface.seen_emissivity, area
    )
    convection = lanes(shell.side_film(air, difference) * side_area + ends)
    return _gathered(surface, convection, radiation, area, lanes(np.ones_like(area)))


def finned_films(
    shell: VesselShell,
    fins: UprightFins,
    surface: ColdSurface,
    surface_temperature: FloatOrArray,
    air_temperature: FloatOrArray,
    liner_temperature: FloatOrArray,
    pressure: FloatOrArray,
) -> SurfaceFilms:
    """Films of a vessel with upright fins; temperatures [K], pressure [Pa].

    Air between the fins by the channel formula; radiation by the mouths of the slots, with the
    apparent emissivity of a cavity; fin efficiency and bond act on both.
    """
    air = air_at_film(surface_temperature, air_temperature, pressure)
    difference = lanes(lanes(surface_temperature) - air_temperature)
    ends, ends_area = lid_and_floor(shell, air, difference)
    side, bare_area = shell.finned_side(fins, surface.frost_thickness)
    plain_area = lanes(bare_area + ends_area)

    emissivity = surface.seen_emissivity
    mouth_emissivity = side.mouth_emissivity(emissivity)
    screen = lanes(plain_area + side.mouth_area)
    mean = (plain_area * emissivity + side.mouth_area * mouth_emissivity) / screen
    film = surface.radiation_film(surface_temperature, liner_temperature, mean, screen)
    # each part's share of the radiation is as its emissivity times its area
    on_mouths = film * mouth_emissivity / mean * side.mouth_area

    channel = side.film(air, difference)
    fin = fins.bonded_efficiency(channel + on_mouths / side.wetted_area)
    counted = lanes(side.base_area + fin * side.fin_area)
    convection = lanes(shell.side_film(air, difference) * bare_area + ends + channel * counted)
    radiation = lanes(film * screen - on_mouths * (1.0 - counted / side.wetted_area))
    area = lanes(plain_area + side.wetted_area)
    return _gathered(surface, convection, radiation, area, lanes((plain_area + counted) / area))
