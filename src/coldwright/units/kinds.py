"""The kinds of quantity, and what a maker may write for each."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping


class Kind(StrEnum):
    """What a quantity is. Two kinds may share a dimension: a gauge pressure is no difference."""

    temperature = "temperature"
    temperature_difference = "temperature_difference"
    absolute_pressure = "absolute_pressure"
    gauge_pressure = "gauge_pressure"
    pressure_difference = "pressure_difference"
    length = "length"
    area = "area"
    volume = "volume"
    mass = "mass"
    power = "power"
    heat_flow = "heat_flow"
    energy = "energy"
    current = "current"
    voltage = "voltage"
    frequency = "frequency"
    conductance = "conductance"
    linear_conductance = "linear_conductance"
    conductivity = "conductivity"
    film_coefficient = "film_coefficient"
    density = "density"
    specific_heat = "specific_heat"
    mass_flow = "mass_flow"
    volume_flow = "volume_flow"
    velocity = "velocity"
    time = "time"
    angle = "angle"
    ratio = "ratio"
    number = "number"


@dataclass(frozen=True)
class KindFacts:
    """What a kind is called, its SI unit (in the registry's spelling) and what is accepted."""

    noun: str
    si_unit: str
    allowed: tuple[str, ...]
    example: str

    @property
    def demand(self) -> str:
        """What must be written, with an example."""
        return f"{self.noun}, such as {self.example}"


_PRESSURE_UNITS = (
    "psig",
    "psia",
    "inHg vacuum",
    "micron",
    "kPa abs",
    "kPa gauge",
    "bar(a)",
    "bar(g)",
)
_HEAT_UNITS = ("W", "kW", "Btu/h", "hp", "Wh/day", "kcal/h")

FACTS: Mapping[Kind, KindFacts] = {
    Kind.temperature: KindFacts(
        "a temperature with its unit", "kelvin", ("°C", "°F", "K"), "5 °C or 41 °F"
    ),
    Kind.temperature_difference: KindFacts(
        "a temperature difference with its unit",
        "kelvin",
        ("K", "°C difference", "°F difference"),
        "5 K or 9 °F difference",
    ),
    Kind.absolute_pressure: KindFacts(
        "a pressure that says gauge or absolute",
        "pascal",
        _PRESSURE_UNITS,
        "10 psig or 170 kPa abs",
    ),
    Kind.gauge_pressure: KindFacts(
        "a pressure that says gauge or absolute",
        "pascal",
        _PRESSURE_UNITS,
        "10 psig or 70 kPa gauge",
    ),
    Kind.pressure_difference: KindFacts(
        "a pressure difference with its unit",
        "pascal",
        ("Pa", "kPa", "bar", "psi", "inH2O", "mmHg"),
        "20 kPa or 3 psi",
    ),
    Kind.length: KindFacts(
        "a length with its unit",
        "meter",
        ("mm", "cm", "m", "µm", "in", "ft", "yd"),
        "60 mm or 2 3/8 in",
    ),
    Kind.area: KindFacts(
        "an area with its unit", "meter**2", ("mm2", "cm2", "m2", "in2", "ft2"), "40 cm2 or 6 in2"
    ),
    Kind.volume: KindFacts(
        "a volume with its unit",
        "meter**3",
        ("mL", "L", "cm3", "m3", "in3", "ft3", "floz", "gal"),
        "4.5 cm3, 35 mL or 12 floz",
    ),
    Kind.mass: KindFacts(
        "a mass with its unit", "kilogram", ("g", "kg", "oz", "lb"), "40 g or 1.4 oz"
    ),
    Kind.power: KindFacts("a power with its unit", "watt", _HEAT_UNITS, "90 W or 1/8 hp"),
    Kind.heat_flow: KindFacts(
        "a heat flow with its unit", "watt", _HEAT_UNITS, "60 W or 205 Btu/h"
    ),
    Kind.energy: KindFacts(
        "an energy with its unit", "joule", ("J", "kJ", "MJ", "Wh", "kWh", "Btu", "kcal"), "0.8 kWh"
    ),
    Kind.current: KindFacts("a current with its unit", "ampere", ("A", "mA"), "0.9 A"),
    Kind.voltage: KindFacts("a voltage with its unit", "volt", ("V", "mV", "kV"), "230 V"),
    Kind.frequency: KindFacts("a frequency with its unit", "hertz", ("Hz", "kHz", "rpm"), "50 Hz"),
    Kind.conductance: KindFacts(
        "a conductance with its unit", "watt/kelvin", ("W/K", "Btu/(h °F)"), "0.8 W/K"
    ),
    Kind.linear_conductance: KindFacts(
        "a conductance per length with its unit",
        "watt/(meter*kelvin)",
        ("W/(m K)", "mW/(m K)", "Btu/(h ft °F)"),
        "0.03 W/(m K)",
    ),
    Kind.conductivity: KindFacts(
        "a thermal conductivity with its unit",
        "watt/(meter*kelvin)",
        ("W/(m K)", "mW/(m K)", "Btu/(h ft °F)", "Btu in/(h ft2 °F)"),
        "0.035 W/(m K) or 0.24 Btu in/(h ft2 °F)",
    ),
    Kind.film_coefficient: KindFacts(
        "a film coefficient with its unit",
        "watt/(meter**2*kelvin)",
        ("W/(m2 K)", "Btu/(h ft2 °F)"),
        "8 W/(m2 K)",
    ),
    Kind.density: KindFacts(
        "a density with its unit",
        "kilogram/meter**3",
        ("kg/m3", "g/cm3", "kg/L", "lb/ft3"),
        "30 kg/m3",
    ),
    Kind.specific_heat: KindFacts(
        "a specific heat with its unit",
        "joule/(kilogram*kelvin)",
        ("J/(kg K)", "kJ/(kg K)", "Btu/(lb °F)", "kcal/(kg K)"),
        "3.6 kJ/(kg K)",
    ),
    Kind.mass_flow: KindFacts(
        "a mass flow with its unit",
        "kilogram/second",
        ("kg/s", "kg/h", "g/s", "lb/h", "g/day"),
        "0.6 kg/h",
    ),
    Kind.volume_flow: KindFacts(
        "a volume flow with its unit",
        "meter**3/second",
        ("m3/s", "m3/h", "L/s", "L/min", "cfm"),
        "5 L/s or 10 cfm",
    ),
    Kind.velocity: KindFacts(
        "a velocity with its unit", "meter/second", ("m/s", "cm/s", "ft/s", "ft/min"), "0.2 m/s"
    ),
    Kind.time: KindFacts("a time with its unit", "second", ("s", "min", "h", "day"), "15 min"),
    Kind.angle: KindFacts("an angle with its unit", "radian", ("deg", "rad"), "15 deg"),
    Kind.ratio: KindFacts("a ratio", "", ("%", "none"), "40 % or 0.4"),
    Kind.number: KindFacts("a plain number without a unit", "", (), "6"),
}
