"""How every chart looks: warm paper, dark ink, copper as the one accent.

Nothing is told by colour alone: lines differ by dash and are labelled where they run, so that a
grey print and a colour-blind eye read the same. Fonts are the reader's own.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import altair as alt

Layers = alt.LayerChart | alt.FacetChart  # what stacking layers gives
Mark = dict[str, Any]  # how a line or a text is drawn

PAPER, INK, COPPER = "#f7f2e6", "#26221c", "#b0532a"
SLATE, SOFT, FAINT, BAND = "#40566e", "#5d564b", "#cfc6b2", "#e4dac6"
FONT = "sans-serif"
SOLID: list[int] = []
DASH, DOTS, LONG_DASH = [6, 3], [2, 3], [11, 4]
# A rim of paper under text, so that lines do not cut it; a marked place on a line.
RIM: Mark = {"stroke": PAPER, "strokeWidth": 4, "strokeJoin": "round"}
DOT: Mark = {"filled": True, "fill": PAPER, "stroke": COPPER, "size": 34, "opacity": 1}

CONFIG: dict[str, Any] = {
    "background": PAPER,
    "font": FONT,
    "padding": 14,
    "view": {"stroke": FAINT},
    "axis": {
        "labelColor": INK,
        "titleColor": SOFT,
        "titleFontWeight": "normal",
        "titleFontSize": 12,
        "labelFontSize": 11,
        "domainColor": INK,
        "tickColor": INK,
        "gridColor": FAINT,
        "gridOpacity": 0.55,
    },
    "title": {
        "color": INK,
        "subtitleColor": SOFT,
        "fontSize": 16,
        "subtitleFontSize": 12,
        "anchor": "start",
        "offset": 12,
        "fontWeight": "bold",
    },
    "concat": {"spacing": 16},
    "text": {"color": INK, "fontSize": 11},
    "rule": {"color": INK},
    "line": {"color": INK},
}


def finished(chart: Any, title: str, subtitle: str, caption: str) -> dict[str, Any]:  # noqa: ANN401 (any of the library's chart kinds)
    """The specification of `chart` with the house's look; the caption is its description.

    The description is what a screen reader says of the picture.
    """
    spec: dict[str, Any] = chart.to_dict()
    spec["config"] = CONFIG
    spec["title"] = {"text": title, "subtitle": subtitle}
    spec["description"] = caption
    return spec


def values(rows: Sequence[Mapping[str, Any]]) -> alt.InlineData:
    """Rows as data that the specification holds itself."""
    return alt.InlineData(values=[dict(row) for row in rows])


def words(rows: Sequence[Mapping[str, Any]], x: alt.X, y: alt.Y, **mark: Any) -> list[alt.Chart]:  # noqa: ANN401 (a mark's properties)
    """The `text` of each row at its place, on a rim of paper so that no line cuts it."""
    at = alt.Chart(values(rows)).encode(x=x, y=y, text="text:N")
    mark = {"fontSize": 11, **mark}
    return [at.mark_text(**mark, **RIM), at.mark_text(**mark)]


def panel_title(text: str) -> alt.TitleParams:
    """The small heading of one panel among several."""
    return alt.TitleParams(text, fontSize=12, fontWeight="bold", anchor="start", offset=6)
