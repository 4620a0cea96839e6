"""Revisions: named sets of changes in the file, each upon the one above it.

A change names a key and its new value; a table merges, a list is replaced as a whole, one item is
reached by its place (`cabinet.layers[2].thickness`, the place after the last adds one), and the
text "remove" takes a key away.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from coldwright.build.completion import plain_copy
from coldwright.build.paths import Path, Tree, parse_path, path_text

REMOVE = "remove"
REVISION = "revision"


@dataclass(frozen=True)
class Change:
    """One change: where it stands in the file, the key it names, its value."""

    stands_at: Path
    key: str
    value: object


@dataclass(frozen=True)
class RevisionFault:
    """A change that cannot be made."""

    stands_at: Path
    message: str


def revision_names(tree: Mapping[str, object]) -> list[str]:
    """The names of the revisions of `tree` in order; an unnamed or malformed one is ''."""
    items = tree.get(REVISION)
    if not isinstance(items, list):
        return []
    names = [item.get("name", "") if isinstance(item, dict) else "" for item in items]
    return [name if isinstance(name, str) else "" for name in names]


def changes_of(tree: Mapping[str, object], place: int) -> list[Change]:
    """The changes of the revision at `place`, dotted and nested keys alike."""
    items = tree.get(REVISION)
    item = items[place] if isinstance(items, list) else None
    changes = item.get("changes") if isinstance(item, dict) else None
    if not isinstance(changes, dict):
        return []
    return list(_leaves(changes, (REVISION, place, "changes"), ""))


def _leaves(table: Mapping[str, object], stands_at: Path, prefix: str) -> Iterator[Change]:
    for key, value in table.items():
        name = f"{prefix}.{key}" if prefix else key
        if isinstance(value, dict) and value:
            yield from _leaves(value, (*stands_at, key), name)
        else:
            yield Change((*stands_at, key), name, value)


def apply_changes(
    tree: Tree, changes: list[Change], origins: dict[Path, Path]
) -> list[RevisionFault]:
    """Make `changes` in `tree`; note in `origins` where each changed key now stands in the file."""
    faults = []
    for change in changes:
        try:
            path = parse_path(change.key, tree)
            if path[0] in (REVISION, "format"):
                raise ValueError(f"{change.key!r} cannot be changed by a revision")
            _put(tree, path, change.value)
        except ValueError as error:
            message = f"Change of {change.key!r} cannot be made: {error}."
            faults.append(RevisionFault(change.stands_at, message))
        else:
            origins[path] = change.stands_at
    return faults


def _put(tree: Tree, path: Path, value: object) -> None:
    """Set or remove what stands at `path`, making the tables on the way."""
    here: object = tree
    for depth, step in enumerate(path[:-1]):
        empty: object = [] if isinstance(path[depth + 1], int) else {}
        here = _child(here, step, path[: depth + 1], empty)
    last = path[-1]
    if isinstance(last, int):
        if not isinstance(here, list) or last > len(here):
            raise ValueError(f"there is no {path_text(path)}")
        if value == REMOVE and last < len(here):
            del here[last]
        elif last == len(here):
            here.append(plain_copy(value))
        else:
            here[last] = plain_copy(value)
        return
    if not isinstance(here, dict):
        raise ValueError(f"{path_text(path[:-1])} is no table")
    if value == REMOVE:
        if last not in here:
            raise ValueError(f"there is no {path_text(path)} to remove")
        del here[last]
    else:
        here[last] = plain_copy(value)


def _child(here: object, step: str | int, path: Path, empty: object) -> object:
    if isinstance(step, str):
        if not isinstance(here, dict):
            raise ValueError(f"{path_text(path[:-1]) or 'the file'} is no table")
        return here.setdefault(step, empty)
    if not isinstance(here, list) or step > len(here):
        raise ValueError(f"there is no {path_text(path)}")
    if step == len(here):
        here.append(empty)
    return here[step]
