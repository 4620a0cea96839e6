"""From metres to pixels: one scale for both ways, so that every shape stays true."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.sheet.drawing.shapes import Box
from coldwright.sheet.drawing.svg import Point


@dataclass(frozen=True)
class Frame:
    """Where a drawing in metres lies on the sheet."""

    scale: float  # px per m
    left: float  # of x = 0 [px]
    top: float  # of y = 0 [px]

    @classmethod
    def fitted(cls, bounds: Box, left: float, top: float, width: float, height: float) -> Frame:
        """`bounds` as large as `width` by `height` [px] allow, from `left` and `top`."""
        scale = min(width / bounds.width, height / bounds.height)
        return cls(scale, left - scale * bounds.left, top - scale * bounds.top)

    def x(self, metres: float) -> float:
        """Across [px]."""
        return self.left + self.scale * metres

    def y(self, metres: float) -> float:
        """Down [px]."""
        return self.top + self.scale * metres

    def at(self, point: Point) -> Point:
        """A place [px]."""
        return (self.x(point[0]), self.y(point[1]))

    def many(self, points: list[Point]) -> list[Point]:
        """Places [px]."""
        return [self.at(each) for each in points]

    def length(self, metres: float, least: float = 0.0) -> float:
        """A length [px], at least `least` so that it can be seen."""
        return max(self.scale * metres, least)

    def box(self, box: Box) -> tuple[float, float, float, float]:
        """Left, top, width and height [px]."""
        return (
            self.x(box.left),
            self.y(box.top),
            self.scale * box.width,
            self.scale * box.height,
        )
