"""`coldwright thermostat`: where to set it, and how wide apart cut-in and cut-out should be."""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from coldwright.cli.app import (
    File,
    FillText,
    Revision,
    RoomText,
    TypedOptions,
    Units,
    all_builds,
    app,
    shown_progress,
)
from coldwright.cli.terminal import AsJson, console, faults_shown, print_json
from coldwright.units import Kind, System, format_quantity

if TYPE_CHECKING:
    from coldwright.verdict.thermostat_advice import Setting, ThermostatAdvice

CELSIUS = 273.15


@app.command()
def thermostat(
    file: File,
    rev: Revision = None,
    room: RoomText = None,
    fill: FillText = None,
    units: Units = None,
    as_json: AsJson = False,
) -> None:
    """Say which bulb temperatures hold the target and how wide apart they should be."""
    from coldwright.verdict.thermostat_advice import thermostat_advice  # noqa: PLC0415 (slow)

    with faults_shown(as_json):
        ((build, options),) = all_builds(file, (rev,), TypedOptions(room, fill, units))
        with shown_progress() as progress:
            found = thermostat_advice(build, progress=progress, **options)
    if as_json:
        print_json(_data(found))
    else:
        _print(found, console())


def _data(found: ThermostatAdvice) -> dict[str, Any]:
    """The advice as plain data."""
    advised = found.advised
    return {
        "name": found.clock.build.name,
        "revision": found.clock.build.revision,
        "bulb": found.clock.parts.control.place,
        "target_air_C": found.clock.target - CELSIUS,
        "tried": [_row(each) for each in found.tried],
        "about_the_target": [_row(each) for each in found.about],
        "advised": None if advised is None else _row(advised),
        "altitude_shift_K": found.altitude_shift,
    }


def _row(setting: Setting) -> dict[str, float]:
    row = asdict(setting)
    energy = row.pop("energy_J_per_day") / 3.6e6
    temperatures = ("cut_in", "cut_out", "air_mean", "air_least", "air_greatest")
    named = {f"{name}_C": row.pop(name) - CELSIUS for name in temperatures}
    return {**named, **row, "energy_kWh_per_day": energy}


def _print(found: ThermostatAdvice, to: Console) -> None:
    system = found.clock.system
    build = found.clock.build
    revision = f", revision {build.revision}" if build.revision else ", as built"
    to.print(Text(f"{build.name}{revision}: thermostat", style="bold"))
    for sentence in _sentences(found, system):
        to.print(Padding(Text(sentence), (0, 0, 0, 2)))
    to.print(Text("\nThe build's setting moved up and down", style="bold"))
    to.print(_table(found.tried, system))
    if found.about:
        to.print(Text("\nOther differences about the one that holds the target", style="bold"))
        to.print(_table(found.about, system))


def _sentences(found: ThermostatAdvice, system: System) -> list[str]:
    def temperature(kelvin: float) -> str:
        return format_quantity(kelvin, Kind.temperature, system)

    target, place = temperature(found.clock.target), found.clock.parts.control.place
    advised = found.advised
    told = []
    if advised is None:
        told.append(
            f"No setting tried brings the stored air to {target} in the mean with the machine "
            "switching: see `coldwright assess` for what would."
        )
    else:
        told.append(
            f"Bulb ({place}): cut in at {temperature(advised.cut_in)}, cut out at "
            f"{temperature(advised.cut_out)} holds {target} in the mean, with "
            f"{advised.starts_per_hour:.2f} starts an hour."
        )
    shift = format_quantity(abs(found.altitude_shift), Kind.temperature_difference, system)
    if abs(found.altitude_shift) > 0.1:
        way = "colder" if found.altitude_shift < 0.0 else "warmer"
        told.append(
            f"At this altitude a bellows control marked for sea level switches {shift} {way} than "
            "its dial says: set it by a thermometer at the bulb."
        )
    told.append(
        "A control with a vapour fill obeys its coldest part: keep body and tube warmer than the "
        "bulb, or it switches by the room."
    )
    return told


def _table(settings: tuple[Setting, ...], system: System) -> Table:
    def number(kelvin: float) -> str:
        return format_quantity(kelvin, Kind.temperature, system, digits=1).split(" ")[0]

    degree = "°F" if system == "shop" else "°C"
    table = Table(box=None, padding=(0, 2), show_edge=False)
    headings = (
        f"cut in {degree}",
        f"cut out {degree}",
        f"air mean {degree}",
        "least to greatest",
        "running",
        "starts/h",
        "kWh/day",
    )
    for heading in headings:
        table.add_column(heading, justify="right")
    for each in settings:
        table.add_row(
            number(each.cut_in),
            number(each.cut_out),
            number(each.air_mean),
            f"{number(each.air_least)} to {number(each.air_greatest)}",
            f"{100.0 * each.run_fraction:.0f} %",
            f"{each.starts_per_hour:.2f}",
            f"{each.energy_J_per_day / 3.6e6:.2f}",
        )
    return table
