"""`chart`: what is drawn of a build, and where it is written."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import typer
from rich.padding import Padding
from rich.text import Text

from coldwright.build import Build
from coldwright.build.rewriting import save
from coldwright.cli import drawing
from coldwright.cli.terminal import console
from coldwright.errors import Fault, InputError
from coldwright.sheet.build_charts import draw_chart
from coldwright.sheet.charts import CHARTS
from coldwright.sheet.drawing import DRAWINGS
from coldwright.sheet.figure import Figure, Undrawn
from coldwright.sheet.render import as_html, as_json, as_svg
from coldwright.verdict import Assessment

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


def draw(what: str, assessment: Assessment, file: Path, out: Path | None) -> int:
    """Draw the chart `what`, or all, write it and say where; the exit code.

    Raises InputError when the disk or folder refuses.
    """
    named = out if out is not None and not out.is_dir() else None
    folder = file.parent if out is None else out
    codes = []
    for name in EVERY if what == ALL else (what,):
        target = named or folder / _name(assessment.build, file, name)
        if name in DRAWINGS:
            codes.append(_written(*drawing.drawing_of(name, assessment, _ending(target)), target))
        else:
            codes.append(_shown(draw_chart(name, assessment), target))
    return max(codes)


def _ending(target: Path) -> str:
    return target.suffix.lower()


def _name(build: Build, file: Path, what: str) -> str:
    """An SVG named after the build, its revision and the chart: where no name is given."""
    revision = f"-{build.revision}" if build.revision else ""
    safe = "".join(each if each.isalnum() or each in "-_" else "_" for each in revision)
    return f"{file.stem}{safe}-{what}.svg"


def _shown(found: Figure | Undrawn, target: Path) -> int:
    """Write and say where, or say why there is nothing to draw; the exit code."""
    if isinstance(found, Undrawn):
        typer.echo(f"Nothing to draw, because there is no balance: {found.reason}.", err=True)
        return 1
    return _written(found.title, found.caption, WRITERS[_ending(target)](found), target)


def _written(title: str, caption: str, content: str | bytes, target: Path) -> int:
    """Write the file and say what it shows and where it is; the exit code."""
    try:
        save(target, content)
    except OSError as error:
        reason = error.strerror or str(error)
        raise InputError(Fault("--out", f"'{target}' could not be written: {reason}.")) from error
    where = console()
    where.print(Text(title, style="bold"))
    where.print(Padding(Text(caption), (0, 0, 0, 2)))
    typer.echo(f"  Wrote {target}")
    return 0
