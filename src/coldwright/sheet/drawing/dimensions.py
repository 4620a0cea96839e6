"""Dimension lines, the scale bar and the temperature scale."""

from __future__ import annotations

from coldwright.sheet.drawing.colours import COLDEST_C, STEP_C, WARMEST_C
from coldwright.sheet.drawing.svg import Point, element, line, rectangle, words
from coldwright.sheet.drawing.text_size import text_width
from coldwright.sheet.drawing.view import DASH, View

SIZE = 12.0
TICK = 4.0
# Lengths of a scale bar [m], by system.
_BARS = {
    "si": (0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0),
    "shop": tuple(0.0254 * inches for inches in (0.5, 1, 2, 4, 6, 12, 24, 48, 72)),
}
_SI_NAMES = ("10 mm", "20 mm", "50 mm", "100 mm", "200 mm", "500 mm", "1 m", "2 m")
_SHOP_NAMES = ("1/2 in", "1 in", "2 in", "4 in", "6 in", "1 ft", "2 ft", "4 ft", "6 ft")


def level_dimension(
    view: View, ends: tuple[float, float], y: float, metres: float, reach: float, *,
    assumed: bool = False, size: float = SIZE,
) -> list[str]:  # fmt: skip
    """A dimension across at height `y` [px] between two x, with lines down to `reach` [px]."""
    start, end = ends
    middle = 0.5 * (start + end)
    shapes = [line((x, y - TICK), (x, reach), **_thin(view, 0.6)) for x in ends]
    shapes.append(line((start, y), (end, y), **_thin(view, 0.9, assumed)))
    shapes += [_tick((x, y), view) for x in ends]
    shapes.append(_figure(view, view.readings.length(metres), (middle, y - 4.0), assumed, size))
    return shapes


def upright_dimension(
    view: View, ends: tuple[float, float], x: float, metres: float, reach: float, *,
    assumed: bool = False, level: float | None = None, size: float = SIZE,
) -> list[str]:  # fmt: skip
    """A dimension down at `x` [px] between two y; its figure at `level` or in the middle."""
    start, end = ends
    middle = 0.5 * (start + end) if level is None else level
    shapes = [line((x - TICK, y), (reach, y), **_thin(view, 0.6)) for y in ends]
    shapes.append(line((x, start), (x, end), **_thin(view, 0.9, assumed)))
    shapes += [_tick((x, y), view) for y in ends]
    place = (x - 4.0, middle)
    turn = f"rotate(-90 {place[0]:.2f} {place[1]:.2f})"
    text = view.readings.length(metres)
    shapes.append(_figure(view, text, place, assumed, size, transform=turn))
    return shapes


def figure_length(view: View, metres: float, size: float = SIZE) -> float:
    """How long a dimension's figure is along its line [px]."""
    return text_width(view.readings.length(metres), size)


def free_level(ends: tuple[float, float], needed: float, crossings: list[float]) -> float:
    """The place nearest to the middle of `ends` where `needed` px hold no crossing leader."""
    start, end = ends
    middle = 0.5 * (start + end)
    half = 0.5 * needed + 4.0
    tries = [middle + sign * step * 3.0 for step in range(200) for sign in (1, -1)]
    for level in tries:
        inside = start + half <= level <= end - half
        if inside and all(abs(level - each) > half for each in crossings):
            return level
    return middle


def _tick(at: Point, view: View) -> str:
    x, y = at
    return line((x - TICK, y + TICK), (x + TICK, y - TICK), **view.outline(1.0))


def _thin(view: View, width: float, assumed: bool = False) -> dict[str, str | float | int | None]:
    return {
        "stroke": view.paint.rule,
        "stroke_width": width,
        "stroke_dasharray": DASH if assumed else None,
    }


def _figure(
    view: View, text: str, at: Point, assumed: bool, size: float, transform: str | None = None
) -> str:
    return words(
        "text",
        text,
        x=at[0],
        y=at[1],
        font_size=size,
        text_anchor="middle",
        fill=view.paint.soft,
        font_style="italic" if assumed else None,
        stroke=view.paint.paper,
        stroke_width=3.5,
        stroke_linejoin="round",
        paint_order="stroke",
        transform=transform,
    )


def scale_bar(view: View, left: float, y: float, longest: float) -> tuple[list[str], float]:
    """A bar of a round length at most `longest` [px], its name beside it; and where that ends."""
    system = view.readings.units
    bars = _BARS[system]
    fitting = [at for at, metres in enumerate(bars) if view.frame.length(metres) <= longest]
    at = fitting[-1] if fitting else 0
    wide = view.frame.length(bars[at])
    name = (_SHOP_NAMES if system == "shop" else _SI_NAMES)[at]
    half = 0.5 * wide
    shapes = [
        rectangle(left, y - 5.0, half, 5.0, fill=view.paint.ink, **view.outline(0.8)),
        rectangle(left + half, y - 5.0, half, 5.0, fill=view.paint.paper, **view.outline(0.8)),
        words("text", name, x=left + wide + 7.0, y=y, font_size=SIZE, fill=view.paint.ink),
    ]
    return shapes, left + wide + 7.0 + text_width(name, SIZE)


def temperature_scale(view: View, left: float, y: float, width: float) -> list[str]:
    """The colours of temperature with their figures below: cold at the left."""
    steps = round((WARMEST_C - COLDEST_C) / STEP_C)
    each = width / (steps + 1)
    shapes = [
        rectangle(left + at * each, y, each + 0.4, 8.0,
                  fill=view.paint.temperature(COLDEST_C + at * STEP_C),
                  shape_rendering="crispEdges")
        for at in range(steps + 1)
    ]  # fmt: skip
    shapes.append(rectangle(left, y, width, 8.0, fill="none", **view.outline(0.7)))
    shop = view.readings.units == "shop"
    marks = (0, 32, 70, 105) if shop else (-20, 0, 20, 40)
    for mark in marks:
        celsius = (mark - 32.0) / 1.8 if shop else float(mark)
        x = left + (celsius - COLDEST_C) / STEP_C * each + 0.5 * each
        unit = "\u00a0°F" if shop else "\u00a0°C"
        text = f"{mark}".replace("-", "\u2212") + (unit if mark == marks[-1] else "")
        shapes.append(line((x, y + 8.0), (x, y + 11.0), **view.outline(0.7)))
        shapes.append(
            words("text", text, x=x, y=y + 22.0, font_size=11.0, text_anchor="middle",
                  fill=view.paint.soft)
        )  # fmt: skip
    return [element("g", *shapes, data_scale="temperature")]
