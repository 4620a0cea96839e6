"""Named rating conditions of small compressors: at which temperatures a data sheet speaks."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from coldwright.shop.rows import find, table


@dataclass(frozen=True)
class RatingCondition:
    """Dew, gas and liquid temperatures [K] of one named condition."""

    name: str
    evaporating: float
    condensing: float
    return_gas: float
    liquid: float
    note: str
    source: str


@cache
def _conditions() -> dict[str, RatingCondition]:
    return {
        name: RatingCondition(
            name=name,
            evaporating=row["evaporating_C"] + 273.15,
            condensing=row["condensing_C"] + 273.15,
            return_gas=row["return_gas_C"] + 273.15,
            liquid=row["liquid_C"] + 273.15,
            note=row["note"],
            source=row["source"],
        )
        for name, row in table("rating_conditions.toml").items()
    }


def rating_condition_names() -> tuple[str, ...]:
    """Names of the conditions, such as `ASHRAE LBP`."""
    return tuple(_conditions())


def rating_condition(name: str, *, field: str = "condition") -> RatingCondition:
    """Return the condition `name`, case free. Raises InputError with the nearest names."""
    return find(_conditions(), name, what="Rating condition", field=field)
