"""The room's temperature by the minute, out of a CSV."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from coldwright.arrays import Array
from coldwright.errors import Fault, InputError


def room_course(path: Path | None, faults: list[Fault]) -> Array | None:
    """Room temperature [K] of every minute, or None; what is wrong is added to `faults`."""
    if path is None:
        return None
    try:
        return _course_in(path)
    except InputError as error:
        faults += error.faults
        return None


def _course_in(path: Path) -> Array:
    """Room temperature [K] of every minute, straight between the lines of a CSV."""
    try:
        text = path.read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        told = f"The room's CSV '{path}' cannot be read: {error.__class__.__name__}."
        raise InputError(Fault("--room-csv", told)) from error
    points: list[tuple[float, float]] = []
    for number, line in enumerate(text.splitlines(), start=1):
        cells = [cell.strip() for cell in line.replace(";", ",").split(",")]
        if not any(cells):
            continue
        try:
            minute, celsius = float(cells[0]), float(cells[1])
        except (ValueError, IndexError):
            if number == 1:
                continue  # a heading
            told = f"Line {number} of '{path}' must be a minute and a temperature in °C; "
            hint = "such as 60, 21.5"
            raise InputError(
                Fault("--room-csv", f"{told}received '{line.strip()}'.", number, hint)
            ) from None
        rises = not points or minute > points[-1][0]
        if not (-20.0 <= celsius <= 60.0 and minute >= 0.0 and rises):
            told = f"Line {number} of '{path}': minutes must rise and temperatures be -20 to 60 °C;"
            raise InputError(Fault("--room-csv", f"{told} received '{line.strip()}'.", number))
        points.append((minute, celsius))
    if len(points) < 2:
        told = f"The room's CSV '{path}' must hold two lines at least; received {len(points)}."
        raise InputError(Fault("--room-csv", told))
    minutes, celsius_of = np.array(points).T
    course = np.interp(np.arange(int(minutes[-1]) + 1), minutes, celsius_of)
    return np.asarray(course + 273.15, dtype=np.float64)
