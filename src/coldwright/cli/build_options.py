"""Options that stand beside a build file, the same in every command, and what they give."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Any

import typer
from rich.console import Console
from rich.text import Text

from coldwright.errors import Fault, InputError
from coldwright.units import Kind, System, parse_quantity

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
    str | None,
    typer.Option(
        "--units",
        metavar="shop|si",
        help="shop: psig, °F, oz, in. si: kPa, °C, g, mm. Default: the build.",
    ),
]
SYSTEMS: dict[str, System] = {"shop": "shop", "si": "si"}
ALLOWED = {"--room": (253.15, 333.15), "--fill": (1e-3, 5.0)}


@dataclass(frozen=True)
class TypedOptions:
    """Options that stand beside a build, as typed."""

    room: str | None
    fill: str | None
    units: str | None


def all_builds(
    file: Path, revisions: Sequence[str | None], typed: TypedOptions, already: Sequence[Fault] = ()
) -> list[tuple[Any, dict[str, Any]]]:
    """Each revision of a build with the options' values; all faults come together, once each."""
    from coldwright.build import load  # noqa: PLC0415 (slow to import)

    faults = list(already)
    if typed.units is not None and typed.units not in SYSTEMS:
        faults.append(Fault("--units", f"--units must be shop or si; received '{typed.units}'."))
    options = {
        "room_temperature": _option(typed.room, Kind.temperature, "--room", faults),
        "charge": _option(typed.fill, Kind.mass, "--fill", faults),
        "system": SYSTEMS.get(typed.units or ""),
    }
    builds = []
    for revision in revisions:
        try:
            builds.append((load(file, revision=revision), options))
        except InputError as error:
            faults += error.faults
    if faults:
        raise InputError(*dict.fromkeys(faults))
    return builds


def one_build(
    file: Path, revision: str | None, typed: TypedOptions, already: Sequence[Fault] = ()
) -> tuple[Any, dict[str, Any]]:
    """One revision of a build with the options' values; all faults come together."""
    (found,) = all_builds(file, (revision,), typed, already)
    return found


def faults_of(check: Callable[[], object]) -> list[Fault]:
    """The faults that `check` raises."""
    try:
        check()
    except InputError as error:
        return list(error.faults)
    return []


def first_line(data: Mapping[str, Any], what: str = "") -> Text:
    """The first line of an answer: the box, its revision, and `what` is told of it."""
    revision = f", revision {data['revision']}" if data["revision"] else ", as built"
    return Text(f"{data['name']}{revision}{f': {what}' if what else ''}", style="bold")


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
def shown_progress() -> Iterator[Callable[[str], None]]:
    """Show what is being worked out, on a terminal only."""
    where = Console(stderr=True)
    if not where.is_terminal:
        yield lambda _: None
        return
    with where.status("reading") as status:
        yield status.update
