"""The condenser: what belongs to its kind, and whether tube, sheet and wires fit together."""

from __future__ import annotations

from collections.abc import Iterator

from coldwright.build.completion import Completion
from coldwright.build.contradictions.cold_side import tube_on_sheet
from coldwright.build.contradictions.finding import Finding, length, must, shown
from coldwright.build.paths import Path, spoken

CONDENSER: Path = ("condenser",)
TUBE: Path = (*CONDENSER, "tube")
WIRES: Path = (*CONDENSER, "wires")
NAMES = {"sheet": "tube on a sheet", "wire": "wire-on-tube condenser", "bare": "bare tube"}
SHEET_KEYS = (
    "sheet_thickness",
    "sheet_material",
    "bond",
    "bond_conductance",
    "area_factor",
    "chimney_height",
    "opening",
)


def keys_of_kind(build: Completion) -> Iterator[Finding]:
    """A sheet's keys stand with a sheet alone, and wires with their kind alone."""
    kind = build.text((*CONDENSER, "kind"))
    if kind not in NAMES:
        return
    if kind == "wire" and not build.has(WIRES):
        message = "Section condenser.wires must be given for a condenser of kind 'wire'."
        hint = 'it holds diameter and pitch of the wires, such as "1.5 mm" and "6 mm"'
        yield Finding((*CONDENSER, "kind"), message, hint)
    foreign = [] if kind == "sheet" else [(*CONDENSER, key) for key in SHEET_KEYS]
    foreign += [] if kind == "wire" else [WIRES]
    for path in foreign:
        if build.has(path):
            what = "Section condenser.wires" if path == WIRES else spoken(path, build.tree)
            message = f"{what} has no meaning for a {NAMES[kind]}."
            yield Finding(path, message, f"remove it, or change condenser.kind from '{kind}'")


def tube_in_panel(build: Completion) -> Iterator[Finding]:
    """The condenser's tube finds room on its sheet or in its panel."""
    size = build.numbers((*CONDENSER, "sheet_width"), (*CONDENSER, "sheet_height"))
    if size is None:
        return
    panel = "sheet" if build.text((*CONDENSER, "kind")) == "sheet" else "panel"
    yield from tube_on_sheet(build, TUBE, size[0] * size[1], panel)
    pitch = build.number((*TUBE, "pitch"))
    if pitch is not None and pitch > min(size) and (*TUBE, "pitch") not in build.sources:
        demand = f"be at most the shorter side of the {panel} {length(min(size))}"
        yield must(build, (*TUBE, "pitch"), demand)


def wires_apart(build: Completion) -> Iterator[Finding]:
    """Wires stand apart, and are thinner than the tube is wide."""
    diameter, pitch = (*WIRES, "diameter"), (*WIRES, "pitch")
    sizes = build.numbers(diameter, pitch)
    if sizes is not None and sizes[1] <= sizes[0]:
        yield must(build, pitch, f"be greater than the wire's diameter {shown(build, diameter)}")


RULES = (keys_of_kind, tube_in_panel, wires_apart)
