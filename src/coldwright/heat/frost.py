"""Frost on a cold surface: how fast it gathers, how dense it is, how well it conducts."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.sources import correlation

FREEZING_POINT = 273.15
HAYASHI_LOWEST = 254.55
"""-18.6 C, the lowest surface temperature behind the density correlation [K]."""


@correlation(
    quantity="density of frost",
    source="hayashi_1977",
    ranges={"surface_temperature": (HAYASHI_LOWEST, 268.15)},
    bias="forced air at 2-6 m/s; frost formed in still air is often lighter",
)
def frost_density(surface_temperature: FloatOrArray) -> Array:
    """Density of young frost [kg/m3] from the temperature of its surface.

    rho = 650 exp(0.277 T), T in C

    surface_temperature [K], fitted from -18.6 C to -5 C. Colder it is held at the value of
    -18.6 C (the formula runs to nothing), warmer than 0 C at 650 (wet frost).
    Example: -8 C 70.9, -5 C 162.7 kg/m3.
    Source: Hayashi, Aoki, Adachi and Hori (1977).
    """
    held = np.clip(lanes(surface_temperature), HAYASHI_LOWEST, FREEZING_POINT)
    return lanes(650.0 * np.exp(0.277 * (held - FREEZING_POINT)))


@correlation(
    quantity="thermal conductivity of frost",
    source="yonko_sepsy_1967",
    ranges={"density": (0.0, 573.0)},
    bias="at 100 kg/m3 other authors give 0.10 to 0.17 W/mK",
)
def frost_conductivity(density: FloatOrArray) -> Array:
    """Thermal conductivity of frost [W/mK] from its density [kg/m3].

    k = 0.02422 + 7.214e-4 rho + 1.1797e-6 rho^2

    density >= 0, fitted up to 573 kg/m3; near 0 it is still air's.
    Example: 100 kg/m3 0.108 W/mK. Source: Yonko and Sepsy (1967).
    """
    frost = lanes(density)
    return lanes(0.02422 + 7.214e-4 * frost + 1.1797e-6 * frost**2)


def vapour_mass_flux(
    film_coefficient: FloatOrArray,
    air_specific_heat: FloatOrArray,
    humidity_ratio_air: FloatOrArray,
    humidity_ratio_surface: FloatOrArray,
    *,
    lewis_number: FloatOrArray = 0.85,
) -> Array:
    """Water vapour that reaches a surface [kg/m2s], positive when it settles there.

    m = h / (cp Le^(2/3)) (w_air - w_surface)

    film_coefficient: of convection alone, radiation carries no vapour [W/m2K]; air_specific_heat
    [J/kgK]; humidity ratios [kg/kg dry air], the surface's saturated at its temperature (over ice
    below 0 C). A negative flux dries the surface: the caller limits it by what lies there.
    lewis_number alpha/D about 0.85 for vapour in air.
    Source: Chilton and Colburn (1934), analogy of heat and mass transfer.
    """
    coefficient = lanes(film_coefficient) / (air_specific_heat * np.cbrt(lewis_number) ** 2)
    return lanes(coefficient * (lanes(humidity_ratio_air) - humidity_ratio_surface))


def frost_growth_rate(
    mass_flux: FloatOrArray, density: FloatOrArray, *, densifying_share: FloatOrArray = 0.0
) -> Array:
    """Rate at which the frost layer thickens [m/s], (1 - share) m / rho.

    mass_flux m [kg/m2s]; density rho of the layer [kg/m3] > 0; densifying_share: part of the
    vapour that settles inside the layer and makes it denser, 0 to 1 (0 overstates thickness;
    about half in many measurements, from memory). Source: conservation of mass.
    """
    return lanes((1.0 - lanes(densifying_share)) * mass_flux / density)


def frost_layer_resistance(mass_per_area: FloatOrArray, density: FloatOrArray) -> Array:
    """Resistance of a frost layer [m2K/W] of known mass, m / (rho k).

    mass_per_area [kg/m2] >= 0; density [kg/m3] > 0. Conductivity from `frost_conductivity`.
    Source: Fourier's law.
    """
    return lanes(lanes(mass_per_area) / (lanes(density) * frost_conductivity(density)))
