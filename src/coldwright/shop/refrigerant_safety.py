"""Safety and environmental data of refrigerants."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from coldwright.shop.rows import table, unknown


@dataclass(frozen=True)
class RefrigerantSafety:
    """One refrigerant. A limit that does not apply is None."""

    name: str
    safety_class: str  # ISO 817 / ASHRAE 34
    lower_flammability_limit_kg_m3: float | None
    practical_limit_kg_m3: float  # EN 378
    rcl_kg_m3: float  # refrigerant concentration limit, ASHRAE 34
    autoignition_K: float | None
    gwp100: float  # AR4, the figure that law refers to
    gwp100_ar6: float | None
    oils: tuple[str, ...]  # as the trade fills them
    historic: bool  # never a new charge
    note: str
    source: str

    @property
    def flammable(self) -> bool:
        """Whether the class is one of 2L, 2 or 3."""
        return self.safety_class != "A1"

    def least_room_volume(self, charge: float, share: float = 0.25) -> float:
        """Volume [m3] in which `charge` [kg], all leaked, stays at `share` of the lower limit.

        Zero for a refrigerant that does not burn.
        """
        if self.lower_flammability_limit_kg_m3 is None:
            return 0.0
        return charge / (share * self.lower_flammability_limit_kg_m3)


@cache
def _rows() -> dict[str, RefrigerantSafety]:
    found = {}
    for name, row in table("refrigerant_safety.toml").items():
        autoignition = row.get("autoignition_C")
        found[name] = RefrigerantSafety(
            name=name,
            safety_class=row["safety_class"],
            lower_flammability_limit_kg_m3=row.get("lower_flammability_limit_kg_m3"),
            practical_limit_kg_m3=row["practical_limit_kg_m3"],
            rcl_kg_m3=row["rcl_g_m3"] * 1e-3,
            autoignition_K=None if autoignition is None else autoignition + 273.15,
            gwp100=row["gwp100_ar4"],
            gwp100_ar6=row.get("gwp100_ar6"),
            oils=tuple(row["oils"]),
            historic=row.get("historic", False),
            note=row.get("note", ""),
            source=row["source"],
        )
    return found


def refrigerant_names(*, historic: bool = True) -> tuple[str, ...]:
    """Names of the refrigerants; `historic=False` leaves out those that are never charged anew."""
    return tuple(name for name, row in _rows().items() if historic or not row.historic)


def safety(name: str) -> RefrigerantSafety:
    """Return the data of refrigerant `name` (`R-600a` and `r600a` are the same).

    Raises InputError with the nearest names.
    """
    rows = _rows()
    bare = {known.lower(): row for known, row in rows.items()}
    wanted = name.lower().replace("-", "").replace(" ", "")
    if wanted in bare:
        return bare[wanted]
    if wanted and f"r{wanted}" in bare:
        return bare[f"r{wanted}"]
    raise unknown(rows, name, what="Refrigerant", field="refrigerant")
