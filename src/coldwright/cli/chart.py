"""`chart`: what is drawn of a build, and where it is written."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import typer

from coldwright.build import Build
from coldwright.build.rewriting import save
from coldwright.errors import Fault, InputError
from coldwright.sheet.charts import CHARTS
from coldwright.sheet.charts.charge import charge
from coldwright.sheet.charts.pressure_enthalpy import pressure_enthalpy
from coldwright.sheet.charts.resistances import resistances
from coldwright.sheet.charts.tubes import tubes
from coldwright.sheet.charts.watts import watts
from coldwright.sheet.figure import Figure, Undrawn
from coldwright.sheet.render import as_html, as_json, as_svg
from coldwright.verdict import Assessment
from coldwright.verdict.case import Case

OF_A_CASE: dict[str, Callable[[Case], Figure | Undrawn]] = {
    "pressure-enthalpy": pressure_enthalpy,
    "tubes": tubes,
    "watts": watts,
    "resistances": resistances,
}
WRITERS: dict[str, Callable[[Figure], str]] = {
    ".svg": as_svg,
    ".html": as_html,
    ".json": as_json,
}


def faults_of_options(what: str | None, out: Path | None) -> list[Fault]:
    """Faults of `--what` and `--out` as typed."""
    faults = []
    names = ", ".join(CHARTS)
    if what is None:
        faults.append(Fault("--what", f"--what must say what to draw: {names}."))
    elif what not in CHARTS:
        faults.append(Fault("--what", f"--what must be one of {names}; received '{what}'."))
    if out is not None and out.suffix.lower() not in WRITERS:
        ends = ", ".join(WRITERS)
        faults.append(Fault("--out", f"--out must end in one of {ends}; received '{out}'."))
    elif out is not None and not out.parent.is_dir():
        faults.append(Fault("--out", f"--out must name a folder that exists; received '{out}'."))
    return faults


def drawn(what: str, assessment: Assessment) -> Figure | Undrawn:
    """The chart called `what` of an assessed build."""
    case = assessment.case
    if what == "charge":
        return charge(case.build, case.translation, case.system)
    return OF_A_CASE[what](case)


def beside(build: Build, file: Path, what: str) -> Path:
    """Where a chart goes that is not told: an SVG beside the build, named after both."""
    revision = f"-{build.revision}" if build.revision else ""
    safe = "".join(each if each.isalnum() or each in "-_" else "_" for each in revision)
    return file.with_name(f"{file.stem}{safe}-{what}.svg")


def write(figure: Figure, target: Path) -> None:
    """Write `figure` in the kind that the name's end says, as a whole or not at all.

    Raises InputError when the disk or folder refuses.
    """
    text = WRITERS[target.suffix.lower()](figure)
    try:
        save(target, text)
    except OSError as error:
        reason = error.strerror or str(error)
        raise InputError(Fault("--out", f"'{target}' could not be written: {reason}.")) from error


def show(found: Figure | Undrawn, target: Path) -> int:
    """Write and say where, or say why there is nothing to draw; the exit code."""
    if isinstance(found, Undrawn):
        typer.echo(f"Nothing to draw, because there is no balance: {found.reason}.", err=True)
        return 1
    write(found, target)
    typer.echo(found.caption)
    typer.echo(f"Wrote {target}.")
    return 0
