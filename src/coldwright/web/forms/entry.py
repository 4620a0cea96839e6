"""One entry of a form, as a template draws it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from coldwright.build.schema.fields import Measure, Named, states_uncertainty
from coldwright.build.schema.walk import Field
from coldwright.errors import InputError
from coldwright.units import Kind, System, format_estimate, format_quantity
from coldwright.verdict.report import citation_of

LONGEST_NOTE = 60
UNITLESS = (Kind.ratio, Kind.number)


@dataclass(frozen=True)
class Entry:
    """A key of the build: what is shown in its field and what is told about it."""

    name: str  # its dotted path, places counted from 1
    label: str
    shown: str  # as the file writes it, or in the other units; empty where nothing is written
    assumed: str  # what holds because nothing is written
    note: str  # how sure, or that it is assumed and from where, in a few words
    source: str  # where the assumption is from, in full
    meaning: str
    allowed: str
    example: str
    choices: tuple[str, ...]  # of a fixed list
    names: tuple[str, ...]  # that are known, for a text that is looked up
    is_long: bool
    is_text: bool  # words, not a quantity
    is_required: bool
    is_revised: bool
    fault: str

    @property
    def id(self) -> str:
        """The id of its field on the page."""
        return "f-" + "".join(each if each.isalnum() else "-" for each in self.name)

    @property
    def is_given(self) -> bool:
        """Whether the maker wrote it."""
        return self.shown != ""

    @property
    def state(self) -> dict[str, str | bool]:
        """What of it may change while another entry is typed."""
        return {
            "assumed": self.assumed,
            "note": self.note,
            "source": self.source,
            "fault": self.fault,
        }


def label_of(key: str, field: Field) -> str:
    """What an entry is called: the glossary's name, or the key in words."""
    if isinstance(field.note, Measure) and field.note.registered:
        return field.note.term.name
    words = key.replace("_", " ")
    return words[:1].upper() + words[1:]


def meaning_of(field: Field) -> str:
    """What an entry is, as a sentence."""
    text = field.note.term.meaning if isinstance(field.note, Measure) else field.note.meaning
    return f"{text[:1].upper()}{text[1:].rstrip('.')}." if text else ""


def allowed_of(field: Field, system: System) -> str:
    """Which values are allowed, as a sentence; empty where any is."""
    if isinstance(field.note, Measure):
        bounds = field.note.term.bounds_text(system)
        return f"{bounds[:1].upper()}{bounds[1:]}." if bounds else ""
    return ""


def names_of(field: Field) -> tuple[str, ...]:
    """Names that a looked-up text may have."""
    return tuple(field.note.names()) if isinstance(field.note, Named) else ()


def written(value: object, field: Field, system: System, own: System) -> str:
    """A value of the file as text: its own, or in the units of another reader."""
    if value is None:
        return ""
    if isinstance(value, list):
        return ", ".join(str(each) for each in value)
    note = field.note
    if system == own or not isinstance(note, Measure) or note.term.kind in UNITLESS:
        return str(value)
    try:
        quantity = note.read(value, subject=note.term.name)
    except InputError:
        return str(value)
    deviation = quantity.standard_uncertainty if states_uncertainty(value) else 0.0
    return format_estimate(quantity.value, deviation, note.term.kind, system)


def how_sure(value: object, field: Field, system: System) -> str:
    """The usual interval of a value that states none."""
    note = field.note
    if not isinstance(note, Measure) or value is None or states_uncertainty(value):
        return ""
    try:
        half = 2.0 * note.read(value, subject=note.term.name).standard_uncertainty
    except InputError:
        return ""
    if half == 0.0:
        return ""
    kind = note.term.kind
    if kind is Kind.temperature:
        kind = Kind.temperature_difference
    return f"usually ± {format_quantity(half, kind, system)}"


def assumption_note(source: str) -> str:
    """That a value is assumed, and from where in a few words."""
    cited = citation_of(source)
    if not cited or len(cited) <= LONGEST_NOTE:
        return f"assumed: {cited}" if cited else ""
    label = cited.rpartition(" [")[2].rstrip("]") if cited.endswith("]") else ""
    return f"assumed from a source{f' [{label}]' if label else ''}: see ?"


def source_of(source: str) -> str:
    """The whole source of an assumed value, as a sentence."""
    cited = citation_of(source)
    return f"Assumed from: {cited}." if cited else ""


def joined(parts: Sequence[str]) -> str:
    """Parts of a remark, without the empty ones."""
    return "; ".join(part for part in parts if part)
