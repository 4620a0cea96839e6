"""The tree of exceptions, and the notices that travel with a result.

    ColdwrightError
    └── InputError          one or more faults of what the user gave
        └── FileFault       a file that cannot be read, or is not TOML

A build that cannot balance is no exception: it is a result with a named reason.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Literal

Severity = Literal["info", "warning", "danger"]

# More known names than this are counted in the sentence, not listed.
MOST_LISTED = 12
MOST_NEAREST = 4


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


def _plain(name: str) -> str:
    """`name` in lower case with single spaces."""
    return " ".join(name.lower().split())


def unknown_name(
    field: str,
    what: str,
    received: str,
    known: Iterable[str],
    spelling: Callable[[str], str] = _plain,
) -> InputError:
    """Return (to be raised) the fault for a `received` name that is not among `known`.

    The hint gives the nearest of the known names: those that contain what was received, else those
    spelled alike, else all. `spelling` brings two ways of writing one name together.
    """
    names = {spelling(name): name for name in known}
    wanted = spelling(received)
    near = [name for key, name in names.items() if wanted and wanted in key][:MOST_NEAREST]
    if not near:
        alike = get_close_matches(wanted, names, n=MOST_NEAREST, cutoff=0.4)
        near = [names[key] for key in alike] or list(names.values())
    listed = ", ".join(names.values())
    if len(names) > MOST_LISTED:
        listed = f"{len(names)} known names"
    return InputError(
        Fault(
            field=field,
            message=f"{what} must be one of {listed}; received {received!r}.",
            hint=f"Nearest: {', '.join(near)}.",
        )
    )


class FileFault(InputError):
    """A file is missing, unreadable or not valid TOML."""
