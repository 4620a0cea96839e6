"""Faults of the schema put into one plain sentence each, with line and hint."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from coldwright.build.completion import Completion
from coldwright.build.paths import Path, path_text, spoken
from coldwright.build.schema.fields import MEASURE_FAULT, NAME_FAULT, Measure, nearest_hint
from coldwright.build.schema.walk import field_at, keys_below
from coldwright.errors import Fault, InputError


class LineFinder(Protocol):
    """Finds the line of a path."""

    def __call__(self, path: Path) -> int | None:
        """Return the line of `path`, or None."""


_WANTED = {
    "string_type": 'text in quotes, such as "{example}"',
    "float_type": "a number",
    "float_parsing": "a number",
    "finite_number": "a finite number",
    "int_type": "a whole number",
    "tuple_type": "a list in square brackets",
    "dict_type": "a table of keys and values",
    "model_type": "a table of keys and values",
    "model_attributes_type": "a table of keys and values",
}


def schema_faults(error: ValidationError, build: Completion, line: LineFinder) -> list[Fault]:
    """Return the faults of `error`; entries that only wait for a faulty one are left out."""
    faults = []
    missing_tubes: set[Path] = set()
    for detail in error.errors(include_url=False):
        path: Path = tuple(detail["loc"])
        if _only_counts_faulty_items(detail):
            continue
        if detail["type"] == "missing":
            if path in build.pending:
                continue
            if path[-1] in ("outside_diameter", "wall_thickness"):
                missing_tubes.add(path[:-1])
                continue
        faults.append(_fault(detail, path, build, line))
    for path in sorted(missing_tubes):
        place = (*path, "size")
        message = f"{spoken(place, build.tree)} must be given."
        hint = 'a stock tube such as size = "1/4 in", or outside_diameter and wall_thickness'
        faults.append(Fault(path_text(place), message, line(place), hint))
    return faults


def _only_counts_faulty_items(detail: ErrorDetails) -> bool:
    """Whether a list is called too short because its items, told already, are faulty."""
    given = detail["input"]
    if detail["type"] != "too_short" or not isinstance(given, tuple | list):
        return False
    return len(given) >= int(detail.get("ctx", {}).get("min_length", 0))


def _fault(detail: ErrorDetails, path: Path, build: Completion, line: LineFinder) -> Fault:
    kind, given = detail["type"], detail["input"]
    subject, place = spoken(path, build.tree), line(path)
    if kind == "literal_error":
        return _choice_fault(path, given, subject, place)
    measure = detail.get("ctx", {}).get("measure")
    if kind == MEASURE_FAULT and isinstance(measure, Measure):
        return _measure_fault(measure, given, subject, path_text(path), place)
    message, hint = _sentence(detail, path, build, subject)
    return Fault(path_text(path), message, place, hint)


def _sentence(detail: ErrorDetails, path: Path, build: Completion, subject: str) -> tuple[str, str]:
    """The sentence and the hint of a fault that is neither a quantity nor a choice."""
    kind, given = detail["type"], detail["input"]
    context: Mapping[str, object] = detail.get("ctx", {})
    if kind == NAME_FAULT:
        message = f"{subject} must be a known {context['what']}; received {_shown(given)}."
        return message, str(context["hint"])
    if kind == "extra_forbidden":
        where = spoken(path[:-1], build.tree) if len(path) > 1 else "the build file"
        message = f"Key '{path[-1]}' is not known in {where[:1].lower()}{where[1:]}."
        return message, nearest_hint(str(path[-1]), keys_below(path[:-1]))
    if kind == "missing":
        note = _note(path)
        if path == ("format",):
            return f"{subject} must be given.", "write format = 1 without quotes"
        return f"{subject} must be given.", f"such as {path[-1]} = {note}" if note else ""
    if kind in ("too_short", "too_long"):
        limit = context.get("min_length", context.get("max_length", "?"))
        received = len(given) if isinstance(given, tuple | list) else _shown(given)
        return f"{subject} must hold {limit} numbers; received {received}.", ""
    wanted = _WANTED.get(kind, "of another type").format(example=_example(path))
    return f"{subject} must be {wanted}; received {_shown(given)}.", ""


def _measure_fault(
    measure: Measure, given: object, subject: str, field: str, place: int | None
) -> Fault:
    """Read the value once more, now with its name at hand, for the sentence."""
    try:
        measure.read(given, subject=subject, field=field)
    except InputError as error:
        found = error.faults[0]
        return Fault(field, found.message, place, found.hint)
    return Fault(field, f"{subject} cannot be read; received {_shown(given)}.", place)


def _choice_fault(path: Path, given: object, subject: str, place: int | None) -> Fault:
    found = field_at(path)
    choices = tuple(str(choice) for choice in found.choices) if found is not None else ()
    if path == ("format",):
        message = f"Format must be 1, the only format that this version reads; received {given!r}."
        return Fault("format", message, place, "write format = 1 without quotes")
    message = f"{subject} must be {_either(choices)}; received {_shown(given)}."
    hint = nearest_hint(given, choices) if isinstance(given, str) else ""
    return Fault(path_text(path), message, place, hint if hint.startswith("did") else "")


def _either(choices: tuple[str, ...]) -> str:
    quoted = [repr(choice) if not choice.isdigit() else choice for choice in choices]
    return f"{', '.join(quoted[:-1])} or {quoted[-1]}" if len(quoted) > 1 else "".join(quoted)


def _shown(given: object) -> str:
    if isinstance(given, bool):
        return "true" if given else "false"
    if isinstance(given, dict):
        return "a table"
    if isinstance(given, tuple | list):
        return "a list"
    text = repr(given) if isinstance(given, str | int | float) else f"'{given}'"
    return text if len(text) <= 60 else f"{text[:57]}..."


def _example(path: Path) -> str:
    found = field_at(path)
    return found.note.example if found is not None else ""


def _note(path: Path) -> str:
    found = field_at(path)
    if found is None or not found.note.example or found.section is not None:
        return ""
    return f'"{found.note.example}"' if not found.many else found.note.example
