"""Rows about the air's way: what blocking, smaller openings or a duct would make."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from coldwright.sheet.writer import Columns, Row

CHANGES = (
    ("as built", ""),
    ("half of what is free on each shelf closed by goods", "if_half_blocked_"),
    ("both openings half as large", "if_openings_halved_"),
    ("duct under the lower opening", "with_duct_"),
)


def air_way_rows(data: Mapping[str, Any], figure: Callable[[str], str]) -> list[Row]:
    """Coldest and warmest shelf of each change that applies, with the flow as the remark.

    `data` is the report, `figure` writes one of its figures by its path.
    """
    rows: list[Row] = [("", Columns("coldest shelf", "warmest shelf"), "")]
    for words, prefix in CHANGES:
        path = f"air_way.{prefix}"
        if data["air_way"][f"{prefix}flow_m3_per_h"] is None:
            continue
        shelves = Columns(figure(path + "coldest_shelf_C"), figure(path + "warmest_shelf_C"))
        rows.append((words, shelves, f"air {figure(path + 'flow_m3_per_h')}"))
    return rows if len(rows) > 1 else []
