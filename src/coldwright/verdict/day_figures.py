"""Figures of a day's run that take more than a line: frost, battery, store, rests."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import numpy as np

from coldwright.arrays import Array
from coldwright.build.result import Build
from coldwright.clock import advance
from coldwright.clock.advance import MACHINE, MIGRATION
from coldwright.clock.cold_table import AREA
from coldwright.verdict.day import Day
from coldwright.verdict.electrics import lead_ohm
from coldwright.verdict.figures import at_lane

DAYS_PER_WEEK, HOURS_PER_DAY = 7.0, 24.0
Data = dict[str, Any]
DEFROST_THICKNESS = 4e-3
"""Frost [m] at which a cold surface is usually defrosted, 3 to 5 mm: common practice, no source."""


def hours_from_warm(minutes: Array, day: Day) -> float | None:
    """Hours from warm; a settled box has been there long since."""
    value = at_lane(minutes, 0)
    return value / 60.0 if np.isfinite(value) and day.start == "warm" else None


def migration_share(flows: Array, removed: float) -> float | None:
    """Heat that migrating refrigerant brings at rest, over the heat removed."""
    useful = at_lane(flows[MACHINE] - flows[MIGRATION], 0)
    return at_lane(flows[MIGRATION], 0) / useful if removed > 0.0 else None


def shortest_rest(day: Day) -> float | None:
    """Minutes of the shortest standstill between two runs of the counted day."""
    running = day.course.records["running"][-max(day.course.tally.minutes, 1) :, 0] > 0.5
    turns = np.flatnonzero(np.diff(running.astype(np.intp)))
    rests = [b - a for a, b in pairwise(turns) if not running[a + 1]]
    return float(min(rests)) if rests else None


def stated(build: Build, key: str) -> float | None:
    """A figure of the file's `[day]`, None where it has none."""
    entry = getattr(build.document.day, key, None)
    return None if entry is None else float(entry.value)


def store_figures(day: Day) -> Data | None:
    """State of charge of a holdover over the counted day, 0 melted to 1 full."""
    charge = day.rows.get("state_of_charge")
    if charge is None:
        return None
    counted = charge[-max(day.course.tally.minutes, 1) :]
    return {
        "state_of_charge": float(charge[-1]),
        "state_of_charge_min": float(np.min(counted)),
        "state_of_charge_max": float(np.max(counted)),
    }


def battery_figures(day: Day, usable: float | None) -> Data | None:
    """What a battery machine draws in a day [Ah], and for how long `usable` [Ah] last.

    Machine and lead while running; the charger's and the battery's own losses are left out.
    """
    machine, lead = day.clock.translation.machine, day.clock.build.compressor.lead
    if not machine.direct_current:
        return None
    counted = max(day.course.tally.minutes, 1)
    records, voltage = day.course.records, at_lane(machine.voltage, 0)
    on, power = (records[name][-counted:, 0] for name in ("on", "power"))
    ohm = 0.0 if lead is None else lead_ohm(lead)
    loss = ohm * (power / voltage) ** 2 / np.maximum(on, 1e-9)
    drawn = float(np.mean(power + loss)) * HOURS_PER_DAY / voltage
    lasts = None if usable is None or drawn <= 0.0 else usable / drawn * HOURS_PER_DAY
    return {"Ah_per_day": drawn, "usable_Ah": usable, "hours_it_lasts": lasts}


def frost_figures(day: Day) -> Data:
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
