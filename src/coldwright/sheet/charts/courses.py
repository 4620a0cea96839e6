"""Courses over time: panels of lines that carry their names at their right ends."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field

import altair as alt
import numpy as np

from coldwright.arrays import Array
from coldwright.sheet import theme
from coldwright.sheet.figure import Cell
from coldwright.sheet.reader import Reader
from coldwright.units import Kind

WIDTH = 640
# Least distance between two names at the right edge [px], and room that lines leave above and below
# as a share of their height.
APART, ROOM = 13.0, 0.08
# Width of the axis [px]: all panels begin on one line.
MARGIN = 70
CELSIUS = 273.15
Row = Mapping[str, Cell]


@dataclass(frozen=True)
class Line:
    """One course: the key of its column, what it is called, how it is drawn."""

    key: str
    words: str
    mark: theme.Mark


@dataclass(frozen=True)
class Panel:
    """Lines of one kind over the same time; `values` [reader's unit] by the lines' keys."""

    title: str
    unit: str
    lines: tuple[Line, ...]
    values: Mapping[str, Array]
    height: int
    least: float | None = None  # of the axis, where it is not the values' own
    marks: Mapping[float, str] | None = None  # of a logarithmic axis
    levels: tuple[tuple[float, str], ...] = ()  # level rules with their words
    bands: Mapping[str, tuple[Array, Array]] = field(default_factory=dict)  # about lines, by key
    width: int = WIDTH


def in_degrees(reader: Reader, celsius: Array) -> Array:
    """Temperatures [°C] in the reader's degrees."""
    scale = reader.scale(Kind.temperature)
    return np.array([scale.of(each + CELSIUS) for each in celsius])


def of_pressures(
    reader: Reader, courses: Mapping[str, Array]
) -> tuple[dict[str, Array], str, dict[float, str]]:
    """Pressures [Pa] on the scale of their axis, its unit, its marks as a gauge shows them."""
    low = min(float(np.min(each)) for each in courses.values())
    high = max(float(np.max(each)) for each in courses.values())
    scale = reader.scale(Kind.absolute_pressure, high)
    placed = {key: np.array([scale.of(each) for each in values]) for key, values in courses.items()}
    unit = "on the gauge" if reader.system == "shop" else scale.label
    return placed, unit, reader.pressure_marks(low / 1.15, high * 1.15)


def drawn(panel: Panel, x: alt.X, time: Array) -> theme.Layers:
    """The panel with its band, lines, levels and names."""
    ends = _ends(panel)
    layers = [_band(panel, line, x, time, ends) for line in panel.lines if line.key in panel.bands]
    for level, _ in panel.levels:
        rule = alt.Chart(theme.values([{"level": level}]))
        rule = rule.mark_rule(color=theme.SOFT, strokeDash=theme.DOTS)
        layers.append(rule.encode(y=_axis(panel, "level", ends)))
    for line in panel.lines:
        rows = [
            {"time": float(at), line.key: round(float(value), 4)}
            for at, value in zip(time, panel.values[line.key], strict=True)
        ]
        chart = alt.Chart(theme.values(rows)).mark_line(**line.mark)
        layers.append(chart.encode(x=x, y=_axis(panel, line.key, ends)))
    for height, words, colour in _names(panel, *ends):
        row = [{"time": float(time[-1]), "name": height, "text": words}]
        mark: theme.Mark = {"align": "left", "dx": 7, "color": colour}
        layers += theme.words(row, x, _axis(panel, "name", ends), **mark)
    return alt.layer(*layers).properties(
        width=panel.width, height=panel.height, title=theme.panel_title(panel.title)
    )


def _axis(panel: Panel, key: str, ends: tuple[float, float]) -> alt.Y:
    """The axis of the panel's values, for the column `key`."""
    if panel.marks is None:
        scale = alt.Scale(domain=list(ends), nice=False, zero=False)
        axis = alt.Axis(minExtent=MARGIN, titleX=-MARGIN + 6, tickCount=max(panel.height // 40, 3))
    else:
        scale = alt.Scale(type="log", domain=list(ends), nice=False)
        labels = json.dumps({f"{place:.4f}": text for place, text in panel.marks.items()})
        label = f"({labels})[format(datum.value, '.4f')]"
        axis = alt.Axis(
            minExtent=MARGIN, titleX=-MARGIN + 6, values=list(panel.marks), labelExpr=label
        )
    return alt.Y(f"{key}:Q", title=panel.unit, scale=scale, axis=axis)


def _band(panel: Panel, line: Line, x: alt.X, time: Array, ends: tuple[float, float]) -> alt.Chart:
    """The range about a line, in its colour and pale."""
    low, high = panel.bands[line.key]
    rows = [
        {"time": float(at), "low": round(float(a), 4), "high": round(float(b), 4)}
        for at, a, b in zip(time, low, high, strict=True)
    ]
    chart = alt.Chart(theme.values(rows)).mark_area(color=line.mark["color"], opacity=0.16)
    found: alt.Chart = chart.encode(x=x, y=_axis(panel, "low", ends), y2="high:Q")
    return found


def _ends(panel: Panel) -> tuple[float, float]:
    """Ends of the axis: what is drawn and a little more."""
    shown = [panel.values[line.key] for line in panel.lines]
    shown += [each for band in panel.bands.values() for each in band]
    shown.append(np.array([level for level, _ in panel.levels]))
    whole = np.concatenate(shown)
    low, high = float(np.min(whole)), float(np.max(whole))
    if panel.marks is not None:
        return low / 1.15, high * 1.15
    span = max(high - low, 1.0)
    return (low - ROOM * span if panel.least is None else panel.least), high + ROOM * span


def _names(panel: Panel, low: float, high: float) -> list[tuple[float, str, str]]:
    """Height, word and colour of each line's and level's name, near its end, none on another.

    A panel of one line has its name above it.
    """
    log = panel.marks is not None

    def place(value: float) -> float:
        share = np.log(value / low) / np.log(high / low) if log else (value - low) / (high - low)
        return float(share) * panel.height

    def value(at: float) -> float:
        share = at / panel.height
        return float(low * (high / low) ** share) if log else low + share * (high - low)

    named = [(place(level), words, theme.SOFT) for level, words in panel.levels]
    if len(panel.lines) > 1:
        named += [
            (place(_last(panel.values[line.key])), line.words, str(line.mark["color"]))
            for line in panel.lines
        ]
    named.sort(key=lambda each: each[0])
    heights = [height for height, _, _ in named]
    for _ in range(len(heights) * 8):
        for k in range(len(heights) - 1):
            short = APART - (heights[k + 1] - heights[k])
            if short > 0.0:
                heights[k] -= 0.5 * short
                heights[k + 1] += 0.5 * short
    return [
        (value(height), words, colour)
        for height, (_, words, colour) in zip(heights, named, strict=True)
    ]


def _last(values: Array) -> float:
    """A course's end: of one that goes to and fro, its last tenth's mean."""
    return float(np.mean(values[-max(len(values) // 10, 1) :]))
