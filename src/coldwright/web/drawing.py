"""The cabinet as the pages show it, each part a link to where it is described."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from coldwright.web.board import Board
from coldwright.web.stages import PARTS, place_id
from coldwright.web.stand_in import STYLE, section_drawing


def drawing_style() -> str:
    """The style sheet of the drawing; its paints are the page's own (`--paper`, `--ink`...)."""
    return STYLE


def drawing_of(board: Board, figures: Mapping[str, Any] | None) -> str:
    """The drawing of a sound build as SVG; empty for one with faults."""
    if board.build is None:
        return ""

    def link(part: str) -> str:
        slug, path = PARTS[part]
        return f"{board.link(slug)}#{place_id(path)}"

    return section_drawing(board.build, figures, units=board.system, link=link)
