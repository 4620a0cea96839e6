"""`calc map`: the performance table of a build, source by room."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from coldwright.cli.calc.entries import SYSTEMS, Entries
from coldwright.cli.calc.fill import CHARGES, load_build
from coldwright.cli.terminal import AsJson, faults_shown
from coldwright.units import Kind

ROOMS = (268.15, 323.15)  # K
SOURCES = (223.15, 323.15)  # K
MOST = 12


def performance_map(
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
    source: Annotated[
        list[str] | None,
        typer.Option(
            "--source", metavar="T", help="Of brine or compartment air; again for each one."
        ),
    ] = None,
    room: Annotated[
        list[str] | None,
        typer.Option("--room", metavar="T", help="Of the room; again for each one."),
    ] = None,
    csv: Annotated[
        Path | None, typer.Option("--csv", metavar="F", help="Write one row a state.")
    ] = None,
    units: Annotated[
        str | None, typer.Option("--units", metavar="shop|si", help="Default: the build's.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Cooling, watts, amperes and pressures over the temperatures of source and room."""
    entries = Entries()
    with faults_shown(as_json):
        if units is not None:
            entries.system(units)
        mass = entries.optional("--fill", charge, Kind.mass, CHARGES)
        sources = _temperatures(entries, "--source", source, SOURCES)
        rooms = _temperatures(entries, "--room", room, ROOMS)
        if csv is not None and not csv.resolve().parent.is_dir():
            entries.fault(
                "--csv", f"--csv must name a file in a folder that is there; got '{csv}'."
            )
        build = entries.settled(entries.attempt(lambda: load_build(file, rev)))
        from coldwright.cli.calc import map_text  # noqa: PLC0415 (slow to import)

        map_text.show(
            build,
            SYSTEMS[units or build.units],
            charge=None if mass is None else mass.value,
            sources=sources,
            rooms=rooms,
            csv=csv,
            as_json=as_json,
        )


def _temperatures(
    entries: Entries, name: str, texts: list[str] | None, bounds: tuple[float, float]
) -> list[float] | None:
    """The temperatures of a repeated option [K], rising; None where it is not given."""
    if not texts:
        return None
    if len(texts) > MOST:
        entries.fault(name, f"{name} may be given {MOST} times at most; received {len(texts)}.")
    found = [entries.optional(name, text, Kind.temperature, bounds) for text in texts]
    return sorted({each.value for each in found if each is not None})
