"""Seals of doors and lids: heat and open gap by the metre, by kind and age."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from coldwright.shop.rows import find, table


@dataclass(frozen=True)
class GasketKind:
    """One kind of seal, SI units by the metre; uncertainties are relative and standard."""

    name: str
    linear_conductance: float  # W/(m K), the frame beside it included
    linear_conductance_uncertainty: float
    leakage_area: float  # m2 open a metre
    leakage_area_uncertainty: float
    source: str
    note: str


@cache
def _kinds() -> dict[str, GasketKind]:
    return {name: GasketKind(name=name, **row) for name, row in table("gaskets.toml").items()}


def gasket_names() -> tuple[str, ...]:
    """Names of the kinds."""
    return tuple(_kinds())


def gasket(name: str) -> GasketKind:
    """Return the kind `name`. Raises InputError with the nearest names."""
    return find(_kinds(), name, what="Gasket", field="cabinet.gasket.kind")
