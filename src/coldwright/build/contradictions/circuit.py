"""Tubes, capillary, exchanger and thermostat."""

from __future__ import annotations

from collections.abc import Iterator

from coldwright.build.completion import Completion
from coldwright.build.contradictions.finding import Finding, length, must, shown
from coldwright.build.knob import KNOB, THERMOSTAT, scale_in, share_of
from coldwright.build.paths import Path
from coldwright.build.shop_defaults import TUBES
from coldwright.units import Kind, format_quantity

EXCHANGER: Path = ("return_exchanger",)
# A capillary wider than this share of the suction line's bore chokes the return gas.
GREATEST_CORE = 0.7
KNOB_AGREES = 1.0  # K between a cut-out that is told and the knob's, as wide as a knob is read


def tubes_are_open(build: Completion) -> Iterator[Finding]:
    """A tube has a bore, and is described once."""
    for path in TUBES:
        outside, wall = (*path, "outside_diameter"), (*path, "wall_thickness")
        sizes = build.numbers(outside, wall)
        if sizes is not None and 2.0 * sizes[1] >= sizes[0]:
            demand = f"be less than half of the outside diameter {shown(build, outside)}"
            yield must(build, wall, demand)
        own = build.has(outside) and outside not in build.looked_up
        if build.has((*path, "size")) and own:
            demand = "be left out where a stock size is named"
            yield must(build, outside, demand, "remove size, or outside_diameter")


def capillary_wall(build: Completion) -> Iterator[Finding]:
    """The capillary is wider outside than inside."""
    outside, bore = ("capillary", "outside_diameter"), ("capillary", "bore")
    sizes = build.numbers(outside, bore)
    if sizes is not None and sizes[0] <= sizes[1]:
        yield must(build, outside, f"be greater than the bore {shown(build, bore)}")


def capillary_in_suction_line(build: Completion) -> Iterator[Finding]:
    """A capillary that runs in the suction line leaves the gas a way around it."""
    line: Path = ("suction_line",)
    outside = ("capillary", "outside_diameter")
    sizes = build.numbers((*line, "outside_diameter"), (*line, "wall_thickness"), outside)
    if sizes is None or build.text((*EXCHANGER, "kind")) != "inside":
        return
    room = sizes[0] - 2.0 * sizes[1]
    if sizes[2] > GREATEST_CORE * room:
        demand = (
            f"be at most {100.0 * GREATEST_CORE:.0f} % of the suction line's bore {length(room)}"
        )
        hint = 'or the capillary soldered on the line: kind = "soldered"'
        yield must(build, outside, f"{demand} where it runs inside it", hint)


def exchanger_on_capillary(build: Completion) -> Iterator[Finding]:
    """The exchanger lies along the capillary and along the suction line."""
    run, start = (*EXCHANGER, "length"), (*EXCHANGER, "start")
    capillary = build.number(("capillary", "length"))
    joined, offset = build.number(run), build.number(start)
    none = build.text((*EXCHANGER, "kind")) == "none"
    if joined is None:
        return
    if none and joined > 0.0:
        yield must(build, run, "be left out where kind is 'none'", 'set kind = "soldered"')
    if capillary is not None and joined > capillary:
        yield must(build, run, f"be at most the capillary's length {length(capillary)}")
    elif capillary is not None and offset is not None and joined + offset > capillary + 1e-9:
        hint = f"start and length together are {length(joined + offset)}"
        yield must(
            build, start, f"leave the exchanger within the capillary {length(capillary)}", hint
        )
    line: Path = ("suction_line", "length")
    suction = build.number(line)
    if suction is not None and suction < joined:
        yield must(build, line, f"be at least the exchanger's length {length(joined)}")


def thermostat(build: Completion) -> Iterator[Finding]:
    """It starts warmer than it stops, and its bulb has a place to sit."""
    cut_in, cut_out = (*THERMOSTAT, "cut_in"), (*THERMOSTAT, "cut_out")
    values = build.numbers(cut_in, cut_out)
    if values is not None and values[0] <= values[1]:
        yield must(build, cut_in, f"be above the cut-out temperature {shown(build, cut_out)}")
    bulb, kind = build.text((*THERMOSTAT, "bulb")), build.text(("cold_side", "kind"))
    needed = {"vessel well": ("vessel", "holdover"), "plate": ("plate",)}.get(bulb)
    known = ("vessel", "holdover", "plate", "bare_tube")
    if needed is not None and kind in known and kind not in needed:
        yield must(build, (*THERMOSTAT, "bulb"), f"be a place that a {kind.replace('_', ' ')} has")


def knob(build: Completion) -> Iterator[Finding]:
    """Its scale runs from warm to cold, cut-in is told once, and its position agrees."""
    if build.table(KNOB) is None:
        return
    warmest, coldest = (*KNOB, "cut_out_warmest"), (*KNOB, "cut_out_coldest")
    ends = build.numbers(warmest, coldest)
    if ends is not None and ends[1] >= ends[0]:
        yield must(build, coldest, f"be below the warm end's {shown(build, warmest)}")
    both = [build.has((*KNOB, key)) for key in ("difference", "fixed_cut_in")]
    if both[0] == both[1]:
        told = "both are told" if both[0] else "neither is"
        yield Finding(
            KNOB,
            "The knob must have either its difference (it moves cut-in and cut-out) or a fixed "
            f"cut-in (it moves the cut-out alone): {told}.",
        )
    place = (*KNOB, "position")
    position, scale = build.text(place), scale_in(build)
    share = share_of(position)
    if build.has(place) and share is None:
        hint = "1 is the warmest mark; 0 % is the warm end, 100 % the cold end"
        yield must(build, place, 'be like "3 of 7" or "40 %"', hint)
    cut_out = (*THERMOSTAT, "cut_out")
    stated = build.number(cut_out)
    if scale is None or share is None or stated is None or cut_out in build.sources:
        return
    from_knob = float(scale.settings(share)[1])
    if abs(from_knob - stated) > KNOB_AGREES:
        there = format_quantity(from_knob, Kind.temperature, "si")
        hint = "leave one of the two out"
        yield must(build, cut_out, f"agree with the knob, which at {position} brings {there}", hint)


RULES = (
    tubes_are_open,
    capillary_wall,
    capillary_in_suction_line,
    exchanger_on_capillary,
    thermostat,
    knob,
)
