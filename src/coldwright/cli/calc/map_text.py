"""The figures of `calc map`, and how they read."""

from __future__ import annotations

import csv as rows_of
from collections.abc import Sequence
from pathlib import Path

from rich.table import Table
from rich.text import Text

from coldwright.build.result import Build
from coldwright.build.translation.plant import translate
from coldwright.cli.calc.answer import ICE_POINT, Answer, Data, Writer, cited, noticed
from coldwright.cli.calc.fill_text import WARNED, charge_that_fits
from coldwright.cli.terminal import console
from coldwright.errors import Fault, InputError
from coldwright.shop.cautions import cautions_for
from coldwright.shop.refrigerant_safety import safety
from coldwright.units import Kind, System
from coldwright.verdict.figures import MachineFigures
from coldwright.verdict.performance import Performance, performance

GRAM = 1e3
WET = 0.995
# Of the report's key: label and kind.
BLOCKS = (
    ("capacity_W", "cooling", Kind.heat_flow),
    ("power_W", "power", Kind.power),
    ("current_A", "current", Kind.current),
    ("suction_Pa", "low side", Kind.absolute_pressure),
    ("discharge_Pa", "high side", Kind.absolute_pressure),
)
HOW_TO = (
    "How to compare: let it run until nothing moves any more (half an hour), read the temperature "
    "of {source} and of the room at the condenser, then the watts at the plug; open no closed "
    "system for it. Watts and both pressures under the table: short of gas, or a tight capillary. "
    "Over it: too much gas, a covered or dirty condenser, air in it. Low side up and high side "
    "down: worn valves. Nearer than a tenth capillary and compressor are not known."
)


def show(
    build: Build,
    system: System,
    *,
    charge: float | None,
    sources: Sequence[float] | None,
    rooms: Sequence[float] | None,
    csv: Path | None,
    as_json: bool,
) -> None:
    """Work out the table, write and print it."""
    translation = translate(build, charge=charge)
    charge_that_fits(build, translation, charge)
    site = build.site
    found = performance(
        translation,
        sources,
        rooms,
        span=(site.room_temperature_low.value, site.room_temperature_high.value),
        shop_units=system == "shop",
    )
    data = table_data(build, found)
    if csv is not None:
        write_rows(data, csv)
    write = Writer(data, system, site.atmospheric_pressure)
    source = "the brine" if found.is_brine else "the air round the cold side"
    notes = [*_notes(found, source), HOW_TO.format(source=source)]
    if csv is not None:
        notes.append(f"Wrote {csv}.")
    cautions = [
        noticed(each)
        for each in cautions_for(safety(build.refrigerant.name).safety_class)
        if each.code in WARNED
    ]
    title = f"{build.name}: {write.figure('charge_g')} of {build.refrigerant.name}"
    if not as_json:
        console().print(Text(title, style="bold"))
        _print_blocks(found, write)
    sources_cited = cited("bell_2014_coolprop", "hermes_melo_knabben_2010", "smith_1969_void")
    Answer("", data, [], notes, cautions, sources_cited).show(as_json)


def table_data(build: Build, found: Performance) -> Data:
    """The table as plain data: one entry for each state, in the order source by room."""
    points = []
    for row in found.points:
        for room, point in zip(found.rooms, row, strict=True):
            figures = point.as_report(is_brine=found.is_brine)
            key = "brine_C" if found.is_brine else "compartment_C"
            points.append({"room_C": room - ICE_POINT, key: point.source_C, **figures})
            points[-1][key] = point.source_C  # known without a balance, too
    return {
        "name": build.name,
        "refrigerant": build.refrigerant.name,
        "charge_g": found.charge * GRAM,
        "charge_found": found.found,
        "rooms_C": [room - ICE_POINT for room in found.rooms],
        "sources_C": [source - ICE_POINT for source in found.sources],
        "points": points,
    }


def write_rows(data: Data, path: Path) -> None:
    """Write the states as CSV, one row each, keys with units as heads."""
    points = data["points"]
    try:
        with path.open("w", newline="", encoding="utf-8") as file:
            writer = rows_of.writer(file)
            writer.writerow(points[0])
            for point in points:
                writer.writerow(
                    f"{value:.6g}" if isinstance(value, float) else value
                    for value in point.values()
                )
    except OSError as error:
        told = f"--csv must name a file that can be written; {error.strerror}: '{path}'."
        raise InputError(Fault("--csv", told)) from error


def _print_blocks(found: Performance, write: Writer) -> None:
    """One small table for each figure: sources down, rooms across."""
    out = console()
    source = "brine" if found.is_brine else "air"
    for key, label, kind in BLOCKS:
        table = Table.grid(padding=(0, 2))
        table.add_column(min_width=20)
        for _ in found.rooms:
            table.add_column(justify="right", min_width=12)
        rooms = [write.si(room, Kind.temperature) for room in found.rooms]
        table.add_row(f"  {label}", *(Text(f"room {room}", style="dim") for room in rooms))
        for at, row in zip(found.sources, found.points, strict=True):
            cells = (_cell(point, key, kind, write) for point in row)
            table.add_row(f"    {source} {write.si(at, Kind.temperature)}", *cells)
        out.print(table)


def _cell(point: MachineFigures, key: str, kind: Kind, write: Writer) -> str:
    """One figure; `w` where liquid comes back, `none` without a balance or without cooling."""
    if not point.balanced:
        return "none"
    if point.capacity_W <= 0.0 and key == "capacity_W":
        return "none"
    mark = " w" if key == "capacity_W" and point.return_quality < WET else ""
    return write.si(getattr(point, key), kind) + mark


def _notes(found: Performance, source: str) -> list[str]:
    """What the marks stand for, where they are."""
    states = [point for row in found.points for point in row]
    settled = [point for point in states if point.balanced]
    notes = []
    if found.not_found:
        notes.append(f"No charge was found: {found.not_found}. State one with --fill.")
    if any(point.capacity_W > 0.0 and point.return_quality < WET for point in settled):
        notes.append("w: liquid comes back to the compressor there.")
    if any(point.capacity_W <= 0.0 for point in settled):
        notes.append(f"none under cooling: the machine cannot make {source} that cold.")
    reasons = dict.fromkeys(point.reason for point in states if not point.balanced)
    notes += [f"none, no balance: {reason}." for reason in reasons]
    return notes
