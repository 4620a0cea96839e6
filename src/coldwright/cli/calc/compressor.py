"""`calc compressor`: what a compressor gives at other temperatures, gas, frequency and room."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from coldwright.cli.calc import compressor_options as given
from coldwright.cli.calc.answer import Data, worked_out
from coldwright.cli.calc.compressor_sheet import csv_points, typed_points
from coldwright.cli.calc.entries import MISSING, Entries, Entry
from coldwright.cli.terminal import SHOP, AsJson, Units, faults_shown
from coldwright.errors import InputError
from coldwright.units import Kind

if TYPE_CHECKING:
    from coldwright.cli.calc.compressor_sheet import SheetPoint

EVAPORATING = (213.15, 293.15)  # K
CONDENSING = (288.15, 343.15)
GASES = (223.15, 323.15)
LIQUIDS = (263.15, 343.15)
ROOMS = (268.15, 328.15)
DISPLACEMENTS = (5e-7, 1e-4)  # m3
FREQUENCIES = (20.0, 150.0)  # Hz
VOLTAGES = (9.0, 480.0)
USUAL_FREQUENCY = "50 Hz"
USUAL_GAS = 305.35  # K, return gas and liquid
APPLICATIONS = ("LBP", "MBP", "HBP")


def compressor(  # noqa: PLR0913, PLR0917 (the options of one command)
    map_file: given.MapFile = None,
    rated: given.Rated = None,
    application: given.Application = None,
    size: given.Size = None,
    refrigerant: given.Refrigerant = "R134a",
    other: given.Other = None,
    displacement: given.Displacement = None,
    frequency: given.Frequency = USUAL_FREQUENCY,
    running: given.Running = None,
    voltage: given.Voltage = None,
    evaporating: given.Evaporating = None,
    condensing: given.Condensing = None,
    return_gas: given.ReturnGas = None,
    liquid: given.Liquid = None,
    at: given.At = None,
    room: given.Room = None,
    oil: given.Oil = None,
    units: Units = SHOP,
    as_json: AsJson = False,
) -> None:
    """Capacity, power, current and temperatures of a compressor away from its data sheet."""
    entries = Entries()
    with faults_shown(as_json):
        system = entries.system(units)
        way, sheet = _sheet(entries, map_file, rated or [], application)
        use = _application(entries, application, size, way)
        rated_on = entries.refrigerant(refrigerant, "--refrigerant")
        fluid = rated_on if other is None else entries.refrigerant(other, "--as")
        swept = entries.optional("--displacement", displacement, Kind.volume, DISPLACEMENTS)
        hertz = entries.needed("--frequency", frequency, Kind.frequency, FREQUENCIES).value
        turning = entries.optional("--running-frequency", running, Kind.frequency, FREQUENCIES)
        volts = entries.optional("--voltage", voltage, Kind.voltage, VOLTAGES)
        inputs = _condition(entries, at, evaporating, condensing, return_gas, liquid)
        air = entries.optional("--room", room, Kind.temperature, ROOMS)
        inputs["room"] = air or Entry(USUAL_GAS)
        kept = _oil(entries, oil)
        _within(entries, inputs, fluid)
        entries.settle()
        gas = entries.settled(fluid)

        from coldwright.cli.calc.compressor_machine import (  # noqa: PLC0415 (slow to import)
            Running,
            described,
            figures,
        )
        from coldwright.cli.calc.compressor_text import show  # noqa: PLC0415

        volt = None if volts is None else volts.value
        rated_gas = entries.settled(rated_on)
        machine = described(way, sheet, use, size, rated_gas, swept, hertz, volt)
        run = Running(gas, hertz if turning is None else turning.value, volt)

        def compute(**values: float) -> Data:
            return figures(machine, run, values)

        show(worked_out(compute, inputs), machine, run, kept, system, entries.remarks, as_json)


def _sheet(
    entries: Entries, map_file: Path | None, rated: list[str], application: str | None
) -> tuple[str, list[SheetPoint]]:
    """How the machine is described, and its points."""
    if map_file is not None and rated:
        entries.fault("--rated", "--map and --rated must not both be given.", "leave one out")
    if map_file is not None:
        return "map", csv_points(entries, map_file)
    if rated:
        return "rated", typed_points(entries, rated)
    if application is None:
        entries.fault(
            "--map",
            "One of --map, --rated and --class must be given.",
            "--class LBP alone gives a wide guess",
        )
    return "class", []


def _application(
    entries: Entries, application: str | None, size: str | None, way: str
) -> str | None:
    if application is not None and application.upper() not in APPLICATIONS:
        entries.fault("--class", f"--class must be one of LBP, MBP, HBP; received '{application}'.")
        return None
    if size is not None:
        if way != "class":
            entries.fault("--size", "--size must be left out where there are rated data.")
        else:
            from coldwright.shop.compressor_classes import (  # noqa: PLC0415 (reads a file)
                compressor_class,
            )

            try:
                compressor_class(f"{(application or 'LBP').upper()} {size}")
            except InputError as error:
                for each in error.faults:
                    entries.fault("--size", each.message, each.hint)
    return None if application is None else application.upper()


def _condition(
    entries: Entries,
    at: str | None,
    evaporating: str | None,
    condensing: str | None,
    return_gas: str | None,
    liquid: str | None,
) -> dict[str, Entry]:
    """The four temperatures, by name or one by one."""
    rows = (
        ("evaporating", "--evaporating", evaporating, EVAPORATING),
        ("condensing", "--condensing", condensing, CONDENSING),
        ("return_gas", "--return-gas", return_gas, GASES),
        ("liquid", "--liquid", liquid, LIQUIDS),
    )
    found = {
        name: entry
        for name, option, text, bounds in rows
        if (entry := entries.optional(option, text, Kind.temperature, bounds)) is not None
    }
    if at is not None:
        from coldwright.shop.rating_conditions import rating_condition  # noqa: PLC0415

        place = entries.attempt(lambda: rating_condition(at, field="--at"))
        if place is not None:
            for name in ("evaporating", "condensing", "return_gas", "liquid"):
                found.setdefault(name, Entry(getattr(place, name)))
    else:
        for name, given in (("evaporating", evaporating), ("condensing", condensing)):
            if given is None:
                entries.fault(
                    f"--{name}",
                    f"--{name} must be given, or --at with a named condition.",
                    'such as --at "ASHRAE LBP"',
                )
    for name in ("evaporating", "condensing"):
        found.setdefault(name, MISSING)
    low, high = found.get("evaporating", MISSING).value, found.get("condensing", MISSING).value
    found.setdefault("return_gas", Entry(max(USUAL_GAS, low)))
    found.setdefault("liquid", Entry(min(USUAL_GAS, high)))
    for wrong, name, message in (
        (high <= low, "--condensing", "--condensing must be above --evaporating"),
        (
            found["return_gas"].value < low,
            "--return-gas",
            "--return-gas must not be colder than --evaporating",
        ),
        (found["liquid"].value > high, "--liquid", "--liquid must not be warmer than --condensing"),
    ):
        if wrong:
            entries.fault(name, f"{message}.")
    return found


def _within(entries: Entries, inputs: dict[str, Entry], fluid: object) -> None:
    """Refuse a condensing temperature that the refrigerant cannot reach."""
    from coldwright.fluids.refrigerants import Refrigerant  # noqa: PLC0415 (slow to import)

    if isinstance(fluid, Refrigerant) and inputs["condensing"].value > fluid.greatest_temperature:
        entries.fault(
            "--condensing", f"--condensing must be below the critical point of {fluid.name}."
        )


def _oil(entries: Entries, name: str | None) -> str | None:
    if name is None:
        return None
    from coldwright.fluids.oils import oil  # noqa: PLC0415 (slow to import)

    try:
        return oil(name).kind.name
    except InputError as error:
        for each in error.faults:
            entries.fault("--oil", each.message, each.hint)
    return None
