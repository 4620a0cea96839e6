"""The section: the cabinet cut from front to back, the front at the left."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from coldwright.build.result import Build
from coldwright.sheet.drawing.air_parts import air_ground, air_shapes, partition_shapes
from coldwright.sheet.drawing.assembly import Measured, Recipe, drawn
from coldwright.sheet.drawing.build_words import (
    capillary_words,
    cold_side_name,
    cold_side_size,
    compressor_words,
    condenser_words,
    goods_words,
    joint_words,
    wall_words,
)
from coldwright.sheet.drawing.cabinet_parts import (
    door_shapes,
    drain_shapes,
    goods_shapes,
    shelf_shapes,
    stand_shapes,
    wall_shapes,
)
from coldwright.sheet.drawing.cold_parts import cold_shapes
from coldwright.sheet.drawing.geometry import Geometry
from coldwright.sheet.drawing.hatches import hatch_kind
from coldwright.sheet.drawing.hot_parts import compressor_shapes, condenser_shapes, room_shapes
from coldwright.sheet.drawing.line_parts import (
    capillary_shapes,
    discharge_shapes,
    suction_shapes,
    ways_of,
)
from coldwright.sheet.drawing.section_notes import section_notes
from coldwright.sheet.drawing.shapes import Box
from coldwright.sheet.drawing.sheet import Plan
from coldwright.sheet.drawing.view import Part, View
from coldwright.units import System

CAPTION = (
    "Section, front at the left, true to scale. Where parts hang and tubes run is taken as usual. "
    "Dashed: assumed."
)


def section_drawing(
    build: Build,
    figures: Mapping[str, Any] | None,
    *,
    units: System,
    link: Callable[[str], str] | None = None,
    dark: bool = False,
    compact: bool = False,
) -> str:
    """The section of `build` as an SVG document, to scale.

    `figures`: the report of an assessment, None while nothing is worked out. `link` gives the
    address behind each part (see `view.PARTS`); without it no part is a link. `dark` sets the
    fallbacks of the colours for dark paper; a page may set the properties themselves. `compact`:
    360 px wide with few, large texts.
    """
    return drawn(RECIPE, build, figures, units, link, dark, compact)


def bounds_of(geometry: Geometry) -> Box:
    """Everything that the section shows [m]."""
    outer, condenser = geometry.outside, geometry.condenser
    shell = geometry.compressor.shell
    right = max(condenser.sheet.right + condenser.outside_diameter + 0.08, shell.right + 0.01)
    if condenser.wall is not None:
        right = max(right, condenser.wall + 0.02)
    left = outer.left - 0.035
    top = min(outer.top, condenser.sheet.top - condenser.chimney, condenser.first_run - 0.01)
    whole = Box(left, top, right - left, geometry.floor - top)
    low = Box(left, condenser.run_levels[-1], 0.01, 0.01)
    body = geometry.cold.body
    out = getattr(geometry.cold.size, "fin_projection", 0.0)
    cold = Box(body.left - out, body.top, body.width + 2.0 * out, body.height)
    return whole.around(cold).around(low)


def _parts(view: View, plan: Plan) -> list[Part]:
    """All parts in the order in which they lie over one another."""
    g, r = view.geometry, view.readings
    outer, frame = g.outside, view.frame
    ways = ways_of(view)
    right = plan.right_column - 12.0
    door = "Lid" if g.door == "top" else "Door"
    faces = tuple(face for face in ("top", "bottom", "front", "back") if face != g.door)
    name, size = cold_side_name(g, r), cold_side_size(g, r)
    return [
        Part("site", "The room", room_shapes(view, frame.x(outer.left) - 14.0, right)),
        Part("walls", f"Walls. Back: {wall_words(g, r, 'back')}",
             [*stand_shapes(view), *wall_shapes(view, faces), *drain_shapes(view)]),
        Part("door", f"{door}: {wall_words(g, r, g.door)}", door_shapes(view)),
        Part("air_path", "The way of the air",
             [*air_ground(view), *partition_shapes(view)]),
        Part("cold_side", f"{name.capitalize()}: {size}", cold_shapes(view)),
        Part("shelves", "Shelves", shelf_shapes(view)),
        Part("contents", f"Goods: {goods_words(r)}", goods_shapes(view)),
        Part("condenser", f"Condenser: {condenser_words(g, r)}",
             [*condenser_shapes(view), *discharge_shapes(view, ways)]),
        Part("compressor", f"Compressor: {compressor_words(r)}", compressor_shapes(view)),
        Part("suction_line", f"Return line: {joint_words(g, r)}", suction_shapes(view, ways)),
        Part("capillary", f"Drier and capillary: {capillary_words(r)}",
             capillary_shapes(view, ways)),
    ]  # fmt: skip


def _measured(view: View) -> list[Measured]:
    build, g = view.build, view.geometry
    return [
        Measured(
            g.inside,
            build.is_assumed("cabinet.inside_depth"),
            build.is_assumed("cabinet.inside_height"),
        ),
        Measured(g.outside),
    ]


def _kinds(geometry: Geometry) -> set[str]:
    return {hatch_kind(each.material) for wall in geometry.walls.values() for each in wall}


RECIPE = Recipe(
    name="section",
    title="section",
    caption=CAPTION,
    bounds=bounds_of,
    measured=_measured,
    parts=_parts,
    notes=lambda view, few: section_notes(view, ways_of(view), few=few),
    over=air_shapes,
    hatches=_kinds,
)
