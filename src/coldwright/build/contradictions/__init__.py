"""Entries that are each possible but not together: one file for each part of the box.

Every rule reads what it needs and stays silent while an entry is missing or faulty, so that all
faults of a file can be reported at once.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from coldwright.build.completion import Completion
from coldwright.build.contradictions import (
    circuit,
    cold_side,
    condenser,
    day,
    holdover,
    machine,
    room,
    vessel,
)
from coldwright.build.contradictions.finding import Finding

Rule = Callable[[Completion], Iterator[Finding]]

RULES: tuple[Rule, ...] = (
    *room.RULES,
    *cold_side.RULES,
    *vessel.RULES,
    *holdover.RULES,
    *machine.RULES,
    *condenser.RULES,
    *circuit.RULES,
    *day.RULES,
)


def contradictions(build: Completion) -> list[Finding]:
    """All contradictions of `build`."""
    return [finding for rule in RULES for finding in rule(build)]
