"""The layers of `calc wall`: a name or a conductivity, and a thickness, in one text."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from coldwright.cli.calc.answer import cited
from coldwright.cli.calc.entries import Entries, Entry
from coldwright.errors import InputError
from coldwright.units import Kind

if TYPE_CHECKING:
    from coldwright.shop.insulation_decline import Decline
    from coldwright.shop.materials import Material

THICKNESSES = (1e-5, 1.0)  # m
CONDUCTIVITIES = (5e-4, 500.0)  # W/(m K)
INSULATES = 0.1  # W/(m K): what conducts more is no insulation, whatever its name
EXAMPLE = 'such as --layer "slab cork 75mm" or --layer "cork=0.045 W/(m K) 60mm"'
_NUMBER = r"\d[\d.,/\s-]*"
_UNIT = r"(?:mm|cm|m|µm|um|inch(?:es)?|in\.?|ft|\"|″)"
_LENGTH = rf"{_NUMBER}{_UNIT}(?:\s*(?:±|\+/-)\s*[\d.,/]+\s*(?:{_UNIT}|%)?)?"
_LAST = re.compile(rf"^(?P<name>.+?)[\s,]+(?P<thickness>{_LENGTH})$")
_STATE = re.compile(r"[\s,]+(?P<state>new|aged|wet)$", re.IGNORECASE)
_FACING = re.compile(r"[\s,]+(?P<facing>bright foil|tarnished foil|dull)$", re.IGNORECASE)
_FIRST = re.compile(rf"^(?P<thickness>{_LENGTH})\s+(?:of\s+)?(?P<name>.+)$")


@dataclass(frozen=True)
class LayerEntry:
    """What of a layer is no number: name, where its conductivity is from, what ages it.

    A layer that is said to be aged or wet is so already: nothing ages it further.
    """

    name: str
    source: str
    decline: Decline | None
    condition: str = ""
    condition_source: str = ""

    @property
    def source_text(self) -> str:
        """The citation, or that the conductivity was given."""
        if not self.source:
            return "as given"
        return f"{cited(self.source)[0]}{f'; {self.condition}' if self.condition else ''}"


def read_layers(
    entries: Entries, texts: list[str]
) -> tuple[tuple[LayerEntry, ...], dict[str, Entry]]:
    """The layers, inside first, and their numbers by place; faults are kept."""
    if not texts:
        entries.fault("--layer", f"--layer must be given, once for each layer: {EXAMPLE}.")
    found: list[LayerEntry] = []
    numbers: dict[str, Entry] = {}
    for index, text in enumerate(texts):
        one = _layer(entries, text)
        if one is None:
            continue
        layer, thickness, conductivity = one
        found.append(layer)
        numbers[f"thickness_{index}"] = thickness
        numbers[f"conductivity_{index}"] = conductivity
    return tuple(found), numbers


def _layer(entries: Entries, text: str) -> tuple[LayerEntry, Entry, Entry] | None:
    plain, state = _cut(_STATE, text.strip(), "state")
    plain, facing = _cut(_FACING, plain, "facing")
    split = _LAST.match(plain) or _FIRST.match(plain)
    if split is None:
        entries.fault(
            "--layer",
            f"--layer must be a material and a thickness with its unit; received '{text}'.",
            EXAMPLE,
        )
        return None
    thickness = entries.optional("--layer", split["thickness"], Kind.length, THICKNESSES)
    name, _, stated = (part.strip() for part in split["name"].partition("="))
    if stated:
        conductivity = entries.optional("--layer", stated, Kind.conductivity, CONDUCTIVITIES)
        source, spelled = "", name
    else:
        row = _material(entries, name, thickness, facing)
        if row is None:
            return None
        doubt = row.conductivity * row.conductivity_uncertainty
        conductivity = Entry(row.conductivity, doubt, CONDUCTIVITIES)
        source, spelled = row.source, row.name.partition(" of ")[0]  # a gap's width follows
    if facing and (stated or not spelled.startswith("still air gap")):
        entries.fault(
            "--layer", f"Facing '{facing}' must be of a still air gap; received '{text}'."
        )
        return None
    if thickness is None or conductivity is None:
        return None
    from coldwright.shop.insulation_decline import decline_of  # noqa: PLC0415 (reads a file)

    family = decline_of(spelled)
    if family is not None and family.family != "wood" and conductivity.value > INSULATES:
        family = None
    layer = LayerEntry(spelled, source, family)
    if state in ("aged", "wet"):
        return _in_state(entries, layer, thickness, conductivity, state)
    return layer, thickness, conductivity


def _in_state(
    entries: Entries, layer: LayerEntry, thickness: Entry, conductivity: Entry, state: str
) -> tuple[LayerEntry, Entry, Entry] | None:
    """The layer as one that is aged or wet already; a fault where its figure stands as it is."""
    if layer.source and layer.decline is not None:
        found = layer.decline.source
        already = LayerEntry(f"{layer.name}, {state}", layer.source, None, state, found)
        return already, thickness, _worse(conductivity, layer.decline, state)
    why = "it keeps its figure" if layer.source else "what is stated is of the layer as it is"
    entries.fault("--layer", f"State '{state}' must be left out for {layer.name}.", why)
    return None


def _cut(pattern: re.Pattern[str], text: str, group: str) -> tuple[str, str]:
    """`text` without its last words where they are the pattern's, and those words."""
    found = pattern.search(text)
    return (text[: found.start()], found[group].lower()) if found else (text, "")


def _worse(conductivity: Entry, family: Decline, state: str) -> Entry:
    """The conductivity times its decline, and as unsure as both are."""
    factor, doubt = family.factor("aged" if state == "aged" else "wet")
    value = conductivity.value * factor
    relative = math.hypot(conductivity.standard_uncertainty / conductivity.value, doubt / factor)
    return Entry(value, value * relative, CONDUCTIVITIES)


def _material(entries: Entries, name: str, thickness: Entry | None, facing: str) -> Material | None:
    from coldwright.shop.materials import (  # noqa: PLC0415 (slow to import)
        STILL_AIR_GAP,
        material,
        still_air_gap,
    )

    try:
        row = material(name)
        if row.name == STILL_AIR_GAP and thickness is not None:
            return still_air_gap(thickness.value, facing or "dull")
    except InputError as error:
        for each in error.faults:
            hint = f"{each.hint} Or state it: {EXAMPLE}."
            entries.fault("--layer", each.message, hint.strip())
        return None
    return row
