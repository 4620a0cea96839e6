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

from coldwright.cli.app import app
from coldwright.cli.build_options import (
    File,
    FillText,
    Revision,
    RoomText,
    TypedOptions,
    Units,
    faults_of,
    first_line,
    one_build,
    shown_progress,
)
from coldwright.cli.terminal import MARKS, AsJson, console, faults_shown, print_json
from coldwright.errors import Fault, InputError

if TYPE_CHECKING:
    from coldwright.arrays import Array
    from coldwright.verdict.day import Day

LONGEST_HOURS = 24.0 * 60.0
CHART_ENDS = (".svg", ".html", ".json")
STYLES = {"danger": "bold", "warning": "bold", "info": ""}


class Beginning(StrEnum):
    """Where a run begins."""

    warm = "warm"
    settled = "settled"


Hours = Annotated[
    float, typer.Option("--hours", metavar="H", help="How long to run; the last 24 h count.")
]
From = Annotated[
    Beginning, typer.Option("--from", help="warm: all at room temperature. settled: days on.")
]
Swing = Annotated[
    bool, typer.Option("--swing", help="Room swings daily between the site's low and high.")
]
RoomRows = Annotated[
    Path | None,
    typer.Option(
        "--room-csv", metavar="F", help="Room from a CSV: minute, °C; repeated from its end."
    ),
]
Price = Annotated[
    float | None, typer.Option("--price", metavar="P", help="Price of a kWh, any currency.")
]
Battery = Annotated[
    float | None,
    typer.Option(
        "--battery",
        metavar="AH",
        help="Ah that may be drawn from the battery (of a lead battery about half).",
    ),
]
RowsFile = Annotated[
    Path | None, typer.Option("--csv", metavar="F", help="Write one row a minute.")
]
ChartFile = Annotated[
    Path | None, typer.Option("--chart", metavar="F", help="Write a chart: .svg, .html or .json.")
]
Explained = Annotated[
    str | None,
    typer.Option(
        "--explain",
        metavar="FIELD",
        help="Show where one figure comes from, such as energy_kWh_per_day or rows.power_W.",
    ),
]


@app.command()
def day(  # noqa: PLR0913, PLR0917 (every argument is an option of the command)
    file: File,
    hours: Hours = 48.0,
    beginning: From = Beginning.warm,
    rev: Revision = None,
    room: RoomText = None,
    swing: Swing = False,
    room_rows: RoomRows = None,
    fill: FillText = None,
    units: Units = None,
    price: Price = None,
    battery: Battery = None,
    rows: RowsFile = None,
    chart: ChartFile = None,
    as_json: AsJson = False,
    explain: Explained = None,
) -> None:
    """Run the build minute by minute: pull-down, cycling, doors, goods, frost, a power cut."""
    from coldwright.cli.room_course import room_course  # noqa: PLC0415 (slow to import)
    from coldwright.verdict.day import run_day  # noqa: PLC0415 (slow to import)
    from coldwright.verdict.day_report import day_report  # noqa: PLC0415
    from coldwright.verdict.explain_day import day_explanation_of  # noqa: PLC0415

    with faults_shown(as_json):
        faults = [
            *_odd_numbers(hours, price, battery),
            *_odd_options(rows, chart, room, swing, room_rows),
            *faults_of(lambda: explain is not None and day_explanation_of(explain)),
        ]
        course = room_course(room_rows, faults)
        build, options = one_build(file, rev, TypedOptions(room, fill, units), faults)
        _battery_is_there(build, battery)
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
        data = day_report(found, price=price, battery=battery)
        _write_files(found, rows, chart)
    if explain is not None:
        _explain(found, data, explain, as_json=as_json)
    elif as_json:
        print_json(data)
    else:
        print_day(found, data, console())


def _explain(found: Day, data: dict[str, Any], path: str, *, as_json: bool) -> None:
    """One figure with its formula, its inputs and its sources; of the rows the last minute's."""
    from coldwright.cli.screen import print_explanation  # noqa: PLC0415 (slow to import)
    from coldwright.verdict.explain_day import day_explanation_of  # noqa: PLC0415
    from coldwright.verdict.explained import laid_open  # noqa: PLC0415

    last = {name: float(values[-1]) for name, values in found.rows.items()}
    entry = day_explanation_of(path)
    shown = laid_open({**data, "rows": last}, path, entry, entry.inputs)
    print_json(shown) if as_json else print_explanation(shown, console())


def _battery_is_there(build: Any, battery: float | None) -> None:  # noqa: ANN401 (imported late)
    if battery is not None and build.compressor.supply != "dc":
        told = "--battery must stand beside a battery machine; this one runs on the mains."
        raise InputError(Fault("--battery", told, None, 'compressor.supply = "dc"'))


def _odd_numbers(hours: float, price: float | None, battery: float | None) -> list[Fault]:
    faults = []
    if not 0.0 < hours <= LONGEST_HOURS:
        allowed = f"greater than 0 h and at most {LONGEST_HOURS:.0f} h"
        faults.append(Fault("--hours", f"--hours must be {allowed}; received {hours:g} h."))
    if price is not None and not 0.0 <= price < 1e6:
        faults.append(Fault("--price", f"--price must be 0 or more; received {price:g}."))
    if battery is not None and not 0.0 < battery < 1e5:
        told = f"--battery must be greater than 0 Ah; received {battery:g}."
        faults.append(Fault("--battery", told))
    return faults


def _odd_options(
    rows: Path | None,
    chart: Path | None,
    room: str | None,
    swing: bool,
    room_rows: Path | None,
) -> list[Fault]:
    faults = []
    if sum((room is not None, swing, room_rows is not None)) > 1:
        faults.append(
            Fault("--room", "Only one of --room, --swing and --room-csv may tell the room.")
        )
    if chart is not None and chart.suffix.lower() not in CHART_ENDS:
        name = f"--chart must end in {', '.join(CHART_ENDS)}; received '{chart}'."
        faults.append(Fault("--chart", name))
    for name, path in (("--csv", rows), ("--chart", chart)):
        if path is not None and not path.absolute().parent.is_dir():
            told = f"{name} must lie in a folder that exists; received '{path}'."
            faults.append(Fault(name, told))
    return faults


def _write_files(found: Day, rows: Path | None, chart: Path | None) -> None:
    """The rows and the chart; a file that cannot be written is a fault of the input."""
    if chart is not None:
        from coldwright.cli.chart import write_figure  # noqa: PLC0415 (slow to import)
        from coldwright.sheet.charts.day import day_chart  # noqa: PLC0415

        write_figure(day_chart(found), chart, "--chart")
    if rows is None:
        return
    try:
        _write_rows(found.rows, rows)
    except OSError as error:
        told = f"'{error.filename}' cannot be written: {error.strerror}."
        raise InputError(Fault("--csv", told)) from error


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
    to.print(first_line(data))
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
