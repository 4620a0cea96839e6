"""Published formulas for the flow of an adiabatic capillary tube, beside the flow model."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.sources import correlation

# Ends of the two branches of Wolf, Bittle and Pate.
SUBCOOLING = (1.0, 17.0)  # K
QUALITY = (0.03, 0.25)
# Flow number of the algebraic solution.
FLOW_NUMBER = 6.0


@correlation(
    quantity="flow of an adiabatic capillary tube, subcooled inlet",
    source="wolf_bittle_pate_1995",
    ranges={"subcooling": SUBCOOLING},
    bias="fitted on R134a, R22 and R410A, R152a as a check; extrapolated for hydrocarbons",
)
def subcooled_capillary_flow(
    bore: FloatOrArray,
    length: FloatOrArray,
    inlet_pressure: FloatOrArray,
    subcooling: FloatOrArray,
    liquid_density: FloatOrArray,
    vapour_density: FloatOrArray,
    liquid_viscosity: FloatOrArray,
    vapour_viscosity: FloatOrArray,
    latent_heat: FloatOrArray,
    liquid_specific_heat: FloatOrArray,
) -> Array:
    """Flow [kg/s] from liquid `subcooling` [K] under its saturation at `inlet_pressure` [Pa].

    pi8 = 1.8925 pi1^-0.484 pi2^-0.824 pi4^1.369 pi5^0.0187 pi6^0.773 pi7^0.265, with pi1 = L/d,
    pi2 = d^2 h_fg / (v_f mu_f)^2, pi4 = d^2 p / (v_f mu_f^2), pi5 = d^2 cp dT / (v_f mu_f)^2,
    pi6 = v_g/v_f, pi7 = (mu_f - mu_g)/mu_g and pi8 = m/(d mu_f). Properties are of saturated liquid
    and vapour at the inlet's temperature, SI. The choke is in the fit: the outlet pressure has no
    part. Worked example: R134a, 0.66 mm, 3 m, 1.0 MPa, 5 K: 2.65 kg/h. Source: Wolf, Bittle and
    Pate 1995, ASHRAE RP-762, subcooled equation (coefficients from memory).
    """
    at = _groups(bore, length, inlet_pressure, liquid_density, liquid_viscosity, latent_heat)
    pi1, pi2, pi4, scale, unit = at
    pi5 = scale * lanes(liquid_specific_heat) * np.maximum(lanes(subcooling), 1e-3)
    pi6 = lanes(liquid_density) / lanes(vapour_density)
    pi7 = lanes(liquid_viscosity) / lanes(vapour_viscosity) - 1.0
    group = 1.8925 * pi1**-0.484 * pi2**-0.824 * pi4**1.369 * pi5**0.0187
    return np.asarray(group * pi6**0.773 * pi7**0.265 * unit)


@correlation(
    quantity="flow of an adiabatic capillary tube, gas at the inlet",
    source="wolf_bittle_pate_1995",
    ranges={"quality": QUALITY},
    bias="fitted on R134a, R22 and R410A, R152a as a check; extrapolated for hydrocarbons",
)
def two_phase_capillary_flow(
    bore: FloatOrArray,
    length: FloatOrArray,
    inlet_pressure: FloatOrArray,
    quality: FloatOrArray,
    liquid_density: FloatOrArray,
    vapour_density: FloatOrArray,
    liquid_viscosity: FloatOrArray,
    vapour_viscosity: FloatOrArray,
    latent_heat: FloatOrArray,
) -> Array:
    """Flow [kg/s] from a mixture of `quality` at `inlet_pressure` [Pa].

    pi8 = 187.27 pi1^-0.635 pi2^-0.189 pi4^0.645 x^-0.163 pi6^-0.213 pi7^-0.483; groups as in
    `subcooled_capillary_flow`. Worked example: R134a, 0.70 mm, 2.5 m, 1.2 MPa, x 0.05: 2.52 kg/h.
    Source: Wolf, Bittle and Pate 1995, ASHRAE RP-762, two-phase equation (from memory).
    """
    at = _groups(bore, length, inlet_pressure, liquid_density, liquid_viscosity, latent_heat)
    pi1, pi2, pi4, _, unit = at
    pi6 = lanes(liquid_density) / lanes(vapour_density)
    pi7 = lanes(liquid_viscosity) / lanes(vapour_viscosity) - 1.0
    group = 187.27 * pi1**-0.635 * pi2**-0.189 * pi4**0.645
    group = group * np.maximum(lanes(quality), 1e-4) ** -0.163
    return np.asarray(group * pi6**-0.213 * pi7**-0.483 * unit)


def _groups(
    bore: FloatOrArray,
    length: FloatOrArray,
    inlet_pressure: FloatOrArray,
    liquid_density: FloatOrArray,
    liquid_viscosity: FloatOrArray,
    latent_heat: FloatOrArray,
) -> tuple[Array, Array, Array, Array, Array]:
    """pi1, pi2, pi4, the scale d^2/(v_f mu_f)^2 and the unit of flow d mu_f [kg/s]."""
    d, mu, rho = lanes(bore), lanes(liquid_viscosity), lanes(liquid_density)
    scale = (d * rho / mu) ** 2
    pi4 = scale / rho * lanes(inlet_pressure)
    return lanes(length) / d, scale * lanes(latent_heat), pi4, scale, d * mu


def bridged_flow(
    subcooled_flow: FloatOrArray, two_phase_flow: FloatOrArray, share: FloatOrArray
) -> Array:
    """Flow between the ends of the two branches, at a `share` of the enthalpy between them.

    The branches do not meet at saturation (the gap is up to a third of the flow): the flow runs
    evenly, by its logarithm, from 1 K of subcooling to a quality of 0.03. Ours, no source.
    """
    place = np.clip(lanes(share), 0.0, 1.0)
    low, high = np.log(lanes(subcooled_flow)), np.log(lanes(two_phase_flow))
    return np.asarray(np.exp(low + place * (high - low)))


@correlation(
    quantity="flow of an adiabatic capillary tube, algebraic",
    source="hermes_2010_algebraic",
    ranges={},
    bias="fitted on R134a and R600a, over 90 % of those points within 10 %; liquid inlet only",
)
def algebraic_capillary_flow(
    bore: FloatOrArray,
    length: FloatOrArray,
    inlet_pressure: FloatOrArray,
    flash_pressure: FloatOrArray,
    outlet_pressure: FloatOrArray,
    liquid_density: FloatOrArray,
) -> Array:
    """Flow [kg/s] of liquid that begins to flash at `flash_pressure` [Pa].

    m = 6.0 sqrt(d^5/L [(p_i - p_f)/v_f + (p_f - p_e)/a + b/a^2 ln((a p_e + b)/(a p_f + b))]) with
    a = v_f (1 - k), b = v_f p_f k and k = 1.63e5 p_f^-0.72: the mixture's volume goes as
    v_f (1 + k (p_f/p - 1)), Yilmaz and Unal 1996. Acceleration is left out. Source: Hermes,
    Melo and Knabben 2010, Appl. Thermal Engineering 30, 449-457 (accuracy read, equation
    and its constants from memory).
    """
    start, flash, end = lanes(inlet_pressure), lanes(flash_pressure), lanes(outlet_pressure)
    volume = 1.0 / lanes(liquid_density)
    k = 1.63e5 * flash**-0.72
    a, b = volume * (1.0 - k), volume * flash * k
    mixed = (flash - end) / a + b / a**2 * np.log((a * end + b) / (a * flash + b))
    liquid = np.maximum(start - flash, 0.0) / volume
    return FLOW_NUMBER * np.sqrt(lanes(bore) ** 5 / lanes(length) * (liquid + mixed))
