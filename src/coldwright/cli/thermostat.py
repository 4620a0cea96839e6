"""`coldwright thermostat`: where to set it, and how wide apart cut-in and cut-out should be."""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from coldwright.cli.app import app
from coldwright.cli.build_options import (
    File,
    FillText,
    Revision,
    RoomText,
    TypedOptions,
    Units,
    first_line,
    one_build,
    shown_progress,
)
from coldwright.cli.terminal import AsJson, console, faults_shown, print_json
from coldwright.units import Kind, System, format_quantity

if TYPE_CHECKING:
    from coldwright.verdict.thermostat_advice import Setting, ThermostatAdvice

CELSIUS = 273.15
LEAST_SHIFT = 0.1  # K of altitude under which nothing is said
TEMPERATURES = ("cut_in", "cut_out", "air_mean", "air_least", "air_greatest", "low_shelf_least")


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
        build, options = one_build(file, rev, TypedOptions(room, fill, units))
        with shown_progress() as progress:
            found = thermostat_advice(build, progress=progress, **options)
    data = _data(found)
    if as_json:
        print_json(data)
    else:
        _print(found, data, console())


def _data(found: ThermostatAdvice) -> dict[str, Any]:
    """The advice as plain data."""
    build, advised = found.clock.build, found.advised
    data = {
        "name": build.name,
        "revision": build.revision,
        "bulb": found.clock.parts.control.place,
        "head": found.clock.parts.control.head,
        "target_air_C": found.clock.target - CELSIUS,
        "tried": [_row(each) for each in found.tried],
        "about_the_target": [_row(each) for each in found.about],
        "advised": None if advised is None else _row(advised),
        "limits": None if advised is None else asdict(found.limits(advised)),
        "altitude_shift_K": found.altitude_shift,
    }
    if found.has_knob:
        at = None if advised is None else advised.share
        data["knob"] = None if at is None else _mark(at, _written_knob(found))
    return data


def _mark(share: float, written: str | None) -> str:
    """A place on the knob's scale, as the file writes its own."""
    from coldwright.build.knob import position_of  # noqa: PLC0415 (slow to import; --help must not wait)

    return position_of(share, written)


def _written_knob(found: ThermostatAdvice) -> str | None:
    """The knob's position as the file writes it."""
    knob = found.clock.build.thermostat.knob
    return None if knob is None else knob.position


def _row(setting: Setting) -> dict[str, float | None]:
    row = asdict(setting)
    energy = row.pop("energy_J_per_day") / 3.6e6
    named = {f"{name}_C": row.pop(name) - CELSIUS for name in TEMPERATURES}
    return {**named, **row, "energy_kWh_per_day": energy}


def _print(found: ThermostatAdvice, data: dict[str, Any], to: Console) -> None:
    system = found.clock.system
    to.print(first_line(data, "thermostat"))
    for sentence in sentences(found, system):
        to.print(Padding(Text(sentence), (0, 0, 0, 2)))
    if found.has_knob:
        to.print(Text("\nThe knob from its warm to its cold end", style="bold"))
        to.print(_table(found.tried, system, _written_knob(found)))
        return
    to.print(Text("\nThe build's setting moved up and down", style="bold"))
    to.print(_table(found.tried, system))
    if found.about:
        to.print(Text("\nOther differences about the one that holds the target", style="bold"))
        to.print(_table(found.about, system))


def sentences(found: ThermostatAdvice, system: System) -> list[str]:
    """The advice in words, most wanted first."""
    told = [_setting_words(found, system)]
    if found.advised is not None:
        told.append(_limit_words(found, found.advised, system))
    shift = format_quantity(abs(found.altitude_shift), Kind.temperature_difference, system)
    if abs(found.altitude_shift) > LEAST_SHIFT:
        way = "colder" if found.altitude_shift < 0.0 else "warmer"
        counted = (
            "this is counted in the settings here."
            if found.has_knob
            else "set it by a thermometer at the bulb."
        )
        told.append(
            f"At this altitude a bellows control marked for sea level switches {shift} {way} than "
            f"its dial says: {counted}"
        )
    return [*told, _head_words(found)]


def _setting_words(found: ThermostatAdvice, system: System) -> str:
    def temperature(kelvin: float) -> str:
        return format_quantity(kelvin, Kind.temperature, system)

    target, place = temperature(found.clock.target), found.clock.parts.control.place
    advised = found.advised
    if advised is None and found.has_knob:
        warm, cold = found.tried[0], found.tried[-1]
        return (
            f"This control's range does not hold {target}: at its warm end the stored air is "
            f"{temperature(warm.air_mean)} in the mean, at its cold end "
            f"{temperature(cold.air_mean)}. Take a control of another range or move the bulb."
        )
    if advised is None:
        return (
            f"No setting tried brings the stored air to {target} in the mean with the machine "
            "switching: see `coldwright assess` for what would."
        )
    switches = f"cut in at {temperature(advised.cut_in)}, cut out at {temperature(advised.cut_out)}"
    if advised.share is not None:
        at = _mark(advised.share, _written_knob(found))
        return (
            f"Set the knob to {at}: bulb ({place}) {switches} holds {target} in the mean, with "
            f"{advised.starts_per_hour:.2f} starts an hour."
        )
    return (
        f"Bulb ({place}): {switches} holds {target} in the mean, with "
        f"{advised.starts_per_hour:.2f} starts an hour."
    )


def _limit_words(found: ThermostatAdvice, advised: Setting, system: System) -> str:
    """What of the limits the advised setting keeps, and which it does not."""
    limits = found.limits(advised)
    shelf = format_quantity(advised.low_shelf_least, Kind.temperature, system)
    most = found.clock.build.targets.highest_run_fraction.value
    share = f"{100.0 * advised.run_fraction:.0f} %"
    odd = []
    if not limits.shelf_unfrozen:
        odd.append(f"the air at the lowest shelf falls to {shelf}, so what stands there may freeze")
    if not limits.starts:
        odd.append("it starts too often")
    if not limits.running:
        odd.append(f"it runs {share} of the time, more than the {100.0 * most:.0f} % wanted")
    if not odd:
        return (
            f"The lowest shelf gets no colder than {shelf}; it runs {share} of the time; starts "
            "and running stay inside their limits."
        )
    return f"But {'; and '.join(odd)}."


def _head_words(found: ThermostatAdvice) -> str:
    """When a vapour fill obeys its head instead of its bulb."""
    head = found.clock.parts.control.head
    if head == "none":
        return "Its liquid fill obeys the bulb alone, wherever its head stands."
    if head == "room":
        return (
            "A control with a vapour fill obeys its coldest part: keep body and tube warmer than "
            "the bulb, or it switches by the room."
        )
    where = "in the cabinet's air" if head == "cabinet" else "at the cold side"
    return (
        f"Its head or tube is {where}: a vapour fill obeys whichever is colder, bulb or head, and "
        "the settings here count that."
    )


def _table(settings: tuple[Setting, ...], system: System, knob: str | None = None) -> Table:
    def number(kelvin: float) -> str:
        return format_quantity(kelvin, Kind.temperature, system, digits=1).split(" ")[0]

    degree = "°F" if system == "shop" else "°C"
    table = Table(box=None, padding=(0, 1), show_edge=False)
    headings = (
        f"cut in\n{degree}",
        f"cut out\n{degree}",
        f"air mean\n{degree}",
        "air from\nto",
        f"low shelf\n{degree}",
        "runs\n%",
        "starts\nan hour",
        "kWh\na day",
    )
    if settings[0].share is not None:
        table.add_column("knob", justify="right", no_wrap=True)
    for heading in headings:
        table.add_column(heading, justify="right", no_wrap=True)
    for each in settings:
        table.add_row(
            *([] if each.share is None else [_mark(each.share, knob)]),
            number(each.cut_in),
            number(each.cut_out),
            number(each.air_mean),
            f"{number(each.air_least)} to {number(each.air_greatest)}",
            number(each.low_shelf_least),
            f"{100.0 * each.run_fraction:.0f}",
            f"{each.starts_per_hour:.2f}",
            f"{each.energy_J_per_day / 3.6e6:.2f}",
        )
    return table
