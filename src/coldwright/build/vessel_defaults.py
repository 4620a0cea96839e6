"""Defaults of a vessel or tank: its coil, its filler, its lid and floor, the length of its fins."""

from __future__ import annotations

import math

from coldwright.build.completion import Completion
from coldwright.build.computed_defaults import written
from coldwright.build.defaults import PRACTICE
from coldwright.build.paths import Path

VESSEL: Path = ("cold_side", "vessel")
TUBE_LENGTH: Path = ("cold_side", "tube", "length")
FIN_LENGTH: Path = ("cold_side", "fins", "length")
FILLER = "polyethylene"


def clear_width(build: Completion) -> float | None:
    """Outside width [m] that bounds a coil; of a measured shape that of a drum of its volume."""
    shape = build.text((*VESSEL, "shape"))
    if shape == "measured":
        sizes = build.numbers((*VESSEL, "volume"), (*VESSEL, "height"))
        return None if sizes is None else math.sqrt(4.0 * sizes[0] / (math.pi * sizes[1]))
    keys = ("width", "depth") if shape == "box" else ("diameter",)
    across = build.numbers(*((*VESSEL, key) for key in keys))
    return None if across is None else min(across)


def fill_vessel(build: Completion) -> None:
    """What follows from the vessel's size, the coil's turns and the filler."""
    if not build.has(VESSEL):
        build.fill(FIN_LENGTH, None, "")
        return
    _coil(build)
    height = build.number((*VESSEL, "height"))
    length = None if height is None else written(max(0.9 * height, 1e-3), "m", "5 %")
    build.fill(FIN_LENGTH, length, f"90 % of vessel height; {PRACTICE}")
    if (build.number((*VESSEL, "filler_volume")) or 0.0) > 0.0:
        build.fill((*VESSEL, "filler_material"), FILLER, f"solid, does not rust; {PRACTICE}")
    if build.text((*VESSEL, "shape")) != "measured":
        for key in ("lid_exposed", "floor_exposed"):
            build.fill((*VESSEL, key), "100 %", f"hung free in the air; {PRACTICE}")


def _coil(build: Completion) -> None:
    """Diameter and turns of the coil give the tube's length; length and turns the diameter."""
    turns = build.number((*VESSEL, "coil_turns"))
    length = build.number(TUBE_LENGTH)
    diameter: Path = (*VESSEL, "coil_diameter")
    if turns is not None and length is not None:
        build.fill(diameter, written(length / (math.pi * turns), "m", "5 %"), "tube over turns")
    width = clear_width(build)
    coil = None if width is None else written(0.76 * width, "m", "10 %")
    build.fill(diameter, coil, f"76 % of vessel; {PRACTICE}")
    if turns is not None:
        across = build.number(diameter)
        spread = "10 %" if diameter in build.sources else "4 %"
        wound = None if across is None else written(turns * math.pi * across, "m", spread)
        build.fill(TUBE_LENGTH, wound, "turns of the coil times its girth")
