"""A day as a chart: temperatures, gauges and watts, one drawing for screen and paper."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np

from coldwright.arrays import Array
from coldwright.sheet import theme
from coldwright.sheet.figure import Cell, Column, Figure
from coldwright.units import System
from coldwright.verdict.day import Day
from coldwright.verdict.day_report import day_report
from coldwright.verdict.figures import CELSIUS

PASCALS_PER_PSI, PASCALS_PER_KPA = 6894.757, 1e3

SPECIFICATION = "https://vega.github.io/schema/vega-lite/v5.json"  # the name of the format
WIDTH, HEIGHT = 760, 190
MOST_POINTS = 720
TABLE_MINUTES = 30
# Told apart by the colour-blind and, by their dashes, without colour (Okabe and Ito 2008).
LINES: tuple[tuple[str, str, str, list[int]], ...] = (
    ("air_C", "stored air", "#0072B2", []),
    ("contents_C", "goods", "#D55E00", []),
    ("low_shelf_C", "lowest shelf", "#56B4E9", [2, 2]),
    ("cold_surface_C", "cold surface", "#009E73", [4, 2]),
    ("brine_C", "brine", "#000000", [6, 2]),
    ("cold_metal_C", "metal of the cold side", "#000000", [6, 2]),
    ("room_C", "room", "#999999", [1, 3]),
)
GAUGES: tuple[tuple[str, str, str, list[int]], ...] = (
    ("suction_Pa", "suction", "#0072B2", []),
    ("discharge_Pa", "discharge", "#D55E00", [4, 2]),
)


def write_day_chart(day: Day, path: Path) -> None:
    """Write the chart as SVG, or as one HTML page that needs no network, by the name's ending."""
    import vl_convert  # noqa: PLC0415 (slow to load, and only for charts)

    spec = day_chart(day)
    if path.suffix.lower() == ".svg":
        path.write_text(vl_convert.vegalite_to_svg(spec), encoding="utf-8")
    else:
        path.write_text(vl_convert.vegalite_to_html(spec, bundle=True), encoding="utf-8")


def day_chart(day: Day) -> dict[str, Any]:
    """The drawing in the Vega-Lite format, in the units of the day."""
    rows, system = day.rows, day.clock.system
    every = max(-(-len(rows["minute"]) // MOST_POINTS), 1)
    rows = {name: values[::every] for name, values in rows.items()}
    hours = rows["minute"] / 60.0
    target = _degrees(np.array([day.clock.target - CELSIUS]), system)[0]
    pressure = float(day.clock.plant.pressure[0])

    shop = system == "shop"
    unit = PASCALS_PER_PSI if shop else PASCALS_PER_KPA
    panels = [
        _panel(
            f"temperature, {'°F' if shop else '°C'}",
            [(name, _degrees(rows[key], system), ink, dash) for key, name, ink, dash in _of(rows)],
            hours,
            rule=float(target),
        ),
        _panel(
            f"gauges, {'psig' if shop else 'kPa gauge'}",
            [(name, (rows[key] - pressure) / unit, ink, dash) for key, name, ink, dash in GAUGES],
            hours,
        ),
        _panel("power, W", [("power", rows["power_W"], "#000000", [])], hours),
    ]
    return {
        "$schema": SPECIFICATION,
        "title": f"{day.clock.build.name}: {day.course.minutes / 60.0:.0f} h from {day.start}",
        "vconcat": panels,
        "resolve": {"scale": {"color": "independent", "strokeDash": "independent"}},
        "config": theme.CONFIG,
    }


def day_figure(day: Day) -> Figure:
    """The chart with its words, and its course every half hour as a table."""
    rows, system = day.rows, day.clock.system
    unit = "°F" if system == "shop" else "°C"
    kept = range(0, len(rows["minute"]), TABLE_MINUTES)
    lines = [line for line in LINES if line[0] in rows]
    columns = (
        Column("hour", "hour", "h"),
        *(Column(key, name, unit) for key, name, *_ in lines),
        Column("power_W", "power", "W"),
    )
    table: list[dict[str, Cell]] = []
    for at in kept:
        row: dict[str, Cell] = {"hour": round(float(rows["minute"][at]) / 60.0, 2)}
        for key, *_ in lines:
            row[key] = round(float(_degrees(rows[key][at : at + 1], system)[0]), 1)
        row["power_W"] = round(float(rows["power_W"][at]), 1)
        table.append(row)
    title = f"{day.course.minutes / 60.0:.0f} h from {day.start}"
    caption = " ".join(day_report(day)["sentences"])
    spec = {**day_chart(day), "description": caption}
    return Figure("day", title, day.clock.build.name, caption, columns, tuple(table), spec)


def _of(rows: dict[str, Array]) -> list[tuple[str, str, str, list[int]]]:
    return [line for line in LINES if line[0] in rows]


def _degrees(celsius: Array, system: System) -> Array:
    """Temperatures in the user's degrees."""
    return celsius * 1.8 + 32.0 if system == "shop" else celsius


def _panel(
    title: str,
    lines: Sequence[tuple[str, Array, str, list[int]]],
    hours: Array,
    rule: float | None = None,
) -> dict[str, Any]:
    """One plot of lines over the hours; `rule`: a level line, the target."""
    names = [name for name, *_ in lines]
    data = [
        {"h": round(float(hour), 4), "v": round(float(value), 3), "line": name}
        for name, values, *_ in lines
        for hour, value in zip(hours, values, strict=True)
    ]
    drawn: dict[str, Any] = {
        "mark": {"type": "line", "strokeWidth": 1.4},
        "encoding": {
            "x": {"field": "h", "type": "quantitative", "title": "hours"},
            "y": {
                "field": "v",
                "type": "quantitative",
                "title": title,
                "scale": {"zero": title.startswith("power")},
            },
            "color": {
                "field": "line",
                "type": "nominal",
                "title": None,
                "scale": {"domain": names, "range": [ink for *_, ink, _ in lines]},
            },
            "strokeDash": {
                "field": "line",
                "type": "nominal",
                "title": None,
                "scale": {"domain": names, "range": [dash or [1, 0] for *_, dash in lines]},
            },
        },
    }
    layers = [drawn]
    if rule is not None:
        layers.append(
            {
                "mark": {"type": "rule", "color": "#CC79A7", "strokeDash": [8, 4]},
                "encoding": {"y": {"datum": rule}},
            }
        )
    return {"width": WIDTH, "height": HEIGHT, "data": {"values": data}, "layer": layers}
