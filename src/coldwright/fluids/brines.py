"""Brines: the liquids of a cold vessel, as curves over temperature made once for each mixture.

Mixtures of water with propylene glycol, ethylene glycol, ethanol, calcium chloride or sodium
chloride, and water itself. Each is sampled once from CoolProp (its fits of Melinder's tables; the
reference equation for water) between its freezing point and the upper end of the fit, and then
read by cubic interpolation, continuous with its derivative inside that range.

Outside `Brine.valid_range` a property is held at its value at the nearer end, and its expansion
coefficient with it: slush below the freezing point and boiling are not modelled. The caller says
so to the maker when the range is left.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cache
from typing import Literal

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.errors import Fault, InputError, unknown_name
from coldwright.fluids.film_properties import LiquidProperties
from coldwright.fluids.grids import Curve
from coldwright.fluids.table_cache import keep_tables, read_tables, table_file

Basis = Literal["volume", "mass"]

TABLE_VERSION = 1
PRESSURE = 101325.0  # Pa; a liquid's properties hardly depend on it
FILLING_TEMPERATURE = 293.15  # K at which volume fractions are meant
NODES = 121
# The water curve starts just above its freezing point, inside the liquid phase.
WATER_RANGE = (273.16, 368.15)
ABOVE_FREEZING = 0.01  # K


@dataclass(frozen=True)
class _Mixture:
    """How one kind of brine is found in CoolProp, and the pure component for volume fractions."""

    fluid: str
    greatest_mass_fraction: float
    pure_density: float | None  # kg/m3 at 20 °C; None: given by mass only
    uncertainty: tuple[tuple[str, float], ...]
    source: str
    # Fit ln(density) by a parabola: the cubic of the calcium chloride fit bends its expansion
    # coefficient into a U between 1.5e-4 and 7e-4 / K, which no brine shows.
    straighten_density: bool = False


# Relative standard uncertainties: spread between handbook tables of the same nominal mixture.
_GLYCOL_SPREAD = (
    ("density", 0.003),
    ("specific_heat", 0.01),
    ("conductivity", 0.03),
    ("dynamic_viscosity", 0.08),
    ("expansion_coefficient", 0.10),
)
_SALT_SPREAD = (*_GLYCOL_SPREAD[:-1], ("expansion_coefficient", 0.35))
_WATER_SPREAD = (
    ("density", 0.0001),
    ("specific_heat", 0.001),
    ("conductivity", 0.02),
    ("dynamic_viscosity", 0.02),
    ("expansion_coefficient", 0.01),
)

_MELINDER = "fluids_melinder_2010"
_MIXTURES = {
    "propylene glycol": _Mixture("MPG", 0.60, 1036.0, _GLYCOL_SPREAD, _MELINDER),
    "ethylene glycol": _Mixture("MEG", 0.60, 1113.2, _GLYCOL_SPREAD, _MELINDER),
    "ethanol": _Mixture("MEA", 0.60, 789.3, _GLYCOL_SPREAD, _MELINDER),
    "calcium chloride": _Mixture("MCA", 0.30, None, _SALT_SPREAD, _MELINDER, True),
    "sodium chloride": _Mixture("MNA", 0.23, None, _SALT_SPREAD, _MELINDER),
    "water": _Mixture("Water", 0.0, None, _WATER_SPREAD, "fluids_iapws_95"),
}


@dataclass(frozen=True)
class Brine:
    """One mixture, ready for look-up; temperatures K, SI units, arrays over lanes."""

    kind: str
    mass_fraction: float
    volume_fraction: float | None  # at 20 °C; None for a salt
    freezing_temperature: float  # K, where the first ice forms
    valid_range: tuple[float, float]  # K; properties are held at its ends
    relative_uncertainty: dict[str, float]  # standard, by property
    source: str
    _curve: Curve = field(repr=False, compare=False)

    def _held(self, temperature: FloatOrArray) -> Array:
        return np.clip(lanes(temperature), *self.valid_range)

    def density(self, temperature: FloatOrArray) -> Array:
        """Density [kg/m3]."""
        return np.exp(self._curve.locate(self._held(temperature)).column(0))

    def specific_heat(self, temperature: FloatOrArray) -> Array:
        """Specific heat at constant pressure [J/(kg K)]."""
        return self._curve.locate(self._held(temperature)).column(1)

    def conductivity(self, temperature: FloatOrArray) -> Array:
        """Thermal conductivity [W/(m K)]."""
        return self._curve.locate(self._held(temperature)).column(2)

    def dynamic_viscosity(self, temperature: FloatOrArray) -> Array:
        """Dynamic viscosity [Pa s]; doubles within about 15 K of cooling in a strong glycol."""
        return np.exp(self._curve.locate(self._held(temperature)).column(3))

    def expansion_coefficient(self, temperature: FloatOrArray) -> Array:
        """Volume expansion coefficient [1/K], the slope of -ln(density); negative for cold water.

        Water is densest at 4 °C and a weak brine at a lower temperature: under it the coefficient
        changes sign and free convection turns over.
        """
        _, slope = self._curve.locate(self._held(temperature)).column_and_slope(0)
        return -slope / self._curve.step

    def properties(self, temperature: FloatOrArray) -> LiquidProperties:
        """All film properties at once, from one look-up."""
        place = self._curve.locate(self._held(temperature))
        log_density, slope = place.column_and_slope(0)
        return LiquidProperties(
            density=np.exp(log_density),
            specific_heat=place.column(1),
            conductivity=place.column(2),
            dynamic_viscosity=np.exp(place.column(3)),
            expansion_coefficient=-slope / self._curve.step,
        )

    def expansion_from(self, filled_at: FloatOrArray, warmed_to: FloatOrArray) -> Array:
        """Growth as a share of the volume filled, from `filled_at` to `warmed_to` [K]."""
        return lanes(self.density(filled_at) / self.density(warmed_to) - 1.0)


def brine_names() -> tuple[str, ...]:
    """The kinds of brine that `brine` knows."""
    return tuple(_MIXTURES)


def _mixture(kind: str) -> tuple[str, _Mixture]:
    plain = " ".join(kind.lower().split())
    if plain in _MIXTURES:
        return plain, _MIXTURES[plain]
    raise unknown_name("coolant.kind", "Kind of coolant", kind, _MIXTURES)


def sampler_of(kind: str) -> tuple[float, Callable[[float], Callable[[str, float], float]]]:
    """Greatest mass fraction of `kind`, and what makes (CoolProp key, K) -> value for a fraction.

    Slow: only for curves that are then kept on disk.
    """
    mixture = _mixture(kind)[1]
    return mixture.greatest_mass_fraction, lambda fraction: _sampler(mixture, fraction)


def _sampler(mixture: _Mixture, mass_fraction: float) -> Callable[[str, float], float]:
    """Return a function (CoolProp key, temperature) -> value for this mixture."""
    # Loading CoolProp takes seconds: done only where the curves are not on disk yet.
    from CoolProp.CoolProp import PropsSI  # noqa: PLC0415 (see above)

    name = (
        mixture.fluid
        if mixture.fluid == "Water"
        else f"INCOMP::{mixture.fluid}[{mass_fraction:.12g}]"
    )

    def sample(key: str, temperature: float) -> float:
        return float(PropsSI(key, "T", temperature, "P", PRESSURE, name))

    return sample


def _mass_from_volume(mixture: _Mixture, pure_density: float, volume_fraction: float) -> float:
    """Mass fraction whose content of pure component, as volume by mixture volume, is as given."""
    from scipy.optimize import brentq  # noqa: PLC0415 (slow to load, seldom needed)

    def excess(mass_fraction: float) -> float:
        density = _sampler(mixture, mass_fraction)("D", FILLING_TEMPERATURE)
        return mass_fraction * density / pure_density - volume_fraction

    return float(brentq(excess, 0.0, mixture.greatest_mass_fraction, xtol=1e-10))


def _greatest_fraction(mixture: _Mixture, basis: str) -> float:
    if basis == "mass" or mixture.pure_density is None:
        return mixture.greatest_mass_fraction
    density = _sampler(mixture, mixture.greatest_mass_fraction)("D", FILLING_TEMPERATURE)
    return mixture.greatest_mass_fraction * density / mixture.pure_density


def _check(kind: str, mixture: _Mixture, fraction: float, basis: str) -> None:
    """Raise InputError with every fault of the fraction and its basis."""
    faults = []
    if basis not in ("volume", "mass"):
        faults.append(
            Fault(
                "coolant.basis",
                f"Basis of the coolant fraction must be volume or mass; received {basis!r}.",
                hint="The same figure by volume and by mass freezes up to 3 K apart.",
            )
        )
    elif basis == "volume" and mixture.pure_density is None and fraction != 0.0:
        faults.append(
            Fault(
                "coolant.basis",
                f"Fraction of {kind} must be given by mass; received a fraction by volume.",
                hint="A salt is weighed.",
            )
        )
    greatest = _greatest_fraction(mixture, basis)
    if not 0.0 <= fraction <= greatest + 1e-12:
        faults.append(
            Fault(
                "coolant.fraction",
                f"Fraction of {kind} must be from 0 to {100 * greatest:.3g} %; "
                f"received {100 * fraction:.4g} %.",
                hint="" if greatest else "Plain water has no second component: give 0 %.",
            )
        )
    if faults:
        raise InputError(*faults)


def brine(kind: str, fraction: float = 0.0, basis: Basis = "mass") -> Brine:
    """Return the brine of `kind` with `fraction` [0..1] of the named component in water.

    `basis="volume"` means the volume of the pure component by the volume of the finished mixture,
    both at 20 °C. That is how handbooks tabulate it; because mixing shrinks the volume, measuring
    the two liquids apart and pouring them together gives up to 1 % (by mass) more.
    Raises InputError (unknown kind, with the nearest names; fraction or basis out of range).
    """
    name, _ = _mixture(kind)
    return _kept(name, float(fraction), basis)


@cache
def _kept(kind: str, fraction: float, basis: str) -> Brine:
    """The mixture from disk where an earlier run checked and fitted it, else made now."""
    plain = kind.replace(" ", "-")
    file = table_file(f"brine-{plain}-{fraction:.9g}-{basis}", TABLE_VERSION)
    mixture = _MIXTURES[kind]
    held = read_tables(file) if 0.0 <= fraction <= 1.0 else None
    if held is None or set(held) != _KEPT:
        _check(kind, mixture, fraction, basis)
        made = _made(kind, fraction, basis)
        curve = made._curve
        numbers = (
            made.mass_fraction,
            np.nan if made.volume_fraction is None else made.volume_fraction,
            made.freezing_temperature,
            *made.valid_range,
            curve.first,
            curve.step,
        )
        keep_tables(file, {"numbers": np.array(numbers), "coefficients": curve.coefficients})
        return made
    mass, volume, freezing, least, greatest, first, step = (float(v) for v in held["numbers"])
    return Brine(
        kind=kind,
        mass_fraction=mass,
        volume_fraction=None if np.isnan(volume) else volume,
        freezing_temperature=freezing,
        valid_range=(least, greatest),
        relative_uncertainty=dict(mixture.uncertainty),
        source=mixture.source,
        _curve=Curve(first, step, held["coefficients"]),
    )


_KEPT = {"numbers", "coefficients"}


def _made(kind: str, fraction: float, basis: str) -> Brine:
    """Sample and fit one mixture."""
    mixture = _MIXTURES[kind]
    by_volume = basis == "volume" and mixture.pure_density is not None
    mass_fraction = (
        _mass_from_volume(mixture, mixture.pure_density, fraction)
        if by_volume and mixture.pure_density is not None
        else fraction
    )
    sample = _sampler(mixture, mass_fraction)
    if mixture.fluid == "Water":
        freezing, (least, greatest) = 273.15, WATER_RANGE
    else:
        freezing = sample("T_FREEZE", FILLING_TEMPERATURE)
        least = max(freezing + ABOVE_FREEZING, sample("T_MIN", FILLING_TEMPERATURE))
        greatest = sample("T_MAX", FILLING_TEMPERATURE) - ABOVE_FREEZING
    axis = np.linspace(least, greatest, NODES)
    values = np.array([[sample(key, t) for key in ("D", "C", "L", "V")] for t in axis])
    values[:, [0, 3]] = np.log(values[:, [0, 3]])
    if mixture.straighten_density:
        values[:, 0] = np.polynomial.Polynomial.fit(axis, values[:, 0], 2)(axis)
    return Brine(
        kind=kind,
        mass_fraction=mass_fraction,
        volume_fraction=(
            None
            if mixture.pure_density is None
            else mass_fraction * sample("D", FILLING_TEMPERATURE) / mixture.pure_density
        ),
        freezing_temperature=freezing,
        valid_range=(least, greatest),
        relative_uncertainty=dict(mixture.uncertainty),
        source=mixture.source,
        _curve=Curve.through(axis, values),
    )
