"""What a start and a stop cost, against measurements."""

from __future__ import annotations

import numpy as np
import pytest

from coldwright.clock.advance import MACHINE, MIGRATION
from coldwright.clock.run import run
from support.on_clock import on_clock

DAY = 1440
SOURCE = "Krause and Bullard 1994, ACRC TR-58 (read)"


@pytest.mark.parametrize("name", ["cheese"])
def test_migrating_refrigerant_is_a_load(name):
    """Cycling and migration cost 2 to 6 % of the cabinet's load; Krause and Bullard 1994 (read)."""
    case = on_clock(name)
    plant = case.plant()
    tally = run(plant, case.warm(plant), case.plan, 3 * DAY, count_from=2 * DAY).tally
    share = tally.day_flows[MIGRATION] / (tally.day_flows[MACHINE] - tally.day_flows[MIGRATION])
    assert np.all((share > 0.02) & (share < 0.06))
