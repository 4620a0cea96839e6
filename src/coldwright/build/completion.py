"""Filling in what the maker left out, and remembering that it was filled in."""

from __future__ import annotations

from collections.abc import Iterator

from coldwright.build.defaults import ALWAYS, DEFAULTS
from coldwright.build.paths import Path, Tree, lookup
from coldwright.build.schema.fields import Measure
from coldwright.build.schema.walk import field_at
from coldwright.errors import InputError


def plain_copy(value: object) -> object:
    """Return a deep copy of a tree of plain dicts, lists and values."""
    if isinstance(value, dict):
        return {str(key): plain_copy(item) for key, item in value.items()}
    if isinstance(value, list):
        return [plain_copy(item) for item in value]
    return value


class Completion:
    """The tree of a build while it is being completed.

    `sources` maps each key that was filled in to where its value comes from; `pending` holds keys
    that would be filled in if the entries they follow from were known; `looked_up` holds keys that
    follow from a name which the maker wrote, so that nothing is assumed in them.
    """

    def __init__(self, tree: Tree) -> None:
        """Copy `tree`; the caller's stays as it is."""
        self.tree: Tree = {key: plain_copy(value) for key, value in tree.items()}
        self.sources: dict[Path, str] = {}
        self.pending: set[Path] = set()
        self.looked_up: set[Path] = set()

    def table(self, path: Path) -> Tree | None:
        """The table at `path`, or None when there is none (or it is no table)."""
        found = lookup(self.tree, path)
        return found if isinstance(found, dict) else None

    def has(self, path: Path) -> bool:
        """Whether anything stands at `path`."""
        return lookup(self.tree, path) is not None

    def text(self, path: Path) -> str:
        """The text at `path`, empty when there is none."""
        found = lookup(self.tree, path)
        return found if isinstance(found, str) else ""

    def number(self, path: Path) -> float | None:
        """The value at `path` [SI], or None when it is missing or faulty."""
        given = lookup(self.tree, path)
        field = field_at(path)
        if given is None or field is None or not isinstance(field.note, Measure):
            return None
        try:
            return field.note.read(given, subject="It").value
        except InputError:
            return None

    def numbers(self, *paths: Path) -> tuple[float, ...] | None:
        """The values at all `paths` [SI], or None when one is missing or faulty."""
        found = [self.number(path) for path in paths]
        known = [value for value in found if value is not None]
        return tuple(known) if len(known) == len(found) else None

    def items(self, path: Path) -> Iterator[Path]:
        """The paths of the tables in the list at `path`."""
        found = lookup(self.tree, path)
        if isinstance(found, list):
            for index, item in enumerate(found):
                if isinstance(item, dict):
                    yield (*path, index)

    def fill(self, path: Path, value: object | None, source: str, *, silent: bool = False) -> None:
        """Put `value` at `path` unless something stands there; None makes it pending."""
        parent = self.table(path[:-1])
        key = path[-1]
        if parent is None or not isinstance(key, str) or key in parent:
            return
        if value is None:
            self.pending.add(path)
            return
        parent[key] = value
        if silent:
            self.looked_up.add(path)
        elif value != "":
            self.sources[path] = source

    def refine(self, path: Path, value: object, source: str) -> None:
        """Put a better `value` where one was only assumed; what the maker wrote stays."""
        parent = self.table(path[:-1])
        key = path[-1]
        if parent is not None and isinstance(key, str) and path in self.sources:
            parent[key] = value
            self.sources[path] = source

    def make_tables(self) -> None:
        """Make the tables that every build has."""
        for name in ALWAYS:
            path = tuple(name.split("."))
            parent = self.table(path[:-1])
            if parent is not None:
                parent.setdefault(path[-1], {})

    def take_defaults(self) -> None:
        """Fill in the table of defaults."""
        for default in DEFAULTS:
            if default.only and self.text(tuple(default.only[0].split("."))) != default.only[1]:
                continue
            head, mark, tail = default.path.partition("[].")
            if mark:
                for item in list(self.items(tuple(head.split(".")))):
                    self.fill((*item, *tail.split(".")), default.value, default.source)
            else:
                self.fill(tuple(default.path.split(".")), default.value, default.source)
