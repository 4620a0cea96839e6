"""The tubes between the parts in section: discharge, liquid and drier, capillary, return line.

Their ways are the usual ones and not to length; the joined share of the return line is true.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from coldwright.sheet.drawing.cold_geometry import PlateSize
from coldwright.sheet.drawing.hot_parts import tube_place
from coldwright.sheet.drawing.svg import (
    Point,
    circle,
    distance,
    line,
    rectangle,
    rounded_path,
    towards,
)
from coldwright.sheet.drawing.view import View

BEND = 9.0  # px
DRIER_LENGTH = 0.10


@dataclass(frozen=True)
class Ways:
    """The ways of the lines [px], each from where the refrigerant comes."""

    suction: list[Point]
    lane: tuple[Point, Point]  # upright piece of the return line, upper end first
    capillary: list[Point]
    discharge: list[Point]
    drier: tuple[Point, Point]  # inlet, outlet
    liquid: list[Point]


def ways_of(view: View) -> Ways:
    """Where the lines run: down the back between cabinet and condenser, the usual way."""
    geometry, frame = view.geometry, view.frame
    condenser, outer = geometry.condenser, geometry.outside
    gap = frame.x(condenser.sheet.left) - frame.x(outer.right)
    back = frame.x(outer.right)
    suction_x, capillary_x = back + 0.34 * gap, back + 0.68 * gap
    (exit_x, exit_y), (inlet_x, inlet_y) = _cold_ends(view)
    shell = frame.box(geometry.compressor.shell)
    low = _low_level(view)
    into = _compressor_inlet(view, suction_x)
    suction = [(exit_x, exit_y), (suction_x, exit_y), *into]
    tube = tube_place(view)
    last = frame.y(condenser.run_levels[-1])
    first = frame.y(condenser.run_levels[0])
    drier_x = tube + frame.length(0.03, 11.0)
    drier_top = min(last + 2.0, low - frame.length(DRIER_LENGTH, 22.0) - 6.0)
    drier = ((drier_x, drier_top), (drier_x, drier_top + frame.length(DRIER_LENGTH, 22.0)))
    capillary = [
        drier[1],
        (drier_x, low),
        (capillary_x, low),
        (capillary_x, inlet_y),
        (inlet_x, inlet_y),
    ]
    outside_x = drier_x + frame.length(0.03, 11.0)
    left, top, width, height = shell
    if geometry.compressor.place == "beyond":
        outside_x = left + 0.3 * width
        start = [(outside_x, top + 2.0)]
    elif geometry.compressor.place == "behind" and left + 0.8 * width > outside_x:
        start = [(left + 0.8 * width, top + 2.0), (left + 0.8 * width, top - 6.0)]
        start.append((outside_x, top - 6.0))
    else:
        start = [(left + width, top + 0.35 * height), (outside_x, top + 0.35 * height)]
    discharge = [*start, (outside_x, first), (tube, first)]
    liquid = [(tube, last), (drier_x, last), drier[0]] if drier_top >= last else [
        (tube, last), (drier_x, min(last, drier_top)), drier[0]]  # fmt: skip
    lane = ((suction_x, exit_y), (suction_x, into[0][1]))
    return Ways(suction, lane, capillary, discharge, drier, liquid)


def _cold_ends(view: View) -> tuple[Point, Point]:
    """Where the return line leaves the cold side, and where the capillary comes to it [px]."""
    geometry, frame = view.geometry, view.frame
    cold, inside = geometry.cold, geometry.inside
    body = cold.body
    apart = frame.length(0.016, 5.0)
    if cold.at_walls:
        x, y = body.right - 0.01, body.top
        level = frame.y(max(y, 0.0)) + 1.0
        return (frame.x(x), level), (frame.x(x), level + apart)
    if isinstance(cold.size, PlateSize):
        x = body.right + 0.5 * cold.size.tube if cold.size.gap > cold.size.tube else body.left
        level = frame.y(body.top + 0.5 * (body.height - cold.size.runs.height))
        return (frame.x(x), level), (frame.x(x), level + apart)
    level = frame.y(max(min(body.top - 0.012, 0.5 * body.top), -0.2 * inside.height))
    x = frame.x(body.right - 0.3 * min(body.width, 0.1))
    return (x, level), (x - 6.0, level + min(apart, max(frame.y(body.top) - level, 2.0)))


def _low_level(view: View) -> float:
    """How deep the capillary dives under the condenser [px], over the shell or the floor."""
    geometry, frame = view.geometry, view.frame
    floor = frame.y(geometry.floor)
    under = frame.y(geometry.condenser.sheet.bottom) + 8.0
    if geometry.compressor.place == "behind":
        return min(under, frame.y(geometry.compressor.shell.top) - 3.0)
    return min(under, floor - 5.0)


def _compressor_inlet(view: View, lane_x: float) -> list[Point]:
    """The way of the return line from the foot of its lane into the shell [px]."""
    geometry, frame = view.geometry, view.frame
    left, top, width, height = frame.box(geometry.compressor.shell)
    if geometry.compressor.place == "under":
        level = top + 0.62 * height
        return [(lane_x, level), (left + width, level)]
    if geometry.compressor.place == "behind" and left <= lane_x <= left + width:
        return [(lane_x, top + 0.1 * height)]
    if geometry.compressor.place == "behind":
        level = top + 0.6 * height
        return [(lane_x, level), (left + 1.0, level)]
    level = min(frame.y(geometry.floor) - 7.0, top + 0.8 * height)
    return [(lane_x, level), (left + 1.0, level)]


def suction_shapes(view: View, ways: Ways) -> list[str]:
    """The return line with insulation, and the length at which the capillary is joined to it."""
    lines, frame = view.geometry.lines, view.frame
    wide = frame.length(lines.suction, 2.6)
    shapes = []
    if lines.insulation > 0.0:
        skin = frame.length(lines.suction + 2.0 * lines.insulation, 5.0)
        free = _after(ways.suction, _joined_length(view, ways))
        shapes.append(
            rounded_path(free, BEND, stroke=view.paint.faint, stroke_width=skin,
                         stroke_linejoin="round")
        )  # fmt: skip
    shapes.append(
        rounded_path(ways.suction, BEND, stroke_dasharray=None, stroke_linejoin="round",
                     **view.copper(min(wide, 4.0)))
    )  # fmt: skip
    return [*shapes, *_joint(view, ways)]


def _joined_length(view: View, ways: Ways) -> float:
    """Length of the joined piece on the drawing [px]: its true share of the line."""
    lines = view.geometry.lines
    if lines.joined <= 0.0:
        return 0.0
    whole = sum(distance(a, b) for a, b in zip(ways.suction, ways.suction[1:], strict=False))
    return whole * min(lines.joined / lines.suction_length, 1.0)


def _joint(view: View, ways: Ways) -> list[str]:
    """Ticks of solder (or a wrapped wire) over the joined piece, from the upper end of the lane."""
    length = _joined_length(view, ways)
    (x, top), (_, foot) = ways.lane
    end = min(top + length, foot)
    if length <= 0.0 or end - top < 4.0:
        return []
    across = abs(_capillary_x(view) - x)
    wrapped = view.geometry.lines.joint == "wrapped"
    count = max(int((end - top - 8.0) / 7.0), 1)
    shapes = []
    for at in range(count):
        y = top + 8.0 + 7.0 * at
        slant = 3.0 if wrapped else 0.0
        shapes.append(
            line((x - 1.5, y + slant), (x + across + 1.5, y - slant), data_joint="joined",
                 **view.outline(1.0))
        )  # fmt: skip
    return shapes


def _capillary_x(view: View) -> float:
    geometry, frame = view.geometry, view.frame
    back = frame.x(geometry.outside.right)
    return back + 0.68 * (frame.x(geometry.condenser.sheet.left) - back)


def _after(way: list[Point], length: float) -> list[Point]:
    """What is left of a way beyond `length` [px] of it."""
    rest = length
    for at, (start, end) in enumerate(pairwise(way)):
        piece = distance(start, end)
        if piece > rest:
            return [towards(start, end, rest), *way[at + 1 :]]
        rest -= piece
    return way[-2:]


def capillary_shapes(view: View, ways: Ways) -> list[str]:
    """Drier, the free capillary with its loops, and the capillary up the back."""
    lines = view.geometry.lines
    thin = min(view.frame.length(lines.capillary, 1.0), 1.6)
    (x, top), (_, foot) = ways.drier
    inside = lines.joint == "inside" and lines.joined > 0.0
    shapes = [
        rounded_path(ways.liquid, 5.0, **view.copper(1.8)),
        rounded_path(ways.capillary, 5.0, stroke_dasharray="1.5 2" if inside else None,
                     **view.copper(thin)),
        rectangle(x - 4.0, top + 2.0, 8.0, foot - top - 4.0, rx=3.5, fill=view.paint.copper,
                  **view.outline(0.8)),
    ]  # fmt: skip
    turn = ways.capillary[1]
    loops = [circle((turn[0] + shift, turn[1] - 1.0), 3.6, fill="none", **view.copper(thin))
             for shift in (-9.0, -6.0, -3.0)]  # fmt: skip
    return [*shapes, *loops]


def discharge_shapes(view: View, ways: Ways) -> list[str]:
    """From the compressor up to the first run."""
    return [rounded_path(ways.discharge, BEND, **view.copper(2.2))]
