"""The unit registry, built once when first needed, and conversion by a cached factor.

It holds only the units of the trade: an unlisted unit is a misspelling here, not a surprise.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pint

# Factors: NIST SP 811, Appendix B (source key `nist_sp811_2008`); inHg, mmHg, inH2O are the
# conventional columns (at 0 °C and 4 °C, standard gravity), Btu and calorie the International
# Table ones, ounce, gallon and quart the United States ones.
_DEFINITIONS = """
meter = [length]
second = [time]
kilogram = [mass]
ampere = [current]
kelvin = [temperature]; offset: 0
radian = []
celsius = kelvin; offset: 273.15
fahrenheit = 5 / 9 * kelvin; offset: 233.15 + 200 / 9
millimeter = 0.001 * meter
centimeter = 0.01 * meter
micrometer = 1e-6 * meter
inch = 0.0254 * meter
foot = 12 * inch
yard = 3 * foot
minute = 60 * second
hour = 3600 * second
day = 86400 * second
gram = 0.001 * kilogram
milligram = 1e-6 * kilogram
tonne = 1000 * kilogram
pound = 0.45359237 * kilogram
ounce = pound / 16
liter = 0.001 * meter ** 3
milliliter = 1e-6 * meter ** 3
gallon = 231 * inch ** 3
quart = gallon / 4
fluid_ounce = gallon / 128
hertz = 1 / second
kilohertz = 1000 / second
revolution_per_minute = 1 / 60 / second
newton = kilogram * meter / second ** 2
pound_force = 4.4482216152605 * newton
pascal = newton / meter ** 2
hectopascal = 100 * pascal
kilopascal = 1000 * pascal
megapascal = 1e6 * pascal
millibar = 100 * pascal
bar = 1e5 * pascal
atmosphere = 101325 * pascal
torr = atmosphere / 760
psi = pound_force / inch ** 2
inch_mercury = 3386.389 * pascal
centimeter_mercury = 1333.22387415 * pascal
millimeter_mercury = 133.322387415 * pascal
micrometer_mercury = 0.133322387415 * pascal
inch_water = 249.08891 * pascal
millimeter_water = 9.80665 * pascal
joule = newton * meter
kilojoule = 1000 * joule
megajoule = 1e6 * joule
watt = joule / second
milliwatt = 0.001 * watt
kilowatt = 1000 * watt
watt_hour = watt * hour
kilowatt_hour = 1000 * watt_hour
btu = 1055.05585262 * joule
calorie = 4.1868 * joule
kilocalorie = 1000 * calorie
horsepower = 550 * foot * pound_force / second
cubic_foot_per_minute = foot ** 3 / minute
milliampere = 0.001 * ampere
volt = watt / ampere
millivolt = 0.001 * volt
kilovolt = 1000 * volt
degree_angle = 0.017453292519943295 * radian
"""


@cache
def registry() -> pint.UnitRegistry[float]:
    """Return the registry; the first call costs the import of pint and the definitions."""
    import pint  # noqa: PLC0415  (0.4 s that `import coldwright` must not pay)

    found: pint.UnitRegistry[float] = pint.UnitRegistry(None)
    found.load_definitions(_DEFINITIONS.strip().splitlines())
    return found


@cache
def same_dimension(unit: str, other: str) -> bool:
    """Whether `unit` and `other` (registry spelling; empty: no dimension) convert to each other."""
    units = registry()
    return bool(units.Unit(unit).dimensionality == units.Unit(other).dimensionality)


@cache
def factor(unit: str, si_unit: str) -> float:
    """How many `si_unit` make one `unit`. For temperatures: of a difference."""
    units = registry()
    return float(units.Quantity(1.0, units.Unit(_as_delta(unit))).to(_as_delta(si_unit)).magnitude)


def to_kelvin(value: float, unit: str) -> float:
    """Return the temperature `value` in `unit` (kelvin, celsius or fahrenheit) in K."""
    units = registry()
    return float(units.Quantity(value, units.Unit(unit)).to("kelvin").magnitude)


def from_kelvin(value: float, unit: str) -> float:
    """Return the temperature `value` [K] in `unit` (kelvin, celsius or fahrenheit)."""
    units = registry()
    return float(units.Quantity(value, units.Unit("kelvin")).to(unit).magnitude)


def _as_delta(unit: str) -> str:
    """The unit with each temperature scale replaced by its degree."""
    return unit.replace("celsius", "delta_celsius").replace("fahrenheit", "delta_fahrenheit")
