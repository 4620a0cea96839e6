"""The clock against an adaptive integrator that knows nothing of its step and its maps."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from coldwright.clock import cold_table as film
from coldwright.clock.cold_table import dry_cold_side
from coldwright.clock.run import run
from coldwright.parts.cold_exchange import cold_exchange
from support.clock_rates import AIR, BULB, ENERGY, Rates
from support.on_clock import on_clock

HOURS = 24.0


def integrated(rates: Rates, cut_in: float, cut_out: float) -> tuple[np.ndarray, np.ndarray]:
    """Stored air and energy at every half hour; runs and rests each for themselves."""
    every = np.arange(1800.0, HOURS * 3600.0 + 1.0, 1800.0)
    now, state, rows = 0.0, rates.start(), []
    while now < HOURS * 3600.0:
        bound = cut_out if rates.running else cut_in
        turning = _crossing(bound)
        asked = every[every > now + 1e-6]
        found = solve_ivp(
            rates,
            (now, HOURS * 3600.0),
            state,
            method="LSODA",
            rtol=1e-4,
            atol=2e-3,
            t_eval=asked,
            events=turning,
        )
        rows.append(found.y)
        if found.status == 0:
            break
        now, state = float(found.t_events[0][-1]), found.y_events[0][-1]
        rates.running = not rates.running
    whole = np.concatenate(rows, axis=1)
    return whole[AIR], whole[ENERGY]


def _crossing(bound: float) -> Callable[[float, np.ndarray], float]:
    def crossing(_: float, y: np.ndarray) -> float:
        return float(y[BULB] - bound)

    crossing.terminal = True
    return crossing


def test_a_day_meets_an_adaptive_integrator():
    """24 h from warm with the thermostat: air within 0.1 K, energy within 1 %, every half hour."""
    case = on_clock("larder")
    plant = case.plant()
    course = run(plant, case.warm(plant), case.plan.shut(), int(60 * HOURS))
    control = case.parts.control
    air, energy = integrated(Rates(case, plant), float(control.cut_in), float(control.cut_out))
    at = np.arange(30, int(60 * HOURS) + 1, 30) - 1
    clock_energy = np.cumsum(course.records["power"][:, 0] * 60.0)[at]
    assert len(air) == len(at)
    assert np.max(np.abs(course.records["air"][at, 0] - air)) < 0.1
    assert clock_energy[-1] == pytest.approx(energy[-1], rel=0.01)
    assert np.all(np.abs(clock_energy / energy - 1.0) < 0.01)


@pytest.mark.parametrize("name", ["larder", "galley"])
def test_films_between_the_tables_points(name):
    """Conductances off the grid against `cold_exchange` asked there: within 1 %."""
    case = on_clock(name)
    draw = np.random.default_rng(3)
    air = draw.uniform(272.0, 296.0, 40)
    node = air - draw.uniform(2.0, 25.0, 40)
    box = case.found.plant.box
    asked = cold_exchange(dry_cold_side(box.cold_side), box.air_path, node, air, case.pressure)
    read = case.table.at(air, node)
    assert read[film.AIR_FILM] == pytest.approx(asked.air, rel=0.01)
    assert read[film.LINER_FILM] == pytest.approx(asked.liner, rel=0.01)
    assert read[film.DEPOSITION] == pytest.approx(asked.deposition, rel=0.01)
