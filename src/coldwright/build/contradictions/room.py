"""Room, targets and cabinet."""

from __future__ import annotations

from collections.abc import Iterator

from coldwright.build.completion import Completion
from coldwright.build.contradictions.finding import Finding, must, shown
from coldwright.build.paths import Path
from coldwright.build.shop_defaults import stock
from coldwright.build.wall_defaults import layer_lists
from coldwright.shop.insulation_decline import decline_of
from coldwright.shop.materials import STILL_AIR_GAP, material

ROOM: Path = ("site", "room_temperature")
LOW: Path = ("site", "room_temperature_low")
HIGH: Path = ("site", "room_temperature_high")
TARGET: Path = ("targets", "air_temperature")
AIR: Path = ("cabinet", "air_path")


def room_range(build: Completion) -> Iterator[Finding]:
    """The usual room lies between its own extremes."""
    room, low, high = (build.number(path) for path in (ROOM, LOW, HIGH))
    if room is not None and low is not None and low > room:
        yield must(build, LOW, f"be at most the usual room temperature {shown(build, ROOM)}")
    if room is not None and high is not None and high < room:
        yield must(build, HIGH, f"be at least the usual room temperature {shown(build, ROOM)}")


def colder_than_room(build: Completion) -> Iterator[Finding]:
    """A cold box is colder than its room."""
    room, target = build.number(ROOM), build.number(TARGET)
    if room is not None and target is not None and target >= room:
        yield must(build, TARGET, f"be below the room temperature {shown(build, ROOM)}")


def faces_once(build: Completion) -> Iterator[Finding]:
    """Each face is described once."""
    seen: set[str] = set()
    for face in build.items(("cabinet", "faces")):
        name = build.text((*face, "name"))
        if name and name in seen:
            message = f"Face '{name}' of the cabinet must be described once."
            yield Finding((*face, "name"), message, "join the two tables")
        seen.add(name)


def openings_inside(build: Completion) -> Iterator[Finding]:
    """The air's openings lie within the cabinet."""
    height = build.number(("cabinet", "inside_height"))
    apart: Path = (*AIR, "height_difference")
    between = build.number(apart)
    if height is not None and between is not None and between > height:
        inside = shown(build, ("cabinet", "inside_height"))
        yield must(build, apart, f"be at most the inside height {inside}")
    floor = build.numbers(("cabinet", "inside_width"), ("cabinet", "inside_depth"))
    greatest = None if floor is None or height is None else max(floor) * max(min(floor), height)
    for key in ("lower_opening_area", "upper_opening_area"):
        area = build.number((*AIR, key))
        if area is not None and greatest is not None and area > greatest:
            yield must(build, (*AIR, key), "be smaller than the largest wall of the inside")


def duct_fits(build: Completion) -> Iterator[Finding]:
    """A duct hangs from a lower opening and ends within the cabinet."""
    duct: Path = (*AIR, "duct_height")
    length, height = build.number(duct), build.number(("cabinet", "inside_height"))
    apart = build.number((*AIR, "height_difference"))
    if not length:
        return
    if build.text((*AIR, "kind")) == "single":
        hint = "a baffle before the cold surface makes it divided: give its two openings"
        yield must(build, duct, "be left out where the air's way is of kind 'single'", hint)
    elif height is not None and apart is not None and length + apart > height:
        inside = shown(build, ("cabinet", "inside_height"))
        hint = "the duct hangs below the lower opening"
        yield must(build, duct, f"leave room under the inside height {inside}", hint)


def drain_fits(build: Completion) -> Iterator[Finding]:
    """Cold air stands no higher over a drain than the cabinet is."""
    depth: Path = ("cabinet", "drain", "depth")
    stands, height = build.number(depth), build.number(("cabinet", "inside_height"))
    if stands is not None and height is not None and stands > height:
        inside = shown(build, ("cabinet", "inside_height"))
        hint = "the pipe under the floor soon warms and does not count"
        yield must(build, depth, f"be at most the inside height {inside}", hint)


def states_of_layers(build: Completion) -> Iterator[Finding]:
    """A condition goes with the shop's conductivity of an insulation, a facing with a still gap."""
    for layer in [item for layers, _ in layer_lists(build) for item in build.items(layers)]:
        name = build.text((*layer, "material"))
        condition, facing = (*layer, "condition"), (*layer, "facing")
        row = stock(material, name)
        if row is None:
            continue
        stated = (*layer, "conductivity") not in build.sources
        if build.text(condition) in ("aged", "wet"):
            if stated and build.has((*layer, "conductivity")):
                hint = "a conductivity that is written is of the layer as it is"
                yield must(build, condition, "be left out where conductivity is written", hint)
            elif decline_of(row.name) is None:
                yield must(build, condition, f"be 'new' for {row.name}, which keeps its figure")
        if build.text(facing) not in ("", "dull") and row.name != STILL_AIR_GAP:
            yield must(build, facing, f"be left out for {row.name}: it lines a still air gap")


def layers_given(build: Completion) -> Iterator[Finding]:
    """A wall has at least one layer."""
    cabinet = build.table(("cabinet",))
    if cabinet is not None and cabinet.get("layers") == []:
        message = "Layers of cabinet must hold at least one layer."
        yield Finding(("cabinet", "layers"), message, "inside first, each with material, thickness")


def gaps_stay_still(build: Completion) -> Iterator[Finding]:
    """A still air gap is narrow enough to be still."""
    for layer in [item for layers, _ in layer_lists(build) for item in build.items(layers)]:
        row = stock(material, build.text((*layer, "material")))
        wide = build.number((*layer, "thickness"))
        if row is not None and row.name == STILL_AIR_GAP and wide is not None and wide > 0.3:
            yield must(build, (*layer, "thickness"), "be at most 300 mm for a still air gap")


RULES = (
    gaps_stay_still,
    room_range,
    colder_than_room,
    faces_once,
    openings_inside,
    duct_fits,
    drain_fits,
    states_of_layers,
    layers_given,
)
