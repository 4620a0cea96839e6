"""The tree of exceptions, and the notices that travel with a result.

    ColdwrightError
    └── InputError          one or more faults of what the user gave
        └── FileFault       a file that cannot be read, or is not TOML

A build that cannot balance is no exception: it is a result with a named reason.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Severity = Literal["info", "warning", "danger"]


@dataclass(frozen=True)
class Fault:
    """One fault of the input: the field, one full sentence, its line if it stands in a file."""

    field: str
    message: str
    line: int | None = None
    hint: str = ""

    def __str__(self) -> str:
        """Return `line 12: message (hint)`, leaving out what is not known."""
        place = f"line {self.line}: " if self.line is not None else ""
        hint = f" ({self.hint})" if self.hint else ""
        return f"{place}{self.message}{hint}"


@dataclass(frozen=True)
class Notice:
    """Something the reader of a result must know: a closed code, how grave, why, and the source."""

    code: str
    severity: Severity
    text: str
    source: str


class ColdwrightError(Exception):
    """The root of all exceptions that this package raises on purpose."""


class InputError(ColdwrightError):
    """The input has faults; all of them are in `faults`."""

    def __init__(self, *faults: Fault) -> None:
        """Hold `faults` (at least one)."""
        super().__init__("\n".join(str(fault) for fault in faults))
        self.faults: tuple[Fault, ...] = faults


class FileFault(InputError):
    """A file is missing, unreadable or not valid TOML."""
