"""How a cut through a material looks: our own hatches, one a kind, and what is told by them."""

from __future__ import annotations

from collections.abc import Iterable

from coldwright.sheet.drawing.colours import Palette
from coldwright.sheet.drawing.svg import Value, circle, element, line, path, rectangle
from coldwright.shop.materials import material

# Kinds of insulation by a word in the material's name; first that fits.
_INSULATION = (
    ("air gap", "air"),
    ("vacuum", "vacuum"),
    ("cork", "cork"),
    ("foam", "foam"),
    ("polystyrene", "foam"),
    ("balsa wool", "wool"),
    ("balsam", "wool"),
    ("wool", "wool"),
    ("felt", "wool"),
    ("kapok", "wool"),
)
Style = dict[str, Value]
BOARDS = "boards"  # wood as seen from outside
LEAST_HATCHED = 3.0  # px: a thinner layer is drawn full


def hatch_kind(name: str) -> str:
    """The kind of hatch for a material of the shop."""
    group = material(name).group
    if group != "insulation":
        return group
    return next((kind for word, kind in _INSULATION if word in name), "loose")


def outside_kind(name: str) -> str | None:
    """The pattern of an outer skin seen from outside, None for a plain one."""
    return BOARDS if material(name).group == "wood" else None


def hatch_paint(kind: str, prefix: str, *, upright: bool) -> str:
    """The fill of a cut layer; wood's grain runs along the wall."""
    turned = "-upright" if kind == "wood" and upright else ""
    return f"url(#{prefix}-{kind}{turned})"


def hatch_definitions(kinds: Iterable[str], prefix: str, paint: Palette) -> str:
    """Patterns of `kinds`, their names begun with `prefix`."""
    found = []
    for kind in sorted(set(kinds)):
        found.append(_pattern(kind, f"{prefix}-{kind}", paint, 0.0))
        if kind == "wood":
            found.append(_pattern(kind, f"{prefix}-{kind}-upright", paint, 90.0))
    return "".join(found)


def _pattern(kind: str, name: str, paint: Palette, turn: float) -> str:
    width, height, marks, tilt = _MARKS[kind](paint)
    ground = rectangle(0, 0, width, height, fill=paint.paper if kind != "wood" else paint.faint)
    turned = turn + tilt
    return element(
        "pattern",
        ground,
        *marks,
        id=name,
        width=width,
        height=height,
        patternUnits="userSpaceOnUse",
        patternTransform=f"rotate({turned:g})" if turned else None,
    )


Marks = tuple[float, float, list[str], float]  # tile's width and height [px], marks, tilt


def _cork(paint: Palette) -> Marks:
    """Grains of two sizes."""
    places = ((1.6, 1.8, 1.0), (5.6, 3.2, 0.7), (3.4, 6.4, 1.2), (7.6, 7.4, 0.8), (8.4, 1.2, 0.6))
    return 9, 9, [circle((x, y), r, fill=paint.rule) for x, y, r in places], 0.0


def _foam(paint: Palette) -> Marks:
    """Open cells."""
    places = ((2.2, 2.2, 1.5), (6.4, 5.6, 1.5), (2.2, 7.4, 0.8), (6.6, 1.4, 0.8))
    style: Style = {"fill": "none", "stroke": paint.rule, "stroke_width": 0.7}
    return 8.6, 8.6, [circle((x, y), r, **style) for x, y, r in places], 0.0


def _wool(paint: Palette) -> Marks:
    """Waves."""
    wave = element(
        "path",
        d="M0,5 C2,1 4,1 6,5 C8,9 10,9 12,5",
        fill="none",
        stroke=paint.rule,
        stroke_width=0.8,
    )
    return 12, 8, [wave], 0.0


def _loose(paint: Palette) -> Marks:
    """Scattered short strokes."""
    strokes = (((1, 2), (4, 3)), ((6, 1), (8, 3.5)), ((2, 7), (3.5, 5)), ((6, 7), (9, 6)))
    style: Style = {"stroke": paint.rule, "stroke_width": 0.8}
    return 10, 9, [line(start, end, **style) for start, end in strokes], 0.0


def _vacuum(paint: Palette) -> Marks:
    """A lattice."""
    style: Style = {"stroke": paint.rule, "stroke_width": 0.6}
    return 5, 5, [line((0, 0), (5, 0), **style), line((0, 0), (0, 5), **style)], 45.0


def _air(paint: Palette) -> Marks:
    """Nearly nothing."""
    return 11, 11, [circle((3, 4), 0.6, fill=paint.rule)], 0.0


def _wood(paint: Palette) -> Marks:
    """Grain."""
    style: Style = {"stroke": paint.rule, "stroke_width": 0.6}
    return 22, 5, [
        path([(0, 1.2), (22, 1.2)], **style),
        path([(0, 3.4), (8, 3.4)], **style),
        path([(12, 4.2), (20, 4.2)], **style),
    ], 0.0  # fmt: skip


def _metal(paint: Palette) -> Marks:
    """Close lines at 45°."""
    return 3, 3, [line((0, 0), (0, 3), stroke=paint.ink, stroke_width=0.9)], 45.0


def _other(paint: Palette) -> Marks:
    """Wide lines at 45°."""
    return 7, 7, [line((0, 0), (0, 7), stroke=paint.rule, stroke_width=0.9)], -45.0


def _boards(paint: Palette) -> Marks:
    """Upright boards with little grain."""
    style: Style = {"stroke": paint.rule, "stroke_width": 0.5, "opacity": 0.5}
    return 64, 150, [
        line((0.5, 0), (0.5, 150), stroke=paint.rule, stroke_width=0.8),
        line((14, 10), (14, 66), **style),
        line((23, 52), (23, 140), **style),
        line((36, 0), (36, 38), **style),
        line((41, 84), (41, 150), **style),
        line((54, 22), (54, 108), **style),
    ], 0.0  # fmt: skip


_MARKS = {
    BOARDS: _boards,
    "cork": _cork,
    "foam": _foam,
    "wool": _wool,
    "loose": _loose,
    "vacuum": _vacuum,
    "air": _air,
    "wood": _wood,
    "metal": _metal,
    "other": _other,
}
