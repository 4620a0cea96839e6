"""How wide a text is, near enough to keep labels apart without the reader's font at hand.

Widths are shares of the font size, set by us on the wide side of the usual text serifs, so that a
box is rather too large than too small.
"""

from __future__ import annotations

FAMILY = "'Source Serif 4', Georgia, 'Times New Roman', serif"
_BOLD = 1.1
_OTHER = 0.62
_WIDTHS = {
    **dict.fromkeys("iljt.,:;'|!()[]/·-f", 0.36),
    **dict.fromkeys(" ", 0.27),
    **dict.fromkeys("°r", 0.46),
    **dict.fromkeys("mw%@", 0.9),
    **dict.fromkeys("MW—", 1.0),
    **dict.fromkeys("ABCDEFGHKLNOPQRSTUVXYZ&±\u00d7=+<>→", 0.74),
}
LINE_HEIGHT = 1.24  # of the font size
ASCENT = 0.96  # from the top of a line to its baseline, of the font size


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """Width of `text` at font size `size`, in the size's unit."""
    shares = sum(_WIDTHS.get(each, _OTHER) for each in text)
    return shares * size * (_BOLD if bold else 1.0)


def wrapped(text: str, size: float, width: float, *, bold: bool = False) -> list[str]:
    """`text` in lines of at most `width`; a word that is longer is cut in pieces."""
    lines: list[str] = []
    current = ""
    for word in filter(None, text.split(" ")):
        for piece in _pieces(word, size, width, bold):
            joined = f"{current} {piece}" if current else piece
            if text_width(joined, size, bold=bold) <= width or not current:
                current = joined
            else:
                lines.append(current)
                current = piece
    return [*lines, current] if current else lines


def _pieces(word: str, size: float, width: float, bold: bool) -> list[str]:
    """A word, cut where it would be wider than a whole line."""
    pieces, current = [], ""
    for each in word:
        if current and text_width(current + each, size, bold=bold) > width:
            pieces.append(current)
            current = each
        else:
            current += each
    return [*pieces, current]
