"""What a page tells about a build: sentences first, then the interval, then figures in groups."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from coldwright.build import Build
from coldwright.errors import InputError
from coldwright.sheet.page_sentences import stage_sentences
from coldwright.sheet.rows.assessment import placed_sections, quick_sections
from coldwright.sheet.writer import Columns, Row, Shown, Writer
from coldwright.units import System
from coldwright.verdict import explanation_of
from coldwright.verdict.headline import BALANCED, headline, how_sure
from coldwright.web.stages import Stage

HELP = "What would help most"
MOST_REMEDIES = 5


@dataclass(frozen=True)
class Cell:
    """A written figure, with what to ask for where one can ask where it comes from."""

    text: str
    asked: Mapping[str, str] | None = None


@dataclass(frozen=True)
class Line:
    """One row of a table: what it is, its figures, a remark."""

    label: str
    cells: tuple[Cell, ...]
    remark: str


@dataclass(frozen=True)
class Table:
    """A group of figures; `heads` where it has several columns."""

    title: str
    heads: tuple[str, ...]
    lines: tuple[Line, ...]


@dataclass(frozen=True)
class Band:
    """The running share with its interval, in per cent of the time."""

    low: float
    high: float
    best: float
    allowed: float
    words: str


@dataclass(frozen=True)
class Results:
    """Everything told about a build on one page."""

    headline: str
    sure: str
    band: Band | None
    sentences: tuple[str, ...]
    limit: str  # what would help most
    tables: tuple[Table, ...]
    notices: tuple[Mapping[str, Any], ...]
    changes: tuple[Line, ...]
    remedies: tuple[str, ...]
    assumed: tuple[Mapping[str, Any], ...]
    sources: tuple[str, ...]
    faults: tuple[Mapping[str, Any], ...]
    is_full: bool


def results_of(
    figures: Mapping[str, Any], build: Build, system: System, stage: Stage, *, is_full: bool
) -> Results:
    """The view of a report, or of a quick answer, on the page of `stage`."""
    write = Writer(figures, system, build.site.atmospheric_pressure)
    placed = placed_sections(write) if is_full else quick_sections(write)
    judged = [] if figures.get("faults") else list(figures.get("sentences", ()))[1:]
    told = [each for each in judged if not each.startswith(HELP)]
    balanced = figures["running"]["reason"] == BALANCED and not figures.get("faults")
    if stage.speaks is not None and balanced:
        told = stage_sentences(stage.speaks, build, figures, system)
    return Results(
        headline=headline(figures, system),
        sure=how_sure(figures, system),
        band=_band(figures),
        sentences=tuple(told),
        limit=next((each for each in judged if each.startswith(HELP)), ""),
        tables=tuple(
            table_of(title, rows) for place, (title, rows) in placed if place in stage.figures
        ),
        notices=tuple(figures.get("notices", ())),
        changes=tuple(_change(each, write) for each in figures.get("changes", ())),
        remedies=tuple(each["words"] for each in figures.get("remedies", ())[:MOST_REMEDIES]),
        assumed=tuple(figures.get("assumed", ())),
        sources=tuple(figures.get("sources", ())),
        faults=tuple(figures.get("faults", ())),
        is_full=is_full,
    )


def table_of(
    title: str,
    rows: list[Row],
    explanation: Callable[[str], object] = explanation_of,
    **asked: str,
) -> Table:
    """Rows of label, figure and remark as a table; a row of column names becomes its head.

    `explanation` finds what lies behind a path, or raises InputError; `asked` says of which report
    beside the assessment's.
    """
    heads: tuple[str, ...] = ()
    lines = []
    for label, figure, remark in rows:
        cells = figure.cells if isinstance(figure, Columns) else (figure,)
        if not label and isinstance(figure, Columns):
            heads = cells
        elif label or figure or remark:
            found = tuple(_cell(each, explanation, asked) for each in cells)
            lines.append(Line(label, found, remark))
    return Table(title, heads, tuple(lines))


def _cell(text: str, explanation: Callable[[str], object], asked: Mapping[str, str]) -> Cell:
    if isinstance(text, Shown) and _is_explained(text.path, explanation):
        return Cell(str(text), {**asked, "path": text.path})
    return Cell(str(text))


@cache
def _is_explained(path: str, explanation: Callable[[str], object]) -> bool:
    try:
        explanation(path)
    except InputError:
        return False
    return True


def _band(figures: Mapping[str, Any]) -> Band | None:
    cycling = figures["cycling"]
    share, width = cycling["run_fraction"], cycling.get("run_fraction_half_width")
    if share is None or width is None or share > 1.0:
        return None
    low, high = max(share - width, 0.0), min(share + width, 1.0)
    allowed = figures["highest_run_fraction"]
    words = (
        f"Running share {100 * low:.0f} to {100 * high:.0f} per cent, best estimate "
        f"{100 * share:.0f}, allowed {100 * allowed:.0f}"
    )
    return Band(100 * low, 100 * high, 100 * share, 100 * allowed, words)


def _change(each: Mapping[str, Any], write: Writer) -> Line:
    share, air = each["run_fraction"], each["running_air_C"]
    effect = "no balance"
    if share is not None and share <= 1.0:
        effect = f"running {write.written('run_fraction', share)}"
    elif air is not None:
        effect = f"never stops; coldest air {write.written('air_C', air)}"
    return Line(each["words"], (Cell(effect),), "")
