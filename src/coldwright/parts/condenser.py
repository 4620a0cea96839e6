"""The refrigerant in a condenser of any kind: gas cooled, condensed and subcooled along one tube.

The three zones share the tube's length; what stands outside it is in `hot_side`.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.refrigerants import Saturated, Vapour
from coldwright.heat.condensing import condensing_film_coefficient
from coldwright.heat.tube_gas import tube_film_coefficient
from coldwright.heat.two_phase import mean_density
from coldwright.parts.hot_side.condenser import LEAST_DIFFERENCE, Condenser, Outside
from coldwright.parts.rounding import rounded_minimum

CONDENSING_QUALITIES = np.array([0.15, 0.5, 0.85])
USUAL_FILM = 4000.0  # W/(m2 K), where the search for the condensing film starts


@dataclass(frozen=True)
class CondenserState:
    """What the condenser does; arrays over lanes."""

    heat: Array  # [W] shed
    exit_enthalpy: Array  # [J/kg]
    gas_share: Array  # of the length that cools gas
    condensing_share: Array
    liquid_share: Array
    mass: Array  # [kg] of refrigerant held
    outside: Outside  # of the condensing length
    film_coefficient: Array  # [W/(m2 K)] condensing


def condense(
    condenser: Condenser,
    saturated: Saturated,
    inlet: Vapour,
    mass_flow: Array,
    room_temperature: Array,
    pressure: Array,
) -> CondenserState:
    """Heat, exit state and content at one condensing temperature; `inlet` is the discharge gas.

    Gas zone: Gnielinski 2013 inside, exponential approach to the room; condensing zone: Dobson and
    Chato 1998; liquid zone: Gnielinski again. Energy closes exactly: each zone hands on its
    enthalpy. The sink is that of the condensing length. Pressure drop: see `pressure_losses`.
    """
    flux = mass_flow / condenser.area
    superheat, gas_outer = _around_gas(condenser, saturated, inlet, room_temperature, pressure)
    per_metre, outside, film = _condensing_conductance(
        condenser, saturated, flux, room_temperature, pressure, gas_outer
    )
    driving = driving_difference(saturated.temperature, outside.sink_temperature)

    gas_share, after_gas, gas_density = _gas_zone(
        condenser, saturated, inlet, mass_flow, superheat, gas_outer, driving
    )
    rest = 1.0 - gas_share
    reach = per_metre * driving * condenser.length / mass_flow  # J/kg that the whole tube can take
    to_liquid = np.maximum(after_gas - saturated.liquid_enthalpy, 0.0)
    condensing_share = rounded_minimum(to_liquid / reach, rest)
    after_condensing = after_gas - reach * condensing_share

    liquid_share = rest - condensing_share
    liquid_per_metre = _single_phase_conductance(
        condenser,
        flux,
        saturated.liquid_viscosity,
        saturated.liquid_conductivity,
        saturated.liquid_specific_heat,
        outside.conductance,
    )
    capacity_rate = mass_flow * saturated.liquid_specific_heat
    units = liquid_per_metre * condenser.length * liquid_share / capacity_rate
    subcooling = driving * (1.0 - np.exp(-units))
    exit_enthalpy = after_condensing - saturated.liquid_specific_heat * subcooling

    return CondenserState(
        heat=mass_flow * (inlet.enthalpy - exit_enthalpy),
        exit_enthalpy=exit_enthalpy,
        gas_share=gas_share,
        condensing_share=condensing_share,
        liquid_share=liquid_share,
        mass=condenser.volume
        * (
            gas_share * gas_density
            + condensing_share * _condensing_density(saturated, after_gas, after_condensing)
            + liquid_share * saturated.liquid_density
        ),
        outside=outside,
        film_coefficient=film,
    )


def driving_difference(condensing_temperature: Array, sink_temperature: Array) -> Array:
    """What drives the condensing zone's heat [K]: condensing over the sink, rounded above nothing.

    Temperatures [K].
    """
    difference = condensing_temperature - sink_temperature
    return lanes(0.5 * (difference + np.sqrt(difference**2 + 4.0 * LEAST_DIFFERENCE**2)))


def _condensing_density(saturated: Saturated, entering: Array, leaving: Array) -> Array:
    """Mean density [kg/m3] between two enthalpies of the condensing zone."""
    latent = saturated.latent_heat
    return mean_density(
        (entering - saturated.liquid_enthalpy) / latent,
        (leaving - saturated.liquid_enthalpy) / latent,
        saturated.liquid_density,
        saturated.vapour_density,
    )


def _around_gas(
    condenser: Condenser, saturated: Saturated, inlet: Vapour, room: Array, pressure: Array
) -> tuple[Array, Array]:
    """Superheat of the gas [K] and the outer conductance [W/(m K)] of the length that cools it."""
    superheat = np.maximum(inlet.temperature - saturated.temperature, 1e-3)
    wall = saturated.temperature + 0.3 * superheat
    return superheat, condenser.outside(wall, room, pressure).conductance


def _gas_zone(
    condenser: Condenser,
    saturated: Saturated,
    inlet: Vapour,
    mass_flow: Array,
    superheat: Array,
    outer: Array,
    driving: Array,
) -> tuple[Array, Array, Array]:
    """Share of the length that cools gas, the enthalpy after it, and its mean density."""
    specific_heat = (inlet.enthalpy - saturated.vapour_enthalpy) / superheat
    specific_heat = np.maximum(specific_heat, 0.5 * saturated.vapour_specific_heat)
    per_metre = _single_phase_conductance(
        condenser,
        mass_flow / condenser.area,
        saturated.vapour_viscosity,
        saturated.vapour_conductivity,
        saturated.vapour_specific_heat,
        outer,
    )
    entering = driving + superheat
    whole = per_metre * condenser.length / (mass_flow * specific_heat)
    share = rounded_minimum(np.log(entering / driving) / whole, 1.0)
    cooled = entering * (1.0 - np.exp(-whole * share))
    # Mean excess of an exponential approach; the volume goes nearly straight with temperature.
    units = np.maximum(whole * share, 1e-6)
    above = entering * -np.expm1(-units) / units - driving
    swell = 1.0 / inlet.density - 1.0 / saturated.vapour_density
    volume = 1.0 / saturated.vapour_density + swell * np.clip(above / superheat, 0.0, 1.0)
    return share, inlet.enthalpy - specific_heat * cooled, 1.0 / volume


def _single_phase_conductance(
    condenser: Condenser,
    flux: Array,
    viscosity: Array,
    conductivity: Array,
    specific_heat: Array,
    outer: Array,
) -> Array:
    film = tube_film_coefficient(
        flux, condenser.inside_diameter, viscosity, conductivity, specific_heat
    )
    return 1.0 / (1.0 / (np.pi * condenser.inside_diameter * film) + 1.0 / outer)


def _condensing_conductance(
    condenser: Condenser,
    saturated: Saturated,
    flux: Array,
    room: Array,
    pressure: Array,
    gas_outer: Array,
) -> tuple[Array, Outside, Array]:
    """Total conductance per metre [W/(m K)], the outside, and the film inside [W/(m2 K)].

    The outside of the gas length, `gas_outer`, differs by a few per cent: near enough to tell how
    far the tube's wall stands under the refrigerant.
    """
    perimeter = np.pi * condenser.inside_diameter
    condensing = saturated.temperature
    excess = np.abs(condensing - room)
    qualities = CONDENSING_QUALITIES.reshape(-1, *[1] * np.ndim(gas_outer * excess + flux))

    def found(film: FloatOrArray, outer: Array) -> tuple[Array, Array]:
        """The film that carries the heat which `film` would let pass; resistance to the wall."""
        inside = 1.0 / (perimeter * film) + condenser.tube_resistance
        fresh = condensing_film_coefficient(
            flux,
            qualities,
            condenser.inside_diameter,
            excess / (inside + 1.0 / outer) / (perimeter * film),
            saturated.latent_heat,
            saturated.liquid_density,
            saturated.vapour_density,
            saturated.liquid_viscosity,
            saturated.vapour_viscosity,
            saturated.liquid_conductivity,
            saturated.liquid_specific_heat,
        ).mean(axis=0)
        return fresh, 1.0 / (perimeter * fresh) + condenser.tube_resistance

    # The film goes with the inverse fourth root of its difference: each pass quarters the error.
    film, inside = found(USUAL_FILM, gas_outer)
    drop = inside / (inside + 1.0 / gas_outer)
    outside = condenser.outside(condensing - drop * (condensing - room), room, pressure)
    film, inside = found(film, outside.conductance)
    return 1.0 / (inside + 1.0 / outside.conductance), outside, film
