"""What a vessel weighs and how far its filling grows, from densities of tables."""

from __future__ import annotations

from dataclasses import replace

import pytest

from coldwright.fluids.brines import brine
from coldwright.verdict.vessel_figures import vessel_figures
from support.assessed import assessed


def filled(kind, fraction=0.0, basis="mass"):
    case = assessed("larder").case
    plant = case.translation.plant
    vessel = replace(plant.box.cold_side, brine=brine(kind, fraction, basis))
    plant = replace(plant, box=replace(plant.box, cold_side=vessel))
    return vessel_figures(replace(case, translation=replace(case.translation, plant=plant)))


def test_water_grows_as_tables_say():
    # CRC Handbook (from memory): 998.2 kg/m3 at 20 C, 992.2 at 40 C.
    figures = filled("water")
    assert figures["brine_kg"] / figures["brine_L"] == pytest.approx(0.9982, rel=2e-4)
    growth = figures["expansion_L"] / figures["brine_L"]
    assert growth == pytest.approx(998.2 / 992.2 - 1.0, rel=0.01)


def test_glycol_weighs_as_tables_say():
    # ASHRAE Fundamentals, secondary coolants: propylene glycol 40 % by volume, 1036 kg/m3 near
    # 20 C (from memory; other tables 1035 to 1041).
    figures = filled("propylene glycol", 0.40, "volume")
    assert figures["brine_kg"] / figures["brine_L"] == pytest.approx(1.036, rel=0.005)


def test_a_copper_drum_weighs_its_sheet():
    # 1.2 mm copper sheet weighs 10.7 kg/m2 (8.94 kg/m3 per mm; common practice, no source).
    figures = vessel_figures(assessed("larder").case)
    area = 3.14159 * (0.25 * 0.42 + 2.0 * 0.25**2 / 4.0)
    assert figures["weight_by_part_kg"]["shell"] == pytest.approx(10.7 * area, rel=0.015)
    assert figures["weight_full_kg"] == pytest.approx(sum(figures["weight_by_part_kg"].values()))
