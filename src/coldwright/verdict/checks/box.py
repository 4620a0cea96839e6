"""The cabinet: sweating outside, frost and damp inside, cold and warm shelves, thermostat."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from coldwright.errors import Notice
from coldwright.fluids.moist_air import dew_point
from coldwright.parts.cabinet import outside_skin_temperatures
from coldwright.plant.box import surroundings
from coldwright.verdict.case import Case, Finding
from coldwright.verdict.figures import CELSIUS, at_lane

PRACTICE = "common practice, no source"
COLD_SHELF = 0.0
WARM_SHELF_ABOVE = 3.0


def box_findings(case: Case) -> Iterator[Finding]:
    """Findings about skin, shelves and thermostat."""
    if not case.machine(case.state).balanced:
        return
    yield from _sweating(case)
    figures = case.cabinet(case.state)
    target = case.build.targets.air_temperature.value - CELSIUS
    if figures.coldest_shelf_C < COLD_SHELF < target:
        text = (
            f"{case.words} air of {case.temperature(figures.coldest_shelf_C)} falls onto the "
            "lowest shelf: what stands there can freeze."
        )
        yield Finding(Notice("freezing_shelf", "warning", text, PRACTICE))
    if case.state == "cycling" and figures.warmest_shelf_C > target + WARM_SHELF_ABOVE:
        text = (
            f"{case.words} the warmest air is {case.temperature(figures.warmest_shelf_C)}: keep "
            "what spoils first low, or widen the openings of the air's way."
        )
        yield Finding(Notice("warm_shelf", "warning", text, PRACTICE))
    if case.state == "cycling":
        yield from _thermostat(case)


def _sweating(case: Case) -> Iterator[Finding]:
    room = case.translation.room
    around = surroundings(room)
    o = case.operation
    point = o.cycling if case.state == "cycling" else o.running
    skins = outside_skin_temperatures(case.translation.plant.box.cabinet, point.box.gain, around)
    dew = at_lane(dew_point(room.temperature, room.relative_humidity), 0)
    coldest = min(at_lane(skin, 0) for skin in skins.values())
    if coldest < dew:
        text = (
            f"The outside skin comes down to {case.temperature(coldest - CELSIUS)}, under the "
            f"room's dew point of {case.temperature(dew - CELSIUS)}: it sweats and wood rots. "
            "More insulation, or drier air."
        )
        yield Finding(Notice("sweating", "warning", text, "ASHRAE psychrometrics"))


def _thermostat(case: Case) -> Iterator[Finding]:
    """Does the setting bring the target?"""
    control = case.build.thermostat
    box = case.operation.cycling.box
    places = {
        "vessel well": at_lane(box.source_temperature, 0),
        "plate": at_lane(box.surface_temperature, 0),
        "air": at_lane(box.air_temperature, 0),
    }
    if control.bulb not in places:
        return
    needed = places[control.bulb]
    middle = 0.5 * (control.cut_in.value + control.cut_out.value)
    allowed = max(0.5 * abs(control.cut_in.value - control.cut_out.value), 1.0)
    if np.abs(middle - needed) > allowed:
        text = (
            f"To hold the target the bulb ({control.bulb}) should see about "
            f"{case.temperature(needed - CELSIUS)} in the mean; the setting's middle is "
            f"{case.temperature(middle - CELSIUS)}."
        )
        yield Finding(Notice("thermostat_setting", "info", text, "this balance"), "thermostat")
