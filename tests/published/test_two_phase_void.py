"""Void fractions against published models worked out elsewhere."""

import pytest

from coldwright.fluids.refrigerants import refrigerant
from coldwright.heat.two_phase import (
    homogeneous_void_fraction,
    rouhani_void_fraction,
    smith_void_fraction,
    zivi_void_fraction,
)

# Zivi 1964, Smith 1969, Rouhani and Axelsson 1970 in Steiner's horizontal form (factor 0.12):
# computed with reference property equations and an independent library, three figures kept.
# Fluid, C, mass flux, quality, then homogeneous, Zivi, Smith, Rouhani.
ROWS = [
    ("R134a", -20.0, 50.0, 0.1, 0.957, 0.792, 0.835, 0.768),
    ("R134a", -20.0, 50.0, 0.5, 0.995, 0.972, 0.964, 0.925),
    ("R134a", 45.0, 80.0, 0.3, 0.893, 0.757, 0.781, 0.726),
    ("R600a", -25.0, 25.0, 0.3, 0.994, 0.956, 0.947, 0.897),
    ("R152a", -20.0, 40.0, 0.1, 0.966, 0.816, 0.852, 0.790),
    ("R152a", -20.0, 40.0, 0.5, 0.996, 0.976, 0.968, 0.928),
    ("R152a", 45.0, 60.0, 0.3, 0.918, 0.790, 0.809, 0.757),
]


@pytest.mark.parametrize(
    ("name", "celsius", "flux", "quality", "homogeneous", "zivi", "smith", "rouhani"), ROWS
)
def test_void_fractions(name, celsius, flux, quality, homogeneous, zivi, smith, rouhani):
    at = refrigerant(name).saturated(celsius + 273.15)
    ratio = at.vapour_density / at.liquid_density
    assert homogeneous_void_fraction(quality, ratio) == pytest.approx(homogeneous, abs=6e-4)
    assert zivi_void_fraction(quality, ratio) == pytest.approx(zivi, abs=6e-4)
    assert smith_void_fraction(quality, ratio) == pytest.approx(smith, abs=6e-4)
    found = rouhani_void_fraction(
        quality, flux, at.liquid_density, at.vapour_density, at.surface_tension
    )
    assert found == pytest.approx(rouhani, abs=6e-4)
