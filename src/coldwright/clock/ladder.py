"""Walls in time: every wall as a ladder of thermal resistances and capacities.

A wall of cork takes hours to cool. Each face's layers are cut into slices; a slice's heat sits in
its middle, and half of its resistance lies on either side. Edges and corners carry more heat than a
plane wall: all conductances and capacities of a face are raised in the same measure, so that in the
end the ladder carries exactly what the cabinet at rest does.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array, lanes
from coldwright.parts.cabinet_faces import Face
from coldwright.parts.conditions import Adjoining

SKIN_CAPACITY = 800.0
"""Heat capacity [J/m2K] at least given to the inside skin: half a millimetre of wood or plastic."""

SLICES = 6
"""Slices of every wall beside its skin; more where a wall has more layers."""

THIN = 0.01
"""A first layer with less than this share of the resistance (sheet metal) is skin as a whole."""


@dataclass(frozen=True)
class WallLayer:
    """One layer in time: resistance [m2K/W], heat capacity [J/m2K]; one value per lane."""

    resistance: Array
    heat_capacity: Array


@dataclass(frozen=True)
class Ladder:
    """One face or several alike; the first axis runs from the inside skin outwards.

    area [m2]: of the inside; adjoining: where it looks; capacity [J/K] of each node; conductance
    [W/K]: inside air to first node, between nodes, last node to the outside air (one more than
    nodes); each `[slot, lane]`.
    """

    adjoining: Adjoining
    area: Array
    capacity: Array
    conductance: Array


def ladder_of(
    face: Face, layers: Sequence[WallLayer], multiplier: Array, slices: int = SLICES
) -> Ladder:
    """The ladder of one face whose layers are given from the inside.

    multiplier: of the face's conductance, as a bench corrects it (`Cabinet`). The skin and
    `slices` slices, at least one for each layer; a thin first layer is the skin.
    """
    cut = _slices(layers, slices)
    resistance = _stacked([each.resistance for each in cut])
    capacity = _stacked([each.heat_capacity for each in cut])
    # the skin resists nothing: its node lies on the inside
    between = 0.5 * (resistance[:-1] + resistance[1:])
    steps = np.concatenate([between, 0.5 * resistance[-1:]])
    film_in = lanes(face.inside_film_resistance / face.area)
    film_out = lanes(face.outside_film_resistance / face.outside_area)
    # what the face's walls alone resist, edges and corners included
    wall = 1.0 / (face.conductance * multiplier) - film_in - film_out
    scale = np.sum(steps, axis=0) / wall  # area of a plane wall that would carry as much [m2]
    rungs = scale / steps
    rungs = np.concatenate([rungs[:-1], 1.0 / (1.0 / rungs[-1:] + film_out)])
    return Ladder(
        adjoining=face.adjoining,
        area=lanes(face.area),
        capacity=capacity * scale,
        conductance=np.concatenate([np.broadcast_to(1.0 / film_in, rungs[:1].shape), rungs]),
    )


def _stacked(values: Sequence[Array]) -> Array:
    """`[slice, lane]`, one lane where none has more."""
    return np.stack(np.broadcast_arrays(*(np.atleast_1d(each) for each in values)))


def _slices(layers: Sequence[WallLayer], count: int) -> list[WallLayer]:
    """A thin skin that resists nothing, then the layers cut so that none resists too much."""
    whole = sum(float(np.max(each.resistance)) for each in layers)
    first, rest = layers[0], list(layers[1:])
    if rest and float(np.max(first.resistance)) < THIN * whole:
        skin = lanes(first.heat_capacity)
        rest[0] = WallLayer(rest[0].resistance + first.resistance, rest[0].heat_capacity)
    else:
        skin = lanes(np.minimum(SKIN_CAPACITY, 0.5 * first.heat_capacity))
        rest.insert(0, WallLayer(first.resistance, lanes(first.heat_capacity - skin)))
    cuts = [1] * len(rest)
    while sum(cuts) < count:
        coarse = [float(np.max(e.resistance)) / n for e, n in zip(rest, cuts, strict=True)]
        cuts[coarse.index(max(coarse))] += 1
    slices = [WallLayer(lanes(np.zeros_like(skin)), skin)]
    for each, n in zip(rest, cuts, strict=True):
        slices += [WallLayer(each.resistance / n, each.heat_capacity / n)] * n
    return slices


def joined(ladders: Sequence[Ladder]) -> tuple[Ladder, ...]:
    """Faces that look to the same space as one ladder each; all must be cut alike."""
    groups: dict[str, list[Ladder]] = {}
    for ladder in ladders:
        groups.setdefault(ladder.adjoining, []).append(ladder)
    return tuple(
        Ladder(
            adjoining=group[0].adjoining,
            area=lanes(sum(each.area for each in group)),
            capacity=np.asarray(sum(each.capacity for each in group)),
            conductance=np.asarray(sum(each.conductance for each in group)),
        )
        for group in groups.values()
    )
