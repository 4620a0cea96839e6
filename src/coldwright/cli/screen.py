"""An assessment as text on a terminal: the verdict first, then the figures as a maker thinks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from coldwright.cli.air_way_rows import air_way_rows
from coldwright.cli.cold_side_rows import cold_side_rows
from coldwright.cli.frost_rows import frost_rows
from coldwright.cli.hot_side_rows import hot_side_sections
from coldwright.cli.machine_rows import battery_rows, compressor_rows
from coldwright.cli.terminal import MARKS
from coldwright.cli.vessel_rows import holdover_section, vessel_rows
from coldwright.units import Kind, System, format_quantity
from coldwright.verdict import Assessment, explanation_of, inputs_of, value_at
from coldwright.verdict.explanation import Explanation
from coldwright.verdict.figures import CELSIUS, percent
from coldwright.verdict.report import citation_of

BALANCED = "balanced"
# Sources that many entries share, and the heading for those that follow from other entries.
NO_SOURCE = ("common practice, no source", "from memory", "assumed, no source")
FROM_FILE = "from other entries of the file"
REMEDIES_SHOWN = 3
STYLES = {"danger": "bold", "warning": "bold", "info": ""}
Data = Mapping[str, Any]
Row = tuple[str, str, str]

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


class Writer:
    """Writes the report's figures in one system of units."""

    def __init__(self, data: Data, system: System, atmosphere_Pa: float) -> None:
        """Hold the report and how to write it."""
        self.data, self.system, self.atmosphere = data, system, atmosphere_Pa

    def figure(self, path: str) -> str:
        """The figure at a dotted report path, with its unit."""
        return self.written(path, value_at(self.data, path))

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


def print_assessment(assessment: Assessment, data: Data, console: Console) -> None:
    """Print the whole assessment."""
    write = writer_of(assessment, data)
    revision = f", revision {data['revision']}" if data["revision"] else ", as built"
    console.print(Text(f"{data['name']}{revision}", style="bold"))
    for index, sentence in enumerate(data["sentences"]):
        console.print(Padding(Text(sentence, style="bold" if index == 0 else ""), (0, 0, 0, 2)))
    for fault in assessment.faults:
        console.print(Padding(Text(f"Fault of the input: {fault}", style="bold"), (0, 0, 0, 2)))
    for title, rows in sections(write):
        _print_rows(title, rows, console)
    _print_changes(data, write, console)
    _print_remedies(data, console)
    _print_assumed(data, write, console)
    _print_notices("Notices", data["notices"], console)
    _print_notices("Cautions", data["cautions"], console)
    console.print(Text("\nSources", style="bold"))
    for citation in data["sources"]:
        console.print(Padding(Text(citation, style="dim"), (0, 0, 0, 2)))


def sections(write: Writer) -> Sequence[tuple[str, list[Row]]]:
    """The groups of figures, as (label, figure, remark)."""
    f = write.figure
    state = write.data["cabinet"]["state"]
    held = "while the target is held" if state == "cycling" else "running without a stop"
    if write.data["cycling"]["while_on"]["reason"] != BALANCED and state == "cycling":
        held = "as the target asks for"
    source = "brine" if "brine_C" in write.data["running"] else "compartment"
    return (
        (
            f"Cabinet, {held}",
            [
                ("stored air, mean", f("cabinet.air_C"), ""),
                ("coldest shelf", f("cabinet.coldest_shelf_C"), "air falling off the cold side"),
                ("warmest shelf", f("cabinet.warmest_shelf_C"), "air returning over the top"),
                ("heat coming in", f("cabinet.heat_gain_W"), _ways(write)),
                ("walls and gasket", f("cabinet.conductance_W_per_K"), "per degree, door shut"),
                ("humidity inside", f("cabinet.relative_humidity"), ""),
            ],
        ),
        (
            f"Cold side, {held}",
            [
                ("outside surface", f("cabinet.cold_surface_C"), "on its frost"),
                ("radiation's share", f("cabinet.radiation_share"), "of heat to the surface"),
                ("air around it", f("cabinet.air_flow_m3_per_h"), "by gravity"),
                *cold_side_rows(write.data["cold_side"], write.written),
                *frost_rows(write.data, f),
                *vessel_rows(write.data, f),
            ],
        ),
        *holdover_section(write.data, f),
        ("Air's way, the mean air held", air_way_rows(write.data, f)),
        ("Machine", _machine_rows(write, source)),
        *hot_side_sections(write),
        ("Compressor", compressor_rows(write)),
        ("Gas", _gas_rows(write)),
        (
            "Day",
            [
                ("running", f("cycling.run_fraction"), _width(write)),
                ("energy", f("cycling.energy_kWh_per_day"), "losses at each start left out"),
                *battery_rows(write),
                (
                    "hottest day",
                    f("hottest_day.run_fraction"),
                    f"running, in a room of {f('hottest_day.room_C')}",
                ),
            ],
        ),
    )


MACHINE_ROWS = (
    ("evaporating", "evaporating_C"),
    ("condensing", "condensing_C"),
    ("suction", "suction_Pa"),
    ("discharge", "discharge_Pa"),
    ("capacity", "capacity_W"),
    ("power", "power_W"),
    ("current", "current_A"),
    ("superheat at evaporator", "evaporator_exit_superheat_K"),
    ("subcooling", "subcooling_K"),
    ("gas returning", "return_gas_C"),
    ("discharge gas", "discharge_gas_C"),
    ("shell", "shell_C"),
    ("flow", "mass_flow_kg_per_h"),
)
MACHINE_COLUMNS = (
    ("holding the target", "cycling.while_on"),
    ("never stopping", "running"),
    ("start, all warm", "pull_down"),
)


def _machine_rows(write: Writer, source: str) -> list[Row]:
    """Placed in columns by `_print_rows`: the figure holds all states, split by tabs."""
    rows: list[Row] = [("", "\t".join(title for title, _ in MACHINE_COLUMNS), "")]
    for label, key in ((source, f"{source}_C"), *MACHINE_ROWS):
        cells = (write.figure(f"{state}.{key}") for _, state in MACHINE_COLUMNS)
        rows.append((label, "\t".join(cells), ""))
    states = {title: value_at(write.data, f"{state}.reason") for title, state in MACHINE_COLUMNS}
    if not any(reason == BALANCED for reason in states.values()):
        rows = []
    rows += [
        (f"{title}: no balance; {reason}", "", "")
        for title, reason in states.items()
        if reason != BALANCED
    ]
    return rows


def _gas_rows(write: Writer) -> list[Row]:
    found = "found for the stated superheat" if write.data["charge"]["found"] else "as entered"
    found += "; good to about 15 %" if write.data["charge"]["found"] else ""
    places = write.data["charge"]["by_place_g"]
    known = {name: value for name, value in places.items() if value is not None}
    listed = sorted(known.items(), key=lambda item: -item[1])
    most = ", ".join(
        f"{name.replace('_', ' ')} {write.written('x_g', value)}" for name, value in listed[:5]
    )
    return [
        ("charge", write.figure("charge.fill_g"), found),
        ("where it is", "" if known else "not known", most),
        ("inside volume", write.figure("charge.total_volume_cm3"), "all tubes and the shell"),
    ]


def _ways(write: Writer) -> str:
    ways = write.data["cabinet"]["gain_by_way_W"]
    faces = sum(value for name, value in ways.items() if name.startswith("face "))
    others = {name: value for name, value in ways.items() if not name.startswith("face ")}
    rows = [("faces", faces), *sorted(others.items(), key=lambda item: -item[1])]
    least = 0.005 * sum(abs(value) for _, value in rows)
    listed = (row for row in rows[:5] if abs(row[1]) > least)
    return ", ".join(f"{name} {write.written('x_W', value)}" for name, value in listed)


def _width(write: Writer) -> str:
    allowed = f"allowed {write.figure('highest_run_fraction')}"
    width = write.data["cycling"]["run_fraction_half_width"]
    never_stops = (write.data["cycling"]["run_fraction"] or 0.0) > 1.0
    return (
        allowed if width is None or never_stops else f"95 % interval ± {percent(width)}; {allowed}"
    )


def _print_rows(title: str, rows: Sequence[Row], console: Console) -> None:
    console.print(Text(f"\n{title}", style="bold"))
    columns = max(figure.count("\t") for _, figure, _ in rows) + 1
    table = Table.grid(padding=(0, 2))
    table.add_column(min_width=24)
    for _ in range(columns):
        table.add_column(justify="right", min_width=12)
    table.add_column(style="dim", ratio=1)
    for label, figure, remark in rows:
        if figure or remark:
            table.add_row(f"  {label}", *figure.split("\t"), remark)
    console.print(table)
    for label, figure, remark in rows:
        if not figure and not remark:
            console.print(Padding(Text(label), (0, 0, 0, 2)))


def _print_changes(data: Data, write: Writer, console: Console) -> None:
    console.print(Text("\nWhat a change would do", style="bold"))
    table = Table.grid(padding=(0, 2))
    now, air = data["cycling"]["run_fraction"], data["running"]["air_C"]
    for change in data["changes"]:
        share, colder = change["run_fraction"], change["running_air_C"]
        effect = "no balance"
        if share is not None and share <= 1.0:
            before = "" if now is None else f"{write.written('run_fraction', now)} -> "
            effect = f"running {before}{write.written('run_fraction', share)}"
        elif colder is not None:
            before = "" if air is None else f"{write.written('air_C', air)} -> "
            effect = f"never stops; coldest air {before}{write.written('air_C', colder)}"
        table.add_row(change["words"], effect)
    console.print(Padding(table, (0, 0, 0, 2)))


def _print_remedies(data: Data, console: Console) -> None:
    """The three smallest steps that, each alone, bring the running down to what is allowed."""
    if not data["remedies"]:
        return
    console.print(
        Text("\nWhat alone would bring it within its target, hottest day included", style="bold")
    )
    for remedy in data["remedies"][:REMEDIES_SHOWN]:
        console.print(Padding(Text(remedy["words"]), (0, 0, 0, 2)))


def _print_assumed(data: Data, write: Writer, console: Console) -> None:
    """Entries of the file and of the model, gathered under the source they share."""
    console.print(Text("\nAssumed, because the build does not say", style="bold"))
    groups: dict[str, list[tuple[Data, str]]] = {}
    for entry in data["assumed"]:
        shared, own = _assumed_from(entry["source"])
        groups.setdefault(shared, []).append((entry, own))
    for shared, entries in groups.items():
        console.print(Padding(Text(f"{shared}:", style="dim"), (0, 0, 0, 2)))
        table = Table.grid(padding=(0, 2))
        table.add_column(style="italic", overflow="fold", min_width=43, max_width=46)
        table.add_column(style="italic", ratio=1)
        for entry, own in entries:
            text = Text(entry["text"] + _assumed_width(entry, write))
            text.append(f" ({own})" if own else "", style="dim")
            table.add_row(f"    {entry['field']}", text)
        console.print(table)


def _assumed_from(source: str) -> tuple[str, str]:
    """The source as entries share it, and what is the entry's own: `door's edge` say."""
    own, _, label = source.rpartition("; ")
    if label in NO_SOURCE:
        return label, own
    return (source, "") if "[" in source or source in NO_SOURCE else (FROM_FILE, source)


def _assumed_width(entry: Data, write: Writer) -> str:
    """The half-width of an assumed value whose text does not say it."""
    deviation, kind = entry["standard_uncertainty"], entry["kind"]
    if not deviation or kind is None or "±" in entry["text"]:
        return ""
    if kind == "ratio":
        return f" (± {percent(2.0 * deviation)})"
    kind = "temperature_difference" if kind == "temperature" else kind
    return f" (± {write.quantity(2.0 * deviation, kind)})"


def _print_notices(title: str, notices: Sequence[Data], console: Console) -> None:
    if not notices:
        return
    console.print(Text(f"\n{title}", style="bold"))
    table = Table.grid(padding=(0, 1))
    table.add_column()
    table.add_column(ratio=1)
    for notice in notices:
        text = Text(notice["text"], style=STYLES[notice["severity"]])
        text.append(f" [{notice['source']}]", style="dim not bold")
        table.add_row(f"  {MARKS[notice['severity']]}", text)
    console.print(table)


def explained(data: Data, path: str) -> dict[str, Any]:
    """One figure with its formula, the figures that go into it, and its sources."""
    return laid_open(data, path, explanation_of(path), inputs_of(path))


def laid_open(data: Data, path: str, entry: Explanation, inputs: Sequence[str]) -> dict[str, Any]:
    """A figure of any report with its `entry` and the paths of its `inputs`."""
    return {
        "field": path,
        "value": value_at(data, path),
        "formula": entry.formula,
        "inputs": {name: value_at(data, name) for name in inputs},
        "sources": [citation_of(key) for key in entry.sources],
    }


def print_explanation(shown: Data, console: Console) -> None:
    """Print what `explained` gives."""
    console.print(Text(f"{shown['field']} = {_short(shown['value'])}", style="bold"))
    console.print(Text(shown["formula"]))
    for name, value in shown["inputs"].items():
        console.print(Text(f"  {name} = {_short(value)}"))
    for citation in shown["sources"]:
        console.print(Text(f"  {citation}", style="dim"))


def _short(value: Any) -> str:  # noqa: ANN401 (any JSON value)
    if isinstance(value, dict):
        return ", ".join(f"{key} {_short(each)}" for key, each in value.items())
    return f"{value:.6g}" if isinstance(value, float) else str(value)
