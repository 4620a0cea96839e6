"""The sweep as a page of docs/theory with its chart."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import altair as alt
import numpy as np

from coldwright.plant.balance import BALANCED, REASONS
from coldwright.sheet import theme
from coldwright.sheet.figure import Column, Figure
from coldwright.sheet.render import as_svg
from support.full_range import KINDS, NAMES

if TYPE_CHECKING:
    from benchmarks.sweep import Sweep

ROOT = Path(__file__).resolve().parent.parent
PAGE = ROOT / "docs" / "theory" / "balance_sweep.md"
CHART = ROOT / "docs" / "charts" / "balance-sweep.svg"
QUANTILES = (50, 90, 99, 99.9, 100)
WIDTH, HEIGHT = 330, 260
DASHES = {
    "vessel": theme.SOLID,
    "plate": theme.DASH,
    "bare tube": theme.DOTS,
    "holdover": theme.LONG_DASH,
}
INTRODUCTION = """# The balance over its full range

Written by `python -m benchmarks.sweep --count {count} --write`. Random systems, right ones and
wrong ones (`tests/support/full_range.py`): room 5 to 45 °C, brine or air +35 to -45 °C, 30 to
200 % of the right charge, a capillary of half to double of what suits, an exchanger 0 to 85 %
effective; {gases};
brine vessel, plate, bare tube and holdover.

Of {count} lanes {reach} have a source that the machine can reach; beyond it the refrigerant would
boil warmer than the source and heat it. Of those within reach {balanced} balance, with every
residual under {residual} and the books (energy, mass, flow) closed to {books}. The others end with
a reason:
"""


def write_page(found: Sweep) -> None:
    """Write the page and the chart."""
    figure = sweep_figure(found)
    CHART.write_text(as_svg(figure), encoding="utf-8")
    PAGE.write_text("\n".join(page_lines(found, figure)) + "\n", encoding="utf-8")
    print(f"wrote {PAGE.relative_to(ROOT)} and {CHART.relative_to(ROOT)}")


def page_lines(found: Sweep, figure: Figure) -> Iterator[str]:
    """The page line by line."""
    steps = found.lanes("steps")
    yield INTRODUCTION.format(
        count=steps.size,
        gases=", ".join(NAMES),
        reach=_percent(float(np.mean(found.lanes("within")))),
        balanced=_percent(found.balanced()),
        residual=f"{max(group.residual for group in found.groups.values()):.1e}",
        books=f"{max(group.audit for group in found.groups.values()):.1e}",
    )
    yield "| share of lanes | reason |"
    yield "| --- | --- |"
    for share, reason in zip(found.shares(), REASONS, strict=True):
        yield f"| {_percent(share)} | {reason} |"
    yield "\nShare balanced of those within reach:\n"
    yield "| | " + " | ".join(KINDS) + " |"
    yield "| --- " * (len(KINDS) + 1) + "|"
    for name in NAMES:
        cells = [_percent(found.balanced(name, kind)) for kind in KINDS]
        yield f"| {name} | " + " | ".join(cells) + " |"
    yield "\nSteps to the end, of all lanes:\n"
    yield "| " + " | ".join(f"{each:g} %" for each in QUANTILES) + " |"
    yield "| --- " * len(QUANTILES) + "|"
    yield "| " + " | ".join(f"{np.percentile(steps, each):.0f}" for each in QUANTILES) + " |"
    if found.speed:
        yield "\nTime of one call on one core:\n"
        yield "| lanes at once | seconds | ms a lane |"
        yield "| --- | --- | --- |"
        for count, seconds in found.speed.items():
            yield f"| {count} | {seconds:.3f} | {1e3 * seconds / count:.2f} |"
    yield f"\n![{figure.title}](../charts/{CHART.name})\n"
    yield figure.caption
    if not found.whole:
        yield "\nThe run was stopped before its end."


def sweep_figure(found: Sweep) -> Figure:
    """Share of lanes settled by step, and time a lane by the number of lanes at once."""
    rows = list(_settled_rows(found))
    axis = alt.X("steps:Q", title="steps", scale=alt.Scale(type="log", domain=[3, 200]))
    share = alt.Y("percent:Q", title="settled, % of lanes", scale=alt.Scale(domain=[0, 100]))
    lines = (
        alt.Chart(theme.values(rows))
        .mark_line(color=theme.INK, interpolate="step-after")
        .encode(
            x=axis,
            y=share,
            strokeDash=alt.StrokeDash(
                "cold side:N",
                title="cold side",
                scale=alt.Scale(
                    domain=list(KINDS), range=[DASHES[kind] or [1, 0] for kind in KINDS]
                ),
                legend=alt.Legend(orient="bottom", symbolSize=700),
            ),
        )
        .properties(width=WIDTH, height=HEIGHT, title=theme.panel_title("Steps to the end"))
    )
    speed: list[dict[str, Any]] = [
        {"lanes": count, "ms": 1e3 * seconds / count} for count, seconds in found.speed.items()
    ]
    base = alt.Chart(theme.values(speed)).encode(
        x=alt.X("lanes:Q", title="lanes at once", scale=alt.Scale(type="log")),
        y=alt.Y("ms:Q", title="ms a lane", scale=alt.Scale(type="log")),
    )
    times = (base.mark_line(color=theme.COPPER) + base.mark_point(**theme.DOT)).properties(
        width=WIDTH, height=HEIGHT, title=theme.panel_title("Time of one lane")
    )
    title = "The balance over its full range"
    subtitle = f"{found.lanes('steps').size} random systems, right and wrong ones"
    caption = _caption(found)
    spec = theme.finished(alt.hconcat(lines, times), title, subtitle, caption)
    columns = (
        Column("cold side", "cold side"),
        Column("steps", "steps"),
        Column("percent", "settled", "%"),
    )
    return Figure("balance-sweep", title, subtitle, caption, columns, tuple(rows), spec)


def _settled_rows(found: Sweep) -> Iterator[dict[str, Any]]:
    """Per kind of cold side, the share that has settled within so many steps."""
    for kind in KINDS:
        good = found.lanes("reasons", kind=kind) == BALANCED
        steps = found.lanes("steps", kind=kind)
        if steps.size == 0:
            continue
        for step in np.unique(np.geomspace(3, 200, 60).astype(int)):
            share = float(np.mean(good & (steps <= step)))
            yield {"cold side": kind, "steps": int(step), "percent": round(100.0 * share, 3)}


def _caption(found: Sweep) -> str:
    steps = found.lanes("steps")
    balanced = float(np.mean(found.lanes("reasons") == BALANCED))
    text = (
        f"{_percent(balanced)} of {steps.size} lanes balance, within reach or not; half of all "
        f"within {np.percentile(steps, 50):.0f} steps, nine in ten within "
        f"{np.percentile(steps, 90):.0f}."
    )
    if not found.speed:
        return text
    least, most = min(found.speed), max(found.speed)
    one, many = (1e3 * found.speed[each] / each for each in (least, most))
    return (
        f"{text} A lane takes {one:.1f} ms in a call of {least} and {many:.2f} ms in one of {most}."
    )


def _percent(share: float) -> str:
    return f"{100.0 * share:.2f} %" if np.isfinite(share) else ""
