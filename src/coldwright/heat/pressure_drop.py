"""Pressure drop along a round tube: one phase, or two with quality changing along it."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.heat.friction import darcy_friction_factor
from coldwright.heat.two_phase import GAUSS_PLACES, GAUSS_SHARES, smith_void_fraction
from coldwright.sources import correlation


def friction_gradient(
    mass_flux: FloatOrArray,
    diameter: FloatOrArray,
    density: FloatOrArray,
    viscosity: FloatOrArray,
    relative_roughness: FloatOrArray = 0.0,
) -> Array:
    """Pressure drop by friction of one phase for a metre of tube [Pa/m], f G^2 / (2 rho d).

    mass_flux G [kg/(m2 s)] >= 0; diameter [m], density [kg/m3], viscosity [Pa s] > 0;
    relative_roughness: height over diameter. Source: Darcy and Weisbach with the factor of
    `darcy_friction_factor`.
    """
    flux, bore = lanes(mass_flux), lanes(diameter)
    factor = darcy_friction_factor(flux * bore / viscosity, relative_roughness)
    return lanes(factor * flux**2 / (2.0 * bore * lanes(density)))


@correlation(
    quantity="friction pressure drop of a two-phase flow in a tube",
    source="mueller_steinhagen_heck_1986",
    ranges={"quality": (0.0, 1.0), "diameter": (0.004, 0.392), "mass_flux": (50.0, 2490.0)},
    bias="mean deviation 42 % on its 9300 data; for refrigerants in small tubes about 30 %",
)
def two_phase_friction_gradient(
    mass_flux: FloatOrArray,
    quality: FloatOrArray,
    diameter: FloatOrArray,
    liquid_density: FloatOrArray,
    vapour_density: FloatOrArray,
    liquid_viscosity: FloatOrArray,
    vapour_viscosity: FloatOrArray,
) -> Array:
    """Friction of a two-phase flow for a metre of tube [Pa/m].

    [A + 2 (B - A) x] (1 - x)^(1/3) + B x^3, A and B the gradients with all of the flow liquid and
    all of it vapour. SI; quality x is held within 0 and 1. Source: Mueller-Steinhagen and Heck
    (1986), Chemical Engineering and Processing 20, 297-308 (from memory).
    """
    x = np.clip(lanes(quality), 0.0, 1.0)
    liquid = friction_gradient(mass_flux, diameter, liquid_density, liquid_viscosity)
    vapour = friction_gradient(mass_flux, diameter, vapour_density, vapour_viscosity)
    rising = liquid + 2.0 * (vapour - liquid) * x
    return lanes(rising * np.cbrt(1.0 - x) + vapour * x**3)


def two_phase_friction(
    mass_flux: FloatOrArray,
    first_quality: FloatOrArray,
    last_quality: FloatOrArray,
    length: FloatOrArray,
    diameter: FloatOrArray,
    liquid_density: FloatOrArray,
    vapour_density: FloatOrArray,
    liquid_viscosity: FloatOrArray,
    vapour_viscosity: FloatOrArray,
) -> Array:
    """Friction pressure drop [Pa] of a tube along which quality runs evenly from first to last.

    Five-point Gauss quadrature of `two_phase_friction_gradient` (even heat flux); length [m].
    """
    first, last = np.clip(lanes(first_quality), 0.0, 1.0), np.clip(lanes(last_quality), 0.0, 1.0)
    quality = first[..., None] + (last - first)[..., None] * GAUSS_PLACES
    gradients = two_phase_friction_gradient(
        lanes(mass_flux)[..., None],
        quality,
        lanes(diameter)[..., None],
        lanes(liquid_density)[..., None],
        lanes(vapour_density)[..., None],
        lanes(liquid_viscosity)[..., None],
        lanes(vapour_viscosity)[..., None],
    )
    return lanes(gradients @ GAUSS_SHARES * length)


def momentum_flux(
    mass_flux: FloatOrArray,
    quality: FloatOrArray,
    liquid_density: FloatOrArray,
    vapour_density: FloatOrArray,
) -> Array:
    """Momentum carried through a section [Pa]: G^2 {(1-x)^2 / [rho_l (1-a)] + x^2 / (rho_g a)}.

    Void fraction a by Smith (1969). What it grows by from entry to exit is pressure drop beside
    friction; condensing gives it back. SI; quality is held within 0 and 1.
    Source: separated flow (any two-phase text).
    """
    x = np.clip(lanes(quality), 0.0, 1.0)
    liquid, vapour = lanes(liquid_density), lanes(vapour_density)
    void = smith_void_fraction(x, vapour / liquid)
    # all vapour has no liquid share: its term is 0, not 0/0
    rest = np.maximum(1.0 - void, 1e-12)
    return lanes(
        lanes(mass_flux) ** 2 * ((1.0 - x) ** 2 / (liquid * rest) + x**2 / (vapour * void))
    )
