"""The folder of build files: what is in it, and nothing outside it."""

from __future__ import annotations

import hashlib
import secrets
import unicodedata
from pathlib import Path

from coldwright.build.reading import read_text
from coldwright.errors import ColdwrightError, Fault, InputError

SUFFIX = ".toml"
LONGEST_NAME = 60
HIDDEN = ".coldwright"


class NotThereError(ColdwrightError):
    """A page asks for something that is not there; the message says what."""


def version_of(text: str) -> str:
    """A short name for exactly this text."""
    return hashlib.sha256(text.encode("utf-8")).hexdigest()[:12]


def write_whole(path: Path, text: str) -> None:
    """Write a kept file as a whole; unlike a build's it need not outlast a power cut."""
    part = path.with_name(f"{path.name}.{secrets.token_hex(4)}.part")
    part.write_text(text, encoding="utf-8")
    part.replace(path)


class Folder:
    """Build files directly within `root`; a link that leads out of it is not one of them."""

    def __init__(self, root: Path) -> None:
        """Hold the folder `root`, which exists."""
        self.root = root.resolve()

    @property
    def hidden(self) -> Path:
        """Where drafts and results are kept, beside the builds."""
        return self.root / HIDDEN

    def builds(self) -> dict[str, Path]:
        """The build files by name, in alphabetical order."""
        found = {}
        for path in sorted(self.root.glob(f"*{SUFFIX}"), key=lambda each: each.name.casefold()):
            if path.name.startswith(".") or not path.is_file():
                continue
            if path.resolve().is_relative_to(self.root):
                found[path.stem] = path
        return found

    def path(self, name: str) -> Path:
        """The file of the build `name`. Raises NotThereError when it is none of the folder's."""
        found = self.builds().get(name)
        if found is None:
            raise NotThereError(f"There is no build file '{name}{SUFFIX}' in this folder.")
        return found

    def read(self, name: str) -> str:
        """The text of the build `name`. Raises FileFault when it cannot be read."""
        return read_text(self.path(name))

    def new_path(self, name: str) -> Path:
        """A path for a new build called `name`. Raises InputError for a name that will not do."""
        plain = unicodedata.normalize("NFC", name).strip().removesuffix(SUFFIX).strip()
        allowed = all(each.isalnum() or each in "-_ " for each in plain)
        if not plain or len(plain) > LONGEST_NAME or not allowed:
            message = (
                f"Name of the file must be 1 to {LONGEST_NAME} letters, digits, spaces, - or _; "
                f"received '{name.strip()[:LONGEST_NAME]}'."
            )
            raise InputError(Fault("name", message))
        path = self.root / f"{plain}{SUFFIX}"
        if path.exists():
            hint = "choose another name"
            message = f"File '{path.name}' exists already."
            raise InputError(Fault("name", message, None, hint))
        return path
