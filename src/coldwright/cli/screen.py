"""An assessment as text on a terminal: the verdict first, then the figures as a maker thinks."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from coldwright.cli.terminal import MARKS
from coldwright.sheet.rows.assessment import sections
from coldwright.sheet.writer import Data, Row, Writer, writer_of
from coldwright.verdict import Assessment
from coldwright.verdict.figures import percent

# Sources that many entries share, and the heading for those that follow from other entries.
NO_SOURCE = ("common practice, no source", "from memory", "assumed, no source")
FROM_FILE = "from other entries of the file"
REMEDIES_SHOWN = 3
STYLES = {"danger": "bold", "warning": "bold", "info": ""}


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
