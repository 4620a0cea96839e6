"""What a settled machine looks like along its tubes: temperature and enthalpy metre by metre.

The parts answer with sums (heat, shares of length, content). These functions lay the same
equations out along the tube, so that a course ends where the balance says that it ends. The first
axis of every array runs along the tube, the others over lanes. Friction is left out, as in the
balance: see `pressure_losses`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from coldwright.arrays import Array
from coldwright.parts.capillary import Placing
from coldwright.parts.capillary_course import CapillaryCourse, capillary_course
from coldwright.parts.condenser import driving_difference
from coldwright.parts.return_exchanger import gas_side, line_heat
from coldwright.plant.evaluation import Conditions, Evaluation
from coldwright.plant.system import SealedSystem

# Points of one zone.
POINTS = 25
# Least share of the driving difference that a liquid zone leaves, so that its logarithm is finite.
LEAST_LEFT = 1e-9


@dataclass(frozen=True)
class Course:
    """One zone of a tube, point by point along the first axis."""

    position: Array  # [m] from the tube's own inlet
    temperature: Array  # [K]
    enthalpy: Array  # [J/kg]


def _along(values: Array) -> Array:
    """Places from 0 to 1 along a new first axis before the lanes of `values`."""
    return np.linspace(0.0, 1.0, POINTS).reshape(-1, *[1] * np.ndim(values))


def condenser_courses(system: SealedSystem, e: Evaluation) -> dict[str, Course]:
    """The `gas`, `condensing` and `liquid` zones of the condenser; a zone may have no length.

    Gas and liquid approach the sink exponentially, as in `condense`; condensing stays at its
    temperature.
    """
    state, length = e.condenser, system.condenser.length
    high = system.refrigerant.saturated(e.unknowns.condensing_temperature)
    driving = driving_difference(high.temperature, state.outside.sink_temperature)
    hot = e.compressor.discharge_temperature
    along = _along(driving)
    # A tube too short to cool its gas lets it out warm.
    after_gas = np.maximum(state.exit_enthalpy, high.vapour_enthalpy)
    cooled = system.refrigerant.vapour_at_enthalpy(high.pressure, after_gas).temperature
    entering = driving + hot - high.temperature
    left = np.maximum(driving + cooled - high.temperature, LEAST_LEFT)
    gas = hot - entering * (1.0 - (left / entering) ** along)
    liquid_from = np.clip(state.exit_enthalpy, high.liquid_enthalpy, high.vapour_enthalpy)
    remaining = np.maximum(1.0 - e.subcooling / driving, LEAST_LEFT)
    subcooled = driving * (1.0 - remaining**along)
    starts = (state.gas_share, state.gas_share + state.condensing_share)
    return {
        "gas": Course(
            length * state.gas_share * along,
            gas,
            system.refrigerant.vapour(high.pressure, gas).enthalpy,
        ),
        "condensing": Course(
            length * (starts[0] + state.condensing_share * along),
            high.temperature + 0.0 * along,
            after_gas + (liquid_from - after_gas) * along,
        ),
        "liquid": Course(
            length * (starts[1] + state.liquid_share * along),
            high.temperature - subcooled,
            liquid_from + (state.exit_enthalpy - liquid_from) * _share(subcooled),
        ),
    }


def _share(rising: Array) -> Array:
    """Each point's share of the whole rise along the first axis; even where nothing rises."""
    whole = rising[-1]
    even = _along(whole)
    return np.asarray(np.where(whole > 0.0, rising / np.where(whole > 0.0, whole, 1.0), even))


def capillary_course_of(system: SealedSystem, e: Evaluation) -> CapillaryCourse:
    """The capillary of a settled machine, marched as the balance marched it."""
    refrigerant, flow = system.refrigerant, e.compressor.mass_flow
    low = refrigerant.saturated(e.unknowns.evaporating_temperature)
    high = refrigerant.saturated(e.unknowns.condensing_temperature)
    leaving = refrigerant.suction(low, e.evaporator.exit_enthalpy)
    gas = gas_side(
        system.suction_line,
        refrigerant,
        low,
        leaving,
        flow,
        high.temperature - e.subcooling,
        e.evaporator.exit_enthalpy,
    )
    return capillary_course(
        system.capillary,
        refrigerant,
        flow,
        high.pressure,
        e.condenser.exit_enthalpy,
        low.pressure,
        e.unknowns.exchanged_heat,
        gas.transfer_units_per_metre,
        gas.inlet_temperature,
        Placing(0, e.capillary.taken),
    )


def evaporator_courses(
    system: SealedSystem, e: Evaluation, source_temperature: Array
) -> dict[str, Course]:
    """The `wet` and the `dry` length of the evaporator; `source_temperature` [K] as it settled.

    Heat per metre of the wet length is even; dry gas approaches the source exponentially, as in
    `evaporate`.
    """
    state, length = e.evaporator, system.evaporator.length
    low = system.refrigerant.saturated(e.unknowns.evaporating_temperature)
    entering = e.condenser.exit_enthalpy - e.unknowns.exchanged_heat
    along = _along(entering)
    dry = length * (1.0 - state.wet_share)
    reach = low.vapour_specific_heat * (source_temperature - low.temperature)
    gained = reach * (1.0 - np.exp(-dry * along / state.gas_length))
    leaving_wet = state.exit_enthalpy - gained[-1]
    enthalpy = leaving_wet + gained
    return {
        "wet": Course(
            length * state.wet_share * along,
            low.temperature + 0.0 * along,
            entering + (leaving_wet - entering) * along,
        ),
        "dry": Course(
            length * state.wet_share + dry * along,
            system.refrigerant.suction(low, enthalpy).temperature,
            enthalpy,
        ),
    }


def suction_line_courses(system: SealedSystem, e: Evaluation, at: Conditions) -> dict[str, Course]:
    """The suction line: `exchanger` with the capillary on it, then `line` through the room.

    The joined length comes first, in counterflow: the gas enters where the capillary leaves it.
    """
    line, refrigerant = system.suction_line, system.refrigerant
    flow, heat = e.compressor.mass_flow, e.unknowns.exchanged_heat
    low = refrigerant.saturated(e.unknowns.evaporating_temperature)
    course, tube = capillary_course_of(system, e), system.capillary
    into = np.clip(course.position - tube.exchanger_start, 0.0, tube.exchanger_length)
    joined = (tube.exchanger_length - into)[::-1]
    exchanged = e.evaporator.exit_enthalpy + heat * (1.0 - course.taken_share)[::-1]
    warmed = refrigerant.suction(low, e.evaporator.exit_enthalpy + heat)
    along = _along(flow)
    rest = np.maximum(line.length - line.joined_length, 0.0)
    part = replace(line, length=line.joined_length + rest * along)
    gained = line_heat(part, flow, warmed, at.compressor_room_temperature)
    enthalpy = e.evaporator.exit_enthalpy + heat + gained
    return {
        "exchanger": Course(joined, refrigerant.suction(low, exchanged).temperature, exchanged),
        "line": Course(
            line.joined_length + rest * along,
            refrigerant.suction(low, enthalpy).temperature,
            enthalpy,
        ),
    }
