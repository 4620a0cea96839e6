"""Labels in columns beside the drawing, with leaders, none over another.

Each column is solved as one: a label wants to stand level with what it names; where labels would
overlap they are moved apart by the least sum of squares (pool-adjacent-violators on the tops less
what stands above). Two whose leaders would cross change places.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from coldwright.sheet.drawing.svg import Point
from coldwright.sheet.drawing.text_size import LINE_HEIGHT, text_width, wrapped

Side = Literal["left", "right"]
VALUE_SIZE, WORD_SIZE = 15.0, 12.0
GAP = 9.0  # between labels [px]
STUB = 10.0  # level piece of a leader at its label [px]


@dataclass(frozen=True)
class Line:
    """One line of a label."""

    text: str
    size: float
    bold: bool = False
    italic: bool = False


@dataclass(frozen=True)
class Note:
    """What is to be written about a part: a figure, and words for it.

    anchor: what it points at [px], None for a note of the whole. assumed: the figure is not the
    maker's own.
    """

    part: str
    side: Side
    anchor: Point | None
    value: str
    text: str
    assumed: bool = False
    key: str = ""  # which note it is


@dataclass(frozen=True)
class Label:
    """A note with its lines and, once placed, the top of its box [px]."""

    note: Note
    lines: tuple[Line, ...]
    top: float = 0.0

    @property
    def height(self) -> float:
        """Height of its box [px]."""
        return sum(line.size * LINE_HEIGHT for line in self.lines)

    @property
    def width(self) -> float:
        """Width of its box [px]."""
        return max(text_width(line.text, line.size, bold=line.bold) for line in self.lines)

    @property
    def level(self) -> float:
        """Where its leader begins: the middle of its first line [px]."""
        return self.top + 0.55 * self.lines[0].size * LINE_HEIGHT


def labelled(note: Note, width: float) -> Label:
    """`note` in lines that fit `width` [px]."""
    lines = [Line(each, VALUE_SIZE, bold=True, italic=note.assumed)
             for each in wrapped(note.value, VALUE_SIZE, width, bold=True)]  # fmt: skip
    lines += [Line(each, WORD_SIZE, italic=note.assumed)
              for each in wrapped(note.text, WORD_SIZE, width)]  # fmt: skip
    return Label(note, tuple(lines))


def column_height(notes: Sequence[Note], width: float) -> float:
    """What the labels of one column need, `width` [px] wide."""
    return sum(labelled(note, width - 2.0).height + GAP for note in notes)


def leader(label: Label, edge: float) -> tuple[Point, Point, Point] | None:
    """From the label's `edge` [px] level outwards, then straight to what it names."""
    if label.note.anchor is None:
        return None
    away = STUB if label.note.side == "left" else -STUB
    return ((edge, label.level), (edge + away, label.level), label.note.anchor)


def placed(labels: Sequence[Label], top: float, bottom: float, edge: float) -> list[Label]:
    """`labels` of one column between `top` and `bottom`, or beyond it where they need more."""
    order = sorted(labels, key=lambda each: _wanted(each, top))
    found = _spread(order, top, bottom)
    for _ in range(len(order) ** 2):
        crossed = next(
            (at for at in range(len(found) - 1) if _cross(found[at], found[at + 1], edge)), None
        )
        if crossed is None:
            break
        order[crossed], order[crossed + 1] = order[crossed + 1], order[crossed]
        found = _spread(order, top, bottom)
    return found


def _wanted(label: Label, top: float) -> float:
    """Top at which its first line stands level with its anchor."""
    if label.note.anchor is None:
        return top
    return label.note.anchor[1] - 0.55 * label.lines[0].size * LINE_HEIGHT


def _spread(labels: Sequence[Label], top: float, bottom: float) -> list[Label]:
    """The nearest places to the wanted ones in the given order that do not overlap."""
    above, offsets = 0.0, []
    for label in labels:
        offsets.append(above)
        above += label.height + GAP
    room = max(bottom - (above - GAP), top)
    # Runs of labels that touch: sum of wanted tops (less what stands above), and how many.
    runs: list[tuple[float, int]] = []
    for label, offset in zip(labels, offsets, strict=True):
        runs.append((_wanted(label, top) - offset, 1))
        while len(runs) > 1 and runs[-2][0] / runs[-2][1] > runs[-1][0] / runs[-1][1]:
            total, count = runs.pop()
            runs[-1] = (runs[-1][0] + total, runs[-1][1] + count)
    starts = [min(max(total / count, top), room) for total, count in runs for _ in range(count)]
    return [
        replace(label, top=start + offset)
        for label, start, offset in zip(labels, starts, offsets, strict=True)
    ]


def _cross(one: Label, other: Label, edge: float) -> bool:
    """Whether the slanting pieces of two leaders cut one another."""
    first, second = leader(one, edge), leader(other, edge)
    if first is None or second is None:
        return False
    (_, a, b), (_, c, d) = first, second

    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < 0.0 and side(c, d, a) * side(c, d, b) < 0.0
