"""What is different between two texts of a build: entry by entry, for a person to judge."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from coldwright.build.paths import Path, Tree, path_text, spoken


@dataclass(frozen=True)
class Difference:
    """One entry as it stands on either side; empty where it does not."""

    field: str
    before: str
    after: str
    words: str  # the entry as a sentence begins with it


def differences(before: Tree, after: Tree) -> tuple[Difference, ...]:
    """Entries that are not the same in both trees, in the order of the first, then the second."""
    left, right = dict(leaves(before)), dict(leaves(after))
    words = {
        path_text(path): spoken(path, tree)
        for tree in (after, before)
        for path, _ in _walk(tree, ())
    }
    return tuple(
        Difference(key, left.get(key, ""), right.get(key, ""), words[key])
        for key in dict.fromkeys((*left, *right))
        if left.get(key) != right.get(key)
    )


def leaves(tree: Mapping[str, object]) -> Iterator[tuple[str, str]]:
    """Every single entry by its dotted path, as text."""
    for path, value in _walk(tree, ()):
        yield path_text(path), value


def _walk(value: object, path: Path) -> Iterator[tuple[Path, str]]:
    if isinstance(value, Mapping):
        for key, each in value.items():
            yield from _walk(each, (*path, key))
    elif isinstance(value, list) and any(isinstance(each, Mapping) for each in value):
        for place, each in enumerate(value):
            yield from _walk(each, (*path, place))
    elif isinstance(value, list):
        yield path, ", ".join(str(each) for each in value)
    else:
        yield path, str(value)


def carried_over(base: Tree, mine: Tree, theirs: Tree) -> dict[str, str] | None:
    """The entries that lead from `base` to `mine`, to be set in `theirs`.

    None where they cannot be set one by one: rows were added, taken out or changed by both, or a
    revision changed.
    """
    found = differences(base, mine)
    known, own, other = (dict(leaves(tree)) for tree in (base, mine, theirs))
    for each in found:
        if each.field.startswith("revision"):
            return None
        rows, mark, _ = each.field.partition("[")
        # In a list only a place tells which row is meant: theirs must be as they were.
        if mark and not (
            _below(rows, known) == _below(rows, other)
            and _below(rows, known).keys() == _below(rows, own).keys()
        ):
            return None
    return {each.field: each.after for each in found}


def _below(rows: str, entries: Mapping[str, str]) -> dict[str, str]:
    """Entries of the rows of one list."""
    return {name: value for name, value in entries.items() if name.startswith(f"{rows}[")}
