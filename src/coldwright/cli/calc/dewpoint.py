"""`calc dewpoint`: what a room's air holds and where it settles."""

from __future__ import annotations

from typing import Annotated

import typer

from coldwright.cli.calc.answer import ICE_POINT, Answer, Data, Row, Writer, cited, worked_out
from coldwright.cli.calc.entries import Entries
from coldwright.cli.calc.options import AltitudeText, TemperatureText
from coldwright.cli.terminal import SHOP, AsJson, Units, faults_shown
from coldwright.units import Kind, System

TEMPERATURES = (233.15, 333.15)  # K
HUMIDITIES = (0.01, 1.0)
# The trade's charts count from dry air at 0 °F, SI ones from 0 °C.
BTU_PER_LB = 2326.0  # J/kg
DRY_AIR_FROM_0F = 0.240 * 32.0  # Btu/lb


def dewpoint(
    temperature: TemperatureText = None,
    humidity: Annotated[
        str | None, typer.Option("--humidity", metavar="RH", help='Relative, such as "55 %".')
    ] = None,
    altitude: AltitudeText = None,
    units: Units = SHOP,
    as_json: AsJson = False,
) -> None:
    """Dew point, humidity ratio and enthalpy of a room's air."""
    entries = Entries()
    with faults_shown(as_json):
        system = entries.system(units)
        atmosphere = entries.atmosphere(altitude)
        inputs = {
            "temperature": entries.needed(
                "--temperature", temperature, Kind.temperature, TEMPERATURES
            ),
            "humidity": entries.needed("--humidity", humidity, Kind.ratio, HUMIDITIES),
        }
        entries.settle()

        def compute(**given: float) -> Data:
            return _figures(given["temperature"], given["humidity"], atmosphere)

        data = worked_out(compute, inputs)
        _answer(data, system, entries.remarks).show(as_json)


def _figures(temperature: float, humidity: float, atmosphere: float) -> Data:
    from coldwright.fluids import moist_air  # noqa: PLC0415 (slow to import)

    ratio = float(moist_air.humidity_ratio(temperature, humidity, atmosphere))
    return {
        "temperature_C": temperature - ICE_POINT,
        "relative_humidity_percent": 100.0 * humidity,
        "atmospheric_pressure_Pa": atmosphere,
        "dew_point_C": float(moist_air.dew_point(temperature, humidity)) - ICE_POINT,
        "vapour_pressure_Pa": humidity * float(moist_air.saturation_pressure(temperature)),
        "humidity_ratio_g_per_kg": 1e3 * ratio,
        "enthalpy_J_per_kg": float(moist_air.enthalpy(temperature, ratio)),
        "density_kg_m3": float(moist_air.density(temperature, ratio, atmosphere)),
    }


def _answer(data: Data, units: System, remarks: list[str]) -> Answer:
    write = Writer(data, units)
    frost = data["dew_point_C"] < 0.0
    dew = write.figure("dew_point_C")
    enthalpy = write.plain("enthalpy_J_per_kg", "kJ/kg", 1e-3)
    datum = "of dry air, from 0 °C"
    if units == "shop":
        enthalpy = write.plain("enthalpy_J_per_kg", "Btu/lb", 1.0 / BTU_PER_LB, DRY_AIR_FROM_0F)
        datum = "of dry air, from 0 °F as the trade's charts count"
    rows: list[Row] = [
        ("frost point" if frost else "dew point", dew, "hardly moves with altitude"),
        ("humidity ratio", write.figure("humidity_ratio_g_per_kg"), "water by dry air"),
        ("enthalpy", enthalpy, datum),
        ("density", write.figure("density_kg_m3"), ""),
    ]
    settles = "gathers frost" if frost else "sweats"
    notes = [*remarks, f"A surface colder than {dew} {settles} in this air."]
    title = (
        f"Air at {write.figure('temperature_C')}, "
        f"{write.figure('relative_humidity_percent')} relative humidity"
    )
    sources = cited(
        "fluids_hyland_wexler_1983", "box_ashrae_psychrometrics", "icao_1993_atmosphere"
    )
    return Answer(title, data, rows, notes, sources=sources)
