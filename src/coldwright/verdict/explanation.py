"""How a figure of the report is explained."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Explanation:
    """The words of the formula, the report paths it takes in, and the keys of its sources.

    In `inputs` a leading `.` means the same state of the machine as the figure itself.
    """

    formula: str
    inputs: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
