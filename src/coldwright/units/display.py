"""SI to text: what a maker reads, in shop units or in SI ones."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from coldwright.units import registry
from coldwright.units.kinds import FACTS, Kind

System = Literal["shop", "si"]

_SIXTY_FOURTH = 64
_SIGNIFICANT = 3
_MOST_DECIMALS = 6
_COVERAGE = 2.0
_UNKNOWN = "not known"


@dataclass(frozen=True)
class Shown:
    """A way to show a kind: up to which size [SI], its label, its unit, how many decimals."""

    below: float
    label: str
    unit: str
    decimals: int | None = None


def _always(label: str, unit: str, decimals: int | None = None) -> tuple[Shown, ...]:
    return (Shown(math.inf, label, unit, decimals),)


_HEAT_PER_DEGREE = "btu/(hour*fahrenheit)"
_BOTH: dict[Kind, tuple[Shown, ...]] = {
    Kind.power: _always("W", "watt"),
    Kind.energy: (
        Shown(3.6e6, "Wh", "watt_hour"),
        Shown(math.inf, "kWh", "kilowatt_hour"),
    ),
    Kind.current: _always("A", "ampere"),
    Kind.voltage: _always("V", "volt"),
    Kind.frequency: _always("Hz", "hertz"),
    Kind.time: (
        Shown(120.0, "s", "second"),
        Shown(7200.0, "min", "minute"),
        Shown(math.inf, "h", "hour"),
    ),
    Kind.angle: _always("deg", "degree_angle"),
}
_SI: dict[Kind, tuple[Shown, ...]] = {
    **_BOTH,
    Kind.temperature: _always("°C", "celsius", 1),
    Kind.temperature_difference: _always("K", "kelvin", 1),
    Kind.absolute_pressure: (
        Shown(1000.0, "Pa abs", "pascal"),
        Shown(math.inf, "kPa abs", "kilopascal", 1),
    ),
    Kind.gauge_pressure: _always("kPa gauge", "kilopascal", 1),
    Kind.pressure_difference: (
        Shown(1000.0, "Pa", "pascal"),
        Shown(math.inf, "kPa", "kilopascal"),
    ),
    Kind.length: (Shown(2.0, "mm", "millimeter"), Shown(math.inf, "m", "meter")),
    Kind.area: (Shown(0.1, "cm2", "centimeter**2"), Shown(math.inf, "m2", "meter**2")),
    Kind.volume: (
        Shown(0.001, "mL", "milliliter"),
        Shown(1.0, "L", "liter"),
        Shown(math.inf, "m3", "meter**3"),
    ),
    Kind.mass: (Shown(1.0, "g", "gram"), Shown(math.inf, "kg", "kilogram")),
    Kind.heat_flow: _always("W", "watt"),
    Kind.conductance: _always("W/K", "watt/kelvin"),
    Kind.linear_conductance: _always("W/(m K)", "watt/(meter*kelvin)"),
    Kind.conductivity: _always("W/(m K)", "watt/(meter*kelvin)"),
    Kind.film_coefficient: _always("W/(m2 K)", "watt/(meter**2*kelvin)"),
    Kind.density: _always("kg/m3", "kilogram/meter**3"),
    Kind.specific_heat: _always("kJ/(kg K)", "kilojoule/(kilogram*kelvin)"),
    Kind.mass_flow: _always("kg/h", "kilogram/hour"),
    Kind.volume_flow: _always("L/s", "liter/second"),
    Kind.velocity: _always("m/s", "meter/second"),
}
_SHOP: dict[Kind, tuple[Shown, ...]] = {
    **_BOTH,
    Kind.temperature: _always("°F", "fahrenheit", 1),
    Kind.temperature_difference: _always("°F diff", "fahrenheit", 1),
    Kind.pressure_difference: (
        Shown(700.0, "inH2O", "inch_water"),
        Shown(math.inf, "psi", "psi"),
    ),
    Kind.length: (Shown(3.048, "in", "inch"), Shown(math.inf, "ft", "foot")),
    Kind.area: (Shown(0.09290304, "in2", "inch**2"), Shown(math.inf, "ft2", "foot**2")),
    Kind.volume: (
        Shown(2.9e-5, "in3", "inch**3"),
        Shown(3.785e-3, "floz", "fluid_ounce"),
        Shown(0.2, "gal", "gallon"),
        Shown(math.inf, "ft3", "foot**3"),
    ),
    Kind.mass: (Shown(0.9071, "oz", "ounce"), Shown(math.inf, "lb", "pound")),
    Kind.heat_flow: _always("Btu/h", "btu/hour"),
    Kind.conductance: _always("Btu/(h °F)", _HEAT_PER_DEGREE),
    Kind.linear_conductance: _always("Btu/(h ft °F)", "btu/(hour*foot*fahrenheit)"),
    Kind.conductivity: _always("Btu in/(h ft2 °F)", "btu*inch/(hour*foot**2*fahrenheit)"),
    Kind.film_coefficient: _always("Btu/(h ft2 °F)", "btu/(hour*foot**2*fahrenheit)"),
    Kind.density: _always("lb/ft3", "pound/foot**3"),
    Kind.specific_heat: _always("Btu/(lb °F)", "btu/(pound*fahrenheit)"),
    Kind.mass_flow: _always("lb/h", "pound/hour"),
    Kind.volume_flow: _always("cfm", "cubic_foot_per_minute"),
    Kind.velocity: _always("ft/min", "foot/minute"),
}
_SYSTEMS = {"si": _SI, "shop": _SHOP}
# A shop gauge shows pounds above the atmosphere, inches of mercury below, microns near nothing.
_GAUGE = Shown(math.inf, "psig", "psi", 1)
_VACUUM = Shown(math.inf, "inHg vacuum", "inch_mercury", 1)
_NO_VACUUM = 169.0  # Pa, half of the last figure shown
_MICRONS = Shown(1000.0, "micron", "micrometer_mercury")


def format_quantity(
    value: float,
    kind: Kind,
    system: System,
    *,
    atmosphere_Pa: float = 101325.0,
    digits: int | None = None,
) -> str:
    """Return `value` [SI; a gauge pressure above the atmosphere] as text with its unit.

    `digits` is the number of decimals; without it a temperature or pressure has one and all else
    three significant figures. Inches that are whole 64ths show as a fraction. `not known` stands
    for NaN or an infinite value. The text can be parsed again.
    """
    if not math.isfinite(value):
        return _UNKNOWN
    if kind is Kind.ratio:
        return f"{_digits(100.0 * value, digits)} %"
    if kind is Kind.number:
        return _digits(value, digits)
    shown, size = _shown(value, kind, system, atmosphere_Pa)
    if digits is None and shown.unit == "inch":
        fraction = _inch_fraction(size)
        if fraction:
            return f"{fraction} in"
    return f"{_digits(size, shown.decimals if digits is None else digits)} {shown.label}"


def format_estimate(
    value: float,
    standard_uncertainty: float,
    kind: Kind,
    system: System,
    *,
    atmosphere_Pa: float = 101325.0,
) -> str:
    """Return `value ± half-width` of the 95 % interval, the half-width to two figures.

    Without an uncertainty (0, NaN) it is `format_quantity`.
    """
    if not (math.isfinite(standard_uncertainty) and standard_uncertainty > 0.0):
        return format_quantity(value, kind, system, atmosphere_Pa=atmosphere_Pa)
    if not math.isfinite(value):
        return _UNKNOWN
    half = _COVERAGE * standard_uncertainty
    if kind in (Kind.ratio, Kind.number):
        scale, unit = (100.0, " %") if kind is Kind.ratio else (1.0, "")
        decimals = _decimals(half * scale, 2)
        return f"{_digits(value * scale, decimals)}{unit} ± {_digits(half * scale, decimals)}{unit}"
    shown, size = _shown(value, kind, system, atmosphere_Pa)
    half /= registry.factor(shown.unit, FACTS[kind].si_unit)
    decimals = _decimals(half, 2)
    return f"{_digits(size, decimals)} ± {_digits(half, decimals)} {shown.label}"


@dataclass(frozen=True)
class Scale:
    """One unit for a whole axis: what is shown = `factor` times the SI value plus `offset`."""

    label: str
    factor: float
    offset: float

    def of(self, value: float) -> float:
        """`value` [SI] in the unit of the scale."""
        return float(value) * self.factor + self.offset


def scale_of(kind: Kind, system: System, greatest: float = 1.0) -> Scale:
    """The scale of an axis of `kind` that reaches to `greatest` [SI].

    The unit is the one `format_quantity` has for `greatest`. A pressure's scale is absolute, in psi
    in shop units: a gauge's zero cannot stand on a logarithmic axis.
    """
    if kind is Kind.absolute_pressure and system == "shop":
        return Scale("psi abs", 1.0 / registry.factor("psi", "pascal"), 0.0)
    ways = _SYSTEMS[system][kind]
    way = next(each for each in ways if abs(greatest) < each.below or each is ways[-1])
    if kind is Kind.temperature:
        zero, one = (registry.from_kelvin(each, way.unit) for each in (0.0, 1.0))
        return Scale(way.label, one - zero, zero)
    return Scale(way.label, 1.0 / registry.factor(way.unit, FACTS[kind].si_unit), 0.0)


def _shown(value: float, kind: Kind, system: System, atmosphere_Pa: float) -> tuple[Shown, float]:
    """The way to show `value`, and its size in that unit."""
    if system == "shop" and kind in (Kind.absolute_pressure, Kind.gauge_pressure):
        return _shop_pressure(value, kind, atmosphere_Pa)
    ways = _SYSTEMS[system][kind]
    # NumPy scalars come in; a plain float keeps pint and the formatting to plain arithmetic.
    value = float(value)
    shown = next(way for way in ways if abs(value) < way.below or way is ways[-1])
    if kind is Kind.temperature:
        return shown, registry.from_kelvin(value, shown.unit)
    return shown, value / registry.factor(shown.unit, FACTS[kind].si_unit)


def _shop_pressure(value: float, kind: Kind, atmosphere_Pa: float) -> tuple[Shown, float]:
    """What a shop gauge would show."""
    absolute = kind is Kind.absolute_pressure
    if absolute and value < _MICRONS.below:
        return _MICRONS, value / registry.factor(_MICRONS.unit, "pascal")
    gauge = value - atmosphere_Pa if absolute else value
    if gauge > -_NO_VACUUM:
        return _GAUGE, gauge / registry.factor(_GAUGE.unit, "pascal")
    return _VACUUM, -gauge / registry.factor(_VACUUM.unit, "pascal")


def _digits(size: float, decimals: int | None) -> str:
    """The number as text; without `decimals` three significant figures, whole digits kept."""
    if decimals is None:
        decimals = _decimals(size, _SIGNIFICANT)
        if size != 0.0 and abs(size) < 10.0 ** (_SIGNIFICANT - 1 - _MOST_DECIMALS):
            return f"{size:.{_SIGNIFICANT - 1}e}"
        text = f"{size:.{decimals}f}"
        text = text.rstrip("0").rstrip(".") if "." in text else text
    else:
        text = f"{size:.{decimals}f}"
    return text.lstrip("-") if float(text) == 0.0 else text


def _decimals(size: float, figures: int) -> int:
    """How many decimals show `figures` significant figures of `size`."""
    if size == 0.0:
        return 0
    return min(max(figures - 1 - math.floor(math.log10(abs(size))), 0), _MOST_DECIMALS)


def _inch_fraction(size: float) -> str:
    """`3/16`, `1 1/4` or `6` when `size` [in] is a whole number of 64ths, else nothing."""
    parts = round(size * _SIXTY_FOURTH)
    if parts == 0 or abs(size * _SIXTY_FOURTH - parts) > 1.0e-6:
        return ""
    sign = "-" if parts < 0 else ""
    whole, over = divmod(abs(parts), _SIXTY_FOURTH)
    common = math.gcd(over, _SIXTY_FOURTH)
    fraction = f"{over // common}/{_SIXTY_FOURTH // common}" if over else ""
    return sign + " ".join(part for part in (str(whole) if whole else "", fraction) if part)
