"""The whole build file."""

from __future__ import annotations

from typing import Annotated, Literal

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
from coldwright.build.schema.day import DayPlan
from coldwright.build.schema.fields import DateText, NotAFlag, Section, Text
from coldwright.build.schema.machine import Compressor
from coldwright.build.schema.place import Site, Targets
from coldwright.build.schema.tube import DischargeLine, LiquidLine, SuctionLine


class Revision(Section):
    """A named set of changes upon the revision above it."""

    name: Annotated[str, Text("fins", "Short name of the revision.")]
    date: Annotated[DateText, Text("2026-03-01", "Day of the change.")] = ""
    why: Annotated[str, Text("too slow to pull down", "Why it was changed.")] = ""
    changes: Annotated[
        dict[str, object], Text('"cold_side.fins.count" = 16', "Keys and their new values.")
    ]


class Document(Section):
    """Every section of a build, with defaults filled in."""

    format: Annotated[Literal[1], NotAFlag, Text("1", "Version of this file format.")]
    name: Annotated[str, Text("Butter larder", "Name of the box.")]
    notes: Annotated[str, Text("", "Anything worth keeping.")]
    units: Annotated[Literal["shop", "si"], Text("shop", "Units to show results in: shop or si.")]
    site: Annotated[Site, Text("", "The room and the mains.")]
    targets: Annotated[Targets, Text("", "What the box must do.")]
    cabinet: Annotated[Cabinet, Text("", "The box itself.")]
    cold_side: Annotated[ColdSide, Text("", "What cools the air.")]
    compressor: Annotated[Compressor, Text("", "The machine.")]
    condenser: Annotated[Condenser, Text("", "Where the heat goes out, at the back.")]
    capillary: Annotated[Capillary, Text("", "The throttle.")]
    return_exchanger: Annotated[ReturnExchanger, Text("", "Capillary beside the suction line.")]
    suction_line: Annotated[SuctionLine, Text("", "From evaporator to compressor.")]
    liquid_line: Annotated[LiquidLine, Text("", "From condenser to drier.")]
    discharge_line: Annotated[DischargeLine, Text("", "From compressor to condenser.")]
    drier: Annotated[Drier, Text("", "The drier.")]
    refrigerant: Annotated[Charge, Text("", "Refrigerant and charge.")]
    thermostat: Annotated[Thermostat, Text("", "What stops and starts the machine.")]
    day: Annotated[DayPlan | None, Text("", "The usual day, for `coldwright day`.")] = None
    revision: Annotated[
        tuple[Revision, ...], Text("[[revision]]", "Changes, each upon the one above.")
    ] = ()
