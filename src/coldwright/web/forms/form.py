"""The form of one stage: groups and rows of entries, read from schema and build."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache

from coldwright.build.completion import Completion
from coldwright.build.paths import Path, lookup, path_text
from coldwright.build.revisions import changes_of, revision_names
from coldwright.build.schema.document import Document
from coldwright.build.schema.fields import Measure, Section
from coldwright.build.schema.walk import Field, fields_of
from coldwright.errors import Fault
from coldwright.units import System
from coldwright.web.board import read_build
from coldwright.web.forms import entry as of_entry
from coldwright.web.forms.entry import Entry
from coldwright.web.stages import Stage, place_id

# Shown on the shelf and in the title block, or by pages of their own.
LEFT_OUT = ("format", "revision")
LONG = ("notes",)
NOT_HERE = "not in this build"


@dataclass(frozen=True)
class Group:
    """A table of the build file, or one row of a list of tables."""

    path: str
    title: str
    meaning: str
    entries: tuple[Entry, ...] = ()
    groups: tuple[Group, ...] = ()
    rows: tuple[Group, ...] = ()
    is_list: bool = False
    is_row: bool = False
    is_there: bool = True
    is_removable: bool = False  # written in the file, and may be left out

    @property
    def id(self) -> str:
        """The id of its place on the page."""
        return place_id(self.path)

    @property
    def all_entries(self) -> Iterator[Entry]:
        """Its entries and those of what is below it."""
        yield from self.entries
        for below in (*self.groups, *self.rows):
            yield from below.all_entries

    @property
    def is_open(self) -> bool:
        """Whether it is unfolded: something in it is written or wrong."""
        return any(entry.is_given or entry.fault for entry in self.all_entries)

    @property
    def summary(self) -> str:
        """How much of it is known, in a few words."""
        if not self.is_there:
            return NOT_HERE
        if self.is_list:
            return f"{len(self.rows)} of them" if self.rows else "none"
        entries = list(self.all_entries)
        assumed = sum(not entry.is_given and entry.assumed != "" for entry in entries)
        return f"{assumed} assumed" if assumed else ""


@dataclass(frozen=True)
class Form:
    """All groups of a stage, and faults that belong to none of their entries."""

    groups: tuple[Group, ...]

    @cached_property
    def entries(self) -> dict[str, Entry]:
        """Every entry by its name; an entry never stands twice."""
        return {entry.name: entry for group in self.groups for entry in group.all_entries}


@dataclass(frozen=True)
class _Maker:
    """What the entries are made from."""

    completion: Completion
    tree: Mapping[str, object]
    own: System
    system: System
    revised: frozenset[str]
    faults: dict[str, str] = field(default_factory=dict)

    def entry(self, path: Path, key: str, note: Field) -> Entry:
        name = path_text(path)
        value = lookup(self.tree, path)
        there = lookup(self.completion.tree, path[:-1]) is not None
        assumed = lookup(self.completion.tree, path) if value is None else None
        source = self.completion.sources.get(path, "")
        required = note.required and there and value is None and assumed is None
        remarks = [
            "changed in this revision" if name in self.revised else "",
            of_entry.how_sure(value if assumed is None else assumed, note, self.system),
            of_entry.assumption_note(source) if assumed is not None else "",
            "must be given" if required and path not in self.completion.pending else "",
        ]
        if assumed is not None and path in self.completion.looked_up:
            remarks.append("looked up")
        return Entry(
            name=name,
            label=of_entry.label_of(key, note),
            shown=of_entry.written(value, note, self.system, self.own),
            assumed=of_entry.written(assumed, note, self.system, self.own),
            note=of_entry.joined(remarks),
            source=of_entry.source_of(source) if assumed is not None else "",
            meaning=of_entry.meaning_of(note),
            allowed=of_entry.allowed_of(note, self.system),
            example=note.note.example,
            choices=tuple(str(choice) for choice in note.choices),
            names=of_entry.names_of(note),
            is_long=key in LONG,
            is_text=not isinstance(note.note, Measure),
            is_required=required,
            is_revised=name in self.revised,
            fault=self.faults.get(name, ""),
        )

    def group(self, path: Path, title: str, meaning: str, section: type[Section]) -> Group:
        entries, groups = [], []
        for key, note in fields_of(section).items():
            below = (*path, key)
            if note.section is None:
                entries.append(self.entry(below, key, note))
            elif note.many:
                groups.append(self.rows(below, key, note, note.section))
            else:
                words = of_entry.label_of(key, note)
                made = self.group(below, words, of_entry.meaning_of(note), note.section)
                written = lookup(self.tree, below) is not None
                groups.append(replace(made, is_removable=written and not note.required))
        there = lookup(self.completion.tree, path) is not None
        return Group(path_text(path), title, meaning, tuple(entries), tuple(groups), is_there=there)

    def rows(self, path: Path, key: str, note: Field, section: type[Section]) -> Group:
        items = lookup(self.tree, path)
        words = of_entry.label_of(key, note)
        single = words.removesuffix("s")
        rows = []
        for index in range(len(items) if isinstance(items, list) else 0):
            row = self.group((*path, index), f"{single} {index + 1}", "", section)
            rows.append(Group(row.path, row.title, "", row.entries, row.groups, is_row=True))
        meaning = of_entry.meaning_of(note)
        return Group(path_text(path), words, meaning, rows=tuple(rows), is_list=True)


@lru_cache(maxsize=16)
def form_of(text: str, revision: str | None, stage: Stage, system: System) -> Form:
    """The form of `stage` for a build's `text`, as far as it can be read."""
    read = read_build(text, revision)
    completion = read.completion
    if completion is None:
        return Form(())
    units = completion.tree.get("units")
    own: System = "si" if units == "si" else "shop"
    maker = _Maker(
        completion,
        read.tree,
        own,
        system,
        frozenset(revised_keys(read.tree, revision)),
        faults_by_field(read.faults),
    )
    plain, groups = [], []
    for key, note in fields_of(Document).items():
        if key not in stage.sections or key in LEFT_OUT:
            continue
        if note.section is None:
            plain.append(maker.entry((key,), key, note))
        else:
            words = of_entry.label_of(key, note)
            made = maker.group((key,), words, of_entry.meaning_of(note), note.section)
            groups.append(replace(made, is_removable=key in read.tree and not note.required))
    head = (Group("box", "The box", "", tuple(plain)),) if plain else ()
    order = {name: place for place, name in enumerate(stage.sections)}
    groups.sort(key=lambda group: order[group.path])
    return Form((*head, *groups))


def revised_keys(tree: Mapping[str, object], revision: str | None) -> list[str]:
    """The keys that `revision` itself changes."""
    names = revision_names(tree)
    if revision is None or revision not in names:
        return []
    return [change.key for change in changes_of(tree, names.index(revision))]


def faults_by_field(faults: tuple[Fault, ...]) -> dict[str, str]:
    """The first fault of each field, with its hint."""
    found: dict[str, str] = {}
    for fault in faults:
        hint = f" ({fault.hint})" if fault.hint else ""
        found.setdefault(fault.field, f"{fault.message}{hint}")
    return found
