"""How the figures of `calc surface` read, and what is said beside them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from coldwright.cli.calc.answer import Answer, Data, Row, Writer, cited
from coldwright.units import Kind, System

if TYPE_CHECKING:
    from coldwright.cli.calc.surface import Asked

SCATTER = 0.2  # half-width of convection, of its value
DULL = 0.5  # emissivity below which a coat of paint or frost brings more heat
SOURCES = {
    "vertical-plate": ("churchill_chu_1975_plate",),
    "vertical-cylinder": ("churchill_chu_1975_plate", "raithby_hollands_1998"),
    "horizontal-tube": ("churchill_chu_1975_cylinder",),
    "box": ("churchill_chu_1975_plate",),
}


def show(data: Data, asked: Asked, system: System, remarks: list[str], as_json: bool) -> None:
    """Print the answer."""
    from coldwright.cli.calc.surface_parts import range_texts  # noqa: PLC0415 (slow to import)

    data = _with_scatter(data)
    values = {
        name: data[key] + 273.15
        for name, key in (("metal", "surface_temperature_C"), ("air", "air_C"))
    }
    ranges = range_texts(asked, data.pop("sizes"), values)
    write = Writer(data, system)
    notes = [*remarks, *_meaning(data, asked, write), *ranges]
    sources = _sources(asked, bool(data["frosted"]))
    Answer(_title(data, asked, write), data, _rows(data, write), notes, sources=sources).show(
        as_json
    )


def _with_scatter(data: Data) -> Data:
    """`data` with the scatter of free-convection correlations added to the half-widths."""
    halves = dict(data.get("half_widths", {}))
    both = abs(data["film_W_m2K"]) + abs(data["radiation_film_W_m2K"])
    by_air = data["film_W_m2K"] / both if both else 0.0
    shares = {
        "convection_W": 1.0,
        "film_W_m2K": 1.0,
        "conductance_W_per_K": by_air,
    }
    for key in ("heat_W", "heat_W_per_m2"):
        shares[key] = data["convection_W"] / data["heat_W"] if data["heat_W"] else 0.0
    for key, share in shares.items():
        half = math.hypot(halves.get(key, 0.0), SCATTER * share * data[key])
        if half > 0.0:
            halves[key] = half
    return {**data, "half_widths": halves}


def _title(data: Data, asked: Asked, write: Writer) -> str:
    name = asked.shape.replace("-", " ").capitalize()
    skin = data["finish"] or f"emissivity {data['emissivity']:.2g}"
    metal, air = write.figure("surface_temperature_C"), write.figure("air_C")
    return f"{name}, {skin}, metal at {metal} in air of {air}"


def _rows(data: Data, write: Writer) -> list[Row]:
    out = data["heat_W"] < 0.0
    rows: list[Row] = [
        ("heat, clean", write.figure("heat_W"), "out of the metal" if out else "into the metal"),
        ("by the air", write.figure("convection_W"), ""),
        ("by radiation", write.figure("radiation_W"), f"seen at {write.figure('liner_C')}"),
        ("conductance", write.figure("conductance_W_per_K"), "metal to air and what it faces"),
        ("heat by area", write.figure("heat_W_per_m2"), ""),
        ("film of the air", write.figure("film_W_m2K"), "on the area that counts"),
        ("film of radiation", write.figure("radiation_film_W_m2K"), "likewise"),
        ("area in the air", write.figure("area_m2"), "fins included" if _finned(data) else ""),
    ]
    if _finned(data):
        efficiency = write.quantity(
            data["fin_efficiency"],
            data["half_widths"].get("fin_efficiency", 0.0),
            Kind.ratio,
        )
        rows.append(("fin efficiency", efficiency, "with their joint"))
    for one in data["frosted"].values():
        share = one["heat_W"] / data["heat_W"] if data["heat_W"] else 1.0
        remark = f"{100.0 * share:.0f} % of clean" + (
            f", fins {100.0 * one['fin_efficiency']:.0f} %" if _finned(data) else ""
        )
        rows.append(
            (f"with {_thick(one)} of frost", write.si(one["heat_W"], Kind.heat_flow), remark)
        )
    return rows


def _thick(one: Data) -> str:
    return f"{1e3 * one['frost_m']:g} mm"  # in inches it is no shop size


def _finned(data: Data) -> bool:
    return data["fin_efficiency"] is not None


def _meaning(data: Data, asked: Asked, write: Writer) -> list[str]:
    notes = []
    if data["heat_W"] == 0.0:
        notes.append("No difference of temperature, no heat.")
    elif data["liner_C"] == data["air_C"]:
        share = data["radiation_W"] / data["heat_W"]
        notes.append(f"Radiation brings {100.0 * share:.0f} % of it.")
    if data["emissivity"] < DULL:
        notes.append(
            "Bright metal takes little by radiation: a dull coat (0.9) or thin frost brings more."
        )
    if not data["frosted"]:
        notes.append("No frost: the metal is not below freezing.")
    elif asked.fins is not None:
        notes.append(_gap(data, write))
    notes.append(
        "Convection is good to about 20 %; moving air brings more, neighbours closer than three "
        "diameters or a wall close behind bring less. Heat of the moisture that settles is left "
        "out."
    )
    return [note for note in notes if note]


def _gap(data: Data, write: Writer) -> str:
    """What the thickest frost leaves of the gaps."""
    thickest = max(data["frosted"].values(), key=lambda one: float(one["frost_m"]))
    left = data["fin_gap_m"] - 2.0 * thickest["frost_m"]
    gap, deep = write.figure("fin_gap_m"), _thick(thickest)
    if left <= 0.0:
        return f"{deep} of frost fills the gaps of {gap} between the fins: too close for this box."
    return f"The gaps between the fins are {gap}; {deep} of frost leaves " + (
        f"{write.si(left, Kind.length)}."
    )


def _sources(asked: Asked, frosted: bool) -> list[str]:
    keys = [*SOURCES[asked.shape], "calc_grey_enclosure", "calc_free_convection_scatter"]
    if asked.finish_source:
        keys.append(asked.finish_source)
    if asked.shape in ("vertical-cylinder", "box") and asked.ends != "none":
        keys += ["lloyd_moran_1974", "mcadams_1954"]
    if asked.fins is not None:
        keys += ["bar_cohen_rohsenow_1984", "harper_brown_1922", "shop_iso_10456"]
    if frosted:
        keys.append("yonko_sepsy_1967")
    return cited(*keys)
