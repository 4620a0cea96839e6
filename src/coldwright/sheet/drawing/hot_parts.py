"""Behind the cabinet in section: condenser with its runs, compressor, the wall of the room."""

from __future__ import annotations

from coldwright.sheet.drawing.shapes import Box
from coldwright.sheet.drawing.svg import circle, element, line, rectangle
from coldwright.sheet.drawing.view import DASH, View


def condenser_shapes(view: View) -> list[str]:
    """Sheet or wires on edge, every run cut, the channel above the sheet, the hangers."""
    condenser, frame = view.geometry.condenser, view.frame
    sheet = condenser.sheet
    left, top, width, height = frame.box(sheet)
    paint = view.temperature(view.readings.get("hot_side", "surface_C"), view.paint.faint)
    wide = max(width, 2.4)
    radius = frame.length(0.5 * condenser.outside_diameter, 1.5)
    shapes = _hangers(view)
    tube = left + 0.5 * wide
    if condenser.kind == "sheet":
        shapes.append(
            rectangle(left, top, wide, height, fill=paint, data_size="sheet", **view.outline(0.8))
        )
        tube = left + wide + radius
    elif condenser.kind == "wire":
        tube = left + radius
        for side in (-1, 1) if condenser.wire_sides == 2 else (1,):
            x = tube + side * (radius + 0.8)
            shapes.append(
                line((x, top), (x, top + height), data_size="sheet",
                     **view.outline(frame.length(condenser.wire_diameter, 0.9)))
            )  # fmt: skip
    if condenser.chimney > 0.0:
        x, crown = left + 0.5 * wide, frame.y(sheet.top - condenser.chimney)
        shapes.append(line((x, crown), (x, top), stroke_dasharray=DASH, **view.outline(0.9)))
    shapes += [
        circle((tube, frame.y(level)), radius, data_size="run",
               fill=paint if condenser.kind != "sheet" else view.paint.paper, **view.copper(1.3))
        for level in condenser.run_levels
    ]  # fmt: skip
    return shapes


def tube_place(view: View) -> float:
    """Where the runs of the condenser stand across the section [px]."""
    condenser, frame = view.geometry.condenser, view.frame
    radius = frame.length(0.5 * condenser.outside_diameter, 1.5)
    left, _, width, _ = frame.box(condenser.sheet)
    wide = max(width, 2.4)
    if condenser.kind == "sheet":
        return left + wide + radius
    return left + radius if condenser.kind == "wire" else left + 0.5 * wide


def _hangers(view: View) -> list[str]:
    """Two brackets that hold it off the back."""
    geometry, frame = view.geometry, view.frame
    sheet, back = geometry.condenser.sheet, geometry.outside
    found = []
    for share in (0.06, 0.94):
        y = sheet.top + share * sheet.height
        if back.top < y < back.bottom:
            ends = (frame.at((back.right, y)), frame.at((sheet.left, y)))
            found.append(line(*ends, stroke_dasharray="2 2", **view.outline(0.8)))
    return found


def compressor_shapes(view: View) -> list[str]:
    """A shell in two halves with its seam, on feet, with its terminal box."""
    compressor, frame = view.geometry.compressor, view.frame
    return shell_shapes(view, compressor.shell, frame.y(view.geometry.floor))


def shell_shapes(view: View, shell: Box, floor: float) -> list[str]:
    """A compressor's outline in `shell` [m], on the room's floor [px]."""
    frame = view.frame
    left, top, width, height = frame.box(shell)
    paint = view.temperature(view.readings.machine("shell_C"), view.paint.faint)
    dash = DASH if view.geometry.compressor.size_assumed else None
    foot = floor - 0.09 * height
    seam = top + 0.52 * height
    bend = 0.3 * height
    dome = (
        f"M{left:.2f},{seam:.2f} V{top + bend:.2f} Q{left:.2f},{top:.2f} "
        f"{left + bend:.2f},{top:.2f} H{left + width - bend:.2f} "
        f"Q{left + width:.2f},{top:.2f} {left + width:.2f},{top + bend:.2f} V{seam:.2f} Z"
    )
    bowl = (
        f"M{left:.2f},{seam:.2f} V{foot - bend:.2f} Q{left:.2f},{foot:.2f} "
        f"{left + bend:.2f},{foot:.2f} H{left + width - bend:.2f} "
        f"Q{left + width:.2f},{foot:.2f} {left + width:.2f},{foot - bend:.2f} V{seam:.2f} Z"
    )
    style = {"fill": paint, "stroke_dasharray": dash, **view.outline(1.3)}
    shapes = [element("path", d=dome, data_size="shell", **style), element("path", d=bowl, **style)]
    shapes.append(rectangle(left - 2, seam - 2, width + 4, 4, rx=1.5, fill=view.paint.ink))
    feet = (left + 0.16 * width, left + 0.72 * width)
    shapes += [
        rectangle(x, foot, 0.12 * width, floor - foot, fill=view.paint.ink, opacity=0.75)
        for x in feet
    ]
    return shapes


def room_shapes(view: View, left: float, right: float) -> list[str]:
    """The floor of the room from `left` to `right` [px], and a wall behind where it is known."""
    frame, geometry = view.frame, view.geometry
    floor = frame.y(geometry.floor)
    shapes = [line((left, floor), (right, floor), **view.outline(1.4))]
    shapes += [
        line((x, floor), (x - 5.0, floor + 5.0), **view.outline(0.6))
        for x in _marks(left + 6.0, right, 9.0)
    ]
    if geometry.condenser.wall is not None:
        x = frame.x(geometry.condenser.wall)
        top = frame.y(geometry.outside.top)
        shapes.append(line((x, top), (x, floor), **view.outline(1.2)))
        shapes += [
            line((x, y), (x + 5.0, y - 5.0), **view.outline(0.6))
            for y in _marks(top + 7.0, floor, 9.0)
        ]
    return shapes


def _marks(start: float, end: float, step: float) -> list[float]:
    """Places from `start` to `end`."""
    count = max(int((end - start) / step) + 1, 0)
    return [start + at * step for at in range(count)]
