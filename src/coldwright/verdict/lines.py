"""The suction line and the evaporator's tube: what friction takes, oil carried home, sweat."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.arrays import lanes
from coldwright.build.translation.plant import LINE_FILM, LINE_INSULATION, line_skin_diameter
from coldwright.fluids.moist_air import dew_point
from coldwright.heat.tube_gas import tube_film_coefficient
from coldwright.parts.suction_line import (
    dry_insulation_thickness,
    oil_carrying_mass_flux,
    skin_temperature,
    sweating_length,
)
from coldwright.plant.evaluation import Evaluation
from coldwright.plant.pressure_losses import pressure_losses
from coldwright.verdict.case import Case
from coldwright.verdict.figures import CELSIUS, at_lane

WET = 0.995  # quality under which the line stays at saturation all the way


@dataclass(frozen=True)
class Lines:
    """Evaporator tube and suction line in the state the box comes to; names carry their unit."""

    evaporator_pressure_drop_Pa: float
    evaporator_pressure_drop_K: float
    suction_line_pressure_drop_Pa: float
    suction_line_pressure_drop_K: float
    suction_velocity_m_per_s: float
    oil_velocity_m_per_s: float
    line_gas_C: float
    line_skin_C: float
    dew_point_C: float
    sweating_length_m: float
    free_length_m: float
    insulation_m: float


def lines(case: Case) -> Lines | None:
    """The low side's tubes of `case` in the state it comes to; None without a balance."""
    if not case.machine(case.state).balanced:
        return None
    o = case.operation
    e = (o.cycling if case.state == "cycling" else o.running).balance.evaluation
    system = case.translation.plant.system
    losses = pressure_losses(system, e)
    return Lines(
        evaporator_pressure_drop_Pa=at_lane(losses.evaporator.drop, 0),
        evaporator_pressure_drop_K=at_lane(losses.evaporator.shift, 0),
        suction_line_pressure_drop_Pa=at_lane(losses.suction_line.drop, 0),
        suction_line_pressure_drop_K=at_lane(losses.suction_line.shift, 0),
        **_velocities(case, e),
        **_sweat(case, e),
    )


def _velocities(case: Case, e: Evaluation) -> dict[str, float]:
    """Gas velocity where the line is coldest, and the least that carries oil up there [m/s]."""
    system = case.translation.plant.system
    line = system.suction_line
    low = system.refrigerant.saturated(e.unknowns.evaporating_temperature)
    leaving = system.refrigerant.suction(low, e.evaporator.exit_enthalpy)
    oil = system.oil.density(leaving.temperature)
    least = oil_carrying_mass_flux(leaving.gas_density, oil, line.inside_diameter)
    flux = e.compressor.mass_flow / (0.25 * np.pi * line.inside_diameter**2)
    return {
        "suction_velocity_m_per_s": at_lane(flux / leaving.gas_density, 0),
        "oil_velocity_m_per_s": at_lane(least / leaving.gas_density, 0),
    }


def _sweat(case: Case, e: Evaluation) -> dict[str, float]:
    """The free length after the exchanger: its skin against the room's dew point."""
    system, room = case.translation.plant.system, case.translation.room
    line, flow = system.suction_line, e.compressor.mass_flow
    low = system.refrigerant.saturated(e.unknowns.evaporating_temperature)
    enthalpy = e.evaporator.exit_enthalpy + e.unknowns.exchanged_heat
    gas = system.refrigerant.suction(low, enthalpy)
    film = tube_film_coefficient(
        flow / (0.25 * np.pi * line.inside_diameter**2),
        line.inside_diameter,
        low.vapour_viscosity,
        low.vapour_conductivity,
        low.vapour_specific_heat,
    )
    skin = skin_temperature(
        gas.temperature,
        room.temperature,
        np.pi * line.inside_diameter * film,
        line.room_conductance,
        np.pi * line_skin_diameter(case.build.suction_line) * LINE_FILM,
    )
    dew = dew_point(room.temperature, room.relative_humidity)
    free = at_lane(line.length - line.joined_length, 0)
    units = line.room_conductance / (flow * gas.specific_heat)
    # Liquid that boils holds the line at saturation: it sweats to the shell or not at all.
    units = np.where(gas.quality < WET, 0.0, units)
    outside = lanes(case.build.suction_line.outside_diameter.value)
    thickness = dry_insulation_thickness(
        gas.temperature,
        room.temperature,
        dew,
        outside,
        conductivity=LINE_INSULATION,
        film_coefficient=LINE_FILM,
    )
    return {
        "line_gas_C": at_lane(gas.temperature, 0) - CELSIUS,
        "line_skin_C": at_lane(skin, 0) - CELSIUS,
        "dew_point_C": at_lane(dew, 0) - CELSIUS,
        "sweating_length_m": at_lane(sweating_length(skin, room.temperature, dew, units, free), 0),
        "free_length_m": free,
        "insulation_m": at_lane(thickness, 0),
    }
