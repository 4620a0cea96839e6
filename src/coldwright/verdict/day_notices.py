"""What a day's run tells unasked: a machine that never stops, short rests, a control's head."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

from coldwright.clock import plan
from coldwright.clock.thermostat import head_temperature
from coldwright.errors import Notice
from coldwright.units import Kind, format_quantity
from coldwright.verdict.day import Day
from coldwright.verdict.figures import percent

PRACTICE = "common practice, no source"
Data = dict[str, Any]
NEVER_STOPS, MOST_STARTS, LEAST_REST = 0.98, 6.0, 5.0
"""A run fraction, starts an hour and minutes of rest that are told: common practice, no source."""

MOST_BALANCE = 0.9
"""Share of balances under which holes of the map are a warning."""

HEAD_COLDER = 0.5
"""K by which a control's head must be colder than its bulb before it is told."""

UNSETTLED = 0.5
"""K by which the goods' mean still falls over the last day, above which it is told."""


def notices_of(day: Day, data: Data) -> list[Notice]:
    """All that is to be told of a day whose figures are `data`."""
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
