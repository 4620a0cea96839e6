"""A control's knob as a scale of its range: from a position to cut-in and cut-out, and back."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.build.completion import Completion
from coldwright.build.defaults import PRACTICE
from coldwright.build.paths import Path
from coldwright.units import atmosphere_at

if TYPE_CHECKING:
    from coldwright.build.schema.circuit import Thermostat

FILL = "R134a"
"""What a vapour-filled bulb is taken to hold, for the effect of altitude: assumed, no source."""

WIDTH = "1 K"
"""Half-width of a setting that is read off a knob: common practice, no source."""

MIDDLE = "50 %"
THERMOSTAT: Path = ("thermostat",)
KNOB: Path = (*THERMOSTAT, "knob")
_MARK = re.compile(r"^\s*(\d+(?:[.,]\d+)?)\s*(?:of|/)\s*(\d+)\s*$")
_SHARE = re.compile(r"^\s*(\d+(?:[.,]\d+)?)\s*%\s*$")


def share_of(position: str) -> float | None:
    """From a position as written to a share, 0 the warm end and 1 the cold; None for any other.

    "3 of 7" is the third of seven marks of which the first is the warmest; "40 %" is the share.
    """
    mark, percent = _MARK.match(position), _SHARE.match(position)
    found = None
    if mark and int(mark[2]) > 1:
        found = (float(mark[1].replace(",", ".")) - 1.0) / (int(mark[2]) - 1.0)
    elif percent:
        found = float(percent[1].replace(",", ".")) / 100.0
    return found if found is not None and 0.0 <= found <= 1.0 else None


def position_of(share: float, like: str | None) -> str:
    """A share as a position in the manner of `like`: marks to the nearest tenth, or per cent."""
    mark = _MARK.match(like or "")
    if mark is None:
        return f"{100.0 * share:.0f} %"
    return f"{1.0 + share * (int(mark[2]) - 1.0):.1f} of {mark[2]}"


def at_altitude(setting: FloatOrArray, pressure: FloatOrArray, *, vapour: bool) -> Array:
    """Where a control marked [K] at sea level switches in air of `pressure` [Pa].

    A liquid fill pushes so hard that the air does not count (from memory). A setting for which the
    fill's tables have no pressure is left as it is.
    """
    marked = lanes(setting)
    if not vapour:
        return marked
    from coldwright.fluids.refrigerants import refrigerant  # noqa: PLC0415 (reads its tables)
    from coldwright.fluids.thin_air import thermostat_shift  # noqa: PLC0415 (as above)

    shift = thermostat_shift(refrigerant(FILL), marked, pressure)
    return np.asarray(marked + np.where(np.isfinite(shift), shift, 0.0))


@dataclass(frozen=True)
class Scale:
    """A control's range [K] in air of `pressure` [Pa]; one of the last two is None."""

    warmest: float
    coldest: float
    pressure: float
    vapour: bool
    difference: float | None
    fixed_cut_in: float | None

    @classmethod
    def of(cls, section: Thermostat, pressure: float) -> Scale | None:
        """The scale of a build's control, None where it tells none."""
        knob = section.knob
        if knob is None:
            return None
        apart, fixed = knob.difference, knob.fixed_cut_in
        return cls(
            knob.cut_out_warmest.value,
            knob.cut_out_coldest.value,
            pressure,
            section.fill != "liquid",
            None if apart is None else apart.value,
            None if fixed is None else fixed.value,
        )

    def settings(self, share: FloatOrArray) -> tuple[Array, Array]:
        """Cut-in and cut-out [K] where the knob stands at `share`."""
        marked = self.warmest + lanes(share) * (self.coldest - self.warmest)
        start = marked + (self.difference or 0.0)
        if self.fixed_cut_in is not None:
            start = np.full_like(marked, self.fixed_cut_in)
        return self._here(start), self._here(marked)

    def share_at(self, cut_out: float) -> float:
        """The share that brings a cut-out [K], outside 0 to 1 where the range does not reach it."""
        warm, cold = (float(each) for each in self.settings(np.array([0.0, 1.0]))[1])
        return (cut_out - warm) / (cold - warm)

    def _here(self, marked: Array) -> Array:
        return at_altitude(marked, self.pressure, vapour=self.vapour)


def fill_from_knob(build: Completion) -> None:
    """Cut-in and cut-out out of the knob's scale, at the site's altitude."""
    if build.table(KNOB) is None:
        return
    if not build.has((*THERMOSTAT, "cut_out")):
        build.fill((*KNOB, "position"), MIDDLE, PRACTICE)
    position, scale = build.text((*KNOB, "position")), scale_in(build)
    share = share_of(position)
    stated = build.number((*THERMOSTAT, "cut_out"))
    if scale is not None and not position and stated is not None:
        share = scale.share_at(stated)
    settings = None if scale is None or share is None else scale.settings(share)
    told = f"knob at {position}" if position else "the knob where it brings the cut-out"
    for index, key in enumerate(("cut_in", "cut_out")):
        text = None
        if settings is not None:
            text = f"{float(settings[index]) - 273.15:.2f} °C ± {WIDTH}"
        build.fill((*THERMOSTAT, key), text, f"{told}, at the site's altitude")


def scale_in(build: Completion) -> Scale | None:
    """The scale as far as a build that is being completed tells it."""
    ends = build.numbers((*KNOB, "cut_out_warmest"), (*KNOB, "cut_out_coldest"))
    apart, fixed = (build.number((*KNOB, key)) for key in ("difference", "fixed_cut_in"))
    altitude = build.number(("site", "altitude"))
    if ends is None or altitude is None or (apart is None) == (fixed is None):
        return None
    vapour = build.text((*THERMOSTAT, "fill")) != "liquid"
    return Scale(ends[0], ends[1], float(atmosphere_at(altitude)), vapour, apart, fixed)
