"""Parsing a quantity: the text of one entry into an SI value with its standard uncertainty."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import lru_cache

from coldwright.errors import Fault, InputError
from coldwright.units import pressures, registry, temperatures
from coldwright.units.kinds import FACTS, Kind
from coldwright.units.numbers import NumberFaultError, Reading, read_text
from coldwright.units.refusal import RefusedError, wrong_unit
from coldwright.units.vocabulary import UnknownUnitError, nearest, registry_unit

_COVERAGE = 2.0  # half-width of a 95 % interval over the standard uncertainty

_LONGEST_SHOWN = 80

PRESSURES = (Kind.absolute_pressure, Kind.gauge_pressure, Kind.pressure_difference)
TEMPERATURES = (Kind.temperature, Kind.temperature_difference)


@dataclass(frozen=True)
class Quantity:
    """One entry: SI value, standard uncertainty (0: none was given), the text and the kind.

    A gauge pressure's value is above the atmosphere, an absolute one's above vacuum. `remark` says
    how a doubtful text was read (`1,234` as 1.234); it is empty nearly always.
    """

    value: float
    standard_uncertainty: float
    text: str
    kind: Kind
    remark: str = ""


def parse_quantity(
    text: str | float,
    kind: Kind,
    *,
    field: str,
    subject: str = "",
    atmosphere_Pa: float = 101325.0,
) -> Quantity:
    """Read `text` as a quantity of `kind`.

    `value ± half-width` gives the half-width of a 95 % interval, in the same or another unit or
    in per cent of the number as written (of a ratio: percentage points). `atmosphere_Pa` turns
    gauge readings into absolute ones and back. `subject` opens the message (the last part of
    `field` unless given). Raises InputError with one fault.
    """
    given = _given(text)
    try:
        reading, value, half_width = (
            _known(text, kind, atmosphere_Pa)
            if isinstance(text, str)
            else _taken(text, kind, atmosphere_Pa)
        )
        if not (math.isfinite(value) and math.isfinite(half_width)):
            raise RefusedError("", "a quantity is finite")
    except RefusedError as refusal:
        name = subject or _name(field)
        received = f"{given}{f', {refusal.what}' if refusal.what else ''}"
        message = f"{name} must be {FACTS[kind].demand}; received {received}."
        raise InputError(Fault(field=field, message=message, hint=refusal.hint)) from None
    return Quantity(value, half_width / _COVERAGE, str(text).strip(), kind, reading.remark)


def _taken(text: object, kind: Kind, atmosphere_Pa: float) -> tuple[Reading, float, float]:
    """The reading of an entry with its SI value and half-width."""
    reading = _read(text)
    return (reading, *_to_si(reading, kind, atmosphere_Pa))


# A build is read anew at each key pressed, and nearly all of its entries are as before.
_known = lru_cache(maxsize=4096)(_taken)


def _given(text: object) -> str:
    """The received entry as it stands in a message."""
    given = f"'{text.strip()}'" if isinstance(text, str) else f"{text!r}"
    return given if len(given) <= _LONGEST_SHOWN else f"{given[:_LONGEST_SHOWN]}..."


def _name(field: str) -> str:
    """The last part of a dotted path, as the start of a sentence."""
    words = re.sub(r"\[\d*\]", "", field.rsplit(".", maxsplit=1)[-1]).replace("_", " ").strip()
    return words[:1].upper() + words[1:] if words else "The value"


def _read(text: object) -> Reading:
    """The reading of a text or of a bare number."""
    if isinstance(text, bool) or not isinstance(text, str | int | float):
        raise RefusedError("which is neither text nor a number")
    if not isinstance(text, str):
        try:
            return Reading(float(text), "")
        except OverflowError:
            raise RefusedError("", "a quantity is finite") from None
    if not text.strip():
        raise RefusedError("which is empty")
    try:
        return read_text(text)
    except NumberFaultError as fault:
        raise RefusedError("", str(fault)) from None


def _to_si(reading: Reading, kind: Kind, atmosphere_Pa: float) -> tuple[float, float]:
    """The SI value and half-width of `reading`."""
    if kind is Kind.ratio:
        return _ratio(reading)
    if kind is Kind.number:
        return _number(reading)
    if not reading.unit:
        raise RefusedError("which has no unit", _units_hint(kind))
    try:
        if kind in TEMPERATURES:
            return temperatures.to_si(reading, kind)
        if kind in PRESSURES:
            return pressures.to_si(reading, kind, atmosphere_Pa)
        return _plain(reading, kind)
    except UnknownUnitError as unknown:
        guess = nearest(reading.unit) or unknown.nearest
        hint = f"did you mean '{guess}'?" if guess else _units_hint(kind)
        raise RefusedError(f"whose unit '{unknown.unit}' is not known", hint) from None


def _units_hint(kind: Kind) -> str:
    return f"units: {', '.join(FACTS[kind].allowed)}"


def _plain(reading: Reading, kind: Kind) -> tuple[float, float]:
    """A kind whose units differ by a factor only."""
    scale = _factor(reading.unit, kind)
    if reading.half_unit == "%":
        return reading.number * scale, abs(reading.number) * scale * reading.half_width / 100.0
    half_scale = _factor(reading.half_unit, kind) if reading.half_unit else scale
    return reading.number * scale, reading.half_width * half_scale


def _factor(unit: str, kind: Kind) -> float:
    """How many SI units make one `unit`. Raises RefusedError for another dimension."""
    found = registry_unit(unit)
    if not registry.same_dimension(found, FACTS[kind].si_unit):
        raise wrong_unit(found, _units_hint(kind))
    return registry.factor(found, FACTS[kind].si_unit)


def _ratio(reading: Reading) -> tuple[float, float]:
    """A ratio, bare or in per cent; its half-width is meant in the same points."""
    percent = {"": 1.0, "%": 0.01}
    if re.fullmatch(r"per\s?cent", reading.unit):
        reading = Reading(reading.number, "%", reading.half_width, reading.half_unit)
    if reading.unit not in percent:
        raise RefusedError(f"whose unit '{reading.unit}' is not allowed", "units: % or none")
    if reading.half_unit == "%" and not reading.unit:
        raise RefusedError("", "write % on both sides of the ±, or on neither")
    if reading.half_unit not in percent:
        raise RefusedError(f"whose unit '{reading.half_unit}' is not allowed", "units: % or none")
    scale = percent[reading.unit]
    return reading.number * scale, reading.half_width * scale


def _number(reading: Reading) -> tuple[float, float]:
    """A plain number; its half-width may be in per cent of it."""
    if reading.unit:
        raise RefusedError(f"with the unit '{reading.unit}'", "leave the unit out")
    if reading.half_unit == "%":
        return reading.number, abs(reading.number) * reading.half_width / 100.0
    return reading.number, reading.half_width
