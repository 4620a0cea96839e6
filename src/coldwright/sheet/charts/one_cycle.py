"""One run and one rest in detail, as gauges, thermometers and a meter would show them."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import altair as alt
import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array
from coldwright.sheet import theme
from coldwright.sheet.charts.courses import Line, Panel, drawn, in_degrees, of_pressures
from coldwright.sheet.figure import Column, Figure, Undrawn
from coldwright.sheet.reader import Reader
from coldwright.units import Kind
from coldwright.verdict.day import Day
from coldwright.verdict.figures import CELSIUS, at_lane, percent

BEFORE = 2  # minutes drawn before the start
TEMPERATURES = (
    Line("air_C", "stored air", {"color": theme.INK, "strokeWidth": 1.3}),
    Line("bulb_C", "bulb", {"color": theme.COPPER, "strokeWidth": 2.4}),
    Line("brine_C", "brine", {"color": theme.SLATE, "strokeWidth": 1.3, "strokeDash": theme.DASH}),
    Line(
        "cold_metal_C",
        "cold metal",
        {"color": theme.SLATE, "strokeWidth": 1.3, "strokeDash": theme.DASH},
    ),
    Line(
        "condenser_C",
        "condenser",
        {"color": theme.SOFT, "strokeWidth": 1.3, "strokeDash": theme.LONG_DASH},
    ),
    Line("shell_C", "shell", {"color": theme.SOFT, "strokeWidth": 1.1}),
)
GAUGES = (
    Line("suction_Pa", "suction", {"color": theme.SLATE, "strokeWidth": 1.8}),
    Line(
        "discharge_Pa",
        "discharge",
        {"color": theme.COPPER, "strokeWidth": 1.8, "strokeDash": theme.DASH},
    ),
)
POWER = Line("power_W", "power", {"color": theme.INK, "strokeWidth": 1.4})


def one_cycle(day: Day) -> Figure | Undrawn:
    """The last whole cycle of the counted hours, one with the door shut if there is any."""
    span = _span(day)
    if span is None:
        share = percent(at_lane(day.course.tally.run_fraction, 0))
        told = f"it ran {share} of the hours that count and made no whole cycle"
        return Undrawn(told, because="the machine does not switch")
    start, _, end = span
    reader = Reader.of(day.clock.build, day.clock.system, float(day.clock.plant.pressure[0]))
    kept = slice(max(start - BEFORE, 0), end)
    rows = {name: each[kept] for name, each in day.rows.items()}
    time = rows["minute"] - float(day.rows["minute"][start]) + 1.0
    panels = tuple(_panels(day, reader, rows))
    x = alt.X(
        "time:Q",
        title="minutes from the start of the machine",
        scale=alt.Scale(domain=[float(time[0]), float(time[-1])], nice=False),
        axis=alt.Axis(tickCount=12),
    )
    untitled = alt.X(x["shorthand"], title=None, scale=x["scale"], axis=x["axis"])
    layers = [drawn(each, untitled, time) for each in panels[:-1]]
    layers.append(drawn(panels[-1], x, time))
    title = "One cycle"
    subtitle = f"{reader.box}; the last whole cycle of {day.course.minutes / 60.0:.0f} hours"
    caption = _caption(day, reader, span)
    columns = (
        Column("minute", "minute", "min"),
        *(
            Column(line.key.rsplit("_", 1)[0], line.words, unit)
            for panel, unit in zip(panels, _units(reader, rows), strict=True)
            for line in panel.lines
        ),
    )
    table = tuple(
        {
            "minute": float(at),
            **{
                line.key.rsplit("_", 1)[0]: round(float(panel.values[line.key][place]), 3)
                for panel in panels
                for line in panel.lines
            },
        }
        for place, at in enumerate(time)
    )
    spec = theme.finished(alt.vconcat(*layers, spacing=12), title, subtitle, caption)
    return Figure("cycle", title, subtitle, caption, columns, table, spec)


def _span(day: Day) -> tuple[int, int, int] | None:
    """Rows at which a cycle starts, stops and starts again."""
    counted = max(day.course.tally.minutes, 1)
    whole = day.rows["running"]
    first = len(whole) - counted
    running = whole[first:] > 0.5
    turns = np.diff(running.astype(np.intp))
    starts: NDArray[np.intp] = np.flatnonzero(turns > 0) + 1 + first
    found = [
        (int(start), int(start + np.argmin(whole[start:end] > 0.5)), int(end))
        for start, end in pairwise(starts)
    ]
    doors = day.clock.plan.doors
    shut = [
        each for each in found if not np.any(doors[np.arange(each[0], each[2]) % len(doors)] > 0.0)
    ]
    return (shut or found)[-1] if found else None


def _panels(day: Day, reader: Reader, rows: dict[str, Array]) -> Iterator[Panel]:
    yield Panel("power of the machine", "W", (POWER,), rows, 100, least=0.0)
    pressures, unit, marks = of_pressures(reader, {line.key: rows[line.key] for line in GAUGES})
    yield Panel("gauges", unit, GAUGES, pressures, 140, marks=marks)
    lines = tuple(line for line in TEMPERATURES if line.key in rows)
    control = day.clock.parts.control
    switches = in_degrees(
        reader, np.array([at_lane(each, 0) - CELSIUS for each in (control.cut_in, control.cut_out)])
    )
    yield Panel(
        "temperatures",
        reader.scale(Kind.temperature).label,
        lines,
        {line.key: in_degrees(reader, rows[line.key]) for line in lines},
        220,
        levels=((float(switches[0]), "cut in"), (float(switches[1]), "cut out")),
    )


def _units(reader: Reader, rows: dict[str, Array]) -> tuple[str, str, str]:
    """Units of the panels' columns in the table."""
    pressure = reader.scale(Kind.absolute_pressure, float(np.max(rows["discharge_Pa"])))
    return "W", pressure.label, reader.scale(Kind.temperature).label


def _caption(day: Day, reader: Reader, span: tuple[int, int, int]) -> str:
    """How long it runs and rests, and what gauges and meter do meanwhile."""
    start, stop, end = span
    rows = day.rows

    def pressure(name: str, at: int) -> str:
        return reader.written(float(rows[name][at]), Kind.absolute_pressure)

    last = stop - 1
    power = rows["power_W"][start:stop]
    return (
        f"It runs {stop - start} min and rests {end - stop} min. At rest both gauges meet near "
        f"{pressure('suction_Pa', end - 1)}; at the end of the run they stand at "
        f"{pressure('suction_Pa', last)} and {pressure('discharge_Pa', last)}. The machine takes "
        f"{reader.written(float(np.max(power)), Kind.power)} at most and "
        f"{reader.written(float(rows['power_W'][last - 1]), Kind.power)} at the end."
    )
