"""Where what is made once is kept on disk, and how it is written there."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import IO

import platformdirs


def cache_folder() -> Path:
    """Where it is kept: COLDWRIGHT_CACHE if set, else the user's cache folder."""
    chosen = os.environ.get("COLDWRIGHT_CACHE")
    return Path(chosen) if chosen else Path(platformdirs.user_cache_dir("coldwright"))


def keep_whole(file: Path, write: Callable[[IO[bytes]], object], mode: int) -> None:
    """Write `file` in one step, with the permissions `mode`. Raises OSError where it may not be."""
    file.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=file.parent, suffix=".part")
    partial = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            write(stream)
        partial.chmod(mode)
        partial.replace(file)
    finally:
        partial.unlink(missing_ok=True)
