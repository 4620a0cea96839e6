"""A day of the build: temperatures, watts, and what happened when."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import altair as alt
import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array
from coldwright.sheet import theme
from coldwright.sheet.charts.courses import WIDTH, Line, Panel, Row, drawn, in_degrees
from coldwright.sheet.figure import Column, Figure
from coldwright.sheet.reader import Reader
from coldwright.units import Kind
from coldwright.verdict.day import Day
from coldwright.verdict.day_report import day_report
from coldwright.verdict.figures import CELSIUS, percent

MOST_POINTS = 480
TEMPERATURES = (
    Line(
        "room_C", "room", {"color": theme.SOFT, "strokeWidth": 1.2, "strokeDash": theme.LONG_DASH}
    ),
    Line("contents_C", "goods", {"color": theme.COPPER, "strokeWidth": 2.6}),
    Line("air_C", "stored air", {"color": theme.INK, "strokeWidth": 1.3}),
    Line(
        "low_shelf_C",
        "lowest shelf",
        {"color": theme.SLATE, "strokeWidth": 1.1, "strokeDash": theme.DOTS},
    ),
    Line("brine_C", "brine", {"color": theme.SLATE, "strokeWidth": 1.3, "strokeDash": theme.DASH}),
    Line(
        "cold_metal_C",
        "metal of the cold side",
        {"color": theme.SLATE, "strokeWidth": 1.0, "strokeDash": theme.DASH},
    ),
)
STORE = Line("state_of_charge", "frozen", {"color": theme.SLATE, "strokeWidth": 1.8})
POWER = Line("power_W", "power", {"color": theme.INK, "strokeWidth": 1.1})
EVENTS = {"door": "door opened", "goods": "warm goods put in", "mains": "no power"}
EVENT_HEIGHT = 15
FEW_OPENINGS = 1e-9


def day_chart(day: Day) -> Figure:
    """The counted hours of a run, at most the last day, over the hour of the day."""
    system = day.clock.system
    reader = Reader.of(day.clock.build, system, float(day.clock.plant.pressure[0]))
    minutes, values = _courses(day, reader)
    hours = minutes / 60.0
    data = day_report(day)
    title = "A day"
    begun = "everything warm" if day.start == "warm" else "days like it"
    subtitle = (
        f"{reader.box}; hours {hours[0]:.0f} to {hours[-1]:.0f} from {begun}, begun at midnight"
    )
    x = alt.X(
        "time:Q",
        title="hour of the day",
        scale=alt.Scale(domain=[float(hours[0]), float(hours[-1])], nice=False),
        axis=alt.Axis(grid=True, tickCount=12, labelExpr="datum.value % 24"),
    )
    untitled = alt.X(x["shorthand"], title=None, scale=x["scale"], axis=x["axis"])
    found = list(_panels(day, reader, values))
    panels: list[theme.Layers] = [drawn(each, untitled, hours) for each in found[:-1]]
    panels.append(drawn(found[-1], x, hours))
    events = _events(day, int(minutes[0]), int(minutes[-1]))
    if events:
        panels.insert(0, _event_panel(events, x))
    caption = _caption(day, reader, data)
    spec = theme.finished(alt.vconcat(*panels, spacing=12), title, subtitle, caption)
    lines = [line for line in (*TEMPERATURES, STORE, POWER) if line.key in values]
    columns = (
        Column("hour", "hour", "h"),
        *(Column(line.key.rsplit("_", 1)[0], line.words, _unit(line, reader)) for line in lines),
        Column("event", "event"),
    )
    rows = tuple(_table(hours, lines, values, events))
    return Figure("day", title, subtitle, caption, columns, rows, spec)


def _unit(line: Line, reader: Reader) -> str:
    if line is STORE:
        return "%"
    return reader.scale(Kind.power if line is POWER else Kind.temperature).label


def _courses(day: Day, reader: Reader) -> tuple[Array, dict[str, Array]]:
    """Minutes drawn and what is drawn of them, in the reader's units.

    Power is the mean since the minute drawn before.
    """
    rows = day.rows
    counted = max(day.course.tally.minutes, 1)
    every = max(-(-counted // MOST_POINTS), 1)
    ends = np.arange(len(rows["minute"]) - counted + every - 1, len(rows["minute"]), every)
    if ends.size == 0:
        ends = np.array([len(rows["minute"]) - 1])
    found = {
        line.key: in_degrees(reader, rows[line.key][ends])
        for line in TEMPERATURES
        if line.key in rows
    }
    whole = np.concatenate([[0.0], np.cumsum(rows["power_W"])])
    found[POWER.key] = (whole[ends + 1] - whole[np.maximum(ends + 1 - every, 0)]) / every
    if STORE.key in rows:
        found[STORE.key] = 100.0 * rows[STORE.key][ends]
    return rows["minute"][ends], found


def _panels(day: Day, reader: Reader, values: Mapping[str, Array]) -> Iterator[Panel]:
    target = float(in_degrees(reader, np.array([day.clock.target - CELSIUS]))[0])
    lines = tuple(line for line in TEMPERATURES if line.key in values)
    degrees = reader.scale(Kind.temperature).label
    yield Panel("temperatures", degrees, lines, values, 250, levels=((target, "target"),))
    if STORE.key in values:
        yield Panel("store", "% frozen", (STORE,), values, 70, least=0.0)
    yield Panel("power of the machine", "W", (POWER,), values, 90, least=0.0)


def _events(day: Day, first: int, last: int) -> list[tuple[str, float, float]]:
    """What happened: its key, hour, and until when [h]."""
    plan = day.clock.plan
    minutes = np.arange(first - 1, last)
    found = [
        (key, float(minute) / 60.0, float(minute) / 60.0)
        for key, course in (("door", plan.doors), ("goods", plan.load))
        for minute in minutes[course[minutes % len(course)] > FEW_OPENINGS]
    ]
    dead: NDArray[np.bool_] = ~plan.mains[minutes % len(plan.mains)]
    edges = np.flatnonzero(np.diff(np.concatenate([[False], dead, [False]]).astype(np.intp)))
    for begun, over in edges.reshape(-1, 2):
        found.append(("mains", float(first - 1 + begun) / 60.0, float(first - 1 + over) / 60.0))
    return found


def _event_panel(events: list[tuple[str, float, float]], x: alt.X) -> theme.Layers:
    """One line of marks for each kind of event, its name at the right as everywhere."""
    kinds = [key for key in EVENTS if any(key == each for each, _, _ in events)]
    rows = [
        {"time": begun, "until": max(over, begun + 1e-3), "name": EVENTS[key]}
        for key, begun, over in events
    ]
    y = alt.Y(
        "name:N",
        sort=[EVENTS[key] for key in kinds],
        title=None,
        axis=alt.Axis(orient="right", ticks=False, domain=False, labelLimit=200, labelPadding=7),
    )
    plain = alt.X(x["shorthand"], scale=x["scale"], axis=None)
    layers = []
    for key in kinds:
        chart = alt.Chart(theme.values([row for row in rows if row["name"] == EVENTS[key]]))
        if key == "mains":
            bar = chart.mark_bar(color=theme.SLATE, height=9)
            layers.append(bar.encode(x=plain, x2="until:Q", y=y))
        elif key == "door":
            tick = chart.mark_tick(color=theme.INK, thickness=1.3, size=9, opacity=1)
            layers.append(tick.encode(x=plain, y=y))
        else:
            point = chart.mark_point(
                color=theme.COPPER, filled=True, size=55, shape="triangle-down", opacity=1
            )
            layers.append(point.encode(x=plain, y=y))
    return alt.layer(*layers).properties(width=WIDTH, height=EVENT_HEIGHT * len(kinds))


def _table(
    hours: Array,
    lines: list[Line],
    values: Mapping[str, Array],
    events: list[tuple[str, float, float]],
) -> Iterator[Row]:
    """One row for each point drawn, with what began since the one before."""
    before = float(hours[0]) - (float(hours[1] - hours[0]) if len(hours) > 1 else 1.0)
    for place, hour in enumerate(hours):
        began = [EVENTS[key] for key, at, _ in events if before <= at < hour]
        before = float(hour)
        yield {
            "hour": round(float(hour), 3),
            **{
                line.key.rsplit("_", 1)[0]: round(float(values[line.key][place]), 3)
                for line in lines
            },
            "event": ", ".join(dict.fromkeys(began)) or None,
        }


def _caption(day: Day, reader: Reader, data: Mapping[str, Any]) -> str:
    """What the day comes to."""

    def temperature(key: str) -> str:
        return reader.written(data[key] + CELSIUS, Kind.temperature)

    text = (
        f"The machine runs {percent(data['run_fraction'])} of the time with "
        f"{data['starts_per_hour']:.2f} starts an hour and takes "
        f"{data['energy_kWh_per_day']:.2f} kWh a day. The stored air lies between "
        f"{temperature('air_min_C')} and {temperature('air_max_C')}; the goods get no warmer than "
        f"{temperature('contents_warmest_C')}."
    )
    if day.cut_hours is None:
        return text
    limit = reader.written(day.cut_limit, Kind.temperature)
    return f"{text} Without power and the door shut they pass {limit} after {day.cut_hours:.1f} h."
