"""Goods: rows in bounds, functions over lanes, and what happens at the freezing point."""

import numpy as np
import pytest

from coldwright.shop.products import (
    freezing_heat,
    product,
    product_names,
    respiration_heat,
    sensible_heat,
    still_air_humidity,
)
from coldwright.sources import source

NAMES = product_names()
LIVING = [name for name in NAMES if product(name).respiration]


@pytest.mark.parametrize("name", NAMES)
def test_rows_are_in_bounds_and_sourced(name):
    row = product(name)
    assert 0.1 < row.water_share <= 1.0
    assert 1500.0 < row.specific_heat_frozen < 3500.0
    assert 2000.0 < row.specific_heat <= 4200.0
    assert 0.001 < row.specific_heat_uncertainty <= 0.15
    assert row.freezing_point is None or 255.0 < row.freezing_point <= 273.15
    if row.wanted_humidity is not None:
        low, high = row.wanted_humidity
        assert 0.5 < low < high <= 1.0
    assert bool(row.humidity_source) == (row.wanted_humidity is not None)
    assert bool(row.respiration_source) == bool(row.respiration)
    assert (row.respiration_uncertainty > 0.0) == bool(row.respiration)
    for key in filter(None, (row.source, row.respiration_source, row.humidity_source)):
        assert source(key).label


@pytest.mark.parametrize("name", LIVING)
def test_respiration_rises_with_temperature_and_scales_with_mass(name):
    row = product(name)
    at = np.linspace(273.15, 300.0, 28)
    heat = respiration_heat(row, at, 1.0)
    assert np.all(np.diff(heat) >= 0.0)
    assert np.all(heat > 0.0)
    for temperature, per_mass in row.respiration:
        assert respiration_heat(row, temperature, 3.0) == pytest.approx(3.0 * per_mass)
    first, second = row.respiration[:2]
    middle = respiration_heat(row, 0.5 * (first[0] + second[0]), 1.0)
    assert middle == pytest.approx(np.sqrt(first[1] * second[1]))


def test_frozen_goods_and_goods_that_do_not_live_give_off_nothing():
    assert respiration_heat(product("apples"), 255.0, 10.0) == 0.0
    assert np.all(respiration_heat(product("butter"), np.array([255.0, 280.0]), 10.0) == 0.0)


def test_lanes_broadcast():
    mass, temperature = np.array([[1.0], [2.0]]), np.array([275.0, 280.0, 285.0])
    assert respiration_heat(product("carrots"), temperature, mass).shape == (2, 3)
    assert respiration_heat(product("milk"), temperature, mass).shape == (2, 3)
    assert sensible_heat(product("milk"), mass + 290.0, temperature).shape == (2, 3)
    assert freezing_heat(product("butter"), mass + 290.0, temperature).shape == (2, 3)
    assert still_air_humidity(temperature - 270.0)[0].shape == (3,)


@pytest.mark.parametrize("name", NAMES)
def test_heat_from_warm_to_frozen_is_the_sum_of_its_steps(name):
    row = product(name)
    warm, middle, cold = 293.15, 271.0, 253.15
    for heat in (sensible_heat, freezing_heat):
        there = heat(row, warm, middle) + heat(row, middle, cold)
        assert there == pytest.approx(heat(row, warm, cold))
        assert heat(row, cold, warm) == pytest.approx(-heat(row, warm, cold))
    above = sensible_heat(row, 293.15, 283.15)
    assert above == pytest.approx(10.0 * row.specific_heat)
    freezes = row.freezing_point is not None
    assert freezing_heat(row, warm, cold) == pytest.approx(row.latent_heat if freezes else 0.0)


def test_bands_of_still_air_join_and_fall():
    least, greatest = still_air_humidity(np.array([0.0, 7.5, 8.5, 9.5, 10.5, 30.0]))
    assert least.tolist() == [*greatest.tolist()[1:], 0.0]
    assert greatest[0] == 1.0
    assert np.all(np.diff(greatest) < 0.0)
