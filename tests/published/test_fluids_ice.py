"""Ice, eutectics and the diffusion of water vapour against handbook values."""

import pytest

from coldwright.errors import InputError
from coldwright.fluids.ice import (
    LATENT_HEAT_OF_FUSION,
    eutectic,
    eutectic_names,
    ice_conductivity,
    ice_density,
    ice_specific_heat,
)
from coldwright.fluids.moist_air import vapour_diffusivity

# Incropera and DeWitt, table A.3 (ice), and CRC Handbook (all from memory).
ICE = [
    (ice_conductivity, 273.15, 2.22, 0.04),
    (ice_conductivity, 253.15, 2.39, 0.03),
    (ice_specific_heat, 273.15, 2050.0, 0.02),
    (ice_specific_heat, 253.15, 1943.0, 0.02),
    (ice_density, 273.15, 917.0, 0.001),
    (ice_density, 253.15, 919.4, 0.001),
]


@pytest.mark.parametrize(("function", "temperature", "value", "tolerance"), ICE)
def test_ice(function, temperature, value, tolerance):
    assert float(function(temperature)) == pytest.approx(value, rel=tolerance)


def test_heat_of_fusion():
    """333.55 kJ/kg: CRC Handbook of Chemistry and Physics (from memory)."""
    assert pytest.approx(333.55e3, rel=0.001) == LATENT_HEAT_OF_FUSION


@pytest.mark.parametrize(
    ("temperature", "value"),
    # 298 K: Incropera and DeWitt, table A.8; 273 K: Perry's Handbook (from memory).
    [(298.15, 2.6e-5), (273.15, 2.2e-5)],
)
def test_diffusivity_of_water_vapour(temperature, value):
    assert float(vapour_diffusivity(temperature)) == pytest.approx(value, rel=0.05)


def test_thin_air_diffuses_faster_by_its_pressure():
    ratio = vapour_diffusivity(283.15, 70000.0) / vapour_diffusivity(283.15)
    assert float(ratio) == pytest.approx(101325.0 / 70000.0)


@pytest.mark.parametrize(
    ("salt", "freezing_C", "latent", "tolerance"),
    # Outside figures, coolant table (from memory), with the tolerances that stand there.
    [
        ("potassium chloride", -10.7, 283e3, 0.05),
        ("sodium chloride", -21.2, 229e3, 0.08),
        ("ammonium chloride", -16.0, 295e3, 0.08),
    ],
)
def test_eutectics(salt, freezing_C, latent, tolerance):
    found = eutectic(salt)
    assert found.freezing_temperature - 273.15 == pytest.approx(freezing_C, abs=0.1)
    assert found.latent_heat == pytest.approx(latent, rel=tolerance)
    # Freezing takes more of a mixture than of water less its salt can give.
    assert found.latent_heat < LATENT_HEAT_OF_FUSION * (1.0 - 0.4 * found.mass_fraction)


def test_unknown_eutectic_names_the_nearest():
    assert "sodium chloride" in eutectic_names()
    with pytest.raises(InputError, match="sodium chloride"):
        eutectic("sodium cloride")
