"""Where to set the thermostat: which bulb temperatures hold the target, and how wide apart."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array
from coldwright.build.result import Build
from coldwright.clock.network import AIR
from coldwright.clock.run import Course, run
from coldwright.errors import Fault, InputError
from coldwright.fluids.refrigerants import refrigerant
from coldwright.fluids.thin_air import thermostat_shift
from coldwright.units import System
from coldwright.verdict.day import SETTLING_MINUTES, OnClock, on_clock
from coldwright.verdict.figures import at_lane

Progress = Callable[[str], None]

SHIFTS = np.array([-9.0, -5.0, -2.0, 0.0, 2.0, 5.0, 9.0])
"""Settings tried first [K]: those of the build moved by so much."""

DIFFERENCES = np.array([2.0, 4.0, 6.0, 8.0, 10.0, 14.0])
"""Cut-in less cut-out [K] tried about the setting that holds the target; controls differ by 5 to
14 K, those that cut in at one temperature by 8 K at least (supplier pages, read)."""

SHORTEST_CYCLE = 10.0
"""Minutes from start to start under which a difference is not advised: common practice, no
source."""

COUNTED = 2 * 1440
FILL = "R134a"
"""Fill of the bulb taken for the effect of altitude."""


@dataclass(frozen=True)
class Setting:
    """A thermostat's setting and what it brings; temperatures [K]."""

    cut_in: float
    cut_out: float
    air_mean: float
    air_least: float
    air_greatest: float
    run_fraction: float
    starts_per_hour: float
    energy_J_per_day: float


@dataclass(frozen=True)
class ThermostatAdvice:
    """Settings about the one that holds the target.

    tried: the build's own moved up and down; about: differences about the middle that holds the
    target, empty where none tried does; altitude_shift [K]: how much too cold a dial set at sea
    level switches here.
    """

    clock: OnClock
    tried: tuple[Setting, ...]
    about: tuple[Setting, ...]
    altitude_shift: float

    @property
    def advised(self) -> Setting | None:
        """The narrowest difference whose cycles are long enough and whose air holds."""
        most = 60.0 / SHORTEST_CYCLE
        return next((each for each in self.about if 0.0 < each.starts_per_hour <= most), None)


def thermostat_advice(
    build: Build,
    *,
    room_temperature: float | None = None,
    charge: float | None = None,
    system: System | None = None,
    progress: Progress = lambda _: None,
) -> ThermostatAdvice:
    """Run the usual days of `build` with other settings side by side.

    Raises InputError as `run_day` does, and for a bulb on the return line, whose temperature tells
    of the machine rather than of the box.
    """
    if build.thermostat.bulb == "return line":
        told = "A bulb on the return line follows the machine, not the box; no setting is sought."
        hint = "put the bulb in the air, on the plate or in the vessel's well"
        raise InputError(Fault("thermostat.bulb", told, build.line_of("thermostat.bulb"), hint))
    clock = on_clock(
        build,
        room_temperature=room_temperature,
        charge=charge,
        system=system,
        progress=progress,
    )
    progress("settings side by side")
    control = clock.parts.control
    middle = 0.5 * (at_lane(control.cut_in, 0) + at_lane(control.cut_out, 0))
    wide = at_lane(control.cut_in, 0) - at_lane(control.cut_out, 0)
    tried = _settings(clock, middle + SHIFTS, np.full(len(SHIFTS), wide))
    held = _middle_that_holds(tried, clock.target)
    about: tuple[Setting, ...] = ()
    if held is not None:
        progress("differences side by side")
        about = _settings(clock, np.full(len(DIFFERENCES), held), DIFFERENCES)
    shift = thermostat_shift(refrigerant(FILL), np.asarray(middle), clock.plant.pressure)
    return ThermostatAdvice(clock, tried, about, at_lane(shift, 0))


def _settings(clock: OnClock, middles: Array, differences: Array) -> tuple[Setting, ...]:
    """Days of each setting, one lane each."""
    cut_in, cut_out = middles + 0.5 * differences, middles - 0.5 * differences
    with_them = clock.with_settings(cut_in, cut_out)
    course = run(
        with_them.plant,
        with_them.warm(),
        clock.plan,
        SETTLING_MINUTES + COUNTED,
        count_from=SETTLING_MINUTES,
        rows_at=np.zeros(0, dtype=np.intp),
    )
    return tuple(_setting(course, cut_in, cut_out, lane) for lane in range(len(middles)))


def _setting(course: Course, cut_in: Array, cut_out: Array, lane: int) -> Setting:
    tally = course.tally
    hours = tally.hours
    return Setting(
        cut_in=float(cut_in[lane]),
        cut_out=float(cut_out[lane]),
        air_mean=at_lane(tally.mean(AIR), lane),
        air_least=at_lane(tally.least[AIR], lane),
        air_greatest=at_lane(tally.greatest[AIR], lane),
        run_fraction=at_lane(tally.run_fraction, lane),
        starts_per_hour=at_lane(tally.starts, lane) / hours,
        energy_J_per_day=at_lane(tally.energy, lane) * 24.0 / hours,
    )


def _middle_that_holds(tried: tuple[Setting, ...], target: float) -> float | None:
    """Middle of the setting [K] that brings the mean air to its target, straight between two tried.

    None where the target is not between what the tried settings bring, or only where the machine
    never stops.
    """
    air = np.array([each.air_mean for each in tried])
    middles = np.array([0.5 * (each.cut_in + each.cut_out) for each in tried])
    switching = np.array([each.starts_per_hour > 0.0 for each in tried])
    air, middles = air[switching], middles[switching]
    if air.size < 2 or not air.min() <= target <= air.max():
        return None
    order = np.argsort(air)
    return float(np.interp(target, air[order], middles[order]))
