"""Rows about frost."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

MANY = 10.0
"""Days from which no tenth of one is told."""


def frost_rows(data: Mapping[str, Any], figure: Callable[[str], str]) -> list[tuple[str, str, str]]:
    """Frost a day and, where the surface is below 0 C, how fast it grows and when it costs.

    `data` is the report, `figure` writes one of its figures by its path.
    """
    frost = data["frost"]
    frozen = frost["g_per_day"] is not None
    rows = [("frost" if frozen else "water", figure("cabinet.frost_g_per_day"), "")]
    if not frozen:
        return rows
    rows.append(
        (
            "frost grows",
            figure("frost.growth_mm_per_day"),
            "evenly spread; a factor of two either way",
        )
    )
    days = frost["days_until_surface_loses_10_percent"]
    if days is not None:
        thick = figure("frost.thickness_at_that_mm")
        remark = f"at {thick}; per degree a tenth less heat than at best"
        rows.append(
            (
                "frost costs a tenth in",
                f"{days:.0f} days" if days >= MANY else f"{days:.1f} days",
                remark,
            )
        )
    return rows
