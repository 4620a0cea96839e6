"""Plain lengths that the drawing works with: rectangles in metres, layers, runs of tube.

Metres throughout. The origin is the inside top front corner of the cabinet: x to the back, y down.
"""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True)
class Box:
    """A rectangle [m]."""

    left: float
    top: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """Its back edge."""
        return self.left + self.width

    @property
    def bottom(self) -> float:
        """Its lower edge."""
        return self.top + self.height

    @property
    def middle(self) -> tuple[float, float]:
        """Its centre."""
        return (self.left + 0.5 * self.width, self.top + 0.5 * self.height)

    def around(self, other: Box) -> Box:
        """The smallest rectangle that holds both."""
        left, top = min(self.left, other.left), min(self.top, other.top)
        right, bottom = max(self.right, other.right), max(self.bottom, other.bottom)
        return Box(left, top, right - left, bottom - top)

    def grown(self, by: float) -> Box:
        """The rectangle with `by` more on every side."""
        return Box(self.left - by, self.top - by, self.width + 2 * by, self.height + 2 * by)


@dataclass(frozen=True)
class Runs:
    """Tube laid to and fro across a width: how many runs, how long each, how far apart."""

    count: int
    straight: float
    pitch: float

    @property
    def height(self) -> float:
        """From the middle of the first run to the middle of the last."""
        return (self.count - 1) * self.pitch


def runs_across(length: float, width: float, pitch: float) -> Runs:
    """Runs of `length` [m] of tube that fill `width` [m], half-round bends within it included.

    The count is the nearest whole one; the runs are then as long as uses the tube up.
    """
    bend = 0.5 * math.pi * pitch
    straight = max(width - pitch, 0.25 * width)
    count = max(round((length + bend) / (straight + bend)), 1)
    left = length - (count - 1) * bend
    return Runs(count, max(left / count, 0.1 * straight), pitch)
