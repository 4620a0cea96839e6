"""Day-long power logs of two real refrigerators, and a box of ours brought to the same running.

Reinhardt et al. 2012, tracebase data set (Open Database License 1.0), read in place: nothing of it
is kept here, and without the logs beside the project these tests are skipped. The logs hold watts
alone, so shares, cycles and the course of the watts can be compared, no temperatures.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import pytest

from coldwright.clock.run import at_rest, run
from coldwright.clock.setup import clock_plant, map_of, table_of
from support.on_clock import on_clock

FOLDER = Path(__file__).resolve().parents[2].parent / "shared" / "reference" / "logs"
DAY = 1440
# As the logs' description counts: on above 40 % of the median running power, for over 40 s.
ON_SHARE, LEAST_RUN, IDLE = 0.4, 40.0, 10.0
# What it gives: kWh a day, whole runs, share of the day.
STATED = {
    "Refrigerator_2011.11.29": (0.838, 27, 0.256),
    "dev_D32131_2012.05.20": (0.797, 18, 0.413),
}


@dataclass(frozen=True)
class Log:
    """A day: energy [kWh], share of running, whole runs, and how far watts fall within one."""

    energy: float
    share: float
    runs: int
    fall: float


def seconds_of(stamp: str) -> float:
    """Second of the day of `day/month/year h:m:s`."""
    hour, minute, second = (float(each) for each in stamp.split(" ")[1].split(":"))
    return 3600.0 * hour + 60.0 * minute + second


def read_log(name: str) -> Log:
    path = FOLDER / f"{name}.csv"
    if not path.is_file():
        pytest.skip("the logs are not beside the project")
    cells = [line.split(";") for line in path.read_text(encoding="utf-8").splitlines()]
    time = np.array([seconds_of(each[0]) for each in cells])
    watts = np.array([float(each[1]) for each in cells])
    on = watts > ON_SHARE * np.median(watts[watts > IDLE])
    runs = [each for each in stretches(on, time) if time[each.stop] - time[each.start] > LEAST_RUN]
    whole = [each for each in runs if each.start > 0 and each.stop < len(time) - 1]
    return Log(
        energy=float(np.sum(watts[:-1] * np.diff(time))) / 3.6e6,
        share=sum(time[each.stop] - time[each.start] for each in runs) / 86400.0,
        runs=len(whole),
        fall=float(np.median([fall_of(time[each], watts[each]) for each in whole])),
    )


def stretches(on: np.ndarray, time: np.ndarray) -> Iterator[slice]:
    edges = np.flatnonzero(np.diff(np.concatenate([[False], on, [False]]).astype(int)))
    for start, stop in edges.reshape(-1, 2):
        yield slice(int(start), min(int(stop), len(time) - 1))


def fall_of(time: np.ndarray, watts: np.ndarray) -> float:
    """From the second and third minute of a run to its last two, as a share of the first."""
    since, left = time - time[0], time[-1] - time
    first, last = watts[(since >= 60.0) & (since < 180.0)], watts[(left < 120.0) & (left > 10.0)]
    return 1.0 - float(np.median(last) / np.median(first)) if first.size and last.size else 0.0


@pytest.mark.parametrize("name", STATED)
def test_the_log_reads_as_its_description_says(name):
    """Energy within 0.2 %, share within 0.001, runs to one."""
    found, (energy, runs, share) = read_log(name), STATED[name]
    assert found.energy == pytest.approx(energy, rel=2e-3)
    assert found.share == pytest.approx(share, abs=1e-3)
    assert abs(found.runs - runs) <= 1


@pytest.fixture(scope="module")
def ours():
    """The cheese cupboard, door shut, in rooms from cool to hot: share, cycles a day, fall."""
    case = on_clock("cheese")
    offsets = np.linspace(0.0, 16.0, 9)
    wide = replace(case.plan.shut(), room=case.plan.room + np.array([offsets[0], offsets[-1]]))
    plant, charge = case.found.plant, np.array([case.charge])
    clocked = clock_plant(
        plant,
        case.parts,
        map_of(plant.system, plant, charge, wide, case.pressure),
        table_of(plant, wide, case.pressure),
        case.pressure,
        count=offsets.size,
        room_offset=offsets,
    )
    warm = case.plan.room[0] + offsets
    start = at_rest(clocked, warm, warm, np.array(0.5))
    course = run(clocked, start, case.plan.shut(), 3 * DAY, count_from=2 * DAY)
    power = course.records["power"][-DAY:]
    falls = [within_runs(power[:, lane]) for lane in range(offsets.size)]
    return course.tally.run_fraction, course.tally.starts, np.array(falls)


def within_runs(power: np.ndarray) -> float:
    """As `fall_of`, from minutes: the third of a run against its last whole one."""
    time = 60.0 * np.arange(power.size)
    found = [
        1.0 - power[each.stop - 2] / power[each.start + 2]
        for each in stretches(power > 1.0, time)
        if each.stop - each.start > 5
    ]
    return float(np.median(found))


@pytest.mark.parametrize("name", STATED)
def test_cycles_at_the_same_share_of_running(ours, name):
    """Another box with another control: cycles a day within a factor of two where it runs as much.

    (27 and 18 a day in the logs; ours has 2 K between cut-in and cut-out of its air.)
    """
    log, (share, starts, _) = read_log(name), ours
    assert share[0] < log.share < share[-1]
    cycles = float(np.interp(log.share, share, starts))
    assert 0.5 <= cycles / log.runs <= 2.0, (cycles, log.runs)


@pytest.mark.xfail(
    strict=True,
    reason="logs: 15 and 14 % down within a run. Ours rises for ten minutes while the sheet of "
    "the condenser warms, then falls by a few per cent: their condensers are light and warm within "
    "the first minutes, while suction comes down from that of the warm evaporator",
)
@pytest.mark.parametrize("name", STATED)
def test_watts_fall_within_a_run(ours, name):
    """By as much as in the log, within 5 points."""
    log, (share, _, falls) = read_log(name), ours
    assert float(np.interp(log.share, share, falls)) == pytest.approx(log.fall, abs=0.05)
