"""The stages of the maker's work, as the zones of the sheet's border letter them."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.sheet.page_sentences import Stage as Speaks
from coldwright.sheet.rows.assessment import CABINET, COLD_SIDE, DAY, MACHINE


@dataclass(frozen=True)
class Stage:
    """One page of a build: its zone, its name, what its form holds, what it shows."""

    letter: str
    slug: str
    title: str
    sections: tuple[str, ...]
    figures: tuple[str, ...]
    charts: tuple[str, ...] = ()
    speaks: Speaks | None = None  # whose sentences it tells; None: the verdict's


STAGES = (
    Stage(
        "A",
        "cabinet",
        "Cabinet",
        ("name", "notes", "units", "site", "targets", "cabinet"),
        (CABINET,),
        ("watts",),
        "cabinet",
    ),
    Stage(
        "B", "cold-side", "Cold side", ("cold_side",), (COLD_SIDE,), ("resistances",), "cold_side"
    ),
    Stage(
        "C",
        "machine",
        "Machine",
        (
            "compressor",
            "condenser",
            "capillary",
            "return_exchanger",
            "suction_line",
            "liquid_line",
            "discharge_line",
            "drier",
        ),
        (MACHINE,),
        ("pressure-enthalpy", "tubes"),
        "machine",
    ),
    Stage(
        "D",
        "balance",
        "Balance",
        ("refrigerant", "capillary", "targets"),
        (CABINET, COLD_SIDE, MACHINE, DAY),
    ),
    Stage("E", "day", "A day", ("thermostat", "day"), ()),
)
BY_SLUG = {stage.slug: stage for stage in STAGES}

# Where a part of the drawing is described: the stage and the place on its page.
PARTS = {
    "walls": ("cabinet", "cabinet.layers"),
    "door": ("cabinet", "cabinet.gasket"),
    "contents": ("cabinet", "cabinet.contents"),
    "air_path": ("cabinet", "cabinet.air_path"),
    "shelves": ("cabinet", "cabinet.air_path"),
    "site": ("cabinet", "site"),
    "cold_side": ("cold-side", "cold_side"),
    "condenser": ("machine", "condenser"),
    "compressor": ("machine", "compressor"),
    "capillary": ("machine", "capillary"),
    "suction_line": ("machine", "suction_line"),
}


def stage_of(field: str) -> Stage | None:
    """The first stage on whose page the entry `field` stands."""
    section = field.split(".", maxsplit=1)[0].split("[", maxsplit=1)[0]
    return next((stage for stage in STAGES if section in stage.sections), None)


def place_id(path: str) -> str:
    """The id of a group on its page."""
    return "g-" + "".join(each if each.isalnum() else "-" for each in path)
