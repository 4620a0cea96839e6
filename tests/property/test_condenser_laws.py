"""Laws of any condenser: more of it runs cooler, duller runs cooler, and nothing jumps."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coldwright.arrays import lanes
from coldwright.fluids.refrigerants import refrigerant
from coldwright.parts.condenser_duty import DutyConditions, duty_for_heat
from coldwright.parts.hot_side.condenser import NO_WALL
from coldwright.plant.balance import BALANCED
from coldwright.plant.fill import find_charge
from support.condensers import KINDS, ROOM, SEA_LEVEL, condenser_of
from support.systems import drawn

AT = DutyConditions(refrigerant("R152a"), lanes(ROOM), lanes(SEA_LEVEL), lanes(353.15), lanes(2.0))
SHEETS = {
    "sheet_width": st.floats(0.4, 0.7),
    "sheet_height": st.floats(0.7, 1.3),
    "length": st.floats(8.0, 14.0),
    "emissivity": st.floats(0.1, 0.85),
    "gap": st.floats(0.02, 0.08),
    "dirt": st.floats(0.0, 0.3),
    "air_rise": st.floats(0.0, 4.0),
}
DESIGN = st.fixed_dictionaries(SHEETS)
# What cools a condenser, from a design: name and what the value becomes.
COOLER = {
    "larger": None,
    "emissivity": lambda value: value + 0.1,
    "gap": lambda value: 2.0 * value,
    "dirt": lambda value: 0.5 * value,
    "air_rise": lambda value: 0.5 * value,
}


def condensing(part, heat=80.0):
    return duty_for_heat(part, AT, heat).saturated.temperature


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("change", COOLER)
@settings(max_examples=8)
@given(design=DESIGN)
def test_what_helps_condenses_cooler(kind, change, design):
    heat = 25.0 if kind == "bare" else 80.0
    part = condenser_of(kind, **design)
    if change == "larger":
        better = part.enlarged(1.2)
    else:
        better = condenser_of(kind, **{**design, change: COOLER[change](design[change])})
    before, after = condensing(part, heat), condensing(better, heat)
    assert after <= before + 1e-6
    if change in ("larger", "emissivity"):
        assert after < before - 0.05


@settings(max_examples=10)
@given(design=DESIGN)
def test_a_better_bond_and_a_thicker_sheet_condense_cooler(design):
    plain = condensing(condenser_of("sheet", **design, bond_conductance=5.0))
    assert condensing(condenser_of("sheet", **design, bond_conductance=20.0)) < plain
    thick = condenser_of("sheet", **design, bond_conductance=5.0, sheet_thickness=0.002)
    assert condensing(thick) < plain


@pytest.mark.parametrize("excess", [2.0, 15.0])
def test_limits(excess):
    def conductance(**changed):
        return condenser_of("sheet", **changed).outside(ROOM + excess, ROOM, SEA_LEVEL).conductance

    def differs(part, other):
        return abs(float(part / other) - 1.0)

    # an endless bond is no bond, and an endless sheet conductivity no fin: only the films are left
    endless = condenser_of("sheet", bond_conductance=1e12, sheet_conductivity=1e9)
    found = endless.outside(ROOM + excess, ROOM, SEA_LEVEL)
    films = found.area_per_length * (found.convection_film + found.radiation_film)
    assert differs(found.conductance, films) < 1e-6
    assert float(found.resistances["sheet"] + found.resistances["bond"]) < 1e-6
    # a wall far away is none; a flat sheet is a corrugated one of factor 1
    assert differs(conductance(wall_distance=NO_WALL), conductance(wall_distance=20.0)) < 2e-3
    assert differs(conductance(area_factor=1.0), conductance()) < 1e-12
    # folds bring more, but less than their area
    assert 1.02 < conductance(area_factor=1.4) / conductance() < 1.4
    # all of the sheet under trim is nothing
    assert conductance(shaded_fraction=0.5, dirt=0.0) == pytest.approx(
        float(conductance(shaded_fraction=0.0, dirt=0.5)), rel=1e-12
    )


@pytest.mark.parametrize("kind", KINDS)
def test_wall_and_gap_work_the_same_way_round(kind):
    """Closer is worse on either side, and a gap beyond some ten centimetres is like any."""
    distances = np.array([0.01, 0.02, 0.04, 0.1, 0.4, 2.0])
    for name in ("gap", "wall_distance"):
        found = condenser_of(kind, **{name: distances}).outside(ROOM + 15.0, ROOM, SEA_LEVEL)
        assert np.all(np.diff(found.conductance) > 0.0)
        assert found.convection_film[-1] == pytest.approx(found.convection_film[3], rel=0.02)


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_jumps_where_the_wall_passes_the_air(kind):
    """Second differences of heat per metre stay small from below the room's temperature up."""
    part = condenser_of(kind, air_rise=2.0)
    wall = ROOM + np.linspace(-3.0, 12.0, 301)
    found = part.outside(wall, ROOM, SEA_LEVEL)
    heat = found.conductance * (wall - found.sink_temperature)
    steps = np.diff(heat)
    assert np.all(steps > 0.0)
    assert np.max(np.abs(np.diff(steps))) < 0.3 * np.max(steps)


@pytest.mark.parametrize("kind", KINDS)
def test_lanes_are_their_scalars(kind):
    excess = np.array([5.0, 12.0, 30.0])
    emissivities = np.array([0.2, 0.5, 0.9])
    together = condenser_of(kind, emissivity=emissivities).outside(ROOM + excess, ROOM, SEA_LEVEL)
    for lane in range(3):
        alone = condenser_of(kind, emissivity=emissivities[lane]).outside(
            ROOM + excess[lane], ROOM, SEA_LEVEL
        )
        for name, value in vars(alone).items():
            lanes_of = np.broadcast_to(getattr(together, name), (3,))
            assert lanes_of[lane] == pytest.approx(float(value), rel=1e-12), name


@pytest.mark.parametrize("kind", ["wire", "bare"])
def test_drawn_machines_balance_on_every_kind(kind):
    """The balance differentiates numerically: a kind that jumps would not settle."""
    system, at = drawn("R152a", 8, seed=11)
    length = system.condenser.length * (3.0 if kind == "bare" else 1.0)
    part = condenser_of(
        kind, length=length, sheet_height=1.1 + 0.0 * length, sheet_width=0.05 * length
    )
    balance = find_charge(replace(system, condenser=part), at, np.full(8, 4.0))
    assert np.all(balance.reason == BALANCED)
    assert np.all(balance.residual < 1e-8)
    e = balance.evaluation
    assert np.all(e.unknowns.condensing_temperature > at.room_temperature)
