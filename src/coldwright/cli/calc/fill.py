"""`calc fill`: where the charge of a build lies, and how far it may be off."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Any

import typer

from coldwright.cli.calc.entries import SYSTEMS, Entries
from coldwright.cli.terminal import AsJson, faults_shown
from coldwright.units import Kind

CHARGES = (1e-3, 5.0)  # kg
ROOMS = (253.15, 333.15)  # K


def fill(
    file: Annotated[
        Path, typer.Argument(metavar="FILE", help="The build file.", show_default=False)
    ],
    rev: Annotated[
        str | None, typer.Option("--rev", metavar="NAME", help="Take this revision of the build.")
    ] = None,
    charge: Annotated[
        str | None,
        typer.Option("--fill", metavar="M", help='Refrigerant, such as "1.2 oz"; as the file.'),
    ] = None,
    room: Annotated[
        str | None, typer.Option("--room", metavar="T", help="Of the room; as the file.")
    ] = None,
    units: Annotated[
        str | None, typer.Option("--units", metavar="shop|si", help="Default: the build's.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Charge by place, the window between starved and liquid back, and what one gram is worth."""
    entries = Entries()
    with faults_shown(as_json):
        if units is not None:
            entries.system(units)
        mass = entries.optional("--fill", charge, Kind.mass, CHARGES)
        warm = entries.optional("--room", room, Kind.temperature, ROOMS)
        build = entries.settled(entries.attempt(lambda: load_build(file, rev)))
        from coldwright.cli.calc import fill_text  # noqa: PLC0415 (slow to import)

        options = {
            "charge": None if mass is None else mass.value,
            "room_temperature": None if warm is None else warm.value,
        }
        system = SYSTEMS[units or build.units]
        fill_text.show(fill_text.answer_of(build, options), build, system, as_json)


def load_build(file: Path, revision: str | None) -> Any:  # noqa: ANN401 (imported late)
    """The build of a file, or one of its revisions."""
    from coldwright.build import load  # noqa: PLC0415 (slow to import)

    return load(file, revision=revision)
