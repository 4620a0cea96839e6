"""The balance against a slow model of the same equations that shares no code with it.

`support.scalar`: reference properties, walls and exchanger solved to convergence, sharp corners,
SciPy's integrators and root finding, one machine at a time. Many more builds:
`python -m benchmarks.agreement --count 200`.
"""

from dataclasses import replace

import numpy as np
import pytest

from coldwright.parts.lane_tools import take_lanes
from support.scalar.balance import CLOSED
from support.scalar.draws import BALANCED, builds, deviations, settled, slow

# Refrigerant, cold side, and the charge over what suits such systems.
CASES = [
    ("R152a", "still brine", 0.6),
    ("R152a", "vessel", 3.0),
    ("R134a", "plate", 0.9),
    ("R134a", "still brine", 1.9),
    ("R600a", "vessel", 0.7),
    ("R600a", "still brine", 1.6),
    ("R290", "plate", 1.1),
    ("R290", "still brine", 2.6),
]


@pytest.fixture(scope="module")
def compared():
    """Of each case one drawn build: the fast balance and the slow one."""
    found = []
    for place, (name, kind, share) in enumerate(CASES):
        group = take_lanes(builds(name, kind, 8, seed=7), np.array([place]), 8)
        tubes = group.system.evaporator.volume + group.system.condenser.volume
        liquid = group.system.refrigerant.saturated(group.at.source_temperature).liquid_density
        group = replace(group, charge=share * 0.16 * liquid * tubes)
        balance = settled(group)
        assert balance.reason[0] == BALANCED
        found.append((balance, slow(group, balance, 0)))
    return found


@pytest.mark.parametrize(
    "place", range(len(CASES)), ids=lambda place: " ".join(map(str, CASES[place]))
)
def test_the_slow_model_settles_at_the_same_state(compared, place):
    balance, state = compared[place]
    assert state.worst < CLOSED
    off = deviations(balance, 0, state)
    assert abs(off.evaporating) < 0.1
    assert abs(off.condensing) < 0.1
    assert abs(off.capacity) < 0.5
    assert abs(off.power) < 0.5
    assert abs(off.flow) < 0.5


@pytest.mark.parametrize(
    "place", range(len(CASES)), ids=lambda place: " ".join(map(str, CASES[place]))
)
def test_each_place_holds_the_same(compared, place):
    balance, state = compared[place]
    inventory, content = balance.evaluation.inventory, state.content
    total = sum(content.values())
    for name in ("evaporator", "condenser", "capillary", "suction line", "discharge line"):
        fast = float(np.ravel(getattr(inventory, name.replace(" ", "_")))[0])
        assert fast == pytest.approx(content[name], abs=0.005 * total), name
    shell = inventory.shell_gas + inventory.oil + inventory.shell_liquid
    assert float(shell[0]) == pytest.approx(content["shell"], abs=0.005 * total)


def test_the_cases_are_starved_full_and_flooded(compared):
    """What is compared covers gas and liquid before the tube, dry, wet and drowned return."""
    states = [state for _, state in compared]
    assert sum(state.hot.exit_quality > 0.02 for state in states) >= 2
    assert sum(state.hot.liquid > 0.02 for state in states) >= 2
    assert any(state.leaving.T - state.evaporating > 3.0 for state in states)
    assert sum(state.leaving.quality < 1.0 for state in states) >= 2
    assert any(state.shell < 0.0 for state in states)
    assert any(state.flown.choked for state in states)


def test_energy_of_the_slow_model_closes(compared):
    for _, state in compared:
        assert state.taken == pytest.approx(state.given, rel=1e-5)
