"""`chart --what drawing`, `front`, `back`: the box to scale as a file."""

from __future__ import annotations

from collections.abc import Callable

from coldwright.sheet.drawing import (
    back,
    back_drawing,
    describe_drawing,
    front,
    front_drawing,
    plan,
    plan_drawing,
    section_drawing,
)
from coldwright.sheet.drawing.standalone import as_pdf, as_png, standalone
from coldwright.verdict import Assessment, report

DRAW = {
    "drawing": section_drawing,
    "front": front_drawing,
    "back": back_drawing,
    "plan": plan_drawing,
}
TITLES = {
    "drawing": "The box cut from front to back",
    "front": "The box from the front",
    "back": "The box from the back",
    "plan": "The box cut level, from above",
}
CAPTIONS = {"front": front.CAPTION, "back": back.CAPTION, "plan": plan.CAPTION}
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
    # The box in words once, with the section; front and back say how they are to be read.
    words = CAPTIONS.get(what) or describe_drawing(build, figures, units)
    return TITLES[what], words, WRITERS[ending](svg)
