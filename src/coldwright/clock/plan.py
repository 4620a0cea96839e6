"""What happens on a day: doors, warm loads, the room's course, the mains, by the minute."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array

MINUTES_PER_DAY = 1440
FIRST_OPENING, LAST_OPENING = 7.0, 21.0
"""Hours between which openings are spread where a build only counts them."""

LOAD_HOUR = 10.0
"""Hour at which a day's warm goods are put in where a build only says how much."""

WARMEST_HOUR = 15.0


@dataclass(frozen=True)
class Plan:
    """One entry a minute, each repeated from its own end on; shapes (minutes,).

    doors: openings that begin in that minute; load: mass [kg] put in warm; room: temperature [K];
    humidity: relative, of the room; mains: whether there is power.
    """

    doors: Array
    load: Array
    room: Array
    humidity: Array
    mains: NDArray[np.bool_]

    @classmethod
    def usual(
        cls,
        openings: float,
        load: float,
        room: Array | float,
        humidity: float,
        hours: tuple[float, float, float] = (FIRST_OPENING, LAST_OPENING, LOAD_HOUR),
        cut: tuple[float, float] = (0.0, 0.0),
    ) -> Plan:
        """A day of `openings`, a warm load [kg], a room [K] and its relative humidity.

        hours: of the day between which the door is opened, and at which the load comes; cut: hour
        at which the mains fail every day, and for how long [h].
        """
        first, last, loaded = hours
        since = (np.arange(MINUTES_PER_DAY) - round(60.0 * cut[0])) % MINUTES_PER_DAY
        return cls(
            doors=spread_openings(openings, first, last),
            load=once(load, loaded),
            room=np.atleast_1d(np.asarray(room, dtype=np.float64)),
            humidity=np.array([humidity]),
            mains=since >= round(60.0 * cut[1]),
        )

    def minute(self, minute: int) -> tuple[float, float, float, float, bool]:
        """Doors, load, room, humidity and mains of a minute counted from the start."""
        return (
            float(self.doors[minute % len(self.doors)]),
            float(self.load[minute % len(self.load)]),
            float(self.room[minute % len(self.room)]),
            float(self.humidity[minute % len(self.humidity)]),
            bool(self.mains[minute % len(self.mains)]),
        )

    def shut(self) -> Plan:
        """The same days with nobody there: door shut, nothing put in."""
        none = np.zeros(1)
        return replace(self, doors=none, load=none)

    def without_mains(self) -> Plan:
        """The same days without power, door shut."""
        return replace(self.shut(), mains=np.zeros(1, dtype=np.bool_))


def spread_openings(
    per_day: float, first: float = FIRST_OPENING, last: float = LAST_OPENING
) -> Array:
    """Openings of a day spread evenly between two hours of it; shape (1440,).

    A count that is not whole is shared out, so that the day's sum is the count.
    """
    found = np.zeros(MINUTES_PER_DAY)
    count = int(np.ceil(per_day))
    if count <= 0:
        return found
    hours = first + (last - first) * (np.arange(count) + 0.5) / count
    minutes = np.rint(hours * 60.0).astype(np.intp) % MINUTES_PER_DAY
    np.add.at(found, minutes, per_day / count)
    return found


def once(amount: float, hour: float) -> Array:
    """`amount` in the minute of `hour`, nothing else; shape (1440,)."""
    found = np.zeros(MINUTES_PER_DAY)
    found[round(hour * 60.0) % MINUTES_PER_DAY] = amount
    return found


def swing(coldest: float, warmest: float) -> Array:
    """A day's temperature [K] as a sine between two, warmest at three in the afternoon."""
    hours = np.arange(MINUTES_PER_DAY) / 60.0
    wave = np.cos(2.0 * np.pi * (hours - WARMEST_HOUR) / 24.0)
    return np.asarray(0.5 * (coldest + warmest) + 0.5 * (warmest - coldest) * wave)
