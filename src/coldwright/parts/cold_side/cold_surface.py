"""The skin of a cold side: its finish, the frost on it, the liner it radiates to."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.heat.radiation import enclosure_exchange_factor, radiation_film_coefficient
from coldwright.parts.conditions import STANDARD_PRESSURE

FROST_EMISSIVITY = 0.95
"""Emissivity of frosted metal, from memory; common in heat transfer tables."""

FROST_OPACITY_DEPTH = 1e-4
"""Frost depth [m] at which a surface looks frosted to 63 %: common practice, no source."""

COLDEST_RADIATOR = 100.0
"""Temperatures [K] are held above this while a solution is still being sought."""


def unity() -> Array:
    """Default of a multiplier: 1."""
    return lanes(1.0)


def nothing() -> Array:
    """Default of what need not be there: 0."""
    return lanes(0.0)


def light_frost_conductivity() -> Array:
    """Conductivity [W/mK] of frost of about 100 kg/m3 (`heat.frost.frost_conductivity`)."""
    return lanes(0.108)


def sea_level() -> Array:
    """Default pressure of the air: the standard atmosphere [Pa]."""
    return lanes(STANDARD_PRESSURE)


@dataclass(frozen=True, kw_only=True)
class ColdSurface:
    """Finish, frost and view of a cold surface, one value per lane.

    emissivity: of the bare surface; liner_emissivity [-] and liner_area [m2]: of the inside that
    surrounds it; frost_thickness [m], frost_conductivity [W/mK]; film_multiplier corrects what
    air and radiation bring together, by what a bench shows (1: as computed); air_pressure [Pa]:
    used where the caller gives none (thin air on a mountain convects less).
    """

    emissivity: Array
    liner_emissivity: Array
    liner_area: Array
    frost_thickness: Array = field(default_factory=nothing)
    frost_conductivity: Array = field(default_factory=light_frost_conductivity)
    film_multiplier: Array = field(default_factory=unity)
    air_pressure: Array = field(default_factory=sea_level)

    @property
    def seen_emissivity(self) -> Array:
        """Emissivity under the frost there is: bare at 0, 0.95 from about 0.5 mm on."""
        bare = np.exp(-self.frost_thickness / FROST_OPACITY_DEPTH)
        return lanes(FROST_EMISSIVITY + (self.emissivity - FROST_EMISSIVITY) * bare)

    def radiation_film(
        self,
        surface_temperature: FloatOrArray,
        liner_temperature: FloatOrArray,
        emissivity: FloatOrArray,
        area: FloatOrArray,
    ) -> Array:
        """Radiation film [W/m2K], on `area` [m2], to the liner around.

        The surface counts as one grey convex body inside the liner (two-surface enclosure); stored
        goods are taken to stand at the liner's temperature.
        """
        factor = enclosure_exchange_factor(emissivity, area, self.liner_emissivity, self.liner_area)
        return radiation_film_coefficient(
            np.maximum(surface_temperature, COLDEST_RADIATOR),
            np.maximum(liner_temperature, COLDEST_RADIATOR),
            factor,
        )

    def frost_resistance(self, area: FloatOrArray) -> Array:
        """Resistance [K/W] of the frost on a flat `area` [m2]."""
        return lanes(self.frost_thickness / (self.frost_conductivity * lanes(area)))
