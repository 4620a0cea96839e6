"""The back: condenser with its tube run by run, compressor, drier, capillary and return line."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from coldwright.build.result import Build
from coldwright.sheet.drawing.assembly import Measured, Recipe, drawn
from coldwright.sheet.drawing.back_lines import BackWays, back_ways, line_shapes, pipe_shapes
from coldwright.sheet.drawing.build_words import (
    TIMES,
    capillary_words,
    charge_words,
    compressor_words,
    condenser_words,
    joint_words,
    wall_words,
)
from coldwright.sheet.drawing.elevation import (
    cut,
    elevation_bounds,
    floor_shapes,
    inside_box,
    outside_box,
    sheet_box,
    shell_box,
    stand,
    way_length,
)
from coldwright.sheet.drawing.geometry import Geometry
from coldwright.sheet.drawing.hatches import hatch_paint, outside_kind
from coldwright.sheet.drawing.hot_parts import shell_shapes
from coldwright.sheet.drawing.labels import Note
from coldwright.sheet.drawing.sheet import Plan
from coldwright.sheet.drawing.svg import line, path, rectangle
from coldwright.sheet.drawing.view import DASH, Part, View
from coldwright.units import Kind, System

CAPTION = (
    "Back, true to scale; runs at their count and pitch. Where lines run is taken as usual. In the "
    "condenser's tube: gas broken, condensing copper, liquid dark."
)


def back_drawing(
    build: Build,
    figures: Mapping[str, Any] | None,
    *,
    units: System,
    link: Callable[[str], str] | None = None,
    dark: bool = False,
    compact: bool = False,
) -> str:
    """The back of `build` as an SVG document, to scale; arguments as of `section_drawing`."""
    return drawn(RECIPE, build, figures, units, link, dark, compact)


def _parts(view: View, plan: Plan) -> list[Part]:
    del plan
    g, r = view.geometry, view.readings
    ways = back_ways(view)
    return [
        Part("site", "The room", floor_shapes(view, elevation_bounds(g))),
        Part("walls", f"Back wall: {wall_words(g, r, 'back')}", [*stand(view), *_wall(view)]),
        Part("condenser", f"Condenser: {condenser_words(g, r)}",
             [*_condenser(view, ways), *pipe_shapes(view, ways)]),
        Part("suction_line", f"Return line: {joint_words(g, r)}",
             line_shapes(view, ways, "suction")),
        Part("capillary", f"Drier and capillary: {capillary_words(r)}",
             line_shapes(view, ways, "capillary")),
        Part("compressor", f"Compressor: {compressor_words(r)}",
             shell_shapes(view, shell_box(g), view.frame.y(g.floor))),
    ]  # fmt: skip


def _wall(view: View) -> list[str]:
    """The cabinet's back, and its inside in hidden lines."""
    layer = view.geometry.walls["back"][-1]
    kind = outside_kind(layer.material)
    fill = hatch_paint(kind, view.prefix, upright=True) if kind else view.paint.paper
    return [
        rectangle(*view.frame.box(outside_box(view.geometry)), fill=fill, data_size="outside",
                  **view.outline(1.5)),
        rectangle(*view.frame.box(inside_box(view.geometry)), fill="none", stroke_dasharray="6 3",
                  **view.outline(0.7)),
    ]  # fmt: skip


def _condenser(view: View, ways: BackWays) -> list[str]:
    """Sheet or wires, and the tube with its zones."""
    condenser, frame = view.geometry.condenser, view.frame
    box = sheet_box(view.geometry)
    paint = view.temperature(view.readings.get("hot_side", "surface_C"), view.paint.faint)
    shapes = []
    if condenser.kind == "sheet":
        shapes.append(rectangle(*frame.box(box), fill=paint, data_size="sheet",
                                **view.outline(1.0)))  # fmt: skip
    elif condenser.kind == "wire":
        count = max(int(box.width / condenser.wire_pitch), 1)
        left = box.left + 0.5 * (box.width - count * condenser.wire_pitch)
        thin = min(frame.length(condenser.wire_diameter, 0.5), 1.4)
        shapes += [
            line(frame.at((left + at * condenser.wire_pitch, box.top)),
                 frame.at((left + at * condenser.wire_pitch, box.bottom)),
                 data_size="wire", **view.outline(thin, opacity=0.6))
            for at in range(count + 1)
        ]  # fmt: skip
    else:
        shapes.append(rectangle(*frame.box(box), fill="none", stroke_dasharray="2 4",
                                **view.outline(0.7)))  # fmt: skip
    if condenser.chimney > 0.0:
        crown = frame.y(box.top - condenser.chimney)
        corners = [(frame.x(box.left), frame.y(box.top)), (frame.x(box.left), crown),
                   (frame.x(box.right), crown), (frame.x(box.right), frame.y(box.top))]  # fmt: skip
        shapes.append(path(corners, stroke_dasharray=DASH, **view.outline(0.8)))
    return [*shapes, *_zones(view, ways)]


def _zones(view: View, ways: BackWays) -> list[str]:
    """The tube in three pieces, by how much of it holds gas, both, or liquid."""
    wide = min(view.frame.length(view.geometry.condenser.outside_diameter, 1.6), 4.0)
    shares = view.readings.get("hot_side", "zone_share")
    tube = view.frame.many(ways.tube)
    if not shares:
        return [path(tube, stroke_linejoin="round", data_size="tube", **view.copper(wide))]
    whole = way_length(tube)
    gas, rest = cut(tube, whole * float(shares["gas"]))
    both, liquid = cut(rest, whole * float(shares["condensing"]))
    shapes = [
        path(tube, stroke=view.paint.paper, stroke_width=wide, data_size="tube"),
        path(gas, stroke_dasharray="4 2.5", **view.copper(wide)),
        path(both, stroke_linejoin="round", **view.copper(wide)),
    ]
    if len(liquid) > 1:
        shapes.append(path(liquid, **view.outline(wide)))
    return shapes


def _notes(view: View, few: bool) -> list[Note]:
    notes = [note for note in _all_notes(view) if note.value]
    main = ("condensing", "compressor", "line", "capillary")
    return [note for note in notes if note.key in main] if few else notes


def _all_notes(view: View) -> Iterator[Note]:
    """What the hot side does, or how large it is while nothing is worked out."""
    g, r, frame = view.geometry, view.readings, view.frame
    ways, sheet, shell = back_ways(view), sheet_box(g), frame.box(shell_box(g))
    condensing = r.degrees(r.machine("condensing_C"))
    pressure = r.write(r.machine("discharge_Pa"), Kind.absolute_pressure)
    runs = g.condenser.runs
    size = f"{r.length(g.condenser.width)}{TIMES}{r.length(sheet.height)}"
    upper = frame.at((sheet.right - 0.06 * sheet.width, g.condenser.run_levels[runs.count // 4]))
    yield Note("condenser", "right", upper, condensing or "Condenser",
               f"condensing at {pressure}" if condensing else condenser_words(g, r),
               key="condensing")  # fmt: skip
    lower = frame.at(
        (sheet.right - 0.06 * sheet.width, g.condenser.run_levels[(6 * runs.count) // 10])
    )
    tube = view.build.condenser.tube.length.value
    yield Note("condenser", "right", lower, f"{runs.count} runs",
               f"at {r.length(runs.pitch)}, {r.run(tube)} of "
               f"{r.length(g.condenser.outside_diameter)} tube on {size}",
               assumed=view.build.is_assumed("condenser.tube.pitch"), key="runs")  # fmt: skip
    yield from _heat_notes(view)
    beside = (shell[0] + 0.85 * shell[2], shell[1] + 0.7 * shell[3])
    power = r.write(r.machine("power_W"), Kind.power)
    current = r.write(r.machine("current_A"), Kind.current)
    yield Note("compressor", "right", beside, f"{power} · {current}" if power else "Compressor",
               f"shell {r.degrees(r.machine('shell_C'))}" if power else compressor_words(r),
               key="compressor")  # fmt: skip
    discharge = r.degrees(r.machine("discharge_gas_C"))
    yield Note("condenser", "right", frame.at(ways.discharge[-2]), discharge, "discharge gas",
               key="discharge")  # fmt: skip
    returning = r.degrees(r.machine("return_gas_C"))
    yield Note("suction_line", "left", frame.at(ways.spoken_of), returning or "Return line",
               f"return gas; {joint_words(g, r)}" if returning else joint_words(g, r),
               key="line")  # fmt: skip
    yield Note("capillary", "left", frame.at(ways.drier[1]), capillary_words(r),
               f"capillary, bore and length; {charge_words(r)}", key="capillary")  # fmt: skip


def _heat_notes(view: View) -> Iterator[Note]:
    """What the sheet gives off and what the back wall lets in, at the left."""
    g, r, frame = view.geometry, view.readings, view.frame
    sheet, outer = sheet_box(g), outside_box(g)
    given = r.get("hot_side", "heat_W")
    share = r.get("hot_side", "radiation_share")
    if given is not None:
        shining = r.write(share, Kind.ratio, 0)
        place = frame.at((sheet.left + 0.08 * sheet.width, g.condenser.first_run
                          + 0.5 * g.condenser.runs.pitch))  # fmt: skip
        yield Note("condenser", "left", place, r.write(given, Kind.heat_flow),
                   f"given off while it runs, {shining} of it by radiation; surface "
                   f"{r.degrees(r.get('hot_side', 'surface_C'))}", key="heat")  # fmt: skip
    ways = r.get("cabinet", "gain_by_way_W") or {}
    place = frame.at((outer.left + 0.03 * outer.width, 0.5 * g.inside.height))
    heat = r.write(ways.get("face back"), Kind.heat_flow)
    yield Note("walls", "left", place, heat or r.length(g.thickness("back")),
               f"{'in through the ' if heat else ''}back: {wall_words(g, r, 'back')}",
               key="back")  # fmt: skip


def _measured(view: View) -> list[Measured]:
    build, g = view.build, view.geometry
    sheet = Measured(
        sheet_box(g),
        build.is_assumed("condenser.sheet_width"),
        build.is_assumed("condenser.sheet_height"),
    )
    return [sheet, Measured(outside_box(g))]


def _hatches(geometry: Geometry) -> set[str]:
    kind = outside_kind(geometry.walls["back"][-1].material)
    return {kind} if kind else set()


RECIPE = Recipe(
    name="back",
    title="back",
    caption=CAPTION,
    bounds=elevation_bounds,
    measured=_measured,
    parts=_parts,
    notes=_notes,
    over=lambda _: [],
    hatches=_hatches,
)
