"""The sealed system as the balance sees it."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.arrays import Array
from coldwright.fluids.oils import Oil
from coldwright.fluids.refrigerants import Refrigerant
from coldwright.parts.capillary import Capillary
from coldwright.parts.charge import Volumes
from coldwright.parts.compressor import Compressor
from coldwright.parts.evaporator import BoilingTube, ColdSide
from coldwright.parts.hot_side import Condenser
from coldwright.parts.return_exchanger import SuctionLine


@dataclass(frozen=True)
class SealedSystem:
    """All parts of one sealed system; their arrays broadcast over lanes."""

    refrigerant: Refrigerant
    compressor: Compressor
    condenser: Condenser
    capillary: Capillary
    evaporator: BoilingTube
    cold_side: ColdSide
    suction_line: SuctionLine
    volumes: Volumes
    oil: Oil

    @property
    def total_volume(self) -> Array:
        """Inside volume that refrigerant can fill [m3], the capillary's bore included."""
        bore = self.capillary.area * self.capillary.length
        lines = self.volumes.discharge_line + self.volumes.liquid_line + self.volumes.drier
        tubes = self.evaporator.volume + self.condenser.volume + self.suction_line.volume
        return lines + tubes + bore + self.compressor.shell_volume
