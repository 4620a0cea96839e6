"""Defaults that follow from other entries: the gasket from the door, the chimney from the sheet."""

from __future__ import annotations

import math

from coldwright.build.completion import Completion
from coldwright.build.defaults import MEMORY, PRACTICE
from coldwright.build.knob import fill_from_knob
from coldwright.build.paths import Path
from coldwright.build.schema.circuit import FIND

CABINET: Path = ("cabinet",)
INSIDE = tuple(("cabinet", f"inside_{side}") for side in ("width", "height", "depth"))
SITE: Path = ("site",)
NONE = "assumed, no source"
# A cold side that keeps food under this air temperature [K] is taken to carry frost.
FROSTED_BELOW = 277.65


def written(value: float, unit: str, width: str = "") -> str:
    """Return `value` with its unit and the width after ± as a maker would write it."""
    return f"{value:.6g} {unit}".strip() + (f" ± {width}" if width else "")


def fill_site(build: Completion) -> None:
    """The room's range and the mains; socket and compressor stand in for each other."""
    room = build.number((*SITE, "room_temperature"))
    for which, step in (("low", -5.0), ("high", 7.0)):
        value = None if room is None else written(room - 273.15 + step, "°C", "3 K")
        source = f"usual room {step:+.0f} K; {PRACTICE}"
        build.fill((*SITE, f"room_temperature_{which}"), value, source)
    for key, usual in (("voltage", "230 V"), ("frequency", "50 Hz")):
        machine: Path = ("compressor", key)
        mains: Path = (*SITE, f"mains_{key}")
        plate = build.text(machine)
        build.fill(mains, plate or usual, "compressor's plate" if plate else PRACTICE)
        build.fill(machine, build.text(mains) or None, "mains")


def fill_faces(build: Completion) -> None:
    """The faces that the file leaves out, and what the written ones adjoin."""
    cabinet = build.table(CABINET)
    faces = cabinet.setdefault("faces", []) if cabinet is not None else None
    if not isinstance(faces, list):
        return
    path: Path = (*CABINET, "faces")
    listed = list(build.items(path))
    names = {build.text((*item, "name")) for item in listed}
    for name in ("top", "bottom", "left", "right", "front", "back"):
        if name not in names:
            faces.append({"name": name})
    for item in build.items(path):
        back = build.text((*item, "name")) == "back"
        adjoining = "condenser" if back else "room"
        build.fill((*item, "adjoining"), adjoining, PRACTICE)


def fill_cabinet(build: Completion) -> None:
    """Door, openings and warm goods out of the inside size."""
    inside = build.numbers(*INSIDE)
    lid = build.text((*CABINET, "door")) == "lid"
    width, height, depth = inside or (math.nan, math.nan, math.nan)
    # A lid's edge lies level: its gaps differ in height by no more than warp and joints.
    rise, rise_width, rise_source = (
        (min(0.05, height), "100 %", "a lid's edge lies level")
        if lid
        else (height, "30 %", "inside height")
    )
    rows = (
        ("gasket.length", 2.0 * (width + (depth if lid else height)), "m", "5 %", "door's edge"),
        ("leakage_height", rise, "m", rise_width, rise_source),
        ("drain.depth", height, "m", "10 %", "inside height"),
        ("air_path.lower_opening_area", 1e4 * 0.12 * width * depth, "cm2", "50 %", "12 % of floor"),
        ("air_path.upper_opening_area", 1e4 * 0.12 * width * depth, "cm2", "50 %", "12 % of floor"),
        ("air_path.height_difference", 0.6 * height, "m", "30 %", "60 % of inside height"),
    )
    for keys, value, unit, width_text, source in rows:
        text = written(value, unit, width_text) if inside else None
        build.fill((*CABINET, *keys.split(".")), text, f"{source}; {PRACTICE}")
    room = build.text((*SITE, "room_temperature")) or None
    build.fill((*CABINET, "contents", "warm_load", "temperature"), room, "room temperature")


def fill_cold_side(build: Completion) -> None:
    """Brine's basis and the runs of the tube; what hangs on a vessel is in `vessel_defaults.py`."""
    brine: Path = ("cold_side", "brine")
    kind = build.text((*brine, "kind"))
    if kind == "water":
        build.fill((*brine, "fraction"), "0 % ± 0 %", "plain water", silent=True)
    build.fill((*brine, "basis"), "mass" if "chloride" in kind else "volume", PRACTICE)
    hold: Path = ("cold_side", "holdover")
    if build.has((*hold, "fraction")):
        salt = "chloride" in build.text((*hold, "filling"))
        build.fill((*hold, "basis"), "mass" if salt else "volume", PRACTICE)
    target = build.number(("targets", "air_temperature"))
    frost = None
    if target is not None:
        frost = "0.5 mm ± 100 %" if target < FROSTED_BELOW else "0 mm ± 0 mm"
    build.fill(("cold_side", "frost"), frost, "by the target, a light coat under 4.5 °C; " + NONE)
    build.fill(("cold_side", "tube", "pitch"), _evaporator_pitch(build), f"even runs; {PRACTICE}")


def _evaporator_pitch(build: Completion) -> str | None:
    """Runs spread evenly over the plate or down the coil; a bare tube at four diameters."""
    kind = build.text(("cold_side", "kind"))
    tube = build.numbers(("cold_side", "tube", "length"), ("cold_side", "tube", "outside_diameter"))
    if tube is None:
        return None
    length, outside = tube
    pitch = 4.0 * outside
    if kind == "plate":
        plate: Path = ("cold_side", "plate")
        size = build.numbers((*plate, "width"), (*plate, "height"))
        if size is None:
            return None
        pitch = size[0] * size[1] / length
    elif kind in ("vessel", "holdover"):
        vessel: Path = ("cold_side", "vessel")
        size = build.numbers((*vessel, "height"), (*vessel, "coil_diameter"))
        if size is None:
            return None
        pitch = 0.8 * size[0] * math.pi * size[1] / length
    return written(min(max(1e3 * pitch, 1.0), 1000.0), "mm", "20 %")


def fill_compressor(build: Completion) -> None:
    """Rating conditions that a data sheet leaves unsaid."""
    path: Path = ("compressor",)
    for item in build.items((*path, "rated_points")):
        if not build.has((*item, "subcooling")):
            build.fill((*item, "liquid_temperature"), "32.2 °C ± 3 K", MEMORY)
    sheet: Path = (*path, "map")
    if build.has(sheet):
        if not build.has((*sheet, "superheat")):
            build.fill((*sheet, "return_gas_temperature"), "32.2 °C ± 3 K", MEMORY)
        if not build.has((*sheet, "subcooling")):
            build.fill((*sheet, "liquid_temperature"), "32.2 °C ± 3 K", MEMORY)
    if not build.has((*path, "rated_points")) and not build.has(sheet):
        build.fill((*path, "rated_refrigerant"), "R134a", f"class is known for it; {PRACTICE}")


def fill_condenser(build: Completion) -> None:
    """Runs spread evenly over the sheet; the chimney as high as the sheet."""
    path: Path = ("condenser",)
    size = build.numbers((*path, "sheet_width"), (*path, "sheet_height"), (*path, "tube", "length"))
    pitch = None if size is None else written(1e3 * size[0] * size[1] / size[2], "mm", "10 %")
    build.fill((*path, "tube", "pitch"), pitch, "sheet over tube length")
    if build.text((*path, "kind")) == "sheet":
        height = build.text((*path, "sheet_height")) or None
        build.fill((*path, "chimney_height"), height, "height of the sheet")


def fill_return_exchanger(build: Completion) -> None:
    """Kind, start and the suction line that has to carry it."""
    path: Path = ("return_exchanger",)
    if build.has((*path, "length")) and not build.has((*path, "kind")):
        build.fill((*path, "kind"), "soldered", PRACTICE)
    elif not build.has((*path, "kind")):
        build.fill((*path, "kind"), "none", PRACTICE)
    none = build.text((*path, "kind")) == "none"
    if none:
        build.fill((*path, "length"), "0 m ± 0 m", "no exchanger", silent=True)
    length = build.number((*path, "length"))
    capillary = build.number(("capillary", "length"))
    spare = None if length is None or capillary is None else max(0.5 * (capillary - length), 0.0)
    start = "0 m ± 0 m" if none else None if spare is None else written(spare, "m", "50 %")
    build.fill((*path, "start"), start, f"half of the free capillary; {PRACTICE}", silent=none)
    run = None if length is None else written(length + 0.6, "m", "30 %")
    build.fill(("suction_line", "length"), run, f"exchanger and 0.6 m; {PRACTICE}")


def fill_thermostat(build: Completion) -> None:
    """Bulb by the kind of cold side; with no word of it, air at the target within 1 K."""
    path: Path = ("thermostat",)
    target = build.number(("targets", "air_temperature"))
    keys = ("bulb", "cut_in", "cut_out")
    if not any(build.has((*path, key)) for key in keys):
        build.fill((*path, "bulb"), "air", PRACTICE)
    kind = build.text(("cold_side", "kind"))
    bulb = {"vessel": "vessel well", "holdover": "vessel well", "plate": "plate"}.get(kind, "air")
    build.fill((*path, "bulb"), bulb, PRACTICE)
    fill_from_knob(build)
    if build.text((*path, "bulb")) == "air":
        for key, step in (("cut_in", 1.0), ("cut_out", -1.0)):
            value = None if target is None else written(target - 273.15 + step, "°C", "1.5 K")
            build.fill((*path, key), value, f"target {step:+.0f} K; {PRACTICE}")


def fill_charge(build: Completion) -> None:
    """No charge, or the word `find`: the program finds it."""
    charge = build.table(("refrigerant",))
    if charge is None:
        return
    if charge.get("fill") == FIND:
        del charge["fill"]
    elif "fill" not in charge:
        build.sources["refrigerant", "fill"] = "no charge is given, so it is found"


COMPUTED = (
    fill_site,
    fill_faces,
    fill_cabinet,
    fill_cold_side,
    fill_compressor,
    fill_condenser,
    fill_return_exchanger,
    fill_thermostat,
    fill_charge,
)
