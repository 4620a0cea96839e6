"""A first start from warm with the range that the build's doubts leave."""

from __future__ import annotations

from collections.abc import Iterator

import altair as alt
import numpy as np

from coldwright.arrays import Array
from coldwright.sheet import theme
from coldwright.sheet.charts.courses import Line, Panel, drawn, in_degrees, of_pressures
from coldwright.sheet.figure import Cell, Column, Figure
from coldwright.sheet.reader import Reader
from coldwright.units import Kind
from coldwright.verdict.expect import HIGH, LOW, Expectations
from coldwright.verdict.figures import CELSIUS

MINUTES = (*range(1, 11), 12, 15, 18, 21, 25, *range(30, 120, 10), *range(120, 481, 15))
MARKS = (1, 5, 15, 30, 60, 120, 240, 480)
POWER = Line("power_W", "watts", {"color": theme.INK, "strokeWidth": 1.6})
GAUGES = (
    Line("suction_Pa", "suction", {"color": theme.SLATE, "strokeWidth": 1.8}),
    Line(
        "discharge_Pa",
        "discharge",
        {"color": theme.COPPER, "strokeWidth": 1.8, "strokeDash": theme.DASH},
    ),
)
TEMPERATURES = (
    Line("air_C", "stored air", {"color": theme.INK, "strokeWidth": 1.6}),
    Line("brine_C", "brine", {"color": theme.SLATE, "strokeWidth": 1.6, "strokeDash": theme.DASH}),
    Line(
        "cold_metal_C",
        "cold metal",
        {"color": theme.SLATE, "strokeWidth": 1.6, "strokeDash": theme.DASH},
    ),
)
LEAST_POINTS, LEAST_SHARE = 2, 0.5
Ranged = dict[str, tuple[Array, Array, Array]]


def pull_down(found: Expectations) -> Figure:
    """Watts, gauges, and temperatures of a first start, each with its 5 to 95 % band.

    `found` should hold `MINUTES`, so that the first minutes show. Time is drawn by its root.
    """
    clock = found.clock
    reader = Reader.of(clock.build, clock.system, float(clock.plant.pressure[0]))
    time, ranged = _while_running(found)
    panels = tuple(_panels(reader, ranged, clock.target))
    x = alt.X(
        "time:Q",
        title="minutes from the first start",
        scale=alt.Scale(type="sqrt", domain=[0.0, float(time[-1])], nice=False),
        axis=alt.Axis(values=[each for each in MARKS if each <= time[-1]]),
    )
    untitled = alt.X(x["shorthand"], title=None, scale=x["scale"], axis=x["axis"])
    layers = [drawn(each, untitled, time) for each in panels[:-1]]
    layers.append(drawn(panels[-1], x, time))
    goods = "empty" if found.empty else "with its goods"
    room = reader.written(float(clock.plan.room[0]), Kind.temperature)
    title = "A first start"
    subtitle = (
        f"{reader.box}; {goods}, door shut, all at {room}, until it stops for the first time; "
        "bands: 5 to 95 %"
    )
    caption = _caption(reader, time, ranged)
    columns = (Column("minute", "minute", "min"), *_columns(reader, panels, ranged))
    table = tuple(_row(place, at, panels) for place, at in enumerate(time))
    spec = theme.finished(alt.vconcat(*layers, spacing=12), title, subtitle, caption)
    return Figure("pull-down", title, subtitle, caption, columns, table, spec)


def _while_running(found: Expectations) -> tuple[Array, Ranged]:
    """Minutes until the build's own first stop; each course with 5 and 95 % of the draws.

    A draw that has stopped once counts no more: no band mixes running and resting.
    """
    minutes = np.array(found.minutes, dtype=np.float64)
    shown = slice(0, max(int(np.sum(minutes < found.first_stop[0])), LEAST_POINTS))
    time = minutes[shown]
    gone = found.first_stop[1:, None] <= time
    # where hardly any draw is left, the last range stands
    left = np.sum(~gone, axis=0) < LEAST_SHARE * len(gone)
    ranged: Ranged = {}
    for name, values in found.values.items():
        running = np.where(gone | left, np.nan, values[1:, shown])
        running[:, 0] = values[1:, 0]
        low, high = np.full((2, len(time)), np.nan)
        for k in np.flatnonzero(~left | (np.arange(len(time)) == 0)):
            low[k], high[k] = np.nanquantile(running[:, k], (LOW, HIGH))
        last = np.maximum.accumulate(np.where(np.isfinite(low), np.arange(len(time)), 0))
        ranged[name] = (values[0, shown], low[last], high[last])
    return time, ranged


def _panels(reader: Reader, ranged: Ranged, target: float) -> Iterator[Panel]:
    mid, low, high = ranged[POWER.key]
    bands = {POWER.key: (low, high)}
    yield Panel("power of the machine", "W", (POWER,), {POWER.key: mid}, 120, bands=bands)
    courses = {
        f"{line.key}{which}": ranged[line.key][k]
        for line in GAUGES
        for k, which in enumerate(("", " low", " high"))
    }
    placed, unit, marks = of_pressures(reader, courses)
    bands = {line.key: (placed[f"{line.key} low"], placed[f"{line.key} high"]) for line in GAUGES}
    yield Panel("gauges", unit, GAUGES, placed, 170, marks=marks, bands=bands)
    lines = tuple(line for line in TEMPERATURES if line.key in ranged)
    degrees = {line.key: [in_degrees(reader, each) for each in ranged[line.key]] for line in lines}
    wanted = float(in_degrees(reader, np.array([target - CELSIUS]))[0])
    yield Panel(
        "temperatures",
        reader.scale(Kind.temperature).label,
        lines,
        {key: found[0] for key, found in degrees.items()},
        200,
        levels=((wanted, "target"),),
        bands={key: (found[1], found[2]) for key, found in degrees.items()},
    )


def _columns(reader: Reader, panels: tuple[Panel, ...], ranged: Ranged) -> Iterator[Column]:
    pressure = reader.scale(Kind.absolute_pressure, float(np.max(ranged["discharge_Pa"][2])))
    for panel in panels:
        unit = panel.unit if panel.marks is None else pressure.label
        for line in panel.lines:
            name = line.key.rsplit("_", 1)[0]
            yield Column(name, line.words, unit)
            yield Column(f"{name}_low", f"{line.words}, 5 %", unit)
            yield Column(f"{name}_high", f"{line.words}, 95 %", unit)


def _row(place: int, at: float, panels: tuple[Panel, ...]) -> dict[str, Cell]:
    row: dict[str, Cell] = {"minute": float(at)}
    for panel in panels:
        for line in panel.lines:
            name = line.key.rsplit("_", 1)[0]
            low, high = panel.bands[line.key]
            row[name] = round(float(panel.values[line.key][place]), 3)
            row[f"{name}_low"] = round(float(low[place]), 3)
            row[f"{name}_high"] = round(float(high[place]), 3)
    return row


def _caption(reader: Reader, time: Array, ranged: Ranged) -> str:
    """What meter and gauges should show after half an hour, and where the air comes to."""
    at = int(np.argmin(np.abs(time - 30.0)))

    def between(name: str, kind: Kind, place: int, zero: float = 0.0) -> str:
        mid, low, high = (reader.written(float(each[place]) + zero, kind) for each in ranged[name])
        return f"{mid} ({low} to {high})"

    return (
        f"After {time[at]:.0f} min it should take {between('power_W', Kind.power, at)}, with a "
        f"suction of {between('suction_Pa', Kind.absolute_pressure, at)} and a discharge of "
        f"{between('discharge_Pa', Kind.absolute_pressure, at)}. After {time[-1] / 60.0:.1f} h the "
        f"stored air is at {between('air_C', Kind.temperature, -1, CELSIUS)}. Nine of ten such "
        "builds lie in the bands while they run."
    )
