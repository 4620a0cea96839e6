"""The report as data: complete, strict JSON, every figure explained, every source known."""

from __future__ import annotations

import json
import math
from dataclasses import replace

import numpy as np
import pytest

from coldwright.build import loads
from coldwright.errors import InputError
from coldwright.plant.balance import REASONS, TOO_COLD
from coldwright.sources import sources
from coldwright.verdict import assess, explanation_of, inputs_of, report, value_at
from coldwright.verdict.explain import FIGURES, explained_paths
from coldwright.verdict.explain_machine import MACHINE
from support.assessed import altered, assessed, changed

NAMES = ("galley", "larder", "holdover")
MACHINE_KEYS = {
    "evaporating_C",
    "condensing_C",
    "suction_Pa",
    "discharge_Pa",
    "mass_flow_kg_per_h",
    "capacity_W",
    "power_W",
    "current_A",
    "evaporator_exit_superheat_K",
    "subcooling_K",
    "return_gas_C",
    "discharge_gas_C",
    "residual",
}
# Parts of the report that are words, or lists explained by their own sentences and sources.
NOT_FIGURES = ("changes", "notices", "faults", "cautions", "assumed", "sources", "sentences")


@pytest.fixture(scope="module", params=NAMES)
def data(request):
    return report(assessed(request.param))


def with_lead(assessment):
    """The assessment with a thin lead on the mains machine."""
    thin = loads(changed("galley", ("[compressor]\n", LEAD)))
    return replace(assessment, case=replace(assessment.case, build=thin))


LEAD = '[compressor]\nlead = { length = "12 m", gauge = 18, fuse = "6 A" }\n'


def numeric_leaves(data, path=""):
    for key, value in data.items():
        here = f"{path}.{key}" if path else key
        if isinstance(value, dict):
            yield from numeric_leaves(value, here)
        elif isinstance(value, int | float) and not isinstance(value, bool):
            yield here, value


def test_the_keys_that_readers_rely_on(data):
    assert data["verdict"] in ("holds", "marginal", "fails")
    assert isinstance(data["limit"], str)
    cabinet = {"heat_gain_W", "conductance_W_per_K", "air_C", "coldest_shelf_C", "warmest_shelf_C"}
    assert cabinet <= set(data["cabinet"])
    for state in (data["running"], data["pull_down"], data["cycling"]["while_on"]):
        assert set(state) >= MACHINE_KEYS
    assert {"run_fraction", "energy_kWh_per_day"} <= set(data["cycling"])
    assert {"fill_g", "by_place_g", "total_volume_cm3"} <= set(data["charge"])
    for notice in data["notices"]:
        assert set(notice) == {"code", "severity", "text", "source"}
    assert data["assumed"]
    assert data["sources"]


def test_a_vessel_reports_its_brine_and_a_bare_tube_its_compartment():
    assert "brine_C" in report(assessed("larder"))["running"]
    bare = report(assessed("galley"))["running"]
    assert "compartment_C" in bare
    assert "brine_C" not in bare


def test_strict_json_without_nan(data):
    assert json.loads(json.dumps(data, allow_nan=False)) == data


def test_every_number_is_explained_and_its_inputs_exist(data):
    figures = {key: value for key, value in data.items() if key not in NOT_FIGURES}
    found = dict(numeric_leaves(figures))
    assert len(found) > 100
    for path in found:
        assert explanation_of(path).formula
        for name in inputs_of(path):
            assert value_at(data, name) is not None, (path, name)


def test_every_source_of_an_explanation_is_known():
    known = set(sources())
    for name, entry in {**FIGURES, **MACHINE}.items():
        assert set(entry.sources) <= known, name


def test_every_explained_path_stands_in_a_report():
    finned = changed("larder", ('fill = "find"', 'fill = "40 g"'))
    reports = [report(assessed(name)) for name in (*NAMES, "battery")]
    reports.append(report(with_lead(assessed("galley"))))
    reports.append(report(assess(loads(finned, revision="fins"), with_remedies=False)))
    for path in explained_paths():
        assert any(value_at(data, path) is not None for data in reports), path


def test_the_places_of_the_charge_sum_to_it(data):
    charge = data["charge"]
    assert sum(charge["by_place_g"].values()) == pytest.approx(charge["fill_g"], rel=1e-6)


def test_the_ways_of_heat_and_the_shares_of_resistance_sum(data):
    cabinet = data["cabinet"]
    assert sum(cabinet["gain_by_way_W"].values()) == pytest.approx(cabinet["heat_gain_W"], rel=1e-3)
    assert sum(cabinet["resistance_share"].values()) == pytest.approx(1.0)


def test_the_machine_closes_its_balances(data):
    for state in (data["running"], data["cycling"]["while_on"], data["hottest_day"]["while_on"]):
        assert state["residual"] < 1e-8
        assert state["suction_Pa"] < state["discharge_Pa"]


def test_running_removes_what_comes_in(data):
    # Running without a stop is where removed and gained heat agree; held, they agree by the share.
    cycling = data["cycling"]
    removed = cycling["run_fraction"] * cycling["while_on"]["capacity_W"]
    assert removed == pytest.approx(cycling["heat_needed_W"], rel=1e-6)
    energy = cycling["run_fraction"] * cycling["while_on"]["power_W"] * 24.0 / 1000.0
    assert energy == pytest.approx(cycling["energy_kWh_per_day"], rel=1e-9)


def test_assumed_values_keep_their_source_and_width(data):
    for entry in data["assumed"]:
        assert entry["source"]
        assert entry["standard_uncertainty"] is None or entry["standard_uncertainty"] >= 0.0


def unbalanced(case):
    def broken(balance):
        return replace(balance, reason=np.full(balance.reason.shape, TOO_COLD))

    o = case.operation
    operation = replace(
        o,
        cycling=replace(
            o.cycling,
            balance=broken(o.cycling.balance),
            run_fraction=np.full_like(o.cycling.run_fraction, np.inf),
        ),
        running=replace(o.running, balance=broken(o.running.balance)),
        pull_down=broken(o.pull_down),
    )
    return replace(case, operation=operation, hot=operation)


def test_without_a_balance_no_figure_is_made_up():
    assessment = assessed("galley")
    broken = replace(assessment, case=unbalanced(assessment.case))
    data = report(broken)
    json.dumps(data, allow_nan=False)
    for state in (data["running"], data["pull_down"], data["cycling"]["while_on"]):
        assert state["reason"] == REASONS[TOO_COLD]
        left = {key for key, value in state.items() if value is not None}
        assert left <= {"reason", "residual"}
    assert data["cycling"]["energy_kWh_per_day"] is None
    assert data["charge"]["fill_g"] is None  # it was to be found, and was not


def test_infinity_becomes_none():
    assessment = assessed("galley")
    case = altered(assessment.case, properties={"run_fraction_half_width": math.inf})
    data = report(replace(assessment, case=case))
    assert data["cycling"]["run_fraction_half_width"] is None


@pytest.mark.parametrize(
    ("asked", "near"),
    [
        ("running.power", "running.power_W"),
        ("Running.power_W", "running.power_W"),
        ("superheat", "running.evaporator_exit_superheat_K"),
        ("cabnet.air_C", "cabinet.air_C"),
    ],
)
def test_an_unknown_figure_names_the_nearest(asked, near):
    with pytest.raises(InputError) as caught:
        explanation_of(asked)
    assert near in caught.value.faults[0].hint


def test_a_room_no_warmer_than_the_target_is_refused():
    build = loads(changed("galley"))
    with pytest.raises(InputError) as caught:
        assess(build, room_temperature=build.targets.air_temperature.value)
    assert caught.value.faults[0].field == "--room"


def test_a_charge_that_both_tubes_cannot_hold_is_refused_with_the_room_at_once():
    build = loads(changed("galley", ('fill = "find"', 'fill = "900 g"')))
    with pytest.raises(InputError) as caught:
        assess(build, room_temperature=270.0)
    room, charge = caught.value.faults
    assert room.field == "--room"
    assert charge.field == "refrigerant.fill"
    assert charge.line == build.line_of("refrigerant.fill")
    assert "received 900 g" in charge.message
