"""The brine: does it stay liquid, and has it room to expand?"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from coldwright.errors import Notice
from coldwright.parts.cold_side.vessel import Vessel
from coldwright.verdict.case import Case, Finding
from coldwright.verdict.figures import CELSIUS, at_lane

# A coolant may stand as warm as this while the box is out of use [K].
WARMEST_STANDING = 313.15


def brine_findings(case: Case) -> Iterator[Finding]:
    """Findings about freezing and expansion; none without a brine."""
    vessel = case.translation.plant.box.cold_side
    if not isinstance(vessel, Vessel):
        return
    yield from _freezing(case, vessel)
    expansion = float(vessel.brine.expansion_from(263.15, WARMEST_STANDING))
    level = float(vessel.level)
    share = float(vessel.headspace) / (level + float(vessel.headspace))
    if share < expansion:
        text = (
            f"From -10 °C to 40 °C the brine grows by {expansion:.1%} of its volume and the space "
            f"above it is {share:.1%}: leave more, or a vent."
        )
        yield Finding(
            Notice("headspace", "warning", text, vessel.brine.source), "cold_side.vessel.headspace"
        )


def _freezing(case: Case, vessel: Vessel) -> Iterator[Finding]:
    freezing = vessel.brine.freezing_temperature
    held = case.machine("cycling")
    running = case.machine("running")
    at = case.temperature(freezing - CELSIUS)
    name = f"{case.build.cold_side.brine.fraction.text} " if case.build.cold_side.brine else ""
    what = f"Brine ({name}{vessel.brine.kind})"
    if held.balanced and freezing > held.evaporating_C + CELSIUS:
        text = (
            f"{what} must freeze below the evaporating temperature; it freezes at {at} and the "
            f"coil is at {case.temperature(held.evaporating_C)} while the target is held. (Use a "
            "stronger brine, or more outside surface so that the coil can be warmer.)"
        )
        yield Finding(
            Notice("brine_freezes", "danger", text, vessel.brine.source), "cold_side.brine.fraction"
        )
        return
    wall = at_lane(case.operation.running.balance.evaluation.evaporator.wall_temperature, 0)
    if running.balanced and freezing > wall:
        text = (
            f"{what} freezes at {at}. Should the machine never stop (a thermostat that sticks), "
            f"the coil comes down to {case.temperature(wall - CELSIUS)} and slush grows on it."
        )
        yield Finding(Notice("brine_slush", "warning", text, vessel.brine.source))
    margin = held.evaporating_C + CELSIUS - freezing
    if held.balanced and 0.0 <= margin < np.float64(3.0):
        text = (
            f"{what} freezes at {at}, within 3 K of the coil while the target is held; tables of "
            "such brines differ by 1 to 2 K."
        )
        yield Finding(Notice("brine_margin", "warning", text, vessel.brine.source))
