"""A day as plain data: every key carries its unit; sentences, notices and what was assumed."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

import numpy as np

from coldwright.build.result import Assumed
from coldwright.build.translation import clock as taken
from coldwright.clock import advance, plan, start
from coldwright.clock.advance import heat_of
from coldwright.clock.network import AIR, BULB, CONTENTS
from coldwright.errors import Notice
from coldwright.shop.cautions import cautions_for
from coldwright.shop.refrigerant_safety import safety
from coldwright.units import Kind, format_quantity
from coldwright.verdict.day import Day
from coldwright.verdict.day_figures import (
    battery_figures,
    frost_figures,
    hours_from_warm,
    migration_share,
    shortest_rest,
    stated,
    store_figures,
)
from coldwright.verdict.day_notices import notices_of
from coldwright.verdict.figures import CELSIUS, at_lane, percent
from coldwright.verdict.report import citation_of
from coldwright.verdict.states import plain

SCHEMA = 1
DAYS_PER_YEAR = 365.25
JOULES_PER_KWH = 3.6e6
PRACTICE, NONE = "common practice, no source", "assumed, no source"
CYCLING = "Krause and Bullard 1994, ACRC TR-58 [read]"
Data = dict[str, Any]


def day_report(day: Day, *, price: float | None = None, battery: float | None = None) -> Data:
    """The day as a JSON-ready dictionary.

    price: of a kilowatt-hour, battery: ampere-hours that may be drawn, both instead of the file's.
    """
    tally, clock = day.course.tally, day.clock
    price = stated(clock.build, "price") if price is None else price
    battery = stated(clock.build, "battery") if battery is None else battery
    hours = max(tally.hours, 1e-9)
    energy = at_lane(tally.energy, 0) / JOULES_PER_KWH * 24.0 / hours
    fraction, starts = at_lane(tally.run_fraction, 0), at_lane(tally.starts, 0)
    removed = at_lane(tally.removed, 0)
    data: Data = {
        "day_schema": SCHEMA,
        "name": clock.build.name,
        "revision": clock.build.revision,
        "from": day.start,
        "hours": day.course.minutes / 60.0,
        "complete": day.course.complete,
        "counted_hours": tally.hours,
        "room_C": float(np.mean(clock.plan.room)) - CELSIUS,
        "target_air_C": clock.target - CELSIUS,
        "charge_g": 1e3 * clock.charge,
        "energy_kWh_per_day": energy,
        "energy_kWh_per_year": energy * DAYS_PER_YEAR,
        "price_per_year": None if price is None else price * energy * DAYS_PER_YEAR,
        "run_fraction": fraction,
        "starts_per_hour": starts / hours,
        "cycle_minutes": 60.0 * hours / starts if starts else None,
        "shortest_rest_minutes": shortest_rest(day),
        "power_mean_running_W": energy * 1e3 / 24.0 / fraction if fraction else None,
        "air_mean_C": at_lane(tally.mean(AIR), 0) - CELSIUS,
        "air_min_C": at_lane(tally.least[AIR], 0) - CELSIUS,
        "air_max_C": at_lane(tally.greatest[AIR], 0) - CELSIUS,
        "contents_mean_C": at_lane(tally.mean(CONTENTS), 0) - CELSIUS,
        "contents_warmest_C": at_lane(tally.greatest[CONTENTS], 0) - CELSIUS,
        "bulb_mean_C": at_lane(tally.mean(BULB), 0) - CELSIUS,
        "hours_to_target": hours_from_warm(tally.to_target, day),
        "hours_to_first_cut_out": hours_from_warm(tally.to_cut_out, day),
        "hours_to_contents_at_target": hours_from_warm(tally.contents_to_target, day),
        "heat_removed_W": removed / (3600.0 * hours),
        "migration_share_of_load": migration_share(tally.day_flows, removed),
        "energy_closure": at_lane(tally.closure(heat_of(clock.plant, day.course.moment)), 0),
        "frost": frost_figures(day),
        "power_cut": {
            "limit_C": day.cut_limit - CELSIUS,
            "hours": day.cut_hours,
            "store_melted_hours": day.melted_hours,
            "door": "shut",
        },
        "store": store_figures(day),
        "battery": battery_figures(day, battery),
    }
    data["notices"] = [_notice(each) for each in notices_of(day, data)]
    data["sentences"] = _sentences(day, data)
    cautions = cautions_for(safety(clock.build.refrigerant.name).safety_class)
    data["cautions"] = [_notice(each) for each in cautions]
    data["assumed"] = [_assumed(each) for each in ASSUMED]
    return {key: plain(value) for key, value in data.items()}


def _sentences(day: Day, data: Data) -> list[str]:
    """The day in words, most wanted first."""

    def temperature(celsius: float) -> str:
        return format_quantity(celsius + CELSIUS, Kind.temperature, day.clock.system)

    told = []
    if day.start == "warm":
        reached, stopped = data["hours_to_target"], data["hours_to_first_cut_out"]
        target = temperature(data["target_air_C"])
        told.append(
            f"From warm it brings the stored air to {target} in {_long(reached)}."
            if reached is not None
            else f"From warm it does not bring the stored air to {target} in these hours."
        )
        if stopped is not None:
            told.append(f"The thermostat stops it for the first time after {_long(stopped)}.")
    told.append(
        f"Then it runs {percent(data['run_fraction'])} of the time with "
        f"{data['starts_per_hour']:.2f} starts an hour and takes "
        f"{data['energy_kWh_per_day']:.2f} kWh a day."
    )
    told.append(
        f"The stored air lies between {temperature(data['air_min_C'])} and "
        f"{temperature(data['air_max_C'])}, {temperature(data['air_mean_C'])} in the mean; "
        f"the goods get no warmer than {temperature(data['contents_warmest_C'])}."
    )
    cut, limit = data["power_cut"]["hours"], temperature(data["power_cut"]["limit_C"])
    if cut is not None:
        told.append(f"In a power cut, door shut, the goods pass {limit} after {_long(cut)}.")
    melted = data["power_cut"]["store_melted_hours"]
    if melted is not None:
        told.append(
            f"Its store is {percent(data['store']['state_of_charge'])} frozen at the end of the "
            f"day, and melts in {_long(melted)} without power."
        )
    if data["battery"] is not None:
        drawn, lasts = data["battery"]["Ah_per_day"], data["battery"]["hours_it_lasts"]
        usable = data["battery"]["usable_Ah"]
        rest = "" if lasts is None else f": {usable:g} Ah last {_long(lasts)} without charging"
        told.append(f"It draws {drawn:.0f} Ah a day from its battery{rest}.")
    days = data["frost"]["days_between_defrosts"]
    if days is not None:
        told.append(f"Defrost about every {days:.0f} days." if days >= 1.5 else "Defrost daily.")
    return told


def _long(hours: float) -> str:
    return f"{60.0 * hours:.0f} min" if hours < 2.0 else f"{hours:.1f} h"


ASSUMED: tuple[Assumed, ...] = (
    Assumed(
        "thermostat.fill",
        "thermostat with a vapour fill of R134a's kind, its head in the room, where the file does "
        "not say otherwise",
        None,
        None,
        None,
        PRACTICE,
    ),
    Assumed(
        "clock.goods",
        f"goods in packs of 1 kg: {taken.PACK_FILM:g} W/(m2 K) on {taken.PACK_AREA:g} m2 each; "
        "one temperature for all of them",
        taken.PACK_FILM,
        Kind.film_coefficient,
        2.0,
        NONE,
    ),
    Assumed(
        "clock.door",
        f"openings spread evenly from {plan.FIRST_OPENING:.0f} to {plan.LAST_OPENING:.0f} h, each "
        "exchanging its air at once",
        None,
        None,
        None,
        PRACTICE,
    ),
    Assumed(
        "clock.warm_load",
        f"the day's warm goods go in at {plan.LOAD_HOUR:.0f} h, and as much is taken out",
        None,
        None,
        None,
        PRACTICE,
    ),
    Assumed(
        "clock.equalising",
        f"at rest the charge moves to the cold side within a few times {start.EQUALISING:.0f} s",
        start.EQUALISING,
        Kind.time,
        60.0,
        "maker service manual: pressures meet in 7 to 10 min [read]",
    ),
    Assumed(
        "clock.start",
        "after a start the capacity comes back as fast as the compressor carries the charge back; "
        "published: 2 to 6 % of the load",
        None,
        None,
        None,
        CYCLING,
    ),
    Assumed(
        "clock.frost",
        f"frost of {advance.FROST_DENSITY:g} kg/m3, even on the whole cold surface; it melts at "
        "0 °C at rest and drains",
        advance.FROST_DENSITY,
        Kind.density,
        50.0,
        NONE,
    ),
    Assumed(
        "clock.shell",
        f"compressor shell with motor as steel of {taken.SHELL_SPECIFIC_HEAT:g} J/(kg K), its "
        "weight by class",
        taken.SHELL_SPECIFIC_HEAT,
        Kind.specific_heat,
        20.0,
        "from memory",
    ),
)


def _notice(notice: Notice) -> dict[str, str]:
    return {**asdict(notice), "source": citation_of(notice.source)}


def _assumed(entry: Assumed) -> Data:
    data = asdict(entry)
    data["kind"] = None if entry.kind is None else str(entry.kind)
    return data
