"""Three boxes to begin from, invented for practice."""

from __future__ import annotations

import contextlib
import os
from importlib.resources import files
from pathlib import Path as FilePath

from coldwright.build.schema.fields import nearest_hint
from coldwright.errors import Fault, FileFault, InputError

STARTERS = {
    "larder": "Bakery butter larder: oak and cork, brine vessel, R152a",
    "cheese": "Cheese cupboard: pine and foam, cold plate, R600a",
    "galley": "Canal-boat galley box: top lid, bare tube, R134a",
}


def starter_names() -> tuple[str, ...]:
    """The names of the starters."""
    return tuple(STARTERS)


def starter_text(name: str) -> str:
    """The text of the starter called `name`. Raises InputError when there is none."""
    if name not in STARTERS:
        message = f"Starter must be one of {', '.join(STARTERS)}; received {name!r}."
        raise InputError(Fault("starter", message, None, nearest_hint(name, tuple(STARTERS))))
    place = files("coldwright.build").joinpath("starters").joinpath(f"{name}.toml")
    return place.read_text(encoding="utf-8")


def write_starter(name: str, path: str | os.PathLike[str]) -> None:
    """Write the starter called `name` to the new file `path`.

    Raises InputError when the file exists already or the name is unknown, FileFault when the
    folder refuses it.
    """
    text = starter_text(name)
    shown = os.fspath(path)
    created = False
    try:
        # Mode x makes and claims the name in one step: nobody's file is ever overwritten.
        with FilePath(path).open("x", encoding="utf-8", newline="\n") as stream:
            created = True
            stream.write(text)
    except FileExistsError:
        hint = "choose another name, or move the old file away"
        raise InputError(Fault(shown, f"File '{shown}' exists already.", None, hint)) from None
    except OSError as error:
        if created:
            with contextlib.suppress(OSError):
                FilePath(path).unlink()
        message = f"File '{shown}' cannot be written: {error.strerror}."
        raise FileFault(Fault(shown, message)) from None
