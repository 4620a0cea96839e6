"""What a filling holds and how it freezes, against tables."""

from __future__ import annotations

import pytest

from coldwright.fluids.filling import filling, heat_of_fusion
from coldwright.fluids.freezing_curve import freezing_curve, ice_share
from coldwright.fluids.ice import eutectic

ZERO_C = 273.15


@pytest.mark.parametrize(("celsius", "enthalpy"), [(-10.0, -354.1e3), (-20.0, -374.1e3)])
def test_enthalpy_of_ice(celsius, enthalpy):
    # ASHRAE Fundamentals, psychrometrics, properties of water at saturation: solid, liquid at 0 C
    # is zero (from memory).
    assert filling("water").enthalpy(ZERO_C + celsius) == pytest.approx(enthalpy, rel=0.002)


def test_enthalpy_of_water():
    # steam tables: 83.9 kJ/kg at 20 C (from memory)
    assert filling("water").enthalpy(ZERO_C + 20.0) == pytest.approx(83.9e3, rel=0.003)


@pytest.mark.parametrize(("celsius", "calories"), [(0.0, 79.7), (-10.0, 74.5), (-20.0, 69.0)])
def test_heat_of_fusion_of_undercooled_water(celsius, calories):
    # Smithsonian Meteorological Tables, latent heats of water, cal/g (from memory)
    assert heat_of_fusion(ZERO_C + celsius) == pytest.approx(calories * 4186.8, rel=0.005)


def test_water_that_freezes_takes_nine_hundredths_more_room():
    # the density of ice 0.917, of water at 0 C 0.9998: 9.0 % (CRC Handbook, from memory); poured in
    # at 20 C, 0.9982, it is 8.9 %
    assert filling("water").growth_when_full == pytest.approx(0.9982 / 0.917 - 1.0, rel=0.005)


@pytest.mark.parametrize(
    ("salt", "celsius", "kilojoules", "strength", "density", "tolerance"),
    # Freezing point, latent heat and strength: outside figures, coolant table (from memory), its
    # tolerances. Density of the solution at 20 C: CRC Handbook, concentrative properties (memory).
    [
        ("potassium chloride", -10.7, 283.0, 0.195, 1129.0, 0.05),
        ("sodium chloride", -21.2, 229.0, 0.23, 1172.0, 0.08),
        ("ammonium chloride", -16.0, 295.0, 0.19, 1054.0, 0.08),
    ],
)
def test_a_eutectic_is_what_tables_say(salt, celsius, kilojoules, strength, density, tolerance):
    store = filling(f"{salt} eutectic")
    assert store.first_ice - ZERO_C == pytest.approx(celsius, abs=0.1)
    warm, cold = store.enthalpy(store.first_ice), store.enthalpy(store.last_ice)
    assert warm - cold == pytest.approx(kilojoules * 1e3, rel=tolerance)
    assert eutectic(salt).mass_fraction == pytest.approx(strength, abs=0.006)
    assert store.liquid_density == pytest.approx(density, rel=0.005)
    # salt solutions grow less than 9 %, or little more where the salt is roomier as a crystal
    assert 0.05 < store.growth_when_full < 0.11


@pytest.mark.parametrize(
    ("kind", "fraction", "celsius", "ice", "tolerance"),
    [
        # Freezing points of the strong liquid that is left: NaCl 10 %, -6.56 C (CRC Handbook);
        # propylene glycol 20 % -7.1 C and 30 % -12.7 C, ethylene glycol 20 % -7.8 C, ASHRAE
        # Fundamentals, secondary coolants (all from memory). Ice by the lever rule.
        ("sodium chloride", 0.05, -6.56, 0.5, 0.01),
        ("propylene glycol", 0.10, -7.1, 0.5, 0.01),
        ("propylene glycol", 0.10, -12.7, 2.0 / 3.0, 0.01),
        ("ethylene glycol", 0.10, -7.8, 0.5, 0.01),
    ],
)
def test_ice_in_a_brine(kind, fraction, celsius, ice, tolerance):
    strength = freezing_curve(kind).strength(ZERO_C + celsius)
    assert ice_share(strength, fraction) == pytest.approx(ice, abs=tolerance)


def test_ice_on_a_pond():
    # Stefan's law with water's own figures: 34.8 mm of ice for the root of each degree-day of frost
    # (US Army Corps of Engineers, EM 1110-2-1612, Ice Engineering; from memory). On a sheet that
    # starts bare, resistance y/k of the layer's one face.
    water = filling("water")
    density = water.liquid_density / (1.0 + water.growth_when_full)
    conductivity = water.frozen_conductivity(ZERO_C - 1.0)
    squared = 2.0 * conductivity * 86400.0 / (density * water.latent_heat)
    assert squared**0.5 == pytest.approx(0.0348, rel=0.03)
