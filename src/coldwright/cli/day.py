"""`coldwright day`: the build minute by minute, as text, data, rows and a chart."""

from __future__ import annotations

import csv
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer
from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from coldwright.cli.app import (
    File,
    FillText,
    Revision,
    RoomText,
    TypedOptions,
    Units,
    all_builds,
    app,
    shown_progress,
)
from coldwright.cli.terminal import MARKS, AsJson, console, faults_shown, print_json
from coldwright.errors import Fault, InputError

if TYPE_CHECKING:
    from coldwright.arrays import Array
    from coldwright.verdict.day import Day

LONGEST_HOURS = 24.0 * 60.0
STYLES = {"danger": "bold", "warning": "bold", "info": ""}


class Beginning(StrEnum):
    """Where a run begins."""

    warm = "warm"
    settled = "settled"


@app.command()
def day(  # noqa: PLR0913, PLR0917 (every argument is an option of the command)
    file: File,
    hours: Annotated[
        float, typer.Option("--hours", metavar="H", help="How long to run; the last 24 h count.")
    ] = 48.0,
    beginning: Annotated[
        Beginning, typer.Option("--from", help="warm: all at room temperature. settled: days on.")
    ] = Beginning.warm,
    rev: Revision = None,
    room: RoomText = None,
    swing: Annotated[
        bool, typer.Option("--swing", help="Room swings daily between the site's low and high.")
    ] = False,
    room_rows: Annotated[
        Path | None,
        typer.Option(
            "--room-csv", metavar="F", help="Room from a CSV: minute, °C; repeated from its end."
        ),
    ] = None,
    fill: FillText = None,
    units: Units = None,
    price: Annotated[
        float | None, typer.Option("--price", metavar="P", help="Price of a kWh, any currency.")
    ] = None,
    rows: Annotated[
        Path | None, typer.Option("--csv", metavar="F", help="Write one row a minute.")
    ] = None,
    chart: Annotated[
        Path | None, typer.Option("--chart", metavar="F", help="Write a chart: .svg or .html.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Run the build minute by minute: pull-down, cycling, doors, goods, frost, a power cut."""
    from coldwright.cli.room_course import room_course  # noqa: PLC0415 (slow to import)
    from coldwright.verdict.day import run_day  # noqa: PLC0415 (slow to import)
    from coldwright.verdict.day_report import day_report  # noqa: PLC0415

    with faults_shown(as_json):
        faults = _odd_options(hours, price, rows, chart, room, swing, room_rows)
        course = room_course(room_rows, faults)
        ((build, options),) = all_builds(file, (rev,), TypedOptions(room, fill, units), faults)
        with shown_progress() as progress:
            found = run_day(
                build,
                hours=hours,
                start=beginning.value,
                swinging=swing,
                room_course=course,
                progress=progress,
                **options,
            )
        data = day_report(found, price=price)
        _write_files(found, rows, chart)
    if as_json:
        print_json(data)
    else:
        print_day(found, data, console())


def _odd_options(
    hours: float,
    price: float | None,
    rows: Path | None,
    chart: Path | None,
    room: str | None,
    swing: bool,
    room_rows: Path | None,
) -> list[Fault]:
    faults = []
    if not 0.0 < hours <= LONGEST_HOURS:
        allowed = f"greater than 0 h and at most {LONGEST_HOURS:.0f} h"
        faults.append(Fault("--hours", f"--hours must be {allowed}; received {hours:g} h."))
    if price is not None and not 0.0 <= price < 1e6:
        faults.append(Fault("--price", f"--price must be 0 or more; received {price:g}."))
    if sum((room is not None, swing, room_rows is not None)) > 1:
        faults.append(
            Fault("--room", "Only one of --room, --swing and --room-csv may tell the room.")
        )
    if chart is not None and chart.suffix.lower() not in {".svg", ".html"}:
        name = f"--chart must end in .svg or .html; received '{chart}'."
        faults.append(Fault("--chart", name))
    for name, path in (("--csv", rows), ("--chart", chart)):
        if path is not None and not path.absolute().parent.is_dir():
            told = f"{name} must lie in a folder that exists; received '{path}'."
            faults.append(Fault(name, told))
    return faults


def _write_files(found: Day, rows: Path | None, chart: Path | None) -> None:
    """The rows and the chart; a file that cannot be written is a fault of the input."""
    try:
        if rows is not None:
            _write_rows(found.rows, rows)
        if chart is not None:
            from coldwright.sheet.day_chart import write_day_chart  # noqa: PLC0415 (slow)

            write_day_chart(found, chart)
    except OSError as error:
        told = f"'{error.filename}' cannot be written: {error.strerror}."
        raise InputError(Fault("--csv" if chart is None else "--chart", told)) from error


def _write_rows(found: dict[str, Array], path: Path) -> None:
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file)
        writer.writerow(found)
        for values in zip(*found.values(), strict=True):
            writer.writerow(f"{value:.6g}" for value in values)


def print_day(found: Day, data: dict[str, Any], to: Console) -> None:
    """Print the day: sentences first, then its figures."""
    from coldwright.sheet.rows.day import day_sections  # noqa: PLC0415 (slow to import)
    from coldwright.sheet.writer import Writer  # noqa: PLC0415

    pressure = float(found.clock.plant.pressure[0])
    write = Writer(data, found.clock.system, pressure)
    revision = f", revision {data['revision']}" if data["revision"] else ", as built"
    to.print(Text(f"{data['name']}{revision}", style="bold"))
    for index, sentence in enumerate(data["sentences"]):
        to.print(Padding(Text(sentence, style="bold" if index == 0 else ""), (0, 0, 0, 2)))
    for title, entries in day_sections(write):
        to.print(Text(f"\n{title}", style="bold"))
        table = Table.grid(padding=(0, 2))
        table.add_column(min_width=30)
        table.add_column(justify="right", min_width=12)
        table.add_column(style="dim", ratio=1)
        for label, figure, remark in entries:
            table.add_row(f"  {label}", figure, remark)
        to.print(table)
    _print_notices("Notices", data["notices"], to)
    _print_notices("Cautions", data["cautions"], to)
    to.print(Text("\nAssumed on the clock", style="bold"))
    for entry in data["assumed"]:
        line = Text(f"{entry['text']} ", style="italic")
        line.append(f"[{entry['source']}]", style="dim")
        to.print(Padding(line, (0, 0, 0, 2)))


def _print_notices(title: str, notices: list[dict[str, str]], to: Console) -> None:
    if not notices:
        return
    to.print(Text(f"\n{title}", style="bold"))
    for notice in notices:
        mark = MARKS[notice["severity"]]
        text = Text(f"{mark} {notice['text']}", style=STYLES[notice["severity"]])
        text.append(f" [{notice['source']}]", style="dim not bold")
        to.print(Padding(text, (0, 0, 0, 2)))
