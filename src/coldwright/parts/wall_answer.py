"""What a layered wall lets through: a flat one, or six of them as a box. A bench question."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.heat.walls import heat_transmittance, layers_resistance
from coldwright.parts.cabinet_faces import (
    FACE_NAMES,
    FILM_RESISTANCE,
    UPRIGHT_FILM_RESISTANCE,
    Layer,
    inside_area,
    layered_face,
)


@dataclass(frozen=True)
class WallAnswer:
    """One wall or a whole box, one value per lane.

    conductance: inside air to room air [W/K]; transmittance: on the inside area [W/m2K]; heat: into
    the box [W]; outer_skin, inner_skin: of an upright wall [K]; coldest_skin: the coldest mean
    outside of any face [K]; layer_resistances [m2K/W], inside first; area: inside [m2].
    """

    conductance: Array
    transmittance: Array
    heat: Array
    outer_skin: Array
    inner_skin: Array
    coldest_skin: Array
    layer_resistances: tuple[Array, ...]
    area: Array

    @property
    def layer_outsides(self) -> tuple[Array, ...]:
        """Temperature [K] of each layer's outer side in an upright wall, linear in resistance."""
        resistances = np.stack(np.broadcast_arrays(*self.layer_resistances))
        share = np.cumsum(resistances, axis=0) / np.sum(resistances, axis=0)
        across = self.outer_skin - self.inner_skin
        return tuple(lanes(self.inner_skin + each * across) for each in share)


def flat_wall(
    layers: Sequence[Layer],
    area: FloatOrArray,
    inside_temperature: FloatOrArray,
    room_temperature: FloatOrArray,
    *,
    film_multiplier: FloatOrArray = 1.0,
) -> WallAnswer:
    """An upright wall of `area` [m2] and its two indoor films, without edges.

    Temperatures [K]; film_multiplier: on both film coefficients (1: ISO 6946's 0.13 m2K/W).
    Source: ISO 6946 (series of resistances).
    """
    each = _resistances(layers)
    film = UPRIGHT_FILM_RESISTANCE / lanes(film_multiplier)
    transmittance = heat_transmittance(sum(each, start=lanes(0.0)), 1.0 / film, 1.0 / film)
    flux = transmittance * (lanes(room_temperature) - inside_temperature)
    outer = lanes(room_temperature - flux * film)
    return WallAnswer(
        conductance=lanes(transmittance * area),
        transmittance=transmittance,
        heat=lanes(flux * area),
        outer_skin=outer,
        inner_skin=lanes(inside_temperature + flux * film),
        coldest_skin=outer,
        layer_resistances=each,
        area=lanes(area),
    )


def box_wall(
    layers: Sequence[Layer],
    inside_size: tuple[FloatOrArray, FloatOrArray, FloatOrArray],
    inside_temperature: FloatOrArray,
    room_temperature: FloatOrArray,
    *,
    film_multiplier: FloatOrArray = 1.0,
) -> WallAnswer:
    """A closed box of one wall all round, edges and corners included.

    inside_size: width, height, depth [m]; films by the face's stance (ISO 6946); the rest as in
    `flat_wall`. Without door, gasket and leaks. Source: `heat.walls.box_face_conductance`.
    """
    width, height, depth = inside_size
    spans = {"top": (width, depth), "bottom": (width, depth)}
    spans |= dict.fromkeys(("left", "right"), (depth, height))
    spans |= dict.fromkeys(("front", "back"), (width, height))
    faces = tuple(
        layered_face(
            name,
            *spans[name],
            layers,
            film_resistance=lanes(
                FILM_RESISTANCE.get(name, UPRIGHT_FILM_RESISTANCE) / lanes(film_multiplier)
            ),
        )
        for name in FACE_NAMES
    )
    across = lanes(room_temperature) - inside_temperature
    skins = {
        face.name: room_temperature - across * face.conductance * face.outside_resistance
        for face in faces
    }
    front = next(face for face in faces if face.name == "front")
    conductance = lanes(sum((face.conductance for face in faces), start=lanes(0.0)))
    area = inside_area(faces)
    return WallAnswer(
        conductance=conductance,
        transmittance=lanes(conductance / area),
        heat=lanes(conductance * across),
        outer_skin=lanes(skins["front"]),
        inner_skin=lanes(inside_temperature + across * front.conductance * front.inside_resistance),
        coldest_skin=lanes(np.min(np.stack(np.broadcast_arrays(*skins.values())), axis=0)),
        layer_resistances=_resistances(layers),
        area=area,
    )


def _resistances(layers: Sequence[Layer]) -> tuple[Array, ...]:
    return tuple(layers_resistance([layer.thickness], [layer.conductivity]) for layer in layers)
