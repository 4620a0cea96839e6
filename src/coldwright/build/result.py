"""The build as everything above sees it: typed sections, what was assumed, its revisions."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path as FilePath

from coldwright.build.lines import line_index, line_of
from coldwright.build.paths import Path, path_text
from coldwright.build.schema.cabinet import Cabinet
from coldwright.build.schema.circuit import (
    Capillary,
    Charge,
    Drier,
    ReturnExchanger,
    Thermostat,
)
from coldwright.build.schema.cold_side import ColdSide
from coldwright.build.schema.condenser import Condenser
from coldwright.build.schema.document import Document, Revision
from coldwright.build.schema.fields import Section
from coldwright.build.schema.machine import Compressor
from coldwright.build.schema.place import Site, Targets
from coldwright.build.schema.tube import DischargeLine, LiquidLine, SuctionLine
from coldwright.build.schema.walk import fields_of
from coldwright.errors import Notice
from coldwright.units import Kind, Quantity, System


@dataclass(frozen=True)
class Assumed:
    """An entry that the file leaves open: what was taken for it, and where that comes from.

    `value_SI`, `kind` and `standard_uncertainty` are None for a choice such as a material.
    """

    field: str
    text: str
    value_SI: float | None
    kind: Kind | None
    standard_uncertainty: float | None
    source: str


@dataclass(frozen=True)
class Build:
    """One box as its file describes it, at one revision; see `Document` for the sections.

    `revision` is the selected revision's name, None for the base. `usual_uncertainties` are the
    fields whose uncertainty is the usual one because the file states none.
    """

    document: Document
    revision: str | None
    assumed: tuple[Assumed, ...]
    usual_uncertainties: tuple[str, ...]
    remarks: tuple[Notice, ...]
    text: str
    path: FilePath | None

    @property
    def name(self) -> str:
        """Name of the box."""
        return self.document.name

    @property
    def notes(self) -> str:
        """The maker's notes."""
        return self.document.notes

    @property
    def units(self) -> System:
        """Units that results are shown in."""
        return self.document.units

    @property
    def site(self) -> Site:
        """The room and the mains."""
        return self.document.site

    @property
    def targets(self) -> Targets:
        """What the box must do."""
        return self.document.targets

    @property
    def cabinet(self) -> Cabinet:
        """The box itself."""
        return self.document.cabinet

    @property
    def cold_side(self) -> ColdSide:
        """What cools the air."""
        return self.document.cold_side

    @property
    def compressor(self) -> Compressor:
        """The machine."""
        return self.document.compressor

    @property
    def condenser(self) -> Condenser:
        """Tube on a sheet at the back."""
        return self.document.condenser

    @property
    def capillary(self) -> Capillary:
        """The throttle."""
        return self.document.capillary

    @property
    def return_exchanger(self) -> ReturnExchanger:
        """Capillary beside the suction line."""
        return self.document.return_exchanger

    @property
    def suction_line(self) -> SuctionLine:
        """From evaporator to compressor."""
        return self.document.suction_line

    @property
    def liquid_line(self) -> LiquidLine:
        """From condenser to drier."""
        return self.document.liquid_line

    @property
    def discharge_line(self) -> DischargeLine:
        """From compressor to condenser."""
        return self.document.discharge_line

    @property
    def drier(self) -> Drier:
        """The drier."""
        return self.document.drier

    @property
    def refrigerant(self) -> Charge:
        """Refrigerant and charge."""
        return self.document.refrigerant

    @property
    def thermostat(self) -> Thermostat:
        """What stops and starts the machine."""
        return self.document.thermostat

    @property
    def revisions(self) -> tuple[Revision, ...]:
        """All revisions of the file, in order."""
        return self.document.revision

    @cached_property
    def quantities(self) -> dict[str, Quantity]:
        """Every quantity of the build by its dotted path."""
        return {path_text(path): quantity for path, quantity in walk(self.document)}

    def line_of(self, field: str) -> int | None:
        """Line of the file on which the dotted path `field` stands, a chosen revision's first."""
        index = line_index(self.text.removeprefix("\ufeff").replace("\r\n", "\n"))
        names = [revision.name for revision in self.revisions]
        applied = names.index(self.revision) + 1 if self.revision in names else 0
        for place in reversed(range(applied)):
            for changed in self.revisions[place].changes:
                if field == changed or field.startswith(f"{changed}."):
                    return line_of(index, ("revision", place, "changes", changed))
        return line_of(index, tuple(field.split("."))) if field else None

    def is_assumed(self, field: str) -> bool:
        """Whether the entry at the dotted path `field` was filled in."""
        return any(entry.field == field for entry in self.assumed)


def walk(section: Section, path: Path = ()) -> Iterator[tuple[Path, Quantity]]:
    """Every quantity below `section` with its path as it stands in the file."""
    for name, key in zip(type(section).model_fields, fields_of(type(section)), strict=True):
        value = getattr(section, name)
        if isinstance(value, Quantity):
            yield (*path, key), value
        elif isinstance(value, Section):
            yield from walk(value, (*path, key))
        elif isinstance(value, tuple):
            for index, item in enumerate(value):
                if isinstance(item, Section):
                    yield from walk(item, (*path, key, index))
