"""Edits as a form makes them: entries set, rows added and removed, in the body or in a revision.

Every edit is checked: what is written reads back as meant, and nothing else has changed.
"""

from __future__ import annotations

import datetime
from collections.abc import Mapping, MutableMapping
from dataclasses import dataclass, field

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import AoT, Array

from coldwright.build.completion import plain_copy
from coldwright.build.lines import line_index, line_of
from coldwright.build.paths import Path, Tree, lookup, parse_path, path_text
from coldwright.build.reading import parse_text
from coldwright.build.revisions import (
    REMOVE,
    REVISION,
    Change,
    apply_changes,
    changes_of,
    revision_names,
)
from coldwright.build.rewriting import for_field, rewrite
from coldwright.build.schema.walk import field_at
from coldwright.errors import Fault, InputError


@dataclass(frozen=True)
class Edit:
    """Entries to set (an empty text takes one out), a list to lengthen, a row to take out."""

    changes: Mapping[str, str] = field(default_factory=dict)
    add: str = ""
    remove: str = ""


def tree_at(text: str, revision: str | None) -> Tree:
    """The tree of `text` with the changes up to `revision`, as far as they can be made.

    Raises FileFault for text that is no TOML, InputError for a revision that is not there.
    """
    tree = parse_text(text)
    for place in range(_place(tree, revision) + 1):
        apply_changes(tree, changes_of(tree, place), {})
    return tree


def edited(text: str, edit: Edit, revision: str | None = None) -> str:
    """Return `text` with `edit` made in its body, or in the changes of `revision`.

    Comments and all other values stay. Raises FileFault for text that is no TOML, InputError for
    what cannot be set, or where the text is written in a way that does not let it be changed.
    """
    if revision is not None:
        return _in_revision(text, edit, revision)
    written = rewrite(text, edit.changes) if edit.changes else text
    tree = parse_text(text)
    touched = {parse_path(key, tree) for key in edit.changes}
    for key, value in edit.changes.items():
        if value == "":
            written = _without_empty_tables(written, parse_path(key, tree))
    _must_agree(tree, parse_text(written), touched)
    if edit.add:
        written = _with_row(written, edit.add)
    if edit.remove:
        written = _without(written, edit.remove)
    return written


def with_new_revision(text: str, name: str, date: datetime.date, why: str) -> str:
    """Return `text` with an empty revision `name` at its end. Raises InputError for a bad name."""
    tree = parse_text(text)
    name = name.strip()
    if not name or len(name) > 60:
        message = "Name of the revision must be given, in at most 60 characters."
        raise InputError(Fault("revision.name", message))
    if name in revision_names(tree):
        place = (REVISION, revision_names(tree).index(name), "name")
        message = f"Name of the revision must be new; received {name!r}."
        raise InputError(Fault("revision.name", message, line_of(line_index(text), place)))
    rows = {"name": name, "date": date.isoformat(), "why": " ".join(why.split())}
    block = ["[[revision]]"]
    block += [f"{key} = {tomlkit.item(value).as_string()}" for key, value in rows.items()]
    block += ["[revision.changes]"]
    end = "\r\n" if "\r\n" in text else "\n"
    written = text.rstrip() + end * 2 + end.join(block) + end
    parse_text(written)
    return written


def _place(tree: Tree, revision: str | None) -> int:
    if revision is None:
        return -1
    names = revision_names(tree)
    if revision not in names:
        raise InputError(Fault("revision", f"Revision '{revision}' does not stand in the file."))
    return names.index(revision)


def _document(text: str) -> tomlkit.TOMLDocument:
    return tomlkit.parse(text.removeprefix("\ufeff").replace("\r\n", "\n"))


def _dumped(document: tomlkit.TOMLDocument, like: str) -> str:
    written = tomlkit.dumps(document)
    return written.replace("\n", "\r\n") if "\r\n" in like else written


def _item_at(document: object, path: Path) -> object:
    here = document
    for step in path:
        here = here[step]  # type: ignore[index]  # a TOML container of any kind
    return here


def _without_empty_tables(text: str, path: Path) -> str:
    """Take out the tables around a cleared entry that hold nothing any more."""
    tree = parse_text(text)
    for length in range(len(path) - 1, 0, -1):
        around = path[:length]
        if isinstance(around[-1], int) or lookup(tree, around) != {}:
            return text
        document = _document(text)
        parent = _item_at(document, around[:-1])
        if isinstance(parent, MutableMapping):
            parent.pop(around[-1])
        text = _dumped(document, text)
        tree = parse_text(text)
    return text


def _with_row(text: str, key: str) -> str:
    """`text` with an empty row at the end of the list at `key`."""
    tree = parse_text(text)
    path = parse_path(key, tree)
    found = field_at(path)
    if found is None or found.section is None or not found.many:
        raise InputError(Fault(key, f"'{key}' is no list of rows."))
    document = _document(text)
    before = lookup(tree, path)
    count = len(before) if isinstance(before, list) else 0
    try:
        _append(document, path)
        written = _dumped(document, text)
        rows = lookup(parse_text(written), path)
    except (TOMLKitError, TypeError, KeyError, ValueError, InputError):
        rows = None
    if not isinstance(rows, list) or len(rows) != count + 1:
        raise InputError(_unwritable(key))
    _must_agree(tree, parse_text(written), {path})
    return written


def _append(document: tomlkit.TOMLDocument, path: Path) -> None:
    here: object = document
    for step in path[:-1]:
        if isinstance(here, MutableMapping) and step not in here:
            here[step] = tomlkit.table(is_super_table=True)
        here = here[step]  # type: ignore[index]  # a TOML container of any kind
    last = path[-1]
    if not isinstance(here, MutableMapping):
        raise TypeError
    if last not in here:
        # A row of an inline list is inline too.
        inline = isinstance(here, tomlkit.items.InlineTable)
        here[last] = tomlkit.array() if inline else tomlkit.aot()
    rows = here[last]
    if isinstance(rows, AoT):
        rows.append(tomlkit.table())
    elif isinstance(rows, Array):
        rows.append(tomlkit.inline_table())
    else:
        raise TypeError


def _without(text: str, key: str) -> str:
    """`text` without the row, or without the table that may be left out, at `key`."""
    tree = parse_text(text)
    path = parse_path(key, tree)
    place = path[-1]
    if isinstance(place, int):
        return _without_row(text, tree, path, place)
    found = field_at(path)
    if found is None or found.section is None or found.required or lookup(tree, path) is None:
        raise InputError(Fault(key, f"There is no table '{key}' that may be left out."))
    document = _document(text)
    parent = _item_at(document, path[:-1])
    if isinstance(parent, MutableMapping):
        parent.pop(path[-1])
    written = _dumped(document, text)
    _must_agree(tree, parse_text(written), {path})
    return written


def _without_row(text: str, tree: Tree, path: Path, place: int) -> str:
    """`text`, whose tree is `tree`, without the row at `path`, which ends with its `place`."""
    key = path_text(path)
    if lookup(tree, path) is None:
        raise InputError(Fault(key, f"There is no row '{key}'."))
    document = _document(text)
    rows = _item_at(document, path[:-1])
    wanted = lookup(tree, path[:-1])
    if not isinstance(rows, AoT | Array) or not isinstance(wanted, list):
        raise InputError(_unwritable(key))
    del rows[place]
    del wanted[place]  # of `tree`, which is now as the text must be
    if not wanted:
        parent = _item_at(document, path[:-2])
        if isinstance(parent, MutableMapping):
            parent.pop(path[-2])
    written = _dumped(document, text)
    _must_agree(tree, parse_text(written), {path[:-1]} if not wanted else set())
    return written


def _in_revision(text: str, edit: Edit, revision: str) -> str:
    """The edit as changes of `revision`, each upon all that stand before it."""
    tree = parse_text(text)
    place = _place(tree, revision)
    document = _document(text)
    changes = _item_at(document, (REVISION, place))
    if not isinstance(changes, MutableMapping):
        raise InputError(_unwritable(f"revision '{revision}'"))
    if "changes" not in changes:
        changes["changes"] = tomlkit.table()
    table = changes["changes"]
    before = tree_at(text, revision)
    for key, value in edit.changes.items():
        path = parse_path(key, before)
        name = path_text(path)
        table.pop(name, None)
        if value != "":
            table[name] = for_field(path, value)
        elif lookup(_unchanged(text, revision, name), path) is not None:
            table[name] = REMOVE
    if edit.add:
        rows = lookup(before, parse_path(edit.add, before))
        count = len(rows) if isinstance(rows, list) else 0
        table[f"{edit.add}[{count + 1}]"] = tomlkit.inline_table()
    if edit.remove:
        table.pop(edit.remove, None)
        if lookup(_unchanged(text, revision, edit.remove), parse_path(edit.remove, before)):
            table[edit.remove] = REMOVE
    written = _dumped(document, text)
    tree_at(written, revision)
    return written


def _unchanged(text: str, revision: str, name: str) -> Tree:
    """The tree at `revision` as if its change of `name` were not made."""
    tree = parse_text(text)
    last = _place(tree, revision)
    for place in range(last + 1):
        changes: list[Change] = changes_of(tree, place)
        if place == last:
            changes = [each for each in changes if each.key != name]
        apply_changes(tree, changes, {})
    return tree


def _must_agree(old: Tree, new: Tree, touched: set[Path]) -> None:
    """Refuse a text in which anything but `touched` has changed."""
    left, right = (_bare(tree, touched) for tree in (old, new))
    if left != right:
        raise InputError(_unwritable(", ".join(sorted(path_text(path) for path in touched))))


def _bare(tree: Tree, touched: set[Path]) -> object:
    """A copy of `tree` without the `touched` places and without empty tables."""
    copy = plain_copy(tree)
    for path in touched:
        parent = lookup(copy, path[:-1])
        if isinstance(parent, dict) and isinstance(path[-1], str):
            parent.pop(path[-1], None)
        elif isinstance(parent, list) and isinstance(path[-1], int) and path[-1] < len(parent):
            parent[path[-1]] = None
    return _pruned(copy)


def _pruned(value: object) -> object:
    if isinstance(value, dict):
        found = {key: _pruned(each) for key, each in value.items()}
        return {key: each for key, each in found.items() if each != {}}
    return [_pruned(each) for each in value] if isinstance(value, list) else value


def _unwritable(key: str) -> Fault:
    message = f"Entry '{key}' cannot be changed here without touching others."
    return Fault(key, message, None, "change it in the file with a text editor")
