"""What the JSON answers are made of, by name; the description at /openapi.json comes from these."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field

EXAMPLE_TEXT = 'format = 1\nname = "My box"\n...'
Text = Annotated[
    str | None, Field(description="Text of a build file (TOML).", examples=[EXAMPLE_TEXT])
]
Name = Annotated[
    str | None,
    Field(description="Name of a build in the folder, without `.toml`.", examples=["cheese"]),
]
Revision = Annotated[
    str | None, Field(description="A revision of the build; none: as built.", examples=[None])
]
Units = Annotated[
    Literal["shop", "si"] | None,
    Field(description="Units of the sentences; figures carry theirs in the key.", examples=["si"]),
]


class FaultData(BaseModel):
    """One fault of the input, as a sentence, with the entry and the line it stands on."""

    field: str = Field(examples=["cabinet.layers[2].thickness"])
    message: str = Field(
        examples=["Thickness of cabinet layer 2 must be greater than 0 mm; received '-60 mm'."]
    )
    line: int | None = Field(examples=[52])
    hint: str = Field(examples=["is the sign a slip?"])


class Faults(BaseModel):
    """All faults of what was sent."""

    faults: list[FaultData]


class BuildName(BaseModel):
    """A build of the folder."""

    name: str = Field(examples=["cheese"])
    title: str = Field(examples=["Cheese cupboard"])
    version: str = Field(description="Of exactly this text.", examples=["0f3a9c2d4b1e"])
    revisions: list[str] = Field(examples=[["soldered plate"]])
    sound: bool


class QuantityData(BaseModel):
    """An entry with its value in SI; half of a 95 % interval is two standard uncertainties."""

    text: str = Field(examples=["60 mm"])
    value_SI: float = Field(examples=[0.06])
    standard_uncertainty_SI: float = Field(examples=[0.003])
    kind: str = Field(examples=["length"])
    assumed: bool = Field(description="Whether the file leaves it open.")


class LoadedBuild(BuildName):
    """A build as it was read: its text, and every quantity by its dotted path."""

    revision: str | None
    text: str
    quantities: dict[str, QuantityData]


class Asked(BaseModel):
    """A build, by its name in the folder or as text."""

    model_config = ConfigDict(extra="forbid")

    name: Name = None
    text: Text = None
    revision: Revision = None


class CheckAsked(Asked):
    """What to check."""


class Checked(Faults):
    """Whether a build is sound."""

    sound: bool


class AssessAsked(Asked):
    """What to assess, and in which units to speak."""

    units: Units = None


class DayAsked(AssessAsked):
    """What to run on the clock, and for how long."""

    hours: float = Field(24.0, gt=0.0, le=240.0, description="The last 24 h are counted.")
    start: Literal["warm", "settled"] = "warm"
    swinging: bool = Field(False, description="Room swings daily between its low and high.")


class Told(BaseModel):
    """Something the reader must know."""

    code: str = Field(examples=["starved"])
    severity: Literal["info", "warning", "danger"]
    text: str
    source: str


class Report(BaseModel):
    """An assessment; every figure's key carries its unit (docs/reference/figures.md)."""

    model_config = ConfigDict(extra="allow")

    name: str = Field(examples=["Cheese cupboard"])
    revision: str | None
    verdict: Literal["holds", "marginal", "fails"]
    limit: str = Field(examples=["air"])
    sentences: list[str]
    room_C: float = Field(examples=[20.0])
    target_air_C: float = Field(examples=[12.0])
    cabinet: dict[str, Any]
    running: dict[str, Any]
    cycling: dict[str, Any]
    hottest_day: dict[str, Any]
    charge: dict[str, Any]
    notices: list[Told]
    cautions: list[Told]
    assumed: list[dict[str, Any]]
    sources: list[str]


class DayReport(BaseModel):
    """A day on the clock; every figure's key carries its unit."""

    model_config = ConfigDict(extra="allow")

    name: str
    revision: str | None
    sentences: list[str]
    hours: float = Field(examples=[24.0])
    complete: bool
    energy_kWh_per_day: float = Field(examples=[0.41])
    run_fraction: float = Field(examples=[0.22])
    starts_per_hour: float = Field(examples=[1.2])
    air_mean_C: float = Field(examples=[12.1])
    notices: list[Told]
    cautions: list[Told]
