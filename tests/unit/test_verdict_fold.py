"""What is told of a second state and of heat that finds no place."""

from __future__ import annotations

import numpy as np
import pytest

from coldwright.arrays import lanes
from coldwright.plant.fold import SecondState
from coldwright.verdict.checks import fold
from support.assessed import altered, assessed

WET = {"evaporator_exit_superheat_K": 1.0}


@pytest.fixture
def second(monkeypatch):
    """A second state put in by hand, 2 K warmer and wet."""

    def put(exists, quality=0.98):
        found = SecondState(np.array([exists]), *map(lanes, ([255.0], [90.0], [0.0], [quality])))
        monkeypatch.setattr(fold, "_second", lambda _: found)

    return put


def near_flooding(name="larder"):
    case = assessed(name).case
    return altered(case, {case.state: WET})


def test_a_second_state_is_told_with_what_moves_it_away(second):
    second(exists=True)
    (found,) = fold.fold_findings(near_flooding())
    assert found.notice.code == "second_state"
    for words in ("two ways", "liquid coming back", "307 Btu/h", "A few grams"):
        assert words in found.notice.text


def test_a_dry_second_state_brings_no_liquid(second):
    second(exists=True, quality=1.0)
    (found,) = fold.fold_findings(near_flooding())
    assert "liquid" not in found.notice.text


def test_one_state_alone_is_not_worth_a_word(second):
    second(exists=False)
    assert list(fold.fold_findings(near_flooding())) == []


def test_a_dry_coil_is_not_looked_at(monkeypatch):
    monkeypatch.setattr(fold, "_second", lambda _: pytest.fail("looked for"))
    case = assessed("larder").case
    dry = altered(case, {case.state: {"evaporator_exit_superheat_K": 15.0}})
    assert list(fold.fold_findings(dry)) == []
