"""`chart --what drawing`, `front`, `back`: the box to scale as a file."""

from __future__ import annotations

from collections.abc import Callable

from coldwright.sheet.drawing import (
    back_drawing,
    describe_drawing,
    front_drawing,
    section_drawing,
)
from coldwright.sheet.drawing.standalone import as_pdf, as_png, standalone
from coldwright.verdict import Assessment, report

DRAW = {"drawing": section_drawing, "front": front_drawing, "back": back_drawing}
TITLES = {"drawing": "Section, to scale", "front": "Front, to scale", "back": "Back, to scale"}
WRITERS: dict[str, Callable[[str], str | bytes]] = {
    ".svg": standalone,
    ".png": as_png,
    ".pdf": as_pdf,
}


def drawing_of(what: str, assessment: Assessment, ending: str) -> tuple[str, str, str | bytes]:
    """Title, words and file of the drawing `what`, by the ending of its name.

    A build without a balance is drawn too: with its sizes, and the reason.
    """
    build, units = assessment.case.build, assessment.case.system
    figures = report(assessment)
    svg = DRAW[what](build, figures, units=units)
    words = describe_drawing(build, figures, units)
    return TITLES[what], words, WRITERS[ending](svg)
