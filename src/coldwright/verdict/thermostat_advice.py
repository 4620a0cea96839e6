"""Where to set the thermostat: which bulb temperatures hold the target, and how wide apart."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array
from coldwright.build.knob import Scale, at_altitude
from coldwright.build.result import Build
from coldwright.clock.network import AIR
from coldwright.clock.run import run
from coldwright.errors import Fault, InputError
from coldwright.units import System
from coldwright.verdict.day import SETTLING_MINUTES, OnClock, in_percent, on_clock
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


FREEZING = 273.15
POSITIONS = np.linspace(0.0, 1.0, 9)
"""Shares of a knob's scale that are tried."""


@dataclass(frozen=True)
class Setting:
    """A thermostat's setting and what it brings; temperatures [K].

    share: where the knob stands, 0 warm to 1 cold; None where no knob is told.
    """

    cut_in: float
    cut_out: float
    air_mean: float
    air_least: float
    air_greatest: float
    low_shelf_least: float
    run_fraction: float
    starts_per_hour: float
    energy_J_per_day: float
    share: float | None = None


@dataclass(frozen=True)
class Limits:
    """Whether a setting stays inside what a box and its motor should see."""

    shelf_unfrozen: bool
    starts: bool
    running: bool

    @property
    def all(self) -> bool:
        """Whether all are kept."""
        return self.shelf_unfrozen and self.starts and self.running


@dataclass(frozen=True)
class ThermostatAdvice:
    """Settings about the one that holds the target.

    tried: the build's own moved up and down, or the knob's scale from warm to cold; about:
    differences about the middle that holds the target, or the knob where it holds it; empty where
    none tried does; altitude_shift [K]: how much too cold a dial set at sea level switches here.
    """

    clock: OnClock
    tried: tuple[Setting, ...]
    about: tuple[Setting, ...]
    altitude_shift: float

    @property
    def has_knob(self) -> bool:
        """Whether the build tells its control's scale."""
        return self.tried[0].share is not None

    @property
    def advised(self) -> Setting | None:
        """The narrowest difference whose cycles are long enough and whose air holds."""
        if self.has_knob:
            return self.about[0] if self.about else None
        most = 60.0 / SHORTEST_CYCLE
        return next((each for each in self.about if 0.0 < each.starts_per_hour <= most), None)

    def limits(self, setting: Setting) -> Limits:
        """What of the usual limits a setting keeps; in a freezer the shelf may freeze."""
        most = self.clock.build.targets.highest_run_fraction.value
        return Limits(
            shelf_unfrozen=setting.low_shelf_least >= FREEZING or self.clock.target < FREEZING,
            starts=setting.starts_per_hour <= 60.0 / SHORTEST_CYCLE,
            running=setting.run_fraction <= most,
        )


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
    control, pressure = clock.parts.control, at_lane(clock.plant.pressure, 0)
    cut_in, cut_out = at_lane(control.cut_in, 0), at_lane(control.cut_out, 0)
    middle = 0.5 * (cut_in + cut_out)
    vapour = build.thermostat.fill != "liquid"
    shift = at_lane(at_altitude(middle, pressure, vapour=vapour), 0) - middle
    scale = Scale.of(build.thermostat, pressure)
    if scale is not None:
        tried, about = _along_the_scale(clock, scale, progress)
    else:
        tried, about = _about_the_setting(clock, middle, cut_in - cut_out, progress)
    return ThermostatAdvice(clock, tried, about, shift)


def _along_the_scale(
    clock: OnClock, scale: Scale, progress: Progress
) -> tuple[tuple[Setting, ...], tuple[Setting, ...]]:
    """The knob from its warm to its cold end, and where it holds the target."""
    told = in_percent(progress, "the knob from end to end")
    tried = _settings(clock, scale.settings(POSITIONS), told, POSITIONS)
    held = _where_it_holds(tried, POSITIONS, clock.target)
    if held is None:
        return tried, ()
    there = np.array([held])
    told = in_percent(progress, "the knob where it holds the target")
    return tried, _settings(clock, scale.settings(there), told, there)


def _about_the_setting(
    clock: OnClock, middle: float, wide: float, progress: Progress
) -> tuple[tuple[Setting, ...], tuple[Setting, ...]]:
    """The build's setting moved up and down, and differences about the middle that holds."""
    middles = middle + SHIFTS
    told = in_percent(progress, "settings side by side")
    tried = _settings(clock, (middles + 0.5 * wide, middles - 0.5 * wide), told)
    held = _where_it_holds(tried, middles, clock.target)
    if held is None:
        return tried, ()
    told = in_percent(progress, "differences side by side")
    around = held + 0.5 * DIFFERENCES, held - 0.5 * DIFFERENCES
    return tried, _settings(clock, around, told)


def _settings(
    clock: OnClock,
    switches: tuple[Array, Array],
    progress: Callable[[float], None],
    shares: Array | None = None,
) -> tuple[Setting, ...]:
    """Days of each cut-in and cut-out, one lane each; interrupted they say nothing."""
    cut_in, cut_out = switches
    with_them = clock.with_settings(cut_in, cut_out)
    course = run(
        with_them.plant,
        with_them.warm(),
        clock.plan,
        SETTLING_MINUTES + COUNTED,
        count_from=SETTLING_MINUTES,
        rows_at=np.zeros(0, dtype=np.intp),
        progress=progress,
    )
    if not course.complete:
        raise KeyboardInterrupt
    tally = course.tally
    return tuple(
        Setting(
            cut_in=float(cut_in[lane]),
            cut_out=float(cut_out[lane]),
            air_mean=at_lane(tally.mean(AIR), lane),
            air_least=at_lane(tally.least[AIR], lane),
            air_greatest=at_lane(tally.greatest[AIR], lane),
            low_shelf_least=at_lane(tally.coldest_shelf, lane),
            run_fraction=at_lane(tally.run_fraction, lane),
            starts_per_hour=at_lane(tally.starts, lane) / tally.hours,
            energy_J_per_day=at_lane(tally.energy, lane) * 24.0 / tally.hours,
            share=None if shares is None else float(shares[lane]),
        )
        for lane in range(len(cut_in))
    )


def _where_it_holds(tried: tuple[Setting, ...], at: Array, target: float) -> float | None:
    """Where between `at` the mean air [K] comes to its target, straight between two tried.

    None where the target is not between what the tried settings bring, or only where the machine
    never stops.
    """
    air = np.array([each.air_mean for each in tried])
    switching = np.array([each.starts_per_hour > 0.0 for each in tried])
    air, where = air[switching], at[switching]
    if air.size < 2 or not air.min() <= target <= air.max():
        return None
    order = np.argsort(air)
    return float(np.interp(target, air[order], where[order]))
