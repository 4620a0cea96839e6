"""From a recipe (what a drawing shows and what is written by it) to the finished SVG."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from coldwright.build.result import Build
from coldwright.sheet.drawing.build_words import state_words
from coldwright.sheet.drawing.colours import Palette
from coldwright.sheet.drawing.describe import described
from coldwright.sheet.drawing.dimensions import (
    figure_length,
    free_level,
    level_dimension,
    scale_bar,
    temperature_scale,
    upright_dimension,
)
from coldwright.sheet.drawing.frame import Frame
from coldwright.sheet.drawing.geometry import Geometry, geometry_of
from coldwright.sheet.drawing.hatches import hatch_definitions
from coldwright.sheet.drawing.labels import Note, column_height
from coldwright.sheet.drawing.readings import Readings
from coldwright.sheet.drawing.shapes import Box
from coldwright.sheet.drawing.sheet import (
    BALLOON,
    COMPACT_WIDTH,
    MARGIN,
    WIDTH,
    Plan,
    balloons,
    document,
    listed,
    noted,
    written_parts,
)
from coldwright.sheet.drawing.svg import element, words
from coldwright.sheet.drawing.text_size import wrapped
from coldwright.sheet.drawing.view import Part, View
from coldwright.units import System

HIGHEST, COMPACT_HIGHEST = 640.0, 420.0  # of the drawing proper [px]
COLUMN = 168.0  # of labels, at least [px]
MOST_SPARE = 150.0  # width that columns may take beyond that [px]
CAPTION = 12.0


@dataclass(frozen=True)
class Measured:
    """A dimension: which rectangle's width (over it) and height (before it) are written [m]."""

    box: Box
    assumed_width: bool = False
    assumed_height: bool = False


@dataclass(frozen=True)
class Recipe:
    """One drawing: its name, what it holds [m], its parts, notes and dimensions.

    `measured`: innermost first; a compact drawing shows the first alone.
    """

    name: str
    title: str
    caption: str
    bounds: Callable[[Geometry], Box]
    measured: Callable[[View], list[Measured]]
    parts: Callable[[View, Plan], list[Part]]
    notes: Callable[[View, bool], list[Note]]
    over: Callable[[View], list[str]]  # arrows, over all parts
    hatches: Callable[[Geometry], set[str]]


def drawn(
    recipe: Recipe,
    build: Build,
    figures: Mapping[str, Any] | None,
    units: System,
    link: Callable[[str], str] | None,
    dark: bool,
    compact: bool,
) -> str:
    """The drawing of `recipe` for one build as an SVG document."""
    geometry = geometry_of(build)
    readings = Readings(build, figures, units)
    bounds = recipe.bounds(geometry)
    frame, plan = _laid_out(bounds, compact)
    # A page may hold several drawings, some of them hidden: no name within one is another's.
    prefix = f"{recipe.name}{'-compact' if compact else ''}{'-dark' if dark else ''}"
    view = View(build, geometry, frame, readings, Palette(dark), prefix, link)
    shift = _shift(view, recipe, plan, compact)
    view = replace(view, frame=replace(frame, top=frame.top + shift))
    plan = replace(plan, bottom=plan.bottom + 2.0 * shift)
    notes = recipe.notes(view, compact)
    found = (balloons if compact else noted)(view, notes, plan)
    below = max(view.frame.y(bounds.bottom) + 8.0, found.bottom) + 16.0
    extra = [found.by_part]
    foot, end = _foot(view, recipe.caption, plan, below)
    if compact:
        by_part, end = listed(view, notes, end + 12.0, plan.width)
        extra.append(by_part)
    parts = written_parts(view, recipe.parts(view, plan), extra)
    over = element("g", *recipe.over(view), pointer_events="none")
    dimensions = _dimensions(view, bounds, recipe.measured(view), found.crossings, compact)
    return document(
        view,
        (plan.width, end + MARGIN),
        f"{build.name}: {recipe.title}",
        described(geometry, readings),
        hatch_definitions(recipe.hatches(geometry), view.prefix, view.paint),
        [*parts, over, *found.leaders, *dimensions, *foot],
    )


def _laid_out(bounds: Box, compact: bool) -> tuple[Frame, Plan]:
    """The scale that fits, and the columns to both sides."""
    width = COMPACT_WIDTH if compact else WIDTH
    column = MARGIN + 2.0 * BALLOON if compact else COLUMN
    before, over, after = (28.0, 30.0, 12.0) if compact else (52.0, 56.0, 20.0)
    room = width - 2.0 * column - before - after
    high = COMPACT_HIGHEST if compact else HIGHEST
    frame = Frame.fitted(bounds, column + before, MARGIN + over, room, high)
    spare = room - frame.scale * bounds.width
    if compact:
        shift = 0.5 * spare
    else:
        taken = 0.46 * min(spare, MOST_SPARE)
        shift = taken + 0.5 * max(spare - MOST_SPARE, 0.0)
    frame = replace(frame, left=frame.left + shift)
    plan = Plan(
        width=width,
        left_column=column if compact else frame.x(bounds.left) - before,
        right_column=width - column if compact else frame.x(bounds.right) + after,
        top=MARGIN + 0.5 * over,
        bottom=frame.y(bounds.bottom) + 4.0,
    )
    return frame, plan


def _shift(view: View, recipe: Recipe, plan: Plan, compact: bool) -> float:
    """How far the drawing is moved down so that taller columns stand evenly about it [px]."""
    if compact:
        return 0.0
    notes = recipe.notes(view, compact)
    tallest = max(
        column_height([note for note in notes if note.side == "left"], plan.left_column - MARGIN),
        column_height(
            [note for note in notes if note.side == "right"],
            plan.width - MARGIN - plan.right_column,
        ),
    )
    return 0.5 * max(tallest - (plan.bottom - plan.top), 0.0)


def _dimensions(
    view: View,
    bounds: Box,
    measured: Sequence[Measured],
    crossings: Callable[[float], list[float]],
    compact: bool,
) -> list[str]:
    """Widths over the drawing and heights before it, the smaller nearer."""
    frame = view.frame
    crown, before = frame.y(bounds.top), frame.x(bounds.left)
    size = 13.0 if compact else 12.0
    shown = measured[:1] if compact else measured
    shapes = []
    for row, each in enumerate(sorted(shown, key=lambda each: each.box.width)):
        y = crown - 13.0 - 23.0 * row
        ends = (frame.x(each.box.left), frame.x(each.box.right))
        shapes += level_dimension(
            view, ends, y, each.box.width, crown - 4.0, assumed=each.assumed_width, size=size
        )
    for row, each in enumerate(sorted(shown, key=lambda each: each.box.height)):
        x = before - 9.0 - 23.0 * row
        ends = (frame.y(each.box.top), frame.y(each.box.bottom))
        high = each.box.height
        leaders = [y for at in (2, 8, 15) for y in crossings(x - at)]
        level = free_level(ends, figure_length(view, high, size), leaders)
        shapes += upright_dimension(
            view, ends, x, high, before + 2.0, assumed=each.assumed_height, level=level, size=size
        )
    return shapes


def _foot(view: View, caption: str, plan: Plan, top: float) -> tuple[list[str], float]:
    """Scale bar, temperature scale and what the drawing is; and where they end [px]."""
    left, right = MARGIN + 2.0, plan.width - MARGIN
    shapes, end = scale_bar(view, left, top + 8.0, 0.28 * plan.width)
    known = view.readings.cabinet("air_C") is not None
    if known:
        start = max(end + 24.0, right - 224.0)
        shapes += temperature_scale(view, start, top, right - 4.0 - start)
    y = top + (42.0 if known else 28.0)
    name = state_words(view.readings)
    for each in wrapped(name, CAPTION + 1.0, right - left, bold=True):
        shapes.append(
            words("text", each, x=left, y=y, font_size=CAPTION + 1.0, font_weight=600,
                  fill=view.paint.ink)
        )  # fmt: skip
        y += 16.0
    for each in wrapped(caption, CAPTION, right - left):
        shapes.append(words("text", each, x=left, y=y, font_size=CAPTION, fill=view.paint.soft))
        y += 15.0
    return shapes, y - 8.0
