"""Flow boiling of a refrigerant inside a horizontal tube."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.heat.two_phase import GRAVITY
from coldwright.sources import correlation

# The quality to which the correlation is trusted; above it the wall dries.
WET_UNTIL = 0.9
STRATIFIED_FROUDE = 0.05


@correlation(
    quantity="flow-boiling film coefficient in a horizontal tube",
    source="gungor_winterton_1987",
    ranges={"mass_flux": (12.0, 8000.0), "quality": (0.0, 1.0)},
    bias="mean deviation about 20 % on its data; small tubes at low flux are a far corner of them",
)
def flow_boiling_film_coefficient(
    mass_flux: FloatOrArray,
    quality: FloatOrArray,
    diameter: FloatOrArray,
    heat_flux: FloatOrArray,
    latent_heat: FloatOrArray,
    liquid_density: FloatOrArray,
    vapour_density: FloatOrArray,
    liquid_viscosity: FloatOrArray,
    liquid_conductivity: FloatOrArray,
    liquid_specific_heat: FloatOrArray,
) -> Array:
    """Film coefficient [W/(m2 K)] of saturated flow boiling.

    h = E2 h_l [1 + 3000 Bo^0.86 + 1.12 (x/(1-x))^0.75 (rho_l/rho_g)^0.41], h_l by Dittus-Boelter
    for the liquid share; horizontal with Fr < 0.05: E2 = Fr^(0.1 - 2 Fr). SI arguments broadcast.
    `quality` is held at 0.9 (dry-out). Source: Gungor and Winterton 1987, Chem. Eng. Res. Des. 65,
    148-156.
    """
    flux, d = lanes(mass_flux), lanes(diameter)
    x = np.clip(lanes(quality), 0.0, WET_UNTIL)
    liquid, mu, k = lanes(liquid_density), lanes(liquid_viscosity), lanes(liquid_conductivity)
    prandtl = mu * lanes(liquid_specific_heat) / k
    reynolds = np.maximum(flux * (1.0 - x) * d / mu, 1e-6)
    liquid_film = 0.023 * reynolds**0.8 * prandtl**0.4 * k / d
    boiling = np.maximum(lanes(heat_flux), 0.0) / (flux * lanes(latent_heat))
    density_ratio = liquid / lanes(vapour_density)
    # The small addition keeps the slope finite where the quality or the heat flux vanish.
    enhancement = (
        1.0
        + 3000.0 * (boiling + 1e-9) ** 0.86
        + 1.12 * ((x + 1e-6) / (1.0 - x)) ** 0.75 * density_ratio**0.41
    )
    froude = np.clip((flux / liquid) ** 2 / (GRAVITY * d), 1e-9, STRATIFIED_FROUDE)
    # At Fr = 0.05 the exponent is zero, so the factor meets one without a step.
    stratified = froude ** (0.1 - 2.0 * froude)
    result: Array = stratified * liquid_film * enhancement
    return result
