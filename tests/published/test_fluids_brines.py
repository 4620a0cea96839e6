"""Brines against handbook tables."""

import pytest

from coldwright.fluids.brines import brine

LANGE = "Lange's Handbook table 5.13 (read)"
CHILLER = "chiller handbook table (read)"
ASHRAE = "ASHRAE Fundamentals 2013 (read)"
MEMORY = "from memory"


@pytest.mark.parametrize(
    ("percent", "freezing", "tolerance", "source"),
    [
        (20, -6.7, 1.0, LANGE),
        (30, -12.8, 1.0, LANGE),
        (40, -20.6, 1.0, LANGE),
        (50, -33.3, 1.5, LANGE),
    ],
)
def test_propylene_glycol_freezes(percent, freezing, tolerance, source):
    mixture = brine("propylene glycol", percent / 100, "volume")
    assert mixture.freezing_temperature - 273.15 == pytest.approx(freezing, abs=tolerance)


@pytest.mark.parametrize(
    ("percent", "celsius", "density", "source"),
    [(30, 0, 1036.2, CHILLER), (30, 20, 1028.4, CHILLER), (40, 20, 1036.2, CHILLER)],
)
def test_propylene_glycol_density(percent, celsius, density, source):
    # 0.5 %: data sets of the same nominal mixture differ by 0.4 %.
    found = brine("propylene glycol", percent / 100, "volume").density(celsius + 273.15)
    assert found == pytest.approx(density, rel=0.005)


@pytest.mark.parametrize(
    ("celsius", "specific_heat", "source"), [(0, 3790, CHILLER), (20, 3850, CHILLER)]
)
def test_propylene_glycol_specific_heat(celsius, specific_heat, source):
    found = brine("propylene glycol", 0.30, "volume").specific_heat(celsius + 273.15)
    assert found == pytest.approx(specific_heat, rel=0.007)


@pytest.mark.parametrize(
    ("percent", "celsius", "viscosity", "tolerance", "source"),
    [
        (30, -6.7, 9.91e-3, 0.12, ASHRAE),
        (40, -12.2, 27.17e-3, 0.12, ASHRAE),
        (50, -17.8, 61.32e-3, 0.15, ASHRAE),
    ],
)
def test_propylene_glycol_viscosity(percent, celsius, viscosity, tolerance, source):
    found = brine("propylene glycol", percent / 100, "volume").dynamic_viscosity(celsius + 273.15)
    assert found == pytest.approx(viscosity, rel=tolerance)


def test_ethylene_glycol_by_mass():
    """Computed with CoolProp MEG; data sets differ by 2 K."""
    mixture = brine("ethylene glycol", 0.30, "mass")
    assert mixture.freezing_temperature - 273.15 == pytest.approx(-14.58, abs=0.01)


def test_ethylene_glycol_by_volume_lies_between_two_data_sets():
    mixture = brine("ethylene glycol", 0.40, "volume")
    assert -26.7 <= mixture.freezing_temperature - 273.15 <= -24.8
    by_mass = brine("ethylene glycol", 0.40, "mass")
    lower = by_mass.freezing_temperature - mixture.freezing_temperature
    # The outside figures say 2.9 K lower by volume (mixing the two measured volumes).
    assert 2.0 < lower < 3.2


@pytest.mark.parametrize(
    ("kind", "mass_percent", "volume_percent"),
    [
        # ASHRAE Fundamentals, tables of freezing points by mass and by volume, from memory.
        ("propylene glycol", 40, 39.6),
        ("propylene glycol", 50, 49.9),
        ("ethylene glycol", 30, 27.7),
        ("ethylene glycol", 40, 37.8),
    ],
)
def test_volume_percent_of_the_handbook(kind, mass_percent, volume_percent):
    mixture = brine(kind, mass_percent / 100, "mass")
    assert 100 * mixture.volume_fraction == pytest.approx(volume_percent, abs=0.5)


@pytest.mark.parametrize(
    ("kind", "fraction", "freezing", "tolerance", "source"),
    [
        ("sodium chloride", 0.23, -21.1, 0.6, "eutectic point of the salt, from memory"),
        ("sodium chloride", 0.10, -6.6, 0.3, "CRC Handbook, from memory"),
        ("calcium chloride", 0.20, -18.3, 1.0, "CRC Handbook, from memory"),
        ("ethanol", 0.30, -20.5, 1.0, "CRC Handbook, from memory"),
    ],
)
def test_other_brines_freeze(kind, fraction, freezing, tolerance, source):
    found = brine(kind, fraction).freezing_temperature - 273.15
    assert found == pytest.approx(freezing, abs=tolerance)


def test_calcium_chloride_density():
    """Conde 2004 (from memory): rho / rho_water = 1 + .836014 x - .4363 x^2 + .105642 x^3."""
    for fraction in (0.05, 0.10, 0.20, 0.30):
        x = fraction / (1 - fraction)
        expected = 998.2 * (1 + 0.836014 * x - 0.4363 * x**2 + 0.105642 * x**3)
        assert brine("calcium chloride", fraction).density(293.15) == pytest.approx(
            expected, rel=0.003
        )


def test_water_is_densest_at_four_degrees():
    """Density maximum 999.97 kg/m3 at 3.98 °C (IAPWS, from memory)."""
    water = brine("water")
    assert water.density(277.13) == pytest.approx(999.97, abs=0.02)
    assert water.expansion_coefficient(275.0) < 0 < water.expansion_coefficient(279.5)
    assert water.expansion_coefficient(277.13) == pytest.approx(0.0, abs=5e-7)
    assert water.expansion_coefficient(293.15) == pytest.approx(2.07e-4, rel=0.01)
