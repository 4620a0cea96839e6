"""`chart`: what is drawn of a build, and where it is written."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

import typer
from rich.padding import Padding
from rich.text import Text

from coldwright.build import Build
from coldwright.build.rewriting import save
from coldwright.cli import drawing
from coldwright.cli.build_options import shown_progress
from coldwright.cli.terminal import console
from coldwright.errors import Fault, InputError
from coldwright.sheet.build_charts import draw_chart
from coldwright.sheet.charts import CHARTS
from coldwright.sheet.charts.day import day_chart
from coldwright.sheet.charts.one_cycle import one_cycle
from coldwright.sheet.charts.pull_down import pull_down
from coldwright.sheet.drawing import DRAWINGS
from coldwright.sheet.figure import Figure, Undrawn
from coldwright.sheet.render import as_html, as_json, as_svg
from coldwright.verdict import Assessment

if TYPE_CHECKING:
    from coldwright.verdict.day import Day
    from coldwright.verdict.expect import Expectations

OF_A_DAY: dict[str, Callable[[Day], Figure | Undrawn]] = {"day": day_chart, "cycle": one_cycle}
WRITERS: dict[str, Callable[[Figure], str]] = {
    ".svg": as_svg,
    ".html": as_html,
    ".json": as_json,
}


ALL = "all"
EVERY = (*CHARTS, *DRAWINGS)


def faults_of_options(what: str | None, out: Path | None) -> list[Fault]:
    """Faults of `--what` and `--out` as typed."""
    faults = []
    names = ", ".join((*EVERY, ALL))
    if what is None:
        faults.append(Fault("--what", f"--what must say what to draw: {names}."))
    elif what not in (*EVERY, ALL):
        faults.append(Fault("--what", f"--what must be one of {names}; received '{what}'."))
    if out is None or out.is_dir():
        return faults
    endings = drawing.WRITERS if what in DRAWINGS else WRITERS
    if what == ALL:
        faults.append(
            Fault(
                "--out", f"--out must name a folder that exists for all charts; received '{out}'."
            )
        )
    elif out.suffix.lower() not in endings:
        ends = ", ".join(endings)
        message = f"--out must end in one of {ends}, or be a folder; received '{out}'."
        faults.append(Fault("--out", message))
    elif not out.parent.is_dir():
        faults.append(Fault("--out", f"--out must name a folder that exists; received '{out}'."))
    return faults


@dataclass(frozen=True)
class Subject:
    """A build that is drawn, and what is worked out of it, each only once it is asked for."""

    build: Build
    options: Mapping[str, Any]
    assess: Callable[[], Assessment]

    @cached_property
    def assessment(self) -> Assessment:
        """Its steady states."""
        return self.assess()

    @cached_property
    def day(self) -> Day:
        """Two days from warm."""
        from coldwright.verdict.day import run_day  # noqa: PLC0415 (slow to import)

        with shown_progress() as progress:
            return run_day(self.build, progress=progress, **self.options)

    @cached_property
    def first_start(self) -> Expectations:
        """A first start with its ranges, close enough in time for its first minutes."""
        from coldwright.sheet.charts.pull_down import MINUTES  # noqa: PLC0415 (draws)
        from coldwright.verdict.expect import expect  # noqa: PLC0415 (slow to import)

        with shown_progress() as progress:
            return expect(self.build, minutes=MINUTES, progress=progress, **self.options)

    @property
    def faults(self) -> tuple[Fault, ...]:
        """Faults that only the balance shows, where it was worked out."""
        return self.assessment.faults if "assessment" in self.__dict__ else ()


def draw(what: str, subject: Subject, file: Path, out: Path | None) -> int:
    """Draw the chart `what`, or all, write it and say where; the exit code.

    Raises InputError when the disk or folder refuses.
    """
    named = out if out is not None and not out.is_dir() else None
    folder = file.parent if out is None else out
    codes = []
    for name in EVERY if what == ALL else (what,):
        target = named or folder / _name(subject.build, file, name)
        if name in DRAWINGS:
            ending = target.suffix.lower()
            codes.append(_told(*drawing.drawing_of(name, subject.assessment, ending), target))
        else:
            codes.append(_shown(_drawn(name, subject), target))
    return max(codes)


def _drawn(what: str, subject: Subject) -> Figure | Undrawn:
    """The chart called `what` of a build."""
    if what in OF_A_DAY:
        return OF_A_DAY[what](subject.day)
    if what == "pull-down":
        return pull_down(subject.first_start)
    return draw_chart(what, subject.assessment)


def _name(build: Build, file: Path, what: str) -> str:
    """An SVG named after the build, its revision and the chart: where no name is given."""
    revision = f"-{build.revision}" if build.revision else ""
    safe = "".join(each if each.isalnum() or each in "-_" else "_" for each in revision)
    return f"{file.stem}{safe}-{what}.svg"


def _shown(found: Figure | Undrawn, target: Path) -> int:
    """Write and say where, or say why there is nothing to draw; the exit code."""
    if isinstance(found, Undrawn):
        typer.echo(f"Nothing to draw, because {found.because}: {found.reason}.", err=True)
        return 1
    ending = target.suffix.lower()
    return _told(found.title, found.caption, WRITERS[ending](found), target)


def _told(title: str, caption: str, content: str | bytes, target: Path) -> int:
    """Write the file and say what it shows and where it is; the exit code."""
    _written(content, target, "--out")
    where = console()
    where.print(Text(title, style="bold"))
    where.print(Padding(Text(caption), (0, 0, 0, 2)))
    typer.echo(f"  Wrote {target}")
    return 0


def write_figure(found: Figure, target: Path, option: str) -> None:
    """Write a figure in the form that the file's ending asks for.

    Raises InputError about `option` when the disk refuses.
    """
    _written(WRITERS[target.suffix.lower()](found), target, option)


def _written(content: str | bytes, target: Path, option: str) -> None:
    try:
        save(target, content)
    except OSError as error:
        reason = error.strerror or str(error)
        raise InputError(Fault(option, f"'{target}' could not be written: {reason}.")) from error
