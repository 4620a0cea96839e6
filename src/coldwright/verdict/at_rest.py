"""The stopped machine: its pressure, where the liquid lies, what the oil takes up.

Between two runs the cold side is the coldest place and collects the liquid; the oil, which takes
hours to fill, still holds what it held. In a box that has been off for long everything stands at
the room's temperature with its oil saturated, and on a cold night the shell, the lightest part, is
the coldest: then all the liquid may end in the oil.
"""

from __future__ import annotations

from dataclasses import asdict, dataclass

import numpy as np

from coldwright.arrays import lanes
from coldwright.build.result import Build
from coldwright.build.translation.plant import Translation
from coldwright.parts.resting import Resting, RestingPlaces, rest
from coldwright.plant.operation import Point
from coldwright.plant.system import SealedSystem
from coldwright.verdict.case import Case
from coldwright.verdict.explanation import Explanation
from coldwright.verdict.figures import CELSIUS, at_lane

GRAM = 1e3
# Refrigerant in the oil by mass over which its film is doubtful, and over which it is gone.
THIN_OIL, NO_OIL = 0.30, 0.74
LIMIT_SOURCES = ("oil_dilution_limit", "oil_dilution_manual")


@dataclass(frozen=True)
class RestState:
    """One settled state of the stopped machine; names carry their unit."""

    room_C: float
    cold_side_C: float
    pressure_Pa: float
    all_vapour: bool
    vapour_g: float
    dissolved_g: float
    liquid_g: float
    liquid_in: str  # the coldest place; "anywhere" where all is equally warm, "nowhere": none
    oil_share: float  # refrigerant by mass in the oil
    worst_oil_share: float  # the same with all free liquid in the shell


@dataclass(frozen=True)
class Coil:
    """What the evaporator's tube can hold of the liquid between two runs."""

    holds_g: float  # filled with liquid
    filled_share: float  # of its volume by the liquid that gathers; above 1 it runs over
    charge_share: float  # of its volume if all of the charge were liquid in it
    spare_m: float  # tube beyond what boils while the machine runs
    spare_holds_g: float
    return_line_holds_g: float
    in_return_line_g: float
    beyond_return_line_g: float  # reaches the shell at the start
    accumulator_cm3: float  # what would hold all that runs over


@dataclass(frozen=True)
class AtRest:
    """The stopped machine in the four states that matter, and its coil."""

    between_runs: RestState
    in_the_room: RestState
    hottest_day: RestState
    coolest_room: RestState
    coil: Coil
    oil_g: float
    thin_oil_share: float  # limits, by mass
    no_oil_share: float
    shell_may_be_coldest: bool  # the coolest room is colder than the cold side while it works

    @property
    def runs_over(self) -> bool:
        """Whether the liquid has no room in the coil between two runs."""
        return self.coil.filled_share > 1.0


def at_rest(build: Build, translation: Translation, point: Point, charge: float) -> AtRest | None:
    """The stopped machine of `build` that holds `charge` [kg]; None where that is not known.

    `point` is the state it is stopped from: its source's temperature and the dry part of its coil.
    Between runs the pressures have met (minutes); in the three others the oil is saturated (hours).
    """
    if not np.isfinite(charge):
        return None
    system = translation.plant.system
    source = at_lane(point.box.source_temperature, 0)
    room = at_lane(translation.room.temperature, 0)
    low = build.site.room_temperature_low.value
    high = max(build.site.room_temperature_high.value, room)
    oil_mass = at_lane(system.volumes.oil_mass, 0)
    e = point.balance.evaluation
    held = min(at_lane(e.inventory.oil, 0), charge)
    soon = rest(system.refrigerant, charge - held, places_of(system, room, source))
    states = [_state(soon, oil_mass, held, room, source)]
    # On a cold night the box inside may still be as warm as it works: then the shell is coldest.
    for t, cold_side in ((room, room), (high, high), (low, max(low, source))):
        places = places_of(system, t, cold_side)
        late = rest(system.refrigerant, charge, places, system.oil, oil_mass)
        states.append(_state(late, oil_mass, 0.0, t, cold_side))
    if not all(np.isfinite(state.pressure_Pa) for state in states):
        return None
    between, standing, hot, cool = states
    dry = system.evaporator.length * (1.0 - e.evaporator.wet_share)
    return AtRest(
        between_runs=between,
        in_the_room=standing,
        hottest_day=hot,
        coolest_room=cool,
        coil=_coil(system, soon, charge, at_lane(dry, 0)),
        oil_g=oil_mass * GRAM,
        thin_oil_share=THIN_OIL,
        no_oil_share=NO_OIL,
        shell_may_be_coldest=low < source,
    )


def places_of(system: SealedSystem, room: float, cold_side: float) -> RestingPlaces:
    """The volumes of `system` with its cold side and everything else at these temperatures [K]."""
    warm = system.total_volume - system.evaporator.volume - system.compressor.shell_volume
    return RestingPlaces(
        cold_volume=system.evaporator.volume,
        cold_temperature=lanes(cold_side),
        shell_volume=system.compressor.shell_volume,
        shell_temperature=lanes(room),
        room_volume=warm,
        room_temperature=lanes(room),
    )


def _state(found: Resting, oil: float, held: float, room: float, cold_side: float) -> RestState:
    """Figures of `found`, beside which the oil [kg] holds as much as `held` [kg] already."""
    dissolved = at_lane(found.dissolved_mass, 0) + held
    most = dissolved + at_lane(found.liquid_mass, 0)
    return RestState(
        room_C=room - CELSIUS,
        cold_side_C=cold_side - CELSIUS,
        pressure_Pa=at_lane(found.pressure, 0),
        all_vapour=bool(found.all_vapour),
        vapour_g=at_lane(found.vapour_mass, 0) * GRAM,
        dissolved_g=dissolved * GRAM,
        liquid_g=at_lane(found.liquid_mass, 0) * GRAM,
        liquid_in=_where(found, room, cold_side),
        oil_share=dissolved / (oil + dissolved),
        worst_oil_share=most / (oil + most),
    )


def _where(found: Resting, room: float, cold_side: float) -> str:
    """Where the liquid lies."""
    if bool(found.all_vapour):
        return "nowhere"
    if room == cold_side:
        return "anywhere"
    return "cold side" if cold_side < room else "shell"


def _coil(system: SealedSystem, found: Resting, charge: float, dry: float) -> Coil:
    """The coil between two runs, lane 0 of `found`; `dry` [m] of it does not boil while running."""
    liquid_density = at_lane(
        system.refrigerant.saturated(found.coldest_temperature).liquid_density, 0
    )
    volume = at_lane(system.evaporator.volume, 0)
    line = at_lane(system.suction_line.volume, 0)
    in_coil = 0.0 if found.shell_is_coldest else at_lane(found.liquid_volume, 0)
    over = max(in_coil - volume, 0.0)
    spare = max(dry, 0.0)
    return Coil(
        holds_g=volume * liquid_density * GRAM,
        filled_share=in_coil / volume,
        charge_share=charge / (liquid_density * volume),
        spare_m=spare,
        spare_holds_g=spare * at_lane(system.evaporator.area, 0) * liquid_density * GRAM,
        return_line_holds_g=line * liquid_density * GRAM,
        in_return_line_g=min(over, line) * liquid_density * GRAM,
        beyond_return_line_g=max(over - line, 0.0) * liquid_density * GRAM,
        accumulator_cm3=over * 1e6,
    )


def at_rest_of(case: Case) -> AtRest | None:
    """The stopped machine of an assessed case."""
    o = case.operation
    point = o.cycling if case.state == "cycling" else o.running
    if case.translation.charge is None and not case.machine(case.state).balanced:
        return None
    return at_rest(case.build, case.translation, point, case.charge)


def at_rest_figures(found: AtRest | None) -> dict[str, object] | None:
    """The figures by their report key."""
    return None if found is None else asdict(found)


RESTING = "Gas fills every volume at one pressure, oil takes up its share, the rest is liquid"
EXPLAINED = {
    "at_rest.between_runs": Explanation(
        f"{RESTING} in the coldest place: the cold side as cold as it works, all else as the room, "
        "the oil holding what it held while running.",
        ("charge.fill_g", "room_C"),
        ("bell_2014_coolprop", "calc_settled_mass"),
    ),
    "at_rest.in_the_room": Explanation(
        f"{RESTING}: everything as warm as the room.",
        ("charge.fill_g", "room_C"),
        ("bell_2014_coolprop", "calc_settled_mass"),
    ),
    "at_rest.hottest_day": Explanation(
        f"{RESTING}: everything as warm as the hottest room.",
        ("charge.fill_g", "hottest_day.room_C"),
        ("bell_2014_coolprop", "calc_settled_mass"),
    ),
    "at_rest.coolest_room": Explanation(
        f"{RESTING}: everything as cold as the coolest room, but a cold side that works warmer. "
        "Worst for the oil: all the liquid lies in the shell.",
        ("charge.fill_g",),
        ("bell_2014_coolprop", "calc_settled_mass", *LIMIT_SOURCES),
    ),
    "at_rest.coil": Explanation(
        "Volume of the evaporator's tube and of the suction line against the liquid that gathers "
        "between two runs; the spare length is what stays dry while running.",
        ("at_rest.between_runs.liquid_g", "charge.fill_g"),
        ("bell_2014_coolprop", "calc_settled_mass"),
    ),
    "at_rest.oil_g": Explanation("Oil as entered or of the class, times its density."),
    "at_rest.thin_oil_share": Explanation(
        "Refrigerant in the oil by mass over which its film is doubtful.",
        (),
        ("oil_dilution_limit",),
    ),
    "at_rest.no_oil_share": Explanation(
        "Refrigerant in the oil by mass where oil over refrigerant is 0.35.",
        (),
        ("oil_dilution_manual",),
    ),
}
