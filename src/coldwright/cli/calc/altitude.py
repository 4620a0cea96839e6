"""`calc altitude`: what thin air does to a gauge, to boiling water and to a thermostat."""

from __future__ import annotations

import math
from typing import Annotated

import typer

from coldwright.cli.calc.answer import ICE_POINT, Answer, Data, Row, Writer, cited
from coldwright.cli.calc.entries import SEA_LEVEL, Entries
from coldwright.cli.calc.saturation import PSI
from coldwright.cli.terminal import SHOP, AsJson, Units, faults_shown
from coldwright.units import Kind, System, atmosphere_at

FILLS = ("R134a", "R12", "R600a")
SETTINGS_C = (-20.0, -10.0, 0.0)


def altitude(
    height: Annotated[
        str,
        typer.Argument(metavar="ALTITUDE", help='Such as "1500 m" or 5000ft.', show_default=False),
    ],
    units: Units = SHOP,
    as_json: AsJson = False,
) -> None:
    """Atmospheric pressure at an altitude, and what it does to gauges, water and thermostats."""
    entries = Entries()
    with faults_shown(as_json):
        system = entries.system(units)
        metres = entries.altitude("ALTITUDE", height)
        entries.settle()
        data = _figures(metres)
        _answer(data, system, entries.remarks).show(as_json)


def _figures(metres: float) -> Data:
    from coldwright.fluids import thin_air  # noqa: PLC0415 (slow to import)
    from coldwright.fluids.refrigerants import refrigerant  # noqa: PLC0415

    pressure = float(atmosphere_at(metres))
    boiling = float(thin_air.boiling_temperature(pressure))
    shifts = []
    for fill in FILLS:
        for celsius in SETTINGS_C:
            moved = float(
                thin_air.thermostat_shift(refrigerant(fill), celsius + ICE_POINT, pressure)
            )
            shifts.append(
                {
                    "fill": fill,
                    "setting_C": celsius,
                    "shift_K": moved if math.isfinite(moved) else None,
                }
            )
    return {
        "altitude_m": metres,
        "atmospheric_pressure_Pa": pressure,
        "gauge_zero_shift_Pa": pressure - SEA_LEVEL,
        "gauge_zero_shift_psi": (pressure - SEA_LEVEL) / PSI,
        "water_boiling_C": boiling - ICE_POINT,
        "water_boiling_shift_K": boiling - float(thin_air.boiling_temperature(SEA_LEVEL)),
        "thermostat_shift": shifts,
    }


def _answer(data: Data, units: System, remarks: list[str]) -> Answer:
    pressure = data["atmospheric_pressure_Pa"]
    write = Writer(data, units, pressure)
    air = f"{pressure / 1e3:.1f} kPa abs" if units == "si" else f"{pressure / PSI:.2f} psia"
    shift = write.si(data["gauge_zero_shift_Pa"], Kind.pressure_difference)
    rows: list[Row] = [
        ("atmosphere", air, "standard; weather moves it by 2 to 3 %"),
        ("full vacuum on a gauge", f"{pressure / 3386.389:.1f} inHg vacuum", ""),
        ("zero of a gauge", shift, "against sea level"),
        ("water boils at", write.figure("water_boiling_C"), ""),
        ("against sea level", write.figure("water_boiling_shift_K"), ""),
    ]
    for each in data["thermostat_shift"]:
        setting = write.si(each["setting_C"] + ICE_POINT, Kind.temperature)
        moved = write.quantity(each["shift_K"], kind=Kind.temperature_difference)
        rows.append((f"thermostat, {each['fill']} fill", moved, f"where it is set to {setting}"))
    higher = data["gauge_zero_shift_Pa"] < 0.0
    notes = [
        *remarks,
        "A gauge open to the air reads from the pressure around it: before using a chart printed "
        f"for sea level {'take' if higher else 'add'} {shift.lstrip('-')} "
        f"{'from' if higher else 'to'} its reading.",
        "A bellows thermostat works against the air too: it runs "
        f"{'too cold' if higher else 'too warm'} by the figures above unless it is set again.",
    ]
    sources = ["icao_1993_atmosphere", "fluids_hyland_wexler_1983", "bell_2014_coolprop"]
    title = f"At {write.figure('altitude_m')}"
    return Answer(title, data, rows, notes, sources=cited(*sources, "calc_thermostat_altitude"))
