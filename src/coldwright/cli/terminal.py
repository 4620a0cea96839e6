"""What every command shares at the terminal: units, faults, plain data and where text goes."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Annotated, Final

import typer
from rich.console import Console

from coldwright.errors import InputError

WIDTH_WITHOUT_TERMINAL = 100
SHOP: Final = "shop"
# How grave a notice is, before its text.
MARKS = {"danger": "!!", "warning": "! ", "info": "i "}
Units = Annotated[
    str,
    typer.Option("--units", metavar="shop|si", help="shop: psig, °F, oz, in. si: kPa, °C, g, mm."),
]
AsJson = Annotated[bool, typer.Option("--json", help="Print plain data instead of text.")]


@contextmanager
def faults_shown(as_json: bool) -> Iterator[None]:
    """Print all faults of the input together and leave with code 2."""
    try:
        yield
    except InputError as error:
        if as_json:
            rows = [
                {"field": f.field, "line": f.line, "message": f.message, "hint": f.hint}
                for f in error.faults
            ]
            print_json({"faults": rows})
        else:
            for fault in error.faults:
                typer.echo(str(fault), err=True)
            count = len(error.faults)
            typer.echo(f"{count} fault{'s' if count > 1 else ''}; nothing was done.", err=True)
        raise typer.Exit(2) from error


def console() -> Console:
    """Where text goes: the terminal's width, or 100 columns into a pipe or file.

    Without markup: a source's label such as [read] is text.
    """
    found = Console(highlight=False, markup=False)
    if found.is_terminal:
        return found
    return Console(highlight=False, markup=False, width=WIDTH_WITHOUT_TERMINAL)


def print_json(data: object) -> None:
    """Print `data` as JSON."""
    typer.echo(json.dumps(data, ensure_ascii=False, indent=2))
