"""Reading an SVG back: where its texts and shapes lie, without a browser."""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import combinations
from xml.etree import ElementTree

from coldwright.sheet.drawing.text_size import text_width

SVG = "{http://www.w3.org/2000/svg}"
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
# Unpainted: what stands in here is drawn where it is used.
STORES = {f"{SVG}defs", f"{SVG}pattern"}


@dataclass(frozen=True)
class Area:
    """A rectangle of the picture, and what lies in it."""

    left: float
    top: float
    right: float
    bottom: float
    what: str

    def overlaps(self, other: Area, by: float = 0.5) -> bool:
        """Whether both share more than a rim of `by` px."""
        across = min(self.right, other.right) - max(self.left, other.left)
        down = min(self.bottom, other.bottom) - max(self.top, other.top)
        return across > by and down > by


class Picture:
    """One SVG document."""

    def __init__(self, svg: str) -> None:
        self.root = ElementTree.fromstring(svg)
        self.painted = list(_painted(self.root))

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the view box."""
        _, _, width, height = (float(each) for each in self.root.attrib["viewBox"].split())
        return width, height

    def marked(self, size: str) -> list[ElementTree.Element]:
        """Elements whose size is that of `size` in the build."""
        return [each for each in self.painted if each.get("data-size") == size]

    def sides(self, size: str) -> tuple[float, float]:
        """Width and height [px] of the rectangle marked `size`."""
        (found,) = self.marked(size)
        return float(found.attrib["width"]), float(found.attrib["height"])

    @property
    def texts(self) -> list[Area]:
        """Every text's box, by the width that the drawing reckons with."""
        return [_text_area(each) for each in self.painted if each.tag == f"{SVG}text"]

    @property
    def clashes(self) -> list[tuple[str, str]]:
        """Texts that lie over one another."""
        pairs = combinations(self.texts, 2)
        return [(one.what, other.what) for one, other in pairs if one.overlaps(other)]

    @property
    def strays(self) -> list[str]:
        """What is drawn outside the view box."""
        width, height = self.size
        areas = [area for area in map(_area, self.painted) if area is not None]
        return [
            f"{area.what}: {area.left:.0f} {area.top:.0f} {area.right:.0f} {area.bottom:.0f}"
            for area in [*areas, *self.texts]
            if area.left < -0.01
            or area.top < -0.01
            or area.right > width + 0.01
            or area.bottom > height + 0.01
        ]


def _painted(element: ElementTree.Element):
    for child in element:
        if child.tag in STORES:
            continue
        yield child
        yield from _painted(child)


def _text_area(element: ElementTree.Element) -> Area:
    text = "".join(element.itertext())
    size = float(element.attrib["font-size"])
    wide = text_width(text, size, bold="font-weight" in element.attrib)
    x, y = float(element.attrib["x"]), float(element.attrib["y"])
    left = x - {"start": 0.0, "middle": 0.5, "end": 1.0}[element.get("text-anchor", "start")] * wide
    up, down = 0.74 * size, 0.22 * size
    if "rotate(-90" in element.get("transform", ""):
        return Area(x - up, y - 0.5 * wide, x + down, y + 0.5 * wide, text)
    return Area(left, y - up, left + wide, y + down, text)


def _area(element: ElementTree.Element) -> Area | None:
    """The box of a shape; of a curve that of its points, which hold it."""
    get = element.attrib
    kind = element.tag.removeprefix(SVG)
    if kind == "rect":
        x, y = float(get["x"]), float(get["y"])
        return Area(x, y, x + float(get["width"]), y + float(get["height"]), kind)
    if kind == "circle":
        x, y, r = (float(get[key]) for key in ("cx", "cy", "r"))
        return Area(x - r, y - r, x + r, y + r, kind)
    if kind == "line":
        xs, ys = ([float(get[f"{axis}{at}"]) for at in (1, 2)] for axis in "xy")
        return _of_points(xs, ys, kind)
    if kind in ("polygon", "path"):
        return _of_points(*_points(get.get("points") or get["d"]), kind)
    return None


def _of_points(xs: list[float], ys: list[float], kind: str) -> Area:
    return Area(min(xs), min(ys), max(xs), max(ys), kind)


def _points(text: str) -> tuple[list[float], list[float]]:
    """Coordinates of points and of absolute path commands M L C Q H V."""
    xs: list[float] = []
    ys: list[float] = []
    for command, body in re.findall(r"([MLCQHVZ]?)([^MLCQHVZ]*)", text):
        numbers = [float(each) for each in NUMBER.findall(body)]
        if command == "H":
            xs += numbers
        elif command == "V":
            ys += numbers
        else:
            xs += numbers[0::2]
            ys += numbers[1::2]
    return xs, ys
