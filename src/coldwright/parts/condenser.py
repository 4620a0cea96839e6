"""A tube-on-sheet condenser cooled by still air: its outside, then the refrigerant's three zones.

Outside: each face of the sheet loses heat by free convection and radiation; the face toward the
cabinet stands in a channel (gap, chimney). The sheet is a fin between the runs of tube, behind the
bond. Inside: gas is cooled, condensed and subcooled along one tube, and the zones share its length.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids import moist_air
from coldwright.fluids.refrigerants import Saturated, Vapour
from coldwright.heat.condensing import condensing_film_coefficient
from coldwright.heat.fins import tube_on_sheet_conductance
from coldwright.heat.free_convection.chimney import chimney_channel_film_coefficient
from coldwright.heat.free_convection.numbers import film_coefficient, rayleigh_number
from coldwright.heat.free_convection.vertical import vertical_plate_nusselt
from coldwright.heat.radiation import parallel_plates_exchange_factor, radiation_film_coefficient
from coldwright.heat.tube_gas import tube_film_coefficient
from coldwright.heat.two_phase import mean_density
from coldwright.parts.rounding import rounded_minimum

CONDENSING_QUALITIES = np.array([0.15, 0.5, 0.85])
FILM_PASSES = 3
# A zone's temperature difference to the air is held above this, so that logarithms stay finite
# in a starved system whose condensing temperature sinks to the room's.
LEAST_DIFFERENCE = 0.05


@dataclass(frozen=True)
class Condenser:
    """A tube-on-sheet condenser; arrays over lanes, SI."""

    inside_diameter: Array
    outside_diameter: Array
    length: Array
    tube_conductivity: Array
    sheet_width: Array
    sheet_height: Array
    sheet_thickness: Array
    sheet_conductivity: Array
    bond_conductance: Array  # [W/(m K)] per metre of tube
    emissivity: Array
    gap: Array  # [m] to the cabinet's back
    chimney_height: Array  # [m] of duct of the same gap above the sheet
    opening_loss: Array  # loss coefficient of the channel's openings
    back_emissivity: Array  # of the cabinet's back
    shaded_fraction: Array  # of both faces that trim or frame keeps from the air

    @property
    def area(self) -> Array:
        """Flow area of the tube [m2]."""
        return np.pi / 4.0 * self.inside_diameter**2

    @property
    def volume(self) -> Array:
        """Inside volume of the tube [m3]."""
        return self.area * self.length

    @property
    def pitch(self) -> Array:
        """Distance between runs [m] when the tube covers the sheet evenly."""
        return self.sheet_width * self.sheet_height / self.length

    def face_coefficients(
        self,
        sheet_temperature: FloatOrArray,
        room_temperature: FloatOrArray,
        pressure: FloatOrArray,
    ) -> tuple[Array, Array]:
        """Film coefficients [W/(m2 K)] of open and channel face, radiation included.

        Open face: vertical plate (Churchill and Chu 1975) and
        radiation to the room. Channel face: one warm wall before the cabinet's back (Bar-Cohen and
        Rohsenow 1984, chimney added); the back is taken as adiabatic for the channel and half-way
        in temperature for radiation.
        """
        sheet, room = lanes(sheet_temperature), lanes(room_temperature)
        excess = sheet - room
        air = moist_air.film_properties(0.5 * (sheet + room), pressure)
        rayleigh = rayleigh_number(
            excess,
            self.sheet_height,
            air.expansion_coefficient,
            air.kinematic_viscosity,
            air.thermal_diffusivity,
        )
        plate = film_coefficient(
            vertical_plate_nusselt(rayleigh, air.prandtl),
            air.conductivity,
            self.sheet_height,
        )
        open_face = plate + radiation_film_coefficient(sheet, room, self.emissivity)
        channel = chimney_channel_film_coefficient(
            excess,
            self.gap,
            self.sheet_height,
            chimney_height=self.chimney_height,
            opening_loss=self.opening_loss,
            conductivity=air.conductivity,
            expansion_coefficient=air.expansion_coefficient,
            kinematic_viscosity=air.kinematic_viscosity,
            thermal_diffusivity=air.thermal_diffusivity,
        )
        facing = parallel_plates_exchange_factor(self.emissivity, self.back_emissivity)
        back = 0.5 * (sheet + room)
        radiated = 0.5 * radiation_film_coefficient(sheet, back, facing)
        return open_face, channel + radiated

    def outer_conductance(
        self, wall_temperature: FloatOrArray, room_temperature: FloatOrArray, pressure: FloatOrArray
    ) -> Array:
        """Conductance [W/(m K)] per metre of tube, from its outer wall to the room.

        The film coefficients are those of the sheet's mean temperature, found in a few passes.
        """
        wall, room = lanes(wall_temperature), lanes(room_temperature)
        difference = wall - room
        # Rounded magnitude: a wall at room temperature still has a film.
        excess = np.sqrt(difference**2 + LEAST_DIFFERENCE**2)
        sheet = room + 0.8 * excess
        for _ in range(FILM_PASSES):
            both = (1.0 - self.shaded_fraction) * sum(self.face_coefficients(sheet, room, pressure))
            conductance = tube_on_sheet_conductance(
                both,
                self.pitch,
                self.outside_diameter,
                self.sheet_conductivity,
                self.sheet_thickness,
                self.bond_conductance,
            )
            sheet = room + excess * np.minimum(conductance / (both * self.pitch), 1.0)
        return conductance


@dataclass(frozen=True)
class CondenserState:
    """What the condenser does; arrays over lanes."""

    heat: Array  # [W] shed
    exit_enthalpy: Array  # [J/kg]
    gas_share: Array  # of the length that cools gas
    condensing_share: Array
    liquid_share: Array
    mass: Array  # [kg] of refrigerant held
    outer_conductance: Array  # [W/(m K)] along the condensing length
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
    enthalpy. Pressure drop is left out.
    """
    flux = mass_flow / condenser.area
    difference = saturated.temperature - room_temperature
    driving = 0.5 * (difference + np.sqrt(difference**2 + 4.0 * LEAST_DIFFERENCE**2))

    gas_share, after_gas, gas_density = _gas_zone(
        condenser, saturated, inlet, mass_flow, room_temperature, pressure, driving
    )
    per_metre, outer, film = _condensing_conductance(
        condenser, saturated, flux, room_temperature, pressure
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
        outer,
    )
    capacity_rate = mass_flow * saturated.liquid_specific_heat
    units = liquid_per_metre * condenser.length * liquid_share / capacity_rate
    subcooling = driving * (1.0 - np.exp(-units))
    exit_enthalpy = after_condensing - saturated.liquid_specific_heat * subcooling

    condensing_density = _condensing_density(saturated, after_gas, after_condensing)
    return CondenserState(
        heat=mass_flow * (inlet.enthalpy - exit_enthalpy),
        exit_enthalpy=exit_enthalpy,
        gas_share=gas_share,
        condensing_share=condensing_share,
        liquid_share=liquid_share,
        mass=condenser.volume
        * (
            gas_share * gas_density
            + condensing_share * condensing_density
            + liquid_share * saturated.liquid_density
        ),
        outer_conductance=outer,
        film_coefficient=film,
    )


def _condensing_density(saturated: Saturated, entering: Array, leaving: Array) -> Array:
    """Mean density [kg/m3] between two enthalpies of the condensing zone."""
    latent = saturated.latent_heat
    return mean_density(
        (entering - saturated.liquid_enthalpy) / latent,
        (leaving - saturated.liquid_enthalpy) / latent,
        saturated.liquid_density,
        saturated.vapour_density,
    )


def _gas_zone(
    condenser: Condenser,
    saturated: Saturated,
    inlet: Vapour,
    mass_flow: Array,
    room: Array,
    pressure: Array,
    driving: Array,
) -> tuple[Array, Array, Array]:
    """Share of the length that cools gas, the enthalpy after it, and its mean density."""
    superheat = np.maximum(inlet.temperature - saturated.temperature, 1e-3)
    specific_heat = (inlet.enthalpy - saturated.vapour_enthalpy) / superheat
    specific_heat = np.maximum(specific_heat, 0.5 * saturated.vapour_specific_heat)
    wall = saturated.temperature + 0.3 * superheat
    outer = condenser.outer_conductance(wall, room, pressure)
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
    mean_temperature = saturated.temperature + superheat - 0.5 * cooled
    # Ideal-gas scaling of the saturated vapour's density: content of this zone is a small part.
    density = saturated.vapour_density * saturated.temperature / mean_temperature
    return share, inlet.enthalpy - specific_heat * cooled, density


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
) -> tuple[Array, Array, Array]:
    """Total and outer conductance per metre [W/(m K)], and the film inside [W/(m2 K)]."""
    perimeter = np.pi * condenser.inside_diameter
    tube = np.log(condenser.outside_diameter / condenser.inside_diameter) / (
        2.0 * np.pi * condenser.tube_conductivity
    )
    # The film inside is ten times the outer conductance or more: the wall is near the refrigerant.
    condensing = saturated.temperature
    outer = condenser.outer_conductance(condensing - 0.05 * (condensing - room), room, pressure)
    wall_difference = outer * np.abs(condensing - room) / (perimeter * 2000.0) + 0.1
    film = condensing_film_coefficient(
        flux,
        CONDENSING_QUALITIES.reshape(-1, *[1] * np.ndim(wall_difference + flux)),
        condenser.inside_diameter,
        wall_difference,
        saturated.latent_heat,
        saturated.liquid_density,
        saturated.vapour_density,
        saturated.liquid_viscosity,
        saturated.vapour_viscosity,
        saturated.liquid_conductivity,
        saturated.liquid_specific_heat,
    ).mean(axis=0)
    return 1.0 / (1.0 / (perimeter * film) + tube + 1.0 / outer), outer, film
