"""A drawing put together: parts, dimensions, labels in columns, foot, and the SVG around it.

In the usual size labels stand in two columns beside the drawing. In the compact size numbers stand
there and the words in a list below, so that a narrow screen has few and large texts.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from coldwright.sheet.drawing.labels import Label, Line, Note, labelled, leader, placed
from coldwright.sheet.drawing.svg import (
    Point,
    circle,
    element,
    path,
    rectangle,
    words,
)
from coldwright.sheet.drawing.text_size import ASCENT, FAMILY, LINE_HEIGHT, wrapped
from coldwright.sheet.drawing.view import Part, View

WIDTH, COMPACT_WIDTH = 760.0, 360.0
MARGIN = 10.0
BALLOON = 10.0  # radius [px]
LIST_VALUE, LIST_WORD = 16.0, 14.0


@dataclass(frozen=True)
class Plan:
    """Where things lie on a sheet [px]."""

    width: float
    left_column: float  # right edge of the left labels
    right_column: float  # left edge of the right labels
    top: float  # of the columns
    bottom: float


@dataclass(frozen=True)
class Noted:
    """The labels of a sheet: shapes by part, leaders, and how far down they reach [px]."""

    by_part: dict[str, list[str]]
    leaders: list[str]
    crossings: Callable[[float], list[float]]
    bottom: float


def noted(view: View, notes: Sequence[Note], plan: Plan) -> Noted:
    """Labels in two columns with their leaders."""
    by_part: dict[str, list[str]] = {}
    ways: list[tuple[Point, Point, Point]] = []
    bottom = plan.top
    for side in ("left", "right"):
        edge = plan.left_column if side == "left" else plan.right_column
        wide = edge - MARGIN if side == "left" else plan.width - MARGIN - edge
        chosen = [labelled(note, wide - 2.0) for note in notes if note.side == side]
        away = -4.0 if side == "left" else 4.0
        for label in placed(chosen, plan.top, plan.bottom, edge):
            at = edge + away
            by_part.setdefault(label.note.part, []).extend(_label(view, label, at))
            way = leader(label, edge)
            if way is not None:
                ways.append(way)
            bottom = max(bottom, label.top + label.height)
    return Noted(by_part, [_leader(view, way) for way in ways], _crossings(ways), bottom)


def _label(view: View, label: Label, x: float) -> list[str]:
    """The lines of a label, towards the drawing."""
    anchor = "end" if label.note.side == "left" else "start"
    shapes, top = [], label.top
    for line in label.lines:
        shapes.append(
            words(
                "text",
                line.text,
                x=x,
                y=top + ASCENT * line.size,
                font_size=line.size,
                text_anchor=anchor,
                font_weight=600 if line.bold else None,
                font_style="italic" if line.italic else None,
                fill=view.paint.ink if line.bold else view.paint.soft,
            )
        )
        top += line.size * LINE_HEIGHT
    return shapes


def _leader(view: View, way: tuple[Point, Point, Point]) -> str:
    """A thin line on a rim of paper, ending in a dot."""
    return element(
        "g",
        path(way, stroke=view.paint.paper, stroke_width=3.2, opacity=0.75),
        path(way, **view.outline(0.8)),
        circle(way[-1], 2.2, fill=view.paint.ink, stroke=view.paint.paper, stroke_width=0.8),
        pointer_events="none",
        data_leader="line",
    )


def _crossings(ways: Sequence[tuple[Point, Point, Point]]) -> Callable[[float], list[float]]:
    """The heights at which leaders cross an upright line at x."""

    def at(x: float) -> list[float]:
        found = []
        for way in ways:
            for (x1, y1), (x2, y2) in pairwise(way):
                if min(x1, x2) <= x <= max(x1, x2) and x1 != x2:
                    found.append(y1 + (x - x1) / (x2 - x1) * (y2 - y1))
        return found

    return at


def balloons(view: View, notes: Sequence[Note], plan: Plan) -> Noted:
    """Numbers in two narrow columns; the list of what they mean is `listed`."""
    ordered = numbered(notes)
    by_part: dict[str, list[str]] = {}
    ways: list[tuple[Point, Point, Point]] = []
    bottom = plan.top
    for side in ("left", "right"):
        edge = plan.left_column if side == "left" else plan.right_column
        middle = edge - BALLOON if side == "left" else edge + BALLOON
        chosen = [
            Label(note, (_digit(at),)) for at, note in enumerate(ordered, 1) if note.side == side
        ]
        for label in placed(chosen, plan.top, plan.bottom, edge):
            number = ordered.index(label.note) + 1
            centre = (middle, label.level)
            by_part.setdefault(label.note.part, []).extend(balloon(view, centre, number))
            way = leader(label, edge)
            if way is not None:
                ways.append(way)
            bottom = max(bottom, label.level + BALLOON)
    return Noted(by_part, [_leader(view, way) for way in ways], _crossings(ways), bottom)


def numbered(notes: Sequence[Note]) -> list[Note]:
    """Notes in the order of their numbers: down the left, then down the right."""

    def height(note: Note) -> float:
        return -1.0 if note.anchor is None else note.anchor[1]

    left = sorted((note for note in notes if note.side == "left"), key=height)
    return [*left, *sorted((note for note in notes if note.side == "right"), key=height)]


def _digit(number: int) -> Line:
    return Line(str(number), 2.0 * BALLOON / LINE_HEIGHT, bold=True)


def balloon(view: View, centre: Point, number: int) -> list[str]:
    """A numbered circle."""
    return [
        circle(centre, BALLOON, fill=view.paint.paper, **view.outline(1.1)),
        words("text", str(number), x=centre[0], y=centre[1] + 4.8, font_size=13.0,
              text_anchor="middle", font_weight=600, fill=view.paint.ink),
    ]  # fmt: skip


def listed(
    view: View, notes: Sequence[Note], top: float, width: float
) -> tuple[dict[str, list[str]], float]:
    """The list under a compact drawing: number, figure, words; by part, and where it ends [px]."""
    by_part: dict[str, list[str]] = {}
    left = MARGIN + 2.0 * BALLOON + 9.0
    wide = width - MARGIN - left
    y = top
    for number, note in enumerate(numbered(notes), 1):
        shapes = balloon(view, (MARGIN + BALLOON, y + 0.62 * LIST_VALUE * LINE_HEIGHT), number)
        for text, size, bold in ((note.value, LIST_VALUE, True), (note.text, LIST_WORD, False)):
            for each in wrapped(text, size, wide, bold=bold):
                shapes.append(
                    words("text", each, x=left, y=y + ASCENT * size, font_size=size,
                          font_weight=600 if bold else None,
                          font_style="italic" if note.assumed else None,
                          fill=view.paint.ink if bold else view.paint.soft)
                )  # fmt: skip
                y += size * LINE_HEIGHT
        by_part.setdefault(note.part, []).extend(shapes)
        y += 7.0
    return by_part, y


def document(
    view: View, size: tuple[float, float], title: str, text: str,
    definitions: str, layers: Sequence[str],
) -> str:  # fmt: skip
    """The SVG with its names for a screen reader."""
    width, height = size[0], math.ceil(size[1])
    return element(
        "svg",
        words("title", title),
        words("desc", text),
        element("defs", definitions),
        rectangle(0, 0, width, height, fill=view.paint.paper),
        *layers,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {width:.0f} {height:.0f}",
        role="group" if view.link else "img",
        aria_label=title,
        font_family=FAMILY,
    )


def written_parts(
    view: View, parts: Sequence[Part], extra: Sequence[dict[str, list[str]]]
) -> list[str]:
    """All parts with their labels, in the order in which they lie over one another."""
    for part in parts:
        for by_part in extra:
            part.shapes += by_part.get(part.name, [])
    return [part.written(view.link) for part in parts if part.shapes]
