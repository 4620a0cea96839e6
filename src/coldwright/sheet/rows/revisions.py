"""Revisions of one build side by side: what changed in the file, and the figures to compare."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from coldwright.build import Build
from coldwright.build.paths import Tree, lookup, parse_path, path_text
from coldwright.build.reading import parse_text
from coldwright.build.revisions import apply_changes, changes_of

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


def changes(builds: Sequence[Build]) -> list[dict[str, Any]]:
    """Keys that each build after the first changes by its revisions: from what to what."""
    rows = []
    for build in builds[1:]:
        names = [revision.name for revision in build.revisions]
        tree = parse_text(build.text)
        for place in range(names.index(build.revision or "") + 1):
            revision = build.revisions[place]
            for change in changes_of(tree, place):
                before = _standing(builds[0], tree, change.key)
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
