"""The plan: the cabinet cut level through its cold side, seen from above, the front below."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from coldwright.build.result import Build
from coldwright.sheet.drawing.assembly import Measured, Recipe, drawn
from coldwright.sheet.drawing.build_words import (
    cold_side_name,
    cold_side_size,
    compressor_words,
    condenser_words,
    surface_words,
    wall_words,
)
from coldwright.sheet.drawing.cabinet_parts import layer_shapes
from coldwright.sheet.drawing.elevation import shell_box
from coldwright.sheet.drawing.geometry import Geometry
from coldwright.sheet.drawing.hatches import hatch_kind
from coldwright.sheet.drawing.labels import Note
from coldwright.sheet.drawing.plan_cold import cold_plan, fin_gap, place_of
from coldwright.sheet.drawing.shapes import Box
from coldwright.sheet.drawing.sheet import Plan
from coldwright.sheet.drawing.svg import Point, circle, line, rectangle
from coldwright.sheet.drawing.view import DASH, Part, View
from coldwright.units import Kind, System

CAPTION = (
    "Plan through the cold side, front below, true to scale; places of parts as usual. Dashed: "
    "assumed, or not in the cut."
)
FACES = ("left", "right", "back", "front")


def plan_drawing(
    build: Build,
    figures: Mapping[str, Any] | None,
    *,
    units: System,
    link: Callable[[str], str] | None = None,
    dark: bool = False,
    compact: bool = False,
) -> str:
    """The plan of `build` as an SVG document, to scale; arguments as of `section_drawing`."""
    return drawn(RECIPE, build, figures, units, link, dark, compact)


def inside_plan(geometry: Geometry) -> Box:
    """The inside from above: y from the inner face of the back [m]."""
    return Box(0.0, 0.0, geometry.width, geometry.inside.width)


def outside_plan(geometry: Geometry) -> Box:
    """The outside from above."""
    left, back = -geometry.thickness("left"), -geometry.thickness("back")
    deep = geometry.inside.width - back + geometry.thickness("front")
    return Box(left, back, geometry.outside_width, deep)


def _condenser_box(geometry: Geometry) -> Box:
    """The condenser on edge, behind the back."""
    condenser = geometry.condenser
    deep = condenser.sheet.width + condenser.outside_diameter
    far = geometry.inside.width - (condenser.sheet.left + deep)
    return Box(0.5 * (geometry.width - condenser.width), far, condenser.width, deep)


def _shell_box(geometry: Geometry) -> Box:
    """The compressor from above, in the cabinet's depth where the section has it."""
    shell = geometry.compressor.shell
    left = shell_box(geometry).left
    return Box(left, geometry.inside.width - shell.right, shell.width, shell.width)


def plan_bounds(geometry: Geometry) -> Box:
    """All that the plan shows [m]."""
    whole = outside_plan(geometry).around(_condenser_box(geometry).grown(0.008))
    whole = whole.around(_shell_box(geometry)).around(place_of(geometry))
    condenser = geometry.condenser
    if condenser.wall is not None:
        whole = whole.around(Box(0.0, geometry.inside.width - condenser.wall - 0.02, 0.1, 0.1))
    return Box(whole.left, whole.top, whole.width, whole.height + 0.035)


def _bands(geometry: Geometry, face: str) -> list[list[Point]]:
    """The layers of an upright wall as bands, mitred; the door lies on the edges of the sides."""
    wide, deep = geometry.width, geometry.inside.width
    thick = {each: geometry.thickness(each) for each in FACES}
    lid = geometry.door == "top"
    bands, near = [], 0.0
    for layer in geometry.walls[face]:
        far = near + layer.thickness
        edges = []
        for out in (near, far):
            share = out / thick[face]
            if face in ("left", "right"):
                x = -out if face == "left" else wide + out
                foot = deep + (share * thick["front"] if lid else 0.0)
                edges.append(((x, -share * thick["back"]), (x, foot)))
            else:
                full = face == "front" and not lid
                left = thick["left"] * (1.0 if full else share)
                right = thick["right"] * (1.0 if full else share)
                y = -out if face == "back" else deep + out
                edges.append(((-left, y), (wide + right, y)))
        (a, b), (c, d) = edges
        bands.append([a, b, d, c])
        near = far
    return bands


def _parts(view: View, plan: Plan) -> list[Part]:
    del plan
    g, r = view.geometry, view.readings
    walls = [face for face in FACES if face != g.door]
    inside = view.frame.box(inside_plan(g))
    air = view.temperature(r.cabinet("compartment_air_C" if g.air.divided else "air_C"))
    door = _door(view) if g.door == "front" else []
    return [
        Part("site", "The room", _room(view)),
        Part("walls", f"Walls: {wall_words(g, r, 'left')}",
             [s for face in walls for s in layer_shapes(view, face, _bands(g, face))]),
        Part("door", f"Door: {wall_words(g, r, 'front')}", door),
        Part("air_path", "The way of the air",
             [rectangle(*inside, fill=air, data_size="inside"), *_air_plan(view)]),
        Part("compressor", f"Compressor: {compressor_words(r)}", _compressor(view)),
        Part("condenser", f"Condenser: {condenser_words(g, r)}", _condenser(view)),
        Part("cold_side", f"{cold_side_name(g, r).capitalize()}: {cold_side_size(g, r)}",
             cold_plan(view)),
    ]  # fmt: skip


def _room(view: View) -> list[str]:
    """The wall of the room behind, where it is known."""
    condenser, frame = view.geometry.condenser, view.frame
    if condenser.wall is None:
        return []
    outer = outside_plan(view.geometry)
    y = frame.y(view.geometry.inside.width - condenser.wall)
    left, right = frame.x(outer.left), frame.x(outer.right)
    count = int((right - left) / 9.0)
    return [
        line((left, y), (right, y), **view.outline(1.2)),
        *(line((left + 9.0 * at, y), (left + 9.0 * at + 4.0, y - 4.0), **view.outline(0.6))
          for at in range(count)),
    ]  # fmt: skip


def _door(view: View) -> list[str]:
    """The door with its seal on both edges and its handle."""
    g, frame = view.geometry, view.frame
    shapes = layer_shapes(view, "front", _bands(g, "front"))
    for x in (-0.5 * g.thickness("left"), g.width + 0.5 * g.thickness("right")):
        at = frame.at((x, g.inside.width))
        shapes.append(rectangle(at[0] - 3.0, at[1] - 2.5, 6.0, 5.0, rx=2, fill=view.paint.ink))
    outer = outside_plan(g)
    x, y = frame.at((outer.right - 0.4 * g.thickness("right"), outer.bottom))
    grip = frame.length(0.032, 5.0)
    shapes.append(rectangle(x - 2.0, y, 4.0, grip, rx=1.5, fill=view.paint.ink))
    return shapes


def _air_plan(view: View) -> list[str]:
    """Stored space in front of the partition, the partition, and the edge of the deck's slot."""
    g, frame = view.geometry, view.frame
    air, deep = g.air, g.inside.width
    if not air.divided:
        return []
    front = Box(0.0, deep - air.partition, g.width, air.partition)
    stored = view.temperature(view.readings.cabinet("air_C"))
    dash = view.assumed("cabinet.air_path.height_difference")
    levels = ((deep - air.partition, dash, 2.4), (air.lower_opening, "6 3", 1.1))
    return [
        rectangle(*frame.box(front), fill=stored),
        *(line(frame.at((0.0, y)), frame.at((g.width, y)), stroke_dasharray=each,
               **view.outline(wide))
          for y, each, wide in levels),
    ]  # fmt: skip


def _compressor(view: View) -> list[str]:
    """The shell as a circle: below the cut, so in broken lines."""
    left, top, width, _ = view.frame.box(_shell_box(view.geometry))
    paint = view.temperature(view.readings.machine("shell_C"), view.paint.faint)
    under = view.geometry.compressor.place == "under"
    radius = 0.5 * width
    return [
        circle((left + radius, top + radius), radius, stroke_dasharray=DASH, data_size="shell",
               fill="none" if under else paint, **view.outline(1.2))
    ]  # fmt: skip


def _condenser(view: View) -> list[str]:
    """Sheet or wires on edge, and the uppermost run of tube behind it."""
    g, frame = view.geometry, view.frame
    condenser = g.condenser
    left, top, width, _ = frame.box(_condenser_box(g))
    paint = view.temperature(view.readings.get("hot_side", "surface_C"), view.paint.faint)
    thick = frame.length(condenser.sheet.width, 2.4)
    foot = frame.y(g.inside.width - condenser.sheet.left)
    shapes = []
    if condenser.kind != "bare":
        shapes.append(rectangle(left, foot - thick, width, thick, fill=paint, data_size="sheet",
                                **view.outline(0.8)))  # fmt: skip
    wide = frame.length(condenser.outside_diameter, 2.0)
    y = min(top, foot - thick - wide) + 0.5 * wide
    tube = frame.length(condenser.runs.straight + condenser.runs.pitch)
    start = left + 0.5 * (width - tube)
    return [*shapes, line((start, y), (start + tube, y), stroke_linecap="round",
                          **view.copper(wide))]  # fmt: skip


def _notes(view: View, few: bool) -> list[Note]:
    notes = [note for note in _all_notes(view) if note.value]
    return [note for note in notes if note.key in ("cold", "fins", "gap", "wall")] if few else notes


def _all_notes(view: View) -> Iterator[Note]:
    """What the cut shows: walls, cold side and its fins, openings, the condenser's gap."""
    g, r, frame = view.geometry, view.readings, view.frame
    inside, cold = inside_plan(g), place_of(g)
    ways = r.get("cabinet", "gain_by_way_W") or {}
    side = frame.at((-0.5 * g.thickness("left"), 0.6 * inside.height))
    heat = r.write(ways.get("face left"), Kind.heat_flow)
    yield Note("walls", "left", side, heat or r.length(g.thickness("left")),
               f"{'in through the ' if heat else ''}left wall: {wall_words(g, r, 'left')}",
               key="wall")  # fmt: skip
    surface, name = r.degrees(r.cabinet("cold_surface_C")), cold_side_name(g, r)
    edge = frame.at((cold.right - 0.02 * cold.width, cold.middle[1]))
    yield Note("cold_side", "right", edge, surface or name.capitalize(),
               f"{name}, {surface_words(r)}" if surface else cold_side_size(g, r),
               key="cold")  # fmt: skip
    gap = fin_gap(g)
    if gap is not None:
        count, clear = gap
        out = ", half-way out" if getattr(g.cold.size, "round", False) else ""
        tip = frame.at((cold.left + 0.01 * cold.width, cold.middle[1]))
        yield Note("cold_side", "left", tip, f"{count} fins",
                   f"{r.length(clear)} clear between them{out}", key="fins")  # fmt: skip
    behind = frame.at((0.9 * g.width, -g.thickness("back") - 0.5 * view.build.condenser.gap.value))
    yield Note("condenser", "right", behind, r.length(view.build.condenser.gap.value),
               "gap between back and condenser", key="gap",
               assumed=view.build.is_assumed("condenser.gap"))  # fmt: skip
    if g.air.divided:
        way = view.build.cabinet.air_path
        slot = frame.at((0.06 * g.width, 0.5 * g.air.lower_opening))
        yield Note("air_path", "left", slot, r.write(way.lower_opening_area.value, Kind.area),
                   "opening below, behind the deck", key="lower",
                   assumed=view.build.is_assumed("cabinet.air_path.lower_opening_area"),
                   )  # fmt: skip
        over = frame.at((0.92 * g.width, inside.height - g.air.partition))
        yield Note("air_path", "right", over, r.write(way.upper_opening_area.value, Kind.area),
                   "opening above, over the partition", key="upper",
                   assumed=view.build.is_assumed("cabinet.air_path.upper_opening_area"),
                   )  # fmt: skip
    shell = frame.box(_shell_box(g))
    angle = math.radians(25.0)
    rim = (shell[0] + 0.5 * shell[2] * (1.0 + math.cos(angle)),
           shell[1] + 0.5 * shell[2] * (1.0 - math.sin(angle)))  # fmt: skip
    yield Note("compressor", "right", rim, "Compressor", compressor_words(r), key="compressor")


def _measured(view: View) -> list[Measured]:
    build, g = view.build, view.geometry
    inside = Measured(
        inside_plan(g),
        build.is_assumed("cabinet.inside_width"),
        build.is_assumed("cabinet.inside_depth"),
    )
    return [inside, Measured(outside_plan(g))]


def _hatches(geometry: Geometry) -> set[str]:
    return {hatch_kind(layer.material) for face in FACES for layer in geometry.walls[face]}


RECIPE = Recipe(
    name="plan",
    title="plan",
    caption=CAPTION,
    bounds=plan_bounds,
    measured=_measured,
    parts=_parts,
    notes=_notes,
    over=lambda _: [],
    hatches=_hatches,
)
