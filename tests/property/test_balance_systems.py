"""The balance over drawn sealed systems: what must hold in every lane."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coldwright.arrays import lanes
from coldwright.plant import balance as balance_module
from coldwright.plant.balance import BALANCED, REASONS, TOO_FULL, TOO_HOT, settle
from coldwright.plant.charge_rule import FixedCharge
from coldwright.plant.evaluation import Unknowns, evaluate
from coldwright.plant.fill import find_charge
from coldwright.tracing.earned import plain
from support.systems import DISPLACEMENT, alone, drawn, sealed_system, surroundings

EACH = 15
NAMES = tuple(DISPLACEMENT)


@pytest.fixture(scope="module")
def settled():
    """Of every refrigerant 15 systems, charged from half to one and a half of what suits them."""
    found = {}
    for name in NAMES:
        system, at = drawn(name, EACH, seed=41)
        tubes = system.evaporator.volume + system.condenser.volume
        liquid = system.refrigerant.saturated(at.source_temperature).liquid_density
        # The charge that suits these systems fills about a sixth of the tubes.
        share = np.random.default_rng(43).uniform(0.5, 1.5, EACH)
        charge = share * (0.16 * liquid * tubes)
        found[name] = system, at, charge, settle(system, at, FixedCharge(charge))
    return found


def test_every_lane_ends_with_a_reason_and_nearly_all_balanced(settled):
    reasons = np.concatenate([balance.reason for *_, balance in settled.values()])
    assert np.all((reasons >= 0) & (reasons < len(REASONS)))
    # Measured over 996 such systems: 99.6 % balanced, and the four others hold more than their
    # condenser has room for below the refrigerant's critical point.
    assert np.mean(reasons == BALANCED) >= 0.98


@pytest.mark.parametrize("name", NAMES)
def test_balanced_lanes_close(settled, name):
    _system, _at, charge, balance = settled[name]
    ok = balance.reason == BALANCED
    assert np.all(balance.residual[ok] < 1e-8)
    np.testing.assert_allclose(balance.charge[ok], charge[ok], rtol=1e-8)
    np.testing.assert_allclose(balance.evaluation.inventory.total[ok], charge[ok], rtol=1e-8)


@pytest.mark.parametrize("name", NAMES)
def test_energy_of_the_whole_system(settled, name):
    _, _, _, balance = settled[name]
    ok = balance.reason == BALANCED
    state = balance.evaluation
    from_room = state.compressor.mass_flow * state.returning.line_heat
    inward = state.evaporator.heat + state.compressor.power + from_room
    outward = state.condenser.heat + state.compressor.shell_loss
    np.testing.assert_allclose(inward[ok], outward[ok], rtol=1e-7)


@pytest.mark.parametrize("name", NAMES)
def test_each_place_holds_something_and_no_more_than_its_liquid(settled, name):
    system, _, _, balance = settled[name]
    ok = balance.reason == BALANCED
    state = balance.evaluation
    for place, mass in vars(state.inventory).items():
        assert np.all(np.broadcast_to(mass, ok.shape)[ok] >= 0.0), place
    low = system.refrigerant.saturated(state.unknowns.evaporating_temperature)
    high = system.refrigerant.saturated(state.unknowns.condensing_temperature)
    full = system.evaporator.volume * low.liquid_density
    assert np.all((state.inventory.evaporator <= full)[ok])
    assert np.all((state.inventory.condenser <= system.condenser.volume * high.liquid_density)[ok])
    assert np.all((state.suction_pressure < state.discharge_pressure)[ok])


@pytest.mark.parametrize("name", ["R152a", "R600a"])
def test_a_lane_alone_is_the_lane_among_many(settled, name):
    system, at, charge, balance = settled[name]
    for lane in (0, EACH - 1):
        conditions = surroundings(
            at.source_temperature[[lane]] - 273.15, at.room_temperature[[lane]] - 273.15
        )
        one = settle(alone(system, lane, EACH), conditions, FixedCharge(charge[[lane]]))
        if balance.reason[lane] != BALANCED:
            continue
        assert one.reason[0] == BALANCED
        for field in ("evaporating_temperature", "condensing_temperature"):
            np.testing.assert_allclose(
                getattr(one.evaluation.unknowns, field)[0],
                getattr(balance.evaluation.unknowns, field)[lane],
                rtol=1e-9,
            )
        np.testing.assert_allclose(
            one.evaluation.evaporator.heat[0], balance.evaluation.evaporator.heat[lane], rtol=1e-7
        )


def test_shape_of_the_conditions_is_kept():
    at = surroundings(np.array([[-5.0, 0.0, 5.0], [-2.0, 2.0, 6.0]]), 25.0)
    balance = settle(sealed_system(), at, FixedCharge(lanes(0.035)))
    assert balance.reason.shape == balance.charge.shape == (2, 3)
    assert balance.evaluation.evaporator.heat.shape == (2, 3)
    assert np.all(balance.reason == BALANCED)
    # Warmer brine, more heat.
    assert np.all(np.diff(balance.evaluation.evaporator.heat, axis=1) > 0.0)


def test_lanes_settled_a_few_at_a_time_are_the_same(monkeypatch):
    system, at = drawn("R152a", 7, seed=21)
    rule = FixedCharge(np.full(7, 0.045))
    with plain():
        whole = settle(system, at, rule)
        monkeypatch.setattr(balance_module, "AT_ONCE", 3)
        parts = settle(system, at, rule)
    np.testing.assert_array_equal(parts.reason, whole.reason)
    np.testing.assert_allclose(
        parts.evaluation.unknowns.stacked(), whole.evaluation.unknowns.stacked(), rtol=1e-7
    )
    assert parts.evaluation.capillary.taken.shape == whole.evaluation.capillary.taken.shape


def test_settling_again_from_the_end_stays_there():
    at = surroundings(np.array([-10.0, 0.0, 10.0]), 25.0)
    rule = FixedCharge(lanes(0.035))
    first = settle(sealed_system(), at, rule)
    near = first.evaluation
    again = settle(sealed_system(), at, rule, near.unknowns, taken=near.capillary.taken)
    assert np.all(again.steps <= 3)
    np.testing.assert_allclose(
        again.evaluation.unknowns.stacked(), first.evaluation.unknowns.stacked(), rtol=1e-7
    )


def test_a_charge_beyond_the_tubes_is_too_full():
    # It would lie in the compressor's shell.
    balance = settle(sealed_system(), surroundings([-5.0], [25.0]), FixedCharge(lanes(1.5)))
    assert np.all(balance.reason == TOO_FULL)


def test_a_condenser_far_too_small_is_too_hot():
    at = surroundings(np.array([10.0, 15.0]), 35.0)
    system = sealed_system(condenser_length=0.8, film=8.0, coil_length=14.0)
    balance = settle(system, at, FixedCharge(lanes(0.05)))
    assert np.all(np.isin(balance.reason, [TOO_HOT, TOO_FULL]))


def test_under_and_overcharge_move_the_way_the_trade_knows():
    # Starved: low suction, warm return, little frost. Overfull: high head, cold or wet return.
    at = surroundings(np.full(3, -5.0), 25.0)
    suits = find_charge(sealed_system(), at, lanes(4.0)).charge[0]
    balance = settle(sealed_system(), at, FixedCharge(suits * np.array([0.6, 1.0, 1.4])))
    assert np.all(balance.reason == BALANCED)
    state = balance.evaluation
    assert np.all(np.diff(state.suction_pressure) > 0.0)
    assert np.all(np.diff(state.discharge_pressure) > 0.0)
    assert np.all(np.diff(state.returning.superheat) < 0.0)
    assert state.returning.temperature[2] < state.returning.temperature[1] - 10.0
    assert np.all(np.diff(state.evaporator.wet_share) >= 0.0)
    assert state.evaporator.heat[0] < state.evaporator.heat[1]


@pytest.mark.parametrize("name", NAMES)
def test_found_charge_leaves_the_stated_superheat(name):
    at = surroundings([-4.0], [22.0])
    # A short coil evaporates well below the source: half the way to it is never in question.
    system = sealed_system(name, coil_length=5.0)
    wanted = lanes(3.0)
    balance = find_charge(system, at, wanted)
    assert np.all(balance.reason == BALANCED)
    evaporating = balance.evaluation.unknowns.evaporating_temperature
    assert np.all(at.source_temperature - evaporating > 6.5)
    np.testing.assert_allclose(balance.evaluation.returning.superheat, wanted, atol=0.05)
    again = settle(system, at, FixedCharge(balance.charge), balance.evaluation.unknowns)
    np.testing.assert_allclose(again.evaluation.returning.superheat, wanted, atol=0.05)


@settings(max_examples=12)
@given(
    st.sampled_from(NAMES),
    st.floats(243.15, 268.15),
    st.floats(303.15, 333.15),
    st.floats(-10.0, 80.0),
    st.floats(0.0, 40e3),
)
def test_parts_close_for_any_assumed_unknowns(name, evaporating, condensing, superheat, exchanged):
    system = sealed_system(name)
    at = surroundings(0.0, 22.0)
    gas = system.refrigerant.saturated(evaporating).vapour_enthalpy
    unknowns = Unknowns(
        lanes(evaporating), lanes(condensing), gas + 20e3, lanes(superheat), lanes(exchanged)
    )
    state = evaluate(system, at, unknowns)
    flow = state.compressor.mass_flow
    condenser, evaporator = state.condenser, state.evaporator
    entering = state.compressor.discharge_enthalpy
    assert condenser.heat == pytest.approx(flow * (entering - condenser.exit_enthalpy), rel=1e-6)
    shares = condenser.gas_share + condenser.condensing_share + condenser.liquid_share
    assert shares == pytest.approx(1.0, rel=1e-12)
    for share in (condenser.gas_share, condenser.condensing_share, condenser.liquid_share):
        assert -1e-9 <= share <= 1.0
    into = condenser.exit_enthalpy - exchanged
    assert evaporator.heat == pytest.approx(flow * (evaporator.exit_enthalpy - into), rel=1e-9)
    assert 0.0 <= evaporator.wet_share <= 1.0
    assert flow > 0.0
    assert state.compressor.power > system.compressor.constant_loss
