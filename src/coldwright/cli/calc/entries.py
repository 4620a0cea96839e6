"""Entries of a bench answer: texts into quantities, with every fault kept until all are read."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeVar

from coldwright.cli.terminal import SHOP
from coldwright.errors import Fault, InputError
from coldwright.units import FACTS, Kind, System, atmosphere_at, format_quantity, parse_quantity

if TYPE_CHECKING:
    from coldwright.fluids.refrigerants import Refrigerant

T = TypeVar("T")

SEA_LEVEL = 101325.0
SYSTEMS: dict[str, System] = {"shop": "shop", "si": "si"}
FULL_RANGE = (-math.inf, math.inf)


@dataclass(frozen=True)
class Entry:
    """One quantity as given [SI], its standard uncertainty and what is allowed."""

    value: float
    standard_uncertainty: float = 0.0
    bounds: tuple[float, float] = FULL_RANGE


MISSING = Entry(math.nan)


class Entries:
    """Reads the options of one command; `settle` raises every fault at once."""

    def __init__(self) -> None:
        """Start without a fault."""
        self._faults: list[Fault] = []
        self.remarks: list[str] = []

    def fault(self, field: str, message: str, hint: str = "") -> None:
        """Keep one more fault."""
        self._faults.append(Fault(field, message, hint=hint))

    def attempt(self, make: Callable[[], T]) -> T | None:
        """What `make` returns, or None with its faults kept."""
        try:
            return make()
        except InputError as error:
            self._faults.extend(error.faults)
            return None

    def settle(self) -> None:
        """Raise InputError with all faults, if there is one."""
        if self._faults:
            raise InputError(*self._faults)

    def settled(self, value: T | None) -> T:
        """`value`, which is there when no fault was found. Raises as `settle` does."""
        self.settle()
        if value is None:
            raise InputError(Fault("", "An entry is missing."))
        return value

    def needed(
        self,
        name: str,
        text: str | None,
        kind: Kind,
        bounds: tuple[float, float] = FULL_RANGE,
        *,
        atmosphere_Pa: float = SEA_LEVEL,
    ) -> Entry:
        """The quantity of an option that must be given; `MISSING` where it has a fault."""
        if text is None:
            self.fault(name, f"{name} must be given: {FACTS[kind].demand}.")
            return MISSING
        return self.optional(name, text, kind, bounds, atmosphere_Pa=atmosphere_Pa) or MISSING

    def optional(
        self,
        name: str,
        text: str | None,
        kind: Kind,
        bounds: tuple[float, float] = FULL_RANGE,
        *,
        atmosphere_Pa: float = SEA_LEVEL,
    ) -> Entry | None:
        """The quantity of an option, or None where it is not given or has a fault."""
        if text is None:
            return None
        found = self.attempt(
            lambda: parse_quantity(
                text, kind, field=name, subject=name, atmosphere_Pa=atmosphere_Pa
            )
        )
        if found is None:
            return None
        least, greatest = bounds
        if not least <= found.value <= greatest:
            allowed = allowed_text(kind, bounds, atmosphere_Pa)
            hint = ""
            if kind is Kind.ratio and found.value > 1.0 and "%" not in text:
                hint = f"for {found.value:g} per cent write '{found.value:g} %'"
            self.fault(name, f"{name} must be {allowed}; received '{text.strip()}'.", hint)
            return None
        if found.remark:
            self.remarks.append(f"{name}: {found.remark}.")
        return Entry(found.value, found.standard_uncertainty, bounds)

    def system(self, text: str) -> System:
        """The system of units of the option --units."""
        if text not in SYSTEMS:
            self.fault("--units", f"--units must be shop or si; received '{text}'.")
        return SYSTEMS.get(text, SHOP)

    def altitude(self, name: str, text: str | None) -> float:
        """Altitude [m]; sea level where none is given. It is taken as exact."""
        from coldwright.terms.glossary import term  # noqa: PLC0415 (only where it is asked for)

        known = term("site.altitude")
        entry = self.optional(name, text, Kind.length, (known.least, known.greatest))
        if entry is None:
            return 0.0
        if entry.standard_uncertainty > 0.0:
            self.fault(
                name,
                f"{name} must be written without ±; received '{text}'.",
                "weather moves the pressure more than the altitude's doubt does",
            )
        return entry.value

    def atmosphere(self, text: str | None) -> float:
        """Pressure of the standard atmosphere [Pa] at the option --altitude."""
        return float(atmosphere_at(self.altitude("--altitude", text)))

    def refrigerant(self, text: str, field: str = "REFRIGERANT") -> Refrigerant | None:
        """The refrigerant, however its name is spelled (`r-152a`); None with a fault kept."""
        from coldwright.fluids.refrigerants import refrigerant  # noqa: PLC0415 (slow to import)
        from coldwright.shop.refrigerant_safety import safety  # noqa: PLC0415

        try:
            return refrigerant(safety(text).name)
        except InputError as error:
            for each in error.faults:
                self.fault(field, each.message, each.hint)
            return None


def allowed_text(kind: Kind, bounds: tuple[float, float], atmosphere_Pa: float = SEA_LEVEL) -> str:
    """`from 1 g to 5 kg (0.0353 oz to 11 lb)`; an end that is open is left out."""

    def shown(value: float, system: str) -> str:
        return format_quantity(
            value, kind, "si" if system == "si" else "shop", atmosphere_Pa=atmosphere_Pa
        )

    least, greatest = bounds
    si, shop = (f"{shown(least, s)} to {shown(greatest, s)}" for s in ("si", "shop"))
    return f"from {si}" if si == shop else f"from {si} ({shop})"
