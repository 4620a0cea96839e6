"""Stock bores of capillary tube."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from coldwright.shop.rows import table


@dataclass(frozen=True)
class CapillaryBore:
    """One stock bore; lengths in m. Bores are held to about 0.025 mm: gauge the piece in hand."""

    inside_diameter: float
    outside_diameter: float | None
    source: str
    name: str


@cache
def bores() -> tuple[CapillaryBore, ...]:
    """All stock bores, smallest first."""
    found = [
        CapillaryBore(
            inside_diameter=row["inside_mm"] * 1e-3,
            outside_diameter=row["outside_mm"] * 1e-3 if "outside_mm" in row else None,
            source=row["source"],
            name=name,
        )
        for name, row in table("capillary_bores.toml").items()
    ]
    return tuple(sorted(found, key=lambda bore: bore.inside_diameter))


def nearest_bore(inside_diameter: float) -> CapillaryBore:
    """The stock bore closest to `inside_diameter` [m]."""
    return min(bores(), key=lambda bore: abs(bore.inside_diameter - inside_diameter))
