"""The front: door or lid with its size and seal; what stands behind it in hidden lines."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from coldwright.build.result import Build
from coldwright.sheet.drawing.assembly import Measured, Recipe, drawn
from coldwright.sheet.drawing.build_words import (
    cold_side_name,
    cold_side_size,
    goods_words,
    surface_words,
    wall_words,
)
from coldwright.sheet.drawing.elevation import (
    cold_box,
    elevation_bounds,
    floor_shapes,
    hidden_cold_side,
    inside_box,
    outside_box,
    sheet_box,
    shell_box,
    stand,
)
from coldwright.sheet.drawing.geometry import Geometry
from coldwright.sheet.drawing.hatches import hatch_paint, outside_kind
from coldwright.sheet.drawing.hot_parts import shell_shapes
from coldwright.sheet.drawing.labels import Note
from coldwright.sheet.drawing.shapes import Box
from coldwright.sheet.drawing.sheet import Plan
from coldwright.sheet.drawing.svg import line, path, rectangle
from coldwright.sheet.drawing.view import DASH, Part, View
from coldwright.units import Kind, System

CAPTION = (
    "Front, true to scale. Broken lines: behind the door. Shelves and cold side hang as usual."
)
HINGE = Box(0.0, 0.0, 0.012, 0.07)


def front_drawing(
    build: Build,
    figures: Mapping[str, Any] | None,
    *,
    units: System,
    link: Callable[[str], str] | None = None,
    dark: bool = False,
    compact: bool = False,
) -> str:
    """The front of `build` as an SVG document, to scale; arguments as of `section_drawing`."""
    return drawn(RECIPE, build, figures, units, link, dark, compact)


def _parts(view: View, plan: Plan) -> list[Part]:
    del plan
    g, r = view.geometry, view.readings
    door = "Lid" if g.door == "top" else "Door"
    return [
        Part("site", "The room", floor_shapes(view, elevation_bounds(g))),
        Part("condenser", "Condenser, behind the cabinet", _behind(view)),
        Part("compressor", "Compressor", shell_shapes(view, shell_box(g),
                                                      view.frame.y(g.floor))),
        Part("walls", f"Walls: {wall_words(g, r, 'left')}", [*stand(view), *_body(view)]),
        Part("door", f"{door}: {wall_words(g, r, g.door)}", _door(view)),
        Part("shelves", "Shelves", _shelves(view)),
        Part("cold_side", f"{cold_side_name(g, r).capitalize()}: {cold_side_size(g, r)}",
             hidden_cold_side(view)),
    ]  # fmt: skip


def _behind(view: View) -> list[str]:
    """What of the condenser shows past the cabinet."""
    box = view.frame.box(sheet_box(view.geometry))
    return [rectangle(*box, fill=view.paint.faint, **view.outline(0.8))]


def _body(view: View) -> list[str]:
    """The cabinet's front with its grain where its outside is wood."""
    layer = view.geometry.walls["front"][-1]
    kind = outside_kind(layer.material)
    box = view.frame.box(outside_box(view.geometry))
    fill = hatch_paint(kind, view.prefix, upright=True) if kind else view.paint.paper
    return [rectangle(*box, fill=fill, data_size="outside", **view.outline(1.5))]


def _door(view: View) -> list[str]:
    """Door or lid: its edge, the inside behind it, seal, handle, hinges."""
    g, frame = view.geometry, view.frame
    outer, inner = outside_box(g), inside_box(g)
    left, top, width, height = frame.box(inner)
    shapes = [
        rectangle(left, top, width, height, fill="none", stroke_dasharray="6 3",
                  data_size="inside", **view.outline(0.9))
    ]  # fmt: skip
    if g.door == "top":
        shapes.append(line(frame.at((outer.left, 0.0)), frame.at((outer.right, 0.0)),
                           **view.outline(2.0)))  # fmt: skip
        middle, y = 0.5 * g.width, 0.5 * outer.top
        half = min(0.07, 0.2 * g.width)
        grip = [(middle - half, y), (middle + half, y)]
        return [*shapes, path(frame.many(grip), stroke_linecap="round", **view.outline(3.0))]
    thin = 0.5 * min(g.thickness("left"), -outer.top)
    seal = Box(-thin, -thin, inner.width + 2.0 * thin, inner.height + 2.0 * thin)
    shapes.append(
        rectangle(*frame.box(seal), rx=3, fill="none", stroke_dasharray="2 2.5",
                  data_size="seal", **view.copper(1.3))
    )  # fmt: skip
    for share in (0.14, 0.86):
        x, y = frame.at((outer.left, outer.top + share * outer.height))
        high = frame.length(HINGE.height, 9.0)
        wide = frame.length(HINGE.width, 3.0)
        shapes.append(
            rectangle(x - 0.5 * wide, y - 0.5 * high, wide, high, rx=1, fill=view.paint.ink)
        )
    x = outer.right - 0.4 * g.thickness("right")
    middle = 0.42 * inner.height
    half = min(0.065, 0.2 * inner.height)
    grip = [(x, middle - half), (x, middle + half)]
    return [*shapes, path(frame.many(grip), stroke_linecap="round", **view.outline(3.4))]


def _shelves(view: View) -> list[str]:
    """Shelves behind the door as hidden lines."""
    inner = inside_box(view.geometry)
    return [
        line(view.frame.at((0.02 * inner.width, level)),
             view.frame.at((0.98 * inner.width, level)), stroke_dasharray=DASH,
             **view.outline(1.1))
        for level in view.geometry.shelves.levels[:-1]
    ]  # fmt: skip


def _notes(view: View, few: bool) -> list[Note]:
    notes = [note for note in _all_notes(view) if note.value]
    return (
        [note for note in notes if note.key in ("door", "seal", "cold", "front")] if few else notes
    )


def _all_notes(view: View) -> Iterator[Note]:
    """Door, seal, goods, and what each lets in where it is worked out."""
    g, r, frame = view.geometry, view.readings, view.frame
    outer, inner, cold = outside_box(g), inside_box(g), cold_box(g)
    lid = g.door == "top"
    name = "lid" if lid else "door"
    ways = r.get("cabinet", "gain_by_way_W") or {}

    def heat(way: str) -> str:
        return r.write(ways.get(way), Kind.heat_flow)

    face = f"face {g.door}"
    # Between the inside's edge and the seal, where nothing else is drawn.
    place = (0.3 * g.width, 0.4 * outer.top) if lid else (0.12 * g.width, 0.57 * inner.height)
    yield Note("door", "left", frame.at(place), heat(face) or r.length(g.thickness(g.door)),
               f"{'through the ' if heat(face) else ''}{name}: {wall_words(g, r, g.door)}",
               key="door")  # fmt: skip
    thin = 0.5 * min(g.thickness("left"), -outer.top)
    seal = (0.0, 0.0) if lid else (-thin, 0.3 * inner.height)
    length = r.run(g.gasket)
    yield Note("door", "left", frame.at(seal), heat("gasket") or length,
               f"through {length} of seal" if heat("gasket") else f"seal of the {name}",
               assumed=view.build.is_assumed("cabinet.gasket.length"), key="seal")  # fmt: skip
    openings = r.write(view.build.cabinet.door_openings_per_day.value, Kind.number)
    grip = (outer.right - 0.4 * g.thickness("right"), 0.42 * inner.height)
    if lid:
        grip = (0.5 * g.width, 0.5 * outer.top)
    let_in = heat("doors") if ways.get("doors") else ""
    yield Note("door", "right", frame.at(grip), let_in or f"{openings} times",
               f"air let in by {openings} openings a day" if let_in else "opened a day",
               key="openings")  # fmt: skip
    edge = frame.at((cold.right, cold.top + 0.4 * cold.height))
    surface = r.degrees(r.cabinet("cold_surface_C"))
    side = cold_side_name(g, r)
    yield Note("cold_side", "right", edge, surface or side.capitalize(),
               f"{side}, {surface_words(r)}" if surface else cold_side_size(g, r),
               key="cold")  # fmt: skip
    levels = g.shelves.levels
    if len(levels) > 1:
        at = frame.at((0.9 * g.width, levels[-2]))
        count = len(levels) - 1
        yield Note("shelves", "right", at, f"{count} shelves" if count > 1 else "1 shelf",
                   goods_words(r), assumed=view.build.is_assumed("cabinet.air_path.shelves"),
                   key="shelves")  # fmt: skip
    sides = sum(float(ways.get(f"face {each}") or 0.0) for each in ("left", "right"))
    if ways and not lid:
        at = frame.at((outer.left + 0.3 * g.thickness("left"), 0.9 * inner.height))
        yield Note("walls", "left", at, r.write(sides, Kind.heat_flow),
                   "through both side walls", key="sides")  # fmt: skip
    if lid:
        at = frame.at((0.12 * g.width, 0.8 * inner.height))
        yield Note("walls", "left", at, heat("face front") or r.length(g.thickness("front")),
                   f"front wall: {wall_words(g, r, 'front')}", key="front")  # fmt: skip


def _measured(view: View) -> list[Measured]:
    build, g = view.build, view.geometry
    inside = Measured(
        inside_box(g),
        build.is_assumed("cabinet.inside_width"),
        build.is_assumed("cabinet.inside_height"),
    )
    return [inside, Measured(outside_box(g))]


def _hatches(geometry: Geometry) -> set[str]:
    kind = outside_kind(geometry.walls["front"][-1].material)
    return {kind} if kind else set()


RECIPE = Recipe(
    name="front",
    title="front",
    caption=CAPTION,
    bounds=elevation_bounds,
    measured=_measured,
    parts=_parts,
    notes=_notes,
    over=lambda _: [],
    hatches=_hatches,
)
