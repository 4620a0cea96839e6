"""Numbers as makers write them: fractions of an inch, decimal point or comma, `±`, `1' 6"`."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

_FRACTIONS = str.maketrans(
    {
        "½": " 1/2",
        "¼": " 1/4",
        "¾": " 3/4",
        "⅛": " 1/8",
        "⅜": " 3/8",
        "⅝": " 5/8",
        "⅞": " 7/8",
        "\u2044": "/",
        "\u2212": "-",  # the minus sign
        "\u2013": "-",  # the dash often typed for it
        "\u2032": "'",
        "\u2019": "'",
        "\u2033": '"',
        "\u201d": '"',
        "\u00a0": " ",
        "\u202f": " ",
    }
)
_NUMBER = re.compile(
    r"""\s*(?P<sign>[+-]?)\s*
    (?:(?:(?P<whole>\d+)[\s-]+)?(?P<over>\d+)\s*/\s*(?P<under>\d+)
      |(?P<decimal>(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d+)?))""",
    re.VERBOSE,
)
_PLUS_MINUS = re.compile(r"±|\+\s*/\s*-|\+-")
_BRACKETED = re.compile(r"\(([^()]*(?:±|\+\s*/\s*-|\+-)[^()]*)\)(.*)", re.DOTALL)
_LOOKS_THOUSANDS = re.compile(r"[+-]?[1-9]\d{0,2},\d{3}")
# Pairs that make one measure: the larger unit, the smaller one, and how many make the larger.
_PAIRS = (
    (re.compile(r"'|ft\.?|foot|feet"), re.compile(r'"|in\.?|inch|inches'), 12.0, "in"),
    (re.compile(r"lbs?\.?|pounds?"), re.compile(r"oz\.?|ounces?"), 16.0, "oz"),
)


class NumberFaultError(ValueError):
    """A text that is no number; its message completes "because ..."."""


@dataclass(frozen=True)
class Reading:
    """What stands in a text: a number, its unit, and the half-width with its unit if given."""

    number: float
    unit: str
    half_width: float = 0.0
    half_unit: str = ""
    remark: str = ""


def read_text(text: str) -> Reading:
    """Split `text` into number, unit and half-width.

    A comma is a decimal comma (`1,5` is 1.5); `1,234` is read as 1.234 and remarked on; any other
    mark between thousands is refused. Raises NumberFaultError.
    """
    tidy = text.translate(_FRACTIONS).strip()
    bracketed = _BRACKETED.fullmatch(tidy)
    if bracketed is not None:
        tidy = f"{bracketed[1]} {bracketed[2]}"
    parts = _PLUS_MINUS.split(tidy)
    if len(parts) > 2:
        raise NumberFaultError("it holds more than one ±")
    reading = _one(parts[0])
    if len(parts) == 1:
        return reading
    half = _one(parts[1])
    if half.number < 0.0:
        raise NumberFaultError("a half-width cannot be negative")
    unit = reading.unit
    half_unit = half.unit
    if not unit and half_unit != "%":  # `5 ± 1 °C`: the unit stands once, behind both
        unit = half_unit
    return replace(
        reading,
        unit=unit,
        half_width=half.number,
        half_unit=half_unit,
        remark=reading.remark or half.remark,
    )


def _one(text: str) -> Reading:
    """A number with its unit, or two that make one measure (`1' 6"`)."""
    number, rest, remark = _leading_number(text)
    second = re.search(r"(?<=[a-zA-Z.'])\s*(?=\d)|(?<=[a-zA-Z.'])\s+(?=[.,]?\d)", rest)
    if second is not None:
        pair = _pair(number, rest[: second.start()].strip(), rest[second.start() :])
        if pair is not None:
            return pair
    return Reading(number, rest.strip(), remark=remark)


def _pair(number: float, larger_unit: str, rest: str) -> Reading | None:
    """The measure in the smaller unit, or None when the two units make no pair."""
    for larger, smaller, ratio, unit in _PAIRS:
        if larger.fullmatch(larger_unit):
            minor, minor_unit, remark = _leading_number(rest)
            if smaller.fullmatch(minor_unit.strip()) and 0.0 <= minor < ratio:
                size = abs(number) * ratio + minor
                return Reading(size if number >= 0.0 else -size, unit, remark=remark)
    return None


def _leading_number(text: str) -> tuple[float, str, str]:
    """The number that `text` starts with, what follows it, and a remark on how it was read."""
    match = _NUMBER.match(text)
    if match is None:
        raise NumberFaultError("it does not start with a number")
    rest = text[match.end() :]
    if re.match(r"\s*[.,]?\d|[.,_]", rest):
        raise NumberFaultError("the number is not clear; write 1234.5 without thousands marks")
    remark = ""
    if match["decimal"] is None:
        under = float(match["under"])
        if under == 0.0:
            raise NumberFaultError("a fraction is divided by 0")
        size = float(match["whole"] or 0) + float(match["over"]) / under
    else:
        size = float(match["decimal"].replace(",", "."))
        if _LOOKS_THOUSANDS.fullmatch(match["decimal"]):
            remark = f"'{match['decimal']}' was read with a decimal comma, as {size:g}"
    return (-size if match["sign"] == "-" else size), rest, remark
