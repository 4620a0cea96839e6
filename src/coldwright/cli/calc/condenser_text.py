"""How the figures of `calc condenser` read, and what is said beside them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from coldwright.cli.calc.answer import Answer, Data, Row, Writer, cited, noticed
from coldwright.units import Kind, System

if TYPE_CHECKING:
    from coldwright.cli.calc.condenser import Asked

SCATTER = 0.2  # half-width of convection, of its value
DULL = 0.5
CAUTIONS = ("flammable_refrigerant", "test_pressure", "brazing")
WORTH_TELLING = 0.5  # K of saturation temperature
WARM, HOT = 60.0, 70.0  # C, steady ceiling and peak of a small hermetic machine
USUAL_FILM = (5.0, 16.0)  # W/(m2 K)
NAMES = {"sheet": "Tube on a sheet", "wire": "Wires on a tube", "bare": "Bare tube"}
SOURCES = {
    "sheet": ("churchill_chu_1975_plate", "bar_cohen_rohsenow_1984", "duffie_beckman"),
    "wire": ("tagliafico_tanda_1997",),
    "bare": ("churchill_chu_1975_cylinder", "corcione_2005"),
}
INSIDE = (
    "dobson_chato_1998",
    "gnielinski_2013_tube",
    "mueller_steinhagen_heck_1986",
    "bell_2014_coolprop",
    "calc_grey_enclosure",
    "calc_free_convection_scatter",
)


def show(
    data: Data, asked: Asked, for_heat: bool, system: System, remarks: list[str], as_json: bool
) -> None:
    """Print the answer."""
    data = _with_scatter(data, for_heat)
    held = data.pop("gas_held")
    del data["found"]
    write = Writer(data, system, asked.atmosphere_Pa)
    notices = _notices(data, asked, write)
    if held:
        notices.insert(0, _held(write))
    data["notices"] = notices
    notes = [*remarks, *_meaning(data), *(notice["text"] for notice in notices)]
    keys = [*SOURCES[asked.kind], *INSIDE]
    keys += [asked.finish_source] if asked.finish_source else []
    title = (
        f"{NAMES[asked.kind]}, {data['finish'] or 'emissivity as given'}, "
        f"{data['refrigerant']}, in a room of {write.figure('room_C')}"
    )
    cautions = _cautions(asked)
    Answer(title, data, _rows(data, asked, write), notes, cautions, cited(*keys)).show(as_json)


def _held(write: Writer) -> Data:
    text = (
        "Discharge gas as given would be colder than condensing: it is taken half a kelvin above, "
        f"at {write.figure('discharge_gas_C')}."
    )
    return {"code": "gas_held", "severity": "warning", "text": text, "source": "this answer"}


def _cautions(asked: Asked) -> list[Data]:
    """What can hurt the one who builds it."""
    from coldwright.shop.cautions import cautions_for  # noqa: PLC0415 (slow to import)
    from coldwright.shop.refrigerant_safety import safety  # noqa: PLC0415

    found = cautions_for(safety(asked.refrigerant.name).safety_class)
    return [noticed(each) for each in found if each.code in CAUTIONS]


def _with_scatter(data: Data, for_heat: bool) -> Data:
    """`data` with the scatter of free convection added to the half-widths."""
    halves = dict(data.get("half_widths", {}))
    by_air = 1.0 - data["radiation_share"]
    moved = ("condensing_C", "above_room_K") if for_heat else ("heat_W",)
    shares = dict.fromkeys((*moved, "conductance_W_per_K"), by_air)
    shares |= {"film_W_m2K": 1.0}
    shares |= {} if for_heat else {"convection_W": 1.0}
    for key, share in shares.items():
        size = data["above_room_K"] if key == "condensing_C" else data[key]
        halves[key] = math.hypot(halves.get(key, 0.0), SCATTER * share * size)
    for key in ("emissivity", "heat_W") if for_heat else ("emissivity",):
        halves.pop(key, None)
    return {**data, "half_widths": halves}


def _rows(data: Data, asked: Asked, write: Writer) -> list[Row]:
    zones = ", ".join(f"{name} {100 * share:.0f} %" for name, share in data["zone_share"].items())
    steps = ", ".join(
        f"{name} {100 * share:.0f} %"
        for name, share in data["resistance_share"].items()
        if share > 0.005
    )
    rows: list[Row] = [
        ("heat", write.figure("heat_W"), "to the room"),
        ("condensing", write.figure("condensing_C"), ""),
        ("above the room", write.figure("above_room_K"), f"{steps} of the resistance"),
        ("conductance", write.figure("conductance_W_per_K"), "heat over condensing less room"),
        ("by the air", write.figure("convection_W"), ""),
        ("by radiation", write.figure("radiation_W"), f"{100 * data['radiation_share']:.0f} %"),
        ("film of the air", write.figure("film_W_m2K"), "mean of the outside"),
        ("film of radiation", write.figure("radiation_film_W_m2K"), "likewise"),
        ("film inside", write.figure("condensing_film_W_m2K"), "condensing"),
        ("outside", write.figure("surface_C"), f"mean, on {write.figure('area_m2')}"),
    ]
    if asked.kind != "bare":
        what = "sheet" if asked.kind == "sheet" else "wires"
        bond = f"bond {100 * data['bond_efficiency']:.0f} %" if asked.kind == "sheet" else ""
        rows.append((f"efficiency of {what}", _share(data, write, "sheet_efficiency"), bond))
    drop = write.si(data["pressure_drop_Pa"], Kind.pressure_difference)
    worth = write.si(data["pressure_drop_K"], Kind.temperature_difference)
    tube, sheet = (write.si(data[key], Kind.mass) for key in ("tube_kg", "sheet_kg"))
    beside = "" if asked.kind == "bare" else f", {'sheet' if asked.bond else 'wires'} {sheet}"
    rows += [
        ("tube", f"{100 * data['zone_share']['condensing']:.0f} %", f"{zones} of its length"),
        ("runs", write.figure("tube_pitch_m"), "apart, middle to middle"),
        ("volume", write.si(data["volume_cm3"] * 1e-6, Kind.volume), "inside the tube"),
        ("weight", write.si(data["weight_kg"], Kind.mass), f"tube {tube}{beside}"),
        ("pressure drop", drop, f"worth {worth}; bends left out"),
        ("flow", write.si(data["mass_flow_kg_per_h"] / 3600.0, Kind.mass_flow), ""),
    ]
    return rows


def _share(data: Data, write: Writer, key: str) -> str:
    return write.quantity(data[key], data["half_widths"].get(key, 0.0), Kind.ratio)


def _meaning(data: Data) -> list[str]:
    notes = []
    if data["emissivity"] < DULL:
        notes.append("Bright metal gives little by radiation: dull paint (0.9) gives more.")
    cold = "The figures hold for clean still air; a draught in the room takes more."
    notes.append(f"Convection is good to about 20 %. {cold}")
    return notes


def _notices(data: Data, asked: Asked, write: Writer) -> list[Data]:
    """What a mechanic should know before he builds it."""
    from coldwright.shop.tubes import least_bend_radius  # noqa: PLC0415 (reads a file)
    from coldwright.sources import range_notices  # noqa: PLC0415

    found: list[Data] = []

    def add(code: str, severity: str, text: str, source: str) -> None:
        found.append({"code": code, "severity": severity, "text": text, "source": source})

    condensing = data["condensing_C"]
    if condensing > WARM:
        limit = write.si((HOT if condensing > HOT else WARM) + 273.15, Kind.temperature)
        grave = "danger" if condensing > HOT else "warning"
        text = f"Condensing is above {limit}, too hot for a small hermetic machine to live with."
        add("condensing_hot", grave, text, "from memory")
    film = data["film_W_m2K"] + data["radiation_film_W_m2K"]
    if not USUAL_FILM[0] <= film <= USUAL_FILM[1]:
        usual = " to ".join(write.si(each, Kind.film_coefficient) for each in USUAL_FILM)
        text = f"Still air and radiation together usually make {usual}: check the entries."
        add("condenser_film", "info", text, "from memory")
    if data["pressure_drop_K"] > WORTH_TELLING:
        worth = write.si(data["pressure_drop_K"], Kind.temperature_difference)
        text = f"Friction is worth {worth} of condensing temperature, not counted above."
        add("pressure_drop", "info", text, cited("mueller_steinhagen_heck_1986")[0])
    radius = least_bend_radius(asked.tube.outside_diameter)
    if data["tube_pitch_m"] < 2.0 * radius:
        text = (
            f"Runs {write.figure('tube_pitch_m')} apart are closer than a bender turns this tube: "
            f"at least {write.si(2.0 * radius, Kind.length)}, or bulbed returns."
        )
        add("tight_bend", "warning", text, "from memory")
    for notice in range_notices(
        "condensing_film_coefficient",
        mass_flux=data["mass_flux_kg_per_m2s"],
        diameter=asked.tube.inside_diameter,
    ):
        add(notice.code, notice.severity, notice.text, cited(notice.source)[0])
    return found
