"""The entries of `calc capillary`: options into quantities, each checked against the others."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from coldwright.cli.calc.entries import FULL_RANGE, Entries, Entry
from coldwright.units import Kind, format_quantity, parse_quantity

if TYPE_CHECKING:
    from coldwright.fluids.refrigerants import Refrigerant

BORES = (0.0002, 0.004)  # m
LENGTHS = (0.1, 20.0)  # m
FLOWS = (0.02 / 3600.0, 100.0 / 3600.0)  # kg/s
SUBCOOLINGS = (0.0, 40.0)  # K
QUALITIES = (0.0, 0.9)
JOINED = (0.01, 10.0)  # m
STARTS = (0.0, 20.0)
SUCTION_BORES = (0.002, 0.05)  # m
OUTSIDES = (0.0006, 0.006)
COILS = (0.01, 1.0)
ROUGHNESSES = (0.0, 2e-5)
LEAST_FALL = 3.0  # K from the inlet's saturation to the evaporating temperature
BORE_DOUBT = 1e-5  # m, standard: stock is held to about 0.02 mm
KINDS = ("soldered", "wrapped", "inside")
SUCTION_TUBE = "1/4 in"
OUTSIDE_DEFAULT, ROUGHNESS_DEFAULT = "2.1 mm", "0.5 µm"


@dataclass(frozen=True)
class Texts:
    """The options as typed."""

    gas: str | None
    bore: str | None
    length: str | None
    flow: str | None
    coil_diameter: str | None
    roughness: str | None
    condensing: str | None
    inlet_pressure: str | None
    subcooling: str | None
    quality: str | None
    evaporating: str | None
    exchanger_length: str | None
    exchanger_start: str | None
    exchanger_kind: str | None
    return_gas: str | None
    suction_bore: str | None
    outside_diameter: str | None


@dataclass(frozen=True)
class Asked:
    """Everything but the numbers."""

    refrigerant: Refrigerant
    exchanger: str | None  # its kind
    late_flashing: bool
    remarks: tuple[str, ...]


def read(
    entries: Entries, given: Texts, atmosphere: float, late_flashing: bool
) -> tuple[Asked, dict[str, Entry]]:
    """What is asked, and its numbers by name. Raises InputError with all faults."""
    gas = None
    if given.gas is None:
        entries.fault(
            "REFRIGERANT", "A refrigerant must be given.", "such as: calc capillary R152a"
        )
    else:
        gas = entries.refrigerant(given.gas)
    inputs = _tube(entries, given)
    inputs |= _ends(entries, given, gas, atmosphere)
    kind = _exchanger(entries, given, gas, inputs)
    fluid = entries.settled(gas)
    _fitting(entries, given, fluid, inputs)
    entries.settle()
    from coldwright.parts.capillary_check import flow_doubt  # noqa: PLC0415 (slow to import)

    doubt = flow_doubt(fluid.name, gas_enters=given.quality is not None)
    inputs["model"] = Entry(1.0, doubt, (0.5, 1.5))
    return Asked(fluid, kind, late_flashing, tuple(entries.remarks)), inputs


def _tube(entries: Entries, given: Texts) -> dict[str, Entry]:
    """Bore, length or flow, roughness and loops."""
    found: dict[str, Entry] = {}
    if (given.length is None) == (given.flow is None):
        entries.fault(
            "--length",
            "One of --length and --flow must be given, and only one.",
            'such as --length 3m, or --flow "2.5 kg/h" for the length of each stock bore',
        )
    _add(found, "length", entries.optional("--length", given.length, Kind.length, LENGTHS))
    _add(found, "flow", entries.optional("--flow", given.flow, Kind.mass_flow, FLOWS))
    if given.bore is None and given.flow is None:
        entries.fault("--bore", "--bore must be given: a length with its unit, such as 0.7 mm.")
    bore = entries.optional("--bore", given.bore, Kind.length, BORES)
    if bore is not None and bore.standard_uncertainty == 0.0:
        bore = Entry(bore.value, BORE_DOUBT, bore.bounds)
        entries.remarks.append("--bore: taken as true to ± 0.02 mm, as stock is held.")
    _add(found, "bore", bore)
    rough = entries.optional(
        "--roughness", given.roughness or ROUGHNESS_DEFAULT, Kind.length, ROUGHNESSES
    )
    _add(found, "roughness", rough)
    _add(
        found, "coil", entries.optional("--coil-diameter", given.coil_diameter, Kind.length, COILS)
    )
    return found


def _ends(
    entries: Entries, given: Texts, gas: Refrigerant | None, atmosphere: float
) -> dict[str, Entry]:
    """What stands before and behind the tube."""
    found: dict[str, Entry] = {}
    temperatures, pressures = FULL_RANGE, FULL_RANGE
    if gas is not None:
        temperatures = (gas.least_temperature + 1.0, gas.greatest_temperature - 5.0)
        low, high = (float(gas.saturation_pressure(t)) for t in temperatures)
        pressures = (low, high)
    if (given.condensing is None) == (given.inlet_pressure is None):
        entries.fault(
            "--condensing",
            "One of --condensing and --inlet-pressure must be given, and only one.",
            'such as --condensing 45C or --inlet-pressure "150 psig"',
        )
    hot = entries.optional("--condensing", given.condensing, Kind.temperature, temperatures)
    _add(found, "condensing", hot)
    pressure = entries.optional(
        "--inlet-pressure",
        given.inlet_pressure,
        Kind.absolute_pressure,
        pressures,
        atmosphere_Pa=atmosphere,
    )
    _add(found, "inlet_pressure", pressure)
    if (given.subcooling is None) == (given.quality is None):
        entries.fault(
            "--subcooling",
            "One of --subcooling and --quality must be given, and only one.",
            'such as --subcooling 5K, or --quality "5 %" where gas is left',
        )
    kinds = (
        ("subcooling", given.subcooling, Kind.temperature_difference, SUBCOOLINGS),
        ("quality", given.quality, Kind.ratio, QUALITIES),
    )
    for name, text, kind, bounds in kinds:
        _add(found, name, entries.optional(f"--{name}", text, kind, bounds))
    cold = entries.needed("--evaporating", given.evaporating, Kind.temperature, temperatures)
    found["evaporating"] = cold
    return found


def _exchanger(
    entries: Entries, given: Texts, gas: Refrigerant | None, inputs: dict[str, Entry]
) -> str | None:
    """Kind of the exchanger, its numbers into `inputs`; None where there is none."""
    more = {
        "--exchanger-start": given.exchanger_start,
        "--exchanger-kind": given.exchanger_kind,
        "--return-gas": given.return_gas,
        "--suction-bore": given.suction_bore,
        "--outside-diameter": given.outside_diameter,
    }
    if given.exchanger_length is None:
        for name, text in more.items():
            if text is not None:
                entries.fault(
                    name, f"{name} must be left out where no --exchanger-length is given."
                )
        return None
    kind = (given.exchanger_kind or "soldered").strip().lower()
    if kind not in KINDS:
        entries.fault(
            "--exchanger-kind",
            f"--exchanger-kind must be {KINDS[0]}, {KINDS[1]} or {KINDS[2]}; received "
            f"'{given.exchanger_kind}'.",
        )
        kind = KINDS[0]
    joined = entries.optional("--exchanger-length", given.exchanger_length, Kind.length, JOINED)
    _add(inputs, "joined", joined)
    start = entries.optional("--exchanger-start", given.exchanger_start, Kind.length, STARTS)
    if start is None and joined is not None and given.exchanger_start is None:
        spare = inputs["length"].value - joined.value if "length" in inputs else 1.0
        start = Entry(max(0.5 * spare, 0.0))
        shown = format_quantity(start.value, Kind.length, "si")
        entries.remarks.append(f"--exchanger-start: {shown} from the inlet assumed.")
    _add(inputs, "start", start)
    temperatures = (200.0, 360.0) if gas is None else (gas.least_temperature, 360.0)
    gas_in = entries.optional("--return-gas", given.return_gas, Kind.temperature, temperatures)
    _add(inputs, "return_gas", gas_in)
    inputs |= _lines(entries, given, kind)
    return kind


def _lines(entries: Entries, given: Texts, kind: str) -> dict[str, Entry]:
    """Suction line, joint and the outside of a capillary that runs inside it."""
    from coldwright.build.defaults import BOND_CONDUCTANCES  # noqa: PLC0415 (slow to import)
    from coldwright.shop.tubes import tube  # noqa: PLC0415 (reads a file)

    found: dict[str, Entry] = {}
    if given.suction_bore is None:
        found["suction_bore"] = Entry(tube(SUCTION_TUBE).inside_diameter)
    else:
        bore = entries.optional("--suction-bore", given.suction_bore, Kind.length, SUCTION_BORES)
        _add(found, "suction_bore", bore)
    joint = parse_quantity(BOND_CONDUCTANCES[kind], Kind.linear_conductance, field=kind)
    found["joint"] = Entry(joint.value, joint.standard_uncertainty, (0.01, 5000.0))
    if kind == "inside":
        text = given.outside_diameter or OUTSIDE_DEFAULT
        _add(found, "core", entries.optional("--outside-diameter", text, Kind.length, OUTSIDES))
        if given.outside_diameter is None:
            entries.remarks.append(f"--outside-diameter: {OUTSIDE_DEFAULT} assumed.")
    elif given.outside_diameter is not None:
        entries.fault(
            "--outside-diameter",
            "--outside-diameter must be left out where the capillary does not run inside.",
        )
    return found


def _fitting(entries: Entries, given: Texts, gas: Refrigerant, inputs: Mapping[str, Entry]) -> None:
    """Faults between entries that are each allowed."""
    joined, length = inputs.get("joined"), inputs.get("length")
    start = inputs.get("start")
    if joined and length and start and joined.value + start.value > length.value + 1e-9:
        entries.fault(
            "--exchanger-length",
            "--exchanger-length and --exchanger-start together must be at most --length "
            f"{given.length}; they come to {_metres(joined.value + start.value)}.",
        )
    core, bore = inputs.get("core"), inputs.get("suction_bore")
    if core and bore and core.value > 0.7 * bore.value:
        entries.fault(
            "--outside-diameter",
            "--outside-diameter must be at most 70 % of the suction line's bore "
            f"{_metres(bore.value)}; it is {_metres(core.value)}.",
        )
    inside = inputs.get("bore")
    if core and inside and core.value <= inside.value:
        entries.fault("--outside-diameter", "--outside-diameter must be greater than --bore.")
    cold = inputs["evaporating"].value
    hot = saturation_of(gas, {name: entry.value for name, entry in inputs.items()})
    liquid = hot - (inputs["subcooling"].value if "subcooling" in inputs else 0.0)
    if liquid - cold < LEAST_FALL:
        entries.fault(
            "--evaporating",
            f"--evaporating must be at least {LEAST_FALL:g} K colder than what enters the tube, "
            f"{format_quantity(liquid, Kind.temperature, 'si')}; received '{given.evaporating}'.",
        )
    gas_in = inputs.get("return_gas")
    if gas_in and not cold - 0.01 <= gas_in.value < liquid:
        entries.fault(
            "--return-gas",
            "--return-gas must be from the evaporating temperature to less than that of what "
            f"enters the tube, {format_quantity(liquid, Kind.temperature, 'si')}; received "
            f"'{given.return_gas}'.",
        )


def saturation_of(gas: Refrigerant, values: Mapping[str, float]) -> float:
    """Saturation temperature [K] before the tube."""
    try:
        return values["condensing"]
    except KeyError:
        return float(gas.saturation_temperature(values["inlet_pressure"]))


def _metres(value: float) -> str:
    return format_quantity(value, Kind.length, "si")


def _add(found: dict[str, Entry], name: str, entry: Entry | None) -> None:
    """Keep an entry that was given."""
    if entry is not None:
        found[name] = entry
