"""The cold side from above: drum with its fins and coil, flat vessel, plate, or tube."""

from __future__ import annotations

import math

from coldwright.sheet.drawing.cold_geometry import PlateSize, TubeSize, VesselSize
from coldwright.sheet.drawing.geometry import Geometry
from coldwright.sheet.drawing.shapes import Box
from coldwright.sheet.drawing.svg import Point, circle, line, rectangle
from coldwright.sheet.drawing.view import DASH, View


def place_of(geometry: Geometry) -> Box:
    """What the cold side takes of the plan [m], fins included, in the middle of the width."""
    size, deep = geometry.cold.size, geometry.inside.width
    out = size.fin_projection if isinstance(size, VesselSize) else 0.0
    wide = size.across + 2.0 * out
    body = size.body
    return Box(0.5 * (geometry.width - wide), deep - body.right - out, wide, body.width + 2.0 * out)


def fin_gap(geometry: Geometry) -> tuple[int, float] | None:
    """Number of fins, and the clear gap [m] half-way out (between flat ones: all along)."""
    size = geometry.cold.size
    if not isinstance(size, VesselSize) or size.fins == 0:
        return None
    if size.round:
        girth = math.pi * (size.body.width + size.fin_projection)
    else:
        girth = 2.0 * (size.across + size.body.width)
    return size.fins, max(girth / size.fins - size.fin_thickness, 0.0)


def cold_plan(view: View) -> list[str]:
    """The cold side of whichever kind."""
    size = view.geometry.cold.size
    if isinstance(size, VesselSize):
        return _drum(view, size) if size.round else _flat(view, size)
    if isinstance(size, PlateSize):
        return _plate(view, size)
    return _tube(view, size)


def _metal(view: View) -> str:
    return view.temperature(view.readings.cabinet("cold_surface_C"), view.paint.faint)


def _brine(view: View) -> str:
    return view.temperature(view.readings.machine("brine_C"), view.paint.faint)


def _drum(view: View, size: VesselSize) -> list[str]:
    """Wall, brine, coil as a ring of tube, and every fin where it stands."""
    frame = view.frame
    centre = place_of(view.geometry).middle
    at = frame.at(centre)
    half = 0.5 * size.body.width
    thick = frame.length(size.fin_thickness, 1.0)
    shapes = []
    for number in range(size.fins):
        angle = 2.0 * math.pi * number / size.fins
        way = (math.cos(angle), math.sin(angle))
        root, tip = (
            frame.at((centre[0] + way[0] * reach, centre[1] + way[1] * reach))
            for reach in (half, half + size.fin_projection)
        )
        shapes.append(line(root, tip, data_size="fin", **view.copper(thick)))
    known = None if size.shape_known else DASH
    shapes += [
        circle(at, frame.length(half), fill=_metal(view), stroke_dasharray=known,
               data_size="vessel", **view.outline(1.1)),
        circle(at, frame.length(half - size.wall), fill=_brine(view), stroke=view.paint.copper,
               stroke_width=0.8),
    ]  # fmt: skip
    coil = frame.length(0.5 * size.coil_diameter)
    tube = frame.length(size.tube, 2.4)
    if size.frozen > 0.0:
        around = 0.5 * size.tube + size.frozen
        clear = min(0.5 * size.coil_diameter + around, half - size.wall)
        within = max(0.5 * size.coil_diameter - around, 0.0)
        shapes.append(circle(at, frame.length(clear), fill=view.paint.paper, data_size="ice",
                             stroke=view.paint.soft, stroke_width=0.8))  # fmt: skip
        shapes.append(circle(at, frame.length(within), fill=_brine(view)))
    shapes.append(circle(at, coil, fill="none", **view.copper(tube)))
    if size.well > 0.0:
        shapes.append(_well(view, frame.at((centre[0], centre[1] - 0.24 * size.body.width))))
    return shapes


def _flat(view: View, size: VesselSize) -> list[str]:
    """A box with fins square to its sides, its run of tube in the middle."""
    frame = view.frame
    place = place_of(view.geometry)
    out = size.fin_projection
    body = Box(place.left + out, place.top + out, size.across, size.body.width)
    shapes = _flat_fins(view, size, body)
    inner = body.grown(-size.wall)
    shapes += [
        rectangle(*frame.box(body), fill=_metal(view), data_size="vessel", **view.outline(1.1)),
        rectangle(*frame.box(inner), fill=_brine(view), stroke=view.paint.copper,
                  stroke_width=0.8),
    ]  # fmt: skip
    x, y = body.middle
    if size.coil_diameter > 0.0:
        coil = frame.length(0.5 * size.coil_diameter)
        shapes.append(circle(frame.at((x, y)), coil, fill="none",
                             **view.copper(frame.length(size.tube, 2.4))))  # fmt: skip
    else:
        ends = [frame.at((x + sign * 0.425 * size.across, y)) for sign in (-1, 1)]
        if size.frozen > 0.0:
            around = 0.5 * size.tube + size.frozen
            high, wide = min(2.0 * around, inner.height), min(0.85 * size.across + 2.0 * around,
                                                             inner.width)  # fmt: skip
            ice = Box(x - 0.5 * wide, y - 0.5 * high, wide, high)
            shapes.append(rectangle(*frame.box(ice), rx=frame.length(0.4 * high),
                                    fill=view.paint.paper, stroke=view.paint.soft,
                                    stroke_width=0.8, data_size="ice"))  # fmt: skip
        shapes.append(line(ends[0], ends[1], stroke_linecap="round",
                           **view.copper(frame.length(size.tube, 2.4))))  # fmt: skip
    if size.well > 0.0:
        shapes.append(_well(view, frame.at((x + 0.3 * size.across, y - 0.25 * size.body.width))))
    return shapes


def _flat_fins(view: View, size: VesselSize, body: Box) -> list[str]:
    """Fins evenly along the girth, each square to its side."""
    if size.fins == 0:
        return []
    thick = view.frame.length(size.fin_thickness, 1.0)
    girth = 2.0 * (body.width + body.height)
    ends = []
    for number in range(size.fins):
        along = girth * (number + 0.5) / size.fins
        ends.append(_on_girth(body, along, size.fin_projection))
    return [
        line(*view.frame.many([root, tip]), data_size="fin", **view.copper(thick))
        for root, tip in ends
    ]


def _on_girth(body: Box, along: float, out: float) -> tuple[Point, Point]:
    """Root and tip of a fin `along` the outline from its upper left corner."""
    if along <= body.width:
        return (body.left + along, body.top), (body.left + along, body.top - out)
    along -= body.width
    if along <= body.height:
        return (body.right, body.top + along), (body.right + out, body.top + along)
    along -= body.height
    if along <= body.width:
        return (body.right - along, body.bottom), (body.right - along, body.bottom + out)
    along -= body.width
    return (body.left, body.bottom - along), (body.left - out, body.bottom - along)


def _well(view: View, at: Point) -> str:
    return circle(at, view.frame.length(0.006, 3.0), fill=view.paint.paper, **view.outline(1.0))


def _plate(view: View, size: PlateSize) -> list[str]:
    """The plate on edge with a run of tube on the side of the wall."""
    frame = view.frame
    left, top, width, height = frame.box(place_of(view.geometry))
    thick = max(height, 2.4)
    tube = frame.length(size.tube, 2.4)
    behind = size.gap > size.tube
    y = top - 0.5 * tube if behind else top + thick + 0.5 * tube
    run = frame.length(size.runs.straight + size.runs.pitch)
    start = left + 0.5 * (width - run)
    return [
        rectangle(left, top, width, thick, fill=_metal(view), data_size="plate",
                  stroke=view.paint.copper, stroke_width=0.9),
        line((start, y), (start + run, y), stroke_linecap="round", **view.copper(tube)),
    ]  # fmt: skip


def _tube(view: View, size: TubeSize) -> list[str]:
    """Runs across the back, or a loop round the inside."""
    frame, geometry = view.frame, view.geometry
    tube = frame.length(size.tube, 2.2)
    deep = geometry.inside.width
    if size.loops:
        off = size.places[0][0]
        loop = Box(off, off, geometry.width - 2.0 * off, deep - 2.0 * off)
        return [rectangle(*frame.box(loop), rx=8, fill="none", **view.copper(tube))]
    left = 0.5 * (geometry.width - size.across)
    depths = sorted({round(x, 6) for x, _ in size.places})
    return [
        line(frame.at((left, deep - x)), frame.at((left + size.across, deep - x)),
             stroke_linecap="round", **view.copper(tube))
        for x in depths
    ]  # fmt: skip
