"""The usual day's hours among themselves."""

from __future__ import annotations

from collections.abc import Iterator

from coldwright.build.completion import Completion
from coldwright.build.contradictions.finding import Finding, must, shown
from coldwright.build.paths import Path

DAY: Path = ("day",)


def hours(build: Completion) -> Iterator[Finding]:
    """The last opening comes after the first; a power cut has a beginning and a length."""
    first, last = (*DAY, "first_opening"), (*DAY, "last_opening")
    values = build.numbers(first, last)
    if values is not None and values[1] <= values[0]:
        yield must(build, last, f"come after the first opening {shown(build, first)}")
    begins, lasts = (*DAY, "power_cut_at"), (*DAY, "power_cut_length")
    if build.has(begins) != build.has(lasts):
        missing, there = (lasts, begins) if build.has(begins) else (begins, lasts)
        yield Finding(there, f"A power cut must have both: '{missing[-1]}' is missing in [day].")


RULES = (hours,)
