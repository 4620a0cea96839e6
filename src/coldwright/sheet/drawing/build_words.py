"""What the parts of a build are called and how large they are, in words for labels and titles."""

from __future__ import annotations

from coldwright.sheet.drawing.cold_geometry import PlateSize, TubeSize, VesselSize
from coldwright.sheet.drawing.geometry import Geometry
from coldwright.sheet.drawing.readings import Readings
from coldwright.shop.refrigerant_safety import safety
from coldwright.units import Kind

TIMES = "\u00a0\u00d7 "


def cold_side_name(geometry: Geometry, readings: Readings) -> str:
    """What cools the air, in two words."""
    cold = readings.build.cold_side
    if cold.kind == "holdover":
        return "holdover tank"
    return {"vessel": "brine vessel", "plate": "cold plate"}.get(
        cold.kind, "tube round the walls" if geometry.cold.at_walls else "bare tube"
    )


def cold_side_size(geometry: Geometry, readings: Readings) -> str:
    """Its outside sizes and its tube."""
    size, length = geometry.cold.size, readings.length
    tube = readings.build.cold_side.tube
    laid = f"{readings.run(tube.length.value)} of {length(size.tube)} tube"
    if isinstance(size, PlateSize):
        return f"{length(size.across)}{TIMES}{length(size.body.height)}, {laid}"
    if isinstance(size, TubeSize):
        return f"{laid}, {len(size.places)} cuts" if not size.loops else laid
    if size.round:
        across = f"Ø\u00a0{length(size.across)}{TIMES}{length(size.body.height)}"
    else:
        across = (
            f"{length(size.across)}{TIMES}{length(size.body.width)}{TIMES}"
            f"{length(size.body.height)}"
        )
    fins = f", {size.fins} fins of {length(size.fin_projection)}" if size.fins else ""
    turns = "turns" if size.coil_diameter > 0.0 else "runs"
    return f"{across}{fins}; {len(size.coil)} {turns}, {laid}"


def surface_words(readings: Readings) -> str:
    """The state of the cold surface: its finish and frost."""
    cold = readings.build.cold_side
    frost = cold.frost.value
    if frost > 0.0:
        return f"{cold.surface}, {readings.write(frost, Kind.length)} of frost"
    return cold.surface


def wall_words(geometry: Geometry, readings: Readings, face: str) -> str:
    """The layers of a wall from the inside out."""
    return ", ".join(
        f"{layer.material} {readings.length(layer.thickness)}" for layer in geometry.walls[face]
    )


def condenser_words(geometry: Geometry, readings: Readings) -> str:
    """Size, runs and gap of the condenser."""
    condenser, length = geometry.condenser, readings.length
    what = {"sheet": "sheet", "wire": "wires on tube", "bare": "bare tube"}[condenser.kind]
    runs = "1 run" if condenser.runs.count == 1 else f"{condenser.runs.count} runs"
    gap = condenser.sheet.left - geometry.outside.right
    return (
        f"{what} {length(condenser.width)}{TIMES}{length(condenser.sheet.height)}, {runs} at "
        f"{length(condenser.runs.pitch)}, {length(gap)} behind the back"
    )


def compressor_words(readings: Readings) -> str:
    """What the compressor is known by."""
    section = readings.build.compressor
    swept = section.displacement
    size = readings.write(swept.value * 1e6, Kind.number) if swept else ""
    known = [section.class_name, f"{size}\u00a0cm³" if size else ""]
    return ", ".join(each for each in known if each) or "hermetic"


def capillary_words(readings: Readings) -> str:
    """Bore and length of the capillary."""
    section = readings.build.capillary
    bore = readings.write(section.bore.value, Kind.length)
    return f"{bore}{TIMES}{readings.run(section.length.value)}"


def joint_words(geometry: Geometry, readings: Readings) -> str:
    """How far and how the capillary is joined to the return line."""
    lines = geometry.lines
    if lines.joined <= 0.0:
        return "capillary not joined to it"
    how = {"inside": "capillary inside it", "wrapped": "capillary wrapped on it"}.get(
        lines.joint, "capillary soldered to it"
    )
    joined = readings.run(lines.joined)
    return f"{how} over {joined} of {readings.run(lines.suction_length)}"


def charge_words(readings: Readings) -> str:
    """Gas and charge; of one that burns its safety class (ISO 817)."""
    name = readings.build.refrigerant.name
    row = safety(name)
    name += f" ({row.safety_class}, burns)" if row.flammable else ""
    grams = readings.get("charge", "fill_g")
    if grams is not None:
        found = ", found" if readings.get("charge", "found") else ""
        return f"{readings.write(grams / 1e3, Kind.mass)} of {name}{found}"
    fill = readings.build.refrigerant.fill
    if fill is None:
        return f"{name}, charge to be found"
    return f"{readings.write(fill.value, Kind.mass)} of {name}"


def goods_words(readings: Readings) -> str:
    """What is kept."""
    mass = readings.build.cabinet.contents.mass.value
    return f"{readings.write(mass, Kind.mass)} of {readings.build.targets.use}"


def state_words(readings: Readings) -> str:
    """Which box it is, and what it does."""
    build = readings.build
    name = f"{build.name}, {build.revision or 'as built'}"
    air, room = (
        readings.degrees(readings.cabinet("air_C")),
        readings.degrees(readings.get("room_C")),
    )
    if not readings.known:
        return f"{name}: nothing worked out yet"
    if not air:
        return f"{name}: no balance ({readings.machine('reason') or 'none found'})"
    if not readings.cycling:
        return f"{name}: {air} in a room of {room}, never stopping"
    share = readings.get("cycling", "run_fraction")
    runs = f", running {readings.write(share, Kind.ratio, 0)} of the time" if share else ""
    return f"{name}: holding {air} in a room of {room}{runs}"


def vessel_of(geometry: Geometry) -> VesselSize | None:
    """The vessel or tank, None for the other kinds."""
    size = geometry.cold.size
    return size if isinstance(size, VesselSize) else None
