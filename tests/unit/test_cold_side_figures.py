"""The cold side in depth: its sentence, its coil, its fins and its finishes."""

from __future__ import annotations

import numpy as np
import pytest

from coldwright.build import loads
from coldwright.verdict import assess
from coldwright.verdict.cold_side_figures import cold_side_figures
from coldwright.verdict.finishes import SKINS, finishes
from coldwright.verdict.remedies import _share_wanted
from support.assessed import altered, assessed, changed


@pytest.fixture(scope="module")
def finned():
    """The larder with its fins, its charge stated."""
    text = changed("larder", ('fill = "find"', 'fill = "40 g"'))
    return assess(loads(text, revision="fins"), with_remedies=False).case


@pytest.mark.parametrize(
    ("name", "step", "advice"),
    [
        ("larder", "outside film", "more outside area (fins, a larger vessel) helps"),
        ("cheese", "outside film", "more plate in the air helps"),
        ("galley", "outside film", "more tube in the air helps"),
    ],
)
def test_the_sentence_names_the_greatest_step_and_what_helps(name, step, advice):
    found = cold_side_figures(assessed(name).case)
    assert max(found.steps_share, key=found.steps_share.get) == step
    assert sum(found.steps_share.values()) == pytest.approx(1.0, abs=1e-6)
    assert f"at the {step}: {advice}" in found.sentence


def test_without_a_balance_there_is_nothing_to_say():
    case = altered(assessed("galley").case, {"cycling": {"reason": "none"}})
    assert cold_side_figures(case) is None
    assert finishes(case) == ()


def test_the_coil_is_boiling_superheating_and_what_is_over():
    for name in ("larder", "cheese", "galley"):
        case = assessed(name).case
        coil = cold_side_figures(case).coil
        assert coil.boiling_m + coil.superheating_m + coil.spare_m == pytest.approx(coil.length_m)
        superheat = case.machine(case.state).evaporator_exit_superheat_K
        wanted = case.build.refrigerant.superheat.value
        # a coil that leaves less superheat than wanted is too short by some, and the reverse
        if abs(coil.spare_m) > 0.01 * coil.length_m:
            assert (coil.spare_m > 0.0) == (superheat > wanted)
        assert (coil.spare_holds_liquid_g > 0.0) == (coil.spare_m > 0.0)


def test_fins_carry_more_and_their_gap_is_beside_the_best(finned):
    fins = cold_side_figures(finned).fins
    assert fins.count == 16
    assert fins.conductance_W_per_K > 1.5 * fins.conductance_without_W_per_K
    assert 0.9 < fins.efficiency < 1.0  # metal, a few centimetres high, in still air
    assert 0.0 < fins.best_gap_mm < fins.clear_gap_mm
    assert cold_side_figures(assessed("larder").case).fins is None


def test_the_brighter_the_warmer_and_frost_on_a_drum_costs():
    found = finishes(assessed("larder").case)
    assert len(found) == len(SKINS)
    clean = [each for each in found if each.frost_mm == 0.0]
    assert [each.emissivity for each in clean] == sorted(each.emissivity for each in clean)
    assert np.all(np.diff([each.air_C for each in clean]) < 0.0)
    assert np.all(np.diff([each.heat_W for each in clean]) > 0.0)
    frosted = [each.air_C for each in found if each.finish == "painted"]
    assert np.all(np.diff(frosted) > 0.0)


def test_the_entered_finish_gives_the_box_as_it_is(monkeypatch):
    monkeypatch.setattr("coldwright.verdict.finishes.SKINS", (("wet", 0.0), ("painted", 1e-3)))
    case = assessed("cheese").case  # as wet as its build says, and too warm for frost
    (own,) = finishes(case)
    assert own.emissivity == pytest.approx(case.build.cold_side.emissivity.value)
    assert own.air_C == pytest.approx(case.cabinet(case.state).air_C, abs=2e-3)


def test_remedies_leave_the_hottest_day_a_rest():
    case = altered(
        assessed("galley").case, properties={"run_fraction": 0.4, "hot_run_fraction": 1.0}
    )
    allowed = case.build.targets.highest_run_fraction.value
    assert _share_wanted(case) == pytest.approx(min(allowed, 0.4))
    never = altered(
        assessed("galley").case, properties={"run_fraction": 0.4, "hot_run_fraction": 1.6}
    )
    assert _share_wanted(never) == pytest.approx(0.25)
