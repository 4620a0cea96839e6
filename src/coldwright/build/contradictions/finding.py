"""One contradiction, before it has its line."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.build.completion import Completion
from coldwright.build.paths import Path, lookup, spoken
from coldwright.build.schema.fields import Measure
from coldwright.build.schema.walk import field_at
from coldwright.units import Kind, format_quantity


@dataclass(frozen=True)
class Finding:
    """The entry to change, one sentence, and a hint."""

    path: Path
    message: str
    hint: str = ""


def must(build: Completion, path: Path, demand: str, hint: str = "") -> Finding:
    """State what the entry at `path` must do, and what was received instead."""
    subject = spoken(path, build.tree)
    return Finding(path, f"{subject} must {demand}; received {given(build, path)}.", hint)


def given(build: Completion, path: Path) -> str:
    """What stands at `path`: the maker's own text, or the value that was assumed."""
    found = lookup(build.tree, path)
    text = f"'{found}'" if isinstance(found, str) else f"{found}"
    return f"{text} (assumed)" if path in build.sources else text


def length(value: float) -> str:
    """Return a length [m] as text."""
    return format_quantity(value, Kind.length, "si")


def shown(build: Completion, path: Path) -> str:
    """The value at `path` in SI units, for a hint."""
    field, value = field_at(path), build.number(path)
    if field is None or value is None or not isinstance(field.note, Measure):
        return "not known"
    return format_quantity(value, field.note.term.kind, "si")
