"""Sealed systems and conditions over all that a maker may meet, right builds and wrong ones.

Room 5 to 45 °C, source +35 to -45 °C, charge 30 to 200 % of right, capillary half to double of what
suits, exchanger 0 to 85 % effective, every refrigerant that may be charged anew, every kind of cold
side. Invented. Draws are the same for the same seed and count.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from coldwright.arrays import Array, lanes
from coldwright.fluids.brines import brine
from coldwright.fluids.filling import filling
from coldwright.fluids.oils import oil
from coldwright.fluids.refrigerants import Refrigerant, refrigerant
from coldwright.heat.tube_gas import tube_film_coefficient
from coldwright.parts.cold_side.bare_tube import BareTube
from coldwright.parts.cold_side.cold_surface import ColdSurface
from coldwright.parts.cold_side.holdover import Holdover
from coldwright.parts.cold_side.plate import Plate
from coldwright.parts.cold_side.tube import EvaporatorTube
from coldwright.parts.cold_side.vessel import Vessel
from coldwright.parts.cold_side.vessel_shell import VesselShell
from coldwright.parts.evaporator import BoilingTube, ColdSide
from coldwright.parts.return_exchanger import SuctionLine
from coldwright.plant.balance import BALANCED, settle
from coldwright.plant.charge_rule import StatedSuperheat
from coldwright.plant.evaluation import Conditions
from coldwright.plant.system import SealedSystem
from support.systems import capillary, compressor, condenser, sealed_system, surroundings

Between = Callable[[tuple[float, float]], Array]


@dataclass(frozen=True)
class Nominal:
    """A machine of about 1/8 hp on one refrigerant: equal cooling at -20/40 °C, computed once."""

    displacement: float  # m3
    bore: float  # [m] of a 3 m capillary without exchanger that passes its flow there
    flow: float  # kg/s there
    oil: str


NOMINAL = {
    "R152a": Nominal(5.0e-6, 7.2e-4, 6.9e-4, "ester"),
    "R134a": Nominal(4.8e-6, 8.0e-4, 1.11e-3, "ester"),
    "R600a": Nominal(8.5e-6, 8.8e-4, 6.1e-4, "mineral"),
    "R290": Nominal(3.0e-6, 6.8e-4, 6.0e-4, "mineral"),
    "R1270": Nominal(2.5e-6, 6.5e-4, 6.05e-4, "mineral"),
    "R1234yf": Nominal(4.7e-6, 8.8e-4, 1.43e-3, "ester"),
}
NAMES = tuple(NOMINAL)
KINDS = ("vessel", "plate", "bare tube", "holdover")
# Size of the machine over the nominal one, and metres of evaporator for a machine of size 1.
SIZES = {
    "vessel": (0.7, 1.5),
    "plate": (0.5, 1.2),
    "bare tube": (0.3, 0.8),
    "holdover": (0.7, 1.5),
}
COILS = {
    "vessel": (6.0, 12.0),
    "plate": (7.0, 14.0),
    "bare tube": (18.0, 40.0),
    "holdover": (8.0, 16.0),
}
BORE_OF_TUBE = 0.0049
ROOM_C, SOURCE_C = (5.0, 45.0), (-45.0, 35.0)
CHARGE, CAPILLARY = (0.3, 2.0), (0.5, 2.0)
EFFECTIVENESS = (0.0, 0.85)
JOINT = (2.0, 60.0)  # W/(m K), from wrapped to soldered all along
# Where the right charge is found: source and room [°C], superheat [K]; else a share of the tubes.
DESIGN_C, DESIGN_ROOM_C, DESIGN_SUPERHEAT = -8.0, 22.0, 5.0
SHARE_OF_TUBES = 0.16


@dataclass(frozen=True)
class FullRange:
    """Drawn lanes of one refrigerant and kind of cold side; arrays over lanes."""

    name: str
    kind: str
    system: SealedSystem
    at: Conditions
    right: Array  # [kg] the charge that suits
    charge: Array  # [kg] the one drawn
    conductance: Array  # of the capillary, over what suits
    effectiveness: Array  # of the exchanger at the nominal flow


def full_range(name: str, kind: str, count: int, seed: int) -> FullRange:
    """Draw `count` lanes."""
    draw = np.random.default_rng([seed, NAMES.index(name), KINDS.index(kind)])

    def between(span: tuple[float, float]) -> Array:
        return draw.uniform(*span, count)

    def factor(span: tuple[float, float]) -> Array:
        return np.exp(draw.uniform(*np.log(span), count))

    conductance = factor(CAPILLARY)
    wanted = np.where(draw.random(count) < 0.15, 0.0, between(EFFECTIVENESS))
    suits = _system(name, kind, between, wanted)
    bore = suits.capillary.bore * conductance**0.4
    system = replace(suits, capillary=replace(suits.capillary, bore=bore))
    right = _right_charge(suits)
    at = surroundings(between(SOURCE_C), between(ROOM_C))
    charge = right * factor(CHARGE)
    return FullRange(name, kind, system, at, right, charge, conductance, wanted)


def _system(name: str, kind: str, between: Between, effectiveness: Array) -> SealedSystem:
    """Systems whose capillaries suit, about the nominal machine."""
    nominal, fluid = NOMINAL[name], refrigerant(name)
    size = between(SIZES[kind])
    joint = np.exp(between((np.log(JOINT[0]), np.log(JOINT[1]))))
    joined = -np.log1p(-effectiveness) / _units_per_metre(fluid, nominal.flow * size, joint)
    length = np.maximum(between((2.0, 4.0)), joined + 0.4)
    # The joint lies anywhere along the capillary.
    start = 0.1 + between((0.0, 1.0)) * (length - joined - 0.15)
    # Flow goes as bore^2.5 over the root of the length.
    bore = nominal.bore * size**0.4 * (length / 3.0) ** 0.2
    coil = between(COILS[kind]) * size
    return replace(
        sealed_system(),
        refrigerant=fluid,
        compressor=compressor(nominal.displacement * size),
        condenser=condenser(between((8.0, 16.0)) * size),
        capillary=replace(capillary(length, bore, joined), exchanger_start=start),
        evaporator=BoilingTube(lanes(BORE_OF_TUBE), coil, lanes(0.0003)),
        cold_side=_cold_side(kind, coil, between),
        suction_line=SuctionLine(
            lanes(BORE_OF_TUBE), np.maximum(2.2, joined + 0.3), joined, joint, lanes(0.15)
        ),
        oil=oil(nominal.oil),
    )


def _units_per_metre(fluid: Refrigerant, flow: Array, joint: Array) -> Array:
    """Transfer units [1/m] of the return gas at -20 °C with the capillary beside it."""
    low = fluid.saturated(lanes(253.15))
    film = tube_film_coefficient(
        flow / (np.pi / 4.0 * BORE_OF_TUBE**2),
        lanes(BORE_OF_TUBE),
        low.vapour_viscosity,
        low.vapour_conductivity,
        low.vapour_specific_heat,
    )
    per_metre = 1.0 / (1.0 / (np.pi * BORE_OF_TUBE * film) + 1.0 / joint)
    return per_metre / (flow * low.vapour_specific_heat)


def _cold_side(kind: str, coil: Array, between: Between) -> ColdSide:
    """A drum of strong salt brine, a plate, a bare tube or a tank that freezes."""
    tube = EvaporatorTube(
        inside_diameter=lanes(BORE_OF_TUBE),
        outside_diameter=lanes(0.00635),
        length=coil,
        wall_conductivity=lanes(390.0),
    )
    skin = ColdSurface(emissivity=lanes(0.9), liner_emissivity=lanes(0.9), liner_area=lanes(3.0))
    if kind == "plate":
        sizes = {"thickness": 0.001, "conductivity": 160.0, "density": 2700.0}
        sizes |= {"width": 0.7, "specific_heat": 900.0, "bond_conductance": 20.0}
        numbers = {key: lanes(value) for key, value in sizes.items()}
        return Plate(
            tube=tube, surface=skin, rear_gap=lanes(0.02), height=between((0.6, 1.4)), **numbers
        )
    if kind == "bare tube":
        frost = replace(skin, frost_thickness=between((0.0, 0.004)))
        return BareTube(tube=tube, surface=frost)
    sizes = {"width": 0.28, "depth": 0.28, "wall_thickness": 0.001}
    sizes |= {"wall_conductivity": 17.0, "wall_density": 7900.0, "wall_specific_heat": 500.0}
    sizes |= {"top_exposed": 1.0, "bottom_exposed": 1.0}
    numbers = {key: lanes(value) for key, value in sizes.items()}
    shell = VesselShell(form="round", height=between((0.35, 0.55)), **numbers)
    salt = brine("calcium chloride", 0.29)
    vessel = Vessel(shell=shell, brine=salt, tube=tube, surface=skin, headspace=lanes(0.03))
    if kind == "vessel":
        return vessel
    frozen = filling("sodium chloride eutectic")
    state = between((0.0, 1.0))
    return Holdover.around(replace(vessel, brine=frozen.liquid), frozen, state, lanes(0.05))


def _right_charge(system: SealedSystem) -> Array:
    """Charge [kg] that leaves 5 K of superheat at the design point; else a share of the tubes."""
    at = surroundings(np.full(np.shape(system.evaporator.length), DESIGN_C), DESIGN_ROOM_C)
    found = settle(system, at, StatedSuperheat(lanes(DESIGN_SUPERHEAT)), quick=True)
    tubes = system.evaporator.volume + system.condenser.volume
    liquid = system.refrigerant.saturated(at.source_temperature).liquid_density
    return np.where(found.reason == BALANCED, found.charge, SHARE_OF_TUBES * liquid * tubes)
