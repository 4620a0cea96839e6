"""What the shop knows about the named tubes, materials, surfaces, bores and compressor classes."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from coldwright.build.completion import Completion
from coldwright.build.computed_defaults import written
from coldwright.build.defaults import BOND_CONDUCTANCES, LINE_SIZES, PRACTICE
from coldwright.build.paths import Path
from coldwright.errors import InputError
from coldwright.shop.capillary_bores import bores
from coldwright.shop.compressor_classes import compressor_class
from coldwright.shop.refrigerant_safety import safety
from coldwright.shop.surfaces import surface
from coldwright.shop.tubes import tube
from coldwright.sources import sources

Row = TypeVar("Row")

TUBES: tuple[Path, ...] = (
    ("cold_side", "tube"),
    ("condenser", "tube"),
    ("suction_line",),
    ("liquid_line",),
    ("discharge_line",),
)
FINISHES: tuple[Path, ...] = (("cabinet", "liner"), ("cold_side",), ("condenser",))
JOINTS: tuple[tuple[Path, str], ...] = (
    (("cold_side", "fins"), "attachment"),
    (("cold_side", "plate"), "bond"),
    (("condenser",), "bond"),
    (("return_exchanger",), "kind"),
)
_USUAL_WALL = "0.76 mm ± 25 %"
_SAME_BORE = 0.02e-3  # m: a bore this near to a stock one is that one
_BORE_WALL = 0.65e-3  # m


def stock(find: Callable[[str], Row], name: str) -> Row | None:
    """Return the row that `find` has for `name`, or None where it has none."""
    try:
        return find(name) if name else None
    except InputError:
        return None


def cited(key: str) -> str:
    """Return the citation of the source `key`, or `key` itself where it is a phrase."""
    known = sources().get(key)
    return known.citation if known is not None else key


def fill_tubes(build: Completion) -> None:
    """Diameter and wall of stock tubes; a usual wall for a tube given by its diameter."""
    for line, usual in LINE_SIZES.items():
        if not build.has((line, "outside_diameter")):
            build.fill((line, "size"), usual, PRACTICE)
    for path in TUBES:
        size = build.text((*path, "size"))
        keys = (*path, "outside_diameter"), (*path, "wall_thickness")
        row = stock(tube, size)
        if row is not None:
            build.fill(keys[0], f"{1e3 * row.outside_diameter:.6g} mm ± 0 mm", "", silent=True)
            build.fill(keys[1], f"{1e3 * row.wall_thickness:.6g} mm ± 3 %", "", silent=True)
        elif build.has((*path, "size")):
            build.fill(keys[0], None, "")
            build.fill(keys[1], None, "")
        elif build.has(keys[0]):
            build.fill(keys[1], _USUAL_WALL, PRACTICE)


def fill_finishes(build: Completion) -> None:
    """Emissivity by the named surface."""
    for path in FINISHES:
        row = stock(surface, build.text((*path, "surface")))
        text, source = None, ""
        if row is not None:
            spread = f"{2.0 * row.emissivity_uncertainty:.2g}"
            text, source = written(row.emissivity, "", spread), cited(row.source)
        build.fill((*path, "emissivity"), text, source)


def fill_joints(build: Completion) -> None:
    """Conductance of each joint by the way it is made."""
    for path, key in JOINTS:
        made = build.text((*path, key))
        if path == ("condenser",) and build.text((*path, "kind")) != "sheet":
            continue
        text = BOND_CONDUCTANCES.get(made)
        source = f"{made} joint; {PRACTICE}"
        build.fill((*path, "bond_conductance"), text, source, silent=made == "none")


def fill_capillary(build: Completion) -> None:
    """Outside diameter of the stock capillary with that bore, or a usual wall."""
    bore = build.number(("capillary", "bore"))
    path: Path = ("capillary", "outside_diameter")
    if bore is None:
        build.fill(path, None, "")
        return
    near = [row for row in bores() if abs(row.inside_diameter - bore) < _SAME_BORE]
    known = next((row for row in near if row.outside_diameter), None)
    if known is not None and known.outside_diameter is not None:
        build.fill(path, written(1e3 * known.outside_diameter, "mm", "10 %"), cited(known.source))
    else:
        build.fill(path, written(1e3 * (bore + 2.0 * _BORE_WALL), "mm", "20 %"), PRACTICE)


def fill_class(build: Completion) -> None:
    """Displacement, oil and shell of a machine that is known by class and size."""
    path: Path = ("compressor",)
    name = f"{build.text((*path, 'class'))} {build.text((*path, 'size'))}"
    row = stock(compressor_class, name)
    if row is None:
        return
    source = cited(row.source)
    rated = stock(safety, build.text((*path, "rated_refrigerant")) or "R134a")
    swept = row.swept_for(rated.name) if rated is not None else 0.0
    rows = (
        ("displacement", swept, 1e6, "cm3", row.displacement),
        ("oil_amount", row.oil_volume.value, 1e6, "mL", row.oil_volume),
        ("shell_free_volume", row.shell_gas_volume.value, 1e3, "L", row.shell_gas_volume),
    )
    for key, value, scale, unit, estimate in rows:
        if value > 0.0:
            spread = f"{200.0 * estimate.relative_uncertainty:.3g} %"
            build.fill((*path, key), written(scale * value, unit, spread), source)


def fill_oil(build: Completion) -> None:
    """The oil that a machine for its rated refrigerant is usually filled with."""
    rated = stock(safety, build.text(("compressor", "rated_refrigerant")))
    oil = rated.oils[0] if rated is not None else None
    source = f"usual with {rated.name}; {cited(rated.source)}" if rated is not None else ""
    build.fill(("compressor", "oil"), oil, source)


SHOP = (fill_finishes, fill_joints, fill_capillary, fill_oil)
