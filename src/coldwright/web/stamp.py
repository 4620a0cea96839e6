"""A name for this state of the program, so that no result outlives the code that made it."""

from __future__ import annotations

import hashlib
from functools import cache
from pathlib import Path

import coldwright


@cache
def code_stamp() -> str:
    """Version of the package with size and time of each of its source files."""
    root = Path(coldwright.__file__).parent
    found = hashlib.sha256(coldwright.__version__.encode())
    for path in sorted([*root.rglob("*.py"), *root.rglob("*.toml")]):
        facts = path.stat()
        found.update(f"{path.relative_to(root)} {facts.st_size} {facts.st_mtime_ns}".encode())
    return found.hexdigest()[:12]
