"""From a file to its TOML tree, or to one plain sentence why not."""

from __future__ import annotations

import os
import re
import tomllib
from pathlib import Path as FilePath

from coldwright.build.paths import Tree
from coldwright.errors import Fault, FileFault

GREATEST_SIZE = 1_000_000  # bytes; a build file holds a few thousand
DEEPEST = 16  # tables within tables; a build file needs five
_PLACE = re.compile(
    r"^(?P<what>.*?) \(at (?:line (?P<line>\d+), column (?P<column>\d+)|end of document)\)$"
)


def read_text(path: str | os.PathLike[str]) -> str:
    """Return the text of the file at `path`, without a byte order mark, line ends as they stand.

    Raises FileFault when it is missing, no file, too large or not UTF-8 text.
    """
    name = os.fspath(path)
    try:
        file = FilePath(path)
        if file.is_dir():
            raise _fault(name, "is a folder, not a build file")
        with file.open("rb") as stream:
            data = stream.read(GREATEST_SIZE + 1)
    except FileNotFoundError:
        raise _fault(name, "does not exist", "check the name, or begin from a starter") from None
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) else str(error)
        raise _fault(name, f"cannot be read: {reason}") from None
    if len(data) > GREATEST_SIZE:
        raise _fault(name, "is larger than 1 MB, so it is no build file")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        hint = "save it as UTF-8 text"
        raise _fault(name, "is not UTF-8 text", hint, line) from None


def parse_text(text: str, *, name: str = "the build text") -> Tree:
    """Return the tree of the TOML `text`. Raises FileFault when it is empty or malformed."""
    plain = text.removeprefix("\ufeff").replace("\r\n", "\n")
    if not plain.strip():
        raise _fault(name, "is empty", "begin from a starter")
    try:
        tree = tomllib.loads(plain)
    except tomllib.TOMLDecodeError as error:
        raise _malformed(name, plain, str(error)) from None
    except RecursionError:
        raise _fault(name, "is nested too deeply to be a build file") from None
    except ValueError as error:  # a number or date that Python cannot hold
        raise _fault(name, f"holds a value that cannot be read: {error}") from None
    if _deeper_than(tree, DEEPEST):
        raise _fault(name, "is nested too deeply to be a build file")
    return tree


def _deeper_than(value: object, depth: int) -> bool:
    """Whether tables and lists are nested more than `depth` deep."""
    if isinstance(value, dict):
        return depth == 0 or any(_deeper_than(item, depth - 1) for item in value.values())
    if isinstance(value, list):
        return depth == 0 or any(_deeper_than(item, depth - 1) for item in value)
    return False


def _malformed(name: str, text: str, message: str) -> FileFault:
    found = _PLACE.match(message)
    what = (found["what"] if found else message).rstrip(".")
    what = what[:1].lower() + what[1:]
    if what == r"illegal character '\n'":
        what = "a text in quotes does not end on its line"
    if found and found["line"]:
        line = int(found["line"])
        place = f"at column {found['column']}"
    else:
        line = text.rstrip("\n").count("\n") + 1
        place = "at its end"
    hint = 'text values stand in quotes: air_temperature = "2 °C"'
    return _fault(name, f"is not valid TOML {place}: {what}", hint, line)


def _fault(name: str, what: str, hint: str = "", line: int | None = None) -> FileFault:
    shown = name if name.startswith("the ") else f"'{name}'"
    subject = "The build text" if name == "the build text" else f"File {shown}"
    return FileFault(Fault(name, f"{subject} {what}.", line, hint))
