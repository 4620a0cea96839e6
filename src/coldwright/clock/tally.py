"""What a run adds up, and its rows."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array
from coldwright.clock import cold_table as film
from coldwright.clock.advance import (
    FLOWS,
    GAIN,
    MACHINE,
    MELTING,
    MIGRATION,
    ON,
    POWER,
    SETTLED,
    SURFACE,
    TO_SURFACE,
)
from coldwright.clock.network import AIR, CONTENTS
from coldwright.clock.plant import Moment
from coldwright.plant import machine_map as read

if TYPE_CHECKING:
    from coldwright.clock.run import Passed

MINUTE = 60.0
NODES = 6


class Tally:
    """Sums over a run; arrays over lanes.

    Heat sums [J] run over everything; energy, times, means and extremes (at the minutes' ends) over
    the minutes that count for the day. First times are minutes from the start, infinite where it
    never came.
    """

    def __init__(self, lanes: int, stored: Array) -> None:
        """Nothing yet; stored: heat [J] that plant holds at the start."""
        self.at_start = stored
        self.flows = np.zeros((len(FLOWS), lanes))
        self.churned = np.zeros(lanes)
        self.brought = np.zeros(lanes)
        self.minutes = 0
        self.day_flows = np.zeros((len(FLOWS), lanes))
        self.day_brought = np.zeros(lanes)
        self.day_nodes = np.zeros((NODES, lanes))
        self.least = np.full((NODES, lanes), np.inf)
        self.greatest = np.full((NODES, lanes), -np.inf)
        self.coldest_shelf = np.full(lanes, np.inf)
        self.starts = np.zeros(lanes)
        self.to_target, self.contents_to_target, self.to_cut_out = np.full((3, lanes), np.inf)

    def add(
        self, passed: Passed, moment: Moment, minute: int, *, counted: bool, target: Array | float
    ) -> None:
        """Add one minute and where it ended."""
        flows, nodes = passed.flows, moment.state.nodes
        self.flows += flows
        self.brought += passed.brought
        self.churned += np.abs(flows[GAIN]) + np.abs(flows[MACHINE])
        first = minute + 1.0
        for times, came in (
            (self.to_cut_out, passed.stopped),
            (self.to_target, nodes[AIR] <= target),
            (self.contents_to_target, nodes[CONTENTS] <= target),
        ):
            times[came & (times > first)] = first
        if not counted:
            return
        self.minutes += 1
        self.day_flows += flows
        self.day_brought += passed.brought
        self.day_nodes += nodes
        np.minimum(self.least, nodes, out=self.least)
        np.maximum(self.greatest, nodes, out=self.greatest)
        low, _ = film.shelves(
            flows[SURFACE],
            flows[TO_SURFACE],
            passed.films[film.RETURN_OFFSET],
            passed.films[film.CAPACITY_FLOW],
        )
        np.minimum(self.coldest_shelf, low, out=self.coldest_shelf)
        self.starts += passed.started

    def closure(self, stored: Array) -> Array:
        """Heat left over, as a share of all that flowed; stored: heat [J] held at the end.

        What came in, less what was taken out, melted and stored.
        """
        f = self.flows
        balance = MINUTE * (f[GAIN] - f[MACHINE] + f[MIGRATION] - f[MELTING]) + self.brought
        left = balance - (stored - self.at_start)
        return np.asarray(np.abs(left) / np.maximum(MINUTE * self.churned, 1.0))

    @property
    def hours(self) -> float:
        """Hours that count."""
        return self.minutes / 60.0

    @property
    def energy(self) -> Array:
        """Electrical energy [J]."""
        return np.asarray(MINUTE * self.day_flows[POWER])

    @property
    def run_fraction(self) -> Array:
        """Share of the time that the machine ran."""
        return np.asarray(self.day_flows[ON] / self.minutes)

    @property
    def removed(self) -> Array:
        """Heat [J] that the machine took out, what migrated back counted off."""
        return np.asarray(MINUTE * (self.day_flows[MACHINE] - self.day_flows[MIGRATION]))

    @property
    def gained(self) -> Array:
        """Heat [J] that came in, by door and warm goods too."""
        return np.asarray(MINUTE * self.day_flows[GAIN] + self.day_brought)

    @property
    def settled(self) -> Array:
        """Moisture [kg] on the cold surface."""
        return np.asarray(MINUTE * self.day_flows[SETTLED])

    def mean(self, node: int) -> Array:
        """Mean temperature [K] of a node."""
        return np.asarray(self.day_nodes[node] / self.minutes)


RAW = (
    "on",
    "power",
    "node",
    "air",
    "contents",
    "condenser",
    "shell",
    "bulb",
    "surface",
    "to_surface",
    "return_offset",
    "capacity_flow",
    "evaporating",
    "condensing",
    "return_gas",
    "discharge_gas",
    "shell_target",
    "felt_room",
    "returned",
    "humidity",
    "frost",
    "room",
    "running",
)


@dataclass
class Records:
    """Rows of `RAW` at the ends of chosen minutes: `values[row, RAW, lane]`."""

    minutes: NDArray[np.intp]
    values: Array
    row: int = 0

    @classmethod
    def empty(cls, lanes: int, minutes: NDArray[np.intp]) -> Records:
        """Room for the rows at `minutes`, which rise."""
        return cls(minutes, np.empty((len(minutes), len(RAW), lanes)))

    def add(self, minute: int, passed: Passed, moment: Moment) -> None:
        """Keep this minute's end where it is one of the chosen."""
        if self.row >= len(self.minutes) or self.minutes[self.row] != minute:
            return
        flows, machine, films = passed.flows, passed.machine, passed.films
        to = self.values[self.row]
        to[0], to[1] = flows[ON], flows[POWER]
        to[2:8] = moment.state.nodes
        to[8], to[9] = flows[SURFACE], flows[TO_SURFACE]
        to[10], to[11] = films[film.RETURN_OFFSET], films[film.CAPACITY_FLOW]
        to[12], to[13] = machine[read.EVAPORATING], machine[read.CONDENSING]
        to[14], to[15] = machine[read.RETURN_GAS], machine[read.DISCHARGE_GAS]
        to[16], to[17] = machine[read.SHELL], machine[read.FELT_ROOM]
        to[18], to[19], to[20] = moment.returned, moment.humidity, moment.frost
        to[21], to[22] = passed.room, moment.running
        self.row += 1

    def cut(self, minute: int) -> Records:
        """Only the rows up to `minute`."""
        kept = int(np.searchsorted(self.minutes, minute, side="right"))
        return Records(self.minutes[:kept], self.values[:kept], kept)

    def __getitem__(self, name: str) -> Array:
        """One of `RAW`, `[row, lane]`."""
        return self.values[:, RAW.index(name)]
