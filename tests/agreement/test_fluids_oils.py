"""The oil tables against the equation they invert, and against its limits."""

from dataclasses import replace

import numpy as np
import pytest

from coldwright.fluids.oil_pairs import PAIRS
from coldwright.fluids.oils import mass_share, oil, pressure_ratio_of

IDS = [f"{refrigerant} in {kind}" for kind, refrigerant in PAIRS]


@pytest.mark.parametrize("pair", PAIRS.values(), ids=IDS)
def test_round_trip_through_flory_huggins(pair):
    """Solutions up to 30 % by mass and 85 % of saturation come back within 1 %."""
    temperature = np.array([[255.0], [290.0], [330.0], [370.0]])
    volume_share = np.linspace(1e-4, 0.4, 60)[None, :]
    ratio = pressure_ratio_of(pair, volume_share, temperature)
    share = mass_share(pair, np.broadcast_to(volume_share, ratio.shape))
    rising = np.diff(ratio, axis=1, prepend=0.0) > 0.25 * np.diff(volume_share, prepend=0.0)
    kept = (ratio < 0.85) & (share < 0.3) & np.cumprod(rising, axis=1).astype(bool)
    assert kept.sum() > 20
    found = oil(pair.oil).solubility(pair.refrigerant, ratio, temperature)
    np.testing.assert_allclose(found[kept], share[kept], rtol=0.01)


@pytest.mark.parametrize("pair", PAIRS.values(), ids=IDS)
def test_dilute_limit(pair):
    """A trace dissolves in proportion to pressure (Henry)."""
    subject = oil(pair.oil)
    trace = subject.solubility(pair.refrigerant, 1e-4, 310.0)
    assert subject.solubility(pair.refrigerant, 2e-4, 310.0) == pytest.approx(2 * trace, rel=1e-3)


def test_athermal_solution_differs_from_raoult_by_size_only():
    """Without interaction only the size entropy exp(1 - 1/m) is left of a trace's activity."""
    pair = replace(PAIRS["mineral", "R600a"], interaction=0.0, interaction_slope=0.0)
    dilute = np.array([1e-6])
    ratio = pressure_ratio_of(pair, dilute, np.array([300.0])) / dilute
    molar_volume_ratio = (0.325 / 867.1) / (0.05812 / 531.2)
    assert ratio == pytest.approx(np.exp(1 - 1 / molar_volume_ratio), rel=1e-3)
