"""The cabinet: sweating and mould outside, dry and damp inside, shelves, thermostat."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from coldwright.errors import Notice, Severity
from coldwright.fluids.moist_air import dew_point, saturation_pressure
from coldwright.parts.cabinet import outside_skin_temperatures
from coldwright.plant.box import surroundings
from coldwright.shop.products import STILL_AIR_SOURCE, product, still_air_humidity
from coldwright.sources import source
from coldwright.verdict.case import Case, Finding
from coldwright.verdict.figures import CELSIUS, at_lane, percent

PRACTICE = "common practice, no source"
COLD_SHELF = 0.0
HEAD_COLDER = 0.5  # K by which a control's head is colder than its bulb before it is told
WARM_SHELF_ABOVE = 3.0
# Skin along a seal from which its heat is drawn, both sides together [m]: 50 mm each, as heat
# spreads in a sheet of 0.8 mm of steel or, less, in wood. Assumed, no source.
SEAL_STRIP = 0.1
# Shares of the heat from which a drain, or the gaps, are worth a word: common practice, no source.
LOST_TO_DRAIN, LOST_TO_GAPS = 0.02, 0.1
# Humidity at a skin from which mould can grow (ISO 13788), and from which it will soon.
MOULD_FROM, MOULD_SOON = 0.8, 0.9


def box_findings(case: Case) -> Iterator[Finding]:
    """Findings about skin, shelves, humidity and thermostat."""
    if not case.machine(case.state).balanced:
        return
    yield from _skin(case)
    yield from _humidity(case)
    yield from _openings(case)
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
    if case.state == "cycling" and case.melting is None:  # a store is switched by its ice
        yield from _thermostat(case)


def _skin(case: Case) -> Iterator[Finding]:
    """Does the outside skin sweat, or stay so damp that mould grows?"""
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
        return
    vapour = at_lane(saturation_pressure(room.temperature) * room.relative_humidity, 0)
    humidity = vapour / float(saturation_pressure(coldest))
    if humidity > MOULD_FROM:
        text = (
            f"Air at the outside skin ({case.temperature(coldest - CELSIUS)}) is at "
            f"{percent(humidity)} relative humidity: it does not sweat, but over "
            f"{percent(MOULD_FROM)} mould grows where that lasts. Keep air moving about the box, "
            "dry the room, or add insulation."
        )
        grave: Severity = "warning" if humidity > MOULD_SOON else "info"
        yield Finding(Notice("mould", grave, text, source("products_iso_13788").citation))
    edge = at_lane(skins[case.build.cabinet.door_face], 0) - _seal_chill(case)
    if edge < dew:
        text = (
            f"Beside the seal the skin comes down to about {case.temperature(edge - CELSIUS)}, "
            f"under the room's dew point of {case.temperature(dew - CELSIUS)}: drops stand along "
            "the door's edge. A seal that conducts less, or drier air."
        )
        yield Finding(Notice("seal_sweats", "info", text, "assumed, no source"))


def _seal_chill(case: Case) -> float:
    """How much colder than its face's mean the skin is beside the seal [K].

    The seal's heat by the metre comes in over a strip of skin on either side, through its film.
    """
    o = case.operation
    point = o.cycling if case.state == "cycling" else o.running
    cabinet = case.translation.plant.box.cabinet
    door = next(face for face in cabinet.faces if face.name == case.build.cabinet.door_face)
    length = max(at_lane(cabinet.gasket_length, 0), 1e-3)
    per_metre = at_lane(point.box.gain.gasket, 0) / length
    return per_metre / SEAL_STRIP * at_lane(door.outside_film_resistance, 0)


def _humidity(case: Case) -> Iterator[Finding]:
    """Is the air drier or wetter than what is kept wants?

    By the box's own balance of moisture where it is known what the goods give off, and the trade's
    table of still air beside it; by the table alone where it is not.
    """
    name = case.build.cabinet.contents.product
    kept = product(name) if name else None
    if kept is None or kept.wanted_humidity is None:
        return
    if case.build.targets.air_temperature.value < (kept.freezing_point or CELSIUS):
        return  # frozen goods: the table is of fresh ones
    figures = case.cabinet(case.state)
    difference = figures.air_C - figures.cold_surface_C
    least, greatest = (float(bound) for bound in still_air_humidity(difference))
    by_table = (
        f"the cold surface is {case.difference(difference)} colder than the air, over which still "
        "air with moist goods comes to about"
    )
    own = percent(figures.relative_humidity)
    low, high = kept.wanted_humidity
    wanted = f"for {kept.name} kept open {percent(low)} to {percent(high)} is wanted"
    citation = source(STILL_AIR_SOURCE).citation
    if case.build.cabinet.contents.moisture_per_day.value > 0.0:
        beside = f"(the trade's table: {by_table} {_between(least, greatest)})"
        found = (
            f"{case.words} what room, door and goods bring and the cold side takes comes to {own} "
            f"relative humidity {beside}"
        )
        least = greatest = figures.relative_humidity
        citation = f"this balance; {citation}"
        at_most = at_least = ""
    else:
        wanted += f" (with no moisture from the goods it would be {own})"
        found = f"{case.words} {by_table}"
        at_most, at_least = (
            f" {percent(greatest)} relative humidity at most",
            f" {percent(least)} relative humidity at least",
        )
    if greatest < low:
        text = (
            f"{found}{at_most}; {wanted}: the goods dry out. "
            "Cover them, or give the box more cold surface, held less cold."
        )
        yield Finding(Notice("dry_inside", "info", text, citation))
    elif least > high:
        text = (
            f"{found}{at_least}; {wanted}: the goods grow damp. "
            "Keep them closed, or give the box less cold surface, held colder."
        )
        yield Finding(Notice("damp_inside", "info", text, citation))


def _between(least: float, greatest: float) -> str:
    """A band of humidity, open at the table's ends."""
    if least <= 0.0:
        return f"under {percent(greatest)}"
    return (
        f"over {percent(least)}" if greatest >= 1.0 else f"{percent(least)} to {percent(greatest)}"
    )


def _openings(case: Case) -> Iterator[Finding]:
    """Does cold air run out through a drain, or more through the seal than a sound one lets by?"""
    ways = case.cabinet(case.state).gain_by_way_W
    whole = sum(ways.values())
    if whole <= 0.0:
        return
    if ways["drain"] > LOST_TO_DRAIN * whole:
        text = (
            f"Cold air that runs out of the open drain brings {percent(ways['drain'] / whole)} of "
            "the heat, and moisture with it: put a trap in the drain or plug it."
        )
        yield Finding(Notice("open_drain", "warning", text, "this balance"), "cabinet.drain")
    if ways["leakage"] > LOST_TO_GAPS * whole:
        text = (
            f"Air through the gaps brings {percent(ways['leakage'] / whole)} of the heat, and "
            "moisture with it: find them with a slip of paper and renew the seal."
        )
        yield Finding(Notice("leaky_seal", "warning", text, "this balance"), "cabinet.gasket")


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
    yield from _head(case, places["air"], needed)


def _head(case: Case, air: float, bulb: float) -> Iterator[Finding]:
    """A vapour fill whose head is colder than its cut-in never starts the machine."""
    control = case.build.thermostat
    cold_side = at_lane(case.operation.cycling.box.surface_temperature, 0)
    if control.fill == "liquid":
        return
    head = control.head or "room"
    places = {
        "room": case.build.site.room_temperature_low.value,
        "cabinet": air,
        "cold side": cold_side,
    }
    stands = places[head]
    # a cold room holds the fill below cut-in; within the box the head has to be the colder one
    if stands >= (control.cut_in.value if head == "room" else bulb - HEAD_COLDER):
        return
    text = (
        f"The control's head ({head}) stands at {case.temperature(stands - CELSIUS)}, its bulb at "
        f"{case.temperature(bulb - CELSIUS)} in the mean, its cut-in is "
        f"{case.temperature(control.cut_in.value - CELSIUS)}: a vapour fill obeys its coldest "
        "part, so the head switches the machine, or keeps it from starting. Move it to a warmer "
        "place, or take a liquid fill."
    )
    source = "supplier pages: the body never colder than the bulb [read]"
    yield Finding(Notice("head_colder", "warning", text, source), "thermostat")
