"""Emissivities of the surfaces of a cold box, total hemispherical near room temperature."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from coldwright.shop.rows import find, table


@dataclass(frozen=True)
class Surface:
    """One finish. `emissivity_uncertainty` is a standard uncertainty, absolute."""

    name: str
    emissivity: float
    emissivity_uncertainty: float
    source: str


@cache
def _surfaces() -> dict[str, Surface]:
    return {
        name: Surface(name, row["emissivity"], row["uncertainty"], row["source"])
        for name, row in table("surfaces.toml").items()
    }


def surface_names() -> tuple[str, ...]:
    """Names of the finishes."""
    return tuple(_surfaces())


def surface(name: str) -> Surface:
    """Return the finish `name`. Raises InputError with the nearest names."""
    return find(_surfaces(), name, what="Surface finish", field="surface")
