"""What a start and a stop cost, against measurements."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from coldwright.clock.advance import MACHINE, MIGRATION
from coldwright.clock.network import AIR
from coldwright.clock.run import at_rest, run
from coldwright.clock.setup import clock_plant, map_of, table_of
from support.on_clock import on_clock

DAY = 1440


@pytest.mark.parametrize("name", ["cheese"])
def test_migrating_refrigerant_is_a_load(name):
    """Cycling and migration cost 2 to 6 % of the cabinet's load; Krause and Bullard 1994 (read)."""
    case = on_clock(name)
    plant = case.plant()
    tally = run(plant, case.warm(plant), case.plan, 3 * DAY, count_from=2 * DAY).tally
    share = tally.day_flows[MIGRATION] / (tally.day_flows[MACHINE] - tally.day_flows[MIGRATION])
    assert np.all((share > 0.02) & (share < 0.06))


@pytest.mark.parametrize("name", ["cheese", "galley"])
def test_what_a_start_loses(name):
    """3 to 5 % of the on-cycle's cooling, on plates and tubes that run 9 to 12 min at a time.

    Krause and Bullard 1994 (read). The share of the charge that is back stands at the minutes'
    ends, so the loss is told about half a point too small.
    """
    case = on_clock(name)
    plant = case.plant()
    records = run(plant, case.warm(plant), case.plan, 3 * DAY).records
    on, back = records["on"][-DAY:, 0], records["returned"][-DAY:, 0]
    running = records["running"][-DAY:, 0] > 0.5
    loss = 1.0 - np.sum(on * np.where(running, back, 1.0)) / np.sum(on)
    assert 0.03 <= loss <= 0.05


@pytest.fixture(scope="module")
def settled_days():
    """The larder with its brine thermostat in rooms of 16, 21 and 32 °C, door shut."""
    case = on_clock("larder")
    rooms = np.array([-5.0, 0.0, 11.0])
    wide = replace(case.plan.shut(), room=case.plan.room + rooms)
    charge = np.array([case.charge])
    plant = case.found.plant
    machine = map_of(plant.system, plant, charge, wide, case.pressure)
    table = table_of(plant, wide, case.pressure)
    clocked = clock_plant(
        plant, case.parts, machine, table, case.pressure, count=3, room_offset=rooms
    )
    warm = case.plan.room[0] + rooms
    start = at_rest(clocked, warm, warm, np.array(0.5))
    return run(clocked, start, case.plan.shut(), 4 * DAY, count_from=2 * DAY)


@pytest.mark.xfail(
    reason="3.5 times: 1.8 times the heat at half the cooling for a watt (42 and 56 °C condensing: "
    "a sheet without a fan; charge and capillary that suit one room). And nothing here draws the "
    "same in any room (lamps, heaters, electronics), and the door is shut"
)
def test_energy_from_a_cool_to_a_hot_room(settled_days):
    """Two to three times as much at 32 as at 16 °C: Harrington et al. 2018 (ratio from memory)."""
    energy = settled_days.tally.energy
    assert 2.0 <= energy[2] / energy[0] <= 3.0, energy[2] / energy[0]


@pytest.mark.xfail(
    reason="7 to 8 % a kelvin: the sheet's cabinet has a fan at its condenser, and its air held; "
    "here the sheet alone sheds the heat, so head and starving change more with the room"
)
def test_energy_slope_of_a_service_sheet(settled_days):
    """1.1 and 1.7 kWh a day at 21 and 32 °C, 4.0 % a kelvin, within 1: service sheet (read)."""
    energy = settled_days.tally.energy
    slope = (energy[2] / energy[1]) ** (1.0 / 11.0) - 1.0
    assert slope == pytest.approx(0.040, abs=0.01)


def test_share_and_cycles_lie_where_logged_refrigerators_lie(settled_days):
    """Share 0.13-0.66 and 6-47 cycles a day: 11 refrigerators, Reinhardt et al. 2012 (read)."""
    tally = settled_days.tally
    assert np.all((tally.run_fraction > 0.13) & (tally.run_fraction < 0.66))
    cycles = 24.0 * tally.starts / tally.hours
    assert np.all((cycles >= 6.0) & (cycles <= 47.0)), (cycles, tally.mean(AIR))


@pytest.mark.xfail(
    reason="the clock's watts rise for ten minutes while a cold sheet warms, then fall by under 4 "
    "%: the cold motor and the gas of a cold shell, which draw more at first, are left out"
)
def test_power_falls_within_a_run(settled_days):
    """By 4 to 28 % from the first minutes to the last: Reinhardt et al. 2012, tracebase (read)."""
    power = settled_days.records["power"][-DAY:, 0]
    on = settled_days.records["on"][-DAY:, 0] > 0.99
    starts = np.flatnonzero(on[1:] & ~on[:-1]) + 1
    ends = np.flatnonzero(~on[1:] & on[:-1])
    first, last = power[starts[0] + 2], power[ends[ends > starts[0]][0] - 1]
    assert 0.04 <= 1.0 - last / first <= 0.28
