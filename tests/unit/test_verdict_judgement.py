"""Holds, marginal or fails, on constructed cases."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from coldwright.errors import Notice
from coldwright.plant.balance import REASONS, TOO_COLD
from coldwright.verdict.case import Finding
from coldwright.verdict.judgement import judge
from support.assessed import altered, assessed


@pytest.fixture(scope="module")
def case():
    return assessed("galley").case


def judged(case, run_fraction, half_width, hot, found=()):
    properties = {
        "run_fraction": run_fraction,
        "run_fraction_half_width": half_width,
        "hot_run_fraction": hot,
    }
    return judge(altered(case, properties=properties), found)


@pytest.mark.parametrize(
    ("run_fraction", "half_width", "hot", "verdict", "said"),
    [
        (0.3, 0.1, 0.6, "holds", "HOLDS"),
        (0.4999, 0.0, 1.0, "holds", "HOLDS"),
        (0.45, 0.1, 0.8, "marginal", "passes the allowed share"),
        (0.6, 0.1, 0.9, "marginal", "more than is allowed"),
        (0.3, 0.1, 1.2, "marginal", "the hottest day is too much"),
        (0.3, float("inf"), 0.5, "marginal", "cannot be said"),
        (1.2, 0.1, 2.0, "fails", "DOES NOT HOLD"),
    ],
)
def test_verdicts(case, run_fraction, half_width, hot, verdict, said):
    # The galley's build allows 50 % of the time.
    found = judged(case, run_fraction, half_width, hot)
    assert found.verdict == verdict
    assert any(said in sentence for sentence in found.sentences)
    assert not any("nan" in sentence or " inf" in sentence for sentence in found.sentences)


def test_a_build_that_holds_has_no_limit(case):
    assert judged(case, 0.3, 0.1, 0.6).limit == "none"
    assert judged(case, 0.6, 0.1, 0.6).limit in {each.key for each in judge(case).helps}


def test_no_balance_fails_with_its_reason(case):
    running = case.operation.running
    reason = np.full(running.balance.reason.shape, TOO_COLD)
    running = replace(running, balance=replace(running.balance, reason=reason))
    broken = replace(case, operation=replace(case.operation, running=running))
    found = judge(broken)
    assert (found.verdict, found.limit) == ("fails", REASONS[TOO_COLD])
    assert REASONS[TOO_COLD] in found.sentences[0]


def test_a_contradiction_fails_and_is_named(case):
    notice = Notice("brine_freezes", "danger", "Brine must not freeze.", "this balance")
    found = judge(case, (Finding(notice, "cold_side.brine.fraction", "Use more."),))
    assert (found.verdict, found.limit) == ("fails", "brine_freezes")
    assert "brine must not freeze" in found.sentences[0]


def test_a_danger_beside_a_holding_box_is_pointed_at(case):
    notice = Notice("room_too_small", "danger", "The room is small.", "this balance")
    assert "must not be built" in judged(case, 0.3, 0.1, 0.6, (Finding(notice),)).sentences[-1]
    assert "must not be built" not in judged(case, 0.3, 0.1, 0.6).sentences[-1]


def test_helps_are_ordered_by_what_they_do(case):
    helps = judge(case).helps
    shares = [each.run_fraction for each in helps]
    assert shares == sorted(shares)
    assert shares[0] < case.run_fraction


def test_nothing_that_makes_it_worse_is_called_a_help(case):
    best = min(each.run_fraction for each in judge(case).helps)
    found = judged(case, 0.5 * best, 0.01, 0.6)
    assert found.sentences[-1] == "None of the changes tried would help."
