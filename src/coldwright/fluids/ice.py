"""Ice and eutectics: what a cold store that freezes holds, and how heat passes through it."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.errors import unknown_name
from coldwright.sources import correlation

FREEZING_POINT = 273.15
"""Freezing point of water at one atmosphere [K]; 0.0075 K lower for each further atmosphere."""
LATENT_HEAT_OF_FUSION = 333.43e3
"""Heat of fusion of ice at its freezing point [J/kg], IAPWS R10-06 (from memory)."""


@correlation(
    quantity="thermal conductivity of ice",
    source="fluids_ice_fukusako_1990",
    ranges={"temperature": (200.0, 273.15)},
    bias="within 4 % of tabulated values of clear ice; cloudy ice conducts less",
)
def ice_conductivity(temperature: FloatOrArray) -> Array:
    """0.4685 + 488.19 / T [W/(m K)] at `temperature` [K], for clear ice.

    Source: Fukusako 1990, Int. J. Thermophysics 11, 353-372 (coefficients from memory).
    """
    return lanes(0.4685 + 488.19 / lanes(temperature))


@correlation(
    quantity="specific heat of ice",
    source="fluids_ice_fukusako_1990",
    ranges={"temperature": (200.0, 273.15)},
    bias="within 2 % of tabulated values",
)
def ice_specific_heat(temperature: FloatOrArray) -> Array:
    """185 + 6.89 T [J/(kg K)] at `temperature` [K].

    Source: Fukusako 1990, Int. J. Thermophysics 11, 353-372 (coefficients from memory).
    """
    return lanes(185.0 + 6.89 * lanes(temperature))


@correlation(
    quantity="density of ice",
    source="fluids_ice_fukusako_1990",
    ranges={"temperature": (200.0, 273.15)},
    bias="within 0.2 % of tabulated values; air bubbles make it lighter",
)
def ice_density(temperature: FloatOrArray) -> Array:
    """917 (1 - 1.17e-4 (T - 273.15)) [kg/m3] at `temperature` [K].

    Source: Fukusako 1990, Int. J. Thermophysics 11, 353-372 (coefficients from memory).
    """
    return lanes(917.0 * (1.0 - 1.17e-4 * (lanes(temperature) - FREEZING_POINT)))


@dataclass(frozen=True)
class Eutectic:
    """A mixture that freezes at one temperature, with its salt by mass.

    Densities: of the liquid at 20 °C and of the frozen mixture by those of ice and salt crystals
    (of sodium chloride its dihydrate); specific heats: of the liquid, and of the frozen one by mass
    shares.
    """

    salt: str
    mass_fraction: float
    freezing_temperature: float  # [K]
    latent_heat: float  # [J/kg] of mixture
    relative_uncertainty: float  # standard, of the latent heat
    liquid_density: float  # [kg/m3]
    frozen_density: float  # [kg/m3]
    liquid_specific_heat: float  # [J/kgK]
    frozen_specific_heat: float  # [J/kgK]
    source: str


_ROWS = (
    ("potassium chloride", 0.195, 262.45, 283e3, 0.025, 1129.0, 1026.0, 3.20e3, 1.73e3),
    ("sodium chloride", 0.23, 251.95, 229e3, 0.04, 1172.0, 1098.0, 3.31e3, 1.71e3),
    ("ammonium chloride", 0.19, 257.15, 295e3, 0.04, 1054.0, 994.0, 3.37e3, 1.88e3),
)
_EUTECTICS = {row[0]: Eutectic(*row, source="fluids_eutectics") for row in _ROWS}


def eutectic_names() -> tuple[str, ...]:
    """Salts whose eutectic with water is known."""
    return tuple(_EUTECTICS)


def eutectic(salt: str) -> Eutectic:
    """The eutectic of `salt` with water. Raises InputError, with the nearest name, if unknown."""
    plain = " ".join(salt.lower().split())
    if plain not in _EUTECTICS:
        raise unknown_name("eutectic.salt", "Salt of a eutectic", salt, _EUTECTICS)
    return _EUTECTICS[plain]
