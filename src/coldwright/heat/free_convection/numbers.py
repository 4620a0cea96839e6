"""Dimensionless numbers of free convection, and the smooth greatest-of used to join regimes."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes

STANDARD_GRAVITY = 9.80665
"""Standard acceleration of free fall [m/s2], conventional value (CGPM 1901)."""


def rayleigh_number(
    temperature_difference: FloatOrArray,
    length: FloatOrArray,
    expansion_coefficient: FloatOrArray,
    kinematic_viscosity: FloatOrArray,
    thermal_diffusivity: FloatOrArray,
) -> Array:
    """Rayleigh number g beta |dT| L^3 / (nu alpha), broadcast over all arguments.

    temperature_difference: surface less fluid [K], either sign (its magnitude drives the flow);
    length: characteristic length of the shape [m]; expansion_coefficient [1/K];
    kinematic_viscosity, thermal_diffusivity [m2/s], all at film temperature, all > 0.
    Zero difference gives 0. Source: definition.
    """
    buoyancy = STANDARD_GRAVITY * lanes(expansion_coefficient) * np.abs(temperature_difference)
    return lanes(buoyancy * lanes(length) ** 3 / (kinematic_viscosity * lanes(thermal_diffusivity)))


def channel_rayleigh_number(
    temperature_difference: FloatOrArray,
    gap: FloatOrArray,
    height: FloatOrArray,
    expansion_coefficient: FloatOrArray,
    kinematic_viscosity: FloatOrArray,
    thermal_diffusivity: FloatOrArray,
) -> Array:
    """Channel (Elenbaas) Rayleigh number Ra_S S/L of a vertical channel.

    temperature_difference: wall less the air that enters [K]; gap S between the walls [m];
    height L of the warm or cold walls [m]; properties as in `rayleigh_number`.
    Source: W. Elenbaas (1942), Physica 9, 1-28 (definition; from memory).
    """
    on_gap = rayleigh_number(
        temperature_difference, gap, expansion_coefficient, kinematic_viscosity, thermal_diffusivity
    )
    return lanes(on_gap * lanes(gap) / height)


def film_coefficient(
    nusselt: FloatOrArray, conductivity: FloatOrArray, length: FloatOrArray
) -> Array:
    """Film coefficient Nu k / L [W/m2K] from the fluid's conductivity [W/mK] and length [m] > 0."""
    return lanes(lanes(nusselt) * conductivity / length)


def smooth_greatest(*values: FloatOrArray, power: float) -> Array:
    """Smooth stand-in for the greatest of some values >= 0, of which one at least is > 0.

    It is the sum of `power`-th powers, to 1/power; it lies above the true greatest by at most
    the factor n^(1/power), and only where values meet. Scaling by the greatest keeps the powers
    from overflowing.
    """
    stacked = np.broadcast_arrays(*(lanes(value) for value in values))
    greatest = stacked[0]
    for value in stacked[1:]:
        greatest = np.maximum(greatest, value)
    total = np.zeros_like(greatest)
    for value in stacked:
        total = total + (value / greatest) ** power
    return lanes(greatest * total ** (1.0 / power))
