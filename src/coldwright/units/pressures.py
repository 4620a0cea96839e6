"""Pressures: the mark that says from where one is read is part of the unit."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Literal

from coldwright.units import registry
from coldwright.units.kinds import FACTS, Kind
from coldwright.units.refusal import RefusedError, wrong_unit
from coldwright.units.vocabulary import registry_unit, tidy

if TYPE_CHECKING:
    from coldwright.units.numbers import Reading

Mark = Literal["gauge", "absolute", "vacuum", "difference", ""]

_WORDS: dict[str, Mark] = {
    "g": "gauge",
    "ga": "gauge",
    "gage": "gauge",
    "gauge": "gauge",
    "a": "absolute",
    "abs": "absolute",
    "absolute": "absolute",
    "vac": "vacuum",
    "vacuum": "vacuum",
    "d": "difference",
    "diff": "difference",
    "difference": "difference",
}
_WORD_MARK = re.compile(r"(.+?)[\s_-]*(?:\(\s*([a-z]+)\.?\s*\)|(?<=[\s_-])([a-z]+)\.?)")
_LETTER_MARK = re.compile(r"(psi|m?bar|[hkm]?pa)(g|a|d|ga|abs)")
_MICRON = re.compile(r"microns?(?:\s*(?:of\s*)?(?:hg|mercury))?", re.IGNORECASE)
# Units that the trade uses for absolute pressure when nothing else is said.
_ABSOLUTE_BY_CUSTOM = ("bar", "millibar", "atmosphere", "torr", "micrometer_mercury")


def to_si(reading: Reading, kind: Kind, atmosphere_Pa: float) -> tuple[float, float]:
    """The pressure [Pa] as `kind` asks for it, and its half-width [Pa].

    Raises RefusedError, and UnknownUnitError for a unit that no spelling covers.
    """
    unit, mark = _unit_and_mark(reading.unit, kind)
    scale = registry.factor(unit, "pascal")
    size = reading.number * scale
    half = _half_width(reading, scale, kind)
    if kind is Kind.pressure_difference:
        if mark not in {"", "difference"}:
            raise RefusedError(
                f"which is marked {mark}", f"write '{reading.number:g} {_plain_unit(reading.unit)}'"
            )
        return size, half
    absolute = _absolute(size, unit, mark, reading, atmosphere_Pa)
    return (absolute if kind is Kind.absolute_pressure else absolute - atmosphere_Pa), half


def _absolute(size: float, unit: str, mark: Mark, reading: Reading, atmosphere_Pa: float) -> float:
    """The pressure [Pa] above vacuum. Raises RefusedError when no mark says from where."""
    if not mark and unit in _ABSOLUTE_BY_CUSTOM:
        mark = "absolute"
    if not mark or mark == "difference":
        number, plain = f"{reading.number:g}", _plain_unit(reading.unit)
        ways = f"write '{number} {plain} gauge' or '{number} {plain} abs'"
        if "mercury" in unit:
            ways = f"write '{number} {plain} vacuum' or '{number} {plain} abs'"
        raise RefusedError("which does not say gauge or absolute", ways)
    if mark == "vacuum" and size < 0.0:
        raise RefusedError("", "a vacuum is written without a minus sign")
    zero = 0.0 if mark == "absolute" else atmosphere_Pa
    absolute = zero - size if mark == "vacuum" else zero + size
    if absolute <= 0.0:
        deepest = atmosphere_Pa / registry.factor("inch_mercury", "pascal")
        hint = (
            f"at {atmosphere_Pa / 1000.0:.1f} kPa of atmosphere a full vacuum is {deepest:.2f} inHg"
        )
        raise RefusedError(
            "which is below a full vacuum", f"{hint}; write a deep vacuum in microns"
        )
    return absolute


def _half_width(reading: Reading, scale: float, kind: Kind) -> float:
    """The half-width [Pa]; a percentage is of the number as written."""
    if reading.half_unit == "%":
        return abs(reading.number) * scale * reading.half_width / 100.0
    if not reading.half_unit:
        return reading.half_width * scale
    return reading.half_width * registry.factor(
        _unit_and_mark(reading.half_unit, kind)[0], "pascal"
    )


def _unit_and_mark(text: str, kind: Kind) -> tuple[str, Mark]:
    """The registry's unit and the mark of a pressure's unit text."""
    bare, mark = _split(text)
    if _MICRON.fullmatch(bare):
        if mark not in {"", "absolute"}:
            raise RefusedError("", "a micron is always absolute")
        return "micrometer_mercury", "absolute"
    unit = registry_unit(bare)
    if not registry.same_dimension(unit, "pascal"):
        raise wrong_unit(unit, f"units: {', '.join(FACTS[kind].allowed)}")
    return unit, mark


def _split(text: str) -> tuple[str, Mark]:
    """The unit without its mark, and the mark."""
    text = text.strip()
    lower = text.lower()
    attached = _LETTER_MARK.fullmatch(lower.replace(" ", ""))
    if attached is not None and lower not in {"pa"}:
        length = len(attached[1])
        return text[:length], _WORDS[attached[2]]
    worded = _WORD_MARK.fullmatch(lower)
    if worded is not None:
        mark = _WORDS.get(worded[2] or worded[3], "")
        if mark:
            return text[: worded.end(1)].strip(), mark
    return text, ""


def _plain_unit(text: str) -> str:
    """The unit without its mark, as it may stand in a hint."""
    return tidy(_split(text)[0])
