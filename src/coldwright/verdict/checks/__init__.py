"""Checks of a worked-out case: each gives findings, none changes a figure."""

from __future__ import annotations

from coldwright.verdict.case import Case, Finding
from coldwright.verdict.checks.audit import audit_findings
from coldwright.verdict.checks.box import box_findings
from coldwright.verdict.checks.brine import brine_findings
from coldwright.verdict.checks.circuit import circuit_findings
from coldwright.verdict.checks.electrics import electric_findings
from coldwright.verdict.checks.fold import fold_findings
from coldwright.verdict.checks.gas import gas_findings
from coldwright.verdict.checks.holdover import holdover_findings
from coldwright.verdict.checks.machine import machine_findings
from coldwright.verdict.checks.ranges import range_findings
from coldwright.verdict.checks.rest import rest_findings
from coldwright.verdict.checks.tubes import tube_findings

ALL = (
    gas_findings,
    brine_findings,
    holdover_findings,
    machine_findings,
    electric_findings,
    circuit_findings,
    rest_findings,
    fold_findings,
    box_findings,
    range_findings,
    audit_findings,
    tube_findings,
)
GRAVITY = {"danger": 0, "warning": 1, "info": 2}


def findings(case: Case) -> tuple[Finding, ...]:
    """All findings of `case`: what contradicts the input, then the gravest first."""
    found = [finding for check in ALL for finding in check(case)]

    def order(finding: Finding) -> tuple[bool, int]:
        return not finding.contradicts, GRAVITY[finding.notice.severity]

    return tuple(sorted(found, key=order))
