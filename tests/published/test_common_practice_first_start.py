"""The 1/8 hp class R152a machine without a fan, minute by minute: common practice, no source.

In a room of 60 to 70 °F it takes about 160 W when started, comes over about 115 W to about 100 W in
two hours, and then cycles at about 75 to 80 W, about 40 % of the time.
"""

import numpy as np
import pytest

from coldwright.verdict.day import run_day
from support.small_machine import cupboard

DAY = 1440


@pytest.fixture(scope="module")
def first_days():
    """Two days from warm: rows by the minute, and the share of running of the second."""
    day = run_day(cupboard(fins=True), hours=48.0)
    return day.rows, float(day.course.tally.run_fraction[0])


def test_warmed_through_it_takes_what_a_start_is_said_to_take(first_days):
    """The greatest watts of the first half hour: 150 to 165 W, within 10 %."""
    rows, _ = first_days
    assert 150.0 * 0.9 <= np.max(rows["power_W"][:30]) <= 165.0 * 1.1


@pytest.mark.xfail(
    strict=True,
    reason="95 W in minutes 2 to 5: the sheet of the condenser needs a quarter of an hour to warm. "
    "Looked at and too small: a cold shell (+0.3 W), the high suction at the start (40 to 90 W, "
    "less, since there is no lift yet), the sheet's fin efficiency (8 % of its heat). Left: cold "
    "oil, thinned by the gas in it, and the start winding",
)
def test_watts_of_the_first_minutes(first_days):
    """About 160 W at once: minutes 2 to 5 within 15 %."""
    rows, _ = first_days
    assert np.mean(rows["power_W"][1:5]) == pytest.approx(160.0, rel=0.15)


def test_it_falls_over_115_to_100_watts_in_two_hours(first_days):
    """115 W come between the first hour and two; 100 W at two hours, within 10 %."""
    rows, _ = first_days
    power = rows["power_W"]
    passed = 1 + int(np.argmax((power < 115.0) & (rows["minute"] > 30.0)))
    assert 60 <= passed <= 120
    assert power[119] == pytest.approx(100.0, rel=0.10)


@pytest.mark.xfail(
    strict=True,
    reason="about 103 W: its brine cycles between 23 and 16 °F here; at the coldest that this "
    "machine reaches it still takes 92 W. A constant loss fitted to two rated points falls less at "
    "small loads than such a motor's",
)
def test_watts_while_cycling(first_days):
    """75 to 80 W, within 10 %."""
    rows, _ = first_days
    last, running = rows["power_W"][-DAY:], rows["running"][-DAY:] > 0.5
    assert 75.0 * 0.9 <= np.mean(last[running]) <= 80.0 * 1.1


def test_share_of_running_while_cycling(first_days):
    """About 40 %, within 12 points, as where the steady state is held against it."""
    assert first_days[1] == pytest.approx(0.40, abs=0.12)
