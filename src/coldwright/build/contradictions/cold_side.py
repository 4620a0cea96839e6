"""The cold side: its kind and its sections, and whether one thing fits into another."""

from __future__ import annotations

import math
from collections.abc import Iterator

from coldwright.build.completion import Completion
from coldwright.build.contradictions.finding import Finding, length, must
from coldwright.build.paths import Path
from coldwright.errors import InputError
from coldwright.units import Kind, format_quantity

COLD: Path = ("cold_side",)
VESSEL: Path = (*COLD, "vessel")
FINS: Path = (*COLD, "fins")
PLATE: Path = (*COLD, "plate")
TUBE: Path = (*COLD, "tube")
INSIDE: tuple[Path, ...] = (
    ("cabinet", "inside_width"),
    ("cabinet", "inside_height"),
    ("cabinet", "inside_depth"),
)

# Sizes by shape of a vessel, beside its height.
SIZES = {"cylinder": ("diameter",), "box": ("width", "depth"), "measured": ("area", "volume")}
# Sections by kind: needed, then allowed besides.
SECTIONS = {
    "vessel": (("vessel", "brine"), ("fins",)),
    "holdover": (("vessel", "holdover"), ("fins",)),
    "plate": (("plate",), ()),
    "bare_tube": ((), ()),
}
# A brine colder than the air takes up heat: it works at least this far below the target [K], and
# must not freeze there.
BRINE_BELOW_AIR = 5.0
COIL_SHARE = 0.6  # a coil of round tube packs no tighter in a vessel


def sections_of_kind(build: Completion) -> Iterator[Finding]:
    """Exactly the sections of the kind are there."""
    kind = build.text((*COLD, "kind"))
    if kind not in SECTIONS:
        return
    needed, allowed = SECTIONS[kind]
    plain = kind.replace("_", " ")
    for key in ("vessel", "brine", "holdover", "fins", "plate"):
        path = (*COLD, key)
        if key in needed and not build.has(path):
            message = f"Section cold_side.{key} must be given for a cold side of kind '{kind}'."
            yield Finding((*COLD, "kind"), message)
        elif build.has(path) and key not in needed + allowed:
            message = f"Section cold_side.{key} cannot stand beside a {plain}."
            yield Finding(path, message, f"remove it, or change cold_side.kind from '{kind}'")


def vessel_sizes(build: Completion) -> Iterator[Finding]:
    """A cylinder has a diameter, a box width and depth, a measured shape area and volume."""
    shape = build.text((*VESSEL, "shape"))
    if build.table(VESSEL) is None or shape not in SIZES:
        return
    named = "measured shape" if shape == "measured" else shape
    for owner, keys in SIZES.items():
        for key in keys:
            path, wanted = (*VESSEL, key), owner == shape
            if wanted and not build.has(path):
                message = f"{key.capitalize()} of cold side vessel must be given for a {named}."
                yield Finding(path, message)
            elif build.has(path) and not wanted:
                message = f"{key.capitalize()} of cold side vessel has no meaning for a {named}."
                yield Finding(path, message, f'set shape = "{owner}"')


def _across(build: Completion) -> tuple[float, ...] | None:
    """Outside sizes seen from above; None of a measured shape, which has none."""
    keys = {"box": ("width", "depth"), "cylinder": ("diameter",)}.get(
        build.text((*VESSEL, "shape"))
    )
    return None if keys is None else build.numbers(*((*VESSEL, key) for key in keys))


def vessel_in_cabinet(build: Completion) -> Iterator[Finding]:
    """The vessel, with its fins, stands inside the cabinet."""
    inside, across = build.numbers(*INSIDE), _across(build)
    height = build.number((*VESSEL, "height"))
    if inside is None:
        return
    width, tall, depth = inside
    if height is not None and height > tall:
        yield must(build, (*VESSEL, "height"), f"be at most the inside height {length(tall)}")
    if across is None:
        return
    size, room = (max(across), min(across)), (max(width, depth), min(width, depth))
    key = "diameter" if len(across) == 1 else "width"
    if size[0] > room[0] or size[1] > room[1]:
        demand = f"let the vessel stand in the cabinet, {length(width)} by {length(depth)} inside"
        yield must(build, (*VESSEL, key), demand)
        return
    fin = build.number((*FINS, "height"))
    if fin is not None and size[1] + 2.0 * fin > room[1]:
        demand = f"let the finned vessel stand in the cabinet, {length(width)} by {length(depth)}"
        yield must(build, (*FINS, "height"), demand)


def inside_of_vessel(build: Completion) -> tuple[float, float] | None:
    """Inside cross-section [m2] and the least width [m] in it, neither under 0."""
    wall, height = build.number((*VESSEL, "wall_thickness")), build.number((*VESSEL, "height"))
    across = _across(build)
    if wall is None or height is None:
        return None
    if build.text((*VESSEL, "shape")) == "measured":
        measured = build.numbers((*VESSEL, "area"), (*VESSEL, "volume"))
        if measured is None or height <= 2.0 * wall:
            return None if measured is None else (0.0, 0.0)
        area = max(measured[1] - measured[0] * wall, 0.0) / (height - 2.0 * wall)
        return area, math.sqrt(4.0 * area / math.pi)
    if across is None:
        return None
    clear = [max(side - 2.0 * wall, 0.0) for side in across]
    area = 0.25 * math.pi * clear[0] ** 2 if len(clear) == 1 else clear[0] * clear[1]
    return area, min(clear)


def coil_in_vessel(build: Completion) -> Iterator[Finding]:
    """The coil, the filler and the headspace leave room for brine."""
    inside = inside_of_vessel(build)
    sizes = build.numbers((*VESSEL, "height"), (*VESSEL, "wall_thickness"))
    if inside is None or sizes is None:
        return
    height, wall = sizes
    area, width = inside
    if min(area, width, height - 2.0 * wall) <= 0.0:
        yield must(build, (*VESSEL, "wall_thickness"), "leave an inside in the vessel")
        return
    headspace = build.number((*VESSEL, "headspace"))
    filler = build.number((*VESSEL, "filler_volume")) or 0.0
    if headspace is not None and headspace >= height - 2.0 * wall:
        yield must(build, (*VESSEL, "headspace"), "be less than the inside height of the vessel")
        return
    volume = area * (height - 2.0 * wall - (headspace or 0.0))
    if filler >= volume:
        yield must(
            build, (*VESSEL, "filler_volume"), f"be less than the vessel holds, {_litres(volume)}"
        )
        return
    coil = build.number((*VESSEL, "coil_diameter"))
    if coil is not None and coil > width:
        yield must(build, (*VESSEL, "coil_diameter"), f"be at most {length(width)} inside")
    tube = build.numbers((*TUBE, "outside_diameter"), (*TUBE, "length"))
    if tube is not None:
        taken = 0.25 * math.pi * tube[0] ** 2 * tube[1]
        if taken > COIL_SHARE * (volume - filler):
            longest = COIL_SHARE * (volume - filler) * tube[1] / taken
            hint = f"at most about {length(longest)} of this tube can be wound into it"
            yield must(build, (*TUBE, "length"), "fit into the vessel", hint)


def _litres(volume: float) -> str:
    return format_quantity(volume, Kind.volume, "si")


def _girth(build: Completion) -> float | None:
    """Length of the side round the vessel [m]."""
    across = _across(build)
    if across is not None:
        return math.pi * across[0] if len(across) == 1 else 2.0 * sum(across)
    measured = build.numbers((*VESSEL, "area"), (*VESSEL, "height"))
    shape = build.text((*VESSEL, "shape"))
    return measured[0] / measured[1] if measured is not None and shape == "measured" else None


def fins_on_vessel(build: Completion) -> Iterator[Finding]:
    """Fins are no longer than the vessel and stand side by side."""
    fin, height = build.number((*FINS, "length")), build.number((*VESSEL, "height"))
    if fin is not None and height is not None and fin > height:
        demand = f"be at most the vessel's height {length(height)}"
        yield must(build, (*FINS, "length"), demand)
    fins = build.numbers((*FINS, "count"), (*FINS, "thickness"))
    around = _girth(build)
    if fins is not None and around is not None and fins[0] * fins[1] > 0.8 * around:
        yield must(build, (*FINS, "count"), f"leave gaps on a girth of {length(around)}")


def plate_and_tube(build: Completion) -> Iterator[Finding]:
    """The plate stands in the cabinet and its tube finds room on it."""
    plate, inside = build.numbers((*PLATE, "width"), (*PLATE, "height")), build.numbers(*INSIDE)
    if plate is None:
        return
    if inside is not None:
        first, second = sorted(inside, reverse=True)[:2]
        if max(plate) > first or min(plate) > second:
            yield must(build, (*PLATE, "width"), "let the plate stand inside the cabinet")
    yield from tube_on_sheet(build, TUBE, plate[0] * plate[1], "plate")


def tube_on_sheet(build: Completion, tube: Path, area: float, sheet: str) -> Iterator[Finding]:
    """The runs of `tube` lie side by side on a sheet of `area` [m2]."""
    sizes = build.numbers((*tube, "outside_diameter"), (*tube, "length"))
    pitch = build.number((*tube, "pitch"))
    if sizes is None or pitch is None:
        return
    outside, run = sizes
    assumed = (*tube, "pitch") in build.sources
    if not assumed and pitch < outside:
        demand = f"be at least the tube's outside diameter {length(outside)}"
        yield must(build, (*tube, "pitch"), demand)
    elif run * outside > area:
        hint = f"its runs would overlap; at most {length(area / outside)} fits side by side"
        yield must(build, (*tube, "length"), f"find room on the {sheet}", hint)
    elif not assumed and run * pitch > 1.1 * area:
        hint = f"{length(area / pitch)} fits at a pitch of {length(pitch)}"
        yield must(build, (*tube, "length"), f"find room on the {sheet}", hint)


def brine_stays_liquid(build: Completion) -> Iterator[Finding]:
    """The brine exists, and does not freeze above the temperature at which it has to work."""
    path: Path = (*COLD, "brine")
    fraction, kind = build.number((*path, "fraction")), build.text((*path, "kind"))
    basis, target = build.text((*path, "basis")), build.number(("targets", "air_temperature"))
    if (
        fraction is None
        or basis not in ("volume", "mass")
        or build.text((*COLD, "kind")) != "vessel"
    ):
        return
    from coldwright.fluids.brines import brine, brine_names  # noqa: PLC0415  (imports CoolProp)

    if " ".join(kind.lower().split()) not in brine_names():
        return
    try:
        liquid = brine(kind, fraction, "mass" if basis == "mass" else "volume")
    except InputError as error:
        place = (*path, "basis") if "basis" in error.faults[0].field else (*path, "fraction")
        yield Finding(place, error.faults[0].message, error.faults[0].hint)
        return
    freezing = liquid.freezing_temperature
    if target is not None and freezing >= target - BRINE_BELOW_AIR:
        point = format_quantity(freezing, Kind.temperature, "si")
        air = format_quantity(target, Kind.temperature, "si")
        demand = f"keep the brine from freezing 5 K below the target air temperature {air}"
        yield must(build, (*path, "fraction"), demand, f"this brine freezes at {point}")


RULES = (
    sections_of_kind,
    vessel_sizes,
    vessel_in_cabinet,
    coil_in_vessel,
    fins_on_vessel,
    plate_and_tube,
    brine_stays_liquid,
)
