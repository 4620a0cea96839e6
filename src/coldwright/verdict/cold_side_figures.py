"""The cold side in depth: where the difference goes, what the fins do, if the coil is enough."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from coldwright.heat.free_convection.channel import best_fin_spacing
from coldwright.heat.free_convection.numbers import rayleigh_number
from coldwright.parts.cold_chain import (
    AIR_WAY,
    BOILING,
    BOND,
    COIL_FILM,
    FROST,
    FROZEN,
    OUTSIDE,
    cold_chain,
)
from coldwright.parts.cold_side.films import air_at_film
from coldwright.parts.cold_side.plate import Plate
from coldwright.parts.cold_side.surface_answer import fins_alone
from coldwright.parts.cold_side.vessel import Vessel
from coldwright.plant.operation import Point
from coldwright.verdict.case import Case
from coldwright.verdict.figures import at_lane, percent

# Gas is asked to come at most this share of the way to its source, as where a charge is found.
GREATEST_SHARE = 0.5
ADVICE = {
    BOILING: "more coil, or tube of a smaller bore, helps; more outside area helps less",
    COIL_FILM: "more coil helps; more outside area helps less",
    FROZEN: "more coil, its runs spread through the tank, helps; more outside area helps less",
    "filling on the wall": "more wetted wall helps; more coil does not",
    BOND: "a better joint of tube and sheet, closer runs or a thicker sheet help",
    FROST: "defrosting helps; more coil does not",
    AIR_WAY: "wider openings, a longer fall or less in the way of the air help; more coil does not",
    "brine on the wall": "more wetted wall helps; more coil does not",
}
OUTSIDE_OF_VESSEL = "more outside area (fins, a larger vessel) helps; more coil hardly does"
OUTSIDE_OF_PLATE = "more plate in the air helps; more tube on it hardly does"
OUTSIDE_OF_TUBE = "more tube in the air helps, or metal joined to it"
ELSEWHERE = "thicker or better conducting metal helps"


@dataclass(frozen=True)
class FinFigures:
    """What the fins do, beside the same vessel without them."""

    count: int
    efficiency: float
    conductance_W_per_K: float
    conductance_without_W_per_K: float
    clear_gap_mm: float
    best_gap_mm: float


@dataclass(frozen=True)
class CoilFigures:
    """How much of the evaporator's tube the boiling and the wanted superheat need."""

    length_m: float
    boiling_m: float
    superheating_m: float
    spare_m: float
    spare_holds_liquid_g: float


@dataclass(frozen=True)
class ColdSideFigures:
    """From the boiling refrigerant to the stored air, in the state that the box comes to."""

    evaporating_to_air_K: float
    steps_K: dict[str, float]
    steps_share: dict[str, float]
    sentence: str
    coil: CoilFigures
    fins: FinFigures | None


def cold_side_figures(case: Case) -> ColdSideFigures | None:
    """The cold side of `case` in the state it comes to; None where that has no balance."""
    if not case.machine(case.state).balanced:
        return None
    point = case.operation.cycling if case.state == "cycling" else case.operation.running
    system = case.translation.plant.system
    evaluation = point.balance.evaluation
    evaporating = evaluation.unknowns.evaporating_temperature
    chain = cold_chain(
        case.translation.plant.box.cold_side,
        system.evaporator,
        evaluation.evaporator,
        evaporating,
        point.box,
    )
    steps = {name: at_lane(drop, 0) for name, drop in chain.items()}
    whole = at_lane(point.box.air_temperature - evaporating, 0)
    shares = {name: drop / whole for name, drop in steps.items()} if whole > 0.0 else {}
    return ColdSideFigures(
        evaporating_to_air_K=whole,
        steps_K=steps,
        steps_share=shares,
        sentence=_sentence(case, whole, shares),
        coil=_coil(case, point),
        fins=_fins(case, point),
    )


def _sentence(case: Case, whole: float, shares: dict[str, float]) -> str:
    """Where most of the difference lies, and what follows."""
    if not shares:
        return ""
    name = max(shares, key=lambda each: shares[each])
    advice = _outside_advice(case) if name == OUTSIDE else ADVICE.get(name, ELSEWHERE)
    return (
        f"Of the {case.difference(whole)} between stored air and boiling refrigerant "
        f"{percent(shares[name])} lies at the {name}: {advice}."
    )


def _outside_advice(case: Case) -> str:
    """What helps where the still air takes most of the difference."""
    cold = case.translation.plant.box.cold_side
    if not cold.source_is_air:
        return OUTSIDE_OF_VESSEL
    return OUTSIDE_OF_PLATE if isinstance(cold, Plate) else OUTSIDE_OF_TUBE


def _coil(case: Case, point: Point) -> CoilFigures:
    """Length that boils, length that the wanted superheat takes, and what is over."""
    system = case.translation.plant.system
    evaluation = point.balance.evaluation
    evaporating = evaluation.unknowns.evaporating_temperature
    span = np.maximum(point.box.source_temperature - evaporating, 0.1)
    share = np.minimum(case.build.refrigerant.superheat.value / span, GREATEST_SHARE)
    length = at_lane(system.evaporator.length, 0)
    boiling = at_lane(evaluation.evaporator.boiling_length, 0)
    superheating = at_lane(evaluation.evaporator.superheating_length(share), 0)
    spare = length - boiling - superheating
    liquid = at_lane(system.refrigerant.saturated(evaporating).liquid_density, 0)
    volume = at_lane(system.evaporator.area, 0) * max(spare, 0.0)
    return CoilFigures(length, boiling, superheating, spare, volume * liquid * 1e3)


def _fins(case: Case, point: Point) -> FinFigures | None:
    """The fins of a vessel; None without."""
    cold = case.translation.plant.box.cold_side
    if not isinstance(cold, Vessel) or cold.fins is None:
        return None
    box, pressure = point.box, case.translation.room.atmospheric_pressure
    seen = (box.surface_temperature, box.compartment_air_temperature, box.liner_temperature)
    films = cold.films(*seen, pressure)
    bare = replace(cold, fins=None).films(*seen, pressure)
    air = air_at_film(seen[0], seen[1], pressure)
    rayleigh = rayleigh_number(
        seen[0] - seen[1],
        cold.fins.length,
        air.expansion_coefficient,
        air.kinematic_viscosity,
        air.thermal_diffusivity,
    )
    side, _ = cold.shell.finned_side(cold.fins, cold.surface.frost_thickness)
    return FinFigures(
        count=int(at_lane(cold.fins.count, 0)),
        efficiency=at_lane(fins_alone(films, cold.fins), 0),
        conductance_W_per_K=at_lane(films.convective_conductance + films.radiative_conductance, 0),
        conductance_without_W_per_K=at_lane(
            bare.convective_conductance + bare.radiative_conductance, 0
        ),
        clear_gap_mm=1e3 * at_lane(side.gap, 0),
        best_gap_mm=1e3 * at_lane(best_fin_spacing(rayleigh, cold.fins.length), 0),
    )
