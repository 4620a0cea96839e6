"""Conduction through the walls of a box: layers, edges, corners, films."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes

EDGE_SHAPE_FACTOR = 0.54
"""Shape factor of a square edge per metre of inside edge, equal walls (Langmuir 1913)."""

CORNER_SHAPE_FACTOR = 0.15
"""Shape factor of a three-wall corner per metre of wall thickness (Langmuir 1913)."""


def layers_resistance(
    thicknesses: Sequence[FloatOrArray], conductivities: Sequence[FloatOrArray]
) -> Array:
    """Resistance of layers in series, sum of d/k [m2K/W].

    thicknesses [m] >= 0 and conductivities [W/mK] > 0, one of each per layer.
    Raises ValueError when their numbers differ. Source: Fourier's law.
    """
    total = lanes(0.0)
    for thickness, conductivity in zip(thicknesses, conductivities, strict=True):
        total = lanes(total + lanes(thickness) / conductivity)
    return total


def heat_transmittance(
    resistance: FloatOrArray, inside_film: FloatOrArray, outside_film: FloatOrArray
) -> Array:
    """Transmittance U [W/m2K] of a flat wall with its two films, 1/(1/hi + R + 1/ho).

    resistance [m2K/W] >= 0; films [W/m2K] > 0. A cabinet stands in a room: its outside film is an
    indoor one (about 1/0.13), not a weather film. Source: ISO 6946 (series of resistances).
    """
    return lanes(1.0 / (1.0 / lanes(inside_film) + resistance + 1.0 / lanes(outside_film)))


def edge_conductance(length: FloatOrArray, conductivity: FloatOrArray) -> Array:
    """Conductance 0.54 L k [W/K] of an edge where two walls of like thickness meet.

    length: inside edge [m]; conductivity: of the walls [W/mK]. Holds where the inside dimensions
    exceed a fifth of the wall's thickness.
    Source: Langmuir, Adams and Meikle (1913), as in Holman, Heat Transfer, section 3-4.
    """
    return lanes(EDGE_SHAPE_FACTOR * lanes(length) * conductivity)


def corner_conductance(thickness: FloatOrArray, conductivity: FloatOrArray) -> Array:
    """Conductance 0.15 d k [W/K] of a corner where three walls of thickness d [m] meet.

    Range and source as for `edge_conductance`.
    """
    return lanes(CORNER_SHAPE_FACTOR * lanes(thickness) * conductivity)


def box_face_conductance(
    inside_width: FloatOrArray,
    inside_height: FloatOrArray,
    thickness: FloatOrArray,
    resistance: FloatOrArray,
) -> Array:
    """Conductance [W/K] of one face of a box, skin to skin, with its share of edges and corners.

    G = A/R + k [0.54 (W + H) + 0.15 (4/3) d], k = d/R

    inside_width W, inside_height H [m] of the face; thickness d [m] > 0 and resistance R [m2K/W]
    > 0 of the wall (see `layers_resistance`). Half of each of the four edges and a third of each
    of the four corners belong to the face, so six faces of equal wall make up the exact box; with
    unequal walls each face brings half an edge at its own thickness, a fair mean.
    Example: a cube of 0.5 m inside, walls 0.1 m of k 1.04: 6 G = 19.09 W/K, 8592 W at 450 K.
    Source: Langmuir, Adams and Meikle (1913); Holman, example 3-2.
    """
    width, height = lanes(inside_width), lanes(inside_height)
    conductivity = lanes(thickness) / resistance
    plane = width * height / resistance
    edges = 0.5 * edge_conductance(2.0 * (width + height), conductivity)
    corners = 4.0 / 3.0 * corner_conductance(thickness, conductivity)
    return lanes(plane + edges + corners)


def box_face_outside_area(
    inside_width: FloatOrArray, inside_height: FloatOrArray, thickness: FloatOrArray
) -> Array:
    """Outside area [m2] of a box face whose neighbours share its thickness, (W + 2d)(H + 2d)."""
    twice = 2.0 * lanes(thickness)
    return lanes((lanes(inside_width) + twice) * (lanes(inside_height) + twice))


def effective_mean_area(wall_conductance: FloatOrArray, resistance: FloatOrArray) -> Array:
    """Area [m2] that, over a flat wall of `resistance` [m2K/W], gives `wall_conductance` [W/K]."""
    return lanes(lanes(wall_conductance) * resistance)


def conductance_with_films(
    wall_conductance: FloatOrArray,
    inside_area: FloatOrArray,
    inside_film: FloatOrArray,
    outside_area: FloatOrArray,
    outside_film: FloatOrArray,
) -> Array:
    """Conductance [W/K] from inside to outside air: the wall and a film on each true area.

    wall_conductance: skin to skin [W/K] > 0; areas [m2] > 0; films [W/m2K] > 0, radiation
    included. Source: series of resistances.
    """
    inside = 1.0 / (lanes(inside_area) * inside_film)
    outside = 1.0 / (lanes(outside_area) * outside_film)
    return lanes(1.0 / (inside + 1.0 / lanes(wall_conductance) + outside))


def cylinder_layer_conductance(
    inside_diameter: FloatOrArray, outside_diameter: FloatOrArray, conductivity: FloatOrArray
) -> Array:
    """Conductance per metre [W/mK] through a tube wall or lagging, 2 pi k / ln(D/d).

    Diameters [m], outside > inside > 0; conductivity [W/mK]. Source: Fourier's law in a cylinder.
    """
    ratio = lanes(outside_diameter) / inside_diameter
    return lanes(2.0 * np.pi * lanes(conductivity) / np.log(ratio))
