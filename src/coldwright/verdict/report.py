"""An assessment as plain data: every key carries its unit, every figure can be explained."""

from __future__ import annotations

from dataclasses import asdict, fields
from typing import Any, Literal

import numpy as np

from coldwright.errors import Notice
from coldwright.plant.balance import BALANCED, Balance
from coldwright.plant.operation import Operation
from coldwright.verdict.air_way_figures import air_way_figures
from coldwright.verdict.assess import Assessment
from coldwright.verdict.at_rest import at_rest_figures, at_rest_of
from coldwright.verdict.audit_figures import AuditFigures, audit_figures
from coldwright.verdict.case import Case
from coldwright.verdict.cold_side_figures import cold_side_figures
from coldwright.verdict.electrics import electric_figures, machine_stated
from coldwright.verdict.explain import sources_of
from coldwright.verdict.figures import CELSIUS, at_lane
from coldwright.verdict.finishes import finishes
from coldwright.verdict.frost_figures import frost_figures
from coldwright.verdict.holdover import holdover_figures
from coldwright.verdict.hot_side import HotSide, hot_side
from coldwright.verdict.lines import Lines, lines
from coldwright.verdict.vessel_figures import vessel_figures

SCHEMA = 1
HOURS_PER_DAY = 24.0


def report(assessment: Assessment) -> dict[str, Any]:
    """The whole assessment as a JSON-ready dictionary (NaN and infinity become None)."""
    case = assessment.case
    judgement = assessment.judgement
    state = cabinet_state(case)
    runs = _settled(case.operation.running.balance)
    data = {
        "report_schema": SCHEMA,
        "name": case.build.name,
        "revision": case.build.revision,
        "verdict": judgement.verdict,
        "limit": judgement.limit,
        "sentences": list(judgement.sentences),
        "room_C": at_lane(case.translation.room.temperature, 0) - CELSIUS,
        "target_air_C": case.build.targets.air_temperature.value - CELSIUS,
        "highest_run_fraction": case.build.targets.highest_run_fraction.value,
        "cabinet": {"state": state, **asdict(case.cabinet(state))},
        "cold_side": _cold_side(case),
        "frost": frost_figures(case, state),
        "air_way": air_way_figures(case, state),
        "running": {
            **case.machine("running").as_report(is_brine=case.is_brine),
            "air_C": case.cabinet("running").air_C if runs else None,
            "air_half_width_K": case.running_air_half_width if runs else None,
        },
        "cycling": _cycling(case),
        "hottest_day": _hottest(case),
        "pull_down": case.machine("pull_down").as_report(is_brine=case.is_brine),
        "hot_side": _part(hot_side(case)),
        "lines": _part(lines(case)),
        "compressor": asdict(machine_stated(case)),
        "electrics": asdict(electric_figures(case)),
        "charge": _charge(case, state),
        "at_rest": at_rest_figures(at_rest_of(case)),
        "audit": _part(audit_figures(case)),
        "vessel": vessel_figures(case),
        "holdover": holdover_figures(case.melting),
        "changes": [asdict(each) for each in judgement.helps],
        "remedies": [asdict(each) for each in assessment.remedies],
        "notices": [_notice(notice) for notice in assessment.notices],
        "faults": [asdict(fault) for fault in assessment.faults],
        "cautions": [_notice(notice) for notice in assessment.cautions],
        "assumed": [_assumed(entry) for entry in assessment.assumed],
        "sources": list(sources_of(case)),
    }
    return {key: _plain(value) for key, value in data.items()}


def _cold_side(case: Case) -> dict[str, Any] | None:
    """The cold side in depth; None where the state that the box comes to has no balance."""
    figures = cold_side_figures(case)
    if figures is None:
        return None
    return {**asdict(figures), "finishes": [asdict(each) for each in finishes(case)]}


def cabinet_state(case: Case) -> Literal["cycling", "running"]:
    """The state whose cabinet is shown: without a balance, what the target would ask for."""
    return case.state if case.machine("running").balanced else "cycling"


def _cycling(case: Case) -> dict[str, Any]:
    o = case.operation
    return {
        "run_fraction": case.run_fraction,
        "run_fraction_half_width": case.run_fraction_half_width,
        "energy_kWh_per_day": _energy(o),
        "battery_Ah_per_day": electric_figures(case).battery_Ah_per_day,
        "heat_needed_W": at_lane(o.cycling.box.heat, 0),
        "while_on": case.machine("cycling").as_report(is_brine=case.is_brine),
    }


def _hottest(case: Case) -> dict[str, Any]:
    air = at_lane(case.hot.running.box.air_temperature, 0) - CELSIUS
    return {
        "room_C": case.hot_room - CELSIUS,
        "run_fraction": case.hot_run_fraction,
        "energy_kWh_per_day": _energy(case.hot),
        "running_air_C": air if _settled(case.hot.running.balance) else None,
        "while_on": case.machine("hot").as_report(is_brine=case.is_brine),
    }


def _part(found: HotSide | Lines | AuditFigures | None) -> dict[str, Any] | None:
    return None if found is None else asdict(found)


def _settled(balance: Balance) -> bool:
    return int(at_lane(balance.reason, 0)) == BALANCED


def _energy(operation: Operation) -> float | None:
    """Energy of a day [kWh]; None where the state it rests on has no balance."""
    share = at_lane(operation.cycling.run_fraction, 0)
    point = operation.cycling if share <= 1.0 else operation.running
    return at_lane(operation.energy_kWh_per_day, 0) if _settled(point.balance) else None


def _charge(case: Case, state: str) -> dict[str, Any]:
    point = case.operation.cycling if state == "cycling" else case.operation.running
    inventory = point.balance.evaluation.inventory
    found = case.translation.charge is None
    settled = _settled(point.balance)
    return {
        "fill_g": case.charge * 1e3 if settled or not found else None,
        "found": found,
        "by_place_g": {
            place.name: at_lane(getattr(inventory, place.name), 0) * 1e3 if settled else None
            for place in fields(inventory)
        },
        "total_volume_cm3": at_lane(case.translation.plant.system.total_volume, 0) * 1e6,
    }


def _notice(notice: Notice) -> dict[str, str]:
    return {**asdict(notice), "source": citation_of(notice.source)}


def _assumed(entry: Any) -> dict[str, Any]:  # noqa: ANN401 (asdict of a dataclass)
    data = asdict(entry)
    data["kind"] = None if entry.kind is None else str(entry.kind)
    data["source"] = citation_of(entry.source)
    return data


def citation_of(text: str) -> str:
    """The citation that a source key stands for; any other text is its own source."""
    from coldwright.sources import sources  # noqa: PLC0415 (the table is read on first use)

    known = sources()
    return known[text].citation if text in known else text


def _plain(value: Any) -> Any:  # noqa: ANN401 (any JSON value)
    """`value` with NaN and infinity as None, NumPy scalars as Python's."""
    if isinstance(value, dict):
        return {key: _plain(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(each) for each in value]
    if isinstance(value, np.generic):
        value = value.item()
    if isinstance(value, float) and not np.isfinite(value):
        return None
    return value
