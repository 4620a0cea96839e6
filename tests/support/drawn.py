"""Builds bent for drawing, and figures to write by them without working anything out."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from typing import Any

from coldwright.build import Build, loads, rewrite, starter_text
from coldwright.sheet.drawing import back_drawing, front_drawing, plan_drawing, section_drawing
from coldwright.verdict import report
from support.assessed import assessed
from support.builds import build_text
from support.pictures import Picture

DRAW: Mapping[str, Callable[..., str]] = {
    "section": section_drawing,
    "front": front_drawing,
    "back": back_drawing,
    "plan": plan_drawing,
}
STARTERS = ("cheese", "galley", "larder")
BUILDS = (*STARTERS, "holdover")
SYSTEMS = ("shop", "si")


def bent(name: str, changes: Mapping[str, Any] | None = None, revision: str | None = None) -> Build:
    """The starter (or the holdover) `name` with other values at dotted paths."""
    text = starter_text(name) if name in STARTERS else build_text(name)
    return loads(rewrite(text, changes) if changes else text, revision=revision)


def picture(what: str, build: Build, figures: Mapping[str, Any] | None = None, **how: Any):
    """A drawing, read back."""
    how.setdefault("units", "si")
    return Picture(DRAW[what](build, figures, **how))


@cache
def real_figures(name: str) -> dict[str, Any]:
    """The report of an assessed build."""
    return report(assessed(name))


def made_up(shift: float = 0.0, state: str = "cycling") -> dict[str, Any]:
    """Figures of every kind that a drawing writes; `shift` [K] moves the temperatures."""
    machine = {
        "evaporating_C": -24.0 + shift,
        "condensing_C": 40.0 + shift,
        "suction_Pa": 60e3,
        "discharge_Pa": 520e3,
        "power_W": 81.8,
        "current_A": 0.579,
        "return_gas_C": 12.0 + shift,
        "discharge_gas_C": 89.0 + shift,
        "shell_C": 60.0 + shift,
        "condenser_heat_W": 133.0,
        "brine_C": -12.0 + shift,
        "reason": "balanced",
    }
    faces = {f"face {name}": 2.5 for name in ("top", "bottom", "left", "right", "front", "back")}
    return {
        "room_C": 21.0 + shift,
        "target_air_C": 4.0 + shift,
        "cabinet": {
            "state": state,
            "heat_gain_W": 16.5,
            "air_C": 4.0 + shift,
            "coldest_shelf_C": 2.0 + shift,
            "warmest_shelf_C": 5.5 + shift,
            "compartment_air_C": 1.0 + shift,
            "cold_surface_C": -8.0 + shift,
            "air_flow_m3_per_h": 10.0,
            "gain_by_way_W": {**faces, "gasket": 1.7, "doors": 0.4},
        },
        "running": machine,
        "cycling": {"run_fraction": 0.34, "while_on": machine},
        "hot_side": {
            "condensing_above_room_K": 19.0,
            "surface_C": 38.0 + shift,
            "heat_W": 133.0,
            "radiation_share": 0.57,
            "zone_share": {"gas": 0.12, "condensing": 0.85, "liquid": 0.03},
        },
        "charge": {"fill_g": 39.4, "found": True},
        "holdover": {"melting_C": -5.0 + shift},
    }
