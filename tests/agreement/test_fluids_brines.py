"""Brine curves against the equations they were sampled from."""

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from coldwright.fluids.brines import brine

KEYS = {"density": "D", "specific_heat": "C", "conductivity": "L", "dynamic_viscosity": "V"}


@pytest.mark.parametrize(
    ("kind", "fraction", "fluid"),
    [
        ("propylene glycol", 0.35, "INCOMP::MPG[0.35]"),
        ("propylene glycol", 0.55, "INCOMP::MPG[0.55]"),
        ("ethylene glycol", 0.30, "INCOMP::MEG[0.3]"),
        ("ethanol", 0.25, "INCOMP::MEA[0.25]"),
        ("calcium chloride", 0.20, "INCOMP::MCA[0.2]"),
        ("sodium chloride", 0.15, "INCOMP::MNA[0.15]"),
        ("water", 0.0, "Water"),
    ],
)
def test_curves(kind, fraction, fluid):
    mixture = brine(kind, fraction)
    # Between the nodes, not on them.
    t = np.linspace(*mixture.valid_range, 58)[1:-1]
    found = mixture.properties(t)
    for name, key in KEYS.items():
        expected = PropsSI(key, "T", t, "P", 101325.0, fluid)
        # The density of calcium chloride is smoothed on purpose.
        smoothed = kind == "calcium chloride" and name == "density"
        np.testing.assert_allclose(
            getattr(found, name), expected, rtol=0.0015 if smoothed else 2e-5, err_msg=name
        )
        np.testing.assert_array_equal(getattr(mixture, name)(t), getattr(found, name))


def test_water_expansion_against_the_reference_equation():
    t = np.linspace(274.0, 360.0, 30)
    expected = PropsSI("ISOBARIC_EXPANSION_COEFFICIENT", "T", t, "P", 101325.0, "Water")
    np.testing.assert_allclose(brine("water").expansion_coefficient(t), expected, atol=2e-7)


def test_volume_and_mass_fractions_of_one_mixture_agree():
    by_volume = brine("propylene glycol", 0.4, "volume")
    by_mass = brine("propylene glycol", by_volume.mass_fraction, "mass")
    assert by_mass.volume_fraction == pytest.approx(0.4, abs=1e-9)
    assert by_mass.freezing_temperature == pytest.approx(by_volume.freezing_temperature, abs=1e-6)


def test_glycol_without_glycol_is_nearly_water():
    thin, water = brine("propylene glycol", 0.0), brine("water")
    t = np.linspace(275.0, 340.0, 14)
    np.testing.assert_allclose(thin.density(t), water.density(t), rtol=1e-3)
    np.testing.assert_allclose(thin.specific_heat(t), water.specific_heat(t), rtol=0.005)
    np.testing.assert_allclose(thin.conductivity(t), water.conductivity(t), rtol=0.02)
    np.testing.assert_allclose(thin.dynamic_viscosity(t), water.dynamic_viscosity(t), rtol=0.02)
