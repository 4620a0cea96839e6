"""Stock copper tube for refrigeration, inch and metric."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from coldwright.shop.rows import find, table

# Least radius of a bend, to the tube's middle, over its outside diameter: from memory.
BENDER_RATIO, SPRING_RATIO = 3.0, 5.0
BENDER_SOURCE = "from memory"


@dataclass(frozen=True)
class Tube:
    """One stock size; lengths in m."""

    name: str
    outside_diameter: float
    wall_thickness: float
    source: str
    bend_radius: float | None = None  # least with a lever bender, to the middle

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
            bend_radius=row["bend_mm"] * 1e-3 if "bend_mm" in row else None,
        )
        for name, row in table("tubes.toml").items()
    }


def tube_names() -> tuple[str, ...]:
    """Names of the stock sizes, smallest first within inch and metric."""
    return tuple(_tubes())


def tube(name: str) -> Tube:
    """Return the stock tube `name`. Raises InputError with the nearest names."""
    return find(_tubes(), name, what="Tube", field="tube.size")


def least_bend_radius(outside_diameter: float) -> float:
    """Least radius [m] of a bend made with a bender, to the tube's middle; from memory.

    The usual lever bender of the stock size (to 2 %) where one is known, else three times the
    outside diameter. A bending spring needs five times (`SPRING_RATIO`).
    """
    for row in _tubes().values():
        near = abs(row.outside_diameter - outside_diameter) < 0.02 * outside_diameter
        if near and row.bend_radius is not None:
            return row.bend_radius
    return BENDER_RATIO * outside_diameter
