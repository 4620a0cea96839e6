"""An assessment as plain data: every key carries its unit, every figure can be explained."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from coldwright.errors import Notice
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
from coldwright.verdict.states import energy, plain, settled, state_figures
from coldwright.verdict.vessel_figures import vessel_figures

SCHEMA = 1


def report(assessment: Assessment) -> dict[str, Any]:
    """The whole assessment as a JSON-ready dictionary (NaN and infinity become None)."""
    case = assessment.case
    judgement = assessment.judgement
    own = state_figures(case)
    state = own["cabinet"]["state"]
    runs = settled(case.operation.running.balance)
    data = {
        "report_schema": SCHEMA,
        **own,
        "verdict": judgement.verdict,
        "limit": judgement.limit,
        "sentences": list(judgement.sentences),
        "cold_side": _cold_side(case),
        "frost": frost_figures(case, state),
        "air_way": air_way_figures(case, state),
        "running": {
            **own["running"],
            "air_half_width_K": case.running_air_half_width if runs else None,
        },
        "cycling": {
            **own["cycling"],
            "run_fraction_half_width": case.run_fraction_half_width,
            "battery_Ah_per_day": electric_figures(case).battery_Ah_per_day,
        },
        "hottest_day": _hottest(case),
        "hot_side": _part(hot_side(case)),
        "lines": _part(lines(case)),
        "compressor": asdict(machine_stated(case)),
        "electrics": asdict(electric_figures(case)),
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
    return {key: plain(value) for key, value in data.items()}


def _cold_side(case: Case) -> dict[str, Any] | None:
    """The cold side in depth; None where the state that the box comes to has no balance."""
    figures = cold_side_figures(case)
    if figures is None:
        return None
    return {**asdict(figures), "finishes": [asdict(each) for each in finishes(case)]}


def _hottest(case: Case) -> dict[str, Any]:
    air = at_lane(case.hot.running.box.air_temperature, 0) - CELSIUS
    return {
        "room_C": case.hot_room - CELSIUS,
        "run_fraction": case.hot_run_fraction,
        "energy_kWh_per_day": energy(case.hot),
        "running_air_C": air if settled(case.hot.running.balance) else None,
        "while_on": case.machine("hot").as_report(is_brine=case.is_brine),
    }


def _part(found: HotSide | Lines | AuditFigures | None) -> dict[str, Any] | None:
    return None if found is None else asdict(found)


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
