"""What goods in the way of the air, smaller openings or a duct would make of the shelves."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from coldwright.arrays import Array
from coldwright.build.schema.cabinet import Cabinet as CabinetSection
from coldwright.build.translation.box import air_path_of
from coldwright.parts.cold_box import BoxState, box_at_air
from coldwright.parts.conditions import Surroundings
from coldwright.parts.lane_tools import take_lanes
from coldwright.plant.box import surroundings
from coldwright.verdict.case import Case
from coldwright.verdict.explanation import Explanation
from coldwright.verdict.figures import CELSIUS, at_lane

AS_BUILT, BLOCKED, HALVED, DUCT = range(4)
PREFIXES = {
    AS_BUILT: "",
    BLOCKED: "if_half_blocked_",
    HALVED: "if_openings_halved_",
    DUCT: "with_duct_",
}
FIGURES = ("flow_m3_per_h", "coldest_shelf_C", "warmest_shelf_C")
LEAST_DUCT = 0.05
"""Room below the lower opening under which no duct is worth its tin [m]."""

CLOSED = 1e-6
"""A box whose balances close no better than this is not told."""

_SAME_AIR = "The box settled anew with its mean air held the same: "
_INPUTS = ("cabinet.air_C", "cabinet.heat_gain_W")
_WAYS = {
    BLOCKED: (
        "on every shelf half of what is free is closed by goods.",
        ("box_idelchik_orifice", "box_squire_1938"),
    ),
    HALVED: (
        "both openings of the partition have half their area.",
        ("ashrae_fundamentals_ventilation",),
    ),
    DUCT: (
        "a duct carries the cold air down from the lower opening, half of the room left in height; "
        "by Bernoulli the column grows by that and the heating centre goes down with it.",
        ("ashrae_fundamentals_ventilation", "box_assumed_heating_centre"),
    ),
}
EXPLAINED: Mapping[str, Explanation] = {
    "air_way.flow_m3_per_h": Explanation(
        "As cabinet.air_flow_m3_per_h.", ("cabinet.air_flow_m3_per_h",), ("box_squire_1938",)
    ),
    "air_way.coldest_shelf_C": Explanation(
        "As cabinet.coldest_shelf_C.", ("cabinet.coldest_shelf_C",)
    ),
    "air_way.warmest_shelf_C": Explanation(
        "As cabinet.warmest_shelf_C.", ("cabinet.warmest_shelf_C",)
    ),
    "air_way.with_duct_height_m": Explanation(
        "Half of the inside height that the openings and a duct leave."
    ),
    **{
        f"air_way.{PREFIXES[way]}{figure}": Explanation(_SAME_AIR + words, _INPUTS, keys)
        for way, (words, keys) in _WAYS.items()
        for figure in FIGURES
    },
}


def air_way_figures(case: Case, state: str) -> dict[str, float | None]:
    """Flow and shelves as built and with each change; None where a change does not apply.

    In one space there are no openings to halve and nothing to hang a duct from.
    """
    section = case.build.cabinet
    duct = _duct(section)
    box = _changed(case, state, duct)
    divided = section.air_path.kind == "divided"
    applies = {
        AS_BUILT: True,
        BLOCKED: section.air_path.shelves.value > 0.0,
        HALVED: divided,
        DUCT: divided and duct >= LEAST_DUCT,
    }
    found: dict[str, float | None] = {"with_duct_height_m": duct if applies[DUCT] else None}
    for lane, prefix in PREFIXES.items():
        known = applies[lane] and at_lane(box.residual, lane) < CLOSED
        values = (
            at_lane(box.air.volume_flow, lane) * 3600.0,
            at_lane(box.coldest_shelf_temperature, lane) - CELSIUS,
            at_lane(box.warmest_shelf_temperature, lane) - CELSIUS,
        )
        for figure, value in zip(FIGURES, values, strict=True):
            found[f"{prefix}{figure}"] = value if known else None
    return found


def _duct(section: CabinetSection) -> float:
    """Length [m] of the duct that is tried."""
    way = section.air_path
    left = section.inside_height.value - way.height_difference.value - way.duct_height.value
    return 0.5 * max(left, 0.0)


def _changed(case: Case, state: str, duct: float) -> BoxState:
    """The box with a lane for each way of the air, its mean air held as the state has it."""
    point = case.operation.cycling if state == "cycling" else case.operation.running
    way = case.build.cabinet.air_path
    blocked = way.shelf_blocked.value
    halves = np.array([1.0, 1.0, 0.5, 1.0])
    path = air_path_of(
        case.build.cabinet,
        lower_opening_area=way.lower_opening_area.value * halves,
        upper_opening_area=way.upper_opening_area.value * halves,
        duct_height=way.duct_height.value + np.array([0.0, 0.0, 0.0, duct]),
        shelf_blocked=np.array([blocked, 0.5 * (1.0 + blocked), blocked, blocked]),
    )
    box = case.translation.plant.box
    target: Array = np.full(4, at_lane(point.box.air_temperature, 0))
    return box_at_air(box.cabinet, path, box.cold_side, target, _around(case, state))


def _around(case: Case, state: str) -> Surroundings:
    """What the cabinet stands in, the machine's warmth included where it has a balance."""
    point = case.operation.cycling if state == "cycling" else case.operation.running
    room = case.translation.room
    if not case.machine(state).balanced:
        return surroundings(room)
    lanes = np.size(point.run_fraction)
    one = take_lanes(point.balance.evaluation, np.array([0]), lanes)
    return surroundings(room, one, at_lane(point.run_fraction, 0))
