"""The cabinet in section: layers of its walls, door or lid with its seal, floor, shelves, goods."""

from __future__ import annotations

from coldwright.sheet.drawing.geometry import Geometry, Layer
from coldwright.sheet.drawing.hatches import LEAST_HATCHED, hatch_kind, hatch_paint
from coldwright.sheet.drawing.shapes import Box
from coldwright.sheet.drawing.svg import Point, circle, element, line, path, polygon, rectangle
from coldwright.sheet.drawing.view import DASH, View

HANDLE = Box(-0.032, 0.0, 0.018, 0.13)
SEAL_WIDTH, SEAL_HEIGHT = 0.014, 0.02
MOST_GOODS = 0.72  # of the space between two shelves

Band = tuple[Layer, list[Point]]


def wall_bands(geometry: Geometry, face: str) -> list[Band]:
    """The layers of `face` in section as four-cornered bands [m], mitred with their neighbours.

    The door or lid lies flat on the edges of the walls beside it.
    """
    outer = geometry.outside
    inner = geometry.inside
    lid = geometry.door == "top"
    bands = []
    depth = 0.0
    whole = geometry.thickness(face)
    for layer in geometry.walls[face]:
        near, depth = depth, depth + layer.thickness
        corners = []
        for out in (near, depth):
            share = out / whole
            start, end = _ends(face, share, inner, outer, lid)
            corners.append((start, end))
        bands.append((layer, _band(face, (near, depth), corners, inner)))
    return bands


def _ends(face: str, share: float, inner: Box, outer: Box, lid: bool) -> tuple[float, float]:
    """Where a line at `share` of a wall's thickness begins and ends, along the wall."""

    def mitred(inside: float, outside: float) -> float:
        return inside + share * (outside - inside)

    if face == "top":
        if lid:
            return outer.left, outer.right
        return inner.left, mitred(inner.right, outer.right)
    if face == "bottom":
        front = mitred(inner.left, outer.left) if lid else inner.left
        return front, mitred(inner.right, outer.right)
    if face == "front" and not lid:
        return outer.top, outer.bottom
    top = inner.top if lid else mitred(inner.top, outer.top)
    return top, mitred(inner.bottom, outer.bottom)


def _band(
    face: str, depths: tuple[float, float], ends: list[tuple[float, float]], inner: Box
) -> list[Point]:
    (near, far), ((a, b), (c, d)) = depths, ends
    if face == "top":
        return [(a, -near), (b, -near), (d, -far), (c, -far)]
    if face == "bottom":
        low = inner.bottom
        return [(a, low + near), (b, low + near), (d, low + far), (c, low + far)]
    if face == "front":
        return [(-near, a), (-near, b), (-far, d), (-far, c)]
    back = inner.right
    return [(back + near, a), (back + near, b), (back + far, d), (back + far, c)]


def wall_shapes(view: View, faces: tuple[str, ...]) -> list[str]:
    """The cut walls called `faces`, in section."""
    return [
        shape
        for face in faces
        for shape in layer_shapes(
            view, face, [corners for _, corners in wall_bands(view.geometry, face)],
            upright=face in ("front", "back"),
        )
    ]  # fmt: skip


def layer_shapes(
    view: View, face: str, bands: list[list[Point]], *, upright: bool | None = None
) -> list[str]:
    """The layers of a cut wall in their hatches, each in its band [m]; grain along the wall."""
    if upright is None:
        upright = face in ("left", "right")
    shapes = []
    for layer, corners in zip(view.geometry.walls[face], bands, strict=True):
        kind = hatch_kind(layer.material)
        fill = hatch_paint(kind, view.prefix, upright=upright)
        if view.frame.length(layer.thickness) < LEAST_HATCHED:
            fill = view.paint.ink if kind == "metal" else view.paint.faint
        shapes.append(
            polygon(
                view.frame.many(corners),
                fill=fill,
                stroke=view.paint.ink,
                stroke_width=0.8,
                stroke_linejoin="round",
                stroke_dasharray=DASH if layer.assumed else None,
                data_layer=f"{face}: {layer.material}",
            )
        )
    return shapes


def door_shapes(view: View) -> list[str]:
    """The door (or lid) with its layers, its seal and its handle or hinge."""
    geometry, frame = view.geometry, view.frame
    outer = geometry.outside
    lid = geometry.door == "top"
    shapes = wall_shapes(view, (geometry.door,))
    middles: list[Point]
    if lid:
        middles = [
            (-0.5 * geometry.thickness("front"), 0.0),
            (geometry.inside.right + 0.5 * geometry.thickness("back"), 0.0),
        ]
        hinge = (outer.right, 0.0)
        shapes.append(
            circle(frame.at(hinge), frame.length(0.009, 2.5), fill=view.paint.paper,
                   **view.outline(1.2))
        )  # fmt: skip
    else:
        middles = [
            (0.0, -0.5 * geometry.thickness("top")),
            (0.0, geometry.inside.bottom + 0.5 * geometry.thickness("bottom")),
        ]
    wide, high = (SEAL_HEIGHT, SEAL_WIDTH) if lid else (SEAL_WIDTH, SEAL_HEIGHT)
    for x, y in middles:
        width, height = frame.length(wide, 4.0), frame.length(high, 4.0)
        shapes.append(
            rectangle(frame.x(x) - 0.5 * width, frame.y(y) - 0.5 * height, width, height,
                      rx=2, fill=view.paint.ink)
        )  # fmt: skip
    shapes.append(_handle(view, lid))
    return shapes


def _handle(view: View, lid: bool) -> str:
    """A plain bar that stands off the door, or off the front edge of the lid."""
    outer, frame = view.geometry.outside, view.frame
    middle = -0.5 * view.geometry.thickness("top") if lid else 0.42 * view.geometry.inside.height
    half = min(0.5 * HANDLE.height, 0.2 * (-outer.top if lid else view.geometry.inside.height))
    corners = [
        (outer.left, middle - half),
        (outer.left + HANDLE.left, middle - half),
        (outer.left + HANDLE.left, middle + half),
        (outer.left, middle + half),
    ]
    return path(frame.many(corners), stroke_linejoin="round", **view.outline(2.0))


def stand_shapes(view: View) -> list[str]:
    """Feet, or the open stand over a compressor below the floor."""
    geometry, frame = view.geometry, view.frame
    outer = geometry.outside
    high = geometry.floor - outer.bottom
    wide = min(0.035, 0.1 * outer.width)
    return [
        rectangle(*frame.box(Box(left, outer.bottom, wide, high)), fill=view.paint.faint,
                  stroke_dasharray=DASH, **view.outline(0.9))
        for left in (outer.left + 0.02, outer.right - 0.02 - wide)
    ]  # fmt: skip


def drain_shapes(view: View) -> list[str]:
    """A drain through the floor, with a trap where it has one."""
    drain = view.geometry.drain
    if drain is None:
        return []
    bore, _, trapped = drain
    geometry, frame = view.geometry, view.frame
    floor = geometry.outside.bottom
    x = 0.5 * geometry.inside.width
    wide = frame.length(bore, 2.0)
    top, foot = frame.y(geometry.inside.bottom), frame.y(floor)
    shapes = [
        rectangle(frame.x(x) - 0.5 * wide, top, wide, foot - top, fill=view.paint.paper,
                  **view.outline(1.0))
    ]  # fmt: skip
    if trapped:
        # The bend that holds water, beside the outlet; held above the room's floor.
        drop = min(frame.length(0.05), max(frame.y(geometry.floor) - foot, 4.0))
        left = frame.x(x)
        bend = (
            f"M{left:.2f},{foot:.2f} C{left:.2f},{foot + 1.3 * drop:.2f} "
            f"{left + 1.6 * drop:.2f},{foot + 1.3 * drop:.2f} "
            f"{left + 1.6 * drop:.2f},{foot + 0.35 * drop:.2f}"
        )
        shapes.append(element("path", d=bend, fill="none", **view.outline(max(0.4 * wide, 1.6))))
    return shapes


def shelf_shapes(view: View) -> list[str]:
    """Shelves as bars; a shelf that closes a share of the plan shows that share as full."""
    shelves, frame = view.geometry.shelves, view.frame
    dash = view.assumed("cabinet.air_path.shelves")
    shapes = []
    for level in shelves.levels[:-1]:
        left, right = frame.at((shelves.left, level)), frame.at((shelves.right, level))
        shapes.append(line(left, right, stroke_dasharray=dash, **view.outline(1.5)))
        if shelves.blocked > 0.0:
            shapes += [
                line((left[0] + (right[0] - left[0]) * at / 5, left[1]),
                     (left[0] + (right[0] - left[0]) * (at + shelves.blocked) / 5, left[1]),
                     **view.outline(3.4))
                for at in range(5)
            ]  # fmt: skip
    return shapes


def goods(geometry: Geometry) -> list[Box]:
    """What stands on shelves and floor [m]: its section true to mass at water's density."""
    shelves = geometry.shelves
    area, wide = shelves.goods_area, shelves.right - shelves.left
    if area <= 0.0 or wide <= 0.0:
        return []
    boxes = []
    above = shelves.first
    for level in shelves.levels:
        room = level - above
        above = level
        squat = min(0.45 * room, 0.8 * area**0.5)
        high = min(MOST_GOODS * room, max(area / (0.92 * wide), squat))
        filled = min(area / high, 0.92 * wide) if high > 0.0 else 0.0
        count = max(round(filled / max(0.75 * high, 0.16 * wide)), 1)
        each = filled / count
        step = (wide - filled) / (count + 1)
        boxes += [
            Box(shelves.left + step * (at + 1) + each * at, level - high, each, high)
            for at in range(count)
        ]
    return boxes


def goods_shapes(view: View) -> list[str]:
    """Goods as plain blocks."""
    return [
        rectangle(*view.frame.box(box), rx=min(3.0, 0.2 * view.frame.length(box.height)),
                  fill=view.paint.faint, **view.outline(0.8))
        for box in goods(view.geometry)
    ]  # fmt: skip
