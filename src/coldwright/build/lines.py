"""On which line each key of a TOML text stands.

The text has already been read as TOML, so the scanner only has to follow its structure: table
headers, arrays of tables, dotted and quoted keys, inline tables and arrays over several lines. On a
text that is not TOML it stops early and knows fewer lines; it never fails.
"""

from __future__ import annotations

import contextlib
import tomllib
from collections.abc import Mapping

from coldwright.build.paths import Path

_BARE = frozenset("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_-")
_ENDS_OF_SCALAR = frozenset(",]}#\n\r")


def line_of(index: Mapping[Path, int], path: Path) -> int | None:
    """Return the line of `path`, or of the nearest table around it that stands in the text."""
    for length in range(len(path), 0, -1):
        if path[:length] in index:
            return index[path[:length]]
    return None


def line_index(text: str) -> dict[Path, int]:
    """Return the line (from 1) of every table, key and array item of `text`."""
    scanner = _Scanner(text)
    with contextlib.suppress(IndexError):  # ran off the end of a text that is not TOML
        scanner.document()
    return scanner.lines


class _Scanner:
    """A position in the text, the table it is in, and what was found so far."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.position = 0
        self.line = 1
        self.lines: dict[Path, int] = {}
        self.counts: dict[Path, int] = {}

    def document(self) -> None:
        """Follow the whole text."""
        table: Path = ()
        while True:
            self.blank()
            if self.position >= len(self.text):
                return
            if self.text[self.position] == "[":
                table = self.header()
            else:
                self.pair(table)

    def step(self) -> str:
        """Pass one character, counting lines. Raises IndexError at the end."""
        character = self.text[self.position]
        self.position += 1
        if character == "\n":
            self.line += 1
        return character

    def blank(self, *, newlines: bool = True) -> None:
        """Pass white space and comments."""
        while self.position < len(self.text):
            character = self.text[self.position]
            if character == "#":
                while self.position < len(self.text) and self.text[self.position] != "\n":
                    self.position += 1
            elif character in " \t" or (newlines and character in "\r\n"):
                self.step()
            else:
                return

    def header(self) -> Path:
        """Read `[table]` or `[[array of tables]]`; return the path that its keys hang from."""
        line = self.line
        many = self.text.startswith("[[", self.position)
        self.position += 2 if many else 1
        path = self.resolved(self.dotted("]"), last=not many)
        self.position += 2 if many else 1
        if many:
            count = self.counts.get(path, 0)
            self.counts[path] = count + 1
            self.note(path, line)
            path = (*path, count)
        self.note(path, line)
        return path

    def resolved(self, keys: list[str], *, last: bool) -> Path:
        """Return the path of a header: each array of tables on the way means its latest item."""
        path: Path = ()
        for number, key in enumerate(keys):
            path = (*path, key)
            if path in self.counts and (last or number < len(keys) - 1):
                path = (*path, self.counts[path] - 1)
        return path

    def pair(self, table: Path) -> None:
        """Read `key = value` of `table`."""
        line = self.line
        keys = self.dotted("=")
        self.position += 1
        for length in range(1, len(keys) + 1):
            self.note((*table, *keys[:length]), line)
        self.value((*table, *keys))

    def dotted(self, end: str) -> list[str]:
        """Read a dotted key up to the character `end`."""
        keys: list[str] = []
        while True:
            self.blank(newlines=False)
            character = self.text[self.position]
            if character == end:
                return keys
            if character in "\"'":
                start = self.position
                self.string()
                keys.append(_plain(self.text[start : self.position]))
            elif character in _BARE:
                start = self.position
                while self.text[self.position] in _BARE:
                    self.position += 1
                keys.append(self.text[start : self.position])
            else:
                self.step()  # the dot; anything else is no TOML, passed over

    def value(self, path: Path) -> None:
        """Read one value that stands at `path`."""
        self.blank(newlines=False)
        character = self.text[self.position]
        if character in "\"'":
            self.string()
        elif character == "[":
            self.step()
            self.items(path)
        elif character == "{":
            self.step()
            self.inline(path)
        else:
            while self.position < len(self.text):
                if self.text[self.position] in _ENDS_OF_SCALAR:
                    return
                self.position += 1

    def items(self, path: Path) -> None:
        """Read the items of an array up to its bracket."""
        number = 0
        while True:
            self.separators()
            if self.text[self.position] == "]":
                self.step()
                return
            self.note((*path, number), self.line)
            self.value((*path, number))
            number += 1

    def inline(self, path: Path) -> None:
        """Read an inline table up to its brace."""
        while True:
            self.separators()
            if self.text[self.position] == "}":
                self.step()
                return
            self.pair(path)

    def separators(self) -> None:
        """Pass blanks and commas."""
        self.blank()
        while self.text[self.position] == ",":
            self.step()
            self.blank()

    def string(self) -> None:
        """Pass a string of any of the four kinds."""
        quote = self.text[self.position]
        mark = quote * 3 if self.text.startswith(quote * 3, self.position) else quote
        self.position += len(mark)
        while not self.text.startswith(mark, self.position):
            if quote == '"' and self.text[self.position] == "\\":
                self.step()
            self.step()
        self.position += len(mark)
        while len(mark) == 3 and self.text.startswith(quote, self.position):
            self.position += 1  # up to two quotes may stand before the closing three

    def note(self, path: Path, line: int) -> None:
        """Remember the first line of `path`."""
        self.lines.setdefault(path, line)


def _plain(quoted: str) -> str:
    """Return the key that a quoted key means."""
    try:
        return next(iter(tomllib.loads(f"{quoted} = 0")))
    except tomllib.TOMLDecodeError:
        return quoted
