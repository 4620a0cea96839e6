"""What passes between a cold source, the stored air and the liner when all three are given.

The box at rest asks which temperatures close its balances; the clock knows them and asks what
flows. Conductances only, so that they can be tabulated: temperatures change by the second, the
films behind them hardly.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.parts.air_circuit import AirPath, air_resistances, circulate
from coldwright.parts.cold_side.surface_heat import ColdSide
from coldwright.parts.conditions import STANDARD_PRESSURE
from coldwright.parts.moisture import deposition_conductance
from coldwright.parts.settling import settle

AIR_SPECIFIC_HEAT = 1006.0
"""[J/kgK], ASHRAE Fundamentals, psychrometrics (from memory)."""

SMALLEST_DIFFERENCE = 1e-3
"""Difference of air and source [K] under which films are taken at this one: still air conducts."""

SURFACE, INNER, COMPARTMENT, RETURN = range(4)


@dataclass(frozen=True)
class ColdExchange:
    """Conductances between source, surface, air and liner; one value per lane.

    air: stored air (mean) to cold surface, the way of the air included [W/K]; liner: to the surface
    by radiation [W/K]; source: surface to source, infinite where the surface is the source itself
    (metal of a plate or tube) [W/K]; capacity_flow: of the air that goes round [W/K];
    return_offset: return air less cold surface, per watt of convection [K/W]; deposition: vapour
    that settles per unit of humidity ratio [kg/s]; area: outside area that carries frost [m2].
    """

    air: Array
    liner: Array
    source: Array
    capacity_flow: Array
    return_offset: Array
    deposition: Array
    area: Array


def cold_exchange(
    cold_side: ColdSide,
    air_path: AirPath,
    source_temperature: FloatOrArray,
    air_temperature: FloatOrArray,
    pressure: FloatOrArray = STANDARD_PRESSURE,
) -> ColdExchange:
    """Conductances at a source and a mean stored air [K], the liner taken at the air's temperature.

    source_temperature: of the brine; for a plate or a bare tube, whose balance calls the
    compartment its source, of the METAL here: the clock keeps the metal's heat. Latent heat is
    left out of the surface's temperature (it moves films by their fourth root). Air and source
    closer than `SMALLEST_DIFFERENCE` are taken that far apart.
    """
    source, air = np.broadcast_arrays(lanes(source_temperature), lanes(air_temperature))
    apart = air - source
    apart = np.where(apart < 0.0, -1.0, 1.0) * np.maximum(np.abs(apart), SMALLEST_DIFFERENCE)
    air = lanes(source + apart)

    def step(state: Array) -> Array:
        films = cold_side.films(state[SURFACE], state[COMPARTMENT], air, pressure)
        convection, radiation = films.convective_conductance, films.radiative_conductance
        heat = convection * (state[COMPARTMENT] - state[SURFACE])
        flow = circulate(air_path, heat, state[RETURN], pressure, surface_conductance=convection)
        to_mean, to_return = air_resistances(air_path, convection, flow.heat_capacity_flow)
        if cold_side.source_is_air:
            surface = inner = source
        else:
            link = cold_side.source_link(source, state[INNER], films)
            both = 1.0 / to_mean + radiation
            surface = source + apart * both / (both + 1.0 / link.resistance)
            inner = source + link.film_resistance * (surface - source) / link.resistance
        convected = (air - surface) / to_mean
        compartment = surface + convected / convection
        rows = (surface, inner, compartment, surface + convected * to_return)
        return np.stack(np.broadcast_arrays(*rows))

    first = np.stack([source + 0.3 * apart, source + 0.1 * apart, air - 0.1 * apart, air])
    state = settle(step, step(first))
    films = cold_side.films(state[SURFACE], state[COMPARTMENT], air, pressure)
    convection = films.convective_conductance
    heat = convection * (state[COMPARTMENT] - state[SURFACE])
    flow = circulate(air_path, heat, state[RETURN], pressure, surface_conductance=convection)
    to_mean, to_return = air_resistances(air_path, convection, flow.heat_capacity_flow)
    if cold_side.source_is_air:
        inward = np.full_like(convection, np.inf)
    else:
        inward = 1.0 / cold_side.source_link(source, state[INNER], films).resistance
    return ColdExchange(
        air=lanes(1.0 / to_mean),
        liner=lanes(films.radiative_conductance),
        source=lanes(inward),
        capacity_flow=lanes(flow.heat_capacity_flow),
        return_offset=lanes(to_return),
        deposition=deposition_conductance(convection, AIR_SPECIFIC_HEAT, flow.mass_flow),
        area=lanes(films.outside_area * films.fin_efficiency),
    )
