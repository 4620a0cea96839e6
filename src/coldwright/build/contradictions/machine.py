"""The compressor: one description, and a data sheet that makes sense."""

from __future__ import annotations

from collections.abc import Iterator

from coldwright.build.completion import Completion
from coldwright.build.contradictions.finding import Finding, must, shown
from coldwright.build.paths import Path

COMPRESSOR: Path = ("compressor",)
POINTS: Path = (*COMPRESSOR, "rated_points")
MAP: Path = (*COMPRESSOR, "map")


def one_description(build: Completion) -> Iterator[Finding]:
    """Rated points, a map or a class with its size."""
    if build.table(COMPRESSOR) is None:
        return
    points, sheet = bool(list(build.items(POINTS))), build.has(MAP)
    if points and sheet:
        message = "Compressor must be described by rated_points or by a map, not by both."
        yield Finding(MAP, message, "remove one of the two")
    if points or sheet or build.has(POINTS):
        return
    if not build.has((*COMPRESSOR, "class")):
        hint = "[[compressor.rated_points]], [compressor.map], or class with size"
        yield Finding(COMPRESSOR, "Compressor must be described in one of three ways.", hint)
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


RULES = (one_description, rated_points, map_columns)
