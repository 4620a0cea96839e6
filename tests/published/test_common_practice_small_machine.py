"""What mechanics see on a 1/8 hp class R152a machine without a fan: common practice, no source.

In a room of 60 to 70 °F: about 150-165 W and 1.75-1.8 A at 115-120 V just started on warm brine,
suction near 25 psig; about 115 W at 10 psig; about 100 W pulled down; no more than about 2 oz of
gas; a drum near 0 °F without fins leaves an old cork box near 40 °F, and fins bring it to about
35 °F at about 40 % running.
"""

import numpy as np
import pytest

from coldwright.build.translation.plant import translate
from coldwright.parts.cold_box import box_at_source
from coldwright.parts.motor import line_current
from coldwright.plant.balance import BALANCED
from coldwright.plant.box import surroundings
from coldwright.plant.operation import operate
from support.small_machine import cupboard, machine_at

PSI = 6894.757293168
ATMOSPHERE = 101325.0
VOLTS = 118.0


@pytest.fixture(scope="module")
def pull_down():
    """Brine from room temperature down to the pulled-down drum [°F]."""
    found, balance = machine_at([65.0, 50.0, 32.0, 14.0, 5.0, 0.0])
    assert np.all(balance.reason == BALANCED)
    return found, balance


def test_just_started_on_warm_brine(pull_down):
    """Suction near 25 psig, 150 to 165 W, 1.75 to 1.8 A: bands of 15, 10 and 7 %."""
    found, balance = pull_down
    e = balance.evaluation
    suction = (e.suction_pressure[0] - ATMOSPHERE) / PSI
    power = e.compressor.power[0]
    current = line_current(power, VOLTS, found.machine.magnetising_current)
    assert suction == pytest.approx(25.0, rel=0.15)
    assert 150.0 * 0.9 <= power <= 165.0 * 1.1
    assert 1.75 * 0.93 <= current <= 1.80 * 1.07


def test_power_at_ten_psig(pull_down):
    """About 115 W where suction has come down to 10 psig: within 10 %."""
    _, balance = pull_down
    e = balance.evaluation
    suction = (e.suction_pressure - ATMOSPHERE) / PSI
    order = np.argsort(suction)
    power = np.interp(10.0, suction[order], e.compressor.power[order])
    assert power == pytest.approx(115.0, rel=0.10)


def test_pulled_down_power(pull_down):
    """About 100 W when the drum has come near 0 °F: within 20 %, and falling all the way."""
    _, balance = pull_down
    power = balance.evaluation.compressor.power
    assert power[-1] == pytest.approx(100.0, rel=0.20)
    assert np.all(np.diff(power) < 0.0)


@pytest.fixture(scope="module")
def finned():
    """The finned cupboard with its charge found, at its target of 35 °F."""
    found = translate(cupboard(fins=True))
    return operate(found.plant, found.room, found.target, None, found.superheat)


def test_charge_is_no_more_than_about_two_ounces(finned):
    """Charge found for 5 K of superheat."""
    ounces = float(finned.charge[0]) / 0.028349523125
    assert 0.7 <= ounces <= 2.2


def test_fins_hold_thirty_five_degrees_at_forty_per_cent(finned):
    """Running share 40 % within 12 points."""
    assert finned.cycling.balance.reason[0] == BALANCED
    assert float(finned.cycling.run_fraction[0]) == pytest.approx(0.40, abs=0.12)


def test_plain_drum_near_zero_leaves_the_box_near_forty():
    """Drum surface 0 °F: air 40 °F within 4 °F."""
    found = translate(cupboard(fins=False))
    box = found.plant.box
    source = np.linspace(245.0, 268.0, 24)
    around = surroundings(found.room)
    state = box_at_source(box.cabinet, box.air_path, box.cold_side, source, around)
    drum_F = (state.surface_temperature - 273.15) * 1.8 + 32.0
    air_F = (state.air_temperature - 273.15) * 1.8 + 32.0
    assert np.interp(0.0, drum_F, air_F) == pytest.approx(40.0, abs=4.0)
