"""Revisions of one build side by side, as text."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from coldwright.sheet.rows.revisions import ROWS, changes
from coldwright.sheet.writer import writer_of
from coldwright.verdict import Assessment


def print_comparison(
    found: Sequence[Assessment], data: Sequence[Mapping[str, Any]], console: Console
) -> None:
    """Print what changed, then the figures of each build in columns."""
    console.print(Text(str(data[0]["name"]), style="bold"))
    _print_changed(changes([each.build for each in found]), console)
    writers = [writer_of(each, row) for each, row in zip(found, data, strict=True)]
    table = Table(box=None, padding=(0, 2), header_style="bold")
    table.add_column("")
    for row in data:
        table.add_column(str(row["revision"] or "as built"), justify="right")
    for label, path in ROWS:
        cells = [write.figure(path) for write in writers]
        if any(cell != "not known" for cell in cells):
            table.add_row(label, *cells)
    console.print(table)
    for row in data:
        console.print(Text(f"\n{row['revision'] or 'as built'}", style="bold"))
        for sentence in row["sentences"]:
            console.print(Padding(Text(sentence), (0, 0, 0, 2)))


def _print_changed(rows: Sequence[Mapping[str, Any]], console: Console) -> None:
    """Each revision once, though two of the compared ones may build upon it."""
    told: dict[str, str] = {}
    last = ""
    for row in rows:
        name = row["from_revision"]
        if told.setdefault(name, row["revision"]) != row["revision"]:
            continue
        if name != last:
            console.print(Text(f"  {name}: {row['why']}"))
        last = name
        before = row["before"] or "not there"
        console.print(Text(f"    {row['field']}: {before} -> {row['after']}", style="dim"))
    console.print()
