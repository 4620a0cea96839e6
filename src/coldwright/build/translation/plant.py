"""The whole plant out of a build."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array, lanes
from coldwright.build.result import Build
from coldwright.build.schema.tube import SuctionLine as SuctionLineSection
from coldwright.build.schema.tube import Tube
from coldwright.build.translation.box import box_of
from coldwright.build.translation.condenser import condenser_of
from coldwright.build.translation.machine import Machine, machine_of
from coldwright.fluids.oils import oil
from coldwright.fluids.refrigerants import refrigerant
from coldwright.parts.capillary import Capillary
from coldwright.parts.charge import Volumes
from coldwright.parts.evaporator import BoilingTube
from coldwright.parts.return_exchanger import SuctionLine
from coldwright.plant.box import Box, Plant, Room
from coldwright.plant.system import SealedSystem

# Bare suction line in still air [W/(m2 K)] of outside area: common practice, no source.
LINE_FILM = 10.0
# Elastomer tube insulation [W/(m K)]: common practice, no source.
LINE_INSULATION = 0.038
OIL_TEMPERATURE = 313.15


@dataclass(frozen=True)
class Translation:
    """A build as the plant that the physics works on."""

    plant: Plant
    room: Room
    target: Array  # [K]
    charge: Array | None  # [kg], None to find it
    superheat: Array  # [K]
    machine: Machine


def translate(
    build: Build, *, room_temperature: float | None = None, charge: float | None = None
) -> Translation:
    """The plant of `build`, with another room temperature [K] or charge [kg] where given."""
    box = box_of(build)
    machine = machine_of(build)
    site = build.site
    room = Room(
        lanes(site.room_temperature.value if room_temperature is None else room_temperature),
        lanes(site.relative_humidity.value),
        lanes(site.atmospheric_pressure),
    )
    stated = build.refrigerant.fill
    fill = charge if charge is not None else None if stated is None else stated.value
    return Translation(
        plant=Plant(box, system_of(build, box, machine)),
        room=room,
        target=lanes(build.targets.air_temperature.value),
        charge=None if fill is None else lanes(fill),
        superheat=lanes(build.refrigerant.superheat.value),
        machine=machine,
    )


def system_of(build: Build, box: Box, machine: Machine) -> SealedSystem:
    """The sealed system of `build`."""
    tube = box.cold_side.tube
    immersed = lanes(
        build.cold_side.vessel.immersed_fraction.value if build.cold_side.vessel else 1.0
    )
    lubricant = oil(build.compressor.oil)
    suction = suction_line_of(build)
    return SealedSystem(
        refrigerant=refrigerant(build.refrigerant.name),
        compressor=machine.compressor,
        condenser=condenser_of(build),
        capillary=capillary_of(build),
        evaporator=BoilingTube(
            inside_diameter=tube.inside_diameter,
            length=tube.length * immersed,
            wall_resistance=1.0 / tube.wall_conductance_per_length,
        ),
        cold_side=box.cold_side,
        suction_line=suction,
        volumes=Volumes(
            discharge_line=_volume(build.discharge_line, build.discharge_line.length.value),
            liquid_line=_volume(build.liquid_line, build.liquid_line.length.value),
            drier=lanes(build.drier.volume.value),
            oil_mass=lanes(build.compressor.oil_amount.value)
            * lubricant.density(lanes(OIL_TEMPERATURE)),
        ),
        oil=lubricant,
    )


def capillary_of(build: Build) -> Capillary:
    """The capillary tube of `build` with its exchanger's place."""
    section, exchanger = build.capillary, build.return_exchanger
    return Capillary(
        bore=lanes(section.bore.value),
        length=lanes(section.length.value),
        roughness=lanes(section.roughness.value),
        exchanger_start=lanes(exchanger.start.value),
        exchanger_length=lanes(exchanger.length.value),
        coil_diameter=lanes(section.coil_diameter.value),
    )


def suction_line_of(build: Build) -> SuctionLine:
    """The suction line of `build` with the joined length."""
    section, exchanger = build.suction_line, build.return_exchanger
    joined = exchanger.length.value
    core = build.capillary.outside_diameter.value if exchanger.kind == "inside" else 0.0
    return SuctionLine(
        inside_diameter=lanes(section.inside_diameter),
        length=lanes(max(section.length.value, joined)),
        joined_length=lanes(joined),
        joint_conductance=lanes(max(exchanger.bond_conductance.value, 1e-6)),
        room_conductance=lanes(_line_conductance(section)),
        core_diameter=lanes(core),
    )


def line_skin_diameter(section: SuctionLineSection) -> float:
    """Diameter over the suction line's insulation [m]; the tube's where it is bare."""
    thickness = section.insulation.value if section.insulation else 0.0
    return section.outside_diameter.value + 2.0 * thickness


def _line_conductance(section: SuctionLineSection) -> float:
    """From the tube to the room, for a metre of line beyond the exchanger [W/(m K)]."""
    skin = line_skin_diameter(section)
    layer = np.log(skin / section.outside_diameter.value) / (2.0 * np.pi * LINE_INSULATION)
    return float(1.0 / (layer + 1.0 / (np.pi * skin * LINE_FILM)))


def _volume(tube: Tube, length: float) -> Array:
    return lanes(np.pi / 4.0 * tube.inside_diameter**2 * length)
