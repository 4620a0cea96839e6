"""The cabinet as the pages show it, each part a link to where it is described."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from coldwright.sheet.drawing import section_drawing, temperature_declarations
from coldwright.web.board import Board
from coldwright.web.stages import PARTS, place_id


@cache
def drawing_style() -> str:
    """The temperature scale on dark paper; the other paints are the page's own (`--ink`...)."""
    dark = temperature_declarations(dark=True)
    return (
        f'@media screen {{ :root[data-look="dark"] {{ {dark} }} }}\n'
        f"@media screen and (prefers-color-scheme: dark) {{\n"
        f':root[data-look="auto"] {{ {dark} }} }}\n'
    )


def drawing_of(board: Board, figures: Mapping[str, Any] | None, *, compact: bool) -> str:
    """The section of a sound build as SVG; empty for one with faults.

    `compact`: few, large texts, for a narrow screen.
    """
    if board.build is None:
        return ""

    def link(part: str) -> str:
        slug, path = PARTS[part]
        return f"{board.link(slug)}#{place_id(path)}"

    return section_drawing(board.build, figures, units=board.system, link=link, compact=compact)
