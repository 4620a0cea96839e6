"""Commands and options; what they print is in `screen` and `comparison`."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from enum import StrEnum
from pathlib import Path
from typing import Annotated, Any

import typer
from rich.console import Console

from coldwright import __version__
from coldwright.errors import Fault, InputError
from coldwright.units import Kind, parse_quantity

HELP = """Works out whether a one-off, fan-less cold box will hold its target, before metal is cut.

Exit codes: 0 holds (or marginal), 1 does not hold, 2 a fault of the input, 3 of the program.
"""
app = typer.Typer(
    help=HELP, no_args_is_help=True, add_completion=False, pretty_exceptions_enable=False
)


class UnitChoice(StrEnum):
    """Units that results are shown in."""

    shop = "shop"
    si = "si"


class Starter(StrEnum):
    """Starter files."""

    larder = "larder"
    cheese = "cheese"
    galley = "galley"


File = Annotated[Path, typer.Argument(metavar="FILE", help="The build file.", show_default=False)]
Revision = Annotated[
    str | None, typer.Option("--rev", metavar="NAME", help="Take this revision of the build.")
]
RoomText = Annotated[
    str | None, typer.Option("--room", metavar="T", help='Room temperature, such as "85 °F".')
]
FillText = Annotated[
    str | None, typer.Option("--fill", metavar="M", help='Refrigerant charge, such as "1.2 oz".')
]
Units = Annotated[
    UnitChoice | None,
    typer.Option("--units", help="shop: psig, °F, oz, in. si: kPa, °C, g, mm. Default: the build."),
]
AsJson = Annotated[bool, typer.Option("--json", help="Print plain data instead of text.")]


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

    with _faults(as_json):
        if explain is not None:
            explanation_of(explain)
        assessment = _assessed(file, rev, room, fill, units)
        data = report(assessment)
    if explain is not None:
        shown = screen.explained(data, explain)
        _json(shown) if as_json else screen.print_explanation(shown, _console())
        raise typer.Exit(0)
    if as_json:
        _json(data)
    else:
        screen.print_assessment(assessment, data, _console())
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
    from coldwright.verdict import report  # noqa: PLC0415

    with _faults(as_json):
        found = [_assessed(file, rev, room, None, units) for rev in (None, *others)]
        data = [report(each) for each in found]
    if as_json:
        _json({"builds": data, "changed": comparison.changes(found)})
    else:
        comparison.print_comparison(found, data, _console())
    raise typer.Exit(max(each.exit_code for each in found[1:]))


@app.command()
def new(
    name: Annotated[Path, typer.Argument(metavar="NAME", help="The file to write.")],
    starter: Annotated[
        Starter, typer.Option("--from", help="Which starter to begin with.", show_default=False)
    ],
) -> None:
    """Write a commented starter file, to be edited to your own box."""
    from coldwright.build import write_starter  # noqa: PLC0415 (slow to import)

    path = name if name.suffix else name.with_suffix(".toml")
    with _faults(False):
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


def _assessed(
    file: Path, rev: str | None, room: str | None, fill: str | None, units: UnitChoice | None
) -> Any:  # noqa: ANN401 (Assessment, imported late)
    from coldwright.build import load  # noqa: PLC0415 (slow to import)
    from coldwright.verdict import assess as work_out  # noqa: PLC0415

    faults: list[Fault] = []
    temperature = _option(room, Kind.temperature, "--room", faults)
    charge = _option(fill, Kind.mass, "--fill", faults)
    try:
        build = load(file, revision=rev)
    except InputError as error:
        raise InputError(*faults, *error.faults) from error
    if faults:
        raise InputError(*faults)
    with _progress() as progress:
        return work_out(
            build,
            room_temperature=temperature,
            charge=charge,
            system=None if units is None else units.value,
            progress=progress,
        )


ALLOWED = {"--room": (253.15, 333.15), "--fill": (1e-3, 5.0)}


def _option(text: str | None, kind: Kind, name: str, faults: list[Fault]) -> float | None:
    """The SI value of an option's text; a fault is added to `faults`."""
    if text is None:
        return None
    try:
        value = parse_quantity(text, kind, field=name).value
    except InputError as error:
        faults.extend(error.faults)
        return None
    least, greatest = ALLOWED[name]
    if not least <= value <= greatest:
        allowed = "-20 °C to 60 °C" if name == "--room" else "1 g to 5 kg"
        faults.append(Fault(name, f"{name} must be {allowed}; received '{text}'."))
        return None
    return value


@contextmanager
def _faults(as_json: bool) -> Iterator[None]:
    """Print all faults of the input together and leave with code 2."""
    try:
        yield
    except InputError as error:
        if as_json:
            rows = [
                {"field": f.field, "line": f.line, "message": f.message, "hint": f.hint}
                for f in error.faults
            ]
            _json({"faults": rows})
        else:
            for fault in error.faults:
                typer.echo(str(fault), err=True)
            count = len(error.faults)
            typer.echo(f"{count} fault{'s' if count > 1 else ''}; nothing was changed.", err=True)
        raise typer.Exit(2) from error


@contextmanager
def _progress() -> Iterator[Callable[[str], None]]:
    """Show what is being worked out, on a terminal only."""
    console = Console(stderr=True)
    if not console.is_terminal:
        yield lambda _: None
        return
    with console.status("reading") as status:
        yield status.update


def _console() -> Console:
    """Where text goes: the terminal's width, or 100 columns into a pipe or file.

    Without markup: a source's label such as [read] is text.
    """
    console = Console(highlight=False, markup=False)
    return console if console.is_terminal else Console(highlight=False, markup=False, width=100)


def _json(data: object) -> None:
    typer.echo(json.dumps(data, ensure_ascii=False, indent=2))
