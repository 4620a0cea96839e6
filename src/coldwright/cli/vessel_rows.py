"""Rows of the screen that only a vessel has."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

Row = tuple[str, str, str]


def vessel_rows(data: Mapping[str, Any], figure: Callable[[str], str]) -> list[Row]:
    """Weight and filling of the vessel; none for a cold side without one."""
    if data["vessel"] is None:
        return []
    f = figure
    parts = data["vessel"]["weight_by_part_kg"]
    listed = ", ".join(
        f"{name} {f(f'vessel.weight_by_part_kg.{name}')}"
        for name, mass in sorted(parts.items(), key=lambda item: -item[1])
        if mass > 0.0
    )
    grows = (
        f"{f('vessel.brine_kg')} filled at {f('vessel.filled_at_C')}; grows by "
        f"{f('vessel.expansion_L')} to {f('vessel.warmest_C')}, "
        f"room above it {f('vessel.headspace_L')}"
    )
    return [
        ("weight, full", f("vessel.weight_full_kg"), listed),
        ("filling", f("vessel.brine_L"), grows),
    ]
