"""Free convection on lying surfaces: horizontal cylinder and both faces of a horizontal plate."""

from __future__ import annotations

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.heat.free_convection.numbers import smooth_greatest
from coldwright.sources import correlation

DISK_CONDUCTION_NUSSELT = 0.6366197723675814
"""2/pi: one face of an isothermal disk in still fluid without flow, on area over perimeter."""


@correlation(
    quantity="free convection on a horizontal cylinder",
    source="churchill_chu_1975_cylinder",
    ranges={"rayleigh": (1e-5, 1e12)},
    bias="single-cylinder correlations scatter 25 % for thin wires",
)
def horizontal_cylinder_nusselt(rayleigh: FloatOrArray, prandtl: FloatOrArray) -> Array:
    """Mean Nusselt number of a long horizontal isothermal cylinder.

    Nu = {0.60 + 0.387 Ra^(1/6) / [1 + (0.559/Pr)^(9/16)]^(8/27)}^2

    rayleigh: on the diameter, >= 0; prandtl > 0. Nu is on the diameter; at Ra = 0 it is 0.36.
    Fitted from Ra 1e-5 to 1e12, all Prandtl numbers.
    Example: a pipe of 80 mm at 70 C in air at 20 C: 5.87 W/m2K.
    Source: Churchill and Chu (1975), horizontal cylinder.
    """
    shape = (1.0 + (0.559 / lanes(prandtl)) ** (9.0 / 16.0)) ** (8.0 / 27.0)
    return lanes((0.60 + 0.387 * lanes(rayleigh) ** (1.0 / 6.0) / shape) ** 2)


@correlation(
    quantity="free convection above a warm or below a cold horizontal plate",
    source="lloyd_moran_1974",
    ranges={"rayleigh": (1e4, 1e11)},
    bias="steps up 6 % at Rayleigh 1e7 from laminar to turbulent; smoothed here",
)
def horizontal_plate_unstable_nusselt(rayleigh: FloatOrArray) -> Array:
    """Mean Nusselt number of a horizontal face that drives its fluid away (warm up, cold down).

    Nu = 0.54 Ra^(1/4) from Ra 1e4 to 1e7, Nu = 0.15 Ra^(1/3) from 1e7 to 1e11

    rayleigh: on area over perimeter (an endless strip: half its width), >= 0; Nu likewise.
    The step between the two at 1e7 is passed smoothly: a weight x^8 / (1 + x^8), x = Ra/1e7,
    leaves either form to within 0.03 % at half or double that. At Ra = 0 the value is 2/pi, pure
    conduction from one face of a disk; joined by fourth powers, unseen in the fitted range.
    Source: Lloyd and Moran (1974); McAdams (1954) (from memory).
    """
    driving = lanes(rayleigh)
    step = (driving / 1e7) ** 8
    turbulent_share = step / (1.0 + step)
    laminar = 0.54 * driving**0.25
    turbulent = 0.15 * driving ** (1.0 / 3.0)
    flowing = laminar + turbulent_share * (turbulent - laminar)
    return smooth_greatest(flowing, DISK_CONDUCTION_NUSSELT, power=4.0)


@correlation(
    quantity="free convection below a warm or above a cold horizontal plate",
    source="mcadams_1954",
    ranges={"rayleigh": (1e5, 1e11)},
    bias="measurements by different authors differ by 25 % and more for this face",
)
def horizontal_plate_stable_nusselt(rayleigh: FloatOrArray) -> Array:
    """Mean Nusselt number of a horizontal face that holds its fluid (warm down, cold up).

    Nu = 0.27 Ra^(1/4)

    rayleigh: on area over perimeter, >= 0, fitted from 1e5 to 1e11; Nu likewise. At Ra = 0 the
    value is 2/pi, as for `horizontal_plate_unstable_nusselt`.
    Source: McAdams (1954), equation 7-9c (from memory).
    """
    return smooth_greatest(0.27 * lanes(rayleigh) ** 0.25, DISK_CONDUCTION_NUSSELT, power=4.0)
