"""Sentences of each stage: the number first, the report's own figures, in the reader's units."""

from __future__ import annotations

import re

import pytest

from coldwright.sheet.page_sentences import STAGES, stage_sentences
from coldwright.units import Kind, format_quantity
from support.assessed import assessed
from support.drawn import SYSTEMS, bent, made_up, real_figures

DAY = {
    "room_C": 21.0,
    "air_mean_C": 4.2,
    "air_min_C": 2.9,
    "air_max_C": 7.5,
    "contents_mean_C": 4.6,
    "contents_warmest_C": 6.1,
    "run_fraction": 0.41,
    "starts_per_hour": 1.6,
    "energy_kWh_per_day": 1.14,
    "frost": {"g_per_day": 62.0, "days_between_defrosts": 12.4},
}


def said(stage, figures, units="si", build="cheese", day=None):
    found = stage_sentences(stage, bent(build), figures, units, day)
    return [each.replace("\u00a0", " ").replace("\u2212", "-") for each in found]


def text(value, kind, units, digits=None):
    return format_quantity(value, kind, units, atmosphere_Pa=AIR, digits=digits)


AIR = bent("cheese").site.atmospheric_pressure


@pytest.mark.parametrize("units", SYSTEMS)
@pytest.mark.parametrize("stage", STAGES)
def test_every_sentence_begins_with_its_number_and_ends(stage, units):
    sentences = said(stage, real_figures("cheese"), units)
    assert len(sentences) >= 3
    for each in sentences:
        assert re.match(r"-?\d", each), each
        assert each.endswith(".")
        assert not re.search(r"None|nan|not known|  | ,|\(\)", each), each


@pytest.mark.parametrize("units", SYSTEMS)
def test_the_numbers_are_the_reports(units):
    figures = real_figures("cheese")
    cabinet, machine = figures["cabinet"], figures["cycling"]["while_on"]
    heat = text(cabinet["heat_gain_W"], Kind.heat_flow, units)
    assert said("cabinet", figures, units)[0].startswith(f"{heat} come in, with ")
    back = text(cabinet["gain_by_way_W"]["face back"], Kind.heat_flow, units)
    assert any(f"{back} by the back wall" in each for each in said("cabinet", figures, units))
    low = text(machine["suction_Pa"], Kind.absolute_pressure, units)
    boiling = text(machine["evaporating_C"] + 273.15, Kind.temperature, units)
    assert f"{low} on the low side: it boils at {boiling}." in said("machine", figures, units)
    film = figures["cold_side"]["steps_K"]["outside film"]
    share = figures["cold_side"]["steps_share"]["outside film"]
    step = text(film, Kind.temperature_difference, units)
    assert said("cold_side", figures, units)[1].startswith(
        f"{step} ({100 * share:.0f} %) at the outside film"
    )
    runs = text(figures["cycling"]["run_fraction"], Kind.ratio, units, 0)
    assert said("balance", figures, units)[0].startswith(f"{runs} of the time (± ")
    energy = figures["cycling"]["energy_kWh_per_day"] * 3.6e6
    assert said("day", figures, units)[0].startswith(text(energy, Kind.energy, units))


def test_walls_and_door_are_sums_of_their_ways():
    figures = made_up()
    figures["cabinet"]["gain_by_way_W"] |= {"leakage": 0.3, "bridges": 0.0}
    figures["cabinet"] |= {"conductance_W_per_K": 1.2, "radiation_share": 0.5}
    found = said("cabinet", figures)
    assert "15 W of that (91 %) come through the walls." in found  # six faces of 2.5 W in 16.5 W
    assert "2.4 W are the door's: seal, gaps and openings." in found  # 1.7 + 0.4 + 0.3
    assert any("the lid's" in each for each in said("cabinet", figures, build="galley"))


def test_a_box_that_does_not_hold_says_how_cold_it_gets():
    figures = made_up(state="running")
    figures["running"] |= {"air_half_width_K": 2.1, "air_C": 6.4}
    figures["cabinet"]["air_C"] = 6.4
    figures["hottest_day"] = {"room_C": 30.0, "run_fraction": 1.6, "running_air_C": 9.1}
    assert said("balance", figures) == [
        "6.4 °C (± 2.1 K) is as cold as it gets in a room of 21.0 °C: it never stops and does not "
        "hold 4.0 °C.",
        "9.1 °C is all that it holds on the hottest day, at 30.0 °C, without a stop.",
    ]


def test_liquid_that_comes_back_is_said():
    figures = made_up()
    figures["cycling"]["while_on"] |= {"return_quality": 0.93, "capacity_W": 90.0}
    found = said("machine", figures)
    assert "7 % of the flow comes back as liquid: more gas than it boils." in found
    figures["cycling"]["while_on"]["return_quality"] = 1.0
    assert not any("liquid" in each for each in said("machine", figures))


def test_watts_and_amperes_at_the_voltage_that_it_runs_on():
    assert said("machine", made_up())[0].endswith("at 230 V.")
    found = stage_sentences("machine", assessed("battery").case.build, made_up(), "si")
    assert found[0].replace("\u00a0", " ") == "81.8 W and 0.579 A while it runs, at 12 V."


def test_a_day_of_the_clock_takes_the_place_of_the_steady_one():
    assert said("day", made_up(), day=DAY) == [
        "4.2 °C is the day's mean of the stored air, between 2.9 °C and 7.5 °C, at 21.0 °C.",
        "4.6 °C have the goods in the mean, 6.1 °C at their warmest.",
        "41 % of the time it runs, in 1.6 starts an hour.",
        "1.14 kWh a day.",
        "62 g of frost a day; it wants defrosting every 12 days.",
    ]


@pytest.mark.parametrize("stage", STAGES)
def test_without_a_balance_there_is_the_reason_alone(stage):
    figures = made_up()
    figures["running"] = {"reason": "the low side is pumped empty"}
    figures["cycling"] = {"while_on": figures["running"]}
    assert said(stage, figures) == ["No balance: the low side is pumped empty."]


def test_an_unknown_stage_is_refused():
    with pytest.raises(KeyError):
        stage_sentences("attic", bent("cheese"), made_up(), "si")
