"""Charge against superheat, subcooling, capacity and watts: the flat valley and both its cliffs."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

import altair as alt
import numpy as np

from coldwright.arrays import Array
from coldwright.build.result import Build
from coldwright.build.translation.plant import Translation
from coldwright.plant.balance import REASONS
from coldwright.sheet import theme
from coldwright.sheet.figure import Cell, Column, Figure, Undrawn
from coldwright.sheet.reader import Reader
from coldwright.units import Kind, Scale, System
from coldwright.verdict.figures import at_lane
from coldwright.verdict.fill_window import FillWindow, Rungs, fill_window

WIDTH, HEIGHT = 380, 210
HOT, COLD = "hottest start", "coldest run"
STROKES: dict[str, theme.Mark] = {
    HOT: {"color": theme.SLATE, "strokeWidth": 1.8, "strokeDash": theme.DASH},
    COLD: {"color": theme.COPPER, "strokeWidth": 2.6},
}
# Room above the curves for the window's words and under them, as shares of their height; the least
# height, in the panel's unit; the least width of the window, as a share of the axis, for its word.
HEADROOM, FOOTROOM, LEAST_SPAN, WORD_SHARE = 0.36, 0.16, 5.0, 0.13
# Curves that differ by less than this share of their height are named together.
ALIKE = 0.03
# Shares of the axis that words need: beside the window's edges, and lines' names from the sides.
STARVED_ROOM, LIQUID_ROOM, EDGE = 0.11, 0.24, 0.12
# Lines of words under the top edge [px].
FIRST, SECOND, THIRD = 11, 25, 39
# Shares of the charge whose cooling the caption names.
TOO_LITTLE, TOO_MUCH = 0.5, 2.0
Row = Mapping[str, Cell]


@dataclass(frozen=True)
class _Measure:
    """What one panel shows."""

    key: str
    title: str
    kind: Kind
    of: Callable[[Rungs], Array]


MEASURES = (
    _Measure(
        "superheat",
        "superheat at the evaporator's exit",
        Kind.temperature_difference,
        lambda rungs: rungs.superheat,
    ),
    _Measure(
        "subcooling",
        "subcooling at the condenser's exit",
        Kind.temperature_difference,
        lambda rungs: rungs.balance.evaluation.subcooling,
    ),
    _Measure("capacity", "cooling", Kind.heat_flow, lambda rungs: rungs.capacity),
    _Measure(
        "power",
        "power of the machine",
        Kind.power,
        lambda rungs: rungs.balance.evaluation.compressor.power,
    ),
)


@dataclass(frozen=True)
class _Frame:
    """What all panels share."""

    reader: Reader
    window: FillWindow
    mass: Scale
    least: float  # [kg] of the charges drawn
    most: float

    @property
    def curves(self) -> dict[str, Rungs]:
        """The two states by name."""
        return {HOT: self.window.hot_pull_down, COLD: self.window.coldest}

    @property
    def x(self) -> alt.X:
        """The axis of charge."""
        ends = [self.mass.of(self.least), self.mass.of(self.most)]
        return alt.X(
            "charge:Q",
            title=f"charge, {self.mass.label}",
            scale=alt.Scale(domain=ends, nice=False, zero=False),
            axis=alt.Axis(grid=False, tickCount=8),
        )

    def written(self, mass: float) -> str:
        """A charge [kg] with its unit."""
        return self.reader.written(mass, Kind.mass)


def charge(
    build: Build, translation: Translation, system: System, window: FillWindow | None = None
) -> Figure | Undrawn:
    """The two states that bound the charge, over charges from too little to too much.

    `window` is that of `fill_window`, where it is known already.
    """
    window = fill_window(build, translation) if window is None else window
    settled = window.hot_pull_down.settled | window.coldest.settled
    if not np.any(settled):
        reason = window.operation.cycling.balance.reason
        return Undrawn(REASONS[int(at_lane(reason, 0))])
    charges = window.hot_pull_down.charge[settled]
    reader = Reader.of(build, system, at_lane(translation.room.atmospheric_pressure, 0))
    mass = reader.scale(Kind.mass, float(charges[-1]))
    frame = _Frame(reader, window, mass, float(charges[0]), float(charges[-1]))
    title = f"From too little {build.refrigerant.name} to too much"
    subtitle = (
        f"{reader.box}; {HOT}: all warm in a room of "
        f"{reader.written(window.hot_pull_down.room_temperature, Kind.temperature)}; {COLD}: "
        f"in a room of {reader.written(window.coldest.room_temperature, Kind.temperature)}"
    )
    caption = _caption(frame)
    panels = [_panel(each, frame) for each in MEASURES]
    chart = alt.vconcat(
        alt.hconcat(*panels[:2], spacing=24), alt.hconcat(*panels[2:], spacing=24), spacing=20
    )
    columns = (
        Column("state", "state"),
        Column("charge", "charge", mass.label),
        *(Column(each.key, each.title, reader.scale(each.kind).label) for each in MEASURES),
    )
    rows = tuple(row for name in (HOT, COLD) for row in _rows(name, frame))
    spec = theme.finished(chart, title, subtitle, caption)
    return Figure("charge", title, subtitle, caption, columns, rows, spec)


def _rows(name: str, frame: _Frame) -> list[Row]:
    """One state over its charges; those without a balance are left out."""
    rungs = frame.curves[name]
    found = {each.key: (each.of(rungs), frame.reader.scale(each.kind)) for each in MEASURES}
    return [
        {
            "state": name,
            "charge": round(frame.mass.of(rungs.charge[place]), 4),
            **{key: round(scale.of(values[place]), 4) for key, (values, scale) in found.items()},
        }
        for place in np.flatnonzero(rungs.settled)
    ]


def _panel(measure: _Measure, frame: _Frame) -> theme.Layers:
    """One measure over the charge, in both states."""
    rows = {name: _rows(name, frame) for name in (HOT, COLD)}
    shown = [float(row[measure.key] or 0.0) for each in rows.values() for row in each]
    low, high = min(shown), max(shown)
    span = max(high - low, LEAST_SPAN)
    top = high + HEADROOM * span
    unit = frame.reader.scale(measure.kind).label
    y = alt.Y(
        f"{measure.key}:Q",
        title=unit,
        scale=alt.Scale(domain=[low - FOOTROOM * span, top], nice=False, zero=False),
        axis=alt.Axis(minExtent=52, titleX=-44, tickCount=6),
    )
    lines = [
        alt.Chart(theme.values(each)).mark_line(**STROKES[name]).encode(x=frame.x, y=y)
        for name, each in rows.items()
    ]
    words = _line_words(measure, rows, frame, y)
    return alt.layer(*_window(frame, measure.key, y, top), *lines, *words).properties(
        width=WIDTH, height=HEIGHT, title=theme.panel_title(measure.title)
    )


def _window(frame: _Frame, key: str, y: alt.Y, top: float) -> Iterator[alt.Chart]:
    """The window of fill, its two edges in words, and the build's own charge."""
    window, x = frame.window, frame.x
    ends = [frame.least if window.least is None else window.least]
    ends += [frame.most if window.most is None else window.most]
    if window.open:
        band = [{"from": frame.mass.of(ends[0]), "to": frame.mass.of(ends[1])}]
        across = alt.X("from:Q", scale=x["scale"], axis=x["axis"], title=x["title"])
        yield (
            alt.Chart(theme.values(band))
            .mark_rect(color=theme.BAND, opacity=0.75)
            .encode(x=across, x2="to:Q")
        )
        if ends[1] - ends[0] > WORD_SHARE * (frame.most - frame.least):
            yield from _text((0.5 * sum(ends), top, "window"), frame, key, y, {"dy": FIRST})
    for edge, text, side, dy in _edges(frame):
        rule = alt.Chart(theme.values([{"charge": frame.mass.of(edge)}]))
        yield rule.mark_rule(color=theme.SOFT, strokeWidth=0.8).encode(x=x)
        dx = 5 if side == "left" else -5
        yield from _text((edge, top, text), frame, key, y, {"align": side, "dx": dx, "dy": dy})
    own = alt.Chart(theme.values([{"charge": frame.mass.of(window.charge)}]))
    yield own.mark_rule(color=theme.INK, strokeDash=theme.DOTS, strokeWidth=1.4).encode(x=x)
    place = (window.charge, top, "this charge")
    yield from _text(place, frame, key, y, {"align": "right", "dx": -5, "dy": THIRD})


def _edges(frame: _Frame) -> Iterator[tuple[float, str, str, int]]:
    """Each edge that was found: charge [kg], its word, the side it is anchored on, its line.

    A word that has no room on its own side stands on the other, with an arrow.
    """
    window, span = frame.window, frame.most - frame.least
    second = FIRST if window.open else SECOND
    if window.least is not None and not window.least_is_bound:
        if window.least - frame.least > STARVED_ROOM * span:
            yield window.least, "starved", "right", FIRST
        else:
            yield window.least, "← starved", "left", SECOND
    if window.most is not None and not window.most_is_bound:
        if frame.most - window.most > LIQUID_ROOM * span:
            yield window.most, "liquid comes back", "left", second
        else:
            yield window.most, "liquid comes back →", "right", SECOND


def _text(
    place: tuple[float, float, str], frame: _Frame, key: str, y: alt.Y, mark: theme.Mark
) -> Iterator[alt.Chart]:
    """Text at a charge [kg] and a height in the panel's own unit."""
    charged, height, text = place
    row = {"charge": frame.mass.of(charged), key: height, "text": text}
    yield from theme.words([row], frame.x, y, fontSize=10, color=theme.SOFT, **mark)


def _line_words(
    measure: _Measure, rows: Mapping[str, Sequence[Row]], frame: _Frame, y: alt.Y
) -> Iterator[alt.Chart]:
    """Each line's name, where the two lie farthest apart."""
    first, second = (
        {row["charge"]: float(row[measure.key] or 0.0) for row in rows[name]}
        for name in (HOT, COLD)
    )
    shared = sorted(float(each or 0.0) for each in first if each in second)
    least, span = frame.mass.of(frame.least), frame.mass.of(frame.most - frame.least)
    inner = [each for each in shared if EDGE < (each - least) / span < 1.0 - EDGE]
    if not inner:
        return
    at = max(inner, key=lambda each: abs(first[each] - second[each]))
    values_drawn = [*first.values(), *second.values(), 0.0]
    span = max(max(values_drawn) - min(values_drawn), LEAST_SPAN)
    if abs(first[at] - second[at]) < ALIKE * span:
        at = inner[len(inner) // 2]
        row = {"charge": at, measure.key: first[at], "text": f"{HOT} and {COLD} alike"}
        yield from theme.words([row], frame.x, y, dy=-11)
        return
    for name, values, other in ((HOT, first, second), (COLD, second, first)):
        above = values[at] >= other[at]
        row = {"charge": at, measure.key: values[at], "text": name}
        mark = {"dy": -11 if above else 12, "color": STROKES[name]["color"]}
        yield from theme.words([row], frame.x, y, **mark)


def _caption(frame: _Frame) -> str:
    """Where the charge stands in its window, and what too little and too much would cost."""
    window, write = frame.window, frame.reader.written
    how = "found for its superheat" if window.found else "as stated"
    hot, cold = (write(each.room_temperature, Kind.temperature) for each in frame.curves.values())
    sentences = [f"The charge is {frame.written(window.charge)}, {how} (dotted line)."]
    if window.least is None:
        sentences.append(f"No charge tried is enough for the hottest start, in a room of {hot}.")
    else:
        before = "Less than " if window.least_is_bound else ""
        text = f"{before}{frame.written(window.least)} is enough for the hottest start"
        sentences.append(f"{text[0].upper()}{text[1:]}, in a room of {hot}.")
    if window.most is None:
        sentences.append(f"Liquid comes back with every charge tried, coldest in a room of {cold}.")
    else:
        before = "more than " if window.most_is_bound else ""
        sentences.append(
            f"No liquid comes back up to {before}{frame.written(window.most)}, coldest in a room "
            f"of {cold}."
        )
    if not window.open:
        # A limit that was not reached may lie beyond the charges tried.
        reached = window.least is not None and window.most is not None
        shut = "So the window is shut: no charge does both."
        sentences.append(shut if reached else "None of the charges tried does both.")
    sentences.append(_costs(frame))
    return " ".join(each for each in sentences if each)


def _costs(frame: _Frame) -> str:
    """Cooling at the hottest start with this charge, half of it and twice it."""
    rungs = frame.curves[HOT]
    charges, capacities = rungs.charge[rungs.settled], rungs.capacity[rungs.settled]

    def cooling(share: float) -> str | None:
        wanted = share * frame.window.charge
        if charges.size == 0 or not charges[0] <= wanted <= charges[-1]:
            return None
        found = float(np.interp(wanted, charges, capacities))
        return frame.reader.written(found, Kind.heat_flow)

    own, less, more = cooling(1.0), cooling(TOO_LITTLE), cooling(TOO_MUCH)
    if own is None:
        return ""
    others = [
        f"{text} with {word}" for text, word in ((less, "half of it"), (more, "twice it")) if text
    ]
    beside = f", {' and '.join(others)}" if others else ""
    return f"At the hottest start this charge cools by {own}{beside}."
