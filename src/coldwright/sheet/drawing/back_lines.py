"""The lines as the back shows them [m]: condenser's tube, discharge, drier, capillary, return."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from coldwright.sheet.drawing.elevation import (
    cut,
    outside_box,
    serpentine,
    sheet_box,
    shell_box,
    way_length,
)
from coldwright.sheet.drawing.svg import Point, circle, line, path, rectangle, rounded_path
from coldwright.sheet.drawing.view import View

DRIER = 0.1  # length [m]
APART = 0.014  # of return line and capillary [m]


@dataclass(frozen=True)
class BackWays:
    """Ways from where the refrigerant comes [m]."""

    tube: list[Point]
    discharge: list[Point]
    drier: tuple[Point, Point]
    suction: list[Point]
    capillary: list[Point]
    spoken_of: Point  # a place on the joined length


def back_ways(view: View) -> BackWays:
    """The usual ways: return line down the middle of the back, behind sheet and tube."""
    g = view.geometry
    sheet, shell, outer = sheet_box(g), shell_box(g), outside_box(g)
    runs = g.condenser.runs
    left = sheet.left + 0.5 * (sheet.width - runs.straight)
    tube = serpentine(runs, left, g.condenser.first_run)
    first, last = tube[0], tube[-1]
    edge = max(sheet.right, first[0]) + 0.014
    out = min(edge, outer.right - 0.008) if edge < outer.right + 0.03 else edge
    shell_top = (shell.left + 0.72 * shell.width, shell.top + 0.03 * shell.height)
    under = min(max(sheet.bottom, last[1]) + 0.02, shell.top - 0.012)
    over = under if under > sheet.bottom else shell.top + 0.2 * shell.height
    discharge = [shell_top, (shell_top[0], over), (out, over), (out, first[1]), first]
    if over > under:
        discharge = [(shell.right, over), (out, over), (out, first[1]), first]
    exit_level = max(g.cold.body.top, 0.02)
    lane = 0.5 * g.width - 0.1 * g.width
    inlet = (shell.left + 0.5 * 0.02, shell.top + 0.62 * shell.height)
    suction = [(lane, exit_level), (lane, inlet[1]), inlet]
    drier_x = max(min(lane - 0.14 * g.width, lane - 0.05), outer.left + 0.02)
    drier_top = min(max(sheet.bottom, last[1]) + 0.015, g.floor - DRIER - 0.04)
    drier = ((drier_x, drier_top), (drier_x, drier_top + DRIER))
    low = min(drier[1][1] + 0.02, g.floor - 0.012)
    other = lane - APART
    capillary = [drier[1], (drier_x, low), (other, low), (other, exit_level + 0.01)]
    spoken = (lane, exit_level + 0.3 * (inlet[1] - exit_level))
    return BackWays(tube, discharge, drier, suction, capillary, spoken)


def pipe_shapes(view: View, ways: BackWays) -> list[str]:
    """Discharge line, and the liquid line to the drier."""
    frame = view.frame
    last, inlet = ways.tube[-1], ways.drier[0]
    liquid = [last, (last[0], inlet[1] - 0.006), (inlet[0], inlet[1] - 0.006), inlet]
    return [
        rounded_path(frame.many(ways.discharge), 8.0, **view.copper(2.0)),
        rounded_path(frame.many(liquid), 5.0, **view.copper(1.7)),
    ]


def line_shapes(view: View, ways: BackWays, which: Literal["suction", "capillary"]) -> list[str]:
    """One of the two lines, broken where the sheet hides it."""
    frame = view.frame
    sheet = sheet_box(view.geometry)
    lines = view.geometry.lines
    hidden = view.geometry.condenser.kind == "sheet"
    if which == "capillary":
        thin = min(frame.length(lines.capillary, 1.0), 1.5)
        inlet, outlet = (frame.at(each) for each in ways.drier)
        shapes = [
            *_line(view, ways.capillary, thin, sheet.bottom if hidden else None),
            rectangle(inlet[0] - 4.0, inlet[1], 8.0, outlet[1] - inlet[1], rx=3.5,
                      fill=view.paint.copper, **view.outline(0.8)),
        ]  # fmt: skip
        turn = frame.at(ways.capillary[1])
        shapes += [circle((turn[0] + at, turn[1] - 1.0), 4.0, fill="none", **view.copper(thin))
                   for at in (6.0, 9.5, 13.0)]  # fmt: skip
        return shapes
    wide = min(frame.length(lines.suction, 2.4), 4.0)
    shapes = _line(view, ways.suction, wide, sheet.bottom if hidden else None)
    x, y = frame.at(ways.suction[0])
    grommet = circle((x - 2.0, y), 6.0, fill=view.paint.paper, **view.outline(1.0))
    return [*shapes, *_ticks(view, ways), grommet]


def _line(view: View, way: list[Point], width: float, covered_to: float | None) -> list[str]:
    """A line; above `covered_to` [m] it lies behind the sheet."""
    points = view.frame.many(way)
    if covered_to is None:
        return [rounded_path(points, 7.0, **view.copper(width))]
    level = view.frame.y(covered_to)
    hidden, free = _parted(points, level)
    shapes = []
    if len(hidden) > 1:
        shapes.append(path(hidden, stroke_dasharray="7 4", opacity=0.8, **view.copper(width)))
    if len(free) > 1:
        shapes.append(rounded_path(free, 7.0, **view.copper(width)))
    return shapes


def _parted(points: list[Point], level: float) -> tuple[list[Point], list[Point]]:
    """The piece above a level and the piece below it; both ways cross it once."""
    down = points if points[0][1] <= points[-1][1] else points[::-1]
    run = 0.0
    for start, end in pairwise(down):
        if start[1] <= level < end[1] and start[0] == end[0]:
            above, below = cut(down, run + level - start[1])
            return above, below
        run += abs(end[0] - start[0]) + abs(end[1] - start[1])
    return (down, []) if down[-1][1] <= level else ([], down)


def _ticks(view: View, ways: BackWays) -> list[str]:
    """The joined length: ticks across both lines over its true share of the return line."""
    lines = view.geometry.lines
    if lines.joined <= 0.0:
        return []
    points = view.frame.many(ways.suction)
    (x, top), (_, foot) = points[0], points[1]
    reach = min(way_length(points) * min(lines.joined / lines.suction_length, 1.0), foot - top)
    apart = view.frame.length(APART, 3.0)
    count = max(int((reach - 10.0) / 8.0), 0)
    return [
        line((x - apart - 1.5, top + 10.0 + 8.0 * at), (x + 1.5, top + 10.0 + 8.0 * at),
             data_joint="joined", **view.outline(0.9))
        for at in range(count)
    ]  # fmt: skip
