"""Coldwright: will a one-off, fan-less cold box hold its target?

The public face. Names are resolved when first used, so that importing the package costs nothing.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

__version__ = "0.1.0"

_HOMES = {
    "assess": "coldwright.verdict",
    "load": "coldwright.build",
    "run_day": "coldwright.verdict.day",
}

__all__ = ["__version__", "assess", "load", "run_day"]


def __getattr__(name: str) -> object:
    """Resolve a public name from its home. Raises AttributeError for any other name."""
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    value: Callable[..., object] = getattr(import_module(_HOMES[name]), name)
    globals()[name] = value  # the next look-up finds it without coming here
    return value


def __dir__() -> list[str]:
    """List the public names."""
    return sorted(__all__)
