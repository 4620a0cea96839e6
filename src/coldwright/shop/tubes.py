"""Stock copper tube for refrigeration, inch and metric."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from coldwright.shop.rows import find, table


@dataclass(frozen=True)
class Tube:
    """One stock size; lengths in m."""

    name: str
    outside_diameter: float
    wall_thickness: float
    source: str

    @property
    def inside_diameter(self) -> float:
        """Outside diameter less two walls [m]."""
        return self.outside_diameter - 2.0 * self.wall_thickness


@cache
def _tubes() -> dict[str, Tube]:
    return {
        name: Tube(
            name=name,
            outside_diameter=row["outside_mm"] * 1e-3,
            wall_thickness=row["wall_mm"] * 1e-3,
            source=row["source"],
        )
        for name, row in table("tubes.toml").items()
    }


def tube_names() -> tuple[str, ...]:
    """Names of the stock sizes, smallest first within inch and metric."""
    return tuple(_tubes())


def tube(name: str) -> Tube:
    """Return the stock tube `name`. Raises InputError with the nearest names."""
    return find(_tubes(), name, what="Tube", field="tube.size")
