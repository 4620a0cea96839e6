"""Finding a field by its path, and walking over all fields of the models."""

from __future__ import annotations

import types
import typing
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from pydantic.fields import FieldInfo

from coldwright.build.paths import Path
from coldwright.build.schema.document import Document
from coldwright.build.schema.fields import Measure, Named, Section, Text


@dataclass(frozen=True)
class Field:
    """A key of a section: what it is, and what stands below it."""

    key: str
    note: Measure | Named | Text
    section: type[Section] | None
    many: bool
    required: bool
    choices: tuple[object, ...]
    whole: bool = False  # a bare whole number, not text

    @property
    def numbers(self) -> bool:
        """Whether it is a list of bare numbers."""
        return self.many and self.section is None


@cache
def fields_of(section: type[Section]) -> dict[str, Field]:
    """The fields of `section` by the key that stands in the file."""
    return {
        info.alias or name: _field(info.alias or name, info)
        for name, info in section.model_fields.items()
    }


def _field(key: str, info: FieldInfo) -> Field:
    note = next(item for item in info.metadata if isinstance(item, Measure | Named | Text))
    below, many, choices = _inside(info.annotation)
    whole = int in (info.annotation, *typing.get_args(info.annotation))
    return Field(key, note, below, many, info.is_required(), choices, whole)


def _inside(annotation: object) -> tuple[type[Section] | None, bool, tuple[object, ...]]:
    """The section within `annotation`, whether there are many, and the fixed choices."""
    origin = typing.get_origin(annotation)
    arguments = typing.get_args(annotation)
    if origin is typing.Literal:
        return None, False, arguments
    if origin in (types.UnionType, typing.Union, tuple, typing.Annotated):
        for argument in arguments:
            below, many, choices = _inside(argument)
            if below is not None or choices:
                return below, many or origin is tuple, choices
        return None, origin is tuple, ()
    if isinstance(annotation, type) and issubclass(annotation, Section):
        return annotation, False, ()
    return None, False, ()


def field_at(path: Path) -> Field | None:
    """The field that stands at `path`, or None for an unknown key or a place in a list."""
    section: type[Section] | None = Document
    found: Field | None = None
    for step in path:
        if isinstance(step, int):
            continue
        if section is None:
            return None
        found = fields_of(section).get(step)
        if found is None:
            return None
        section = found.section
    return found if path and isinstance(path[-1], str) else None


def keys_below(path: Path) -> tuple[str, ...]:
    """The keys that may stand in the table at `path`."""
    section: type[Section] | None = Document
    for step in path:
        if isinstance(step, str):
            found = fields_of(section).get(step) if section is not None else None
            section = found.section if found is not None else None
    return tuple(fields_of(section)) if section is not None else ()


def all_fields(section: type[Section] = Document, prefix: str = "") -> Iterator[tuple[str, Field]]:
    """Every key with its path, `[]` standing for the places of a list."""
    for key, field in fields_of(section).items():
        path = f"{prefix}.{key}" if prefix else key
        yield path, field
        if field.section is not None:
            yield from all_fields(field.section, f"{path}[]" if field.many else path)
