"""Invented sealed systems for tests: one in the middle of the trade, and many drawn around it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array, lanes
from coldwright.fluids.oils import oil
from coldwright.fluids.refrigerants import refrigerant
from coldwright.parts.capillary import Capillary
from coldwright.parts.charge import Volumes
from coldwright.parts.compressor import Compressor
from coldwright.parts.evaporator import BoilingTube
from coldwright.parts.hot_side import SheetCondenser
from coldwright.parts.lane_tools import take_lanes
from coldwright.parts.return_exchanger import SuctionLine
from coldwright.plant.evaluation import Conditions
from coldwright.plant.system import SealedSystem

# Displacement [m3] of about 1/8 hp for each refrigerant (equal capacity), and an oil that suits.
DISPLACEMENT = {"R152a": 5.0e-6, "R134a": 4.8e-6, "R600a": 8.5e-6, "R290": 3.0e-6}
OIL = {"R152a": "ester", "R134a": "ester", "R600a": "mineral", "R290": "mineral"}


@dataclass(frozen=True)
class StillBrine:
    """A cold side whose outside film follows free convection: `conductance` (dT + 0.1)^0.25."""

    conductance: Array  # [W/(m K)] per metre at 1 K

    def outer_conductance_per_length(
        self, source_temperature: Array, tube_wall_temperature: Array
    ) -> Array:
        difference = np.abs(source_temperature - tube_wall_temperature)
        return self.conductance * (difference + 0.1) ** 0.25


def compressor(displacement: Array, turns: float = 58.0) -> Compressor:
    """A small reciprocating machine of its class, for still air."""
    return Compressor(
        displacement=lanes(displacement),
        speed=lanes(turns),
        pumping=lanes(0.88),
        clearance=lanes(0.03),
        suction_conductance=lanes(0.4),
        suction_valve_drop=lanes(1500.0),
        efficiency=lanes(0.72),
        valve_work=lanes(8.0e3),
        constant_loss=lanes(18.0),
        load_loss=lanes(5.0e-4),
        gas_work_share=lanes(0.85),
        discharge_cooling=lanes(0.45),
        shell_conductance=lanes(1.6),
        shell_volume=lanes(1.8e-3),
    )


def condenser(length: Array | float = 11.0) -> SheetCondenser:
    """Tube on a steel sheet behind the cabinet."""
    return SheetCondenser(
        inside_diameter=lanes(0.0033),
        outside_diameter=lanes(0.00476),
        length=lanes(length),
        tube_conductivity=lanes(385.0),
        sheet_width=lanes(0.55),
        sheet_height=lanes(length) * 0.1,
        sheet_thickness=lanes(0.0007),
        sheet_conductivity=lanes(50.0),
        bond_conductance=lanes(20.0),
        emissivity=lanes(0.9),
        gap=lanes(0.05),
        chimney_height=lanes(0.0),
        opening_loss=lanes(1.5),
        back_emissivity=lanes(0.9),
        shaded_fraction=lanes(0.0),
    )


def capillary(
    length: Array | float = 2.6, bore: Array | float = 0.00079, joined: Array | float = 1.2
) -> Capillary:
    """A drawn copper capillary, soldered to the suction line from 0.3 m behind the drier on."""
    return Capillary(
        bore=lanes(bore),
        length=lanes(length),
        roughness=lanes(5e-7),
        exchanger_start=lanes(0.3),
        exchanger_length=lanes(joined),
    )


def sealed_system(
    name: str = "R152a",
    displacement: Array | float | None = None,
    capillary_length: Array | float = 2.6,
    bore: Array | float = 0.00079,
    joined: Array | float = 1.2,
    film: Array | float = 4.5,
    coil_length: Array | float = 9.0,
    condenser_length: Array | float = 11.0,
    oil_mass: Array | float = 0.18,
) -> SealedSystem:
    """About 1/8 hp, a 9 m coil in brine, a condenser of 0.6 m2 (invented)."""
    swept = DISPLACEMENT[name] if displacement is None else displacement
    return SealedSystem(
        refrigerant=refrigerant(name),
        compressor=compressor(lanes(swept)),
        condenser=condenser(condenser_length),
        capillary=capillary(capillary_length, bore, joined),
        evaporator=BoilingTube(lanes(0.0049), lanes(coil_length), lanes(0.0003)),
        cold_side=StillBrine(lanes(film)),
        suction_line=SuctionLine(lanes(0.0049), lanes(2.2), lanes(joined), lanes(5.0), lanes(0.15)),
        volumes=Volumes(lanes(5e-6), lanes(4e-6), lanes(15e-6), lanes(oil_mass)),
        oil=oil(OIL[name]),
    )


def surroundings(source_C: Array | float, room_C: Array | float) -> Conditions:
    """Conditions at sea level; one lane for each pair."""
    source, room = np.broadcast_arrays(lanes(source_C) + 273.15, lanes(room_C) + 273.15)
    return Conditions(source, room, room, np.full(room.shape, 101325.0))


def drawn(name: str, count: int, seed: int) -> tuple[SealedSystem, Conditions]:
    """Draw `count` systems that a maker might build, and where they stand."""
    draw = np.random.default_rng(seed)

    def between(least: float, greatest: float) -> Array:
        return draw.uniform(least, greatest, count)

    size = between(0.7, 1.5)
    system = sealed_system(
        name,
        displacement=DISPLACEMENT[name] * size,
        # The flow of a capillary goes as bore^2.5 / length^0.5: matched to the size, more or less.
        bore=0.00076 * size**0.4 * between(0.9, 1.1),
        capillary_length=between(2.0, 4.0),
        joined=np.where(draw.random(count) < 0.2, 0.0, between(0.3, 1.7)),
        film=between(3.0, 7.0),
        coil_length=between(6.0, 12.0) * size,
        condenser_length=between(8.0, 16.0) * size,
        oil_mass=between(0.12, 0.3),
    )
    return system, surroundings(between(-20.0, 15.0), between(15.0, 35.0))


def alone(system: SealedSystem, lane: int, count: int) -> SealedSystem:
    """The one lane of a drawn system as a system of its own."""
    return take_lanes(system, np.array([lane]), count)
