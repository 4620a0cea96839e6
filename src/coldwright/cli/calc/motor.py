"""`calc motor`: amperes from watts and back, by one reading; lead, fuse and battery beside it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from coldwright.cli.calc import motor_options as given
from coldwright.cli.calc.answer import Data, worked_out
from coldwright.cli.calc.entries import MISSING, Entries, Entry
from coldwright.cli.calc.motor_text import show
from coldwright.cli.terminal import SHOP, AsJson, Units, faults_shown
from coldwright.errors import InputError
from coldwright.units import Kind, parse_quantity

VOLTAGES = (9.0, 480.0)
POWERS = (2.0, 5000.0)
CURRENTS = (0.02, 100.0)
FREQUENCIES = (40.0, 70.0)
LENGTHS = (0.05, 200.0)
SECTIONS = (1e-7, 1e-4)  # m2
GAUGES = (0, 30)
HOURS_PER_DAY = 24.0
OPTIONALS = (
    ("power", "--power", Kind.power, POWERS),
    ("current", "--current", Kind.current, CURRENTS),
    ("locked_rotor", "--locked-rotor", Kind.current, (0.2, 500.0)),
    ("fuse", "--fuse", Kind.current, (0.1, 200.0)),
    ("run_fraction", "--run-fraction", Kind.ratio, (0.0, 1.0)),
)


@dataclass(frozen=True)
class AskedMotor:
    """What is asked, beside the numbers."""

    direct: bool
    by_current: bool
    read_at: bool  # whether the reading names its own voltage


def motor(  # noqa: PLR0913, PLR0917 (the options of one command)
    voltage: given.Voltage = None,
    reading: given.Reading = None,
    power: given.Power = None,
    current: given.Current = None,
    direct: given.Direct = False,
    locked_rotor: given.LockedRotor = None,
    lead: given.Lead = None,
    cross_section: given.CrossSection = None,
    gauge: given.Gauge = None,
    fuse: given.Fuse = None,
    run_fraction: given.RunFraction = None,
    units: Units = SHOP,
    as_json: AsJson = False,
) -> None:
    """Amperes from watts, watts from a clamp reading, and what lead and battery make of it."""
    entries = Entries()
    with faults_shown(as_json):
        system = entries.system(units)
        inputs = {"voltage": entries.needed("--voltage", voltage, Kind.voltage, VOLTAGES)}
        read = _reading(entries, reading, direct=direct)
        inputs |= read
        if (power is None) == (current is None):
            entries.fault(
                "--power",
                "One of --power and --current must be given, and only one.",
                "watts give amperes; a clamp reading gives watts",
            )
        texts = (power, current, locked_rotor, fuse, run_fraction)
        for (name, option, kind, bounds), text in zip(OPTIONALS, texts, strict=True):
            entry = entries.optional(option, text, kind, bounds)
            if entry is not None:
                inputs[name] = entry
        inputs |= _lead(entries, lead, cross_section, gauge)
        _agrees(entries, inputs)
        entries.settle()
        asked = AskedMotor(direct, current is not None, "reading_voltage" in read)

        def compute(**values: float) -> Data:
            return figures(asked, values)

        show(worked_out(compute, inputs), asked.direct, system, entries.remarks, as_json)


def _reading(entries: Entries, text: str | None, *, direct: bool) -> dict[str, Entry]:
    """Watts, amperes and perhaps volts of one reading; in any order."""
    if direct:
        if text is not None:
            entries.fault("--reading", "--reading must be left out with --dc.")
        return {}
    if text is None:
        entries.fault(
            "--reading",
            "--reading must be given: watts and amperes read together.",
            '--reading "163W,1.79A"; a battery machine has --dc instead',
        )
        return {}
    found: dict[str, Entry] = {}
    rows = (
        ("reading_power", Kind.power, POWERS),
        ("reading_current", Kind.current, CURRENTS),
        ("reading_voltage", Kind.voltage, VOLTAGES),
    )
    for piece in text.replace(";", ",").split(","):
        for name, kind, bounds in rows:
            try:
                parse_quantity(piece, kind, field="--reading")
            except InputError:
                continue
            found[name] = entries.optional("--reading", piece, kind, bounds) or MISSING
            break
        else:
            entries.fault(
                "--reading",
                f"--reading must hold watts and amperes, such as 163W,1.79A; received '{text}'.",
            )
            return found
    if {"reading_power", "reading_current"} - set(found):
        entries.fault(
            "--reading",
            f"--reading must hold watts and amperes, such as 163W,1.79A; received '{text}'.",
        )
    return found


def _lead(
    entries: Entries, length: str | None, section: str | None, gauge: int | None
) -> dict[str, Entry]:
    """Length and cross-section of the lead, all or nothing."""
    if length is None:
        if section is not None or gauge is not None:
            entries.fault("--lead", "--lead must be given with its wire: length, one way.")
        return {}
    if (section is None) == (gauge is None):
        entries.fault(
            "--cross-section",
            "One of --cross-section and --gauge must be given with --lead, and only one.",
        )
    found = {"lead": entries.optional("--lead", length, Kind.length, LENGTHS) or MISSING}
    if gauge is not None:
        if not GAUGES[0] <= gauge <= GAUGES[1]:
            entries.fault("--gauge", f"--gauge must be from 0 to 30; received {gauge}.")
            return found
        from coldwright.parts.lead import wire_gauge_area  # noqa: PLC0415 (slow to import)

        found["cross_section"] = Entry(float(wire_gauge_area(float(gauge))))
    elif section is not None:
        entry = entries.optional("--cross-section", section, Kind.area, SECTIONS)
        found["cross_section"] = entry or MISSING
    return found


def _agrees(entries: Entries, inputs: Mapping[str, Entry]) -> None:
    """Watts cannot be more than volts times amperes."""
    if {"reading_power", "reading_current"} <= set(inputs):
        volts = inputs.get("reading_voltage", inputs["voltage"]).value
        most = volts * inputs["reading_current"].value
        watts = inputs["reading_power"].value
        if watts > 1.03 * most:
            entries.fault(
                "--reading",
                f"--reading: power must be at most volts times amperes, {most:.4g} W; received "
                f"{watts:.4g} W.",
                "one of the three is misread",
            )


def figures(asked: AskedMotor, values: Mapping[str, float]) -> Data:
    """The figures of the motor and, where asked, of its lead and day."""
    from coldwright.parts import motor as part  # noqa: PLC0415 (slow to import)
    from coldwright.parts.lead import lead_resistance  # noqa: PLC0415

    volts = values["voltage"]
    idle = 0.0
    if not asked.direct:
        read_at = values.get("reading_voltage", volts)
        idle = float(
            part.magnetising_current(values["reading_power"], read_at, values["reading_current"])
        )
        idle = float(part.magnetising_at(idle, volts / read_at, 1.0))
    if asked.by_current:
        amps = values["current"]
        watts = float(part.power_from_current(amps, volts, idle))
    else:
        watts = values["power"]
        amps = float(part.line_current(watts, volts, idle))
    data: Data = {
        "voltage_V": volts,
        "power_W": watts,
        "current_A": amps,
        "magnetising_current_A": idle,
        "power_factor": float(part.power_factor(watts, volts, amps)),
        "locked_rotor_current_A": values.get("locked_rotor"),
        "fuse_A": values.get("fuse"),
        "lead_ohm": None,
        "lead_drop_V": None,
        "lead_drop_percent": None,
        "lead_loss_W": None,
        "start_drop_percent": None,
        "energy_kWh_per_day": None,
        "battery_Ah_per_day": None,
    }
    loss = 0.0
    if "lead" in values:
        ohm = float(lead_resistance(values["lead"], values["cross_section"]))
        loss = ohm * amps**2
        data |= {
            "lead_ohm": ohm,
            "lead_drop_V": ohm * amps,
            "lead_drop_percent": 100.0 * ohm * amps / volts,
            "lead_loss_W": loss,
        }
        if "locked_rotor" in values:
            # The stated current is at full voltage: the standing motor is its impedance.
            drop = ohm * values["locked_rotor"]
            data["start_drop_percent"] = 100.0 * drop / (volts + drop)
    if "run_fraction" in values:
        day = HOURS_PER_DAY * values["run_fraction"] * (watts + loss)
        data["energy_kWh_per_day"] = 1e-3 * day
        data["battery_Ah_per_day"] = day / volts if asked.direct else None
    return data
