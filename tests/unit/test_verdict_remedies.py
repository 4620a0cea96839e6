"""What alone would bring a box within its target: tried again, it does."""

import numpy as np
import pytest

from coldwright.build import loads, rewrite
from coldwright.plant.operation import operate
from coldwright.verdict import assess, report
from coldwright.verdict.alternatives import changed_plant
from support.builds import build_text

ALLOWED = 0.19


@pytest.fixture(scope="module")
def assessment():
    """The galley box asked to run a little less than it does."""
    text = rewrite(build_text("galley"), {"targets.highest_run_fraction": f"{ALLOWED:.0%}"})
    return assess(loads(text))


def test_a_remedy_tried_alone_brings_the_allowed_share(assessment):
    assert assessment.judgement.verdict == "marginal"
    found = {remedy.key: remedy for remedy in assessment.remedies}
    keys = [key for key in ("insulation", "cold_surface", "compressor") if key in found]
    assert keys
    translation = assessment.case.translation
    factors = {
        key: np.array([found[key].factor if k == key else 1.0 for k in keys]) for key in keys
    }
    plant = changed_plant(translation.plant, factors)
    target = np.full(len(keys), float(translation.target))
    again = operate(plant, translation.room, target, translation.charge, translation.superheat)
    assert again.cycling.run_fraction == pytest.approx(ALLOWED, abs=0.004)


def test_smallest_step_first_and_in_shop_terms(assessment):
    steps = [abs(np.log(remedy.factor)) for remedy in assessment.remedies]
    assert steps == sorted(steps)
    assert all(remedy.words for remedy in assessment.remedies)
    rows = report(assessment)["remedies"]
    assert [row["key"] for row in rows] == [remedy.key for remedy in assessment.remedies]


def test_a_box_that_holds_needs_none():
    held = assess(loads(build_text("galley")))
    assert held.judgement.verdict == "holds"
    assert held.remedies == ()
