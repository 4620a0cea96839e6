"""Where the heat that the machine must carry out comes in, way by way."""

from __future__ import annotations

from collections.abc import Mapping

from coldwright.sheet import theme
from coldwright.sheet.charts.bars import Bar, bars, signed_percent
from coldwright.sheet.figure import Cell, Column, Figure, Undrawn
from coldwright.sheet.reader import Reader
from coldwright.units import Kind
from coldwright.verdict.case import Case
from coldwright.verdict.figures import CELSIUS, percent

WIDTH = 430
# A way of less than this share of the whole is not drawn.
LEAST_SHARE = 5e-4
# Room for the figures behind the longest bar.
TEXT_ROOM = 1.4
FACE = "face "
WORDS = {
    "bridges": "frames, straps and pipes",
    "gasket": "door gasket",
    "leakage": "air through gaps",
    "drain": "air through the drain",
    "doors": "opening the door",
    "contents": "goods",
    "latent": "moisture that settles",
}
FACES = {"top": "top", "bottom": "bottom", "front": "front and door"}
STATES = {
    "cycling": "while the target is held",
    "running": "when it never stops",
}


def watts(case: Case) -> Figure | Undrawn:
    """Heat gain of the cabinet by its ways, in the state that the box comes to."""
    state = case.state
    if not case.machine(state).balanced:
        return Undrawn(case.machine(state).reason)
    reader, cabinet = Reader.of_case(case), case.cabinet(state)
    whole = cabinet.heat_gain_W
    found = sorted(cabinet.gain_by_way_W.items(), key=lambda each: -each[1])
    found = [each for each in found if abs(each[1]) > LEAST_SHARE * abs(whole)]
    scale = reader.scale(Kind.heat_flow)
    rows = [
        Bar(
            _words(name),
            round(scale.of(heat), 4),
            f"{reader.written(heat, Kind.heat_flow)}, {signed_percent(heat / whole)}",
        )
        for name, heat in found
    ]
    title = "Where the heat comes in"
    subtitle = f"{reader.box}, {STATES[state]}: {reader.written(whole, Kind.heat_flow)} in all"
    caption = _caption(case, reader, dict(found))
    sizes = [row.size for row in rows]
    ends = (min(0.0, TEXT_ROOM * min(sizes)), TEXT_ROOM * max(sizes))
    chart = bars(rows, f"heat, {scale.label}", ends, WIDTH)
    spec = theme.finished(chart, title, subtitle, caption)
    columns = (
        Column("way", "way"),
        Column("heat", "heat", scale.label),
        Column("share", "share of all", "%"),
    )
    table: tuple[Mapping[str, Cell], ...] = tuple(
        {"way": row.name, "heat": row.size, "share": round(100.0 * heat / whole, 3)}
        for row, (_, heat) in zip(rows, found, strict=True)
    )
    return Figure("watts", title, subtitle, caption, columns, table, spec)


def _words(name: str) -> str:
    """What a way is called: `door gasket`, `back wall`."""
    if not name.startswith(FACE):
        return WORDS.get(name, name)
    face = name.removeprefix(FACE)
    return FACES.get(face, f"{face} wall")


def _caption(case: Case, reader: Reader, ways: dict[str, float]) -> str:
    """What comes in, most through what, and what carrying it out costs."""
    cabinet, machine = case.cabinet(case.state), case.machine(case.state)
    whole = cabinet.heat_gain_W
    walls = sum(heat for name, heat in ways.items() if name.startswith(FACE))
    first, heat = next(iter(ways.items()))
    text = (
        f"With air of {reader.written(cabinet.air_C + CELSIUS, Kind.temperature)} inside, "
        f"{reader.written(whole, Kind.heat_flow)} come in; {percent(walls / whole)} of it through "
        f"the walls. Largest single way: {_words(first)} "
        f"({reader.written(heat, Kind.heat_flow)}). "
    )
    power = reader.written(machine.power_W, Kind.power)
    capacity = reader.written(machine.capacity_W, Kind.heat_flow)
    if case.state == "running":
        return f"{text}The machine carries it out without a stop, on {power}."
    share = percent(case.run_fraction)
    return (
        f"{text}The machine carries out {capacity} while it runs, on {power}: {share} of the time."
    )
