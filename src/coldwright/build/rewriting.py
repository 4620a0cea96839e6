"""Writing to a build file without losing a comment, and without ever leaving half a file."""

from __future__ import annotations

import contextlib
import datetime
import os
import tempfile
from collections.abc import Mapping, MutableMapping
from pathlib import Path as FilePath

import tomlkit
from tomlkit.container import Container
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import AoT, Array, Item

from coldwright.build.lines import line_index, line_of
from coldwright.build.paths import Path, parse_path, path_text
from coldwright.build.reading import parse_text
from coldwright.build.revisions import revision_names
from coldwright.build.schema.walk import field_at
from coldwright.errors import Fault, InputError


def rewrite(text: str, changes: Mapping[str, str]) -> str:
    """Return `text` with each dotted key of `changes` set to its new text.

    Comments, order and all other values stay. An entry that holds a number keeps holding a number
    if the new text is one; an empty text takes the key out, so that its default holds again. Raises
    FileFault for text that is no TOML, InputError for keys that cannot be set.
    """
    tree = parse_text(text)
    crlf = "\r\n" in text
    document = tomlkit.parse(text.removeprefix("\ufeff").replace("\r\n", "\n"))
    faults = []
    for key, value in changes.items():
        try:
            _set(document, parse_path(key, tree), value)
        except (ValueError, TOMLKitError) as error:
            faults.append(Fault(key, f"Entry '{key}' cannot be set: {error}."))
    if faults:
        raise InputError(*faults)
    written = tomlkit.dumps(document)
    parse_text(written)  # what was written can be read again
    return written.replace("\n", "\r\n") if crlf else written


def _set(document: Container, path: Path, value: str) -> None:
    here: object = document
    for depth, step in enumerate(path[:-1]):
        here = _step(here, step, path[: depth + 1], last=depth == len(path) - 2)
    key = path[-1]
    if isinstance(key, int):
        if not isinstance(here, Array) or key >= len(here):
            raise ValueError(f"there is no {path_text(path)}")
        here[key] = _typed(here[key], value)
        return
    if not isinstance(here, MutableMapping):
        raise ValueError(f"{path_text(path[:-1])} is no table")
    old = here.get(key)
    field = field_at(path)
    numbers = field is not None and field.numbers
    if isinstance(old, Mapping | list) and not numbers:
        raise ValueError("it is a table or a list, not a single entry")
    if value == "":
        here.pop(key, None)
    elif old is None or numbers:
        here[key] = for_field(path, value)
    else:
        here[key] = _typed(old, value)


def _step(here: object, step: str | int, path: Path, *, last: bool) -> object:
    """Go down one step, making a missing table on the way."""
    if isinstance(step, int):
        if not isinstance(here, AoT | Array) or step >= len(here):
            raise ValueError(f"there is no {path_text(path)}")
        return here[step]
    if not isinstance(here, MutableMapping):
        raise ValueError(f"{path_text(path[:-1])} is no table")
    if step not in here:
        here[step] = tomlkit.table(is_super_table=not last)
    return here[step]


def _typed(old: object, value: str) -> int | float | bool | str:
    """The new value in the type of the old one where that is possible."""
    if isinstance(old, bool) or not isinstance(old, int | float):
        return value
    with contextlib.suppress(ValueError):
        return int(value)
    with contextlib.suppress(ValueError):
        return float(value)
    return value


def for_field(path: Path, value: str) -> int | str | list[float | str]:
    """The value as the field at `path` wants it: whole numbers and lists of numbers, else text."""
    field = field_at(path)
    if field is None:
        return value
    if field.numbers:
        return [_number(each.strip()) for each in value.strip("[] ").split(",")]
    if field.whole and value.strip().isdecimal():
        return int(value)
    wanted = {str(choice): choice for choice in field.choices if isinstance(choice, int)}
    return wanted.get(value, value)


def _number(text: str) -> float | str:
    try:
        return float(text)
    except ValueError:
        return text


def add_revision(
    text: str, name: str, date: datetime.date | str, why: str, changes: Mapping[str, str]
) -> str:
    """Return `text` with a revision appended that makes `changes` upon all before it.

    Raises InputError when the name is empty or taken, or nothing changes; FileFault when the text
    is no TOML. Whether the changed box makes sense is for `loads(..., revision=name)` to say.
    """
    tree = parse_text(text)
    faults = []
    if not name.strip():
        faults.append(Fault("revision.name", "Name of the revision must be given."))
    if name in revision_names(tree):
        line = line_of(line_index(text), ("revision", revision_names(tree).index(name), "name"))
        message = f"Name of the revision must be new; received {name!r}."
        faults.append(Fault("revision.name", message, line))
    if not changes:
        faults.append(Fault("revision.changes", "A revision must change at least one entry."))
    values: dict[str, int | str | list[float | str]] = {}
    for key, value in changes.items():
        try:
            values[key] = for_field(parse_path(key, tree), value)
        except ValueError as error:
            faults.append(Fault(f"revision.changes.{key}", f"Change cannot be made: {error}."))
    if faults:
        raise InputError(*faults)
    rows = {"name": name, "date": str(date), "why": why}
    block = ["[[revision]]"]
    block += [f"{key} = {_text(value)}" for key, value in rows.items()]
    block += ["[revision.changes]"]
    block += [f"{_text(key)} = {_text(value)}" for key, value in values.items()]
    end = "\r\n" if "\r\n" in text else "\n"
    written = text.rstrip() + end * 2 + end.join(block) + end
    parse_text(written)
    return written


def _text(value: int | str | list[float | str]) -> str:
    item: Item = tomlkit.item(value)
    return item.as_string()


def save(path: str | os.PathLike[str], content: str | bytes) -> None:
    """Write `content` to `path` as a whole or not at all, keeping the file's permissions.

    A link is followed, so that the file it points to is replaced. Raises OSError when the disk or
    folder refuses; the old file is then untouched.
    """
    target = FilePath(path).resolve()
    mode = target.stat().st_mode & 0o7777 if target.exists() else 0o666 & ~_umask()
    handle, name = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.", suffix=".part")
    part = FilePath(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content.encode("utf-8") if isinstance(content, str) else content)
            stream.flush()
            os.fsync(stream.fileno())
        part.chmod(mode)
        part.replace(target)
    except BaseException:
        part.unlink(missing_ok=True)
        raise
    _sync_folder(target.parent)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _sync_folder(folder: FilePath) -> None:
    """Make the new name durable, where the system can open a folder."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
