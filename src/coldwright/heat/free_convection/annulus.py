"""Free convection in the gap between two lying cylinders, one around the other.

An upright annulus (a filler in a round vessel) is not covered: no form for it is known to us well
enough. Where its gap is small against its radius it is a flat layer: see `enclosure`.
"""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.heat.free_convection.numbers import smooth_greatest
from coldwright.sources import correlation

SHARP = 32.0
"""Power that joins conduction and flow: at most 2.2 % above the greater one where they meet."""


def concentric_cylinders_length(
    inner_diameter: FloatOrArray, outer_diameter: FloatOrArray
) -> Array:
    """Characteristic length [m] of a lying annulus, for its Rayleigh number.

    L = 2 ln(Do/Di)^(4/3) / (ri^(-3/5) + ro^(-3/5))^(5/3)

    Diameters [m], of the inner cylinder's outside and the outer one's inside, 0 < Di < Do. A
    Rayleigh number on it equals one on the gap times the geometry factor that some texts use.
    Example: 100 mm in 120 mm, 3.56 mm. Source: Raithby and Hollands (1975) (from memory).
    """
    inner, outer = lanes(inner_diameter), lanes(outer_diameter)
    radii = (0.5 * inner) ** -0.6 + (0.5 * outer) ** -0.6
    return lanes(2.0 * np.log(outer / inner) ** (4.0 / 3.0) / radii ** (5.0 / 3.0))


@correlation(
    quantity="free convection between lying concentric cylinders",
    source="raithby_hollands_1975",
    ranges={"rayleigh": (1e2, 1e7), "prandtl": (0.7, 6000.0)},
    bias="in air, 1 to 8 % above a numerical solution, most where the flow sets in",
)
def concentric_cylinders_conductivity_ratio(rayleigh: FloatOrArray, prandtl: FloatOrArray) -> Array:
    """Effective over true conductivity of the fluid in a lying annulus, 1 or more.

    Greater of 1 (conduction) and 0.386 [Pr / (0.861 + Pr)]^(1/4) Ra^(1/4), joined smoothly.

    rayleigh: on `concentric_cylinders_length` and the difference of the two surfaces, >= 0, fitted
    from 1e2 to 1e7; prandtl > 0, fitted from 0.7 to 6000. It is 1 at Ra = 0. Radiation across the
    gap comes on top. Example: Ra 171 in air, 1.14.
    Source: Raithby and Hollands (1975) (from memory).
    """
    number = lanes(prandtl)
    flowing = 0.386 * (number / (0.861 + number)) ** 0.25 * lanes(rayleigh) ** 0.25
    return smooth_greatest(1.0, flowing, power=SHARP)


def concentric_cylinders_conductance(
    inner_diameter: FloatOrArray, outer_diameter: FloatOrArray, conductivity: FloatOrArray
) -> Array:
    """Conductance of an annulus per metre of its axis [W/mK], 2 pi k / ln(Do/Di).

    Diameters [m] as in `concentric_cylinders_length`; conductivity [W/mK] of what fills it: a
    solid's, or a fluid's times `concentric_cylinders_conductivity_ratio`.
    Source: Fourier's law.
    """
    ratio = lanes(outer_diameter) / inner_diameter
    return lanes(2.0 * np.pi * lanes(conductivity) / np.log(ratio))
