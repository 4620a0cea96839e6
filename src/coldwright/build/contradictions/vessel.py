"""The vessel's own entries: a measured shape that can be, a coil that is one coil."""

from __future__ import annotations

import math
from collections.abc import Iterator

from coldwright.build.completion import Completion
from coldwright.build.contradictions.cold_side import INSIDE, TUBE, VESSEL
from coldwright.build.contradictions.finding import Finding, given, length, must, shown
from coldwright.build.paths import Path
from coldwright.units import Kind, format_quantity

AREA: Path = (*VESSEL, "area")
VOLUME: Path = (*VESSEL, "volume")
HEIGHT: Path = (*VESSEL, "height")
COIL_AGREEMENT = 0.05  # a coil's length by its turns and as written differ by no more
LEAST_BEND = 4.0  # mean diameter of a turn over that of its tube: common practice, no source
SPHERE = 6.0 * math.sqrt(math.pi)  # area^1.5 over volume of a sphere: no shape has less


def measured_shape(build: Completion) -> Iterator[Finding]:
    """The volume is one that the area can enclose, the height one that the volume needs."""
    if build.text((*VESSEL, "shape")) != "measured":
        return
    for key in ("lid_exposed", "floor_exposed"):
        if build.has((*VESSEL, key)):
            words = key.replace("_", " ").capitalize()
            message = f"{words} of cold side vessel has no meaning for a measured shape."
            hint = "all of its area counts as upright side: measure only what the air reaches"
            yield Finding((*VESSEL, key), message, hint)
    sizes = build.numbers(AREA, VOLUME)
    if sizes is None:
        return
    area, volume = sizes
    most = area**1.5 / SPHERE
    if volume > most:
        hint = "a sphere encloses most; check the units of both"
        demand = f"be at most {_litres(most)}, what an area of {shown(build, AREA)} can enclose"
        yield must(build, VOLUME, demand, hint)
        return
    height = build.number(HEIGHT)
    least = 2.0 * volume / area
    if height is not None and height < least:
        # seen from above a body covers at most half of its area, and holds no more than that high
        demand = f"be at least {length(least)} for a body of that area and volume"
        yield must(build, HEIGHT, demand)
    inside = build.numbers(*INSIDE)
    if inside is not None and volume > math.prod(inside):
        yield must(build, VOLUME, f"be less than the cabinet's {_litres(math.prod(inside))}")


def coil_agrees(build: Completion) -> Iterator[Finding]:
    """Turns, diameter and length of the coil, all written, are of one coil."""
    turns, diameter, run = (*VESSEL, "coil_turns"), (*VESSEL, "coil_diameter"), (*TUBE, "length")
    values = build.numbers(turns, diameter, run)
    if values is None or diameter in build.sources or run in build.sources:
        return
    wound = values[0] * math.pi * values[1]
    if abs(wound - values[2]) > COIL_AGREEMENT * wound:
        demand = (
            f"agree within 5 % with the coil: {given(build, turns)} turns (coil_turns) of "
            f"{given(build, diameter)} (coil_diameter) take {length(wound)} of tube"
        )
        yield must(build, run, demand, "leave out tube.length, coil_turns or coil_diameter")


def coil_can_be_bent(build: Completion) -> Iterator[Finding]:
    """Turns leave a coil that is wider than a tube can be bent to."""
    turns, diameter = (*VESSEL, "coil_turns"), (*VESSEL, "coil_diameter")
    sizes = build.numbers(diameter, (*TUBE, "outside_diameter"))
    if sizes is None or not build.has(turns) or sizes[0] >= LEAST_BEND * sizes[1]:
        return
    hint = f"a tube of this size is wound no tighter than {length(LEAST_BEND * sizes[1])}"
    demand = f"leave a coil that can be wound: it comes to {length(sizes[0])} across"
    yield must(build, turns, demand, hint)


def _litres(volume: float) -> str:
    return format_quantity(volume, Kind.volume, "si")


RULES = (measured_shape, coil_agrees, coil_can_be_bent)
