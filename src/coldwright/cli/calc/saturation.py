"""`calc saturation`: pressure and temperature of a refrigerant, and what a dial would show."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Annotated

import typer

from coldwright.cli.calc.answer import ICE_POINT, Answer, Data, Row, Writer, cited, worked_out
from coldwright.cli.calc.entries import FULL_RANGE, MISSING, Entries, Entry
from coldwright.cli.calc.options import AltitudeText, Gas, TemperatureText
from coldwright.cli.terminal import SHOP, AsJson, Units, faults_shown
from coldwright.units import Kind, System

if TYPE_CHECKING:
    from coldwright.fluids.refrigerants import Refrigerant

PSI = 6894.757293168
HISTORIC = ("R12", "R22")


def saturation(
    refrigerant: Gas,
    pressure: Annotated[
        str | None,
        typer.Option("--pressure", metavar="P", help='Such as "10 psig" or "5 inHg vacuum".'),
    ] = None,
    temperature: TemperatureText = None,
    dial: Annotated[
        str | None,
        typer.Option("--dial", metavar="R", help="Refrigerant that the gauge's dial was made for."),
    ] = None,
    altitude: AltitudeText = None,
    units: Units = SHOP,
    as_json: AsJson = False,
) -> None:
    """Pressure and temperature at which a refrigerant boils, and what another dial would show."""
    entries = Entries()
    with faults_shown(as_json):
        system = entries.system(units)
        atmosphere = entries.atmosphere(altitude)
        gas = entries.refrigerant(refrigerant)
        ring = None if dial is None else entries.refrigerant(dial, "--dial")
        name, entry = _given(entries, gas, pressure, temperature, atmosphere)
        fluid = entries.settled(gas)

        def compute(**given: float) -> Data:
            if "pressure" in given:
                p = given["pressure"]
                return _figures(fluid, ring, atmosphere, p, float(fluid.saturation_temperature(p)))
            at = given["temperature"]
            return _figures(fluid, ring, atmosphere, float(fluid.saturation_pressure(at)), at)

        data = worked_out(compute, {name: entry})
        _answer(data, system, atmosphere, name, entries.remarks).show(as_json)


def _given(
    entries: Entries,
    gas: Refrigerant | None,
    pressure: str | None,
    temperature: str | None,
    atmosphere: float,
) -> tuple[str, Entry]:
    """The one of the two that was given, held to the range of the refrigerant."""
    if (pressure is None) == (temperature is None):
        entries.fault(
            "--pressure",
            "One of --pressure and --temperature must be given, and only one.",
            "such as --pressure 10psig or --temperature -5C",
        )
        return "pressure", MISSING
    temperatures, pressures = FULL_RANGE, FULL_RANGE
    if gas is not None:
        temperatures = (gas.least_temperature, gas.greatest_temperature)
        least, greatest = (float(gas.saturation_pressure(t)) for t in temperatures)
        pressures = (least, greatest)
    if pressure is not None:
        return "pressure", entries.needed(
            "--pressure", pressure, Kind.absolute_pressure, pressures, atmosphere_Pa=atmosphere
        )
    return "temperature", entries.needed(
        "--temperature", temperature, Kind.temperature, temperatures
    )


def _figures(
    fluid: Refrigerant, ring: Refrigerant | None, atmosphere: float, pressure: float, at: float
) -> Data:
    from coldwright.fluids.gauge_dial import dial_temperature  # noqa: PLC0415 (slow to import)

    shown = None
    if ring is not None:
        found = float(dial_temperature(ring, pressure, atmosphere))
        shown = found - ICE_POINT if math.isfinite(found) else None
    celsius = at - ICE_POINT
    return {
        "refrigerant": fluid.name,
        "saturation_C": celsius,
        "pressure_Pa": pressure,
        "pressure_psig": (pressure - atmosphere) / PSI,
        "atmospheric_pressure_Pa": atmosphere,
        "dial_refrigerant": None if ring is None else ring.name,
        "dial_C": shown,
        "dial_error_K": None if shown is None else shown - celsius,
    }


def _answer(data: Data, units: System, atmosphere: float, given: str, remarks: list[str]) -> Answer:
    write = Writer(data, units, atmosphere)
    gauge = write.si(data["pressure_Pa"] - atmosphere, Kind.gauge_pressure)
    rows: list[Row] = [
        ("saturation", write.figure("saturation_C"), "both phases together"),
        ("pressure", write.figure("pressure_Pa"), gauge if units == "si" else ""),
    ]
    sources = ["bell_2014_coolprop", "icao_1993_atmosphere"]
    notes = list(remarks)
    ring = data["dial_refrigerant"]
    if ring is not None:
        sources.append("calc_gauge_ring")
        rows.append((f"a dial made for {ring}", write.figure("dial_C"), "as its ring shows it"))
        rows.append(("error of that dial", write.figure("dial_error_K"), "shown less true"))
        notes.append(_meaning(data, write))
    if data["refrigerant"] in HISTORIC or ring in HISTORIC:
        notes.append("R12 and R22 are historic: for reading old charts and dials, never a charge.")
    title = f"{data['refrigerant']} at {write.figure(_KEYS[given])}"
    return Answer(title, data, rows, notes, sources=cited(*sources))


_KEYS = {"pressure": "pressure_Pa", "temperature": "saturation_C"}


def _meaning(data: Data, write: Writer) -> str:
    ring, gas, error = data["dial_refrigerant"], data["refrigerant"], data["dial_error_K"]
    if error is None:
        return f"A ring for {ring} has no mark at that pressure: use the pressure scale."
    if abs(error) < 0.05:
        return f"A ring for {ring} tells the temperature of {gas} here."
    side = "warmer" if error > 0.0 else "colder"
    size = write.si(abs(error), Kind.temperature_difference)
    return (
        f"The ring for {ring} shows {size} {side} than {gas} boils: read the pressure scale and "
        "look the temperature up here."
    )
