"""For a build that does not surely hold: what, changed alone, would bring it within its target.

Each remedy is tried in a few sizes as lanes of one computation, with the charge found anew where
the build leaves it to be found; the size that just reaches the allowed running share lies between
two of them. Sizes are then put in shop terms: fins, millimetres of insulation, metres of tube.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from coldwright.arrays import Array
from coldwright.parts.cold_side.upright_fins import UprightFins
from coldwright.parts.cold_side.vessel import Vessel
from coldwright.plant.balance import BALANCED
from coldwright.plant.box import Plant, Room
from coldwright.plant.operation import operate
from coldwright.shop.materials import material
from coldwright.verdict.alternatives import changed_plant
from coldwright.verdict.case import Case
from coldwright.verdict.figures import at_lane

# Sizes tried, as factors on what each remedy multiplies.
TRIED: dict[str, tuple[float, ...]] = {
    "cold_surface": (1.15, 1.4, 1.8, 2.4, 3.2),
    "insulation": (0.9, 0.8, 0.65, 0.5, 0.35),
    "gasket": (0.75, 0.5, 0.25),
    "coil": (1.2, 1.5, 2.0),
    "condenser": (1.2, 1.5, 2.0),
    "compressor": (1.15, 1.35, 1.7),
}
FIN_MATERIAL, FIN_THICKNESS, FIN_SHARE = "aluminium", 1.5e-3, 0.9
FIN_GAP = 0.022  # m between roots: near the best spacing for a drum of this size
FIN_HEIGHTS = np.arange(0.010, 0.081, 0.005)
FIN_BOND = 20.0  # W/(m K), bonded or soldered: common practice, no source


@dataclass(frozen=True)
class Remedy:
    """One thing that alone would do it, and what it comes to."""

    key: str
    words: str
    factor: float
    run_fraction: float


def remedies(case: Case) -> tuple[Remedy, ...]:
    """What alone would bring the running share down to the allowed one, the smallest step first."""
    allowed = _share_wanted(case)
    lanes = [(key, factor) for key, factors in TRIED.items() for factor in factors]
    found = case.translation
    plant = _with(found.plant, lanes)
    count = 1 + len(lanes)
    room = Room(*(np.broadcast_to(a, (count,)) for a in vars(found.room).values()))
    target = np.full(count, float(found.target))
    operation = operate(plant, room, target, found.charge, found.superheat)
    share = np.asarray(operation.cycling.run_fraction)
    share = np.where(operation.cycling.balance.reason == BALANCED, share, np.inf)
    rows = []
    for key, factors in TRIED.items():
        at = [1 + lanes.index((key, factor)) for factor in factors]
        factor = _reaching(share[0], share[at], np.asarray(factors), allowed)
        if factor is not None:
            rows.append(Remedy(key, _words(case, key, factor), factor, allowed))
    rows += _colder_source(case, allowed)
    return tuple(sorted(rows, key=lambda row: abs(np.log(row.factor))))


def _share_wanted(case: Case) -> float:
    """The running share on the usual day that is allowed and leaves the hottest day a rest.

    A change is taken to lessen the share of both days in the same proportion.
    """
    allowed = case.build.targets.highest_run_fraction.value
    hot, usual = case.hot_run_fraction, case.run_fraction
    if not np.isfinite(hot) or not np.isfinite(usual) or hot <= usual:
        return allowed
    return min(allowed, usual / hot)


def _colder_source(case: Case, allowed: float) -> list[Remedy]:
    """The brine (or plate) that would hold the target with this box, and the machine it takes.

    Only where the machine cannot bring it: else the target is held with what there is.
    """
    held, short = case.machine("cycling"), case.run_fraction
    if short <= 1.0 or not held.balanced or not case.machine("running").balanced:
        return []
    needed = at_lane(case.operation.cycling.box.heat, 0) / allowed
    source = at_lane(case.operation.cycling.box.source_temperature, 0)
    reached = at_lane(case.operation.running.box.source_temperature, 0)
    if source >= reached:
        return []
    name = "brine" if case.is_brine else "air around the cold surface"
    words = (
        f"{name} at {case.written(source, 'temperature')} (now it comes down to "
        f"{case.written(reached, 'temperature')}), from a machine that removes "
        f"{case.written(needed, 'heat_flow')} there; this one removes "
        f"{case.written(held.capacity_W, 'heat_flow')}"
    )
    return [Remedy("source_temperature", words, short / allowed, allowed)]


def _with(plant: Plant, lanes: list[tuple[str, float]]) -> Plant:
    """The plant with lane 0 unchanged and one lane for each (what, factor)."""
    factors = {
        key: np.array([1.0, *(factor if each == key else 1.0 for each, factor in lanes)])
        for key in TRIED
    }
    gasket = factors.pop("gasket")
    changed = changed_plant(plant, factors)
    cabinet = changed.box.cabinet
    better = replace(cabinet, gasket_conductance=cabinet.gasket_conductance * gasket)
    return replace(changed, box=replace(changed.box, cabinet=better))


def _reaching(now: float, shares: Array, factors: Array, allowed: float) -> float | None:
    """Factor at which the running share comes down to `allowed`; None when none tried does."""
    if now <= allowed:
        return 1.0
    steps = np.concatenate([[0.0], np.log(factors)])
    values = np.concatenate([[now], shares])
    below = np.flatnonzero(values <= allowed)
    if below.size == 0:
        return None
    upper = int(below[0])
    lower = upper - 1
    if not np.isfinite(values[lower]):
        return float(np.exp(steps[upper]))
    part = (values[lower] - allowed) / (values[lower] - values[upper])
    return float(np.exp(steps[lower] + part * (steps[upper] - steps[lower])))


def _words(case: Case, key: str, factor: float) -> str:
    """The remedy as one would write it on the bench."""
    plant = case.translation.plant
    if key == "cold_surface":
        return _surface_words(case, factor)
    if key == "insulation":
        return _insulation_words(case, factor)
    if key == "gasket":
        share = case.written(
            case.build.cabinet.gasket.linear_conductance.value * factor, "linear_conductance"
        )
        return f"a gasket that lets in no more than {share}"
    if key == "coil":
        length = at_lane(plant.box.cold_side.tube.length, 0) * factor
        return f"{case.written(length, 'length')} of evaporator tube"
    if key == "condenser":
        length = at_lane(plant.system.condenser.length, 0) * factor
        width = at_lane(plant.system.condenser.sheet_width, 0) * factor
        panel = "on a sheet" if plant.system.condenser.kind == "sheet" else "in a panel"
        return (
            f"{case.written(length, 'length')} of condenser tube {panel} "
            f"{case.written(width, 'length')} wide"
        )
    swept = at_lane(plant.system.compressor.displacement, 0) * factor
    return f"a compressor of {swept * 1e6:.1f} cm3"


def _insulation_words(case: Case, factor: float) -> str:
    """Extra thickness of the layer that insulates most, all round."""
    cabinet = case.translation.plant.box.cabinet
    faces = sum(at_lane(face.conductance, 0) for face in cabinet.faces)
    area = sum(at_lane(face.area, 0) for face in cabinet.faces)
    whole = at_lane(cabinet.still_conductance, 0)
    left = faces - (1.0 - factor) * whole
    layer = max(
        case.build.cabinet.layers, key=lambda each: each.thickness.value / each.conductivity.value
    )
    if left <= 0.2 * faces:
        return f"{1.0 - factor:.0%} less heat through walls and gasket together"
    extra = layer.conductivity.value * area * (1.0 / left - 1.0 / faces)
    return f"{case.written(extra, 'length')} more {layer.material} all round"


def _surface_words(case: Case, factor: float) -> str:
    """Fins for a vessel; area for a plate or a tube."""
    cold = case.translation.plant.box.cold_side
    if not isinstance(cold, Vessel):
        return f"{factor - 1.0:.0%} more plate or tube in the air"
    fins = _fins_for(case, cold, factor)
    if fins is None:
        return f"{factor - 1.0:.0%} more outside surface on the vessel"
    height = case.written(at_lane(fins.projection, 0), "length")
    length = case.written(at_lane(fins.length, 0), "length")
    thick = case.written(at_lane(fins.thickness, 0), "length")
    return (
        f"{int(at_lane(fins.count, 0))} upright fins standing out {height}, {length} long, "
        f"{thick} thick ({FIN_MATERIAL}, well bonded)"
    )


def _fins_for(case: Case, vessel: Vessel, factor: float) -> UprightFins | None:
    """The lowest fins that give `factor` times the conductance the vessel has now."""
    box = case.operation.cycling.box
    state = [
        at_lane(value, 0)
        for value in (
            box.surface_temperature,
            box.compartment_air_temperature,
            box.liner_temperature,
        )
    ]
    now = vessel.films(*state)
    wanted = factor * at_lane(now.convective_conductance + now.radiative_conductance, 0)
    metal = material(FIN_MATERIAL)
    perimeter = at_lane(vessel.shell.perimeter(), 0)
    count = np.floor(perimeter / FIN_GAP)
    fins = UprightFins(
        count=np.asarray(count),
        projection=FIN_HEIGHTS,
        length=np.asarray(FIN_SHARE * at_lane(vessel.shell.height, 0)),
        thickness=np.asarray(FIN_THICKNESS),
        conductivity=np.asarray(metal.conductivity),
        bond_conductance=np.asarray(FIN_BOND),
        density=np.asarray(metal.density),
        specific_heat=np.asarray(metal.specific_heat),
    )
    films = replace(vessel, fins=fins).films(*state)
    enough = np.flatnonzero(films.convective_conductance + films.radiative_conductance >= wanted)
    if enough.size == 0:
        return None
    return replace(fins, projection=FIN_HEIGHTS[enough[0]])
