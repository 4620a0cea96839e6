"""The drawing in words: one plain paragraph for those who do not see it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from coldwright.build.result import Build
from coldwright.sheet.drawing.build_words import (
    capillary_words,
    charge_words,
    cold_side_name,
    cold_side_size,
    compressor_words,
    condenser_words,
    goods_words,
    joint_words,
    wall_words,
)
from coldwright.sheet.drawing.geometry import Geometry, geometry_of
from coldwright.sheet.drawing.readings import SECONDS_PER_HOUR, Readings
from coldwright.units import Kind, System

PLACES = {
    "under": "below the floor",
    "behind": "behind the back, under the condenser",
    "beyond": "behind the condenser",
}


def describe_drawing(build: Build, figures: Mapping[str, Any] | None, units: System) -> str:
    """The whole drawing as one paragraph: sizes first, then what is worked out of it.

    `figures` is the report of an assessment, None where nothing is worked out.
    """
    return described(geometry_of(build), Readings(build, figures, units))


def described(geometry: Geometry, readings: Readings) -> str:
    """The same of a geometry that is there already."""
    text = " ".join([*_sizes(geometry, readings), *_state(readings)])
    return text.replace("\u00a0", " ")


def _sizes(geometry: Geometry, r: Readings) -> list[str]:
    build, length = r.build, r.length
    inside = geometry.inside
    way = "opens at the top" if geometry.door == "top" else "opens at the front"
    shelves = len(geometry.shelves.levels) - 1
    held = "no shelf" if shelves == 0 else "1 shelf" if shelves == 1 else f"{shelves} shelves"
    revision = f", revision {build.revision}" if build.revision else ""
    parted = (
        "A partition with an opening over it and a deck with a slot behind part the cold "
        "compartment from the goods."
        if geometry.air.divided
        else "It hangs in the same space as the goods."
    )
    return [
        f"{build.name}{revision}: a cabinet that {way}, inside {length(geometry.width)} wide, "
        f"{length(inside.height)} high and {length(inside.width)} deep, outside "
        f"{length(geometry.outside_width)}, {length(geometry.outside.height)} and "
        f"{length(geometry.outside.width)}.",
        f"Back wall from the inside: {wall_words(geometry, r, 'back')}.",
        f"Cold side: {cold_side_name(geometry, r)}, {cold_side_size(geometry, r)}. {parted}",
        f"It holds {held} and {goods_words(r)}.",
        f"Condenser: {condenser_words(geometry, r)}. Compressor: {compressor_words(r)}, "
        f"{PLACES[geometry.compressor.place]}.",
        f"Capillary: {capillary_words(r)}, {charge_words(r)}. Return line: "
        f"{joint_words(geometry, r)}.",
    ]


def _state(r: Readings) -> list[str]:
    if not r.known:
        return ["Nothing is worked out yet."]
    air = r.degrees(r.cabinet("air_C"))
    if not air:
        reason = r.machine("reason") or "none was found"
        return [f"There is no balance to show: {reason}."]
    flow = (r.cabinet("air_flow_m3_per_h") or 0.0) / SECONDS_PER_HOUR
    state = "Holding its target" if r.cycling else "Never stopping"
    room = r.degrees(r.get("room_C"))
    return [
        f"{state} in a room of {room}, the stored air has {air} in the mean; air falls off the "
        f"cold surface of {r.degrees(r.cabinet('cold_surface_C'))}, spreads over the floor at "
        f"{r.degrees(r.cabinet('coldest_shelf_C'))}, rises as it warms and returns over the top "
        f"at {r.degrees(r.cabinet('warmest_shelf_C'))}, {r.write(flow, Kind.volume_flow)} of it.",
        f"{r.write(r.cabinet('heat_gain_W'), Kind.heat_flow)} come in.",
        f"While it runs the refrigerant boils at {r.degrees(r.machine('evaporating_C'))} "
        f"({r.write(r.machine('suction_Pa'), Kind.absolute_pressure)}) and condenses at "
        f"{r.degrees(r.machine('condensing_C'))} "
        f"({r.write(r.machine('discharge_Pa'), Kind.absolute_pressure)}) on "
        f"{r.write(r.machine('power_W'), Kind.power)} and "
        f"{r.write(r.machine('current_A'), Kind.current)}.",
    ]
