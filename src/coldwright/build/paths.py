"""Paths of keys inside a build file: `cabinet.layers[2].thickness` and back.

Inside the package a path is a tuple of keys and of places counted from 0. A person reads and
writes places counted from 1; an item that carries a `name` may also be called by it, as in
`cabinet.faces[back]`.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

Path = tuple[str | int, ...]
Tree = dict[str, object]

_STEP = re.compile(r"([^.\[\]]+)((?:\[[^\[\]]*\])*)(\.|$)")
_PLACE = re.compile(r"\[([^\[\]]*)\]")


def path_text(path: Path) -> str:
    """Return `path` as a person writes it, places counted from 1."""
    text = ""
    for step in path:
        if isinstance(step, int):
            text += f"[{step + 1}]"
        else:
            text += f".{step}" if text else step
    return text


def parse_path(text: str, tree: Mapping[str, object]) -> Path:
    """Return the path that `text` means; names in brackets are looked up in `tree`.

    Raises ValueError, with a sentence for the maker, when the text is no path or a name is unknown.
    """
    path: list[str | int] = []
    position = 0
    while position < len(text):
        step = _STEP.match(text, position)
        if step is None or (step[3] == "." and step.end() == len(text)):
            raise ValueError(f"{text!r} is not a dotted key such as cabinet.layers[2].thickness")
        path.append(step[1].strip())
        for place in _PLACE.findall(step[2]):
            path.append(_place(place.strip(), tuple(path), tree, text))
        position = step.end()
    if not path:
        raise ValueError("a dotted key is empty")
    return tuple(path)


def _place(place: str, parent: Path, tree: Mapping[str, object], text: str) -> int:
    if place.isascii() and place.isdigit() and 0 < len(place) < 5 and int(place) > 0:
        return int(place) - 1
    items = lookup(tree, parent)
    if isinstance(items, Sequence):
        for index, item in enumerate(items):
            if isinstance(item, Mapping) and item.get("name") == place:
                return index
    raise ValueError(f"{text!r} has no item [{place}]; count from 1 or give an item's name")


def lookup(tree: object, path: Path) -> object | None:
    """Return what stands at `path` in `tree`, or None."""
    here = tree
    for step in path:
        if isinstance(step, int):
            if not isinstance(here, list | tuple) or step >= len(here):
                return None
            here = here[step]
        else:
            if not isinstance(here, Mapping) or step not in here:
                return None
            here = here[step]
    return here


def spoken(path: Path, tree: object) -> str:
    """Return a name for `path` to open a sentence: `Thickness of cabinet face 'back' layer 1`."""
    words: list[str] = []
    for index, step in enumerate(path):
        if isinstance(step, int):
            item = lookup(tree, path[: index + 1])
            name = item.get("name") if isinstance(item, Mapping) else None
            if words and words[-1].endswith("s"):
                words[-1] = words[-1][:-1]
            words.append(f"'{name}'" if isinstance(name, str) and name else str(step + 1))
        else:
            words.append(step.replace("_", " "))
    if not words:
        return "The build file"
    if len(words) == 1:
        return _capital(words[0])
    if isinstance(path[-1], int):
        return _capital(" ".join(words))
    return f"{_capital(words[-1])} of {' '.join(words[:-1])}"


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
