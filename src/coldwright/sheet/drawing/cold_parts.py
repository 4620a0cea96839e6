"""The cold side in section: vessel with brine and coil, plate with its runs, or bare tube."""

from __future__ import annotations

import math

from coldwright.sheet.drawing.cold_geometry import PlateSize, TubeSize, VesselSize
from coldwright.sheet.drawing.shapes import Box
from coldwright.sheet.drawing.svg import Point, Value, circle, line, path, rectangle
from coldwright.sheet.drawing.view import DASH, View


def cold_shapes(view: View) -> list[str]:
    """The cold side of whichever kind, with its tray and the thermostat's bulb."""
    cold = view.geometry.cold
    shapes = []
    if cold.tray is not None:
        left, top, width, height = view.frame.box(cold.tray)
        corners = [(left, top), (left + 2, top + height), (left + width - 2, top + height),
                   (left + width, top)]  # fmt: skip
        shapes.append(path(corners, stroke_dasharray=DASH, **view.outline(1.3)))
    if isinstance(cold.size, VesselSize):
        shapes += _vessel(view, cold.size)
    elif isinstance(cold.size, PlateSize):
        shapes += _plate(view, cold.size)
    else:
        shapes += _tubes(view, cold.size)
    return [*shapes, *_bulb(view)]


def _surface(view: View) -> str:
    """Paint of the cold surface, copper where nothing is worked out."""
    return view.temperature(view.readings.cabinet("cold_surface_C"), view.paint.faint)


def _vessel(view: View, size: VesselSize) -> list[str]:
    frame = view.frame
    left, top, width, height = frame.box(size.body)
    wall = frame.length(size.wall, 1.0)
    shapes = _fins(view, size)
    known = None if size.shape_known else DASH
    shapes.append(
        rectangle(left, top, width, height, rx=1.5, fill=_surface(view), stroke_dasharray=known,
                  data_size="vessel", **view.outline(1.1))
    )  # fmt: skip
    inner = Box(
        size.body.left + size.wall,
        size.body.top + size.wall,
        size.body.width - 2.0 * size.wall,
        size.body.height - 2.0 * size.wall,
    )
    shapes.append(
        rectangle(left + wall, top + wall, width - 2 * wall, height - 2 * wall,
                  fill=view.paint.paper, stroke=view.paint.copper, stroke_width=0.8)
    )  # fmt: skip
    surface = inner.bottom - min(size.level, inner.height)
    level = frame.y(surface)
    brine = view.readings.machine("brine_C")
    shapes.append(
        rectangle(left + wall, level, width - 2 * wall, top + height - wall - level,
                  fill=view.temperature(brine, view.paint.faint))
    )  # fmt: skip
    shapes.append(line((left + wall, level), (left + width - wall, level), **view.outline(0.9)))
    shapes += _level_mark((left + 0.3 * width, level), view)
    shapes += _filler(view, size, inner)
    shapes += _coil(view, size, inner)
    return shapes + _well(view, size)


def _level_mark(at: Point, view: View) -> list[str]:
    """The draughtsman's sign of a liquid's level: a triangle that stands on it."""
    x, y = at
    points = [(x - 3.5, y - 6), (x + 3.5, y - 6), (x, y), (x - 3.5, y - 6)]
    return [path(points, **view.outline(0.8))]


def _fins(view: View, size: VesselSize) -> list[str]:
    """Fins that the section cuts, and behind them the edges of all that show past the vessel."""
    if size.fins == 0:
        return []
    frame, body = view.frame, size.body
    middle = body.left + 0.5 * body.width
    top = body.top + 0.5 * (body.height - size.fin_length)
    half = 0.5 * size.body.width
    edges = [each for each in fin_tips(size) if abs(each) > half] if size.round else []
    thick = frame.length(size.fin_thickness, 0.8)
    y1, y2 = frame.y(top), frame.y(top + size.fin_length)
    shapes = [
        rectangle(*frame.box(Box(left, top, size.fin_projection, size.fin_length)),
                  fill=_surface(view), stroke=view.paint.copper, stroke_width=1.0, data_size="fin")
        for left in (body.left - size.fin_projection, body.right)
    ]  # fmt: skip
    for edge in edges:
        x = frame.x(middle + edge)
        shapes.append(line((x, y1), (x, y2), **view.copper(min(thick, 1.6))))
    return shapes


def fin_tips(size: VesselSize) -> list[float]:
    """Tips of the fins on one half of a vessel, seen square, from its middle [m].

    Round: evenly about it. Flat: on its broad side, by its share of the girth.
    """
    if size.round:
        reach = 0.5 * size.body.width + size.fin_projection
        angles = [2.0 * math.pi * at / size.fins for at in range(size.fins // 2 + 1)]
        return [reach * math.cos(angle) for angle in angles]
    share = 0.5 * size.across / (size.across + size.body.width)
    count = max(round(size.fins * share), 1)
    return [size.across * ((at + 0.5) / count - 0.5) for at in range(count)]


def _filler(view: View, size: VesselSize, inner: Box) -> list[str]:
    """The body that displaces brine: a plug of its volume in the middle of the coil."""
    if size.filler <= 0.0:
        return []
    across = size.across - 2.0 * size.wall
    area = math.pi / 4.0 * across**2 if size.round else across * inner.width
    share = min(size.filler / max(area * size.level, 1e-9), 0.8)
    wide = inner.width * (math.sqrt(share) if size.round else share)
    high = 0.86 * size.level
    left = inner.left + 0.5 * (inner.width - wide)
    box = Box(left, inner.bottom - 0.93 * size.level, wide, high)
    return [
        rectangle(*view.frame.box(box), rx=3, fill=view.paint.faint, stroke_dasharray=DASH,
                  **view.outline(0.9))
    ]  # fmt: skip


def _coil(view: View, size: VesselSize, inner: Box) -> list[str]:
    """Cut turns on both sides with the far half of each between them; runs as one stack."""
    frame = view.frame
    middle = inner.left + 0.5 * inner.width
    radius = frame.length(0.5 * size.tube, 1.3)
    half = 0.5 * size.coil_diameter
    turns, front = [], []
    step = 0.5 * (size.coil[1] - size.coil[0]) if len(size.coil) > 1 else 0.0
    sides = (-half, half) if half > 0.0 else (0.0,)
    for each in size.coil:
        y = inner.bottom - each
        if half > 0.0:
            start = frame.at((middle - half, y + 0.5 * step))
            end = frame.at((middle + half, y - 0.5 * step))
            turns.append(line(start, end, opacity=0.55, **view.copper(max(1.1 * radius, 1.0))))
        for at in sides:
            shift = 0.5 * step if at < 0.0 else -0.5 * step if at > 0.0 else 0.0
            centre = frame.at((middle + at, y + shift))
            front.append(
                circle(centre, radius, fill=view.paint.paper, data_size="turn",
                       **view.copper(max(0.55 * radius, 0.9)))
            )  # fmt: skip
    ice = [shape for at in sides for shape in _ice(view, size, inner, middle + at)]
    return [*ice, *turns, *front]


def _ice(view: View, size: VesselSize, inner: Box, x: float) -> list[str]:
    """What is frozen round a stack of runs: a ring each, or one sheet where the rings meet."""
    if size.frozen <= 0.0:
        return []
    frame = view.frame
    around = 0.5 * size.tube + size.frozen
    style: dict[str, Value] = {
        "fill": view.paint.paper, "stroke": view.paint.soft, "stroke_width": 0.8,
        "data_size": "ice",
    }  # fmt: skip
    pitch = size.coil[1] - size.coil[0] if len(size.coil) > 1 else 0.0
    if len(size.coil) > 1 and 2.0 * around >= pitch:
        top = max(inner.bottom - size.coil[-1] - around, inner.top)
        foot = min(inner.bottom - size.coil[0] + around, inner.bottom)
        sheet = Box(x - around, top, 2.0 * around, foot - top)
        return [rectangle(*frame.box(sheet), rx=frame.length(0.8 * around), **style)]
    return [
        circle(frame.at((x, inner.bottom - each)), frame.length(around), **style)
        for each in size.coil
    ]


def _well(view: View, size: VesselSize) -> list[str]:
    """The thermometer's well, from the lid down."""
    if size.well <= 0.0:
        return []
    frame, body = view.frame, size.body
    x = frame.x(body.left + 0.62 * body.width)
    top, foot = frame.y(body.top), frame.y(body.top + size.well)
    wide = frame.length(0.012, 3.0)
    corners = [(x - 0.5 * wide, top), (x - 0.5 * wide, foot), (x + 0.5 * wide, foot),
               (x + 0.5 * wide, top)]  # fmt: skip
    return [path(corners, fill=view.paint.paper, **view.outline(0.9))]


def _plate(view: View, size: PlateSize) -> list[str]:
    """The plate on edge, its tube on the side of the wall where there is room."""
    frame = view.frame
    left, top, width, height = frame.box(size.body)
    wide = max(width, 2.4)
    behind = size.gap > size.tube
    radius = frame.length(0.5 * size.tube, 1.5)
    x = left + wide + radius if behind else left - radius
    first = size.body.top + 0.5 * (size.body.height - size.runs.height)
    shapes = [
        rectangle(left, top, wide, height, fill=_surface(view), data_size="plate",
                  stroke=view.paint.copper, stroke_width=0.9)
    ]  # fmt: skip
    shapes += [
        circle((x, frame.y(first + at * size.runs.pitch)), radius, fill=view.paint.paper,
               data_size="run", **view.copper(1.3))
        for at in range(size.runs.count)
    ]  # fmt: skip
    return shapes


def _tubes(view: View, size: TubeSize) -> list[str]:
    """Each run where the section cuts it; far lengths of loops between."""
    frame = view.frame
    radius = frame.length(0.5 * size.tube, 1.8)
    shapes = []
    if size.loops:
        for (left, y), (right, _) in zip(size.places[::2], size.places[1::2], strict=True):
            shapes.append(
                line(frame.at((left, y)), frame.at((right, y)), opacity=0.45,
                     **view.copper(max(1.4 * radius, 1.2)))
            )  # fmt: skip
    shapes += [
        circle(frame.at(place), radius, fill=_surface(view), data_size="run", **view.copper(1.3))
        for place in size.places
    ]
    return shapes


def bulb_place(view: View) -> Point:
    """Where the thermostat's bulb sits [m]."""
    geometry = view.geometry
    body, inside = geometry.cold.body, geometry.inside
    bulb = view.build.thermostat.bulb
    size = geometry.cold.size
    if bulb == "vessel well" and isinstance(size, VesselSize):
        deep = size.well if size.well > 0.0 else 0.5 * body.height
        return (body.left + 0.62 * body.width, body.top + max(deep - 0.045, 0.02))
    if bulb == "plate" and not geometry.cold.at_walls:
        return (body.left - 0.008, body.top + 0.72 * body.height)
    if bulb == "return line":
        return (inside.right - 0.012, max(body.top - 0.006, 0.012))
    return (0.9 * inside.width if geometry.cold.at_walls else geometry.shelves.right,
            0.5 * (geometry.shelves.levels[0] + geometry.shelves.first))  # fmt: skip


def _bulb(view: View) -> list[str]:
    """The bulb: a dark capsule."""
    x, y = view.frame.at(bulb_place(view))
    high = view.frame.length(0.07, 9.0)
    return [rectangle(x - 1.8, y - 0.5 * high, 3.6, high, rx=1.8, fill=view.paint.ink)]
