"""What surrounds the box: room air, the air behind the condenser, the compressor's space."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes

Adjoining = Literal["room", "condenser", "compressor"]
STANDARD_PRESSURE = 101325.0


@dataclass(frozen=True)
class Surroundings:
    """The conditions outside the cabinet, one value per lane.

    Temperatures [K], relative humidity of the room [0-1], atmospheric pressure [Pa]. The condenser
    side is the air between condenser and cabinet back; the compressor space lies below the floor.
    """

    room_temperature: Array
    relative_humidity: Array
    atmospheric_pressure: Array
    condenser_side_temperature: Array
    compressor_space_temperature: Array

    @classmethod
    def of_room(
        cls,
        room_temperature: FloatOrArray,
        relative_humidity: FloatOrArray = 0.5,
        atmospheric_pressure: FloatOrArray = STANDARD_PRESSURE,
        *,
        condenser_side_rise: FloatOrArray = 0.0,
        compressor_space_rise: FloatOrArray = 0.0,
    ) -> Surroundings:
        """Surroundings from the room's state and how much warmer [K] the other two spaces are."""
        room = lanes(room_temperature)
        return cls(
            room_temperature=room,
            relative_humidity=lanes(relative_humidity),
            atmospheric_pressure=lanes(atmospheric_pressure),
            condenser_side_temperature=np.add(room, condenser_side_rise),
            compressor_space_temperature=np.add(room, compressor_space_rise),
        )

    def temperature_of(self, space: Adjoining) -> Array:
        """Air temperature [K] of the space that a face of the cabinet adjoins."""
        return {
            "room": self.room_temperature,
            "condenser": self.condenser_side_temperature,
            "compressor": self.compressor_space_temperature,
        }[space]
