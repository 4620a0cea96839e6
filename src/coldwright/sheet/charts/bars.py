"""Bars that lie, longest figure written at the end: for shares of one whole."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import altair as alt

from coldwright.sheet import theme
from coldwright.verdict.figures import percent

BAR_HEIGHT, LABEL_WIDTH = 24, 190


@dataclass(frozen=True)
class Bar:
    """One bar: its name, how long [unit of the axis], and what stands at its end."""

    name: str
    size: float
    text: str


def bars(
    rows: Sequence[Bar], axis: str, ends: tuple[float, float], width: int, title: str = ""
) -> theme.Layers:
    """`rows` in their order from the top, on an axis called `axis` between `ends`."""
    data = theme.values([{**vars(row), "end": max(row.size, 0.0)} for row in rows])
    y = alt.Y(
        "name:N",
        sort=None,
        title=None,
        axis=alt.Axis(
            ticks=False, domain=False, labelLimit=LABEL_WIDTH, minExtent=LABEL_WIDTH, labelPadding=8
        ),
    )
    x = alt.X(
        "size:Q",
        title=axis,
        scale=alt.Scale(domain=list(ends), nice=False),
        axis=alt.Axis(tickCount=6),
    )
    base = alt.Chart(data).encode(y=y)
    layers = [
        base.mark_bar(color=theme.COPPER, height=BAR_HEIGHT - 10).encode(x=x),
        base.mark_text(align="left", dx=6, **theme.RIM).encode(x=_end(x), text="text:N"),
        base.mark_text(align="left", dx=6).encode(x=_end(x), text="text:N"),
    ]
    chart = alt.layer(*layers).properties(width=width, height=BAR_HEIGHT * len(rows))
    return chart.properties(title=theme.panel_title(title)) if title else chart


def signed_percent(share: float) -> str:
    """A share as whole percent, also one below nothing."""
    return f"-{percent(-share)}" if share < 0.0 else percent(share)


def _end(x: alt.X) -> alt.X:
    """Where the text stands: behind a bar, or behind nothing where the bar points left."""
    return alt.X("end:Q", scale=x["scale"], axis=x["axis"], title=x["title"])
