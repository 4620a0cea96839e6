"""Every key of a build file as rows, for the reference page: read from the models, never typed."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.build.defaults import DEFAULTS, LINE_SIZES
from coldwright.build.schema.fields import Measure, Named
from coldwright.build.schema.walk import Field, all_fields

MANDATORY = "must be given"
DERIVED = "follows from other entries"
OPTIONAL = "may be left out"

# Keys without a fixed default that are derived from others when left out.
_DERIVED = frozenset(
    {
        "site.room_temperature_low",
        "site.room_temperature_high",
        "site.mains_voltage",
        "site.mains_frequency",
        "cabinet.faces",
        "cabinet.faces[].adjoining",
        "cabinet.leakage_height",
        "cabinet.layers[].conductivity",
        "cabinet.faces[].layers[].conductivity",
        "cabinet.gasket.length",
        "cabinet.drain.depth",
        "cabinet.air_path.lower_opening_area",
        "cabinet.air_path.upper_opening_area",
        "cabinet.air_path.height_difference",
        "cabinet.contents.warm_load.temperature",
        "cabinet.liner.emissivity",
        "cold_side.emissivity",
        "cold_side.frost",
        "cold_side.vessel.coil_diameter",
        "cold_side.brine.basis",
        "cold_side.fins.length",
        "cold_side.fins.bond_conductance",
        "cold_side.plate.bond_conductance",
        "compressor.rated_refrigerant",
        "compressor.oil",
        "compressor.voltage",
        "compressor.frequency",
        "condenser.bond_conductance",
        "condenser.chimney_height",
        "condenser.emissivity",
        "capillary.outside_diameter",
        "return_exchanger.kind",
        "return_exchanger.start",
        "return_exchanger.bond_conductance",
        "suction_line.length",
        "thermostat.bulb",
        "thermostat.cut_in",
        "thermostat.cut_out",
    }
)
# Keys of every layer, filled in apart because they count for some materials only.
_LAYER_STATES = {".condition": "new", ".facing": "dull"}
_DERIVED_ENDINGS = (".outside_diameter", ".wall_thickness", ".tube.pitch")


@dataclass(frozen=True)
class KeyRow:
    """One key: its path, what it is, an example, what holds without it, what it means."""

    path: str
    kind: str
    example: str
    default: str
    meaning: str


def key_table() -> tuple[KeyRow, ...]:
    """All keys in the order of the file; `[]` in a path stands for the places of a list."""
    defaults = {default.path: str(default.value) for default in DEFAULTS}
    rows = []
    for path, field in all_fields():
        default = _default(path, field, defaults)
        rows.append(KeyRow(path, _kind(field), field.note.example, default, _meaning(field)))
    return tuple(rows)


def _kind(field: Field) -> str:
    if field.section is not None:
        return "list of tables" if field.many else "table"
    if isinstance(field.note, Measure):
        return field.note.term.kind.value
    if isinstance(field.note, Named):
        return f"name of a {field.note.what}"
    if field.choices:
        return "one of " + ", ".join(str(choice) for choice in field.choices)
    return "list of numbers" if field.many else "text"


def _default(path: str, field: Field, defaults: dict[str, str]) -> str:
    line = LINE_SIZES.get(path.removesuffix(".size"))
    if line is not None:
        return line
    if path in defaults:
        return defaults[path] or "empty"
    for ending, state in _LAYER_STATES.items():
        if path.endswith(f".layers[]{ending}"):
            return state
    if path in _DERIVED or path.endswith(_DERIVED_ENDINGS):
        return DERIVED
    if not field.required:
        return OPTIONAL
    return "" if field.section is not None else MANDATORY


def _meaning(field: Field) -> str:
    if isinstance(field.note, Measure):
        meaning = field.note.term.meaning
        bounds = field.note.term.bounds_text()
        text = f"{meaning[:1].upper()}{meaning[1:].rstrip('.')}."
        return f"{text} {bounds[:1].upper()}{bounds[1:]}." if bounds else text
    return field.note.meaning
