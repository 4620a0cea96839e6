"""A day's figures: each explained, frost, battery, price, store and power cut by their own sums."""

from __future__ import annotations

import numpy as np
import pytest

from coldwright.build import loads
from coldwright.errors import InputError
from coldwright.sources import sources
from coldwright.verdict import value_at
from coldwright.verdict.day import run_day
from coldwright.verdict.day_report import day_report
from coldwright.verdict.explain_day import FIGURES, ROWS, day_explanation_of
from support.assessed import BATTERY, changed

NOT_FIGURES = ("notices", "sentences", "cautions", "assumed")
ENTRIES = '\n[day]\nprice = "0.30"\nbattery = "60"\n\n[compressor]\n'


@pytest.fixture(scope="module")
def days():
    """The galley on a battery with price and battery told, the holdover."""
    battery = changed(
        "galley",
        ("[compressor]\n", BATTERY),
        ("\n[compressor]\n", ENTRIES),
        ('fill = "find"', 'fill = "36 g"'),
    )
    return {
        "battery": run_day(loads(battery), hours=26.0),
        "holdover": run_day(loads(changed("holdover")), hours=30.0),
    }


@pytest.fixture(scope="module")
def reports(days):
    return {name: day_report(each) for name, each in days.items()}


def leaves(value, path=""):
    for key, each in value.items():
        name = f"{path}{key}"
        if isinstance(each, dict):
            yield from leaves(each, f"{name}.")
        elif isinstance(each, int | float) and not isinstance(each, bool):
            yield name


def test_every_number_of_a_day_is_explained_and_its_inputs_are_there(reports, days):
    for name, data in reports.items():
        rows = days[name].rows
        whole = {**data, "rows": {key: float(each[-1]) for key, each in rows.items()}}
        found = list(leaves({key: each for key, each in whole.items() if key not in NOT_FIGURES}))
        assert len(found) > 50
        for path in found:
            entry = day_explanation_of(path)
            assert entry.formula.endswith(".")
            there = set(leaves(whole))
            for each in entry.inputs:
                known = each in FIGURES or each.removeprefix("rows.") in ROWS or each in there
                assert known, (path, each)


def test_every_explained_figure_stands_in_a_report_and_every_source_is_known(reports, days):
    known = set(sources())
    rows = {key for day in days.values() for key in day.rows}
    assert set(ROWS) <= rows | {"cold_metal_C"}
    for path, entry in FIGURES.items():
        assert any(value_at(data, path) is not None for data in reports.values()), path
        assert set(entry.sources) <= known, path
    for entry in ROWS.values():
        assert set(entry.sources) <= known


def test_an_unknown_figure_names_near_ones():
    with pytest.raises(InputError, match="energy_kWh_per_day"):
        day_explanation_of("energy")


def test_a_battery_gives_what_machine_and_lead_draw(reports):
    """Ampere-hours times volts are the energy with 0.5 to 10 % more for the lead."""
    data = reports["battery"]
    drawn = data["battery"]
    watt_hours = 12.0 * drawn["Ah_per_day"]
    assert 1.005 < watt_hours / (1e3 * data["energy_kWh_per_day"]) < 1.10
    assert drawn["hours_it_lasts"] == pytest.approx(24.0 * 60.0 / drawn["Ah_per_day"])
    assert data["price_per_year"] == pytest.approx(0.30 * 365.25 * data["energy_kWh_per_day"])
    assert reports["holdover"]["battery"] is None


def test_a_store_is_told_with_the_hours_it_lasts(reports, days):
    data, rows = reports["holdover"], days["holdover"].rows
    store = data["store"]
    charge = rows["state_of_charge"]
    assert store["state_of_charge"] == charge[-1]
    assert store["state_of_charge_max"] == np.max(charge[-1440:])
    assert 0.0 < store["state_of_charge"] <= 1.0
    assert data["power_cut"]["store_melted_hours"] > 1.0
    assert reports["battery"]["store"] is None
    assert any("frozen at the end of the day" in each for each in data["sentences"])


def test_frost_grows_by_what_the_rows_show(reports, days):
    data, frost = reports["holdover"], days["holdover"].rows["frost_g"]
    assert data["frost"]["g_now"] == pytest.approx(frost[-1])
    assert data["frost"]["g_per_day"] == pytest.approx(frost[-1] - frost[-1441])
    week = data["frost"]["g_now"] + 7.0 * data["frost"]["g_per_day"]
    assert data["frost"]["g_after_week"] == pytest.approx(week)
    assert data["contents_warmest_C"] == np.max(days["holdover"].rows["contents_C"][-1440:])
