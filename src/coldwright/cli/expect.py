"""`coldwright expect`: what gauges, thermometers and meters should read at a first start."""

from __future__ import annotations

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
    first_line,
    one_build,
    shown_progress,
)
from coldwright.cli.terminal import AsJson, console, faults_shown, print_json
from coldwright.units import Kind, format_quantity

if TYPE_CHECKING:
    from coldwright.sheet.writer import Writer

CELSIUS = 273.15
EN_DASH = "\u2013"

# Columns of the page: data key, heading, kind, decimals of the expected figure and of its range.
COLUMNS = (
    ("power_W", "watts", Kind.power, 0, 0),
    ("current_A", "amps", Kind.current, 2, 2),
    ("suction_Pa", "suction", Kind.absolute_pressure, 1, 1),
    ("discharge_Pa", "discharge", Kind.absolute_pressure, 0, 0),
    ("brine_C", "brine", Kind.temperature, 0, 0),
    ("cold_metal_C", "cold metal", Kind.temperature, 0, 0),
    ("air_C", "stored air", Kind.temperature, 0, 0),
    ("discharge_line_C", "discharge line", Kind.temperature, 0, 0),
    ("shell_C", "shell", Kind.temperature, 0, 0),
)
NOTES = (
    "Everything at room temperature at the start, the charge settled, the door shut.",
    "Below each expected figure: the range in which 9 of 10 such builds would read (v: inches of "
    "mercury of vacuum).",
    "Watts, suction and discharge all low together: short of charge or a restriction. Discharge "
    "and watts high: overcharge, air in the system or a hot condenser. Read twice before you cut.",
)
CAUTION = (
    "Gas under pressure, perhaps flammable, and mains: licensed work in most places. Moving air, "
    "no sparks, recover and never vent; `coldwright assess` lists the cautions for this gas."
)


@app.command()
def expect(
    file: File,
    rev: Revision = None,
    room: RoomText = None,
    fill: FillText = None,
    units: Units = None,
    empty: Annotated[
        bool, typer.Option("--empty", help="Without goods in it, as at a first start.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Say what a first start should read minute by minute, each with its range: one page."""
    from coldwright.verdict.expect import expect as work_out  # noqa: PLC0415 (slow to import)
    from coldwright.verdict.expect_report import expect_report  # noqa: PLC0415

    with faults_shown(as_json):
        build, options = one_build(file, rev, TypedOptions(room, fill, units))
        with shown_progress() as progress:
            found = work_out(build, empty=empty, progress=progress, **options)
    data = expect_report(found)
    if as_json:
        print_json(data)
    else:
        print_expectations(found, data, console())


def print_expectations(found: Any, data: dict[str, Any], to: Console) -> None:  # noqa: ANN401 (imported late)
    """Print the table with what was let vary."""
    from coldwright.sheet.writer import Writer  # noqa: PLC0415 (slow to import)

    write = Writer(data, found.clock.system, float(found.clock.plant.pressure[0]))
    goods = "empty" if data["empty"] else "with its goods"
    to.print(first_line(data, "a first start"))
    told = (
        f"Room {write.figure('room_C')}, charge {write.figure('charge_g')}, {goods}. "
        "Ranges are 5 to 95 %."
    )
    to.print(Padding(Text(told), (0, 0, 0, 2)))
    if not data["complete"]:
        told = "Stopped by hand: only the minutes and draws that were done."
        to.print(Padding(Text(told, style="bold"), (0, 0, 0, 2)))
    to.print(_table(data, write))
    to.print(Padding(Text(_stop_words(data)), (0, 0, 0, 2)))
    for note in NOTES:
        to.print(Padding(Text(note, style="dim"), (0, 0, 0, 2)))
    to.print(Padding(Text(CAUTION, style="bold"), (0, 0, 0, 2)))
    to.print(Text("\nWhat was let vary", style="bold"))
    doubts = "; ".join(f"{each['what']} ± {_spread(each, write)}" for each in data["uncertainties"])
    to.print(Padding(Text(doubts, style="italic"), (0, 0, 0, 2)))


def _stop_words(data: dict[str, Any]) -> str:
    """When the thermostat should stop it for the first time."""
    stop, last = data["first_stop_minutes"], data["rows"][-1]["minute"]
    expected, low, high = (stop[key] for key in ("expected", "low", "high"))
    if low is None:
        return f"Its thermostat is not expected to stop it within these {last} min."
    own = f"beyond {last} min" if expected is None else f"after {expected:.0f} min"
    until = f"beyond {last}" if high is None else f"{high:.0f}"
    return f"Its thermostat should stop it for the first time {own} (range {low:.0f} to {until})."


def _spread(each: dict[str, Any], write: Writer) -> str:
    """Half-width of 95 %, as everywhere."""
    if "standard_uncertainty_K" in each:
        return str(write.quantity(2.0 * each["standard_uncertainty_K"], "temperature_difference"))
    return f"{200.0 * each['standard_uncertainty']:.0f} %"


def _table(data: dict[str, Any], write: Writer) -> Table:
    """A line of expected figures for each minute, its range below it."""
    table = Table(box=None, padding=(0, 1), show_edge=False)
    table.add_column("\nminute", justify="right", style="bold")
    shown = [column for column in COLUMNS if column[0] in data["rows"][0]]
    for _, heading, kind, _, _ in shown:
        unit = {Kind.power: "W", Kind.current: "A"}.get(kind) or UNITS[write.system][kind]
        table.add_column(f"{heading}\n{unit}", justify="right", no_wrap=True)
    for row in data["rows"]:
        expected, between = [], []
        for key, _, kind, decimals, fewer in shown:
            expected.append(_number(row[key]["expected"], key, kind, decimals, write))
            low, high = (_number(row[key][end], key, kind, fewer, write) for end in ("low", "high"))
            dash = " to " if "-" in low + high else EN_DASH
            between.append(f"{low}{dash}{high}")
        table.add_row(str(row["minute"]), *expected)
        table.add_row("", *(Text(each, style="dim") for each in between))
    return table


UNITS: dict[str, dict[Kind, str]] = {
    "shop": {Kind.temperature: "°F", Kind.absolute_pressure: "psig"},
    "si": {Kind.temperature: "°C", Kind.absolute_pressure: "kPa abs"},
}


def _number(value: float, key: str, kind: Kind, decimals: int, write: Writer) -> str:
    """The figure alone; a vacuum as inches of mercury with a v."""
    size = value + (CELSIUS if key.endswith("_C") else 0.0)
    text = format_quantity(
        size, kind, write.system, atmosphere_Pa=write.atmosphere, digits=decimals
    )
    number, unit = text.split(" ", 1)
    return f"{number}v" if "vacuum" in unit else number
