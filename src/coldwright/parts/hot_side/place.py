"""What the cabinet's back and a wall of the room leave of a panel's convection and radiation.

Both are adiabatic to the air and stand half-way between panel and room for radiation: they warm up
and pass the heat on. A wall on the room's side hides the room by its view factor.
"""

from __future__ import annotations

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.film_properties import AirProperties
from coldwright.heat.free_convection.channel import share_before_wall
from coldwright.heat.free_convection.numbers import channel_rayleigh_number
from coldwright.heat.radiation import radiation_film_coefficient
from coldwright.heat.views import parallel_rectangles_view
from coldwright.parts.hot_side.condenser import Condenser

BACK_WARMTH = 0.5  # of the panel's excess over the room: assumed, no source


def share_of_film(air: AirProperties, excess: Array, gap: Array, height: Array) -> Array:
    """What a wall at `gap` [m] leaves of the film of a panel of `height` [m]."""
    rayleigh = channel_rayleigh_number(
        excess,
        gap,
        height,
        air.expansion_coefficient,
        air.kinematic_viscosity,
        air.thermal_diffusivity,
    )
    return share_before_wall(rayleigh)


def to_warmed_wall(surface: Array, room: FloatOrArray, factor: Array) -> Array:
    """Radiation film [W/m2K] on surface less room, to a wall that the surface has warmed."""
    wall = BACK_WARMTH * surface + (1.0 - BACK_WARMTH) * room
    return (1.0 - BACK_WARMTH) * radiation_film_coefficient(surface, wall, factor)


def room_side_radiation(
    condenser: Condenser, surface: Array, room: Array, to_room: Array, to_wall: Array
) -> Array:
    """Radiation film [W/m2K] of the room's side; exchange factors to room and to a wall there."""
    hidden = parallel_rectangles_view(
        condenser.sheet_width, condenser.sheet_height, condenser.wall_distance
    )
    free = radiation_film_coefficient(surface, room, to_room)
    return lanes((1.0 - hidden) * free + hidden * to_warmed_wall(surface, room, to_wall))
