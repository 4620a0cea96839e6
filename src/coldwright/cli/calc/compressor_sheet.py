"""What a data sheet says, read from a CSV file or from typed points; every fault is kept."""

from __future__ import annotations

import csv
import math
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from coldwright.cli.calc.entries import Entries
from coldwright.errors import Fault, InputError
from coldwright.units import Kind

ICE_POINT = 273.15
RETURN_GAS = LIQUID = 305.35  # K, where a sheet does not say

TEMPERATURE, HEAT, FLOW = Kind.temperature, Kind.heat_flow, Kind.mass_flow
# Field: words in a typed point, CSV column, kind, least and greatest [SI].
FIELDS: tuple[tuple[str, str, str, Kind, float, float], ...] = (
    ("evaporating", "evaporating", "evaporating_C", TEMPERATURE, 213.15, 293.15),
    ("condensing", "condensing", "condensing_C", TEMPERATURE, 288.15, 343.15),
    ("return_gas", "return gas", "return_gas_C", TEMPERATURE, 223.15, 323.15),
    ("liquid", "liquid", "liquid_C", TEMPERATURE, 263.15, 343.15),
    ("capacity", "capacity", "capacity_W", HEAT, 1.0, 5000.0),
    ("mass_flow", "mass flow", "mass_flow_kg_per_h", FLOW, 1e-6, 0.1),
    ("power", "power", "power_W", Kind.power, 2.0, 5000.0),
    ("current", "current", "current_A", Kind.current, 0.01, 50.0),
)
EXAMPLE = (
    "evaporating -23.3C, condensing 54.4C, return gas 32.2C, liquid 32.2C, capacity 115W, "
    "power 100W, current 1.35A"
)
COLUMN_SI = {"mass_flow": 1.0 / 3600.0}


@dataclass(frozen=True)
class SheetPoint:
    """One rated point, SI; NaN where it is not said."""

    evaporating: float
    condensing: float
    return_gas: float
    liquid: float
    capacity: float
    mass_flow: float
    power: float
    current: float


def typed_points(entries: Entries, texts: Sequence[str]) -> list[SheetPoint]:
    """The points of --rated, such as `EXAMPLE`."""
    found = []
    for number, text in enumerate(texts, 1):
        name = "--rated" if len(texts) == 1 else f"--rated (point {number})"
        values = _typed(entries, name, text)
        point = _checked(entries, name, values, None)
        if point is not None:
            found.append(point)
    return found


def _typed(entries: Entries, name: str, text: str) -> dict[str, float] | None:
    """The values of one typed point; None where one has a fault."""
    values: dict[str, float] = {}
    sound = True
    for piece in re.split(r"[;,]\s*(?=[^\W\d])", text.strip()):
        field = next((f for f in FIELDS if piece.lower().startswith(f[1])), None)
        if field is None:
            words = ", ".join(each[1] for each in FIELDS)
            entries.fault(name, f"{name}: '{piece}' must begin with one of {words}.", EXAMPLE)
            sound = False
            continue
        if field[0] in values:
            entries.fault(name, f"{name}: {field[1]} stands twice.")
            sound = False
            continue
        entry = entries.optional(
            f"{name}, {field[1]}", piece[len(field[1]) :].strip(" =:"), field[3], field[4:6]
        )
        sound = sound and entry is not None
        values[field[0]] = math.nan if entry is None else entry.value
    return values if sound else None


def csv_points(entries: Entries, path: Path) -> list[SheetPoint]:
    """The points of --map: a header of column names, then one line for each point."""
    rows = entries.attempt(lambda: list(_rows(path)))
    if rows is None:
        return []
    found = []
    for line, row in rows:
        values: dict[str, float] | None = {}
        for field in FIELDS:
            value = entries.attempt(partial(_number, path, line, row, field))
            if value is None:
                values = None
            elif values is not None and not math.isnan(value):
                values[field[0]] = value
        point = _checked(entries, f"{path.name}, line {line}", values, line)
        if point is not None:
            found.append(point)
    return found


def _rows(path: Path) -> Iterator[tuple[int, Mapping[str, str]]]:
    """Line number and cells of each line; one that begins with # is a remark.

    Raises InputError for a file that is no such table.
    """
    try:
        text = path.read_text(encoding="utf-8-sig")
    except OSError as error:
        reason = "does not exist" if isinstance(error, FileNotFoundError) else "cannot be read"
        raise InputError(Fault("--map", f"--map: file {path} {reason}.")) from error
    except UnicodeDecodeError as error:
        raise InputError(Fault("--map", f"--map: file {path} is no UTF-8 text.")) from error
    # Remarks become empty lines, so that line numbers stay.
    lines = ["" if line.lstrip().startswith("#") else line for line in text.splitlines()]
    first = next((line for line in lines if line.strip()), "")
    reader = csv.reader(lines, delimiter=";" if first.count(";") > first.count(",") else ",")
    header = next(([cell.strip() for cell in cells] for cells in reader if any(cells)), [])
    line = reader.line_num
    known = [field[2] for field in FIELDS]
    faults = [
        Fault("--map", f"--map: column '{cell}' of {path.name} is unknown.", line, _known(known))
        for cell in header
        if cell not in known
    ]
    faults += [
        Fault("--map", f"--map: {path.name} must have a column {need}.", line, _known(known))
        for need in ("evaporating_C", "condensing_C", "power_W")
        if need not in header
    ]
    if "capacity_W" not in header and "mass_flow_kg_per_h" not in header:
        message = f"--map: {path.name} must have a column capacity_W or mass_flow_kg_per_h."
        faults.append(Fault("--map", message, line, _known(known)))
    if faults:
        raise InputError(*faults)
    count = 0
    for cells in reader:
        if not any(cell.strip() for cell in cells):
            continue
        count += 1
        if len(cells) != len(header):
            message = f"--map: {path.name} must have {len(header)} cells; received {len(cells)}."
            raise InputError(Fault("--map", message, reader.line_num))
        yield reader.line_num, dict(zip(header, cells, strict=True))
    if count == 0:
        raise InputError(Fault("--map", f"--map: {path.name} must hold at least one point."))


def _known(columns: Sequence[str]) -> str:
    return f"columns: {', '.join(columns)}"


def _number(
    path: Path, line: int, row: Mapping[str, str], field: tuple[str, str, str, Kind, float, float]
) -> float:
    """The cell as SI; NaN where the column or its text is missing. Raises InputError."""
    key, _, column, kind, least, greatest = field
    text = row.get(column, "").strip()
    if not text:
        return math.nan
    place = f"--map: column {column} of {path.name}"
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        raise InputError(
            Fault("--map", f"{place} must be a number; received '{text}'.", line)
        ) from None
    offset = ICE_POINT if kind is Kind.temperature else 0.0
    scale = COLUMN_SI.get(key, 1.0)
    si = value * scale + offset
    if not least <= si <= greatest:
        low, high = ((bound - offset) / scale for bound in (least, greatest))
        message = f"{place} must be from {low:.4g} to {high:.4g}; received {text}."
        raise InputError(Fault("--map", message, line))
    return si


def _checked(
    entries: Entries, name: str, values: Mapping[str, float] | None, line: int | None
) -> SheetPoint | None:
    """The point with what it leaves unsaid; None with a fault kept where it makes no sense."""
    if values is None:
        return None
    prefix = "" if line is None else "--map: "
    missing = [key for key in ("evaporating", "condensing") if key not in values]
    if "capacity" not in values and "mass_flow" not in values:
        missing.append("capacity")
    if missing:
        entries.fault(
            name, f"{prefix}{name} must give {' and '.join(missing)}.", f"such as {EXAMPLE}"
        )
        return None
    evaporating, condensing = values["evaporating"], values["condensing"]
    liquid = values.get("liquid", min(LIQUID, condensing))
    gas = values.get("return_gas", max(RETURN_GAS, evaporating))
    for wrong, message in (
        (condensing <= evaporating, "condensing must be above evaporating"),
        (liquid > condensing, "liquid must be at most the condensing temperature"),
        (gas < evaporating, "return gas must be at least the evaporating temperature"),
    ):
        if wrong:
            entries.fault(name, f"{prefix}{name}: {message}.")
            return None
    none = math.nan
    return SheetPoint(
        evaporating,
        condensing,
        gas,
        liquid,
        values.get("capacity", none),
        values.get("mass_flow", none),
        values.get("power", none),
        values.get("current", none),
    )
