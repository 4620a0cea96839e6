"""The box in steady state: the air that a cold source holds, or the source that an air needs."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.moist_air import humidity_ratio, relative_humidity
from coldwright.parts.air_circuit import AirFlow, AirPath, air_resistances, circulate
from coldwright.parts.box_network import (
    HeldPass,
    NetworkTemperatures,
    WallTerms,
    solve_at_air,
    solve_at_source,
)
from coldwright.parts.cabinet import (
    SECONDS_PER_DAY,
    AirExchange,
    Cabinet,
    HeatGain,
    air_exchange,
    heat_gain,
)
from coldwright.parts.cold_side.films import COLDEST_FILM, WARMEST_FILM
from coldwright.parts.cold_side.surface_heat import (
    ColdSide,
    SourceLink,
    SurfaceFilms,
    SurfaceHeat,
    heat_at,
    relative_residual,
)
from coldwright.parts.conditions import Surroundings
from coldwright.parts.lane_steps import LaneSteps
from coldwright.parts.moisture import (
    USUAL_DEFICIT,
    contents_evaporation,
    deposit_latent_heat,
    deposition_conductance,
    saturation_slope,
    settled_humidity_ratio,
)
from coldwright.parts.settling import settle

SURFACE, INNER, COMPARTMENT, LINER, AIR, RETURN, SOURCE, MOISTURE = range(8)
_Step = Callable[["_Parts", Array, Array], Array]
MOISTURE_SCALE = 2000.0
"""Humidity ratio times this is of the size of a temperature's change: 5 g/kg counts as 10 K."""


@dataclass(frozen=True)
class BoxState:
    """The box at rest, one value per lane; temperatures [K].

    heat: into the cold side [W], latent heat included; gain: where it came from; source: brine, or
    for a plate or bare tube the compartment's effective temperature; surface_temperature: of the
    cold surface (on its frost, for a vessel); compartment_air_temperature: mean along the cold
    surface; coldest_shelf: air as it leaves the cold side; warmest_shelf: air as it returns;
    air_temperature: mean of the stored air; liner_temperature: area mean of the inside skin.
    residual: worst relative misfit of the heat balances.
    """

    heat: Array
    gain: HeatGain
    source_temperature: Array
    surface_temperature: Array
    compartment_air_temperature: Array
    coldest_shelf_temperature: Array
    warmest_shelf_temperature: Array
    air_temperature: Array
    liner_temperature: Array
    air: AirFlow
    surface: SurfaceHeat
    inside_humidity_ratio: Array
    inside_relative_humidity: Array
    frost_kg_per_day: Array
    residual: Array

    @property
    def shelf_spread(self) -> Array:
        """Warmest less coldest shelf [K]."""
        return self.warmest_shelf_temperature - self.coldest_shelf_temperature


@dataclass(frozen=True)
class _Parts:
    """The four things that a box is made of, and its walls as straight lines."""

    cabinet: Cabinet
    air_path: AirPath
    cold_side: ColdSide
    surroundings: Surroundings
    walls: WallTerms


@dataclass(frozen=True)
class _Pass:
    """What one pass holds still, and what it found."""

    held: HeldPass
    films: SurfaceFilms
    link: SourceLink
    flow: AirFlow
    to_return: Array
    humidity: Array


@dataclass(frozen=True)
class _Settling:
    """Moisture of one pass: humidity ratio, evaporation [kg/s], latent heat [W] and its slope."""

    humidity: Array
    evaporation: Array
    latent: Array
    latent_slope: Array


def _settling(
    parts: _Parts,
    exchange: AirExchange,
    air: Array,
    surface: Array,
    conductance: Array,
    mass_flow: Array,
) -> _Settling:
    """What settles on the cold surface, everything that feeds it held still."""
    pressure, contents = parts.surroundings.atmospheric_pressure, parts.cabinet.contents_moisture
    saturated, on_surface = (
        humidity_ratio(air, 1.0, pressure),
        humidity_ratio(surface, 1.0, pressure),
    )
    deposition = deposition_conductance(conductance, exchange.specific_heat, mass_flow)
    humidity = settled_humidity_ratio(
        exchange.total,
        exchange.room_humidity_ratio,
        contents,
        saturated,
        deposition,
        on_surface,
    )
    evaporation = contents_evaporation(contents, humidity, saturated)
    drier = exchange.room_humidity_ratio - humidity
    settling = np.maximum(exchange.total * drier + evaporation, 0.0)
    per_mass = deposit_latent_heat(surface)
    drawn = exchange.total + contents / (USUAL_DEFICIT * saturated)
    slope = per_mass * drawn * deposition / (drawn + deposition)
    slope = slope * saturation_slope(surface, on_surface)
    return _Settling(
        humidity=humidity,
        evaporation=evaporation,
        latent=lanes(settling * per_mass),
        latent_slope=lanes(np.where(humidity > on_surface, slope, 0.0)),
    )


def _held_pass(parts: _Parts, state: Array) -> _Pass:
    """Evaluate every film, flow and exchange at the temperatures of `state`."""
    cabinet, surroundings = parts.cabinet, parts.surroundings
    pressure = surroundings.atmospheric_pressure
    # a trial may run astray before it settles; moist air is asked only where it is air
    air = np.clip(state[AIR], COLDEST_FILM, WARMEST_FILM)
    surface = np.clip(state[SURFACE], COLDEST_FILM, 340.0)
    films = parts.cold_side.films(state[SURFACE], state[COMPARTMENT], state[LINER], pressure)
    link = parts.cold_side.source_link(state[SOURCE], state[INNER], films)
    conductance = films.convective_conductance
    convective = conductance * (state[COMPARTMENT] - state[SURFACE])
    flow = circulate(
        parts.air_path, convective, state[RETURN], pressure, surface_conductance=conductance
    )
    to_mean, to_return = air_resistances(parts.air_path, conductance, flow.heat_capacity_flow)
    exchange = air_exchange(cabinet, air, surroundings, state[MOISTURE] / MOISTURE_SCALE)
    moisture = _settling(parts, exchange, air, surface, conductance, flow.mass_flow)
    constant, slope = parts.walls.with_air(cabinet, surroundings, exchange, moisture.evaporation)
    held = HeldPass(
        walls=parts.walls,
        gain_constant=constant,
        gain_slope=slope,
        air_resistance=to_mean,
        source_resistance=link.resistance,
        radiation=films.radiative_conductance,
        latent=moisture.latent,
        # any slope ends at the same place; below a compartment's own surface it would only unsettle
        latent_slope=lanes(np.where(link.resistance > 0.0, moisture.latent_slope, 0.0)),
        held_surface=state[SURFACE],
    )
    humidity = moisture.humidity
    return _Pass(held, films, link, flow, to_return, humidity)


def _next_state(done: _Pass, found: NetworkTemperatures) -> Array:
    """Rows of the state after one pass."""
    heat = found.convective + found.radiative + found.latent
    rows = (
        found.surface,
        found.source + done.link.film_resistance * heat,
        found.surface + found.convective / done.films.convective_conductance,
        found.liner,
        found.air,
        found.surface + found.convective * done.to_return,
        found.source,
        done.humidity * MOISTURE_SCALE,
    )
    return np.stack(np.broadcast_arrays(*rows))


def _step_at_source(parts: _Parts, source: Array, state: Array) -> Array:
    """One pass with the source held [K]."""
    done = _held_pass(parts, state)
    return _next_state(done, solve_at_source(done.held, source))


def _step_at_air(parts: _Parts, target: Array, state: Array) -> Array:
    """One pass with the stored air held [K]."""
    done = _held_pass(parts, state)
    return _next_state(done, solve_at_air(done.held, target))


def _settled(parts: _Parts, passes: _Step, held: Array, first: tuple[Array, Array]) -> BoxState:
    """Repeat passes from a first guess of (source, air) until films and temperatures agree."""
    step = LaneSteps(passes, parts, held)
    source, air = np.broadcast_arrays(*first)
    surface = source + 0.3 * (air - source)
    pressure = parts.surroundings.atmospheric_pressure
    moisture = MOISTURE_SCALE * humidity_ratio(np.clip(surface, COLDEST_FILM, 340.0), 1.0, pressure)
    guess = (surface, source + 0.1 * (air - source), air, air, air, air, source, moisture)
    start = step(np.stack(np.broadcast_arrays(*guess)))
    return _state_of(parts, settle(step, start))


def _state_of(parts: _Parts, state: Array) -> BoxState:
    """Evaluate the box anew at settled temperatures; what does not close shows as residual."""
    surroundings, path = parts.surroundings, parts.air_path
    pressure = surroundings.atmospheric_pressure
    done = _held_pass(parts, state)
    humidity = lanes(state[MOISTURE] / MOISTURE_SCALE)
    temperatures = (state[SURFACE], state[INNER], state[COMPARTMENT], state[LINER])
    passed_on = lanes((state[SURFACE] - state[SOURCE]) / done.link.resistance)
    surface = heat_at(done.films, done.link, temperatures, done.held.latent, passed_on)
    gain = heat_gain(
        parts.cabinet,
        state[AIR],
        surroundings,
        humidity,
        latent_heat_per_mass=deposit_latent_heat(np.clip(state[SURFACE], COLDEST_FILM, 340.0)),
        liner_radiation=surface.radiative_heat_W,
    )
    chill = done.flow.temperature_drop
    mean = state[RETURN] - path.heating_centre * chill
    conductance = done.films.convective_conductance
    by_air = (mean - state[SURFACE]) / done.held.air_resistance
    misfits = (
        relative_residual(gain.total, surface.heat_W),
        surface.residual,
        np.abs(by_air - surface.convective_heat_W) / np.maximum(np.abs(surface.heat_W), 1e-3),
        conductance * np.abs(mean - state[AIR]) / np.maximum(np.abs(surface.heat_W), 1e-3),
        conductance
        * np.abs(gain.liner_temperature - state[LINER])
        / np.maximum(np.abs(surface.heat_W), 1e-3),
    )
    leaving = state[RETURN] - chill
    return BoxState(
        heat=surface.heat_W,
        gain=gain,
        source_temperature=state[SOURCE],
        surface_temperature=state[SURFACE],
        compartment_air_temperature=state[COMPARTMENT],
        coldest_shelf_temperature=lanes(np.minimum(leaving, state[RETURN])),
        warmest_shelf_temperature=lanes(np.maximum(leaving, state[RETURN])),
        air_temperature=state[AIR],
        liner_temperature=state[LINER],
        air=done.flow,
        surface=surface,
        inside_humidity_ratio=humidity,
        inside_relative_humidity=relative_humidity(state[AIR], humidity, pressure),
        frost_kg_per_day=lanes(gain.moisture_flow * SECONDS_PER_DAY),
        residual=lanes(np.max(np.broadcast_arrays(*misfits), axis=0)),
    )


def box_at_source(
    cabinet: Cabinet,
    air_path: AirPath,
    cold_side: ColdSide,
    source_temperature: FloatOrArray,
    surroundings: Surroundings,
) -> BoxState:
    """The box that a source of this temperature [K] holds, all heat balances closed.

    source_temperature: of the brine, or for a plate or bare tube the compartment's effective
    temperature (air and liner weighted by their conductances, latent heat added as a rise).
    Any sign of heat: a brine warmer than the room warms the box.
    """
    parts = _Parts(cabinet, air_path, cold_side, surroundings, WallTerms.of(cabinet, surroundings))
    source = lanes(source_temperature)
    air = 0.6 * source + 0.4 * surroundings.room_temperature
    return _settled(parts, _step_at_source, source, (source, lanes(air)))


def box_at_air(
    cabinet: Cabinet,
    air_path: AirPath,
    cold_side: ColdSide,
    target_air_temperature: FloatOrArray,
    surroundings: Surroundings,
) -> BoxState:
    """The source temperature that holds the mean stored air at a target [K], and the heat then.

    Whether a machine can bring that source is not asked here: a small or badly finned cold side
    answers with a very cold source, below what its brine stands.
    """
    parts = _Parts(cabinet, air_path, cold_side, surroundings, WallTerms.of(cabinet, surroundings))
    target = lanes(target_air_temperature)
    source = target - 0.5 * (surroundings.room_temperature - target)
    return _settled(parts, _step_at_air, target, (lanes(source), target))
