"""Commands and options; what they print is in `screen` and `comparison`."""

from __future__ import annotations

import sys
from enum import StrEnum
from pathlib import Path
from typing import Annotated, Any

import typer

from coldwright import __version__
from coldwright.cli.build_options import (
    File,
    FillText,
    Revision,
    RoomText,
    TypedOptions,
    Units,
    all_builds,
    faults_of,
    one_build,
    shown_progress,
)
from coldwright.cli.calc import calc_app
from coldwright.cli.terminal import AsJson, console, faults_shown, print_json

HELP = """Works out whether a one-off, fan-less cold box will hold its target, before metal is cut.

Exit codes: 0 holds (or marginal), 1 does not hold, 2 a fault of the input, 3 of the program.
"""
app = typer.Typer(
    help=HELP, no_args_is_help=True, add_completion=False, pretty_exceptions_enable=False
)
app.add_typer(calc_app, name="calc")


class Starter(StrEnum):
    """Starter files."""

    larder = "larder"
    cheese = "cheese"
    galley = "galley"


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"coldwright {__version__}")
        raise typer.Exit


@app.callback()
def options(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Show the version.")
    ] = False,
) -> None:
    """Hold the options that go before a command."""
    del version


@app.command()
def assess(
    file: File,
    rev: Revision = None,
    room: RoomText = None,
    fill: FillText = None,
    units: Units = None,
    as_json: AsJson = False,
    explain: Annotated[
        str | None,
        typer.Option(
            "--explain",
            metavar="FIELD",
            help="Show where one figure comes from, such as running.power_W.",
        ),
    ] = None,
) -> None:
    """Say whether the build holds its target, at what temperatures and pressures, and why."""
    from coldwright.cli import screen  # noqa: PLC0415 (slow to import; --help must not wait)
    from coldwright.verdict import explanation_of, report  # noqa: PLC0415
    from coldwright.verdict.explained import explained  # noqa: PLC0415

    with faults_shown(as_json):
        asked = [] if explain is None else faults_of(lambda: explanation_of(explain))
        (each,) = all_builds(file, (rev,), TypedOptions(room, fill, units), asked)
        assessment = _worked_out(*each)
        data = report(assessment)
    if explain is not None:
        shown = explained(data, explain)
        print_json(shown) if as_json else screen.print_explanation(shown, console())
        raise typer.Exit(0)
    if as_json:
        print_json(data)
    else:
        screen.print_assessment(assessment, data, console())
    raise typer.Exit(assessment.exit_code)


@app.command()
def compare(
    file: File,
    others: Annotated[
        list[str], typer.Option("--with", metavar="REV", help="A revision to set beside the base.")
    ],
    room: RoomText = None,
    units: Units = None,
    as_json: AsJson = False,
) -> None:
    """Set revisions of a build beside the build as it stands, with what changed."""
    from coldwright.cli import comparison  # noqa: PLC0415 (slow to import)
    from coldwright.sheet.rows.revisions import changes  # noqa: PLC0415
    from coldwright.verdict import report  # noqa: PLC0415

    with faults_shown(as_json):
        builds = all_builds(file, (None, *others), TypedOptions(room, None, units))
        found = [_worked_out(*each, with_remedies=False) for each in builds]
        data = [report(each) for each in found]
    if as_json:
        print_json({"builds": data, "changed": changes([each.build for each in found])})
    else:
        comparison.print_comparison(found, data, console())
    raise typer.Exit(max(each.exit_code for each in found[1:]))


@app.command()
def chart(
    file: File,
    what: Annotated[
        str | None,
        typer.Option(
            "--what",
            metavar="CHART",
            help="pressure-enthalpy, tubes, charge, watts, resistances, day, pull-down, cycle, "
            "drawing, front, back, plan or all.",
            show_default=False,
        ),
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option(
            "--out",
            metavar="NAME",
            help="File to write: .svg, .html (one page, no network) or .json, a drawing .svg, .png "
            "or .pdf; or a folder. Default: an SVG beside the build.",
            show_default=False,
        ),
    ] = None,
    rev: Revision = None,
    room: RoomText = None,
    fill: FillText = None,
    units: Units = None,
) -> None:
    """Draw a chart of the build's state or of its days, and say what one sees."""
    from coldwright.cli import chart as charts  # noqa: PLC0415 (slow to import)

    with faults_shown(False):
        asked = charts.faults_of_options(what, out)
        build, values = one_build(file, rev, TypedOptions(room, fill, units), asked)
        subject = charts.Subject(
            build, values, lambda: _worked_out(build, values, with_remedies=False)
        )
        code = charts.draw(what or "", subject, file, out)
    for fault in subject.faults:
        typer.echo(f"Fault of the input: {fault}", err=True)
    raise typer.Exit(2 if subject.faults else code)


@app.command()
def new(
    name: Annotated[Path, typer.Argument(metavar="NAME", help="The file to write.")],
    starter: Annotated[
        Starter, typer.Option("--from", help="Which starter to begin with.", show_default=False)
    ],
) -> None:
    """Write a commented starter file, to be edited to your own box."""
    from coldwright.build import write_starter  # noqa: PLC0415 (slow to import)

    path = name if name.suffix == ".toml" else name.with_name(f"{name.name}.toml")
    with faults_shown(False):
        write_starter(starter.value, path)
    typer.echo(f"Wrote {path}. Edit it, then: coldwright assess {path}")


def main() -> None:
    """Run the command line; a fault of the program ends in one line, never a traceback."""
    try:
        app()
    except Exception as fault:  # noqa: BLE001 (the outer edge)
        typer.echo(
            f"coldwright has a fault of its own here: {type(fault).__name__}: {fault}. "
            "Your file is unchanged; please report this with the file.",
            err=True,
        )
        sys.exit(3)


def _worked_out(build: Any, options: dict[str, Any], *, with_remedies: bool = True) -> Any:  # noqa: ANN401 (imported late)
    """The assessment of a build, with what is being done shown on a terminal."""
    from coldwright.verdict import assess as work_out  # noqa: PLC0415 (slow to import)

    label = f"{build.name}, {build.revision or 'as built'}"
    with shown_progress() as progress:
        return work_out(
            build,
            with_remedies=with_remedies,
            progress=lambda text: progress(f"{label}: {text}"),
            **options,
        )
