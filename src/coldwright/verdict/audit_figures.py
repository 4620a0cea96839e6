"""The books of an assessment: how far energy, mass and flow are from closing in its worst state."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from coldwright.arrays import Array, lanes
from coldwright.plant.audit import audit
from coldwright.plant.balance import BALANCED, Balance
from coldwright.plant.box import Room, conditions
from coldwright.verdict.case import Case
from coldwright.verdict.explanation import Explanation
from coldwright.verdict.figures import at_lane

CLOSED = 1e-6
SUMS = ("energy_closure", "mass_closure", "flow_closure")


@dataclass(frozen=True)
class AuditFigures:
    """Relative closures, each the worst of all settled states, and in which state it was."""

    energy_closure: float
    mass_closure: float
    flow_closure: float
    energy_worst_in: str
    mass_worst_in: str
    flow_worst_in: str

    @property
    def open(self) -> tuple[str, ...]:
        """The sums that do not close."""
        return tuple(name for name in SUMS if getattr(self, name) > CLOSED)


def audit_figures(case: Case) -> AuditFigures | None:
    """Audit every settled state of `case`; None where none has settled."""
    worst: dict[str, tuple[float, str]] = {}
    for state, balance, room, source in _states(case):
        if int(at_lane(balance.reason, 0)) != BALANCED:
            continue
        found = audit(
            case.translation.plant.system,
            conditions(room, source),
            balance.evaluation,
            case.operation.charge if "hot" not in state else case.hot.charge,
        )
        for name in SUMS:
            here = (at_lane(getattr(found, name), 0), state)
            worst[name] = max(worst.get(name, here), here)
    if not worst:
        return None
    energy, mass, flow = (worst[name] for name in SUMS)
    return AuditFigures(energy[0], mass[0], flow[0], energy[1], mass[1], flow[1])


def _states(case: Case) -> Iterator[tuple[str, Balance, Room, Array]]:
    """Every balance of the assessment with its room and source."""
    room = case.translation.room
    hot_room = replace(room, temperature=lanes(case.hot_room))
    for state, point, place in (
        ("cycling", case.operation.cycling, room),
        ("running", case.operation.running, room),
        ("hottest_day", case.hot.cycling, hot_room),
        ("hottest_day_running", case.hot.running, hot_room),
    ):
        yield state, point.balance, place, point.box.source_temperature
    yield "pull_down", case.operation.pull_down, room, lanes(room.temperature)


EXPLAINED: Mapping[str, Explanation] = {
    "audit.energy_closure": Explanation(
        "Power and heat that come in less what goes out, over the whole machine and over each "
        "part, added up again by states and by outside conductances; the worst, over what comes "
        "in."
    ),
    "audit.mass_closure": Explanation(
        "Refrigerant of all places added up again, over the charge, less one.", ("charge.fill_g",)
    ),
    "audit.flow_closure": Explanation(
        "What the capillary passes by one more march, over what the compressor draws, less one."
    ),
}
