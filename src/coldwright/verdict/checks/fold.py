"""Does the machine's state stand alone, or may it flip into another one?"""

from __future__ import annotations

from collections.abc import Iterator

from coldwright.arrays import lanes
from coldwright.errors import Notice
from coldwright.parts.lane_tools import take_lanes
from coldwright.plant.box import conditions
from coldwright.plant.fold import SecondState, second_state
from coldwright.verdict.case import Case, Finding
from coldwright.verdict.figures import CELSIUS, at_lane

# The exchanger's heat has no place at rest where a pass still moves more than this share of it.
RESTLESS = 1e-4
# A coil this dry at its end [K] is far from liquid coming back: no second state is looked for.
NEAR_FLOODING = 12.0
MOVES_IT_AWAY = (
    "A few grams less or more, a shorter joint with the suction line or one nearer the capillary's "
    "end moves it away."
)


def fold_findings(case: Case) -> Iterator[Finding]:
    """Findings about a second state, and about heat that finds no place in the capillary."""
    if not case.machine(case.state).balanced:
        return
    o = case.operation
    point = o.cycling if case.state == "cycling" else o.running
    if at_lane(point.balance.evaluation.capillary.misplaced, 0) > RESTLESS:
        text = (
            f"{case.words} the return gas cools the capillary so strongly that liquid forms anew "
            f"in it: what it passes is uncertain by some per cent more. {MOVES_IT_AWAY}"
        )
        yield Finding(Notice("restless_capillary", "info", text, "this balance"))
        return
    now = case.machine(case.state)
    joined = case.build.return_exchanger.length.value > 0.0
    if not joined or now.evaporator_exit_superheat_K > NEAR_FLOODING:
        return
    second = _second(case)
    if bool(second.exists[0]):
        wet = at_lane(second.return_quality, 0) < 1.0
        text = (
            f"{case.words} this charge may settle in two ways: evaporating at "
            f"{case.temperature(now.evaporating_C)}, or at "
            f"{case.temperature(at_lane(second.evaporating_temperature, 0) - CELSIUS)} with "
            f"{case.written(at_lane(second.capacity, 0), 'heat_flow')} of cooling"
            f"{' and liquid coming back' if wet else ''}; it may flip. {MOVES_IT_AWAY}"
        )
        yield Finding(Notice("second_state", "warning", text, "this balance"))


def _second(case: Case) -> SecondState:
    """The second state beside the one that the box comes to (its own lane alone)."""
    o = case.operation
    point = o.cycling if case.state == "cycling" else o.running
    source = lanes([at_lane(point.box.source_temperature, 0)])
    at = conditions(case.translation.room, source)
    first = take_lanes(point.balance, lanes([0]).astype(int), len(point.balance.reason))
    return second_state(case.translation.plant.system, at, lanes([case.charge]), first)
