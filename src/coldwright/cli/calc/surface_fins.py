"""Fins of `calc surface`: what was given, what is usual, and whether they fit."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, fields

from coldwright.cli.calc.entries import Entries, Entry
from coldwright.errors import InputError
from coldwright.units import Kind, parse_quantity

COUNTS = (1.0, 1000.0)
HEIGHTS = (1e-3, 0.5)  # m
LENGTHS = (1e-3, 10.0)  # m
THICKNESSES = (5e-5, 0.02)  # m
BONDS = ("soldered", "bonded", "bolted")


@dataclass(frozen=True)
class FinTexts:
    """The options as given."""

    fins: str | None
    fin_height: str | None
    fin_length: str | None
    fin_thickness: str | None
    fin_material: str | None
    fin_bond: str | None


@dataclass(frozen=True)
class FinWords:
    """What of the fins is no number."""

    material: str
    bond: str


def read_fins(
    entries: Entries, texts: FinTexts, shape: str, sizes: Mapping[str, Entry]
) -> tuple[FinWords | None, dict[str, Entry]]:
    """The fins and their numbers; None without. Faults are kept."""
    given = [row.name for row in fields(texts) if getattr(texts, row.name) is not None]
    if not given:
        return None, {}
    if shape == "horizontal-tube":
        entries.fault("--fins", "--fins must be left out for a tube: they stand on upright sides.")
        return None, {}
    if texts.fins is None:
        option = f"--{given[0].replace('_', '-')}"
        entries.fault("--fins", f"--fins must be given with {option}.", "--fins 12")
    found = _numbers(entries, texts, sizes)
    words = FinWords(_material(entries, texts.fin_material), _bond(entries, texts, found))
    if {"fin_count", "fin_height", "fin_length", "fin_thickness"} <= set(found):
        _fit(entries, found, shape, sizes)
    return words, found


def _numbers(entries: Entries, texts: FinTexts, sizes: Mapping[str, Entry]) -> dict[str, Entry]:
    from coldwright.build.defaults import DEFAULTS  # noqa: PLC0415 (only where it is asked for)

    usual = {row.path: str(row.value) for row in DEFAULTS}["cold_side.fins.thickness"]
    count = entries.optional("--fins", texts.fins, Kind.number, COUNTS)
    if count is not None and count.value != round(count.value):
        entries.fault("--fins", f"--fins must be a whole number; received '{texts.fins}'.")
    height = entries.needed("--fin-height", texts.fin_height, Kind.length, HEIGHTS)
    if texts.fin_thickness is None:
        entries.remarks.append(f"Fins of {usual} are assumed (common practice, no source).")
    rows = {
        "fin_count": count,
        "fin_height": height if math.isfinite(height.value) else None,
        "fin_length": entries.optional("--fin-length", texts.fin_length, Kind.length, LENGTHS),
        "fin_thickness": entries.optional(
            "--fin-thickness", texts.fin_thickness or usual, Kind.length, THICKNESSES
        ),
    }
    if texts.fin_length is None and "height" in sizes:
        rows["fin_length"] = Entry(sizes["height"].value)
    return {name: entry for name, entry in rows.items() if entry is not None}


def _material(entries: Entries, text: str | None) -> str:
    from coldwright.shop.materials import material  # noqa: PLC0415 (slow to import)

    if text is None:
        entries.remarks.append("Fins of aluminium are assumed (common practice, no source).")
    try:
        return material(text or "aluminium").name
    except InputError as error:
        for each in error.faults:
            entries.fault("--fin-material", each.message, each.hint)
        return ""


def _bond(entries: Entries, texts: FinTexts, found: dict[str, Entry]) -> str:
    """How they are fixed; puts its conductance, of wide uncertainty, among the numbers."""
    from coldwright.build.defaults import BOND_CONDUCTANCES  # noqa: PLC0415 (as above)

    bond = (texts.fin_bond or BONDS[0]).strip().lower()
    if texts.fin_bond is None:
        entries.remarks.append("Soldered fins are assumed (common practice, no source).")
    if bond not in BONDS:
        listed = ", ".join(BONDS)
        entries.fault(
            "--fin-bond", f"--fin-bond must be one of {listed}; received '{texts.fin_bond}'."
        )
        return ""
    conductance = parse_quantity(
        BOND_CONDUCTANCES[bond], Kind.linear_conductance, field="--fin-bond"
    )
    found["fin_bond"] = Entry(
        conductance.value, conductance.standard_uncertainty, (0.1, 10.0 * conductance.value)
    )
    return bond


def _fit(
    entries: Entries, found: Mapping[str, Entry], shape: str, sizes: Mapping[str, Entry]
) -> None:
    """Fins no longer than the side, and no more than stand side by side on one face."""
    height = sizes["height"].value if "height" in sizes else math.inf
    if found["fin_length"].value > height * (1.0 + 1e-9):
        entries.fault("--fin-length", "--fin-length must be no more than --height.")
    widest = _side(shape, sizes)
    metal = found["fin_count"].value * found["fin_thickness"].value
    if metal >= widest:
        entries.fault(
            "--fins",
            f"--fins must be few enough to leave gaps: {found['fin_count'].value:.0f} fins fill "
            f"{1e3 * metal:.0f} mm of a side {1e3 * widest:.0f} mm around.",
        )


def _side(shape: str, sizes: Mapping[str, Entry]) -> float:
    """Length around the side [m]; both faces of a plate."""
    names = {"vertical-plate": ("width",), "box": ("width", "depth")}.get(shape, ("diameter",))
    if any(name not in sizes for name in names):
        return math.inf
    around = math.pi if shape == "vertical-cylinder" else 2.0
    return around * sum(sizes[name].value for name in names)
