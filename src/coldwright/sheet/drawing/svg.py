"""Writing SVG: elements with escaped text, numbers of two decimals, paths of straight pieces."""

from __future__ import annotations

import html
import re
from collections.abc import Iterable, Sequence

Point = tuple[float, float]
Value = str | float | int | None

# What XML 1.0 forbids even when escaped; a TOML string may hold it.
_FORBIDDEN = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")


def escaped(text: str) -> str:
    """`text` as it may stand in an element or a quoted attribute."""
    return html.escape(_FORBIDDEN.sub("", text), quote=True)


def number(value: float) -> str:
    """A coordinate to a hundredth of a pixel."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def element(name: str, *children: str, **attributes: Value) -> str:
    """One element; `_` in an attribute's name stands for `-`, None leaves it out.

    `children` are elements that are written already; text comes in by `words`.
    """
    written = "".join(
        f' {key.rstrip("_").replace("_", "-")}="'
        f'{number(value) if isinstance(value, int | float) else escaped(value)}"'
        for key, value in attributes.items()
        if value is not None
    )
    inside = "".join(children)
    return f"<{name}{written}>{inside}</{name}>" if inside else f"<{name}{written}/>"


def words(name: str, text: str, **attributes: Value) -> str:
    """An element that holds plain text."""
    return element(name, escaped(text), **attributes)


def rectangle(left: float, top: float, width: float, height: float, /, **style: Value) -> str:
    """A rectangle; a negative size is drawn as nothing."""
    return element("rect", x=left, y=top, width=max(width, 0.0), height=max(height, 0.0), **style)


def line(start: Point, end: Point, /, **style: Value) -> str:
    """A straight line."""
    return element("line", x1=start[0], y1=start[1], x2=end[0], y2=end[1], **style)


def circle(centre: Point, radius: float, /, **style: Value) -> str:
    """A circle."""
    return element("circle", cx=centre[0], cy=centre[1], r=max(radius, 0.0), **style)


def polygon(points: Iterable[Point], /, **style: Value) -> str:
    """A closed shape."""
    return element("polygon", points=" ".join(_pair(each) for each in points), **style)


def path(points: Sequence[Point], /, **style: Value) -> str:
    """An open line through `points`; not filled unless told."""
    way = " L".join(_pair(each) for each in points)
    return element("path", d=f"M{way}", **{"fill": "none", **style})


def rounded_path(points: Sequence[Point], radius: float, /, **style: Value) -> str:
    """An open line whose corners are bent to `radius`, less where a piece is short."""
    pieces = [f"M{_pair(points[0])}"]
    for before, corner, after in zip(points, points[1:], points[2:], strict=False):
        reach = min(radius, 0.5 * distance(before, corner), 0.5 * distance(corner, after))
        pieces.append(f"L{_pair(towards(corner, before, reach))}")
        pieces.append(f"Q{_pair(corner)} {_pair(towards(corner, after, reach))}")
    pieces.append(f"L{_pair(points[-1])}")
    return element("path", d=" ".join(pieces), **{"fill": "none", **style})


def distance(one: Point, other: Point) -> float:
    """Length between two points."""
    return float(((one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2) ** 0.5)


def towards(start: Point, end: Point, reach: float) -> Point:
    """The point `reach` from `start` on the way to `end`; `start` where both are one."""
    whole = distance(start, end)
    share = 0.0 if whole == 0.0 else reach / whole
    return (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))


def arrow_head(tip: Point, tail: Point, size: float, /, **style: Value) -> str:
    """A slim filled head at `tip` for a line that comes from `tail`."""
    foot = towards(tip, tail, size)
    across = 0.32 * size
    whole = max(distance(tip, tail), 1e-9)
    sideways = ((tail[1] - tip[1]) / whole * across, (tip[0] - tail[0]) / whole * across)
    return polygon(
        [
            tip,
            (foot[0] + sideways[0], foot[1] + sideways[1]),
            (foot[0] - sideways[0], foot[1] - sideways[1]),
        ],
        **style,
    )


def _pair(point: Point) -> str:
    return f"{number(point[0])},{number(point[1])}"
