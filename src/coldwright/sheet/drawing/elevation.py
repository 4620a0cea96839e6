"""What the front and the back show alike: places across the cabinet [m] and plain outlines.

Across, 0 is the inside of the wall at the left; heights are those of the section.
"""

from __future__ import annotations

import math
from itertools import pairwise

from coldwright.sheet.drawing.cold_geometry import PlateSize, TubeSize, VesselSize
from coldwright.sheet.drawing.cold_parts import fin_tips
from coldwright.sheet.drawing.geometry import Geometry
from coldwright.sheet.drawing.shapes import Box, Runs
from coldwright.sheet.drawing.svg import Point, Value, distance, line, path, rectangle, towards
from coldwright.sheet.drawing.view import DASH, View

BEND_STEPS = 6  # straight pieces of a drawn half-round


def outside_box(geometry: Geometry) -> Box:
    """The cabinet's outside as front and back see it."""
    outer = geometry.outside
    return Box(-geometry.thickness("left"), outer.top, geometry.outside_width, outer.height)


def inside_box(geometry: Geometry) -> Box:
    """The inside."""
    return Box(0.0, 0.0, geometry.width, geometry.inside.height)


def sheet_box(geometry: Geometry) -> Box:
    """The condenser's sheet, in the middle of the back."""
    sheet, wide = geometry.condenser.sheet, geometry.condenser.width
    return Box(0.5 * (geometry.width - wide), sheet.top, wide, sheet.height)


def shell_box(geometry: Geometry) -> Box:
    """The compressor, a little to the right of the middle."""
    shell = geometry.compressor.shell
    left = 0.5 * geometry.width + 0.08 * geometry.width
    return Box(left, shell.top, shell.width, shell.height)


def elevation_bounds(geometry: Geometry) -> Box:
    """All that front and back show."""
    whole = outside_box(geometry).around(sheet_box(geometry)).around(shell_box(geometry))
    condenser = geometry.condenser
    top = min(condenser.sheet.top - condenser.chimney, condenser.first_run - 0.01)
    low = Box(0.0, top, 0.01, max(geometry.floor, condenser.run_levels[-1] + 0.01) - top)
    return whole.around(low).around(cold_box(geometry))


def cold_box(geometry: Geometry) -> Box:
    """The cold side across the cabinet, in its middle; fins to both sides are within."""
    size = geometry.cold.size
    out = size.fin_projection if isinstance(size, VesselSize) else 0.0
    wide = size.across + 2.0 * out
    return Box(0.5 * (geometry.width - wide), size.body.top, wide, size.body.height)


def serpentine(runs: Runs, left: float, first: float, *, from_right: bool = True) -> list[Point]:
    """Tube to and fro with half-round bends as a line [m], from its upper end."""
    radius = 0.5 * runs.pitch
    ends = (left, left + runs.straight)
    points: list[Point] = []
    at_right = from_right
    for at in range(runs.count):
        y = first + at * runs.pitch
        start, end = (ends[1], ends[0]) if at_right else (ends[0], ends[1])
        points += [(start, y), (end, y)]
        if at < runs.count - 1:
            side = -1.0 if at_right else 1.0
            points += [
                (
                    end + side * radius * math.sin(math.pi * step / BEND_STEPS),
                    y + radius * (1.0 - math.cos(math.pi * step / BEND_STEPS)),
                )
                for step in range(1, BEND_STEPS)
            ]
        at_right = not at_right
    return points


def cut(points: list[Point], length: float) -> tuple[list[Point], list[Point]]:
    """A way in two at `length` along it."""
    rest = length
    for at, (start, end) in enumerate(pairwise(points)):
        piece = distance(start, end)
        if piece > rest:
            middle = towards(start, end, rest)
            return [*points[: at + 1], middle], [middle, *points[at + 1 :]]
        rest -= piece
    return points, points[-1:]


def way_length(points: list[Point]) -> float:
    """Length of a way."""
    return sum(distance(a, b) for a, b in pairwise(points))


def floor_shapes(view: View, bounds: Box) -> list[str]:
    """The floor of the room under the whole drawing."""
    frame = view.frame
    y = frame.y(view.geometry.floor)
    left, right = frame.x(bounds.left) - 8.0, frame.x(bounds.right) + 8.0
    count = int((right - left - 6.0) / 9.0)
    marks = [
        line((left + 6.0 + 9.0 * at, y), (left + 1.0 + 9.0 * at, y + 5.0), **view.outline(0.6))
        for at in range(count + 1)
    ]
    return [line((left, y), (right, y), **view.outline(1.4)), *marks]


def stand(view: View) -> list[str]:
    """Feet or legs at both ends."""
    geometry, outer = view.geometry, outside_box(view.geometry)
    wide = min(0.035, 0.1 * outer.width)
    return [
        rectangle(*view.frame.box(Box(left, outer.bottom, wide, geometry.floor - outer.bottom)),
                  fill=view.paint.faint, stroke_dasharray=DASH, **view.outline(0.9))
        for left in (outer.left + 0.02, outer.right - 0.02 - wide)
    ]  # fmt: skip


def hidden_cold_side(view: View) -> list[str]:
    """The cold side behind the door, in hidden lines."""
    size, frame = view.geometry.cold.size, view.frame
    box = cold_box(view.geometry)
    hidden: dict[str, Value] = {"fill": "none", "stroke_dasharray": "6 3", **view.outline(1.0)}
    if isinstance(size, VesselSize):
        body = Box(box.left + size.fin_projection, box.top, size.across, box.height)
        shapes = [rectangle(*frame.box(body), rx=2, data_size="vessel", **hidden)]
        level = frame.y(body.bottom - size.wall - min(size.level, body.height - 2.0 * size.wall))
        ends = (frame.x(body.left), frame.x(body.right))
        shapes.append(line((ends[0], level), (ends[1], level), **hidden))
        if size.fins:
            top = body.top + 0.5 * (body.height - size.fin_length)
            for left in (body.left - size.fin_projection, body.right):
                fin = Box(left, top, size.fin_projection, size.fin_length)
                shapes.append(rectangle(*frame.box(fin), **hidden))
            middle = body.left + 0.5 * body.width
            y1, y2 = frame.y(top), frame.y(top + size.fin_length)
            shapes += [
                line((frame.x(middle + tip), y1), (frame.x(middle + tip), y2), data_size="fin",
                     stroke_dasharray="4 3", **view.outline(0.6))
                for tip in fin_tips(size)
            ]  # fmt: skip
        return shapes
    if isinstance(size, PlateSize):
        first = size.body.top + 0.5 * (size.body.height - size.runs.height)
        left = 0.5 * (view.geometry.width - size.runs.straight)
        way = frame.many(serpentine(size.runs, left, first))
        return [
            rectangle(*frame.box(box), data_size="plate", **hidden),
            path(way, stroke_dasharray="4 3", **view.copper(1.4)),
        ]
    return _hidden_tube(view, size)


def _hidden_tube(view: View, size: TubeSize) -> list[str]:
    """Each run as a hidden line."""
    frame = view.frame
    left = 0.5 * (view.geometry.width - size.across)
    ends = (frame.x(left), frame.x(left + size.across))
    levels = sorted({round(y, 6) for _, y in size.places})
    return [
        line((ends[0], frame.y(y)), (ends[1], frame.y(y)), stroke_dasharray="6 3",
             **view.copper(1.5))
        for y in levels
    ]  # fmt: skip
