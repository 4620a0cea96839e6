"""What is said about a holdover: each finding on a case made for it, and silence otherwise."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from coldwright.fluids.filling import filling
from coldwright.plant.balance import TOO_COLD
from coldwright.verdict import report
from coldwright.verdict.checks import findings
from coldwright.verdict.checks.brine import brine_findings
from coldwright.verdict.checks.holdover import holdover_findings
from coldwright.verdict.holdover import holdover_figures
from support.assessed import altered, assessed


@pytest.fixture(scope="module")
def case():
    return assessed("holdover").case


def codes(found):
    return {finding.notice.code: finding.notice for finding in found}


def with_store(case, **changes):
    plant = case.translation.plant
    store = replace(plant.box.cold_side, **changes)
    system = replace(plant.system, cold_side=store)
    plant = replace(plant, box=replace(plant.box, cold_side=store), system=system)
    return replace(case, translation=replace(case.translation, plant=plant))


def filled(case, name, fraction=0.0, **changes):
    store = filling(name, fraction)
    return with_store(case, filling=store, brine=store.liquid, **changes)


def test_a_sound_store_is_only_cautioned(case):
    found = codes(holdover_findings(case))
    assert set(found) == {"frozen_tank", "store_colder"}
    assert "burst" in found["frozen_tank"].text
    assert all(finding.notice.severity != "danger" for finding in findings(case))


def test_a_brine_may_freeze_where_it_shall(case):
    assert case.operation.running.balance.evaluation.evaporator.wall_temperature[0] < 260.0
    assert list(brine_findings(case)) == []


def test_other_cold_sides_have_no_store():
    for name in ("galley", "larder"):
        other = assessed(name).case
        assert list(holdover_findings(other)) == []
        assert report(assessed(name))["holdover"] is None


def test_a_store_that_melts_too_warm(case):
    warm = replace(case.build.document.targets.air_temperature, value=273.65)
    targets = case.build.document.targets.model_copy(update={"air_temperature": warm})
    document = case.build.document.model_copy(update={"targets": targets})
    notice = codes(holdover_findings(replace(case, build=replace(case.build, document=document))))
    assert "cannot hold" in notice["store_too_warm"].text
    assert "store_colder" not in notice


def test_a_store_so_cold_that_goods_freeze(case):
    found = codes(holdover_findings(filled(case, "sodium chloride eutectic")))
    assert found["store_too_cold"].severity == "warning"
    assert found["salt_corrodes"].text.count("stainless steel") >= 1


def test_no_room_for_the_ice(case):
    full = with_store(case, headspace=np.asarray(0.005))
    found = codes(holdover_findings(full))
    assert found["ice_headspace"].severity == "danger"
    figures = holdover_figures(full.melting)
    store = full.translation.plant.box.cold_side
    growth = 1e3 * store.brine_volume * filling("propylene glycol", 0.1).growth_when_full
    assert figures["growth_when_full_L"] == pytest.approx(growth)


def test_a_machine_that_cannot_freeze_it(case):
    warm = altered(case, {"running": {"evaporating_C": -2.0}})
    assert "cannot freeze" in codes(holdover_findings(warm))["store_not_frozen"].text
    # an eutectic so cold that the machine only keeps up with the box
    cold = filled(case, "sodium chloride eutectic")
    assert "store_not_frozen" in codes(holdover_findings(cold))
    assert holdover_figures(cold.melting)["hours_to_freeze"] == math.inf


def test_a_machine_that_freezes_part_of_it(case):
    net = case.melting.freezing_heat.copy()
    found = case.melting
    taken = found.balance.evaluation.evaporator.heat.copy()
    taken[-1] -= net[-1] + 1.0  # the last fifth: a little less than comes in
    evaporator = replace(found.balance.evaluation.evaporator, heat=taken)
    evaluation = replace(found.balance.evaluation, evaporator=evaporator)
    short = replace(found, balance=replace(found.balance, evaluation=evaluation))
    told = codes(holdover_findings(altered(case, properties={"melting": short})))
    assert "about 80 % of the store" in told["store_partly_frozen"].text
    assert holdover_figures(short)["hours_to_freeze"] == math.inf
    assert "store_partly_frozen" not in codes(holdover_findings(case))


def test_a_machine_without_a_balance_freezes_nothing(case):
    found = case.melting
    reason = np.full_like(found.balance.reason, TOO_COLD)
    broken = replace(found, balance=replace(found.balance, reason=reason))
    figures = holdover_figures(broken)
    assert figures["hours_to_freeze"] == math.inf
    assert figures["evaporating_C"] is figures["capacity_W"] is None
    assert figures["hours_it_holds"] > 0.0


def test_a_thermostat_that_stops_before_it_is_full(case):
    cut_out = replace(case.build.document.thermostat.cut_out, value=270.0)
    control = case.build.document.thermostat.model_copy(update={"cut_out": cut_out})
    document = case.build.document.model_copy(update={"thermostat": control})
    early = replace(case, build=replace(case.build, document=document))
    assert "never fully charged" in codes(holdover_findings(early))["store_thermostat"].text
    assert "thermostat_setting" not in codes(findings(early))


def test_figures_go_together(case):
    figures = holdover_figures(case.melting)
    store = figures["store_kWh"] * 1e3
    alone = [
        holdover_figures(with_store(case, state_of_charge=np.asarray(share)).melting)
        for share in (0.1, 0.3, 0.5, 0.7, 0.9)
    ]
    freezing = [store / (each["capacity_W"] - each["heat_gain_freezing_W"]) for each in alone]
    assert figures["hours_to_freeze"] == pytest.approx(np.mean(freezing), rel=1e-6)
    holding = [store / each["heat_gain_melting_W"] for each in alone]
    assert figures["hours_it_holds"] == pytest.approx(np.mean(holding), rel=1e-6)
    mass = report(assessed("holdover"))["vessel"]["brine_kg"]
    assert store == pytest.approx(mass * figures["latent_heat_kJ_per_kg"] / 3.6)
    assert figures["evaporating_C"] < figures["melting_C"] < figures["air_while_melting_C"]
    assert figures["last_ice_C"] < figures["melting_C"] < figures["first_ice_C"]
    # the machine warms the back while it runs
    assert figures["heat_gain_freezing_W"] > figures["heat_gain_melting_W"]


def test_the_fuller_the_slower(case):
    hours = [
        holdover_figures(with_store(case, state_of_charge=np.asarray(share)).melting)
        for share in (0.2, 0.8)
    ]
    assert hours[0]["hours_to_freeze"] == pytest.approx(hours[1]["hours_to_freeze"], rel=1e-6)
    assert hours[0]["capacity_W"] > hours[1]["capacity_W"]
    assert hours[0]["evaporating_C"] > hours[1]["evaporating_C"]
    assert hours[0]["frozen_layer_m"] < hours[1]["frozen_layer_m"]
