"""Goods against the handbook table that rows were taken from, and against other tables."""

import pytest

from coldwright.shop.products import (
    freezing_heat,
    product,
    product_names,
    respiration_heat,
    sensible_heat,
    still_air_humidity,
)

ASHRAE = "ASHRAE Refrigeration 2006 ch. 9 table 3 (read as reprinted, kJ and Btu)"
EARLE = "Earle 1983, Unit Operations in Food Processing, appendix 7 (read)"
GEANKOPLIS = "Geankoplis, Transport Processes, appendix A.4, heat capacities of foods (read)"
NC_STATE = "NC State Cooperative Extension, respiration of horticultural crops (read)"
BTU_PER_LB_H = 0.646  # W/kg


@pytest.mark.parametrize(
    ("name", "freezing_C", "above", "below", "latent", "source"),
    [
        ("cabbage", -0.9, 4.02, 1.85, 308, ASHRAE),
        ("carrots", -1.4, 3.92, 2.00, 293, ASHRAE),
        ("lettuce", -0.2, 4.09, 1.65, 320, ASHRAE),
        # 30.0 F, 0.91, 0.47, 120 Btu/lb; 28.0 F, .90, .51, 117; 28.9 F, .84, .50, 103; 30.6 F,
        # .96, .44, 132
        ("apples", -1.11, 3.81, 1.97, 279, ASHRAE),
        ("fish", -2.22, 3.77, 2.14, 272, ASHRAE),
        ("meat", -1.72, 3.52, 2.09, 240, ASHRAE),
        ("strawberries", -0.78, 4.02, 1.84, 307, ASHRAE),
    ],
)
def test_the_handbook_table(name, freezing_C, above, below, latent, source):
    row = product(name)
    # Two digits of Btu/(lb F) resolve 0.02 kJ/(kg K), a tenth of a degree F 0.06 K.
    assert row.freezing_point == pytest.approx(freezing_C + 273.15, abs=0.06)
    assert row.specific_heat == pytest.approx(1e3 * above, abs=21)
    assert row.specific_heat_frozen == pytest.approx(1e3 * below, abs=21)
    assert row.latent_heat == pytest.approx(1e3 * latent, abs=1.5e3)


@pytest.mark.parametrize("name", product_names())
def test_latent_heat_is_that_of_the_water(name):
    # 334 kJ/kg by the share of water: how the handbook's column is made (from memory); bound water
    # of dough and the rounding of beer stay within 10 %.
    row = product(name)
    tolerance = 0.1 if name in ("dough", "beer") else 0.01
    assert row.latent_heat == pytest.approx(334e3 * row.water_share, rel=tolerance)


@pytest.mark.parametrize("name", product_names())
def test_specific_heat_by_the_share_of_dry_matter(name):
    # Chen 1985 (from memory): 4.19 - 2.30 x - 0.628 x^3, x the share of dry matter. Within two
    # standard uncertainties of the row; what it misses is fat, which hardens (butter, cheese).
    row = product(name)
    dry = 1.0 - row.water_share
    chen = 1e3 * (4.19 - 2.30 * dry - 0.628 * dry**3)
    tolerance = 2.0 * row.specific_heat_uncertainty
    assert chen == pytest.approx(row.specific_heat, rel=tolerance)


@pytest.mark.parametrize(
    ("name", "kJ_per_kg_K", "source"),
    [
        ("apples", 3.60, EARLE),
        ("cabbage", 3.93, EARLE),
        ("carrots", 3.60, EARLE),
        ("tomatoes", 3.98, EARLE),
        ("milk", 3.90, EARLE),
        ("meat", 3.22, EARLE),
        ("beer", 4.19, EARLE),
        ("water", 4.19, EARLE),
        ("dough", 2.93, EARLE + ": bread"),
        ("apples", 3.87, GEANKOPLIS),
        ("butter", 2.30, GEANKOPLIS),
        ("carrots", 3.88, GEANKOPLIS),
        ("hard cheese", 2.68, GEANKOPLIS + ": Swiss"),
        ("meat", 3.43, GEANKOPLIS),
        ("milk", 3.85, GEANKOPLIS),
        ("potatoes", 3.52, GEANKOPLIS),
        ("tomatoes", 3.98, GEANKOPLIS),
        ("dough", 2.79, GEANKOPLIS + ": white bread"),
    ],
)
def test_specific_heat_in_other_tables(name, kJ_per_kg_K, source):
    # Within two standard uncertainties of the row.
    row = product(name)
    tolerance = 2.0 * row.specific_heat_uncertainty
    assert 1e3 * kJ_per_kg_K == pytest.approx(row.specific_heat, rel=tolerance)


@pytest.mark.parametrize(
    ("name", "temperature_C", "Btu_per_lb_h", "source"),
    [
        ("strawberries", 0.0, 0.069, NC_STATE),
        ("strawberries", 25.0, 0.872, NC_STATE),
        ("cabbage", 0.0, 0.023, NC_STATE),
        ("apples", 0.0, 0.012, NC_STATE + ": fall apples"),
        ("potatoes", 5.0, 0.028, NC_STATE),
        ("potatoes", 20.0, 0.055, NC_STATE),
    ],
)
def test_respiration_cool_and_warm(name, temperature_C, Btu_per_lb_h, source):
    row = product(name)
    heat = float(respiration_heat(row, temperature_C + 273.15, 1.0))
    # Within one standard uncertainty of the row.
    assert BTU_PER_LB_H * Btu_per_lb_h == pytest.approx(heat, rel=row.respiration_uncertainty)


@pytest.mark.parametrize(
    ("name", "factor", "exponent"),
    [
        ("apples", 5.6871e-4, 2.5977),
        ("cabbage", 6.0803e-4, 2.6183),
        ("carrots", 5.0018e-2, 1.7926),
        ("strawberries", 3.6683e-4, 3.033),
    ],
)
@pytest.mark.parametrize("temperature_C", [0.0, 5.0, 10.0, 20.0])
def test_respiration_by_a_fitted_power(name, factor, exponent, temperature_C):
    # Becker and Fricke 1996, respiration of fruits and vegetables (from memory):
    # 10.7 f / 3600 (1.8 t + 32)^g W/kg. Within two standard uncertainties of the row.
    row = product(name)
    fitted = 10.7 * factor / 3600.0 * (1.8 * temperature_C + 32.0) ** exponent
    heat = float(respiration_heat(row, temperature_C + 273.15, 1.0))
    assert fitted == pytest.approx(heat, rel=2.0 * row.respiration_uncertainty)


def test_still_air_over_a_cold_surface():
    # Dossat, Principles of Refrigeration, natural convection (from memory).
    for difference, least, greatest in (
        (7.5, 0.90, 0.95),
        (8.5, 0.85, 0.90),
        (9.5, 0.80, 0.85),
        (10.5, 0.75, 0.80),
    ):
        assert still_air_humidity(difference) == (least, greatest)


def test_heat_to_freeze_lean_beef():
    # Riedel's enthalpy of lean beef: 304 kJ/kg at 0 C, 47 at -18 C (from memory). All water is
    # counted as frozen here and a tenth of it is not, so this comes out a little high.
    row = product("meat")
    total = float(sensible_heat(row, 273.15, 255.15) + freezing_heat(row, 273.15, 255.15))
    assert 257e3 < total < 1.1 * 257e3
