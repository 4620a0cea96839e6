"""What every part of a drawing needs to draw itself, and how a part is handed over."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from coldwright.build.result import Build
from coldwright.sheet.drawing.colours import Palette
from coldwright.sheet.drawing.frame import Frame
from coldwright.sheet.drawing.geometry import Geometry
from coldwright.sheet.drawing.readings import Readings
from coldwright.sheet.drawing.svg import Value, element, words

PARTS = (
    "site",
    "walls",
    "door",
    "air_path",
    "cold_side",
    "shelves",
    "contents",
    "condenser",
    "compressor",
    "suction_line",
    "capillary",
)
DASH = "5 3.5"


@dataclass(frozen=True)
class View:
    """One drawing in the making."""

    build: Build
    geometry: Geometry
    frame: Frame
    readings: Readings
    paint: Palette
    prefix: str  # of the names within this SVG
    link: Callable[[str], str] | None = None

    def temperature(self, celsius: float | None, otherwise: str | None = None) -> str:
        """The paint of a temperature [°C], or of what is not worked out."""
        if celsius is None:
            return self.paint.paper if otherwise is None else otherwise
        return self.paint.temperature(celsius)

    def assumed(self, *fields: str) -> str | None:
        """A dash for what one of `fields` assumes."""
        return DASH if any(self.build.is_assumed(each) for each in fields) else None

    def outline(self, width: float = 1.2, **style: Value) -> dict[str, Value]:
        """An ink line `width` px wide."""
        return {"stroke": self.paint.ink, "stroke_width": width, **style}

    def copper(self, width: float, **style: Value) -> dict[str, Value]:
        """A copper line `width` px wide."""
        return {"stroke": self.paint.copper, "stroke_width": width, **style}


@dataclass
class Part:
    """The shapes of one part of the build; `title` is what a pointer or screen reader says."""

    name: str
    title: str
    shapes: list[str] = field(default_factory=list)

    def written(self, link: Callable[[str], str] | None) -> str:
        """The part as a group, or as a link where there is one."""
        title = words("title", self.title)
        if link is None:
            return element("g", title, *self.shapes, data_part=self.name)
        return element(
            "a",
            title,
            *self.shapes,
            href=link(self.name),
            aria_label=self.title,
            data_part=self.name,
        )
