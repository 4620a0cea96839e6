"""The main job: a build in, a verdict out."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

import numpy as np

from coldwright.arrays import lanes
from coldwright.build.result import Assumed, Build
from coldwright.build.translation.plant import Translation, translate
from coldwright.errors import Fault, InputError, Notice
from coldwright.plant.operation import operate
from coldwright.shop.cautions import cautions_for
from coldwright.shop.refrigerant_safety import safety
from coldwright.units import Kind, System, format_quantity
from coldwright.verdict.alternatives import CHANGES, with_changes
from coldwright.verdict.case import Case, Finding
from coldwright.verdict.checks import findings
from coldwright.verdict.checks.circuit import FIND_IT, full_tubes, too_full
from coldwright.verdict.figures import at_lane
from coldwright.verdict.judgement import Judgement, judge
from coldwright.verdict.model_assumptions import model_assumptions
from coldwright.verdict.remedies import Remedy, remedies

Progress = Callable[[str], None]


@dataclass(frozen=True)
class Assessment:
    """A build, all that was worked out about it, and the judgement."""

    case: Case
    judgement: Judgement
    remedies: tuple[Remedy, ...]  # only for a build that does not surely hold
    notices: tuple[Notice, ...]
    faults: tuple[Fault, ...]  # of the input, as only the whole balance can show them
    cautions: tuple[Notice, ...]
    assumed: tuple[Assumed, ...]

    @property
    def build(self) -> Build:
        """The build that was assessed."""
        return self.case.build

    @property
    def exit_code(self) -> int:
        """0 holds or marginal, 1 does not hold, 2 a fault of the input."""
        if self.faults:
            return 2
        return 1 if self.judgement.verdict == "fails" else 0


def assess(
    build: Build,
    *,
    room_temperature: float | None = None,
    charge: float | None = None,
    system: System | None = None,
    with_remedies: bool = True,
    progress: Progress = lambda _: None,
) -> Assessment:
    """Work out `build` and judge it against its targets.

    `room_temperature` [K] stands for the site's design temperature and `charge` [kg] for the fill,
    where given; `system` chooses the units of the sentences. `with_remedies` seeks, for a build
    that does not surely hold, what alone would do it (the longest part of the work). Raises
    InputError when the build names something that does not exist, the room is no warmer than the
    target or the charge is more than both tubes hold. A build that cannot balance is a result with
    its reason.
    """
    progress("parts from the build")
    translation = translate(build, room_temperature=room_temperature, charge=charge)
    faults = (
        *_room_is_warmer(build, room_temperature, system or build.units),
        *charge_fits(build, translation, charge, system or build.units),
    )
    if faults:
        raise InputError(*faults)
    progress("balance, and what each change would do")
    plant = with_changes(translation.plant, CHANGES)
    count = 1 + len(CHANGES)
    target = np.full(count, float(translation.target))
    operation = operate(plant, translation.room, target, translation.charge, translation.superheat)
    progress("hottest day")
    given = at_lane(translation.room.temperature, 0)
    high = max(build.site.room_temperature_high.value, given)
    hot_room = replace(translation.room, temperature=lanes(high))
    hot = operate(
        translation.plant,
        hot_room,
        translation.target,
        lanes(at_lane(operation.charge, 0)),
        translation.superheat,
    )
    case = Case(build, translation, operation, hot, system or build.units)
    progress("checks")
    found = findings(case)
    judgement = judge(case, found)
    faults = tuple(_fault(build, finding) for finding in found if finding.contradicts)
    wanted = with_remedies and judgement.verdict != "holds" and not faults
    if wanted:
        progress("what alone would bring it within its target")
    return Assessment(
        case=case,
        judgement=judgement,
        remedies=remedies(case) if wanted else (),
        notices=(*build.remarks, *_told_once(found)),
        faults=faults,
        cautions=cautions_for(safety(build.refrigerant.name).safety_class),
        assumed=(*build.assumed, *model_assumptions(case)),
    )


def charge_fits(
    build: Build, translation: Translation, charge: float | None, system: System
) -> Iterator[Fault]:
    """Refuse a charge that would fill both tubes with liquid: no balance need be tried."""
    if translation.charge is None:
        return
    given = at_lane(translation.charge, 0)
    if given > full_tubes(translation):
        field = "refrigerant.fill" if charge is None else "--fill"
        line = None if charge is not None else build.line_of(field)
        yield Fault(field, too_full(translation, given, system), line, FIND_IT.rstrip("."))


def _room_is_warmer(
    build: Build, room_temperature: float | None, system: System
) -> Iterator[Fault]:
    """Refuse another room temperature that leaves nothing to do, as the file's own is refused."""
    target = build.targets.air_temperature.value
    if room_temperature is not None and room_temperature <= target:
        wanted, given = (
            format_quantity(each, Kind.temperature, system) for each in (target, room_temperature)
        )
        message = f"Room temperature must be above the target air temperature {wanted}"
        yield Fault("--room", f"{message}; received {given}.")


def _fault(build: Build, finding: Finding) -> Fault:
    """The finding as a fault of the input, with its line in the file."""
    return Fault(
        finding.field, finding.notice.text, build.line_of(finding.field), finding.hint.rstrip(".")
    )


def _told_once(found: tuple[Finding, ...]) -> list[Notice]:
    """Notices by code, each for the gravest state in which it was found; a hint closes its text."""
    first: dict[str, Notice] = {}
    for finding in found:
        notice = finding.notice
        if finding.hint:
            notice = replace(notice, text=f"{notice.text} {finding.hint}")
        if notice.code not in first:
            first[notice.code] = notice
        elif notice.code == "correlation_range":
            first[f"{notice.code}{len(first)}"] = notice
    return list(first.values())
