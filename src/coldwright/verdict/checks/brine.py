"""The brine: does it stay liquid, and has it room to expand?"""

from __future__ import annotations

from collections.abc import Iterator

from coldwright.errors import Notice
from coldwright.parts.cold_side.holdover import Holdover
from coldwright.parts.cold_side.vessel import Vessel
from coldwright.verdict.case import Case, Finding
from coldwright.verdict.figures import CELSIUS, at_lane, percent

# A coolant may stand as warm as this while the box is out of use [K].
WARMEST_STANDING = 313.15
COLDEST_STANDING = 263.15
# Tables of freezing points differ by 1 to 2 K; nearer than this to the coil is too near [K].
CLOSE = 3.0


def brine_findings(case: Case) -> Iterator[Finding]:
    """Findings about freezing and expansion; none without a brine, or where it shall freeze."""
    vessel = case.translation.plant.box.cold_side
    if not isinstance(vessel, Vessel) or isinstance(vessel, Holdover):
        return
    yield from _freezing(case, vessel)
    expansion = at_lane(vessel.brine.expansion_from(COLDEST_STANDING, WARMEST_STANDING), 0)
    level, headspace = at_lane(vessel.level, 0), at_lane(vessel.headspace, 0)
    share = headspace / (level + headspace)
    if share < expansion:
        cold, warm = (case.written(t, "temperature") for t in (COLDEST_STANDING, WARMEST_STANDING))
        text = (
            f"From {cold} to {warm} the brine grows by {100.0 * expansion:.1f} % of its volume and "
            f"the space above it is {100.0 * share:.1f} %: leave more, or a vent."
        )
        yield Finding(
            Notice("headspace", "warning", text, vessel.brine.source), "cold_side.vessel.headspace"
        )


def _freezing(case: Case, vessel: Vessel) -> Iterator[Finding]:
    freezing = vessel.brine.freezing_temperature
    held = case.machine(case.state)
    running = case.machine("running")
    at = case.temperature(freezing - CELSIUS)
    what = _named(case, vessel)
    if held.balanced and freezing > held.evaporating_C + CELSIUS:
        text = (
            f"{what} must freeze below the evaporating temperature; it freezes at {at}. "
            f"{case.words} the coil is at {case.temperature(held.evaporating_C)}."
        )
        hint = "Use a stronger brine, or more outside surface so that the coil can be warmer."
        notice = Notice("brine_freezes", "danger", text, vessel.brine.source)
        yield Finding(notice, "cold_side.brine.fraction", hint)
        return
    wall = at_lane(case.operation.running.balance.evaluation.evaporator.wall_temperature, 0)
    if running.balanced and freezing > wall:
        text = (
            f"{what} freezes at {at}. Should the machine never stop (a thermostat that sticks), "
            f"the coil comes down to {case.temperature(wall - CELSIUS)} and slush grows on it."
        )
        yield Finding(Notice("brine_slush", "warning", text, vessel.brine.source))
    margin = held.evaporating_C + CELSIUS - freezing
    if held.balanced and 0.0 <= margin < CLOSE:
        text = (
            f"{what} freezes at {at}. {case.words} the coil is only "
            f"{case.written(margin, 'temperature_difference')} warmer, and tables of such brines "
            f"differ by up to {case.written(2.0, 'temperature_difference')}."
        )
        yield Finding(Notice("brine_margin", "warning", text, vessel.brine.source))


def _named(case: Case, vessel: Vessel) -> str:
    """The brine as a sentence begins with it."""
    fill = case.build.cold_side.brine
    if fill is None or fill.fraction.value == 0.0:
        return "Water"
    return f"Brine ({percent(fill.fraction.value)} {vessel.brine.kind} by {fill.basis})"
