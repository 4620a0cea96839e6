"""What a term is, the whole glossary, and the check of a value against a term's bounds."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING

from coldwright.errors import Fault, InputError
from coldwright.units import Kind, System, format_quantity, parse_quantity

if TYPE_CHECKING:
    from collections.abc import Mapping

    from coldwright.units import Quantity


@dataclass(frozen=True)
class Term:
    """One entry of the build file, as the maker knows it.

    `key` is its dotted path without indices and user-chosen names; bounds are SI and may be
    excluded. `usual_uncertainty` (absolute, SI) or `usual_relative_uncertainty` is the standard
    uncertainty assumed when the maker gives none (common practice, no source); both 0: exact.
    """

    key: str
    name: str
    meaning: str
    kind: Kind
    least: float = -math.inf
    greatest: float = math.inf
    least_excluded: bool = False
    greatest_excluded: bool = False
    usual_uncertainty: float = 0.0
    usual_relative_uncertainty: float = 0.0
    whole: bool = False

    @property
    def section(self) -> str:
        """The table of the build file that the term stands in."""
        return self.key.split(".", maxsplit=1)[0]

    def usual(self, value: float) -> float:
        """Return the standard uncertainty [SI] assumed for `value` when the maker gave none."""
        return self.usual_uncertainty + self.usual_relative_uncertainty * abs(value)

    def accepts(self, value: float) -> bool:
        """Whether `value` [SI] is finite, within the bounds and whole where it must be.

        A bound that is written in another unit may come out a rounding error beside it.
        """
        slack = 1e-12 * max(abs(value), 1e-12) if math.isfinite(value) else 0.0
        above = value > self.least if self.least_excluded else value >= self.least - slack
        below = value < self.greatest if self.greatest_excluded else value <= self.greatest + slack
        whole = not self.whole or (math.isfinite(value) and float(value).is_integer())
        return math.isfinite(value) and above and below and whole

    def bounds_text(self, system: System = "si") -> str:
        """The bounds as words, e.g. `greater than 0 mm and at most 500 mm`; empty if unbounded."""
        parts = []
        if math.isfinite(self.least):
            word = "greater than" if self.least_excluded else "at least"
            parts.append(f"{word} {format_quantity(self.least, self.kind, system)}")
        if math.isfinite(self.greatest):
            word = "less than" if self.greatest_excluded else "at most"
            parts.append(f"{word} {format_quantity(self.greatest, self.kind, system)}")
        return " and ".join(parts)


def size(key: str, name: str, meaning: str, greatest: float, *, tolerance: float = 0.02) -> Term:
    """The term of a length that must be positive; `greatest` [m], tolerance relative."""
    return Term(
        key,
        name,
        meaning,
        Kind.length,
        least=0.0,
        greatest=greatest,
        least_excluded=True,
        usual_relative_uncertainty=tolerance,
    )


@cache
def terms() -> Mapping[str, Term]:
    """All terms by key, in the order of the build file. Raises ValueError when a key is double."""
    from coldwright.terms import cabinet, circuit, cold_side, condenser, machine, site  # noqa: PLC0415

    found: dict[str, Term] = {}
    for module in (site, cabinet, cold_side, machine, condenser, circuit):
        for entry in module.TERMS:
            if entry.key in found:
                raise ValueError(f"term {entry.key!r} stands twice")
            found[entry.key] = entry
    return MappingProxyType(found)


def term(key: str) -> Term:
    """The term called `key`. Raises KeyError when there is none."""
    return terms()[key]


def check(
    key: str,
    value: float,
    *,
    field: str = "",
    subject: str = "",
    received: str = "",
    system: System = "si",
) -> Fault | None:
    """Hold `value` [SI] against the bounds of term `key`; None when it is within.

    `field` is the dotted path for `Fault.field` (the key unless given), `subject` opens the
    sentence ("Wall thickness of face 'back'"; the term's name unless given) and `received` is the
    maker's own text (the formatted value unless given).
    """
    entry = term(key)
    if entry.accepts(value):
        return None
    demand = _demand(entry, value, system)
    shown = format_quantity(value, entry.kind, system) if math.isfinite(value) else f"{value:g}"
    given = received or shown
    return Fault(
        field=field or key,
        message=f"{subject or entry.name} must be {demand}; received {given}.",
        hint=_slip(entry, value),
    )


def _demand(entry: Term, value: float, system: System) -> str:
    """The bound that `value` breaks, as words; all of them when it breaks neither."""
    if not math.isfinite(value):
        return "finite"
    if value <= entry.least:
        demand = replace(entry, greatest=math.inf).bounds_text(system)
    elif value >= entry.greatest:
        demand = replace(entry, least=-math.inf).bounds_text(system)
    else:
        demand = entry.bounds_text(system)
    return f"a whole number{', ' if demand else ''}{demand}" if entry.whole else demand


def _slip(entry: Term, value: float) -> str:
    """A likely slip of the pen behind a value out of bounds, or nothing."""
    if entry.kind is Kind.ratio and 1.0 < value <= 100.0 and entry.greatest <= 1.0:
        return f"for {value:g} per cent write '{value:g} %'"
    if entry.kind is Kind.temperature and value < 120.0 and entry.accepts(value + 273.15):
        return f"{value:g} K is {value:g} kelvin; for Celsius write '{value:g} °C'"
    if value < 0.0 and entry.accepts(-value):
        return "is the sign a slip?"
    return ""


def read(
    key: str,
    given: str | float,
    *,
    field: str = "",
    subject: str = "",
    atmosphere_Pa: float = 101325.0,
    system: System = "si",
) -> Quantity:
    """Parse `given` as term `key` and hold it against the bounds.

    The uncertainty is the maker's own, 0 when none was written: `Term.usual` tells what to assume.
    Raises InputError with one fault. Arguments as in `check`.
    """
    entry = term(key)
    quantity = parse_quantity(
        given,
        entry.kind,
        field=field or key,
        subject=subject or entry.name,
        atmosphere_Pa=atmosphere_Pa,
    )
    fault = check(
        key,
        quantity.value,
        field=field,
        subject=subject,
        received=f"'{quantity.text}'",
        system=system,
    )
    if fault is not None:
        raise InputError(fault)
    return quantity
