"""What the shop knows of the layers of a wall, as old and wet as they are, and of seals."""

from __future__ import annotations

import math

from coldwright.build.completion import Completion
from coldwright.build.computed_defaults import written
from coldwright.build.defaults import PRACTICE
from coldwright.build.paths import Path
from coldwright.build.shop_defaults import cited, stock
from coldwright.errors import InputError
from coldwright.shop.gaskets import gasket
from coldwright.shop.insulation_decline import Decline, decline_of
from coldwright.shop.materials import (
    FLOWS,
    STILL_AIR_GAP,
    Flow,
    Material,
    material,
    still_air_gap,
)

GASKET: Path = ("cabinet", "gasket")
NEW = "new"


def layer_lists(build: Completion) -> list[tuple[Path, str]]:
    """Every list of layers with the face it is of; empty for the cabinet's own."""
    faces = build.items(("cabinet", "faces"))
    own = [((*face, "layers"), build.text((*face, "name"))) for face in faces]
    return [(("cabinet", "layers"), ""), *own]


def fill_layers(build: Completion) -> None:
    """Conductivity of each layer by its material, condition and facing, with its spread."""
    for layers, face in layer_lists(build):
        for layer in list(build.items(layers)):
            _fill_state(build, layer)
            row = _layer_material(build, layer, FLOWS.get(face, "level"))
            text, source = None, ""
            if row is not None:
                text, source = _conductivity(row, build.text((*layer, "condition")))
            build.fill((*layer, "conductivity"), text, source)


def _fill_state(build: Completion, layer: Path) -> None:
    """New unless said; told only where it could be otherwise and counts."""
    row = stock(material, build.text((*layer, "material")))
    stated = build.has((*layer, "conductivity"))
    insulates = row is not None and row.group == "insulation" and not stated
    declines = row is not None and insulates and decline_of(row.name) is not None
    source = f"insulation taken as new and dry; {PRACTICE}"
    build.fill((*layer, "condition"), NEW, source, silent=not declines)
    gap = row is not None and row.name == STILL_AIR_GAP and not stated
    build.fill((*layer, "facing"), "dull", PRACTICE, silent=not gap)


def _layer_material(build: Completion, layer: Path, flow: Flow) -> Material | None:
    row = stock(material, build.text((*layer, "material")))
    if row is None or row.name != STILL_AIR_GAP:
        return row
    thickness = build.number((*layer, "thickness"))
    try:
        facing = build.text((*layer, "facing"))
        return None if thickness is None else still_air_gap(thickness, facing, flow)
    except InputError:
        return row  # too wide to be still, or no such facing: told elsewhere


def _conductivity(row: Material, condition: str) -> tuple[str, str]:
    """Conductivity as written and where it is from: of the new material, times its decline."""
    family = decline_of(row.name)
    factor, doubt, source = _decline(family, condition)
    spread = math.hypot(row.conductivity_uncertainty, doubt / factor)
    text = written(row.conductivity * factor, "W/(m K)", f"{200.0 * spread:.3g} %")
    of_new = cited(row.source)
    if not source:
        return text, of_new
    return (
        text,
        f"{of_new}; {condition}: {factor:.3g} ± {2.0 * doubt:.2g} times that; {cited(source)}",
    )


def _decline(family: Decline | None, condition: str) -> tuple[float, float, str]:
    """Factor, its standard uncertainty and source; 1 for what is new or does not decline."""
    if family is None or condition not in ("aged", "wet"):
        return 1.0, 0.0, ""
    return (*family.factor("aged" if condition == "aged" else "wet"), family.source)


def fill_gasket(build: Completion) -> None:
    """Conductance and leakage area of a named kind of seal, where only the usual were assumed."""
    row = stock(gasket, build.text((*GASKET, "kind")))
    length = build.number((*GASKET, "length"))
    if row is None:
        return
    source = f"seal '{row.name}'; {cited(row.source)}"
    spread = f"{200.0 * row.linear_conductance_uncertainty:.3g} %"
    heat = written(row.linear_conductance, "W/(m K)", spread)
    build.refine((*GASKET, "linear_conductance"), heat, source)
    if length is not None:
        area = min(1e4 * row.leakage_area * length, 1e3)
        spread = f"{200.0 * row.leakage_area_uncertainty:.3g} %"
        build.refine(("cabinet", "leakage_area"), written(area, "cm2", spread), source)
