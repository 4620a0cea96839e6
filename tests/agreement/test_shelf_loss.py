"""The loss of a blocked shelf against another handbook's orifice and its two halves."""

import numpy as np
import pytest
from fluids.fittings import contraction_sharp, diffuser_sharp

from coldwright.parts.air_circuit import shelf_loss_coefficient

PART = pytest.mark.xfail(
    strict=True, reason="handbooks part where little is closed: the loss is below 1 there"
)


@pytest.mark.parametrize("free", [0.1, 0.25, 0.5, 0.75, 0.9])
def test_more_than_a_contraction_and_an_enlargement(free):
    # Rennels as in the library fluids, both on the gap's velocity. A thin edge's jet is still
    # contracted when it widens, so the two apart lose less.
    bore = np.sqrt(free)
    apart = contraction_sharp(1.0, bore) + diffuser_sharp(bore, 1.0)
    assert shelf_loss_coefficient(1.0 - free) * free**2 > apart


@pytest.mark.parametrize(
    "free", [0.1, 0.25, 0.5, pytest.param(0.75, marks=PART), pytest.param(0.9, marks=PART)]
)
def test_as_another_handbooks_orifice(free):
    # Rennels and Hudson 2012, Pipe Flow, sharp-edged orifice in a straight pipe (from memory).
    bore, loss = np.sqrt(free), shelf_loss_coefficient(1.0 - free)
    contracted = 1.0 + 0.622 * (1.0 - 0.215 * bore**2 - 0.785 * bore**5)
    orifice = 0.0696 * (1.0 - bore**5) * contracted**2 + (contracted - bore**2) ** 2
    assert loss * free**2 == pytest.approx(orifice, rel=0.15)
