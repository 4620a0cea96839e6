"""What is told of the stopped machine."""

from __future__ import annotations

from dataclasses import replace

import pytest

from coldwright.build import loads
from coldwright.build.translation.plant import translate
from coldwright.verdict.at_rest import at_rest, at_rest_of
from coldwright.verdict.checks import rest
from support.assessed import assessed, changed, read_in


@pytest.fixture
def put(monkeypatch):
    """The galley at rest with figures put in by hand; gives the notices by code."""
    case = read_in("galley", "si")
    found = at_rest_of(case)

    def told(coil=None, worst=None, **others):
        changed = replace(found, coil=replace(found.coil, **(coil or {})), **others)
        if worst is not None:
            cool = replace(found.coolest_room, worst_oil_share=worst)
            changed = replace(changed, coolest_room=cool)
        monkeypatch.setattr(rest, "at_rest_of", lambda _: changed)
        return {each.notice.code: each.notice for each in rest.rest_findings(case)}

    return told


def test_a_sound_machine_is_not_worth_a_word(put):
    assert put() == {}


def test_liquid_that_runs_over_floods_the_start(put):
    notice = put({"filled_share": 1.2, "accumulator_cm3": 45.0})["flooded_start"]
    assert notice.severity == "warning"
    for words in ("return line", "less charge", "45 mL", "rises above the coil"):
        assert words in notice.text


def test_a_coil_nearly_full_throws_liquid_out(put):
    assert put({"filled_share": 0.8})["coil_nearly_full"].severity == "info"


@pytest.mark.parametrize(
    ("worst", "severity", "limit"), [(0.4, "warning", "30 %"), (0.8, "danger", "74 %")]
)
def test_thin_oil_names_its_limit_and_what_helps(put, worst, severity, limit):
    notice = put(worst=worst)["oil_thinned"]
    assert notice.severity == severity
    assert limit in notice.text
    assert "heater round the shell" in notice.text
    assert "long rest" in notice.text
    colder = put(worst=worst, shell_may_be_coldest=True)["oil_thinned"]
    assert "colder than the cold side" in colder.text


@pytest.mark.parametrize("name", ["galley", "larder"])
def test_each_state_holds_the_charge(name):
    case = assessed(name).case
    found = at_rest_of(case)
    for state in (found.between_runs, found.in_the_room, found.hottest_day, found.coolest_room):
        whole = state.vapour_g + state.dissolved_g + state.liquid_g
        assert whole == pytest.approx(1e3 * case.charge, rel=1e-9)
        assert state.oil_share <= state.worst_oil_share
    pressures = [s.pressure_Pa for s in (found.coolest_room, found.in_the_room, found.hottest_day)]
    assert pressures == sorted(pressures)
    coil = found.coil
    assert coil.filled_share * coil.holds_g == pytest.approx(found.between_runs.liquid_g, rel=1e-6)


def test_a_room_colder_than_the_cold_side_draws_the_liquid_into_the_shell():
    case = assessed("cheese").case
    point = case.operation.cycling
    works_at = float(point.box.source_temperature[0]) - 273.15
    seen = {}
    for low in ("4 °C", "14 °C"):
        build = loads(
            changed("cheese", ('room_temperature_low = "14 °C"', f'room_temperature_low = "{low}"'))
        )
        # So much that some is left when the oil, which takes up more than its own weight, is full.
        seen[low] = at_rest(build, translate(build), point, 0.3)
    cold, usual = seen["4 °C"], seen["14 °C"]
    assert 4.0 < works_at < 14.0
    assert cold.shell_may_be_coldest
    assert not usual.shell_may_be_coldest
    assert cold.coolest_room.cold_side_C == pytest.approx(works_at)
    assert cold.coolest_room.liquid_in == "shell"
    assert usual.coolest_room.liquid_in == "anywhere"
    assert cold.between_runs.liquid_in == "cold side"
    # The colder the shell, the lower the pressure, and the more of the charge comes to the oil.
    assert cold.coolest_room.pressure_Pa < usual.coolest_room.pressure_Pa
    assert cold.coolest_room.worst_oil_share > usual.coolest_room.worst_oil_share


def test_without_a_charge_nothing_is_made_up():
    case = assessed("galley").case
    broken = case.operation.running.balance
    unknown = replace(broken, reason=broken.reason * 0 + 2)
    o = case.operation
    operation = replace(
        o,
        cycling=replace(o.cycling, balance=replace(o.cycling.balance, reason=unknown.reason)),
        running=replace(o.running, balance=unknown),
    )
    assert at_rest_of(replace(case, operation=operation)) is None
