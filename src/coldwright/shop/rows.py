"""Reading the stock tables beside this package, and finding a row by its name."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from functools import cache, lru_cache
from importlib.resources import files
from typing import Any, TypeVar

from coldwright.errors import InputError, unknown_name

Row = TypeVar("Row")


@cache
def table(file_name: str) -> Mapping[str, Any]:
    """The stock table `file_name` of the data folder, as TOML gives it."""
    text = files("coldwright.shop").joinpath("data", file_name).read_text(encoding="utf-8")
    return tomllib.loads(text)


@lru_cache(maxsize=2048)
def plain(name: str) -> str:
    """`name` as a person may vary it: lower case, single spaces, inch marks spelled `in`."""
    spelled = name.lower().replace('"', " in").replace("″", " in").replace("×", "x")  # noqa: RUF001
    return " ".join(spelled.replace("inch", "in").split())


def find(rows: Mapping[str, Row], name: str, *, what: str, field: str) -> Row:
    """Return the row called `name`. Raises InputError with the nearest known names."""
    by_plain = {plain(known): row for known, row in rows.items()}
    wanted = plain(name)
    if wanted in by_plain:
        return by_plain[wanted]
    raise unknown(rows, name, what=what, field=field)


def unknown(known: Iterable[str], name: str, *, what: str, field: str) -> InputError:
    """The fault for a `name` that is not in stock under `known`, with the nearest of them."""
    return unknown_name(field, what, name, known, plain)
