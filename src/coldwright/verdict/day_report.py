"""A day as plain data: every key carries its unit; sentences, notices and what was assumed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import asdict
from itertools import pairwise
from typing import Any

import numpy as np

from coldwright.arrays import Array
from coldwright.build.result import Assumed
from coldwright.build.translation import clock as taken
from coldwright.clock import advance, plan, start
from coldwright.clock.advance import MACHINE, MIGRATION, heat_of
from coldwright.clock.cold_table import AREA
from coldwright.clock.network import AIR, BULB, CONTENTS
from coldwright.clock.thermostat import head_temperature
from coldwright.errors import Notice
from coldwright.shop.cautions import cautions_for
from coldwright.shop.refrigerant_safety import safety
from coldwright.units import Kind, format_quantity
from coldwright.verdict.day import Day
from coldwright.verdict.figures import CELSIUS, at_lane, percent
from coldwright.verdict.report import citation_of

SCHEMA = 1
DAYS_PER_YEAR, DAYS_PER_WEEK = 365.25, 7.0
JOULES_PER_KWH = 3.6e6
DEFROST_THICKNESS = 4e-3
"""Frost [m] at which a cold surface is usually defrosted, 3 to 5 mm: common practice, no source."""

NEVER_STOPS, MOST_STARTS, LEAST_REST = 0.98, 6.0, 5.0
"""A run fraction, starts an hour and minutes of rest that are told: common practice, no source."""

MOST_BALANCE = 0.9
"""Share of balances under which holes of the map are a warning."""

HEAD_COLDER = 0.5
"""K by which a control's head must be colder than its bulb before it is told."""

UNSETTLED = 0.5
"""K by which the goods' mean still falls over the last day, above which it is told."""

PRACTICE, NONE = "common practice, no source", "assumed, no source"
CYCLING = "Krause and Bullard 1994, ACRC TR-58 [read]"
Data = dict[str, Any]


def day_report(day: Day, *, price: float | None = None) -> Data:
    """The day as a JSON-ready dictionary; `price` of a kilowatt-hour instead of the file's."""
    tally, clock = day.course.tally, day.clock
    stated = clock.build.document.day
    if price is None and stated is not None and stated.price is not None:
        price = stated.price.value
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
        "shortest_rest_minutes": _shortest_rest(day),
        "power_mean_running_W": energy * 1e3 / 24.0 / fraction if fraction else None,
        "air_mean_C": at_lane(tally.mean(AIR), 0) - CELSIUS,
        "air_min_C": at_lane(tally.least[AIR], 0) - CELSIUS,
        "air_max_C": at_lane(tally.greatest[AIR], 0) - CELSIUS,
        "contents_mean_C": at_lane(tally.mean(CONTENTS), 0) - CELSIUS,
        "contents_warmest_C": at_lane(tally.greatest[CONTENTS], 0) - CELSIUS,
        "bulb_mean_C": at_lane(tally.mean(BULB), 0) - CELSIUS,
        "hours_to_target": _hours(tally.to_target, day),
        "hours_to_first_cut_out": _hours(tally.to_cut_out, day),
        "hours_to_contents_at_target": _hours(tally.contents_to_target, day),
        "heat_removed_W": removed / (3600.0 * hours),
        "migration_share_of_load": _migration_share(tally.day_flows, removed),
        "energy_closure": at_lane(tally.closure(heat_of(clock.plant, day.course.moment)), 0),
        "frost": _frost(day),
        "power_cut": {
            "limit_C": day.cut_limit - CELSIUS,
            "hours": day.cut_hours,
            "door": "shut",
        },
    }
    data["notices"] = [_notice(each) for each in _notices(day, data)]
    data["sentences"] = _sentences(day, data)
    cautions = cautions_for(safety(clock.build.refrigerant.name).safety_class)
    data["cautions"] = [_notice(each) for each in cautions]
    data["assumed"] = [_assumed(each) for each in ASSUMED]
    return {key: _plain(value) for key, value in data.items()}


def _hours(minutes: Array, day: Day) -> float | None:
    """Hours from warm; a settled box has been there long since."""
    value = at_lane(minutes, 0)
    return value / 60.0 if np.isfinite(value) and day.start == "warm" else None


def _migration_share(flows: Array, removed: float) -> float | None:
    """Heat that migrating refrigerant brings at rest, over the heat removed."""
    useful = at_lane(flows[MACHINE] - flows[MIGRATION], 0)
    return at_lane(flows[MIGRATION], 0) / useful if removed > 0.0 else None


def _shortest_rest(day: Day) -> float | None:
    """Minutes of the shortest standstill between two runs of the counted day."""
    running = day.course.records["running"][-max(day.course.tally.minutes, 1) :, 0] > 0.5
    turns = np.flatnonzero(np.diff(running.astype(np.intp)))
    rests = [b - a for a, b in pairwise(turns) if not running[a + 1]]
    return float(min(rests)) if rests else None


def _frost(day: Day) -> Data:
    """Growth of the last day, a week of it, and when to defrost."""
    frost = day.course.records["frost"][:, 0]
    counted = max(day.course.tally.minutes, 1)
    grown = (frost[-1] - frost[max(len(frost) - 1 - counted, 0)]) * 1440.0 / counted
    films = day.clock.plant.table.at(np.array([275.0]), np.array([265.0]))
    thick = DEFROST_THICKNESS * advance.FROST_DENSITY * at_lane(films[AREA], 0)
    settles = grown > 1e-4
    return {
        "g_per_day": 1e3 * grown if settles else 0.0,
        "g_after_week": 1e3 * (frost[-1] + max(grown, 0.0) * DAYS_PER_WEEK),
        "g_now": 1e3 * frost[-1],
        "defrost_at_mm": 1e3 * DEFROST_THICKNESS,
        "days_to_defrost": max(thick - frost[-1], 0.0) / grown if settles else None,
        "days_between_defrosts": thick / grown if settles else None,
        "clears_itself": not settles,
    }


def _notices(day: Day, data: Data) -> list[Notice]:
    found = []

    def tell(code: str, severity: Any, text: str, source: str = "this run") -> None:  # noqa: ANN401
        found.append(Notice(code, severity, text, source))

    if not data["complete"]:
        tell("interrupted", "warning", f"Stopped by hand after {data['hours']:.1f} h of the run.")
    if data["run_fraction"] > NEVER_STOPS:
        tell("never_stops", "warning", "The machine hardly stopped: its thermostat is not reached.")
    if day.start == "warm" and data["hours_to_target"] is None:
        tell("not_reached", "warning", "The stored air did not reach its target in these hours.")
    if data["starts_per_hour"] > MOST_STARTS:
        tell(
            "short_cycling",
            "warning",
            f"{data['starts_per_hour']:.1f} starts an hour: widen the thermostat's difference.",
            PRACTICE,
        )
    rest = data["shortest_rest_minutes"]
    if rest is not None and rest < LEAST_REST:
        tell(
            "short_rest",
            "warning",
            f"The shortest standstill is {rest:.0f} min: pressures take 7 to 10 min to meet, and a "
            "motor of low starting torque may not start before.",
            "maker service manual [read]",
        )
    _tell_head(day, tell)
    drift = _goods_drift(day)
    if drift is not None and drift > UNSETTLED:
        tell(
            "not_settled",
            "info",
            f"The goods were still {_kelvin(day, drift)} warmer a day before: "
            "later days run less than the one counted here.",
        )
    _tell_holes(day.clock.plant.machine.balanced, tell)
    return found


def _tell_head(day: Day, tell: Callable[..., None]) -> None:
    """Hours of the counted day that a vapour fill obeyed its head, colder than the bulb."""
    control = day.clock.parts.control
    records, counted = day.course.records, max(day.course.tally.minutes, 1)
    node, air, room, bulb = (
        records[name][-counted:, 0] for name in ("node", "air", "room", "bulb")
    )
    stands = head_temperature(control, node, air, room)
    obeyed = stands < bulb - HEAD_COLDER
    if not np.any(obeyed):
        return
    tell(
        "head_obeyed",
        "warning",
        f"For {np.sum(obeyed) / 60.0:.1f} h of the day the control's head ({control.head}) was "
        f"colder than its bulb (head down to {_written(day, np.min(stands[obeyed]))}, bulb up to "
        f"{_written(day, np.max(bulb[obeyed]))}): a vapour fill then switches by the head. Move "
        "the head to a warmer place, or take a control with a liquid fill.",
        "supplier pages: the body never colder than the bulb [read]",
    )


def _written(day: Day, kelvin: float) -> str:
    return format_quantity(float(kelvin), Kind.temperature, day.clock.system)


def _tell_holes(balanced: float, tell: Callable[..., None]) -> None:
    """States of the machine's map that have no balance."""
    if balanced == 0.0:
        tell(
            "no_balance",
            "danger",
            "The machine has no balance with this charge, so it is taken to do nothing here: "
            "`coldwright assess` says why.",
        )
    elif balanced < 1.0:
        tell(
            "map_holes",
            "info" if balanced > MOST_BALANCE else "warning",
            f"{percent(1.0 - balanced)} of the states tried for the map have no balance; the "
            "nearest ones stand for them.",
        )


def _goods_drift(day: Day) -> float | None:
    """How much warmer [K] the goods were a day before the end; None for a run of under two days."""
    goods = day.course.records["contents"][:, 0]
    if len(goods) <= plan.MINUTES_PER_DAY:
        return None
    return float(goods[-1 - plan.MINUTES_PER_DAY] - goods[-1])


def _kelvin(day: Day, kelvin: float) -> str:
    return format_quantity(kelvin, Kind.temperature_difference, day.clock.system)


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


def _plain(value: Any) -> Any:  # noqa: ANN401 (any JSON value)
    """`value` with NaN and infinity as None, NumPy scalars as Python's."""
    if isinstance(value, dict):
        return {key: _plain(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(each) for each in value]
    if isinstance(value, np.generic):
        value = value.item()
    if isinstance(value, float) and not np.isfinite(value):
        return None
    return value
