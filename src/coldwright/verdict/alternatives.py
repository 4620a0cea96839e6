"""What would help: the same plant with one thing changed, each as a lane beside the plant itself.

The same lanes give the slopes by which uncertainties of the parts reach the answers.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, cast

import numpy as np

from coldwright.arrays import Array
from coldwright.parts.cold_side.surface_heat import ColdSide
from coldwright.plant.box import Plant


@dataclass(frozen=True)
class Change:
    """One change: what it is called, what is multiplied and by how much."""

    key: str
    words: str
    factor: float
    # Relative standard uncertainty of the multiplied quantity as the model knows it, and why.
    usual_uncertainty: float
    uncertainty_source: str


CHANGES = (
    Change(
        "cold_surface",
        "25 % more outside surface on the cold side (larger, or fins)",
        1.25,
        0.15,
        "free convection and radiation of a real surface; common practice, no source",
    ),
    Change(
        "insulation",
        "20 % less heat through the cabinet's walls and gasket",
        0.80,
        0.10,
        "conductivity of the layers as entered",
    ),
    Change("coil", "25 % more evaporator tube", 1.25, 0.05, "length as entered"),
    Change(
        "condenser",
        "25 % more condenser (tube and width)",
        1.25,
        0.15,
        "free convection and radiation; common practice, no source",
    ),
    Change(
        "compressor",
        "a compressor with 25 % more displacement",
        1.25,
        0.10,
        "fit of the compressor to its data",
    ),
    Change(
        "capillary",
        "a capillary 20 % longer",
        1.20,
        0.20,
        "10 % of flow: Hermes, Melo and Knabben 2010 [read]",
    ),
)


def with_changes(plant: Plant, changes: tuple[Change, ...]) -> Plant:
    """The plant with lane 0 unchanged and one lane for each change."""
    factors = {
        each.key: np.array([1.0, *(c.factor if c is each else 1.0 for c in changes)])
        for each in changes
    }
    return changed_plant(plant, factors)


def changed_plant(plant: Plant, factors: Mapping[str, Array]) -> Plant:
    """The plant with what each key names multiplied by its factors, one per lane."""
    one = np.ones(())

    def lanes_of(key: str) -> Array:
        return factors.get(key, one)

    box, system = plant.box, plant.system
    coil, more = lanes_of("coil"), lanes_of("condenser")
    surface = replace(
        box.cold_side.surface,
        film_multiplier=box.cold_side.surface.film_multiplier * lanes_of("cold_surface"),
    )
    tube = replace(box.cold_side.tube, length=box.cold_side.tube.length * coil)
    cold_side = cast(ColdSide, replace(cast(Any, box.cold_side), surface=surface, tube=tube))
    cabinet = replace(
        box.cabinet,
        conductance_multiplier=box.cabinet.conductance_multiplier * lanes_of("insulation"),
    )
    swept = lanes_of("compressor")
    compressor = replace(
        system.compressor,
        displacement=system.compressor.displacement * swept,
        constant_loss=system.compressor.constant_loss * swept,
        suction_conductance=system.compressor.suction_conductance * swept,
        load_loss=system.compressor.load_loss / swept,
    )
    capillary = replace(system.capillary, length=system.capillary.length * lanes_of("capillary"))
    evaporator = replace(system.evaporator, length=system.evaporator.length * coil)
    return Plant(
        box=replace(box, cabinet=cabinet, cold_side=cold_side),
        system=replace(
            system,
            compressor=compressor,
            condenser=system.condenser.enlarged(more),
            capillary=capillary,
            evaporator=evaporator,
            cold_side=cold_side,
        ),
    )
