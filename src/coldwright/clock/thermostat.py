"""The thermostat on the clock: a bulb that lags, two temperatures, a rest before the next start."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array
from coldwright.clock.network import AIR, NODE

BulbPlace = Literal["vessel well", "plate", "air", "return line"]
HeadPlace = Literal["room", "cabinet", "cold side", "none"]
PLACES: dict[BulbPlace, int | None] = {
    "vessel well": NODE,
    "plate": NODE,
    "air": AIR,
    "return line": None,
}


@dataclass(frozen=True)
class Thermostat:
    """Temperatures [K] at the bulb, lag and rest [s]; one value per lane.

    head: where the head of a vapour-filled control stands, `none` for one with liquid.
    """

    place: BulbPlace
    head: HeadPlace
    cut_in: Array
    cut_out: Array
    lag: Array
    rest: Array

    def taken(self, wanted: NDArray[np.intp]) -> Thermostat:
        """Only the `wanted` lanes."""
        return Thermostat(
            self.place,
            self.head,
            self.cut_in[wanted],
            self.cut_out[wanted],
            self.lag[wanted],
            self.rest[wanted],
        )


def head_temperature(control: Thermostat, node: Array, air: Array, room: Array) -> Array:
    """Temperature [K] of a vapour-filled control's head; infinite for a liquid fill."""
    if control.head == "none":
        return np.full_like(air, np.inf)
    return np.asarray({"room": room, "cabinet": air, "cold side": node}[control.head])


def sensed(control: Thermostat, bulb: Array, node: Array, air: Array, room: Array) -> Array:
    """Temperature [K] that the control obeys.

    The little liquid of a vapour fill condenses in the coldest part of bulb, tube and head, and its
    pressure is that part's saturation: a head colder than the bulb takes over (cross-ambient
    effect; supplier pages, read).
    """
    return np.asarray(np.minimum(bulb, head_temperature(control, node, air, room)))


def wanted(
    control: Thermostat,
    felt: Array,
    running: NDArray[np.bool_],
    standing: Array,
    mains: bool,
) -> NDArray[np.bool_]:
    """Whether each lane should run now; felt: `sensed`; standing: time since it stopped [s].

    It stops at the cut-out, starts at the cut-in once it has rested, and stands without mains.
    """
    start = (felt >= control.cut_in) & (standing >= control.rest)
    return np.asarray(np.where(running, felt > control.cut_out, start) & mains)


def share_until_switch(
    control: Thermostat,
    before: Array,
    after: Array,
    running: NDArray[np.bool_],
    standing: Array,
    step: Array,
) -> Array:
    """Share of a step [s] after which a lane switches, infinite where it does not within it.

    before, after: `sensed` [K] at both ends, straight between. A lane that is warm enough but rests
    starts when its rest is over.
    """
    fall = np.minimum(after - before, -1e-9)
    stops = np.where(after <= control.cut_out, (control.cut_out - before) / fall, np.inf)
    rise = np.maximum(after - before, 1e-9)
    until_warm = np.maximum(control.cut_in - before, 0.0) / rise
    warm = np.where(after >= control.cut_in, until_warm, np.inf)
    starts = np.maximum(warm, (control.rest - standing) / step)
    share = np.maximum(np.where(running, stops, starts), 0.0)
    return np.asarray(np.where(share <= 1.0, share, np.inf))
