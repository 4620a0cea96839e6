"""From the entries of `calc wall` to the part that answers it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from coldwright.arrays import lanes
from coldwright.parts.cabinet_faces import Layer
from coldwright.parts.wall_answer import WallAnswer, box_wall, flat_wall

if TYPE_CHECKING:
    from coldwright.cli.calc.wall import AskedWall


def answer_of(asked: AskedWall, values: Mapping[str, float]) -> WallAnswer:
    """What the wall or the box lets through."""
    layers = [
        Layer(lanes(values[f"thickness_{index}"]), lanes(values[f"conductivity_{index}"]))
        for index in range(len(asked.layers))
    ]
    inside, room, film = (values[name] for name in ("inside", "room", "film"))
    if asked.is_box:
        size = (values["width"], values["height"], values["depth"])
        return box_wall(layers, size, inside, room, film_multiplier=film)
    return flat_wall(layers, values["area"], inside, room, film_multiplier=film)
