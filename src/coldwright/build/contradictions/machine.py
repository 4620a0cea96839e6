"""The compressor: one description, and a data sheet that makes sense."""

from __future__ import annotations

from collections.abc import Iterator

from coldwright.build.completion import Completion
from coldwright.build.contradictions.finding import Finding, must, shown
from coldwright.build.paths import Path

COMPRESSOR: Path = ("compressor",)
POINTS: Path = (*COMPRESSOR, "rated_points")
MAP: Path = (*COMPRESSOR, "map")
PLATE: Path = (*COMPRESSOR, "nameplate")
LEAD: Path = (*COMPRESSOR, "lead")
MOST_BATTERY = 60.0  # V


def one_description(build: Completion) -> Iterator[Finding]:
    """Rated points, a map, a class with its size, or a donor's plate."""
    if build.table(COMPRESSOR) is None:
        return
    points, sheet = bool(list(build.items(POINTS))), build.has(MAP)
    if points and sheet:
        message = "Compressor must be described by rated_points or by a map, not by both."
        yield Finding(MAP, message, "remove one of the two")
    if points or sheet or build.has(POINTS):
        return
    if build.has(PLATE):
        if not any(build.has((*PLATE, key)) for key in ("power", "current")):
            message = "Nameplate must hold power or current: watts or amperes of the donor."
            yield Finding(PLATE, message, 'such as power = "120 W"')
    elif not build.has((*COMPRESSOR, "class")):
        hint = (
            "[[compressor.rated_points]], [compressor.map], class with size, or "
            "[compressor.nameplate]"
        )
        yield Finding(COMPRESSOR, "Compressor must be described in one of four ways.", hint)
    elif not build.has((*COMPRESSOR, "size")) and not build.has((*COMPRESSOR, "displacement")):
        message = "Size of compressor must be given with its class."
        yield Finding((*COMPRESSOR, "class"), message, 'such as size = "1/8 hp", or displacement')


def rated_points(build: Completion) -> Iterator[Finding]:
    """A point condenses above where it evaporates, and says the liquid's state once."""
    for point in build.items(POINTS):
        hot, cold = (*point, "condensing_temperature"), (*point, "evaporating_temperature")
        values = build.numbers(hot, cold)
        if values is not None and values[0] <= values[1]:
            yield must(build, hot, f"be above the evaporating temperature {shown(build, cold)}")
        gas: Path = (*point, "return_gas_temperature")
        pair = build.numbers(gas, cold)
        if pair is not None and pair[0] < pair[1]:
            yield must(build, gas, f"be at least the evaporating temperature {shown(build, cold)}")
        yield from _said_once(build, point, "liquid_temperature", "subcooling")
        liquid: Path = (*point, "liquid_temperature")
        pair = build.numbers(hot, liquid)
        if pair is not None and liquid not in build.sources and pair[1] > pair[0]:
            yield must(build, liquid, f"be at most the condensing temperature {shown(build, hot)}")


def _said_once(build: Completion, table: Path, first: str, second: str) -> Iterator[Finding]:
    if build.has((*table, first)) and build.has((*table, second)):
        plain = f"{first.replace('_', ' ')} or by {second.replace('_', ' ')}"
        message = f"The rating must be given by {plain}, not by both."
        yield Finding((*table, second), message, "remove one of the two")


def map_columns(build: Completion) -> Iterator[Finding]:
    """A map holds capacity or mass flow, and each rating condition once."""
    if build.table(MAP) is None:
        return
    if build.has((*MAP, "capacity")) == build.has((*MAP, "mass_flow")):
        yield Finding(MAP, "Map of compressor must hold either capacity or mass_flow.")
    yield from _said_once(build, MAP, "return_gas_temperature", "superheat")
    yield from _said_once(build, MAP, "liquid_temperature", "subcooling")


def electrics(build: Completion) -> Iterator[Finding]:
    """A battery machine states its voltage and speed; a lead its wire once."""
    dc = build.text((*COMPRESSOR, "supply")) == "dc"
    if dc and not build.has((*COMPRESSOR, "speed")):
        message = "Running speed of a battery machine must be given."
        yield Finding((*COMPRESSOR, "supply"), message, 'such as speed = "2500 rpm"')
    volts = build.number((*COMPRESSOR, "voltage"))
    if dc and volts is not None and volts > MOST_BATTERY:
        yield must(build, (*COMPRESSOR, "voltage"), "be at most 60 V for a battery machine")
    if build.has((*COMPRESSOR, "speed")) and not dc:
        message = "Running speed must be left out where the supply is ac: the mains set it."
        yield Finding((*COMPRESSOR, "speed"), message, 'supply = "dc" for a battery machine')
    one, other = (*COMPRESSOR, "shell_diameter"), (*COMPRESSOR, "shell_height")
    if build.has(one) != build.has(other):
        message = "Shell must be given by shell_diameter and shell_height together."
        yield Finding(one if build.has(one) else other, message)
    if build.table(LEAD) is not None and build.has((*LEAD, "gauge")) == build.has(
        (*LEAD, "cross_section")
    ):
        message = "Lead must be given by cross_section or by gauge, and only one."
        yield Finding(LEAD, message, 'such as cross_section = "2.5 mm2" or gauge = 14')


RULES = (one_description, rated_points, map_columns, electrics)
