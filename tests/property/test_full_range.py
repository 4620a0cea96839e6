"""Any machine in any room: a lane balances with all its books closed, or says why it does not."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from coldwright.plant.audit import audit
from coldwright.plant.balance import BALANCED, REASONS, TOO_COLD, TOO_FULL, TOO_HOT, settle
from coldwright.plant.charge_rule import FixedCharge
from coldwright.tracing.earned import plain
from support.full_range import (
    CAPILLARY,
    CHARGE,
    EFFECTIVENESS,
    KINDS,
    NAMES,
    ROOM_C,
    SOURCE_C,
    full_range,
)

LANES = 5
# What a look still moves of the exchanger's heat where it has no place at rest.
RESTLESS = 1e-4


@settings(max_examples=12)
@given(st.sampled_from(NAMES), st.sampled_from(KINDS), st.integers(0, 10_000))
def test_a_lane_balances_or_has_a_reason(name, kind, seed):
    drawn = full_range(name, kind, LANES, seed)
    balance = settle(drawn.system, drawn.at, FixedCharge(drawn.charge))
    e = balance.evaluation
    good = balance.reason == BALANCED
    assert np.all((balance.reason >= 0) & (balance.reason < len(REASONS)))
    assert np.all(balance.residual[good] < 1e-8)
    books = audit(drawn.system, drawn.at, e, drawn.charge)
    assert np.all(books.worst[good] < 1e-6)
    # What is told of a lane without a balance is finite all the same.
    for figure in (e.unknowns.evaporating_temperature, e.evaporator.heat, e.compressor.power):
        assert np.all(np.isfinite(figure))
    # A source within the machine's reach is left without a balance only where the low side is
    # pumped down to the end of the refrigerant's range, an overfull condenser runs up to it, or
    # the exchanger's heat finds no place at rest in a capillary that gas enters.
    fluid = drawn.system.refrigerant
    boiling, condensing = e.unknowns.evaporating_temperature, e.unknowns.condensing_temperature
    lost = ~good & (boiling < drawn.at.source_temperature)
    empty = (balance.reason == TOO_COLD) & (boiling < fluid.least_temperature + 4.0)
    full = np.isin(balance.reason, [TOO_FULL, TOO_HOT]) | (e.condenser.liquid_share > 0.2)
    hot = full & (condensing > fluid.greatest_temperature - 15.0)
    restless = np.broadcast_to(e.capillary.misplaced, good.shape) > RESTLESS
    assert np.all((empty | hot | restless)[lost])


def test_the_draw_covers_its_range():
    with plain():  # by one way: the last digit decides where a lane's heat finds no rest
        drawn = full_range("R134a", "plate", 120, 3)
        again = full_range("R134a", "plate", 120, 3)
    for values, (low, high) in (
        (drawn.at.room_temperature - 273.15, ROOM_C),
        (drawn.at.source_temperature - 273.15, SOURCE_C),
        (np.log(drawn.charge / drawn.right), np.log(CHARGE)),
        (np.log(drawn.conductance), np.log(CAPILLARY)),
        (drawn.effectiveness, EFFECTIVENESS),
    ):
        assert np.all((values >= low) & (values <= high))
        assert np.ptp(values) > 0.9 * (high - low)
    np.testing.assert_array_equal(again.charge, drawn.charge)
