"""What age and wet make of insulation, by family of material."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import Literal

from coldwright.shop.rows import plain, table

State = Literal["aged", "wet"]
STATES: tuple[State, ...] = ("aged", "wet")


@dataclass(frozen=True)
class Decline:
    """One family. Factors on the dry, new conductivity with their standard uncertainties."""

    family: str
    words: tuple[str, ...]
    aged: float
    aged_uncertainty: float
    wet: float
    wet_uncertainty: float
    source: str
    note: str

    def factor(self, state: State) -> tuple[float, float]:
        """Factor in a state, and its standard uncertainty."""
        if state == "aged":
            return self.aged, self.aged_uncertainty
        return self.wet, self.wet_uncertainty


@cache
def _families() -> tuple[Decline, ...]:
    rows = table("insulation_decline.toml")
    return tuple(
        Decline(family=name, **{**row, "words": tuple(row["words"])}) for name, row in rows.items()
    )


def decline_families() -> tuple[Decline, ...]:
    """All families."""
    return _families()


def decline_of(material_name: str) -> Decline | None:
    """The family of a material by a word in its name; None for metal, glass, air and others.

    A name that says `aged` is past its ageing: its factor for age is 1.
    """
    name = plain(material_name)
    for row in _families():
        if any(re.search(rf"\b{re.escape(word)}", name) for word in row.words):
            if re.search(r"\b(aged|old)\b", name):
                wet = max(row.wet / row.aged, 1.0)
                return Decline(
                    row.family, row.words, 1.0, 0.0, wet, row.wet_uncertainty, row.source, row.note
                )
            return row
    return None
