"""Random builds over four refrigerants and three cold sides, and the two models side by side."""

from dataclasses import dataclass, replace
from types import SimpleNamespace

import numpy as np

from coldwright.arrays import lanes
from coldwright.fluids.brines import brine
from coldwright.parts.cold_side.cold_surface import ColdSurface
from coldwright.parts.cold_side.plate import Plate
from coldwright.parts.cold_side.tube import EvaporatorTube
from coldwright.parts.cold_side.vessel import Vessel
from coldwright.parts.cold_side.vessel_shell import VesselShell
from coldwright.parts.lane_tools import take_lanes
from coldwright.plant.balance import BALANCED, Balance, settle
from coldwright.plant.charge_rule import FixedCharge
from coldwright.plant.evaluation import Conditions
from coldwright.plant.system import SealedSystem
from support.scalar.balance import CLOSED, solve
from support.scalar.machine import Machine
from support.systems import drawn

KINDS = ("still brine", "vessel", "plate")
# The search starts this far from the fast answer, so that it has to find its own: K, K, J/kg, K,
# J/kg.
ASIDE = np.array([1.5, 2.0, 5e3, 5.0, 2e3])
# Charge that suits these systems: a sixth of the tubes full of liquid.
SUITS = 0.16


@dataclass(frozen=True)
class Builds:
    """Some builds of one refrigerant and kind; arrays over lanes."""

    system: SealedSystem
    at: Conditions
    charge: np.ndarray


def builds(name, kind, count, seed):
    """Drawn builds with charges from half to one and a half of what suits."""
    system, at = drawn(name, count, seed)
    if kind != "still brine":
        system = replace(system, cold_side=_cold_side(kind, system.evaporator))
    tubes = system.evaporator.volume + system.condenser.volume
    liquid = system.refrigerant.saturated(at.source_temperature).liquid_density
    share = np.random.default_rng(seed + 1000).uniform(0.5, 1.5, count)
    return Builds(system, at, share * SUITS * liquid * tubes)


def settled(found, guess=None):
    return settle(found.system, found.at, FixedCharge(found.charge), guess)


def _cold_side(kind, tube):
    """A drum of glycol with a helix, or an upright plate; invented."""
    coil = EvaporatorTube(
        inside_diameter=tube.inside_diameter,
        outside_diameter=lanes(0.00635),
        length=tube.length,
        wall_conductivity=lanes(390.0),
    )
    skin = ColdSurface(emissivity=lanes(0.9), liner_emissivity=lanes(0.9), liner_area=lanes(2.2))
    if kind == "plate":
        sizes = {"thickness": 0.001, "conductivity": 160.0, "density": 2700.0}
        sizes |= {"width": 0.6, "height": 1.1, "specific_heat": 900.0, "bond_conductance": 20.0}
        numbers = {key: lanes(value) for key, value in sizes.items()}
        return Plate(tube=coil, surface=skin, rear_gap=lanes(0.02), **numbers)
    sizes = {"width": 0.25, "depth": 0.25, "height": 0.4, "wall_thickness": 0.001}
    sizes |= {"wall_conductivity": 17.0, "wall_density": 7900.0, "wall_specific_heat": 500.0}
    sizes |= {"top_exposed": 1.0, "bottom_exposed": 1.0}
    shell = VesselShell(form="round", **{key: lanes(value) for key, value in sizes.items()})
    glycol = brine("propylene glycol", 0.45, "volume")
    return Vessel(shell=shell, brine=glycol, tube=coil, surface=skin, headspace=lanes(0.03))


def slow(found: Builds, balance: Balance, lane: int):
    """The slow model's balance of one lane, sought from beside the fast one and then from it."""
    count = found.charge.size
    machine = Machine(
        take_lanes(found.system, np.intp(lane), count),
        float(found.at.source_temperature[lane]),
        float(found.at.room_temperature[lane]),
    )
    there = balance.evaluation.unknowns.stacked()[:, lane]
    aside = ASIDE * np.array([1.0, 1.0, 1.0, 1.0, machine.capillary.exchanger_length > 0.0])
    state = None
    # Near a fold another heat in the exchanger leads to the other filling of the capillary.
    warmer = there * np.array([1.0, 1.0, 1.0, 1.0, 1.04])
    for start in (there + aside, there, warmer, there - aside):
        again = solve(machine, float(found.charge[lane]), start)
        state = again if state is None or again.worst < state.worst else state
        if state.worst < CLOSED:
            break
    return state


def deviations(balance: Balance, lane: int, state):
    """Fast less slow: both temperatures [K]; capacity, power and flow [%]."""
    e = balance.evaluation

    def off(fast, exact):
        return 100.0 * (float(np.broadcast_to(fast, balance.reason.shape)[lane]) / exact - 1.0)

    return SimpleNamespace(
        evaporating=float(e.unknowns.evaporating_temperature[lane]) - state.evaporating,
        condensing=float(e.unknowns.condensing_temperature[lane]) - state.condensing,
        capacity=off(e.evaporator.heat, state.capacity),
        power=off(e.compressor.power, state.power),
        flow=off(e.compressor.mass_flow, state.flow),
    )


__all__ = ["BALANCED", "KINDS", "Builds", "builds", "deviations", "settled", "slow"]
