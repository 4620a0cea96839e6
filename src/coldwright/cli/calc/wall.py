"""`calc wall`: what a layered wall or box lets through, and whether its outside sweats."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated

import typer

from coldwright.cli.calc.answer import COVERAGE, ICE_POINT, Data, worked_out
from coldwright.cli.calc.entries import MISSING, Entries, Entry
from coldwright.cli.calc.wall_layers import LayerEntry, read_layers
from coldwright.cli.calc.wall_text import show
from coldwright.cli.terminal import SHOP, AsJson, Units, faults_shown
from coldwright.units import Kind

TEMPERATURES = (213.15, 353.15)  # K
ROOMS = (233.15, 333.15)  # K, where the humidity of air is known
HUMIDITIES = (0.01, 1.0)
AREAS = (1e-4, 100.0)  # m2
SIZES = (0.02, 10.0)  # m
FILM_DOUBT = 0.15  # standard, of both films: corners and things close by calm the air


@dataclass(frozen=True)
class AskedWall:
    """Everything but the numbers: the layers' names, and whether it is a whole box."""

    layers: tuple[LayerEntry, ...]
    is_box: bool
    humid: bool


def wall(
    layer: Annotated[
        list[str] | None,
        typer.Option(
            "--layer",
            metavar="L",
            help='From the inside out, once each: "oak 22mm" or "cork=0.045 W/(m K) 60mm"; '
            '"slab cork 75mm, wet" or "still air gap 20mm, bright foil" say its state.',
        ),
    ] = None,
    area: Annotated[
        str | None, typer.Option("--area", metavar="A", help="Of a flat wall; 1 m2.")
    ] = None,
    width: Annotated[
        str | None, typer.Option("--width", metavar="L", help="Inside, of a whole box.")
    ] = None,
    height: Annotated[str | None, typer.Option("--height", metavar="L", help="Likewise.")] = None,
    depth: Annotated[str | None, typer.Option("--depth", metavar="L", help="Likewise.")] = None,
    inside: Annotated[
        str | None, typer.Option("--inside", metavar="T", help="Air inside, such as 2C.")
    ] = None,
    room: Annotated[
        str | None, typer.Option("--room", metavar="T", help="Air of the room, such as 25C.")
    ] = None,
    humidity: Annotated[
        str | None,
        typer.Option("--humidity", metavar="RH", help='Of the room, such as "60 %".'),
    ] = None,
    units: Units = SHOP,
    as_json: AsJson = False,
) -> None:
    """Heat through a layered wall or a whole box, skin temperature, sweating, age and wet."""
    entries = Entries()
    with faults_shown(as_json):
        system = entries.system(units)
        layers, inputs = read_layers(entries, layer or [])
        sizes = _sizes(entries, area, {"width": width, "height": height, "depth": depth})
        inputs |= sizes
        inputs["inside"] = entries.needed("--inside", inside, Kind.temperature, TEMPERATURES)
        inputs["room"] = entries.needed("--room", room, Kind.temperature, ROOMS)
        moist = entries.optional("--humidity", humidity, Kind.ratio, HUMIDITIES)
        if moist is not None:
            inputs["humidity"] = moist
        entries.settle()
        inputs["film"] = Entry(1.0, FILM_DOUBT, (0.4, 1.6))
        asked = AskedWall(layers, "width" in sizes, moist is not None)

        def compute(**values: float) -> Data:
            return figures(asked, values)

        data = worked_out(compute, inputs)
        values = {name: entry.value for name, entry in inputs.items()}
        data["layers"] = layer_rows(asked, values)
        data["declined"] = declined(asked, values)
        show(data, asked, system, entries.remarks, as_json)


def _sizes(entries: Entries, area: str | None, sides: Mapping[str, str | None]) -> dict[str, Entry]:
    """The area of a flat wall, or the three inside sizes of a box."""
    given = [name for name, text in sides.items() if text is not None]
    if not given:
        return {
            "area": entries.optional("--area", area or "1 m2", Kind.area, AREAS) or MISSING,
        }
    if area is not None:
        entries.fault("--area", f"--area must be left out where --{given[0]} is given.")
    found = {}
    for name, text in sides.items():
        if text is None:
            entries.fault(
                f"--{name}", f"--{name} must be given with --{given[0]}: a box has all three."
            )
        entry = entries.optional(f"--{name}", text, Kind.length, SIZES)
        if entry is not None:
            found[name] = entry
    return found or {"width": MISSING}


def figures(asked: AskedWall, values: Mapping[str, float]) -> Data:
    """The figures of the wall dry and as given."""
    from coldwright.cli.calc.wall_parts import answer_of  # noqa: PLC0415 (slow to import)

    found = answer_of(asked, values)
    skin = float(found.outer_skin)
    data: Data = {
        "conductance_W_per_K": float(found.conductance),
        "transmittance_W_m2K": float(found.transmittance),
        "heat_W": float(found.heat),
        "heat_W_per_m2": float(found.heat / found.area),
        "area_m2": float(found.area),
        "resistance_m2K_per_W": float(sum(found.layer_resistances)),
        "outer_skin_C": skin - ICE_POINT,
        "coldest_skin_C": float(found.coldest_skin) - ICE_POINT,
        "inner_skin_C": float(found.inner_skin) - ICE_POINT,
        "inside_C": values["inside"] - ICE_POINT,
        "room_C": values["room"] - ICE_POINT,
    }
    return {**data, **_moisture(float(found.coldest_skin), values)}


def _moisture(skin: float, values: Mapping[str, float]) -> Data:
    """Dew point, margin of the coldest skin, and the humidity at which it begins to sweat."""
    from coldwright.fluids import moist_air  # noqa: PLC0415 (slow to import)

    room = values["room"]
    limit = float(moist_air.saturation_pressure(skin) / moist_air.saturation_pressure(room))
    data: Data = {"sweats_above_percent": 100.0 * min(limit, 1.0)}
    if "humidity" not in values:
        return {**data, "dew_point_C": None, "dew_margin_K": None, "sweats": None}
    dew = float(moist_air.dew_point(room, values["humidity"]))
    return {
        **data,
        "dew_point_C": dew - ICE_POINT,
        "dew_margin_K": skin - dew,
        "sweats": skin < dew,
    }


def layer_rows(asked: AskedWall, values: Mapping[str, float]) -> list[Data]:
    """The layers, inside first, each with its resistance and the temperature of its outer side."""
    from coldwright.cli.calc.wall_parts import answer_of  # noqa: PLC0415 (slow to import)

    found = answer_of(asked, values)
    whole = float(sum(found.layer_resistances))
    rows = zip(asked.layers, found.layer_resistances, found.layer_outsides, strict=True)
    return [
        {
            "name": layer.name,
            "thickness_m": values[f"thickness_{index}"],
            "conductivity_W_mK": values[f"conductivity_{index}"],
            "resistance_m2K_per_W": float(resistance),
            "share_percent": 100.0 * float(resistance) / whole,
            "outer_side_C": float(outer) - ICE_POINT,
            "source": layer.source_text,
        }
        for index, (layer, resistance, outer) in enumerate(rows)
    ]


def declined(asked: AskedWall, values: Mapping[str, float]) -> dict[str, Data]:
    """The wall with all its insulation aged, and all of it wet; half-widths of 95 % intervals."""
    from coldwright.shop.insulation_decline import STATES  # noqa: PLC0415 (reads a file)

    found: dict[str, Data] = {}
    for state in STATES:
        factors = {
            f"factor_{index}": Entry(*layer.decline.factor(state), (1.0, 10.0))
            for index, layer in enumerate(asked.layers)
            if layer.decline is not None
        }
        if not any(entry.value > 1.0 for entry in factors.values()):
            continue

        def compute(**given: float) -> Data:
            worse = dict(values)
            for name, factor in given.items():
                worse[name.replace("factor", "conductivity")] *= factor
            data = figures(asked, worse)
            return {key: data[key] for key in ("conductance_W_per_K", "heat_W", "coldest_skin_C")}

        data = worked_out(compute, factors)
        halves = data.pop("half_widths", {})
        found[state] = {
            **data,
            "heat_half_width_W": halves.get("heat_W", 0.0),
            "factors": {
                asked.layers[int(name.split("_")[1])].name: {
                    "factor": entry.value,
                    "half_width": COVERAGE * entry.standard_uncertainty,
                }
                for name, entry in factors.items()
            },
        }
    return found
