"""Void fraction and mixture properties of a boiling or condensing flow in a tube."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.sources import correlation

GRAVITY = 9.80665

# Below these a quality counts as all liquid or all vapour, so that ratios stay finite.
LEAST_QUALITY = 1e-9

# Five-point Gauss quadrature over 0 to 1, for means along a tube.
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(5)
GAUSS_PLACES: Array = 0.5 + 0.5 * _NODES
GAUSS_SHARES: Array = 0.5 * _WEIGHTS


def _held(quality: FloatOrArray) -> Array:
    return np.clip(lanes(quality), LEAST_QUALITY, 1.0)


def homogeneous_void_fraction(quality: FloatOrArray, density_ratio: FloatOrArray) -> Array:
    """Void fraction when both phases move equally fast: 1 / (1 + (1-x)/x rho_g/rho_l).

    `quality` [-], `density_ratio` = vapour over liquid density [-]; definition, any range.
    """
    x = _held(quality)
    result: Array = 1.0 / (1.0 + (1.0 - x) / x * lanes(density_ratio))
    return result


@correlation(
    quantity="void fraction",
    source="zivi_1964_void",
    ranges={"quality": (0.0, 1.0)},
    bias="annular flow of least kinetic energy: low at low mass flux, far from others",
)
def zivi_void_fraction(quality: FloatOrArray, density_ratio: FloatOrArray) -> Array:
    """Void fraction of annular flow of least kinetic energy: slip = (rho_l/rho_g)^(1/3).

    `quality` [-], `density_ratio` = vapour over liquid density [-]. Source: Zivi 1964, J. Heat
    Transfer 86, 247-252 (without entrainment and wall friction).
    """
    x = _held(quality)
    result: Array = 1.0 / (1.0 + (1.0 - x) / x * lanes(density_ratio) ** (2.0 / 3.0))
    return result


@correlation(
    quantity="void fraction",
    source="smith_1969_void",
    ranges={"quality": (0.0, 1.0)},
    bias="within 10 % of the data it was fitted to",
)
def smith_void_fraction(quality: FloatOrArray, density_ratio: FloatOrArray) -> Array:
    """Void fraction with equal velocity heads of a mixed core and a liquid wall layer.

    slip = e + (1-e) [(rho_l/rho_g + e (1-x)/x) / (1 + e (1-x)/x)]^0.5 with e = 0.4 of the liquid
    entrained. `quality` [-], `density_ratio` = vapour over liquid density [-]. Source: Smith 1969,
    Proc. Inst. Mech. Engineers 184, 647-664.
    """
    entrained = 0.4
    x = _held(quality)
    ratio = lanes(density_ratio)
    liquid_part = entrained * (1.0 - x) / x
    slip = entrained + (1.0 - entrained) * np.sqrt(
        (1.0 / ratio + liquid_part) / (1.0 + liquid_part)
    )
    result: Array = 1.0 / (1.0 + (1.0 - x) / x * ratio * slip)
    return result


@correlation(
    quantity="void fraction",
    source="rouhani_axelsson_1970_void",
    ranges={"quality": (0.0, 1.0), "mass_flux": (50.0, 3000.0)},
    bias="drift flux in Steiner's form for horizontal tubes",
)
def rouhani_void_fraction(
    quality: FloatOrArray,
    mass_flux: FloatOrArray,
    liquid_density: FloatOrArray,
    vapour_density: FloatOrArray,
    surface_tension: FloatOrArray,
) -> Array:
    """Void fraction by drift flux in a horizontal tube.

    x/rho_g {[1 + 0.12 (1-x)] [x/rho_g + (1-x)/rho_l] + 1.18 (1-x) [g sigma (rho_l - rho_g)]^0.25 /
    (G rho_l^0.5)}^-1. SI; `mass_flux` kg/(m2 s). Source: Rouhani and Axelsson 1970, Int. J. Heat
    Mass Transfer 13, 383-393, in the form of Steiner 1993 (VDI Heat Atlas).
    """
    x = _held(quality)
    liquid, vapour = lanes(liquid_density), lanes(vapour_density)
    mixed = (1.0 + 0.12 * (1.0 - x)) * (x / vapour + (1.0 - x) / liquid)
    rise = (GRAVITY * lanes(surface_tension) * (liquid - vapour)) ** 0.25
    drift = 1.18 * (1.0 - x) * rise / (lanes(mass_flux) * np.sqrt(liquid))
    result: Array = x / vapour / (mixed + drift)
    return result


def mean_density(
    first_quality: FloatOrArray,
    last_quality: FloatOrArray,
    liquid_density: FloatOrArray,
    vapour_density: FloatOrArray,
) -> Array:
    """Mean density [kg/m3] of a tube along which quality runs evenly from first to last.

    Five-point Gauss quadrature of rho = a rho_g + (1-a) rho_l with Smith's void fraction; even heat
    flux makes the quality linear along the tube. The places are even in the root of quality: near
    no quality the density bends too sharply for even steps of quality, which miss 1 to 2 % of a
    condenser's content and 7 % of liquid boiled dry at a low pressure; so it is within 0.1 % and
    1 %. Published void models differ: see `charge`.
    """
    first, last = (
        np.sqrt(np.clip(lanes(quality), 0.0, 1.0)) for quality in (first_quality, last_quality)
    )
    liquid, vapour = lanes(liquid_density), lanes(vapour_density)
    root = first[..., None] + (last - first)[..., None] * GAUSS_PLACES
    # dx = 2 r dr over the whole, (r_last - r_first) (r_last + r_first): regular where they meet.
    share = 2.0 * root * GAUSS_SHARES / np.maximum(first + last, LEAST_QUALITY)[..., None]
    void = smith_void_fraction(root**2, (vapour / liquid)[..., None])
    mean_void = np.sum(void * share, axis=-1)
    return lanes(mean_void * vapour + (1.0 - mean_void) * liquid)
