"""Compressor oils: density, and how much refrigerant an oil holds at a pressure and temperature.

The solution follows Flory and Huggins: with phi the volume share of refrigerant, m the ratio of
the molar volumes and x the interaction parameter,

    p / p_sat(T) = phi exp[(1 - 1/m)(1 - phi) + x (1 - phi)^2].

It is zero without pressure, straight in pressure when dilute, and rises steeply near saturation.
Each pair of oil and refrigerant is inverted once onto a table over (T, p/p_sat), kept on disk; a
look-up is one bicubic. Two departures keep the result single-valued and smooth: where the equation
folds back (two liquids) its slope is kept at `LEAST_SLOPE`, and the mass fraction bends off below
`GREATEST_SHARE`, since beyond it the refrigerant lies as a liquid of its own.

Data and their spread stand in `oil_pairs`. Range: 230 to 400 K (held outside) and any pressure
ratio (held above 1.3).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.errors import unknown_name
from coldwright.fluids.grids import Surface
from coldwright.fluids.oil_pairs import DENSITY_REFERENCE, KINDS, PAIRS, SOLUTES, OilKind, OilPair
from coldwright.fluids.table_cache import keep_tables, read_tables, table_file

# To be raised with every change of how a table is made; a change of its data is noticed.
TABLE_VERSION = 2

TEMPERATURE_RANGE = (230.0, 400.0)
GREATEST_RATIO = 1.3
GREATEST_SHARE = 0.6
LEAST_SLOPE = 0.15

_TEMPERATURE_NODES = 18
_RATIO_NODES = 131
_VOLUME_NODES = 4001
_SLOPE_ROUNDING = 0.03
_SATURATION_SHARPNESS = 32
_SHARE_SHARPNESS = 8


@dataclass(frozen=True)
class Oil:
    """One family of oil."""

    kind: OilKind

    def density(self, temperature: FloatOrArray) -> Array:
        """Density [kg/m3] of the oil alone at `temperature` [K], from 230 to 400 K."""
        return lanes(
            self.kind.density_at_0C - self.kind.density_slope * (lanes(temperature) - 273.15)
        )

    def pair(self, refrigerant: str) -> OilPair:
        """The data of this oil with `refrigerant`: uncertainty, miscibility, source.

        Raises InputError for a refrigerant that is not in the table, with the nearest names.
        """
        return PAIRS[self.kind.name, _refrigerant(refrigerant)]

    def solubility(
        self, refrigerant: str, pressure_ratio: FloatOrArray, temperature: FloatOrArray
    ) -> Array:
        """Mass of dissolved refrigerant by mass of the solution [-], at equilibrium.

        `pressure_ratio` is the pressure over the refrigerant's saturation pressure at the oil's
        `temperature` [K]. Zero at zero, rising with pressure, below 0.6. The relative standard
        uncertainty and the source are in `pair(refrigerant)`. A running compressor's oil lags
        behind equilibrium by minutes. Raises InputError for an unknown refrigerant.
        """
        table = _table(self.kind.name, _refrigerant(refrigerant))
        ratio = np.clip(lanes(pressure_ratio), 0.0, GREATEST_RATIO)
        t = np.clip(lanes(temperature), *TEMPERATURE_RANGE)
        return lanes(ratio * table.locate(t, ratio).column(0))

    def dissolved_mass(
        self,
        refrigerant: str,
        pressure_ratio: FloatOrArray,
        temperature: FloatOrArray,
        oil_mass: FloatOrArray,
    ) -> Array:
        """Mass of refrigerant [kg] dissolved in `oil_mass` [kg] of oil: w / (1 - w) of it."""
        share = self.solubility(refrigerant, pressure_ratio, temperature)
        return lanes(lanes(oil_mass) * share / (1.0 - share))


def oil_names() -> tuple[str, ...]:
    """The kinds of oil that `oil` knows."""
    return tuple(KINDS)


def oil(kind: str) -> Oil:
    """Return the oil of `kind`. Raises InputError for an unknown kind, with the nearest names."""
    plain = " ".join(kind.lower().split())
    if plain not in KINDS:
        raise unknown_name("oil.kind", "Kind of oil", kind, KINDS)
    return Oil(KINDS[plain])


def suiting_oils(refrigerant: str) -> tuple[str, ...]:
    """Kinds of oil that the trade fills with `refrigerant`. Raises InputError if unknown."""
    name = _refrigerant(refrigerant)
    return tuple(kind for kind in KINDS if PAIRS[kind, name].suits)


def _refrigerant(name: str) -> str:
    plain = _without_hyphen(name)
    for known in SOLUTES:
        if plain == _without_hyphen(known):
            return known
    raise unknown_name("refrigerant", "Refrigerant in the oil", name, SOLUTES, _without_hyphen)


def _without_hyphen(name: str) -> str:
    """Bring `R-600a`, `r 600a` and `R600a` together."""
    return name.replace("-", "").replace(" ", "").lower()


def pressure_ratio_of(pair: OilPair, volume_share: Array, temperature: Array) -> Array:
    """Pressure by saturation pressure over a solution: Flory-Huggins as printed above."""
    ratio = _molar_volume_ratio(pair)
    interaction = pair.interaction + pair.interaction_slope * (
        1000.0 / temperature - 1000.0 / DENSITY_REFERENCE
    )
    rest = 1.0 - volume_share
    return lanes(volume_share * np.exp((1.0 - 1.0 / ratio) * rest + interaction * rest**2))


def _molar_volume_ratio(pair: OilPair) -> float:
    """Molar volume of the oil over that of the liquid refrigerant, at 40 °C."""
    kind, solute = KINDS[pair.oil], SOLUTES[pair.refrigerant]
    return (kind.molar_mass / kind.reference_density) / (solute.molar_mass / solute.liquid_density)


def mass_share(pair: OilPair, volume_share: Array) -> Array:
    """Mass share of refrigerant in a solution from its volume share (volumes at 40 °C add)."""
    weight = volume_share * SOLUTES[pair.refrigerant].liquid_density
    return lanes(weight / (weight + (1.0 - volume_share) * KINDS[pair.oil].reference_density))


@cache
def _table(oil_kind: str, refrigerant: str) -> Surface:
    """Mass share over pressure ratio, from disk where an earlier run made it of the same data."""
    pair = PAIRS[oil_kind, refrigerant]
    data = np.array(
        [
            pair.interaction,
            pair.interaction_slope,
            _molar_volume_ratio(pair),
            SOLUTES[refrigerant].liquid_density,
            KINDS[oil_kind].reference_density,
        ]
    )
    file = table_file(f"oil-{oil_kind}-{refrigerant}", TABLE_VERSION)
    held = read_tables(file)
    if held is not None and np.array_equal(held.get("data", data + 1.0), data):
        try:
            return Surface.unpacked("share", held)
        except (KeyError, ValueError):
            pass  # a part is missing: made again below
    made = _inverted(pair)
    keep_tables(file, {"data": data, **made.packed("share")})
    return made


def _inverted(pair: OilPair) -> Surface:
    """Mass share over pressure ratio, on even grids of temperature and pressure ratio."""
    temperatures = np.linspace(*TEMPERATURE_RANGE, _TEMPERATURE_NODES)
    ratios = np.linspace(0.0, GREATEST_RATIO, _RATIO_NODES)
    # Past saturation the solution takes no more: bend the ratio off at 1.
    held = ratios / (1.0 + ratios**_SATURATION_SHARPNESS) ** (1.0 / _SATURATION_SHARPNESS)
    volume_share = np.linspace(0.0, 1.0, _VOLUME_NODES) ** 2  # dense where dilute
    values = np.empty((_TEMPERATURE_NODES, _RATIO_NODES, 1))
    for row, temperature in enumerate(temperatures):
        rising = _unfolded(volume_share, pressure_ratio_of(pair, volume_share, temperature))
        share = mass_share(pair, np.interp(held, rising, volume_share))
        share = share / (1.0 + (share / GREATEST_SHARE) ** _SHARE_SHARPNESS) ** (
            1.0 / _SHARE_SHARPNESS
        )
        # Dilute limit of share over ratio, at zero.
        start = mass_share(pair, volume_share[1:2]) / rising[1:2]
        values[row, :, 0] = np.concatenate([start, share[1:] / ratios[1:]])
    return Surface.through(temperatures, ratios, values)


def _unfolded(volume_share: Array, ratio: Array) -> Array:
    """Return `ratio` rebuilt from its slope, the slope held (smoothly) above `LEAST_SLOPE`."""
    slope = np.diff(ratio) / np.diff(volume_share)
    above = slope - LEAST_SLOPE
    slope = LEAST_SLOPE + 0.5 * (above + np.sqrt(above**2 + _SLOPE_ROUNDING**2))
    return np.concatenate([[0.0], np.cumsum(slope * np.diff(volume_share))])
