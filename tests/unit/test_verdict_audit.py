"""The audit in an assessment: silent where the books close, a danger where they do not."""

from __future__ import annotations

from dataclasses import replace

import pytest

from coldwright.verdict.audit_figures import CLOSED, SUMS, audit_figures
from coldwright.verdict.checks.audit import audit_findings
from support.assessed import assessed


@pytest.mark.parametrize("name", ["galley", "larder", "holdover"])
def test_a_settled_assessment_closes(name):
    case = assessed(name).case
    found = audit_figures(case)
    assert all(0.0 <= getattr(found, name) < CLOSED for name in SUMS)
    assert found.open == ()
    assert list(audit_findings(case)) == []


def test_figures_that_do_not_belong_together_are_a_danger():
    case = assessed("galley").case
    held = case.operation.cycling
    e = held.balance.evaluation
    wrong = replace(e, evaporator=replace(e.evaporator, heat=1.01 * e.evaporator.heat))
    point = replace(held, balance=replace(held.balance, evaluation=wrong))
    broken = replace(case, operation=replace(case.operation, cycling=point))
    (finding,) = audit_findings(broken)
    assert finding.notice.code == "audit_open"
    assert finding.notice.severity == "danger"
    assert "energy to" in finding.notice.text
    found = audit_figures(broken)
    assert found.energy_worst_in == "cycling"
    assert found.mass_closure < CLOSED
