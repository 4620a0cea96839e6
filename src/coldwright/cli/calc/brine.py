"""`calc brine`: where a coolant freezes and how it behaves."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated

import typer

from coldwright.cli.calc.answer import (
    COVERAGE,
    ICE_POINT,
    Answer,
    Data,
    Row,
    Writer,
    cited,
    noticed,
    worked_out,
)
from coldwright.cli.calc.entries import Entries, Entry
from coldwright.cli.terminal import SHOP, AsJson, Units, faults_shown
from coldwright.errors import InputError, unknown_name
from coldwright.units import Kind, System

if TYPE_CHECKING:
    from coldwright.fluids.brines import Basis, Brine

TEMPERATURES = (213.15, 333.15)  # K
FILLING = "20 °C"
ROOM = 298.15  # K
WARMEST_STANDING = 313.15  # K, a box out of use in a hot room
_BASIS = re.compile(
    r"(?<=[%t\d])\s*(?:by\s+)?(v|vol|volume|m|mass|w|wt|weight)\.?\s*$", re.IGNORECASE
)
_WORDS = {
    word: basis
    for basis, words in (("volume", "v vol volume"), ("mass", "m mass w wt weight"))
    for word in words.split()
}
_PROPERTIES = {
    "density_kg_m3": "density",
    "specific_heat_J_kgK": "specific_heat",
    "viscosity_Pas": "dynamic_viscosity",
    "conductivity_W_mK": "conductivity",
    "expansion_to_25C_percent": "expansion_coefficient",
}
# What a build file calls an entry, and what it is called here.
_FIELDS = {"coolant.kind": "KIND", "coolant.fraction": "--fraction", "coolant.basis": "--basis"}


def brine(
    kind: Annotated[
        str,
        typer.Argument(
            metavar="KIND", help='Such as "propylene glycol" or water.', show_default=False
        ),
    ],
    fraction: Annotated[
        str | None,
        typer.Option("--fraction", metavar="X", help='Such as "40 %", 40%v (volume) or 40%m.'),
    ] = None,
    basis: Annotated[
        str | None, typer.Option("--basis", metavar="B", help="volume or mass: must be stated.")
    ] = None,
    at: Annotated[
        str, typer.Option("--at", metavar="T", help="Temperature that the figures are for.")
    ] = FILLING,
    units: Units = SHOP,
    as_json: AsJson = False,
) -> None:
    """Freezing, slush, density, heat, viscosity and expansion of a coolant."""
    entries = Entries()
    with faults_shown(as_json):
        system = entries.system(units)
        name = _kind(entries, kind)
        share, stated = _fraction(entries, name, fraction, basis)
        temperature = entries.needed("--at", at, Kind.temperature, TEMPERATURES)
        # The fraction is held to the range of its kind as soon as both are known.
        known = bool(name) and math.isfinite(share.value)
        mixture = _mixture(entries, name, share.value, stated) if known else None
        mixture = entries.settled(mixture)

        def compute(**given: float) -> Data:
            from coldwright.fluids import brines  # noqa: PLC0415 (slow to import)

            return _figures(brines.brine(name, given["share"], stated), given["temperature"])

        inputs = {"share": _within_range(share, name, stated), "temperature": temperature}
        data = _with_spread(worked_out(compute, inputs), mixture)
        _answer(data, system, mixture, entries.remarks).show(as_json)


def _kind(entries: Entries, text: str) -> str:
    """The kind as the tables spell it; empty where it has a fault."""
    from coldwright.fluids.brines import brine_names  # noqa: PLC0415 (slow to import)

    plain = " ".join(text.lower().replace("-", " ").replace("_", " ").split())
    if plain in brine_names():
        return plain
    (fault,) = unknown_name("KIND", "Kind of coolant", text, brine_names()).faults
    entries.fault(fault.field, fault.message, fault.hint)
    return ""


def _fraction(
    entries: Entries, name: str, text: str | None, basis: str | None
) -> tuple[Entry, Basis]:
    """The fraction and its basis, which may stand behind the fraction itself."""
    if name == "water" and text is None:
        return Entry(0.0), "mass"
    found = None if text is None else _BASIS.search(text)
    behind = None if found is None else found[1]
    if text is not None and found is not None:
        text = text[: found.start()]
    said = [_WORDS.get(word.strip().lower(), "") for word in (basis, behind) if word is not None]
    stated = said[0] if said else ""
    if name != "water" and (not stated or len(set(said)) > 1):
        received = f"received '{basis}'" if basis else "none was given"
        if len(set(said)) > 1 and all(said):
            received = f"received '{basis}' and '{behind}'"
        entries.fault(
            "--basis",
            f"--basis must be volume or mass; {received}.",
            "the same figure by volume and by mass freezes up to 3 K apart; write --basis volume "
            "or 40%v",
        )
    share = entries.needed("--fraction", text, Kind.ratio, (0.0, 1.0))
    return share, "volume" if stated == "volume" else "mass"


def _mixture(entries: Entries, name: str, share: float, basis: Basis) -> Brine | None:
    """The mixture; None with its faults kept, named as this command names its options."""
    from coldwright.fluids import brines  # noqa: PLC0415 (slow to import)

    try:
        return brines.brine(name, share, basis)
    except InputError as error:
        for each in error.faults:
            entries.fault(_FIELDS.get(each.field, each.field), each.message, each.hint)
        return None


def _within_range(share: Entry, name: str, basis: Basis) -> Entry:
    """`share` with an upper bound that keeps its spread inside the range of its kind."""
    from coldwright.fluids import brines  # noqa: PLC0415 (slow to import)

    try:
        brines.brine(name, share.value + share.standard_uncertainty, basis)
    except InputError:
        return replace(share, bounds=(0.0, share.value))
    return share


def _figures(mixture: Brine, temperature: float) -> Data:
    low, high = mixture.valid_range
    liquid = low - 0.1 <= temperature <= high
    at = mixture.properties(temperature)
    grown = float(mixture.expansion_from(temperature, ROOM))
    doubt = 1.0 + COVERAGE * mixture.relative_uncertainty["expansion_coefficient"]
    # The room to leave also covers the doubt of the expansion.
    most = max(float(mixture.expansion_from(temperature, WARMEST_STANDING)), 0.0) * doubt

    def where_liquid(value: float) -> float | None:
        return value if liquid else None

    return {
        "kind": mixture.kind,
        "mass_percent": 100.0 * mixture.mass_fraction,
        "volume_percent": (
            None if mixture.volume_fraction is None else 100.0 * mixture.volume_fraction
        ),
        "at_C": temperature - ICE_POINT,
        "freezing_C": mixture.freezing_temperature - ICE_POINT,
        "burst": burst_words(mixture.kind, mixture.volume_fraction),
        "slush": _slush(mixture, temperature),
        "density_kg_m3": where_liquid(float(at.density)),
        "specific_heat_J_kgK": where_liquid(float(at.specific_heat)),
        "viscosity_Pas": where_liquid(float(at.dynamic_viscosity)),
        "conductivity_W_mK": where_liquid(float(at.conductivity)),
        "expansion_to_25C_percent": where_liquid(100.0 * grown),
        "headspace_percent": where_liquid(100.0 * most / (1.0 + most)),
    }


def burst_words(kind: str, volume_fraction: float | None) -> str:
    """What happens to a full vessel when the mixture freezes further."""
    from coldwright.fluids.burst_protection import burst_temperature  # noqa: PLC0415 (as above)

    if kind == "water":
        return "water grows by 9 % when it freezes and bursts what it fills"
    lowest = None if volume_fraction is None else burst_temperature(kind, volume_fraction)
    if lowest is None:
        return (
            "not tabulated: count on a full, closed vessel bursting below the freezing point, and "
            "leave room above the liquid"
        )
    if math.isinf(lowest):
        return "stays a slush that gives way in any cold a room sees (to about -50 °C)"
    return (
        f"its slush can burst a full vessel below about {lowest - ICE_POINT:.0f} °C "
        f"({1.8 * (lowest - ICE_POINT) + 32.0:.0f} °F)"
    )


def _slush(mixture: Brine, temperature: float) -> str:
    margin = temperature - mixture.freezing_temperature
    if margin < 0.0:
        return (
            "slush or ice at the stated temperature: crystals on the coldest surface hinder heat; "
            "the figures of a liquid do not hold"
        )
    near = mixture.kind != "water" and margin < 5.0
    tail = "; tables of such mixtures differ by 1 to 2 K, so keep 3 to 5 K" if near else ""
    return f"liquid at the stated temperature, {margin:.1f} K above its first crystals{tail}"


def _with_spread(data: Data, mixture: Brine) -> Data:
    """`data` with the spread between property tables added to the half-widths."""
    halves = dict(data.get("half_widths", {}))
    for key, name in _PROPERTIES.items():
        if data[key] is not None:
            spread = COVERAGE * mixture.relative_uncertainty[name] * abs(data[key])
            halves[key] = math.hypot(halves.get(key, 0.0), spread)
    return {**data, "half_widths": halves}


def _answer(data: Data, units: System, mixture: Brine, remarks: list[str]) -> Answer:
    from coldwright.fluids import burst_protection  # noqa: PLC0415 (slow to import)
    from coldwright.shop.cautions import cautions_for  # noqa: PLC0415

    write = Writer(data, units)
    warm = write.si(WARMEST_STANDING, Kind.temperature)
    water = mixture.kind == "water"
    shares: list[Row] = [] if water else [("by mass", write.figure("mass_percent"), "")]
    if data["volume_percent"] is not None:
        shares.append(
            ("by volume", write.figure("volume_percent"), "at 20 °C, of the finished mixture")
        )
    rows: list[Row] = [
        (
            "first crystals",
            write.figure("freezing_C"),
            "" if water else "tables differ by 1 to 2 K",
        ),
        *shares,
        ("density", write.figure("density_kg_m3"), ""),
        ("specific heat", write.figure("specific_heat_J_kgK"), ""),
        ("viscosity", write.figure("viscosity_Pas"), "the same figure in centipoise"),
        ("conductivity", write.figure("conductivity_W_mK"), ""),
        (
            f"growth to {write.si(ROOM, Kind.temperature)}",
            write.figure("expansion_to_25C_percent"),
            "of its volume",
        ),
        (
            "leave empty",
            write.figure("headspace_percent"),
            f"of the vessel above the level, for standing at {warm}",
        ),
    ]
    notes = [*remarks, f"Slush: {data['slush']}.", f"Bursting: {data['burst']}."]
    codes = () if water else ("coolant_near_food",)
    cautions = [noticed(each) for each in cautions_for("A1") if each.code in codes]
    sources = [mixture.source]
    if mixture.kind in burst_protection.KINDS:
        sources.append(burst_protection.SOURCE)
    title = f"{data['kind']} at {write.figure('at_C')}"
    return Answer(title, data, rows, notes, cautions, cited(*sources))
