"""Revisions of one build side by side: what changed in the file, and what that changes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from coldwright.build import Build
from coldwright.build.paths import Tree, lookup, parse_path, path_text
from coldwright.build.reading import parse_text
from coldwright.build.revisions import apply_changes, changes_of
from coldwright.cli.screen import writer_of
from coldwright.verdict import Assessment

ROWS = (
    ("verdict", "verdict"),
    ("running", "cycling.run_fraction"),
    ("± (95 % interval)", "cycling.run_fraction_half_width"),
    ("energy", "cycling.energy_kWh_per_day"),
    ("hottest day, running", "hottest_day.run_fraction"),
    ("brine holding the target", "cycling.while_on.brine_C"),
    ("compartment holding the target", "cycling.while_on.compartment_C"),
    ("cold surface", "cabinet.cold_surface_C"),
    ("coldest shelf", "cabinet.coldest_shelf_C"),
    ("warmest shelf", "cabinet.warmest_shelf_C"),
    ("evaporating", "cycling.while_on.evaporating_C"),
    ("condensing", "cycling.while_on.condensing_C"),
    ("suction", "cycling.while_on.suction_Pa"),
    ("discharge", "cycling.while_on.discharge_Pa"),
    ("power", "cycling.while_on.power_W"),
    ("current", "cycling.while_on.current_A"),
    ("air, never stopping", "running.air_C"),
    ("charge", "charge.fill_g"),
)


def changes(found: Sequence[Assessment]) -> list[dict[str, Any]]:
    """Keys of the build that each revision changes: from what to what."""
    rows = []
    for each in found[1:]:
        build = each.build
        names = [revision.name for revision in build.revisions]
        tree = parse_text(build.text)
        for place in range(names.index(build.revision or "") + 1):
            revision = build.revisions[place]
            for change in changes_of(tree, place):
                before = _standing(found[0].build, tree, change.key)
                apply_changes(tree, [change], {})
                rows.append(
                    {
                        "revision": build.revision,
                        "from_revision": revision.name,
                        "why": revision.why,
                        "field": change.key,
                        "before": before,
                        "after": _written(change.value),
                    }
                )
    return rows


def _standing(base: Build, tree: Tree, key: str) -> str | None:
    """What stands at `key` before a change: the file's word, or what was assumed."""
    path = parse_path(key, tree)
    value = lookup(tree, path)
    if value is not None:
        return _written(value)
    field = path_text(path)
    assumed = (entry.text for entry in base.assumed if entry.field == field)
    return next((f"{text} (assumed)" for text in assumed), None)


def _written(value: object) -> str:
    """A value of the file in a few words."""
    if isinstance(value, list | dict):
        return f"{len(value)} entries"
    return str(value)


def print_comparison(
    found: Sequence[Assessment], data: Sequence[Mapping[str, Any]], console: Console
) -> None:
    """Print what changed, then the figures of each build in columns."""
    console.print(Text(str(data[0]["name"]), style="bold"))
    _print_changed(changes(found), console)
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
