"""Condensation of a refrigerant inside a horizontal tube at low mass flux."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.heat.two_phase import GRAVITY, zivi_void_fraction
from coldwright.sources import correlation


@correlation(
    quantity="condensing film coefficient in a horizontal tube",
    source="dobson_chato_1998",
    ranges={"mass_flux": (25.0, 500.0), "diameter": (0.003, 0.0071)},
    bias="about 15 % on its data (R12, R22, R134a, near-azeotropes)",
)
def condensing_film_coefficient(
    mass_flux: FloatOrArray,
    quality: FloatOrArray,
    diameter: FloatOrArray,
    wall_temperature_difference: FloatOrArray,
    latent_heat: FloatOrArray,
    liquid_density: FloatOrArray,
    vapour_density: FloatOrArray,
    liquid_viscosity: FloatOrArray,
    vapour_viscosity: FloatOrArray,
    liquid_conductivity: FloatOrArray,
    liquid_specific_heat: FloatOrArray,
) -> Array:
    """Film coefficient [W/(m2 K)] of stratified-wavy condensation (mass flux under 500 kg/(m2 s)).

    Nu = 0.23 Re_vo^0.12 / (1 + 1.11 Xtt^0.58) (Ga Pr / Ja)^0.25 + (1 - theta/pi) Nu_forced, with
    1 - theta/pi = arccos(2 a - 1)/pi, the void fraction a by Zivi, and
    Nu_forced = 0.0195 Re_l^0.8 Pr^0.4 (1.376 + c1/Xtt^c2)^0.5. SI arguments broadcast. Source:
    Dobson and Chato 1998, J. Heat Transfer 120, 193-213, eqs 21-30 (equation numbers from memory).
    """
    flux, d = lanes(mass_flux), lanes(diameter)
    x = np.clip(lanes(quality), 0.02, 0.98)
    liquid, vapour = lanes(liquid_density), lanes(vapour_density)
    mu, k, cp = lanes(liquid_viscosity), lanes(liquid_conductivity), lanes(liquid_specific_heat)
    mu_vapour = lanes(vapour_viscosity)
    prandtl = mu * cp / k
    martinelli = ((1.0 - x) / x) ** 0.9 * (vapour / liquid) ** 0.5 * (mu / mu_vapour) ** 0.1
    galileo = GRAVITY * liquid * (liquid - vapour) * d**3 / mu**2
    jakob = cp * np.maximum(lanes(wall_temperature_difference), 0.05) / lanes(latent_heat)
    film = (
        0.23
        * (flux * d / mu_vapour) ** 0.12
        / (1.0 + 1.11 * martinelli**0.58)
        * (galileo * prandtl / jakob) ** 0.25
    )
    froude = np.minimum((flux / liquid) ** 2 / (GRAVITY * d), 0.7)
    c1 = 4.172 + 5.48 * froude - 1.564 * froude**2
    c2 = 1.773 - 0.169 * froude
    reynolds = flux * (1.0 - x) * d / mu
    forced = 0.0195 * reynolds**0.8 * prandtl**0.4 * np.sqrt(1.376 + c1 / martinelli**c2)
    void = zivi_void_fraction(x, vapour / liquid)
    pool = np.arccos(2.0 * void - 1.0) / np.pi
    result: Array = (film + pool * forced) * k / d
    return result
