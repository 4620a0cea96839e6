"""What is written beside the section, and what each note points at."""

from __future__ import annotations

from collections.abc import Iterator

from coldwright.sheet.drawing.air_parts import air_ways
from coldwright.sheet.drawing.build_words import (
    capillary_words,
    charge_words,
    cold_side_name,
    cold_side_size,
    compressor_words,
    condenser_words,
    joint_words,
    surface_words,
    vessel_of,
    wall_words,
)
from coldwright.sheet.drawing.cabinet_parts import goods
from coldwright.sheet.drawing.cold_parts import bulb_place
from coldwright.sheet.drawing.hot_parts import tube_place
from coldwright.sheet.drawing.labels import Note
from coldwright.sheet.drawing.line_parts import Ways
from coldwright.sheet.drawing.readings import SECONDS_PER_HOUR
from coldwright.sheet.drawing.svg import Point
from coldwright.sheet.drawing.view import View
from coldwright.units import Kind


def section_notes(view: View, ways: Ways, *, few: bool) -> list[Note]:
    """The notes of the section; `few`: only the main ones, for a small screen."""
    notes = [*_air(view), *_cold(view), *_cabinet(view), *_machine(view, ways)]
    notes = [note for note in notes if note.value]
    if not few:
        return notes
    main = {"stored", "coldest", "surface", "condensing", "compressor", "low side", "room"}
    if not view.readings.known:
        main = {"walls", "cold side", "condenser", "compressor", "capillary", "room"}
    return [note for note in notes if note.key in main]


def _air(view: View) -> Iterator[Note]:
    """Where the air is at which temperature, and how much of it moves."""
    r, frame, ways = view.readings, view.frame, air_ways(view)
    target = r.degrees(r.get("target_air_C"))
    returns, spreads = ways.returns[0], ways.spreads[0]
    flow = r.cabinet("air_flow_m3_per_h")
    moved = r.write(None if flow is None else flow / SECONDS_PER_HOUR, Kind.volume_flow)
    yield Note("air_path", "left", frame.at(returns[len(returns) // 2]),
               r.degrees(r.cabinet("warmest_shelf_C")),
               "warmest air, returning over the top", key="returning")  # fmt: skip
    yield Note("air_path", "left", frame.at(_stored(view)), r.degrees(r.cabinet("air_C")),
               f"stored air, mean; target {target}", key="stored")  # fmt: skip
    yield Note("air_path", "left", frame.at(spreads[-1]),
               r.degrees(r.cabinet("coldest_shelf_C")),
               f"coldest air, spreading on the floor: {moved}", key="coldest")  # fmt: skip


def _stored(view: View) -> Point:
    """A place in the free air over the goods of the middle shelf [m]."""
    shelves = view.geometry.shelves
    at = (len(shelves.levels) - 1) // 2
    above = shelves.levels[at - 1] if at else shelves.first
    room = shelves.levels[at] - above
    return (shelves.left + 0.22 * (shelves.right - shelves.left), above + 0.14 * room)


def _cold(view: View) -> Iterator[Note]:
    """The cold side: surface, brine, thermostat."""
    g, r, frame = view.geometry, view.readings, view.frame
    body = g.cold.body
    name = cold_side_name(g, r)
    edge = frame.at((g.cold.front if not g.cold.at_walls else body.left,
                     body.top + 0.22 * body.height))  # fmt: skip
    surface = r.degrees(r.cabinet("cold_surface_C"))
    if surface:
        yield Note("cold_side", "left", edge, surface, f"{name}, {surface_words(r)}",
                   key="surface")  # fmt: skip
    else:
        yield Note("cold_side", "left", edge, name.capitalize(), cold_side_size(g, r),
                   key="cold side")  # fmt: skip
    size = vessel_of(g)
    if size is not None:
        inside = (body.left + 0.4 * body.width, body.bottom - 0.38 * size.level)
        if view.build.cold_side.holdover is not None:
            store = view.build.cold_side.holdover
            share = r.write(store.state_of_charge.value, Kind.ratio)
            melting = r.degrees(r.get("holdover", "melting_C"))
            yield Note("cold_side", "left", frame.at(inside), melting or share,
                       f"{store.filling}, {share} frozen", key="brine")  # fmt: skip
        else:
            yield Note("cold_side", "left", frame.at(inside), r.degrees(r.machine("brine_C")),
                       "brine round the coil", key="brine")  # fmt: skip
    control = view.build.thermostat
    span = f"{r.write(control.cut_in.value, Kind.temperature)} in, " \
           f"{r.write(control.cut_out.value, Kind.temperature)} out"  # fmt: skip
    yield Note("cold_side", "right", frame.at(bulb_place(view)), "Thermostat",
               f"{span}; bulb: {control.bulb}", key="bulb")  # fmt: skip


def _cabinet(view: View) -> Iterator[Note]:
    """Walls, door and goods."""
    g, r, frame = view.geometry, view.readings, view.frame
    door = "lid" if g.door == "top" else "door"
    heat = r.cabinet("heat_gain_W")
    low = (-0.5 * g.thickness("front"), 0.72 * g.inside.height)
    if heat is not None:
        yield Note("walls", "left", frame.at(low), r.write(heat, Kind.heat_flow),
                   f"comes in through walls, {door}, seal and air", key="walls")  # fmt: skip
    else:
        yield Note("walls", "left", frame.at(low), r.length(g.thickness("front")),
                   f"{'wall' if door == 'lid' else door}: {wall_words(g, r, 'front')}",
                   key="walls")  # fmt: skip
    blocks = goods(g)
    if blocks:
        # Not on the floor, where the coldest air is written of, if there is a shelf.
        level = g.shelves.levels[-2:][0]
        first = next((each for each in blocks if abs(each.bottom - level) < 1e-9), blocks[0])
        place = (first.left + 0.25 * first.width, first.top + 0.5 * first.height)
        yield Note("contents", "left", frame.at(place), r.write(
            view.build.cabinet.contents.mass.value, Kind.mass), view.build.targets.use,
            key="goods", assumed=view.build.is_assumed("cabinet.contents.mass"))  # fmt: skip


def _machine(view: View, ways: Ways) -> Iterator[Note]:
    """Condenser, compressor and lines."""
    g, r, frame = view.geometry, view.readings, view.frame
    levels = g.condenser.run_levels
    tube = tube_place(view)
    upper, lower = levels[len(levels) // 5], levels[(3 * len(levels)) // 5]
    shell = frame.box(g.compressor.shell)
    beside = (shell[0] + 0.86 * shell[2], shell[1] + 0.72 * shell[3])
    room = r.degrees(r.get("room_C")) or r.write(
        view.build.site.room_temperature.value, Kind.temperature)  # fmt: skip
    yield Note("site", "right", None, room, "room", key="room")
    condensing = r.degrees(r.machine("condensing_C"))
    if not condensing:
        yield Note("condenser", "right", (tube, frame.y(upper)), "Condenser",
                   condenser_words(g, r), key="condenser")  # fmt: skip
        yield Note("compressor", "right", beside, "Compressor", compressor_words(r),
                   key="compressor")  # fmt: skip
        yield Note("suction_line", "right", ways.lane[0], "Return line", joint_words(g, r),
                   key="return")  # fmt: skip
        yield from _capillary(view, ways)
        return
    pressure = r.write(r.machine("discharge_Pa"), Kind.absolute_pressure)
    above = r.difference(r.get("hot_side", "condensing_above_room_K"))
    over = f", {above} over the room" if above else ""
    yield Note("condenser", "right", (tube, frame.y(upper)), condensing,
               f"condensing at {pressure}{over}", key="condensing")  # fmt: skip
    yield Note("condenser", "right", (tube, frame.y(lower)),
               r.write(r.machine("condenser_heat_W"), Kind.heat_flow),
               "given to the room while it runs", key="heat")  # fmt: skip
    yield Note("condenser", "right", _on_discharge(ways), r.degrees(r.machine("discharge_gas_C")),
               "discharge gas", key="discharge")  # fmt: skip
    power = r.write(r.machine("power_W"), Kind.power)
    current = r.write(r.machine("current_A"), Kind.current)
    shell_heat = r.degrees(r.machine("shell_C"))
    yield Note("compressor", "right", beside, f"{power} · {current}",
               f"compressor; shell {shell_heat}", key="compressor")  # fmt: skip
    suction = r.write(r.machine("suction_Pa"), Kind.absolute_pressure)
    boiling = r.degrees(r.machine("evaporating_C"))
    yield Note("suction_line", "right", ways.suction[-1], suction,
               f"low side, boiling at {boiling}", key="low side")  # fmt: skip
    top, foot = ways.lane
    yield Note("suction_line", "right", (top[0], top[1] + 0.8 * (foot[1] - top[1])),
               r.degrees(r.machine("return_gas_C")), f"return gas; {joint_words(g, r)}",
               key="return")  # fmt: skip
    yield from _capillary(view, ways)


def _on_discharge(ways: Ways) -> Point:
    """A place on the upright piece of the discharge line [px]."""
    (x, low), (_, high) = ways.discharge[-3], ways.discharge[-2]
    return (x, high + 0.55 * (low - high))


def _capillary(view: View, ways: Ways) -> Iterator[Note]:
    inlet, outlet = ways.drier
    place = (inlet[0] + 4.0, 0.5 * (inlet[1] + outlet[1]))
    value = charge_words(view.readings)
    yield Note("capillary", "right", place, capillary_words(view.readings),
               f"capillary, bore and length; {value}", key="capillary")  # fmt: skip
