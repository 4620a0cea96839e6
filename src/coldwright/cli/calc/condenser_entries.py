"""The entries of `calc condenser`: which belong to which kind, and what is taken without them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from coldwright.cli.calc.entries import Entries, Entry
from coldwright.errors import InputError
from coldwright.units import Kind, parse_quantity

if TYPE_CHECKING:
    from coldwright.shop.surfaces import Surface
    from coldwright.shop.tubes import Tube

KINDS = {"sheet": "a tube on a sheet", "wire": "a wire-on-tube condenser", "bare": "a bare tube"}
HINTS = {
    "sheet": '--width 550mm --height 1.1m --tube "3/16 in" --length 12m',
    "wire": '--width 500mm --height 1m --tube "3/16 in" --length 12m '
    "--wire-diameter 1.5mm --wire-pitch 6mm",
    "bare": '--width 500mm --height 1m --tube "1/4 in" --length 25m',
}
TEMPERATURES = (233.15, 333.15)  # K, rooms
EMISSIVITIES = (0.01, 1.0)
BONDS = ("soldered", "bonded", "taped", "clipped", "pressed")
BOND_BOUNDS = (0.1, 1000.0)  # W/(m K)
ALL = ("sheet", "wire", "bare")


@dataclass(frozen=True)
class Number:
    """One number: its bounds [SI], what is taken without it (empty: it must be given), its kinds.

    `usual` is a path of the build file's defaults, or a text.
    """

    name: str
    kind: Kind
    bounds: tuple[float, float]
    usual: str = ""
    kinds: tuple[str, ...] = ALL

    @property
    def option(self) -> str:
        """The option it is typed as."""
        return f"--{self.name.replace('_', '-')}"


NUMBERS = (
    Number("room", Kind.temperature, TEMPERATURES),
    Number("width", Kind.length, (0.02, 5.0)),
    Number("height", Kind.length, (0.02, 5.0)),
    Number("length", Kind.length, (0.1, 200.0)),
    Number("gap", Kind.length, (0.003, 2.0), "condenser.gap"),
    Number("shaded", Kind.ratio, (0.0, 0.95), "condenser.shaded_fraction"),
    Number("dirt", Kind.ratio, (0.0, 0.8), "condenser.dirt"),
    Number("air_rise", Kind.temperature_difference, (0.0, 20.0), "condenser.air_rise"),
    Number("thickness", Kind.length, (1e-4, 0.02), "condenser.sheet_thickness", ("sheet",)),
    Number("area_factor", Kind.number, (1.0, 3.0), "condenser.area_factor", ("sheet",)),
    Number("opening", Kind.ratio, (0.05, 1.0), "condenser.opening", ("sheet",)),
    Number("wire_diameter", Kind.length, (3e-4, 0.01), "", ("wire",)),
    Number("wire_pitch", Kind.length, (1e-3, 0.2), "", ("wire",)),
    Number("discharge_gas", Kind.temperature, (283.15, 433.15), "75 °C ± 20 K"),
    Number("subcooling", Kind.temperature_difference, (0.0, 30.0), "3 K ± 3 K"),
)
# Numbers without which there is simply nothing of the sort.
OPTIONAL = (
    Number("wall_behind", Kind.length, (0.005, 10.0)),
    Number("chimney_height", Kind.length, (0.02, 5.0), kinds=("sheet",)),
)
# Words that belong to some kinds only.
WORDS = {
    "bond": ("sheet",),
    "sheet_material": ("sheet", "wire"),
    "wire_sides": ("wire",),
}


def read_kind(entries: Entries, text: str) -> str:
    """The kind; empty with a fault kept."""
    plain = text.strip().lower()
    if plain in KINDS:
        return plain
    entries.fault("--kind", f"--kind must be one of {', '.join(KINDS)}; received '{text}'.")
    return ""


def read_numbers(entries: Entries, kind: str, texts: Mapping[str, str | None]) -> dict[str, Entry]:
    """All numbers by name; those of another kind are refused, missing ones taken as usual."""
    from coldwright.build.defaults import DEFAULTS  # noqa: PLC0415 (only where it is asked for)

    usual = {row.path: str(row.value) for row in DEFAULTS}
    found: dict[str, Entry] = {}
    taken: list[str] = []
    for number in (*NUMBERS, *OPTIONAL):
        text = texts[number.name]
        if kind and kind not in number.kinds:
            _refuse(entries, number.option, text, kind)
            continue
        if text is None and number in OPTIONAL:
            continue
        if text is None and not number.usual:
            if kind:
                message = f"{number.option} must be given for {KINDS[kind]}."
                entries.fault(number.option, message, HINTS[kind])
            continue
        if text is None:
            text = usual.get(number.usual, number.usual)
            taken.append(f"{number.name.replace('_', ' ')} {text.split(' ±')[0]}")
        entry = entries.optional(number.option, text, number.kind, number.bounds)
        if entry is not None:
            found[number.name] = entry
    for name, kinds in WORDS.items():
        if kind and kind not in kinds:
            _refuse(entries, f"--{name.replace('_', '-')}", texts[name], kind)
    if taken:
        entries.remarks.append(f"Assumed: {', '.join(taken)} (common practice, no source).")
    return found


def _refuse(entries: Entries, option: str, text: str | None, kind: str) -> None:
    if text is not None:
        message = f"{option} must be left out for {KINDS[kind]}; received '{text}'."
        entries.fault(option, message)


def read_tube(entries: Entries, text: str | None) -> Tube | None:
    """The stock tube; None with a fault kept."""
    from coldwright.shop.tubes import tube  # noqa: PLC0415 (reads a file)

    if text is None:
        entries.fault("--tube", "--tube must be given: a stock size.", '--tube "3/16 in"')
        return None
    try:
        return tube(text)
    except InputError as error:
        for each in error.faults:
            entries.fault("--tube", each.message, each.hint)
        return None


def read_skin(
    entries: Entries, emissivity: str | None, finish: str | None
) -> tuple[Surface | None, Entry]:
    """The finish, painted unless an emissivity or a finish is given, and its emissivity."""
    from coldwright.shop.surfaces import surface  # noqa: PLC0415 (reads a file)

    if emissivity is not None and finish is not None:
        entries.fault(
            "--emissivity", "--emissivity must be left out where --finish is given.", "give one"
        )
    if emissivity is not None:
        number = entries.optional("--emissivity", emissivity, Kind.ratio, EMISSIVITIES)
        return None, number or Entry(0.9)
    if finish is None:
        entries.remarks.append("Assumed: painted (common practice, no source).")
    try:
        row = surface(finish or "painted")
    except InputError as error:
        for each in error.faults:
            entries.fault("--finish", each.message, each.hint)
        return None, Entry(0.9)
    return row, Entry(row.emissivity, row.emissivity_uncertainty, EMISSIVITIES)


def read_bond(entries: Entries, text: str | None) -> tuple[str, Entry]:
    """How tube and sheet are joined, and its conductance."""
    from coldwright.build.defaults import BOND_CONDUCTANCES  # noqa: PLC0415 (as above)

    made = (text or "soldered").strip().lower()
    if text is None:
        entries.remarks.append("Assumed: a soldered bond (common practice, no source).")
    if made in BONDS:
        value = parse_quantity(BOND_CONDUCTANCES[made], Kind.linear_conductance, field="--bond")
        return made, Entry(value.value, value.standard_uncertainty, BOND_BOUNDS)
    if not made[:1].isdigit():
        listed = ", ".join(BONDS)
        entries.fault(
            "--bond",
            f"--bond must be one of {listed}, or a conductance per metre; received '{text}'.",
            "such as 20W/(m K)",
        )
        return "", Entry(60.0)
    number = entries.optional("--bond", text, Kind.linear_conductance, BOND_BOUNDS)
    return "as given", number or Entry(60.0)


def read_sides(entries: Entries, text: str | None) -> float:
    """Sides of the tube that carry wires."""
    if text is not None and text.strip() not in ("1", "2"):
        entries.fault("--wire-sides", f"--wire-sides must be 1 or 2; received '{text}'.")
    return 1.0 if (text or "").strip() == "1" else 2.0


def read_metal(entries: Entries, text: str | None) -> str:
    """Material of sheet or wires."""
    from coldwright.shop.materials import material  # noqa: PLC0415 (slow to import)

    try:
        return material(text or "galvanised steel").name
    except InputError as error:
        for each in error.faults:
            entries.fault("--sheet-material", each.message, each.hint)
        return "galvanised steel"


def check_fit(entries: Entries, found: Mapping[str, Entry], tube: Tube | None) -> None:
    """Tube and wires find room."""
    if tube is not None and {"width", "height", "length"} <= set(found):
        area = found["width"].value * found["height"].value
        if found["length"].value * tube.outside_diameter > area:
            most = area / tube.outside_diameter
            entries.fault(
                "--length",
                f"--length must let the runs lie side by side; {found['length'].value:.3g} m of "
                f"this tube overlap, and at most {most:.3g} m fit.",
            )
    if {"wire_diameter", "wire_pitch"} <= set(found):
        wire, pitch = found["wire_diameter"].value, found["wire_pitch"].value
        if pitch <= wire:
            entries.fault(
                "--wire-pitch",
                f"--wire-pitch must be greater than --wire-diameter {1e3 * wire:.3g} mm; received "
                f"{1e3 * pitch:.3g} mm.",
            )
