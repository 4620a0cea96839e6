"""The quick answer while a maker types: the build's own states, without changes or intervals."""

from __future__ import annotations

from typing import Any

from coldwright.build.result import Build
from coldwright.build.translation.plant import translate
from coldwright.errors import InputError
from coldwright.plant.operation import operate
from coldwright.verdict.assess import charge_fits
from coldwright.verdict.case import Case
from coldwright.verdict.states import plain, state_figures


def glance(build: Build) -> dict[str, Any]:
    """Figures of `build` by the report's own keys, as far as its own states give them.

    Nothing is judged: no interval, no hottest day, no change, no notice; `assess` has them.
    Raises InputError when the build names something that does not exist or the charge is more
    than both tubes hold.
    """
    translation = translate(build)
    faults = tuple(charge_fits(build, translation, None, build.units))
    if faults:
        raise InputError(*faults)
    operation = operate(
        translation.plant,
        translation.room,
        translation.target,
        translation.charge,
        translation.superheat,
    )
    # No state of the hottest day is read below: the design day's own stands in its place.
    case = Case(build, translation, operation, operation, build.units)
    figures: dict[str, Any] = plain(state_figures(case))
    return figures
