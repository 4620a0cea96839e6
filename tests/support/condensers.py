"""Invented condensers of the three kinds, of one tube in one panel."""

from __future__ import annotations

from typing import Any

from coldwright.arrays import lanes
from coldwright.parts.hot_side import BareCondenser, Condenser, SheetCondenser, WireCondenser

ROOM = 298.15
SEA_LEVEL = 101325.0
KINDS = ("sheet", "wire", "bare")
_COMMON = {
    "inside_diameter": 0.00324,
    "outside_diameter": 0.00476,
    "length": 11.0,
    "tube_conductivity": 380.0,
    "sheet_width": 0.5,
    "sheet_height": 1.1,
    "emissivity": 0.9,
    "gap": 0.05,
    "back_emissivity": 0.9,
    "shaded_fraction": 0.0,
}
_OWN: dict[str, tuple[type[Condenser], dict[str, float]]] = {
    "sheet": (
        SheetCondenser,
        {
            "sheet_thickness": 0.0007,
            "sheet_conductivity": 50.0,
            "bond_conductance": 20.0,
            "chimney_height": 0.0,
            "opening_loss": 1.5,
        },
    ),
    "wire": (
        WireCondenser,
        {
            "wire_diameter": 0.0015,
            "wire_pitch": 0.006,
            "wire_sides": 2.0,
            "wire_conductivity": 50.0,
        },
    ),
    "bare": (BareCondenser, {}),
}


def condenser_of(kind: str, **changed: Any) -> Condenser:
    """A condenser of `kind`; what `changed` names stands in place of the usual."""
    made, own = _OWN[kind]
    return made(**{name: lanes(value) for name, value in {**_COMMON, **own, **changed}.items()})
