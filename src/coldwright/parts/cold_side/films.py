"""Film coefficients [W/m2K] of air or brine in free convection, from a fluid's properties."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.film_properties import FilmProperties
from coldwright.fluids.moist_air import film_properties
from coldwright.heat.free_convection.channel import (
    developed_flow_constant,
    vertical_channel_nusselt,
)
from coldwright.heat.free_convection.channel import share_before_wall as share_of_channel
from coldwright.heat.free_convection.coil import helical_coil_nusselt
from coldwright.heat.free_convection.horizontal import (
    horizontal_cylinder_nusselt,
    horizontal_plate_stable_nusselt,
    horizontal_plate_unstable_nusselt,
)
from coldwright.heat.free_convection.numbers import (
    channel_rayleigh_number,
    film_coefficient,
    rayleigh_number,
)
from coldwright.heat.free_convection.vertical import (
    vertical_cylinder_nusselt,
    vertical_plate_nusselt,
)

COLDEST_FILM, WARMEST_FILM = 180.0, 400.0
"""Film temperatures [K] are held between these while a solution is still being sought."""


def air_at_film(
    surface_temperature: FloatOrArray, air_temperature: FloatOrArray, pressure: FloatOrArray
) -> FilmProperties:
    """Properties of air half-way between surface and air."""
    return film_properties(film_temperature(surface_temperature, air_temperature), pressure)


def film_temperature(surface_temperature: FloatOrArray, fluid_temperature: FloatOrArray) -> Array:
    """Mean of surface and fluid [K], held within `COLDEST_FILM` and `WARMEST_FILM`."""
    middle = 0.5 * (lanes(surface_temperature) + fluid_temperature)
    return lanes(np.clip(middle, COLDEST_FILM, WARMEST_FILM))


def _rayleigh(fluid: FilmProperties, difference: FloatOrArray, length: FloatOrArray) -> Array:
    # water below 4 C shrinks on warming: the flow turns over, its vigour stays
    return rayleigh_number(
        difference,
        length,
        np.abs(fluid.expansion_coefficient),
        fluid.kinematic_viscosity,
        fluid.thermal_diffusivity,
    )


def upright_plate_film(
    fluid: FilmProperties, difference: FloatOrArray, height: FloatOrArray
) -> Array:
    """Film on an upright plate of this height [m]; difference: surface less fluid, any sign [K]."""
    nusselt = vertical_plate_nusselt(_rayleigh(fluid, difference, height), fluid.prandtl)
    return film_coefficient(nusselt, fluid.conductivity, height)


def upright_cylinder_film(
    fluid: FilmProperties, difference: FloatOrArray, height: FloatOrArray, diameter: FloatOrArray
) -> Array:
    """Film on the outside of an upright cylinder; height and diameter [m]."""
    nusselt = vertical_cylinder_nusselt(
        _rayleigh(fluid, difference, height), fluid.prandtl, height, diameter
    )
    return film_coefficient(nusselt, fluid.conductivity, height)


def lying_cylinder_film(
    fluid: FilmProperties, difference: FloatOrArray, diameter: FloatOrArray
) -> Array:
    """Film on a lying cylinder of this diameter [m]."""
    nusselt = horizontal_cylinder_nusselt(_rayleigh(fluid, difference, diameter), fluid.prandtl)
    return film_coefficient(nusselt, fluid.conductivity, diameter)


def helical_coil_film(
    fluid: FilmProperties, difference: FloatOrArray, diameter: FloatOrArray
) -> Array:
    """Film on an upright helix of tube of this outside diameter [m]."""
    nusselt = helical_coil_nusselt(_rayleigh(fluid, difference, diameter))
    return film_coefficient(nusselt, fluid.conductivity, diameter)


def lying_plate_films(
    fluid: FilmProperties, difference: FloatOrArray, length: FloatOrArray
) -> tuple[Array, Array]:
    """Films of the face that drives its fluid away and of the face that holds it, in this order.

    length: area over perimeter [m]. A cold plate drives away air from its lower face.
    """
    rayleigh = _rayleigh(fluid, difference, length)
    return (
        film_coefficient(horizontal_plate_unstable_nusselt(rayleigh), fluid.conductivity, length),
        film_coefficient(horizontal_plate_stable_nusselt(rayleigh), fluid.conductivity, length),
    )


def _channel_rayleigh(
    fluid: FilmProperties, difference: FloatOrArray, gap: FloatOrArray, height: FloatOrArray
) -> Array:
    return channel_rayleigh_number(
        difference,
        gap,
        height,
        fluid.expansion_coefficient,
        fluid.kinematic_viscosity,
        fluid.thermal_diffusivity,
    )


def channel_film(
    fluid: FilmProperties, difference: FloatOrArray, gap: FloatOrArray, height: FloatOrArray
) -> Array:
    """Film on both walls of an upright channel, as between fins; gap and height [m].

    Bar-Cohen and Rohsenow 1984; on tall walls their plate limit (0.59 Ra^0.25) lies under the plate
    film that the bare surface has here, which then takes its place in the same joining: a gap that
    widens ends at the bare surface and not below it.
    """
    rayleigh = _channel_rayleigh(fluid, difference, gap, height)
    published = film_coefficient(vertical_channel_nusselt(rayleigh), fluid.conductivity, gap)
    developed = film_coefficient(
        rayleigh / np.sqrt(developed_flow_constant(True)), fluid.conductivity, gap
    )
    plate = upright_plate_film(fluid, difference, height)
    return lanes(np.maximum(published, developed * plate / np.hypot(developed, plate)))


def share_before_wall(
    fluid: FilmProperties, difference: FloatOrArray, gap: FloatOrArray, height: FloatOrArray
) -> Array:
    """What a wall at a gap [m] behind a plate leaves of the plate's film, 0 to 1.

    The channel formula (one wall active) over its own limit of a wide gap.
    """
    return share_of_channel(_channel_rayleigh(fluid, difference, gap, height))
