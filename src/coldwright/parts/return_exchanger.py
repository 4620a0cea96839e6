"""The return-line exchanger: capillary on the suction line or inside it, in counterflow."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from coldwright.arrays import Array, lanes
from coldwright.fluids.refrigerants import Refrigerant, Saturated, Suction
from coldwright.heat.tube_gas import annulus_core_factor, tube_film_coefficient

# Share of liquid over which a returning gas passes from dry to wet.
WET_ROUNDING = 0.01


@dataclass(frozen=True)
class SuctionLine:
    """The suction line and the length of it that the capillary is joined to; arrays, SI."""

    inside_diameter: Array
    length: Array  # [m] whole
    joined_length: Array  # [m] with the capillary on it
    joint_conductance: Array  # [W/(m K)] per metre, from capillary to what the gas touches
    room_conductance: Array  # [W/(m K)] per metre of the rest, gas to room
    # Outside diameter of a capillary that runs inside the joined length; 0 where it runs outside.
    core_diameter: Array = field(default_factory=lambda: lanes(0.0))

    @property
    def volume(self) -> Array:
        """Inside volume [m3]."""
        core = self.core_diameter**2 * self.joined_length
        return np.pi / 4.0 * (self.inside_diameter**2 * self.length - core)


@dataclass(frozen=True)
class GasSide:
    """The gas in the joined length of the suction line; arrays over lanes."""

    inlet_temperature: Array  # [K] from the evaporator
    capacity: Array  # [J/(kg K)] enthalpy over temperature, evaporation of wet gas included
    transfer_units_per_metre: Array  # [1/m]

    def heat(self, felt_temperature: Array, joined_length: Array) -> Array:
        """Heat [J/kg] taken in from a capillary of `felt_temperature` [K] (see `capillary_flow`).

        Exact for a gas of constant capacity in counterflow with any course of temperature along the
        capillary: T_out = T_in e^-N + integral of n T e^-ns. Source: the linear equation of a
        single-pass exchanger side (Incropera and DeWitt, chapter 11, integrated).
        """
        approach = 1.0 - np.exp(-self.transfer_units_per_metre * joined_length)
        return lanes(self.capacity * (felt_temperature - self.inlet_temperature) * approach)


def gas_side(
    line: SuctionLine,
    refrigerant: Refrigerant,
    saturated: Saturated,
    leaving: Suction,
    mass_flow: Array,
    liquid_temperature: Array,
    exit_enthalpy: Array,
) -> GasSide:
    """The gas side of the exchanger, for gas (or wet gas) at `exit_enthalpy` [J/kg].

    Its capacity is the enthalpy rise up to the liquid's temperature over the temperature rise, so
    that wet gas counts its evaporation. The gas film (Gnielinski 2013; around a capillary inside
    the line on the hydraulic diameter, Petukhov and Roizen 1964) decides the conductance; the small
    bore's own film is far above it.
    """
    span = np.maximum(liquid_temperature - saturated.temperature, 0.1)
    hottest = refrigerant.vapour(saturated.pressure, saturated.temperature + span).enthalpy
    difference = np.maximum(liquid_temperature - leaving.temperature, 0.1)
    capacity = np.maximum(
        (hottest - exit_enthalpy) / difference, 0.2 * saturated.vapour_specific_heat
    )
    core = line.core_diameter
    inside = core > 0.0
    gas_film = tube_film_coefficient(
        mass_flow / (np.pi / 4.0 * (line.inside_diameter**2 - core**2)),
        line.inside_diameter - core,
        saturated.vapour_viscosity,
        saturated.vapour_conductivity,
        saturated.vapour_specific_heat,
    )
    gas_film = gas_film * annulus_core_factor(core / line.inside_diameter)
    wetted = np.pi * np.where(inside, core, line.inside_diameter)
    per_metre = 1.0 / (1.0 / (wetted * gas_film) + 1.0 / line.joint_conductance)
    return GasSide(leaving.temperature, capacity, per_metre / (mass_flow * capacity))


def line_heat(line: SuctionLine, mass_flow: Array, gas: Suction, room: Array) -> Array:
    """Heat [J/kg] that the gas takes from the room along the rest of the suction line.

    Dry gas approaches the room exponentially; wet gas stays at its saturation and takes the full
    difference all the way. The passage is rounded over WET_ROUNDING of quality.
    """
    rest = np.maximum(line.length - line.joined_length, 0.0)
    units = line.room_conductance * rest / (mass_flow * gas.specific_heat)
    liquid = np.maximum(1.0 - gas.quality, 0.0)
    wet = liquid / (liquid + WET_ROUNDING)
    approach = wet * units + (1.0 - wet) * (1.0 - np.exp(-units))
    return lanes(gas.specific_heat * (room - gas.temperature) * approach)
