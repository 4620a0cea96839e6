"""Arrays made of CoolProp's equations, kept on disk so that most runs never load CoolProp.

A file name holds what the arrays are of, the CoolProp version and the table version, so that a
change of either makes new ones. Writing is atomic: two processes may do it at once and a kill
leaves the old file or none. A place that can be read but not written serves what it holds; what is
missing there is made again in each process.
"""

from __future__ import annotations

from collections.abc import Mapping
from importlib.metadata import version
from pathlib import Path
from zipfile import BadZipFile

import numpy as np

from coldwright.arrays import Array
from coldwright.cache_place import cache_folder, keep_whole

# A temporary file is its writer's alone; a cache shared by users is read by all of them.
READABLE = 0o644


def table_file(name: str, table_version: int) -> Path:
    """The file that holds the arrays called `name`."""
    return cache_folder() / f"{name}-coolprop-{version('CoolProp')}-table-{table_version}.npz"


def read_tables(file: Path) -> dict[str, Array] | None:
    """The arrays in `file`; None where it is not there, not readable or damaged."""
    try:
        # Opened here, since np.load leaves a damaged file open.
        with file.open("rb") as stream, np.load(stream, allow_pickle=False) as held:
            return {key: held[key] for key in held.files}
    except (OSError, EOFError, KeyError, ValueError, BadZipFile):
        return None


def keep_tables(file: Path, arrays: Mapping[str, object]) -> None:
    """Write `arrays` to `file` in one step, if the place allows it."""
    try:
        keep_whole(file, lambda stream: np.savez(stream, **arrays), READABLE)  # type: ignore[arg-type]  # floats are arrays to it
    except OSError:
        # A read-only home must not stop an assessment.
        return
