"""Where the degrees go: from stored air to boiling refrigerant, and from condensing to room."""

from __future__ import annotations

from collections.abc import Mapping

import altair as alt

from coldwright.sheet import theme
from coldwright.sheet.charts.bars import Bar, bars, signed_percent
from coldwright.sheet.charts.cycle import STATES
from coldwright.sheet.figure import Cell, Column, Figure, Undrawn
from coldwright.sheet.reader import Reader
from coldwright.units import Kind
from coldwright.verdict.case import Case
from coldwright.verdict.cold_side_figures import cold_side_figures
from coldwright.verdict.figures import percent
from coldwright.verdict.hot_side import HotSide, hot_side

WIDTH = 430
# Room for the figures behind the longest bar.
TEXT_ROOM = 1.45
# A step that takes less [K] is not drawn.
LEAST_STEP = 0.005
HOT_WORDS = {
    "inside film": "condensing refrigerant",
    "tube": "tube wall",
    "bond": "bond of the tube",
    "sheet": "sheet between the runs",
    "air": "outside film",
}
WARMED = "air that comes in warm"


def resistances(case: Case) -> Figure | Undrawn:
    """The steps of both sides in degrees, on one scale, in the state that the box comes to."""
    cold, hot = cold_side_figures(case), hot_side(case)
    if cold is None or hot is None:
        return Undrawn(case.machine(case.state).reason)
    reader = Reader.of_case(case)
    sides = {"cold side": cold.steps_K, "hot side": _hot_steps(hot)}
    wholes = {"cold side": cold.evaporating_to_air_K, "hot side": hot.condensing_above_room_K}
    scale = reader.scale(Kind.temperature_difference)
    drawn = {side: _bars(steps, wholes[side], reader) for side, steps in sides.items()}
    sizes = [row.size for rows in drawn.values() for row in rows]
    ends = (min(0.0, *sizes), TEXT_ROOM * max(sizes))
    axis = f"difference of temperature, {_unit(reader)}"
    headings = {
        "cold side": "from boiling refrigerant out to the stored air",
        "hot side": "from condensing refrigerant out to the room",
    }
    panels = [
        bars(rows, axis, ends, WIDTH, f"{headings[side]}: {_written(wholes[side], reader)}")
        for side, rows in drawn.items()
    ]
    title, subtitle = "Where the degrees go", f"{reader.box}, {STATES[case.state]}"
    caption = f"{cold.sentence} {_hot_sentence(hot, reader)}"
    spec = theme.finished(alt.vconcat(*panels, spacing=20), title, subtitle, caption)
    columns = (
        Column("side", "side"),
        Column("step", "step"),
        Column("difference", "difference of temperature", scale.label),
        Column("share", "share", "%"),
    )
    table: tuple[Mapping[str, Cell], ...] = tuple(
        {
            "side": side,
            "step": name,
            "difference": round(scale.of(step), 4),
            "share": round(100.0 * step / wholes[side], 3),
        }
        for side, steps in sides.items()
        for name, step in steps.items()
    )
    return Figure("resistances", title, subtitle, caption, columns, table, spec)


def _hot_steps(hot: HotSide) -> dict[str, float]:
    """Degrees [K] of each step of the condensing length."""
    driving = hot.condensing_above_room_K - hot.sink_above_room_K
    words = {**HOT_WORDS, **({"sheet": "wires"} if hot.kind == "wires" else {})}
    steps = {words[name]: share * driving for name, share in hot.resistance_share.items()}
    return {**steps, WARMED: hot.sink_above_room_K}


def _bars(steps: Mapping[str, float], whole: float, reader: Reader) -> list[Bar]:
    """The steps in their order, those that take nothing left out."""
    scale = reader.scale(Kind.temperature_difference)
    return [
        Bar(
            name,
            round(scale.of(step), 4),
            f"{_written(step, reader)}, {signed_percent(step / whole)}",
        )
        for name, step in steps.items()
        if abs(step) > LEAST_STEP
    ]


def _written(difference: float, reader: Reader) -> str:
    return reader.written(difference, Kind.temperature_difference)


def _unit(reader: Reader) -> str:
    return "°F" if reader.system == "shop" else "K"


def _hot_sentence(hot: HotSide, reader: Reader) -> str:
    """Where most of the hot side's difference lies."""
    steps = _hot_steps(hot)
    name = max(steps, key=lambda each: steps[each])
    whole = hot.condensing_above_room_K
    return (
        f"Of the {_written(whole, reader)} between condensing refrigerant and room "
        f"{percent(steps[name] / whole)} lies at the {name}."
    )
