"""A bench answer: its figures as plain data, with their spread, and as text."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from coldwright.cli.calc.entries import SEA_LEVEL, Entry
from coldwright.cli.terminal import MARKS, console, print_json
from coldwright.errors import Notice
from coldwright.units import Kind, System, format_estimate, format_quantity

ICE_POINT = 273.15
MOST_DECIMALS = 6
COVERAGE = 2.0  # half-width of a 95 % interval over the standard uncertainty

Data = dict[str, Any]
Row = tuple[str, str, str]

# Suffix of a key -> kind, and how its figure becomes SI (factor, offset).
KINDS: tuple[tuple[str, Kind, float, float], ...] = (
    ("_kg_per_h", Kind.mass_flow, 1.0 / 3600.0, 0.0),
    ("_W_per_K", Kind.conductance, 1.0, 0.0),
    ("_W_m2K", Kind.film_coefficient, 1.0, 0.0),
    ("_kg_m3", Kind.density, 1.0, 0.0),
    ("_J_kgK", Kind.specific_heat, 1.0, 0.0),
    ("_W_mK", Kind.conductivity, 1.0, 0.0),
    ("_percent", Kind.ratio, 0.01, 0.0),
    ("_Pa", Kind.absolute_pressure, 1.0, 0.0),
    ("_m3", Kind.volume, 1.0, 0.0),
    ("_m2", Kind.area, 1.0, 0.0),
    ("_W", Kind.heat_flow, 1.0, 0.0),
    ("_C", Kind.temperature, 1.0, ICE_POINT),
    ("_K", Kind.temperature_difference, 1.0, 0.0),
    ("_g", Kind.mass, 1e-3, 0.0),
    ("_m", Kind.length, 1.0, 0.0),
)
# Suffixes whose units no kind has: unit and factor in SI, then in shop units.
OTHERS: tuple[tuple[str, str, float, str, float], ...] = (
    ("_W_per_m2", "W/m2", 1.0, "Btu/(h ft2)", 0.3169983306),
    ("_m2K_per_W", "m2 K/W", 1.0, "h ft2 °F/Btu", 5.678263341),
    ("_g_per_m3", "g/m3", 1.0, "lb/1000 ft3", 0.0624279606),
    ("_g_per_kg", "g/kg", 1.0, "grains/lb", 7.0),
    ("_Pas", "mPa s", 1e3, "mPa s", 1e3),
)


@dataclass(frozen=True)
class Answer:
    """What a command found. `data` is the JSON; the rest is how it reads as text.

    rows: label, figure, remark. sentences: what the figures mean. cautions: as `report` gives
    notices. sources: citations.
    """

    title: str
    data: Data
    rows: Sequence[Row]
    sentences: Sequence[str] = ()
    cautions: Sequence[Data] = field(default=())
    sources: Sequence[str] = ()

    def show(self, as_json: bool) -> None:
        """Print the answer."""
        if as_json:
            more: Data = {"notes": list(self.sentences), "cautions": list(self.cautions)}
            shown = {key: value for key, value in more.items() if value}
            print_json({**self.data, **shown, "sources": list(self.sources)})
            return
        out = console()
        out.print(Text(self.title, style="bold"))
        table = Table.grid(padding=(0, 2))
        table.add_column(min_width=28)
        table.add_column(justify="right", min_width=12, no_wrap=True)
        table.add_column(style="dim", ratio=1)
        for label, figure, remark in self.rows:
            table.add_row(f"  {label}", figure, remark)
        out.print(table)
        for sentence in self.sentences:
            out.print(Padding(Text(sentence), (0, 0, 0, 2)))
        for caution in self.cautions:
            mark = MARKS[caution["severity"]]
            text = Text(f"{mark} {caution['text']}", style="bold")
            text.append(f" [{caution['source']}]", style="dim not bold")
            out.print(Padding(text, (0, 0, 0, 2)))
        for citation in self.sources:
            out.print(Padding(Text(f"Source: {citation}", style="dim"), (0, 0, 0, 2)))


class Writer:
    """Writes the figures of `data` in one system of units."""

    def __init__(self, data: Data, system: System, atmosphere_Pa: float = SEA_LEVEL) -> None:
        """Hold the data and how to write it."""
        self.data, self.system, self.atmosphere = data, system, atmosphere_Pa

    def figure(self, key: str) -> str:
        """The figure called `key` with its unit, and `±` where its half-width is known."""
        value = self.data[key]
        half = self.data.get("half_widths", {}).get(key, 0.0)
        for suffix, si_unit, si, shop_unit, shop in OTHERS:
            if key.endswith(suffix):
                unit, factor = (si_unit, si) if self.system == "si" else (shop_unit, shop)
                return self.plain(key, unit, factor)
        for suffix, kind, factor, offset in KINDS:
            if key.endswith(suffix):
                return self.quantity(value, half, kind, factor, offset)
        return str(value)

    def value(self, name: str, value: float) -> str:
        """A value of its own, written as the suffix of `name` says."""
        return Writer({name: value}, self.system, self.atmosphere).figure(name)

    def plain(self, key: str, unit: str, factor: float, offset: float = 0.0) -> str:
        """The figure called `key` times `factor` and more by `offset`, in `unit`."""
        value = self.data[key]
        half = self.data.get("half_widths", {}).get(key, 0.0)
        return _plain(None if value is None else value * factor + offset, half * factor, unit)

    def quantity(
        self,
        value: float | None,
        half: float = 0.0,
        kind: Kind = Kind.number,
        factor: float = 1.0,
        offset: float = 0.0,
    ) -> str:
        """A value, by `factor` and `offset` from SI, with the half-width of its interval."""
        return format_estimate(
            math.nan if value is None else value * factor + offset,
            half * factor / COVERAGE,
            kind,
            self.system,
            atmosphere_Pa=self.atmosphere,
        )

    def si(self, value: float, kind: Kind) -> str:
        """An SI value of `kind` with its unit."""
        return format_quantity(value, kind, self.system, atmosphere_Pa=self.atmosphere)


def _plain(value: float | None, half: float, unit: str) -> str:
    """A figure whose unit no kind has: three figures, or as many as its half-width has two of."""
    if value is None:
        return "not known"
    if half <= 0.0:
        return f"{value:.3g} {unit}"
    decimals = min(max(1 - math.floor(math.log10(half)), 0), MOST_DECIMALS)
    return f"{value:.{decimals}f} ± {half:.{decimals}f} {unit}"


def worked_out(compute: Callable[..., Data], inputs: Mapping[str, Entry]) -> Data:
    """`compute(**values)`, with the half-widths that the inputs' uncertainties give its figures.

    Each uncertain input is moved by a standard uncertainty either way; the changes are added as
    squares, so the inputs count as independent. Half-widths are of a 95 % interval.
    """
    values = {name: entry.value for name, entry in inputs.items()}
    base = compute(**values)
    squares: dict[str, float] = {}
    for name, entry in inputs.items():
        low = max(entry.value - entry.standard_uncertainty, entry.bounds[0])
        high = min(entry.value + entry.standard_uncertainty, entry.bounds[1])
        if high <= low:
            continue
        below, above = compute(**{**values, name: low}), compute(**{**values, name: high})
        reach = COVERAGE * entry.standard_uncertainty / (high - low)
        for key, value in base.items():
            ends = (below[key], above[key])
            if all(isinstance(each, float) for each in (value, *ends)):
                squares[key] = squares.get(key, 0.0) + ((ends[1] - ends[0]) * reach) ** 2
    halves = {key: math.sqrt(square) for key, square in squares.items() if square > 0.0}
    return {**base, "half_widths": halves} if halves else base


def cited(*keys: str) -> list[str]:
    """Citations of source `keys`, each once."""
    from coldwright.sources import source  # noqa: PLC0415 (reads files)

    return [source(key).citation for key in dict.fromkeys(keys)]


def noticed(notice: Notice) -> Data:
    """A notice as plain data, its source as a citation."""
    return {
        "code": notice.code,
        "severity": notice.severity,
        "text": notice.text,
        "source": cited(notice.source)[0],
    }
