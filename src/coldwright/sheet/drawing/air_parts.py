"""The air in section: its temperatures as colour, its way as arrows.

It falls off the cold surface, spreads low, rises as it warms and returns over the top.
"""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.sheet.drawing.cold_geometry import VesselSize
from coldwright.sheet.drawing.shapes import Box
from coldwright.sheet.drawing.svg import Point, Value, arrow_head, element, rectangle, rounded_path
from coldwright.sheet.drawing.view import DASH, View

EDGE = 0.035  # of the depth or height: how near the liner the arrows run


@dataclass(frozen=True)
class AirWays:
    """Arrows [m] by what the air does, and where each is spoken of."""

    falls: tuple[list[Point], ...]
    spreads: tuple[list[Point], ...]
    rises: tuple[list[Point], ...]
    returns: tuple[list[Point], ...]


def air_ways(view: View) -> AirWays:
    """The loop, or two where tube runs round all walls of a box with a lid."""
    geometry = view.geometry
    inside, cold = geometry.inside, geometry.cold
    off_x, off_y = EDGE * inside.width, EDGE * inside.height
    floor = inside.height - off_y
    if cold.at_walls:
        return _two_loops(view)
    body, air = cold.body, geometry.air
    falls, slot = _falls(view)
    turn = 0.24 * inside.width
    spreads = [(slot, floor - 0.08 * inside.height), (slot, floor), (turn, floor)]
    rises = [(off_x, floor - 0.02 * inside.height), (off_x, 0.24 * inside.height)]
    top = min(off_y, 0.5 * air.upper_opening) if air.divided else off_y
    reach = max(min(cold.front + 0.3 * (inside.width - cold.front), body.left), 3.0 * off_x)
    returns = [(off_x, 0.17 * inside.height), (off_x, top), (reach, top)]
    return AirWays(falls, (spreads,), (rises,), (returns,))


def _falls(view: View) -> tuple[tuple[list[Point], ...], float]:
    """The ways of the falling air, and where across the depth it comes to the floor."""
    geometry = view.geometry
    inside, cold, air = geometry.inside, geometry.cold, geometry.air
    body, off_x = cold.body, EDGE * inside.width
    back = inside.width - off_x
    below = (1.0 - EDGE - 0.12) * inside.height
    high = body.top + 0.38 * body.height
    if air.divided:  # off the front of it, over the deck, down the slot
        slot = min(inside.width - 0.5 * air.lower_opening, back)
        over = max(air.deck - 0.018, cold.foot + 0.2 * (air.deck - cold.foot))
        face = max(cold.front - 0.011, air.partition + 0.006)
        foot = (slot, max(below, min(air.deck + 0.05, (1.0 - EDGE) * inside.height)))
        return ([(face, high), (face, over), (slot, over), foot],), slot
    face = max(min(cold.front - 0.4 * off_x, back), 3.0 * off_x)
    if geometry.shelves.right <= cold.front or not isinstance(cold.size, VesselSize):
        return ([(face, min(high, below - off_x)), (face, below)],), face
    # A vessel over the shelves: down its front, and from under it behind them.
    slot = min(0.5 * (geometry.shelves.right + inside.width), back)
    ways = []
    if face > 4.0 * off_x:
        ways.append([(face, high), (face, body.bottom - 0.02 * body.height)])
    if below - cold.foot > 0.03:
        ways.append([(slot, cold.foot + 0.012), (slot, below)])
    return tuple(ways), slot


def _two_loops(view: View) -> AirWays:
    geometry = view.geometry
    inside, cold = geometry.inside, geometry.cold
    off_y = EDGE * inside.height
    near, far = cold.front + 0.01, inside.width - cold.front - 0.01
    middle = 0.5 * inside.width
    foot, floor = cold.body.bottom, inside.height - off_y
    falls = tuple(
        [(x, cold.body.top + 0.3 * cold.body.height), (x, max(floor - 0.16 * inside.height, foot))]
        for x in (near, far)
    )
    spread = 0.2 * inside.width
    spreads = tuple(
        [(x, floor - 0.1 * inside.height), (x, floor), (x + sign * spread, floor)]
        for x, sign in ((near, 1), (far, -1))
    )
    rises = ([(middle, 0.62 * inside.height), (middle, 0.2 * inside.height)],)
    returns = tuple(
        [(middle + sign * 0.03 * inside.width, off_y), (middle + sign * 0.3 * inside.width, off_y)]
        for sign in (-1, 1)
    )
    return AirWays(falls, spreads, rises, returns)


def air_ground(view: View) -> list[str]:
    """Definition and fill of the inside: warmest at the top, coldest at the floor."""
    inside, air, readings = view.geometry.inside, view.geometry.air, view.readings
    warm, cold = readings.cabinet("warmest_shelf_C"), readings.cabinet("coldest_shelf_C")
    box = view.frame.box(inside)
    if warm is None or cold is None:
        return [rectangle(*box, fill=view.paint.paper, data_size="inside")]
    name = f"{view.prefix}-air"
    stops = [
        element("stop", offset=share,
                stop_color=view.paint.temperature(warm + share * (cold - warm)))
        for share in (0.0, 0.25, 0.5, 0.75, 1.0)
    ]  # fmt: skip
    gradient = element("linearGradient", *stops, id=name, x1=0, y1=0, x2=0, y2=1)
    shapes = [
        element("defs", gradient),
        rectangle(*box, fill=f"url(#{name})", data_size="inside"),
    ]
    compartment = readings.cabinet("compartment_air_C")
    if air.divided and compartment is not None:
        space = Box(air.partition, 0.0, inside.width - air.partition, air.deck)
        shapes.append(rectangle(*view.frame.box(space), fill=view.paint.temperature(compartment)))
    return shapes


def partition_shapes(view: View) -> list[str]:
    """Partition, deck and duct of a divided cabinet."""
    air, inside, frame = view.geometry.air, view.geometry.inside, view.frame
    if not air.divided:
        return []
    dash = view.assumed("cabinet.air_path.height_difference")
    deck_end = inside.width - air.lower_opening
    corners = [
        (air.partition, air.upper_opening),
        (air.partition, air.deck),
        (deck_end, air.deck),
    ]
    if air.duct > 0.0:
        corners.append((deck_end, air.deck + air.duct))
    return [
        rounded_path(frame.many(corners), 0.0, stroke_dasharray=dash, stroke_linejoin="miter",
                     **view.outline(2.4))
    ]  # fmt: skip


def air_shapes(view: View) -> list[str]:
    """All arrows; the falling air in a full line, what rises in a dashed one."""
    ways = air_ways(view)
    shapes = []
    for group, dash in ((ways.falls, None), (ways.spreads, None), (ways.rises, DASH),
                        (ways.returns, DASH)):  # fmt: skip
        for way in group:
            shapes += _arrow(view, view.frame.many(way), dash)
    return shapes


def _arrow(view: View, way: list[Point], dash: str | None) -> list[str]:
    under: dict[str, Value] = {"stroke": view.paint.paper, "stroke_width": 4.4, "opacity": 0.6}
    return [
        rounded_path(way, 14.0, **under),
        rounded_path(way, 14.0, stroke_dasharray=dash, **view.outline(1.7)),
        arrow_head(way[-1], way[-2], 9.0, fill=view.paint.ink),
    ]
