"""Temperatures and their differences, which share units but not meaning."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from coldwright.units import registry
from coldwright.units.kinds import Kind
from coldwright.units.refusal import RefusedError, wrong_unit
from coldwright.units.vocabulary import registry_unit

if TYPE_CHECKING:
    from coldwright.units.numbers import Reading

_SCALES = ("kelvin", "celsius", "fahrenheit")
_DIFFERENCE = re.compile(
    r"\s*\b(?:diff(?:erence)?\b\.?|delta\b|of\s+difference\b)|^\s*(?:delta\b|Δ)\s*", re.IGNORECASE
)
_SCALE_THEN_DEGREE = re.compile(r"\s*([CFcf])\s*(?:°|degs?\.?|degrees?)\s*")


def to_si(reading: Reading, kind: Kind) -> tuple[float, float]:
    """The temperature or difference [K] and its half-width [K].

    Raises RefusedError, and UnknownUnitError for a unit that no spelling covers.
    """
    scale, marked = _scale(reading.unit)
    half = _half_width(reading, scale)
    if kind is Kind.temperature:
        if marked:
            raise RefusedError("which is a difference", "write '5 °C' or '41 °F'")
        kelvin = registry.to_kelvin(reading.number, scale)
        if kelvin < 0.0:
            raise RefusedError("which is below absolute zero")
        return kelvin, half
    if not marked and scale != "kelvin":
        number = f"{reading.number:g}"
        letter = scale[0].upper()
        example = f"'{number} °{letter} difference'"
        kelvin_way = f" or '{number} K'" if letter == "C" else ""
        raise RefusedError(
            "which is a temperature", f"for a difference write {example}{kelvin_way}"
        )
    return reading.number * registry.factor(scale, "kelvin"), half


def _half_width(reading: Reading, scale: str) -> float:
    """The half-width [K]; its unit counts as a difference, marked or not."""
    if reading.half_unit == "%":
        raise RefusedError(
            "with a percentage of a temperature", "write the half-width in degrees: '± 1 K'"
        )
    half_scale = _scale(reading.half_unit)[0] if reading.half_unit else scale
    return reading.half_width * registry.factor(half_scale, "kelvin")


def _scale(unit: str) -> tuple[str, bool]:
    """The scale of `unit`, and whether it is marked as a difference."""
    bare, marks = _DIFFERENCE.subn("", unit)
    degree = _SCALE_THEN_DEGREE.fullmatch(bare)
    if degree is not None:  # `9 F deg`: the trade's way to write a difference
        bare, marks = degree[1], marks + 1
    found = registry_unit(bare.strip())
    if found not in _SCALES:
        raise wrong_unit(found, "units: °C, °F, K")
    return found, marks > 0
