"""Radiation between grey diffuse surfaces, as a film coefficient beside that of the air."""

from __future__ import annotations

from coldwright.arrays import Array, FloatOrArray, lanes

STEFAN_BOLTZMANN = 5.670374419e-8
"""Stefan-Boltzmann constant [W/m2K4], CODATA 2018 (exact in the present SI)."""


def radiation_film_coefficient(
    surface_temperature: FloatOrArray,
    surroundings_temperature: FloatOrArray,
    exchange_factor: FloatOrArray,
) -> Array:
    """Film coefficient [W/m2K] which, times T1 - T2, is the exact net radiation.

    h = F sigma (T1^2 + T2^2) (T1 + T2)

    Temperatures [K] > 0; exchange_factor F: 0 to 1, on the surface's area. Regular at T1 = T2,
    where it is 4 F sigma T^3 (5.7 at 20 C and 4.6 at 0 C with F = 1).
    Source: Stefan-Boltzmann law, an identity of T1^4 - T2^4.
    """
    surface, around = lanes(surface_temperature), lanes(surroundings_temperature)
    factor = lanes(exchange_factor) * STEFAN_BOLTZMANN
    return lanes(factor * (surface**2 + around**2) * (surface + around))


def enclosure_exchange_factor(
    emissivity: FloatOrArray,
    area: FloatOrArray,
    surroundings_emissivity: FloatOrArray,
    surroundings_area: FloatOrArray,
) -> Array:
    """Exchange factor of a convex surface wholly enclosed by another, on the inner area.

    F = 1 / [1/e1 + (A1/A2) (1/e2 - 1)]

    Emissivities 0 to 1, not both 0; areas [m2] > 0. It tends to e1 in a large room.
    Holds for one surface that does not see itself (concentric boxes, cylinders, a plate in a
    liner), both grey and diffuse. Source: Hottel; any heat transfer text (two-surface enclosure).
    """
    inner, outer = lanes(emissivity), lanes(surroundings_emissivity)
    share = lanes(area) / surroundings_area
    return lanes(inner * outer / (outer + share * inner * (1.0 - outer)))


def parallel_plates_exchange_factor(
    emissivity: FloatOrArray, facing_emissivity: FloatOrArray
) -> Array:
    """Exchange factor of two large parallel faces, 1 / (1/e1 + 1/e2 - 1).

    Emissivities 0 to 1, not both 0. For a gap small beside the faces. Source: as
    `enclosure_exchange_factor` with equal areas.
    """
    return enclosure_exchange_factor(emissivity, 1.0, facing_emissivity, 1.0)


def cavity_emissivity(
    wall_emissivity: FloatOrArray, wall_area: FloatOrArray, opening_area: FloatOrArray
) -> Array:
    """Apparent emissivity of the mouth of a cavity or of the slot between two fins.

    e = 1 / [1 + (A_opening/A_wall) (1/e_wall - 1)]

    wall_emissivity 0 to 1 (above 0); wall_area: all walls inside; opening_area: the plane mouth,
    both [m2]. It acts on the MOUTH's area: fins of a dull surface gain little by radiation, those
    of a polished one much. Walls at one temperature, diffuse.
    Source: two-surface enclosure with a black mouth (derived; see `enclosure_exchange_factor`).
    """
    return enclosure_exchange_factor(1.0, opening_area, wall_emissivity, wall_area)
