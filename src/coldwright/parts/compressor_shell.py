"""The compressor's shell in still air: its conductance from its size, and how slowly it cools."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids import moist_air
from coldwright.heat.free_convection.horizontal import horizontal_plate_unstable_nusselt
from coldwright.heat.free_convection.numbers import rayleigh_number
from coldwright.heat.free_convection.vertical import vertical_plate_nusselt
from coldwright.heat.radiation import radiation_film_coefficient

# Black paint, and the temperatures at which the conductance is taken [K]: a warm shell in a room.
EMISSIVITY = 0.9
WARM_SHELL, ROOM = 338.15, 298.15
# Iron, copper and oil of the shell's contents [J/(kg K)]: common practice, no source.
SHELL_SPECIFIC_HEAT = 500.0
# The winding's heat reaches the shell through gas and oil as if by this many times the shell's own
# conductance to the room; assumed, no source.
WINDING_CONDUCTANCE_RATIO = 1.4


def shell_conductance(
    diameter: FloatOrArray,
    height: FloatOrArray,
    shell_temperature: FloatOrArray = WARM_SHELL,
    room_temperature: FloatOrArray = ROOM,
) -> Array:
    """Heat [W/K] from an upright shell (an oval one: its mean diameter) to still air and room.

    Side by `vertical_plate_nusselt`, domed top by `horizontal_plate_unstable_nusselt` on a quarter
    of the diameter, underside radiating only (the base and feet keep the air still), all painted.
    At sea level. Sizes [m], temperatures [K]; the shell warmer than the room.
    """
    d, h = lanes(diameter), lanes(height)
    warm, room = lanes(shell_temperature), lanes(room_temperature)
    air = moist_air.film_properties(0.5 * (warm + room))

    def rayleigh(length: Array) -> Array:
        return rayleigh_number(
            warm - room,
            length,
            air.expansion_coefficient,
            air.kinematic_viscosity,
            air.thermal_diffusivity,
        )

    top = 0.25 * np.pi * d**2
    side = np.pi * d * h
    upright = vertical_plate_nusselt(rayleigh(h), air.prandtl) * air.conductivity / h
    level = horizontal_plate_unstable_nusselt(rayleigh(0.25 * d)) * air.conductivity / (0.25 * d)
    radiation = radiation_film_coefficient(warm, room, EMISSIVITY)
    return lanes(upright * side + level * top + radiation * (side + 2.0 * top))


def cooling_time(mass: FloatOrArray, conductance: FloatOrArray) -> Array:
    """Time constant [s] with which a stopped shell of `mass` [kg] cools through `conductance`.

    Lumped: the shell's contents at one temperature (`SHELL_SPECIFIC_HEAT`).
    """
    return lanes(SHELL_SPECIFIC_HEAT * lanes(mass) / conductance)


def winding_temperature(
    shell_temperature: FloatOrArray,
    power: FloatOrArray,
    motor_efficiency: FloatOrArray,
    conductance: FloatOrArray,
) -> Array:
    """Mean winding temperature [K]: the motor's own heat has to reach the shell.

    T = T_shell + P (1 - efficiency) / (1.4 conductance); good to some 15 K (assumed, no source).
    """
    heat = lanes(power) * (1.0 - lanes(motor_efficiency))
    return lanes(shell_temperature + heat / (WINDING_CONDUCTANCE_RATIO * lanes(conductance)))
