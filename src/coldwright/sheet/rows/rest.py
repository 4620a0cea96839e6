"""Rows about the stopped machine: what the gauge shows, where the liquid is, how thin the oil."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from coldwright.verdict.figures import percent

Row = tuple[str, str, str]
Written = Callable[[str, float], str]


def rest_rows(rest: Mapping[str, Any] | None, written: Written) -> list[Row]:
    """`rest` as the report has it; `written` writes a value by the suffix of its key.

    Pressures come by the key `gauge_Pa` and are absolute [Pa].
    """
    if rest is None:
        return [("stopped", "not known", "no charge was found")]
    soon, coil = rest["between_runs"], rest["coil"]
    filled = f"{percent(coil['filled_share'])} of the coil, which holds "
    filled += written("x_g", coil["holds_g"])
    if coil["filled_share"] > 1.0:
        line = written("x_g", coil["in_return_line_g"])
        filled += f"; {line} stands in the return line"
    spare = written("x_m", coil["spare_m"])
    return [
        (
            "pressure between two runs",
            written("gauge_Pa", soon["pressure_Pa"]),
            f"minutes after a stop, cold side at {written('x_C', soon['cold_side_C'])}",
        ),
        ("liquid in the coil then", written("x_g", soon["liquid_g"]), filled),
        (
            "coil that stays dry running",
            spare,
            f"room for {written('x_g', coil['spare_holds_g'])} of liquid",
        ),
        *(_state_row(rest[key], label, written) for key, label in STATES),
        (
            "refrigerant in the oil",
            percent(rest["coolest_room"]["worst_oil_share"]),
            f"worst case: all liquid in the shell; limit {percent(rest['thin_oil_share'])}",
        ),
    ]


STATES = (
    ("in_the_room", "pressure, all as the room"),
    ("hottest_day", "pressure, hottest day"),
    ("coolest_room", "pressure, coolest room"),
)


def _state_row(state: Mapping[str, Any], label: str, written: Written) -> Row:
    rest = "all gas or in the oil"
    if not state["all_vapour"]:
        where = {"anywhere": "anywhere", "shell": "in the shell"}.get(state["liquid_in"], "")
        rest = f"{written('x_g', state['liquid_g'])} of liquid {where}".rstrip()
    when = f"settled at {written('x_C', state['room_C'])}: {rest}"
    return label, written("gauge_Pa", state["pressure_Pa"]), when
