"""`calc standing`: the pressure of a stopped system that has come to one temperature."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated

import typer

from coldwright.cli.calc.answer import Answer, Data, Row, Writer, cited, noticed, worked_out
from coldwright.cli.calc.entries import Entries, Entry
from coldwright.cli.calc.options import AltitudeText, ChargeText, Gas, TemperatureText
from coldwright.cli.calc.saturation import PSI
from coldwright.cli.terminal import SHOP, AsJson, Units, faults_shown
from coldwright.errors import InputError
from coldwright.units import Kind, System, parse_quantity

if TYPE_CHECKING:
    from coldwright.fluids.oils import Oil
    from coldwright.fluids.refrigerants import Refrigerant

CHARGES = (1e-3, 5.0)  # kg
VOLUMES = (1e-4, 0.1)  # m3
TEMPERATURES = (233.15, 343.15)  # K
OIL_VOLUMES = (1e-5, 5e-3)  # m3
OIL_MASSES = (0.01, 5.0)  # kg
OIL_DENSITY_AT = 293.15  # K, at which an oil is measured out


def standing(
    refrigerant: Gas,
    charge: ChargeText = None,
    volume: Annotated[
        str | None,
        typer.Option(
            "--volume", metavar="V", help="Inside volume of the whole system without the oil's own."
        ),
    ] = None,
    temperature: TemperatureText = None,
    oil: Annotated[
        str | None, typer.Option("--oil", metavar="KIND", help="mineral, alkylbenzene or ester.")
    ] = None,
    oil_amount: Annotated[
        str | None, typer.Option("--oil-amount", metavar="V", help='Such as "180 mL" or "170 g".')
    ] = None,
    altitude: AltitudeText = None,
    units: Units = SHOP,
    as_json: AsJson = False,
) -> None:
    """Pressure of a stopped system, equalised and all at one temperature; is there liquid left?"""
    entries = Entries()
    with faults_shown(as_json):
        system = entries.system(units)
        atmosphere = entries.atmosphere(altitude)
        gas = entries.refrigerant(refrigerant)
        inputs = {
            "charge": entries.needed("--charge", charge, Kind.mass, CHARGES),
            "volume": entries.needed("--volume", volume, Kind.volume, VOLUMES),
            "temperature": entries.needed(
                "--temperature", temperature, Kind.temperature, TEMPERATURES
            ),
        }
        kept, amounts = _oil(entries, oil, oil_amount)
        fluid = entries.settled(gas)
        if kept is not None:
            doubt = kept.pair(fluid.name).relative_uncertainty
            amounts["solubility_factor"] = Entry(1.0, doubt, (0.05, 3.0))

        def compute(**given: float) -> Data:
            return _figures(fluid, kept, atmosphere, given)

        data = worked_out(compute, {**inputs, **amounts})
        if data["pressure_Pa"] is None:
            full = Writer(data, system).figure("greatest_charge_g")
            entries.fault(
                "--charge",
                f"--charge must be less than {full}, which fills the volume with liquid to the "
                f"last; received '{charge}'.",
            )
            entries.settle()
        _answer(data, system, atmosphere, kept, entries.remarks).show(as_json)


def _oil(
    entries: Entries, kind: str | None, amount: str | None
) -> tuple[Oil | None, dict[str, Entry]]:
    """The oil and its amount [kg], both or neither."""
    if kind is None and amount is None:
        return None, {}
    if kind is None or amount is None:
        missing, there = ("--oil", "--oil-amount") if kind is None else ("--oil-amount", "--oil")
        entries.fault(
            missing, f"{missing} must be given with {there}.", "--oil ester --oil-amount 180mL"
        )
    from coldwright.fluids.oils import oil  # noqa: PLC0415 (slow to import)

    found = None
    if kind is not None:
        try:
            found = oil(kind)
        except InputError as error:
            for each in error.faults:
                entries.fault("--oil", each.message, each.hint)
    if amount is None:
        return found, {}
    try:
        parse_quantity(amount, Kind.mass, field="--oil-amount")
    except InputError:
        entry = entries.optional("--oil-amount", amount, Kind.volume, OIL_VOLUMES)
        density = 0.0 if found is None else float(found.density(OIL_DENSITY_AT))
        if entry is None:
            return found, {}
        low, high = entry.bounds
        return found, {
            "oil_mass": Entry(
                entry.value * density,
                entry.standard_uncertainty * density,
                (low * density, high * density),
            )
        }
    entry = entries.optional("--oil-amount", amount, Kind.mass, OIL_MASSES)
    return found, {} if entry is None else {"oil_mass": entry}


def _figures(
    fluid: Refrigerant, kept: Oil | None, atmosphere: float, given: Mapping[str, float]
) -> Data:
    from coldwright.parts.standing import stand  # noqa: PLC0415 (slow to import)

    state = stand(
        fluid,
        given["charge"],
        given["volume"],
        given["temperature"],
        kept,
        given.get("oil_mass", 0.0),
        given.get("solubility_factor", 1.0),
    )
    fits = given["charge"] <= float(state.greatest_charge)
    pressure = float(state.pressure)
    return {
        "refrigerant": fluid.name,
        "pressure_Pa": pressure if fits else None,
        "pressure_psig": (pressure - atmosphere) / PSI if fits else None,
        "saturation_pressure_Pa": float(state.saturation_pressure),
        "all_vapour": bool(state.all_vapour),
        "vapour_g": float(state.vapour_mass) * 1e3 if fits else None,
        "liquid_g": float(state.liquid_mass) * 1e3 if fits else None,
        "dissolved_g": float(state.dissolved_mass) * 1e3 if fits else None,
        "greatest_all_vapour_charge_g": float(state.greatest_all_vapour_charge) * 1e3,
        "greatest_charge_g": float(state.greatest_charge) * 1e3,
        "temperature_C": given["temperature"] - 273.15,
    }


def _answer(
    data: Data, units: System, atmosphere: float, kept: Oil | None, remarks: list[str]
) -> Answer:
    from coldwright.shop.cautions import cautions_for  # noqa: PLC0415 (slow to import)
    from coldwright.shop.refrigerant_safety import safety  # noqa: PLC0415

    write = Writer(data, units, atmosphere)
    gauge = write.si(data["pressure_Pa"] - atmosphere, Kind.gauge_pressure)
    chart = write.figure("saturation_pressure_Pa")
    rows: list[Row] = [
        ("pressure", write.figure("pressure_Pa"), gauge if units == "si" else ""),
        ("chart at that temperature", chart, "with liquid present"),
        ("as gas", write.figure("vapour_g"), ""),
        ("as liquid", write.figure("liquid_g"), ""),
        ("in the oil", write.figure("dissolved_g"), "" if kept else "no oil was given"),
        (
            "all vapour up to",
            write.figure("greatest_all_vapour_charge_g"),
            "a greater charge leaves liquid",
        ),
    ]
    notes = [*remarks, *_meaning(data, chart, write.figure("pressure_Pa"))]
    sources = ["bell_2014_coolprop", "calc_settled_mass", "icao_1993_atmosphere"]
    if kept is not None:
        pair = kept.pair(data["refrigerant"])
        sources += [pair.source, kept.kind.source]
        fills = "" if pair.suits else "; the trade does not fill this pair"
        notes.append(f"{data['refrigerant']} in {kept.kind.name} oil {pair.miscibility}{fills}.")
    warned = ("local_law", "no_venting", "flammable_refrigerant")
    cautions = [
        noticed(each)
        for each in cautions_for(safety(data["refrigerant"]).safety_class)
        if each.code in warned
    ]
    title = f"{data['refrigerant']}, stopped and settled at {write.figure('temperature_C')}"
    return Answer(title, data, rows, notes, cautions, cited(*sources))


def _meaning(data: Data, chart: str, pressure: str) -> list[str]:
    """What the figures prove and what they do not."""
    settled = (
        "This holds once both sides have equalised and every part is at one temperature; the oil "
        "takes hours to fill or empty."
    )
    above = f"A settled pressure above the chart's {chart} is proof of air or another gas."
    if data["all_vapour"]:
        return [
            "The whole charge is vapour (or in the oil): no liquid lies anywhere, so a pressure "
            "below the chart is no proof of a leak.",
            f"{above} Less than that much air hides below the chart.",
            f"While all is vapour the pressure tells the charge: well below {pressure} less is "
            "left than was stated, well above it there is more, or another gas.",
            settled,
        ]
    return [
        "Liquid is left, so the pressure is the chart's and tells nothing of how much is left.",
        f"{above} A settled pressure below it means that less is left than was stated, or that a "
        "part is colder.",
        settled,
    ]
