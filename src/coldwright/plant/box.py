"""The whole plant: the box, the sealed system that cools it and the room they stand in."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array
from coldwright.parts.air_circuit import AirPath
from coldwright.parts.cabinet import Cabinet
from coldwright.parts.cold_side.surface_heat import ColdSide
from coldwright.parts.conditions import Surroundings
from coldwright.plant.evaluation import Conditions, Evaluation
from coldwright.plant.system import SealedSystem

# What the cabinet's back sees of the condenser's excess over the room: half the sheet radiates to
# it and the air between warms on its way. Assumed, no source.
BACK_SHARE = 0.5
# The air under the floor, of the shell's excess over the room: assumed, no source.
COMPRESSOR_SPACE_SHARE = 0.15


@dataclass(frozen=True)
class Box:
    """The cabinet, its air path and the cold side that hangs in it."""

    cabinet: Cabinet
    air_path: AirPath
    cold_side: ColdSide


@dataclass(frozen=True)
class Room:
    """The room; arrays over lanes."""

    temperature: Array  # [K]
    relative_humidity: Array
    atmospheric_pressure: Array  # [Pa]


@dataclass(frozen=True)
class Plant:
    """Everything of one design; arrays over lanes."""

    box: Box
    system: SealedSystem


def surroundings(
    room: Room, evaluation: Evaluation | None = None, run_fraction: Array | float = 1.0
) -> Surroundings:
    """What the cabinet stands in while the machine runs a share `run_fraction` of the time.

    Without an evaluation the machine is taken as cold: all faces see the room.
    """
    if evaluation is None:
        return Surroundings.of_room(
            room.temperature, room.relative_humidity, room.atmospheric_pressure
        )
    share = np.clip(run_fraction, 0.0, 1.0)
    warm = evaluation.unknowns.condensing_temperature - room.temperature
    shell = evaluation.shell_temperature - room.temperature
    return Surroundings.of_room(
        room.temperature,
        room.relative_humidity,
        room.atmospheric_pressure,
        condenser_side_rise=share * BACK_SHARE * np.maximum(warm, 0.0),
        compressor_space_rise=share * COMPRESSOR_SPACE_SHARE * np.maximum(shell, 0.0),
    )


def conditions(room: Room, source_temperature: Array) -> Conditions:
    """What the sealed system stands in, all arrays broadcast to one shape."""
    source, air, pressure = np.broadcast_arrays(
        source_temperature, room.temperature, room.atmospheric_pressure
    )
    return Conditions(source, air, air, pressure)
