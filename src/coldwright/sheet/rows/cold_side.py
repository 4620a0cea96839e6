"""The cold side in depth, as rows: steps, coil, fins, finishes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from coldwright.sheet.writer import Row, Shown
from coldwright.verdict.figures import percent

Written = Callable[[str, Any], str]
STEPS_SHOWN = 4


def cold_side_rows(cold: Mapping[str, Any] | None, written: Written) -> list[Row]:
    """Rows for the report's `cold_side`, as (label, figure, remark); none without a balance."""
    if cold is None:
        return []
    shares = sorted(cold["steps_share"].items(), key=lambda item: -item[1])[:STEPS_SHOWN]
    listed = ", ".join(f"{name} {percent(share)}" for name, share in shares if share > 0.005)
    rows: list[Row] = [
        (
            "air to refrigerant",
            _told(written("x_K", cold["evaporating_to_air_K"]), "evaporating_to_air_K"),
            listed,
        ),
        ("", "", cold["sentence"]),
        _coil(cold["coil"], written),
    ]
    if cold["fins"]:
        rows.append(_fins(cold["fins"], written))
    if cold["finishes"]:
        rows.append(("by its finish", "", _finishes(cold["finishes"], written)))
    return rows


def _told(text: str, key: str) -> Shown:
    return Shown(text, f"cold_side.{key}")


def _coil(coil: Mapping[str, float], written: Written) -> Row:
    spare = coil["spare_m"]
    over = "to spare" if spare >= 0.0 else "too short"
    remark = (
        f"boils in {written('x_m', coil['boiling_m'])}, superheats in "
        f"{written('x_m', coil['superheating_m'])}; {written('x_m', abs(spare))} {over}"
    )
    if coil["spare_holds_liquid_g"] > 0.0:
        remark += f", which can hold {written('x_g', coil['spare_holds_liquid_g'])} of liquid"
    return "coil", _told(written("x_m", coil["length_m"]), "coil"), remark


def _fins(fins: Mapping[str, float], written: Written) -> Row:
    remark = (
        f"efficiency {percent(fins['efficiency'])}; surface to air and liner "
        f"{written('x_W_per_K', fins['conductance_W_per_K'])} with them, "
        f"{written('x_W_per_K', fins['conductance_without_W_per_K'])} without; gap "
        f"{written('x_mm', fins['clear_gap_mm'])}, best about "
        f"{written('x_mm', fins['best_gap_mm'])} where width is short"
    )
    return "fins", _told(f"{fins['count']:.0f}", "fins"), remark


def _finishes(finishes: list[Mapping[str, Any]], written: Written) -> str:
    """The air that each finish would hold, the cold side as cold as now."""
    parts = []
    for each in finishes:
        name = each["finish"]
        if each["frost_mm"] > 0.0:
            name = f"frost of {written('x_mm', each['frost_mm'])}"
        parts.append(f"{name} {written('x_C', each['air_C'])}")
    return f"air with the cold side as cold as now: {', '.join(parts)}"
