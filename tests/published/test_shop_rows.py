"""Stock data against the tables that they were taken from."""

import math

import pytest

from coldwright.shop.capillary_bores import bores
from coldwright.shop.compressor_classes import compressor_class, compressor_class_names
from coldwright.shop.materials import air_gap_resistance, material
from coldwright.shop.refrigerant_safety import safety
from coldwright.shop.surfaces import surface
from coldwright.shop.tubes import tube

B280 = "ASTM B280 soft coil as listed by tube suppliers (read)"
EN = "EN 12735 sizes (from memory)"
COMPUTED = "computed (outside figures, safety table)"


@pytest.mark.parametrize(
    ("name", "inside_mm", "volume_mL_per_m", "copper_kg_per_m", "source"),
    [
        ("1/8 in", 1.65, 2.1, 0.051, B280),
        ("3/16 in", 3.24, 8.2, 0.085, B280),
        ("1/4 in", 4.83, 18.3, 0.119, B280),
        ("5/16 in", 6.31, 31.3, 0.162, B280),
        ("3/8 in", 7.90, 49.0, 0.198, B280),
        ("1/2 in", 11.07, 96.3, 0.270, B280),
        ("5/8 in", 14.10, 156.0, 0.374, B280),
        ("6 x 1 mm", 4.0, 12.6, None, EN),
        ("8 x 1 mm", 6.0, 28.3, None, EN),
        ("10 x 1 mm", 8.0, 50.3, None, EN),
    ],
)
def test_tubes(name, inside_mm, volume_mL_per_m, copper_kg_per_m, source):
    stock = tube(name)
    assert 1000 * stock.inside_diameter == pytest.approx(inside_mm, abs=0.005)
    volume = math.pi / 4 * stock.inside_diameter**2 * 1e6
    assert volume == pytest.approx(volume_mL_per_m, rel=0.003, abs=0.05)
    if copper_kg_per_m is not None:
        section = math.pi / 4 * (stock.outside_diameter**2 - stock.inside_diameter**2)
        assert section * material("copper").density == pytest.approx(copper_kg_per_m, rel=0.01)


def test_bores_are_those_of_the_supplier_and_the_metric_market():
    in_inches = {round(row.inside_diameter / 0.0254, 3) for row in bores() if "in" in row.name}
    supplier = {0.026, 0.028, 0.031, 0.036, 0.042, 0.044, 0.049, 0.050, 0.054, 0.059, 0.064, 0.075}
    assert in_inches == supplier
    in_mm = [round(1000 * row.inside_diameter, 2) for row in bores() if "mm" in row.name]
    assert in_mm == [0.6, 0.7, 0.8, 0.9, 1.0]


@pytest.mark.parametrize(
    ("name", "least", "greatest", "source"),
    [
        ("slab cork", 0.043, 0.0433, "cold-store table; 1930s tables 0.30 Btu in/(h ft2 F)"),
        ("new expanded cork board", 0.036, 0.040, "manufacturers' range (read)"),
        ("extruded polystyrene", 0.026, 0.030, "ASHRAE Fundamentals 2017 ch. 26"),
        ("expanded polystyrene", 0.029, 0.037, "ASHRAE Fundamentals 2017 ch. 26"),
        ("mineral wool", 0.035, 0.040, "ASHRAE Fundamentals ch. 26"),
        ("sawdust", 0.071, 0.081, "Granum 1951"),
        ("wood shavings", 0.060, 0.120, "Granum 1951"),
        ("kapok", 0.035, 0.035, "Holman A-3 (from memory)"),
        ("oak", 0.17, 0.17, "ASHRAE Fundamentals ch. 26"),
        ("plywood", 0.09, 0.24, "ISO 10456"),
        ("glass", 1.0, 1.0, "ISO 10456"),
        ("stainless steel", 17.0, 17.0, "ISO 10456"),
        ("copper", 380.0, 380.0, "ISO 10456"),
        ("aluminium", 160.0, 160.0, "ISO 10456"),
        ("new vacuum panel", 0.004, 0.008, "from memory"),
        ("aged vacuum panel", 0.007, 0.020, "from memory"),
    ],
)
def test_conductivities(name, least, greatest, source):
    row = material(name)
    assert least <= row.conductivity <= greatest
    # The stated uncertainty (95 %) must reach at least to the ends of the published range.
    reach = 2 * row.conductivity_uncertainty * row.conductivity
    assert row.conductivity + reach >= greatest
    assert row.conductivity - reach <= least


def test_foam_ages_by_fifteen_percent():
    """Paul et al. 2022 (abstract): up to +15 % in a year."""
    ratio = (
        material("aged polyurethane foam").conductivity
        / material("new polyurethane foam").conductivity
    )
    assert ratio == pytest.approx(1.15, abs=0.01)


def test_cork_wall_example():
    """Theodore, Heat Transfer Applications, example 19.5: 8.25 mm of cork cuts the heat by 80 %."""
    film, conductivity = 21.0, 0.0433
    assert material("slab cork").conductivity == pytest.approx(conductivity, rel=0.01)
    thickness = 4 / film * conductivity
    assert 1000 * thickness == pytest.approx(8.25, rel=0.005)


@pytest.mark.parametrize(
    ("millimetres", "resistance"),
    [(0, 0.0), (5, 0.11), (7, 0.13), (10, 0.15), (15, 0.17), (25, 0.18), (50, 0.18)],
)
def test_air_gaps_of_iso_6946(millimetres, resistance):
    """ISO 6946, unventilated air layers, heat flowing level (from memory)."""
    assert air_gap_resistance(millimetres / 1000) == pytest.approx(resistance)


@pytest.mark.parametrize(
    ("name", "emissivity", "source"),
    [
        ("polished metal", 0.05, "design rule (from memory)"),
        ("oxidised metal", 0.60, "design rule (from memory)"),
        ("frosted", 0.95, "design rule (from memory)"),
    ],
)
def test_emissivities(name, emissivity, source):
    assert surface(name).emissivity == emissivity


@pytest.mark.parametrize(
    ("name", "safety_class", "limit", "rcl", "gwp", "source"),
    [
        ("R152a", "A2", 0.130, 0.032, 124, "ISO 817 / ASHRAE 34 (from memory)"),
        ("R134a", "A1", None, 0.210, 1430, "model mechanical code (read)"),
        ("R600a", "A3", 0.043, 0.0095, 3, "from memory"),
        ("R290", "A3", 0.038, 0.0095, 3, "hydrocarbon handbook page (read in part)"),
        ("R1234yf", "A2L", 0.289, 0.075, 4, "from memory"),
        ("R12", "A1", None, 0.090, 10900, "model mechanical code (read)"),
        ("R22", "A1", None, 0.210, 1810, "model mechanical code (read)"),
    ],
)
def test_refrigerants(name, safety_class, limit, rcl, gwp, source):
    row = safety(name)
    assert row.safety_class == safety_class
    assert row.lower_flammability_limit_kg_m3 == limit
    assert row.rcl_kg_m3 == pytest.approx(rcl)
    assert row.gwp100 == gwp


@pytest.mark.parametrize(
    ("name", "litres", "grams", "source"),
    [("R152a", 100, 13, COMPUTED), ("R600a", 100, 4.3, COMPUTED), ("R290", 100, 3.8, COMPUTED)],
)
def test_leak_that_fills_a_closed_cabinet(name, litres, grams, source):
    volume = safety(name).least_room_volume(grams / 1000, share=1.0)
    assert 1000 * volume == pytest.approx(litres, rel=0.01)


@pytest.mark.parametrize(
    ("name", "grams"),
    [("R290", 152), ("R600a", 172), ("R152a", 520)],
)
def test_charge_for_any_room(name, grams):
    """ISO 5149-1 / EN 378-1 (rule from memory): 4 m3 x lower limit."""
    assert 4000 * safety(name).lower_flammability_limit_kg_m3 == pytest.approx(grams, rel=0.01)


def test_lower_limit_is_the_volume_percent_times_the_density():
    """R152a burns from 4.8 % by volume at 25 °C (ISO 817, from memory): 0.13 kg/m3."""
    density = 101325 * 0.06605 / (8.314462618 * 298.15)
    assert safety("R152a").lower_flammability_limit_kg_m3 == pytest.approx(
        0.048 * density, rel=0.01
    )


def test_compressor_classes_hold_the_levels_of_the_trade():
    """Levels from memory (outside figures): shell 1.3-1.8 W/K, oil 150-300 mL, 1/12 to 1/5 hp."""
    for size in ("1/12 hp", "1/10 hp", "1/8 hp", "1/6 hp", "1/5 hp"):
        row = compressor_class(f"LBP {size}")
        assert 1.15 <= row.shell_conductance.value <= 1.8
        assert 150e-6 <= row.oil_volume.value <= 300e-6
    # Overall isentropic efficiency 0.46-0.54 of one measured unit of 13.5 cm3 with R600a, which
    # moves the heat of about 7.5 cm3 with R134a: nominal 1/5 hp.
    assert 0.46 <= compressor_class("LBP 1/5 hp").overall_efficiency.value <= 0.54
    low, high = compressor_class("LBP 1/8 hp").evaporating_range
    assert (low - 273.15, high - 273.15) == pytest.approx((-35.0, -10.0))
    assert len(compressor_class_names()) == 21


def test_volumetric_efficiency_falls_as_measured():
    """One measured map (R600a): 0.854 - 0.00895 x pressure ratio; class figures within 10 %."""
    row = compressor_class("LBP 1/5 hp")
    for ratio in (6.0, 9.0, 12.0):
        expansion = ratio ** (1 / 1.08) - 1.0
        found = row.volumetric_factor.value - row.clearance.value * expansion
        assert found == pytest.approx(0.854 - 0.00895 * ratio, rel=0.12)


def test_magnetising_share_gives_the_power_factor_of_the_trade():
    """Power factor 0.55-0.75 at 1/8 hp (from memory): I^2 = (P/V)^2 + I_m^2."""
    share = compressor_class("LBP 1/8 hp").magnetising_share.value
    assert 0.55 <= math.sqrt(1 - share**2) <= 0.75
