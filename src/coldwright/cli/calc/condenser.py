"""`calc condenser`: what a still-air condenser sheds, or how hot it gets for a heat."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from coldwright.cli.calc import condenser_options as given
from coldwright.cli.calc.answer import Data, worked_out
from coldwright.cli.calc.condenser_entries import (
    check_fit,
    read_bond,
    read_kind,
    read_metal,
    read_numbers,
    read_sides,
    read_skin,
    read_tube,
)
from coldwright.cli.calc.condenser_text import show
from coldwright.cli.calc.entries import Entries, Entry
from coldwright.cli.terminal import SHOP, AsJson, Units, faults_shown
from coldwright.errors import Fault, InputError
from coldwright.units import Kind, format_quantity

if TYPE_CHECKING:
    from coldwright.fluids.refrigerants import Refrigerant
    from coldwright.shop.tubes import Tube

HEATS = (1.0, 5000.0)  # W
LEAST_ABOVE_ROOM = 1.0  # K


@dataclass(frozen=True)
class Asked:
    """Everything but the numbers: gas, kind, tube, metals, finish."""

    refrigerant: Refrigerant
    kind: str
    tube: Tube
    bond: str
    metal: str
    wire_sides: float
    finish: str
    finish_source: str
    atmosphere_Pa: float


def condenser(  # noqa: PLR0913, PLR0917 (the options of one command)
    refrigerant: given.Gas = None,
    kind: given.Form = "sheet",
    condensing: given.Condensing = None,
    heat: given.Heat = None,
    room: given.Room = None,
    width: given.Width = None,
    height: given.Height = None,
    thickness: given.Thickness = None,
    sheet_material: given.SheetMaterial = None,
    area_factor: given.AreaFactor = None,
    tube: given.TubeSize = None,
    length: given.Length = None,
    bond: given.Bond = None,
    emissivity: given.Emissivity = None,
    finish: given.Finish = None,
    gap: given.Gap = None,
    chimney_height: given.ChimneyHeight = None,
    opening: given.Opening = None,
    wall_behind: given.WallBehind = None,
    shaded: given.Shaded = None,
    dirt: given.Dirt = None,
    air_rise: given.AirRise = None,
    wire_diameter: given.WireDiameter = None,
    wire_pitch: given.WirePitch = None,
    wire_sides: given.WireSides = None,
    discharge_gas: given.DischargeGas = None,
    subcooling: given.Subcooling = None,
    altitude: given.Altitude = None,
    units: Units = SHOP,
    as_json: AsJson = False,
) -> None:
    """Heat of a condenser in still air at a condensing temperature, or the other way round."""
    texts = dict(locals())
    entries = Entries()
    with faults_shown(as_json):
        system = entries.system(units)
        asked, inputs = _asked(entries, texts)

        def compute(**values: float) -> Data:
            from coldwright.cli.calc.condenser_parts import figures  # noqa: PLC0415 (slow)

            return figures(asked, values)

        _must_be_found(asked, {name: entry.value for name, entry in inputs.items()})
        data = worked_out(compute, inputs)
        show(data, asked, "heat" in inputs, system, entries.remarks, as_json)


def _asked(entries: Entries, texts: Mapping[str, str | None]) -> tuple[Asked, dict[str, Entry]]:
    """What is asked and its numbers. Raises InputError with all faults."""
    gas_text = texts["refrigerant"]
    if gas_text is None:
        entries.fault("--refrigerant", "--refrigerant must be given.", "--refrigerant R152a")
    gas = None if gas_text is None else entries.refrigerant(gas_text, "--refrigerant")
    kind = read_kind(entries, texts["kind"] or "")
    found = read_numbers(entries, kind, texts)
    stock = read_tube(entries, texts["tube"])
    skin, found["emissivity"] = read_skin(entries, texts["emissivity"], texts["finish"])
    made = ""
    if kind in ("sheet", ""):
        made, found["bond"] = read_bond(entries, texts["bond"])
    metal = read_metal(entries, texts["sheet_material"])
    sides = read_sides(entries, texts["wire_sides"])
    atmosphere = entries.atmosphere(texts["altitude"])
    check_fit(entries, found, stock)
    _one_of(entries, texts, gas, found)
    return (
        Asked(
            entries.settled(gas),
            kind,
            entries.settled(stock),
            made,
            metal,
            sides,
            "" if skin is None else skin.name,
            "" if skin is None else skin.source,
            atmosphere,
        ),
        found,
    )


def _one_of(
    entries: Entries,
    texts: Mapping[str, str | None],
    gas: Refrigerant | None,
    found: dict[str, Entry],
) -> None:
    """The condensing temperature or the heat, one of them; adds it to `found`."""
    if (texts["condensing"] is None) == (texts["heat"] is None):
        entries.fault(
            "--condensing",
            "One of --condensing and --heat must be given, and only one.",
            "--condensing 45C gives the heat; --heat 150W gives where it condenses",
        )
        return
    if texts["heat"] is not None:
        entry = entries.optional("--heat", texts["heat"], Kind.heat_flow, HEATS)
        if entry is not None:
            found["heat"] = entry
        return
    room, hot = found.get("room"), found.get("discharge_gas")
    least = room.value + LEAST_ABOVE_ROOM if room else 233.15
    most = gas.greatest_temperature - 3.0 if gas else 373.15
    if hot is not None:
        most = min(most, hot.value - 1.0)
    entry = entries.optional(
        "--condensing", texts["condensing"], Kind.temperature, (least, max(most, least))
    )
    if entry is not None:
        found["condensing"] = entry
        cold = found.get("subcooling")
        if cold is not None and cold.value >= entry.value - least + LEAST_ABOVE_ROOM:
            reach = format_quantity(
                entry.value - least + LEAST_ABOVE_ROOM, Kind.temperature_difference, "si"
            )
            entries.fault(
                "--subcooling",
                f"--subcooling must be less than condensing above room {reach}: the room cools "
                "no further.",
            )


def _must_be_found(asked: Asked, values: Mapping[str, float]) -> None:
    """Raise InputError where no condensing temperature or no flow does it."""
    from coldwright.cli.calc.condenser_parts import figures, greatest_heat  # noqa: PLC0415 (slow)

    if figures(asked, values)["found"]:
        return
    if "heat" in values:
        most = format_quantity(greatest_heat(asked, values), Kind.heat_flow, "si")
        given_heat = format_quantity(values["heat"], Kind.heat_flow, "si")
        raise InputError(
            Fault(
                "--heat",
                f"--heat must be what this condenser can shed with {asked.refrigerant.name}, at "
                f"most about {most}; received {given_heat}.",
                hint="a larger condenser with more tube, or less subcooling",
            )
        )
    raise InputError(
        Fault(
            "--subcooling",
            "--subcooling must be within reach of the air that comes in at this condensing "
            "temperature.",
            hint="less subcooling, or a higher condensing temperature",
        )
    )
