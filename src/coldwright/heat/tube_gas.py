"""Heat transfer to a single-phase flow (gas or liquid) inside a round tube or around a core."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.sources import correlation

LAMINAR_NUSSELT = 4.364  # even heat flux, developed (Shah and London 1978)
LAMINAR_END = 2300.0
TURBULENT_START = 4000.0


@correlation(
    quantity="Nusselt number of turbulent flow in a tube",
    source="gnielinski_2013_tube",
    ranges={"reynolds": (0.0, 1e6), "prandtl": (0.1, 1000.0)},
    bias="10 % turbulent, transition only indicative; developed flow, entrance gain left out",
)
def tube_nusselt(reynolds: FloatOrArray, prandtl: FloatOrArray) -> Array:
    """Nusselt number in a smooth tube, laminar to turbulent.

    Laminar 4.364; turbulent (f/8)(Re-1000)Pr / [1 + 12.7 (f/8)^0.5 (Pr^(2/3) - 1)] with
    f = (1.8 log10 Re - 1.5)^-2; between Re 2300 and 4000 the two are blended (Gnielinski's linear
    share, rounded to a smooth step so that derivatives exist). Source: Gnielinski 2013, Int. J.
    Heat Mass Transfer 63, 134-140, eqs 3-8.
    """
    re, pr = lanes(reynolds), lanes(prandtl)
    held = np.maximum(re, LAMINAR_END)
    factor = (1.8 * np.log10(held) - 1.5) ** -2 / 8.0
    turbulent = factor * (held - 1000.0) * pr / (1.0 + 12.7 * np.sqrt(factor) * (pr ** (2 / 3) - 1))
    share = np.clip((re - LAMINAR_END) / (TURBULENT_START - LAMINAR_END), 0.0, 1.0)
    smooth = share * share * (3.0 - 2.0 * share)
    result: Array = LAMINAR_NUSSELT + smooth * (turbulent - LAMINAR_NUSSELT)
    return result


def tube_film_coefficient(
    mass_flux: FloatOrArray,
    diameter: FloatOrArray,
    viscosity: FloatOrArray,
    conductivity: FloatOrArray,
    specific_heat: FloatOrArray,
) -> Array:
    """Film coefficient [W/(m2 K)] inside a tube from SI properties and `mass_flux` [kg/(m2 s)]."""
    mu, k, d = lanes(viscosity), lanes(conductivity), lanes(diameter)
    reynolds = lanes(mass_flux) * d / mu
    return tube_nusselt(reynolds, mu * lanes(specific_heat) / k) * k / d


@correlation(
    quantity="film on the core of an annulus over that of a tube of its hydraulic diameter",
    source="petukhov_roizen_1964_annulus",
    ranges={"diameter_ratio": (0.0, 1.0)},
    bias="turbulent gas, heat through the core only; laminar flow is less exact",
)
def annulus_core_factor(diameter_ratio: FloatOrArray) -> Array:
    """Factor on the tube's film coefficient for heat from the core: 0.86 (d_core / d_tube)^-0.16.

    `diameter_ratio` 0 stands for no core and gives 1; under 0.05 the factor is that of 0.05.
    Source: Petukhov and Roizen 1964, High Temperature 2, 65-68; also VDI Heat Atlas, G2.
    """
    ratio = lanes(diameter_ratio)
    return lanes(np.where(ratio > 0.0, 0.86 * np.maximum(ratio, 0.05) ** -0.16, 1.0))
