"""The faces of a cabinet from its layers: plane parts, edges, corners and films."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.heat.walls import (
    box_face_conductance,
    box_face_outside_area,
    conductance_with_films,
    layers_resistance,
)
from coldwright.parts.conditions import Adjoining

FACE_NAMES = ("top", "bottom", "left", "right", "front", "back")

FILM_RESISTANCE = {"top": 0.17, "bottom": 0.10}
"""Film [m2K/W] where heat flows down (into a cold box's top) and up (into its floor), ISO 6946."""

UPRIGHT_FILM_RESISTANCE = 0.13
"""Film [m2K/W] of an upright face in still air, ISO 6946. A cabinet stands in a room: the same
film lies on its outside as on its inside."""


@dataclass(frozen=True)
class Layer:
    """One layer of a wall: thickness [m], conductivity [W/mK]."""

    thickness: Array
    conductivity: Array


@dataclass(frozen=True)
class Face:
    """One face of the cabinet, one value per lane.

    area, outside_area: inside and outside skin [m2]; conductance: from inside air to the air
    outside, films, edges and corners included [W/K]; film resistances [m2K/W].
    """

    name: str
    adjoining: Adjoining
    area: Array
    outside_area: Array
    conductance: Array
    inside_film_resistance: Array
    outside_film_resistance: Array

    @property
    def inside_resistance(self) -> Array:
        """Resistance of the inside film [K/W]."""
        return lanes(self.inside_film_resistance / self.area)

    @property
    def outside_resistance(self) -> Array:
        """Resistance of the outside film [K/W]."""
        return lanes(self.outside_film_resistance / self.outside_area)


def layered_face(
    name: str,
    width: FloatOrArray,
    height: FloatOrArray,
    layers: Sequence[Layer],
    *,
    adjoining: Adjoining = "room",
    film_resistance: FloatOrArray | None = None,
) -> Face:
    """Face of a box from its inside width and height [m] and its layers, inside first.

    film_resistance [m2K/W] of both films; without it ISO 6946's by the name of the face. Holds for
    inside dimensions above a fifth of the wall's thickness (Langmuir's shape factors).
    Raises ValueError when there is no layer.
    """
    if not layers:
        raise ValueError(f"face {name!r} has no layer")
    usual = FILM_RESISTANCE.get(name, UPRIGHT_FILM_RESISTANCE)
    film = lanes(usual if film_resistance is None else film_resistance)
    resistance = layers_resistance(
        [layer.thickness for layer in layers], [layer.conductivity for layer in layers]
    )
    thickness = lanes(sum((layer.thickness for layer in layers), start=lanes(0.0)))
    area = lanes(lanes(width) * height)
    outside_area = box_face_outside_area(width, height, thickness)
    wall = box_face_conductance(width, height, thickness, resistance)
    conductance = conductance_with_films(wall, area, 1.0 / film, outside_area, 1.0 / film)
    return Face(name, adjoining, area, outside_area, conductance, film, film)


def box_faces(
    inside_width: FloatOrArray,
    inside_height: FloatOrArray,
    inside_depth: FloatOrArray,
    layers: Mapping[str, Sequence[Layer]],
    adjoining: Mapping[str, Adjoining] | None = None,
) -> tuple[Face, ...]:
    """The six faces of a box, each by its own layers.

    Inside dimensions [m]; layers: by name of face (`FACE_NAMES`, all six); adjoining: where a face
    looks, `room` unless given. Raises KeyError when a face has no entry in `layers`.
    """
    spans = {
        "top": (inside_width, inside_depth),
        "bottom": (inside_width, inside_depth),
        "left": (inside_depth, inside_height),
        "right": (inside_depth, inside_height),
        "front": (inside_width, inside_height),
        "back": (inside_width, inside_height),
    }
    looks = adjoining or {}
    return tuple(
        layered_face(name, *spans[name], layers[name], adjoining=looks.get(name, "room"))
        for name in FACE_NAMES
    )


def inside_area(faces: Sequence[Face]) -> Array:
    """Area of the whole inside skin [m2]."""
    return lanes(np.sum(np.broadcast_arrays(*(face.area for face in faces)), axis=0))
