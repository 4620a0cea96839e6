"""Writes the figures of a report in the reader's units, each knowing which figure it is."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from coldwright.units import Kind, System, format_quantity
from coldwright.verdict import Assessment, value_at
from coldwright.verdict.figures import CELSIUS, percent

Data = Mapping[str, Any]
Row = tuple[str, str, str]  # label, figure, remark

# Suffix of a report key -> kind, and how its figure becomes SI.
SUFFIXES: tuple[tuple[str, str, float, float], ...] = (
    ("_kWh_per_day", "energy", 3.6e6, 0.0),
    ("_kg_per_h", "mass_flow", 1.0 / 3600.0, 0.0),
    ("_kg", "mass", 1.0, 0.0),
    ("_L", "volume", 1e-3, 0.0),
    ("_kWh", "energy", 3.6e6, 0.0),
    ("_m", "length", 1.0, 0.0),
    ("_m3_per_h", "volume_flow", 1.0 / 3600.0, 0.0),
    ("_W_per_K", "conductance", 1.0, 0.0),
    ("_g_per_day", "mass", 1e-3, 0.0),
    ("_mm_per_day", "length", 1e-3, 0.0),
    ("_cm3", "volume", 1e-6, 0.0),
    ("_mm", "length", 1e-3, 0.0),
    ("_m", "length", 1.0, 0.0),
    ("_Pa", "absolute_pressure", 1.0, 0.0),
    ("_C", "temperature", 1.0, CELSIUS),
    ("_K", "temperature_difference", 1.0, 0.0),
    ("_W", "heat_flow", 1.0, 0.0),
    ("_A", "current", 1.0, 0.0),
    ("_g", "mass", 1e-3, 0.0),
)
PER_DAY = ("_kWh_per_day", "_g_per_day", "_mm_per_day")


class Shown(str):
    """A written figure that knows which one of the report it is, so that one can ask about it."""

    __slots__ = ("path",)
    path: str

    def __new__(cls, text: str, path: str) -> Shown:
        """Hold `text`, the figure at `path`."""
        made = super().__new__(cls, text)
        made.path = path
        return made


class Columns(str):
    """Several figures of one row, parted by tabs; each is still known by itself."""

    __slots__ = ("cells",)
    cells: tuple[str, ...]

    def __new__(cls, *cells: str) -> Columns:
        """Hold `cells`, left to right."""
        made = super().__new__(cls, "\t".join(cells))
        made.cells = cells
        return made


class Writer:
    """Writes the report's figures in one system of units."""

    def __init__(self, data: Data, system: System, atmosphere_Pa: float) -> None:
        """Hold the report and how to write it."""
        self.data, self.system, self.atmosphere = data, system, atmosphere_Pa

    def figure(self, path: str) -> str:
        """The figure at a dotted report path, with its unit."""
        return Shown(self.written(path, value_at(self.data, path)), path)

    def written(self, path: str, value: Any) -> str:  # noqa: ANN401 (any JSON value)
        """`value` as the key of `path` says."""
        if value is None:
            return "not known"
        if isinstance(value, str | bool):
            return str(value)
        parent, _, name = path.rpartition(".")
        for suffix, kind, factor, offset in SUFFIXES:
            if name.endswith(suffix) or parent.endswith(suffix):
                daily = " a day" if suffix in PER_DAY else ""
                shown = "power" if name == "power_W" else kind
                return self.quantity(value * factor + offset, shown) + daily
        if name == "run_fraction" and value > 1.0:
            return "never stops"
        shares = ("fraction", "share", "quality", "humidity")
        return percent(value) if any(word in path for word in shares) else f"{value:.3g}"

    def quantity(self, value: float, kind: str) -> str:
        """An SI value in the reader's units; a pressure as the gauge shows it in shop units."""
        if kind == "absolute_pressure" and self.system == "shop":
            value, kind = value - self.atmosphere, "gauge_pressure"
        return format_quantity(value, Kind(kind), self.system, atmosphere_Pa=self.atmosphere)


def writer_of(assessment: Assessment, data: Data) -> Writer:
    """A writer in the units of the assessment."""
    pressure = float(assessment.case.translation.room.atmospheric_pressure)
    return Writer(data, assessment.case.system, pressure)
