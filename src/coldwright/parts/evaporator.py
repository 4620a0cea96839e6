"""The refrigerant side of the cold surface: a wet length, then a dry one, in one tube.

The cold side (vessel, plate or bare tube) gives the conductance from the tube's outer wall to the
*source*: the brine round a coil, the compartment air round a plate. The heat that the tube takes
in follows explicitly from flow, inlet enthalpy and evaporating temperature.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

import numpy as np

from coldwright.arrays import Array, lanes
from coldwright.fluids.refrigerants import Saturated
from coldwright.heat.boiling import flow_boiling_film_coefficient
from coldwright.heat.tube_gas import tube_film_coefficient
from coldwright.heat.two_phase import mean_density
from coldwright.parts.rounding import rounded_minimum

WALL_PASSES = 4
BOILING_QUALITIES = np.array([0.25, 0.5, 0.75])


class ColdSide(Protocol):
    """What the evaporator asks of a vessel, a plate or a bare tube."""

    def outer_conductance_per_length(
        self, source_temperature: Array, tube_wall_temperature: Array
    ) -> Array:
        """Conductance [W/(m K)] per metre of tube, from its outer wall to the source."""
        ...


@dataclass(frozen=True)
class BoilingTube:
    """The immersed part of the cold side's tube, in which the refrigerant boils; arrays, m."""

    inside_diameter: Array
    length: Array
    wall_resistance: Array  # [m K/W] of one metre of tube wall

    @property
    def area(self) -> Array:
        """Flow area [m2]."""
        return np.pi / 4.0 * self.inside_diameter**2

    @property
    def volume(self) -> Array:
        """Inside volume [m3]."""
        return self.area * self.length


@dataclass(frozen=True)
class EvaporatorState:
    """What the evaporator does; arrays over lanes."""

    heat: Array  # [W] into the refrigerant
    exit_enthalpy: Array  # [J/kg]
    wet_share: Array  # of the length, 0 to 1
    mass: Array  # [kg] of refrigerant held
    wall_temperature: Array  # [K] outer tube wall along the wet length
    outer_conductance: Array  # [W/(m K)] tube wall to source
    film_coefficient: Array  # [W/(m2 K)] boiling
    boiling_length: Array  # [m] that boiling to dryness needs; may exceed the tube
    gas_length: Array  # [m] over which dry gas closes all but 1/e of its distance to the source

    def superheating_length(self, share: Array) -> Array:
        """Length [m] in which dry gas comes this share (0 to 1) of the way up to the source.

        -ln(1 - share) times `gas_length`. Source: effectiveness of an exchanger with one even
        side (any heat transfer text).
        """
        return lanes(-np.log1p(-share) * self.gas_length)


def evaporate(
    tube: BoilingTube,
    cold_side: ColdSide,
    saturated: Saturated,
    mass_flow: Array,
    inlet_enthalpy: Array,
    source_temperature: Array,
) -> EvaporatorState:
    """Heat, exit state and content of the tube at one evaporating temperature.

    Wet length: flow boiling (Gungor and Winterton 1987) in series with wall and outer conductance;
    dry length: gas film (Gnielinski 2013) and exponential approach to the source. Pressure drop in
    the tube is left out here (the audit reports it).
    """
    flux = mass_flow / tube.area
    wall, outer_wet, per_metre, film = _wet(tube, cold_side, saturated, flux, source_temperature)
    difference = source_temperature - saturated.temperature
    # A source colder than the refrigerant boils none of it: the whole tube then stays wet, and the
    # heat runs the other way.
    driving = 0.5 * (difference + np.sqrt(difference**2 + 0.02**2))
    to_boil = mass_flow * (saturated.vapour_enthalpy - inlet_enthalpy)
    boiling_length = np.maximum(to_boil, 0.0) / (per_metre * driving)
    wet = rounded_minimum(boiling_length / tube.length, 1.0)
    wet_heat = per_metre * difference * tube.length * wet
    leaving_wet = inlet_enthalpy + wet_heat / mass_flow

    gas_film = tube_film_coefficient(
        flux,
        tube.inside_diameter,
        saturated.vapour_viscosity,
        saturated.vapour_conductivity,
        saturated.vapour_specific_heat,
    )
    dry_per_metre = 1.0 / (
        1.0 / (np.pi * tube.inside_diameter * gas_film) + tube.wall_resistance + 1.0 / outer_wet
    )
    capacity_rate = mass_flow * saturated.vapour_specific_heat
    transfer_units = dry_per_metre * tube.length * (1.0 - wet) / capacity_rate
    dry_heat = capacity_rate * difference * (1.0 - np.exp(-transfer_units))
    exit_enthalpy = leaving_wet + dry_heat / mass_flow
    return EvaporatorState(
        heat=wet_heat + dry_heat,
        exit_enthalpy=exit_enthalpy,
        wet_share=wet,
        mass=_content(tube, saturated, wet, inlet_enthalpy, leaving_wet),
        wall_temperature=wall,
        outer_conductance=outer_wet,
        film_coefficient=film,
        boiling_length=boiling_length,
        gas_length=capacity_rate / dry_per_metre,
    )


def _wet(
    tube: BoilingTube,
    cold_side: ColdSide,
    saturated: Saturated,
    flux: Array,
    source: Array,
) -> tuple[Array, Array, Array, Array]:
    """Wall temperature, outer and total conductance per metre, and the boiling film."""
    span = source - saturated.temperature
    wall = saturated.temperature + 0.15 * span
    perimeter = np.pi * tube.inside_diameter
    qualities = BOILING_QUALITIES.reshape(-1, *[1] * np.ndim(span + flux))
    for _ in range(WALL_PASSES):
        outside = cold_side.outer_conductance_per_length(source, wall)
        heat_flux = outside * np.abs(source - wall) / perimeter
        film = flow_boiling_film_coefficient(
            flux,
            qualities,
            tube.inside_diameter,
            heat_flux,
            saturated.latent_heat,
            saturated.liquid_density,
            saturated.vapour_density,
            saturated.liquid_viscosity,
            saturated.liquid_conductivity,
            saturated.liquid_specific_heat,
        ).mean(axis=0)
        inside = 1.0 / (1.0 / (perimeter * film) + tube.wall_resistance)
        total = 1.0 / (1.0 / inside + 1.0 / outside)
        wall = source - total / outside * span
    return wall, outside, total, film


def _content(
    tube: BoilingTube, saturated: Saturated, wet: Array, entering: Array, leaving: Array
) -> Array:
    """Mass held [kg]: even heat flux along the wet length, saturated vapour along the dry one."""
    latent = saturated.latent_heat
    first = (entering - saturated.liquid_enthalpy) / latent
    last = (leaving - saturated.liquid_enthalpy) / latent
    wet_density = mean_density(first, last, saturated.liquid_density, saturated.vapour_density)
    return tube.volume * (wet * wet_density + (1.0 - wet) * saturated.vapour_density)
