"""The flow in a capillary at one pressure: liquid or mixture in equilibrium, its motion counted."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from coldwright.arrays import Array
from coldwright.fluids.refrigerants import FlashLine, Refrigerant

# Rounds the flash point over this quality, so that derivatives exist there.
FLASH_ROUNDING = 5e-4


@dataclass(frozen=True)
class Points:
    """The flow at one pressure, or at many along the first axis."""

    volume: Array  # [m3/kg]
    viscosity: Array  # [Pa s]
    quality: Array
    dryness: Array  # the quality before its corner is rounded: under 0 for liquid
    temperature: Array  # [K]

    @classmethod
    def at(cls, refrigerant: Refrigerant, line: FlashLine, enthalpy: Array, flux: Array) -> Points:
        """State from h_f + x h_fg + G^2 (v_f + x v_fg)^2 / 2 = h."""
        point = refrigerant.liquid_at_enthalpy(np.minimum(enthalpy, line.liquid_enthalpy))
        liquid = 1.0 / point.density
        swell = 1.0 / line.vapour_density - liquid
        squared = flux * flux
        a = 0.5 * squared * swell * swell
        b = line.vapour_enthalpy - line.liquid_enthalpy + squared * liquid * swell
        c = line.liquid_enthalpy - enthalpy + 0.5 * squared * liquid * liquid
        # The root in the form that stays exact when a is small (slow flow).
        root = -2.0 * c / (b + np.sqrt(np.maximum(b * b - 4.0 * a * c, 0.0)))
        quality = 0.5 * (root + np.sqrt(root * root + 4.0 * FLASH_ROUNDING**2))
        quality = np.minimum(quality, 1.0)
        viscosity = mixture_viscosity(quality, point.viscosity, line.vapour_viscosity)
        volume = liquid + quality * swell
        return cls(*np.broadcast_arrays(volume, viscosity, quality, root, point.temperature))

    def part(self, which: slice) -> Points:
        """Some of the points."""
        return Points(*(value[which] for value in vars(self).values()))


def flashing_late(
    points: Points,
    refrigerant: Refrigerant,
    line: FlashLine,
    pressure: Array,
    enthalpy: Array,
    delay: Array,
) -> Points:
    """The same points with the gas held back until liquid is `delay` [Pa] under its saturation.

    The share of equilibrium grows evenly over as much again: our own closure, since a sudden flash
    has no derivative.
    """
    warm = refrigerant.liquid_at_enthalpy(np.minimum(enthalpy, line.vapour_enthalpy))
    under = (refrigerant.saturation_pressure(warm.temperature) - pressure) / delay - 1.0
    quality = points.quality * np.clip(under, 0.0, 1.0)
    point = refrigerant.liquid_at_enthalpy(np.minimum(enthalpy, line.liquid_enthalpy))
    liquid = 1.0 / point.density
    return replace(
        points,
        volume=liquid + quality * (1.0 / line.vapour_density - liquid),
        viscosity=mixture_viscosity(quality, point.viscosity, line.vapour_viscosity),
        quality=quality,
        dryness=np.minimum(points.dryness, under),
    )


def mixture_viscosity(quality: Array, liquid_viscosity: Array, vapour_viscosity: Array) -> Array:
    """Viscosity of the homogeneous mixture [Pa s]: 1/mu = x/mu_g + (1-x)/mu_f.

    Of the published mixing rules the one that came closest to the correlation of measurements in
    tests/published. Source: McAdams, Woods and Heroman 1942, Trans. ASME 64, 193-200 (from memory).
    """
    mixed = quality * liquid_viscosity + (1.0 - quality) * vapour_viscosity
    return liquid_viscosity * vapour_viscosity / mixed
