"""Goods that a cold box keeps: what they hold of heat, what they give off, the air they want."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.shop.rows import find, table

ICE_POINT = 273.15
NEVER_FREEZES = 0.0
"""Freezing point [K] that stands for none."""

# Air to cold surface [K] at the edges of the bands of humidity that still air comes to.
STILL_AIR_EDGES = (7.0, 8.0, 9.0, 10.0, 11.0)
STILL_AIR_HUMIDITIES = (1.0, 0.95, 0.90, 0.85, 0.80, 0.75, 0.0)
STILL_AIR_SOURCE = "products_dossat_still_air"


@dataclass(frozen=True)
class Product:
    """One kind of goods; SI units, shares as numbers up to 1.

    `freezing_point` is where freezing begins, None where there is no clear point. `respiration`
    holds pairs of temperature [K] and heat [W/kg], empty for what is not alive. `transpiration` is
    water for each pascal that the air lacks, 0 for what is closed, None where it is not known.
    Uncertainties are relative and standard. `wanted_humidity` is of the air about it, None where
    it stands in glass.
    """

    name: str
    water_share: float
    specific_heat: float  # J/(kg K), above freezing
    specific_heat_frozen: float
    specific_heat_uncertainty: float
    freezing_point: float | None  # K
    latent_heat: float  # J/kg
    respiration: tuple[tuple[float, float], ...]
    respiration_uncertainty: float
    transpiration: float | None  # kg/(kg s Pa)
    transpiration_uncertainty: float
    wanted_humidity: tuple[float, float] | None
    source: str
    respiration_source: str
    transpiration_source: str
    humidity_source: str
    note: str


def _made(name: str, row: dict[str, Any]) -> Product:
    dried = row.get("transpiration")
    freezing, wanted = row.get("freezing_point_C"), row.get("wanted_humidity")
    return Product(
        name=name,
        water_share=row["water_share"],
        specific_heat=1e3 * row["specific_heat"],
        specific_heat_frozen=1e3 * row["specific_heat_frozen"],
        specific_heat_uncertainty=row["specific_heat_uncertainty"],
        freezing_point=None if freezing is None else freezing + ICE_POINT,
        latent_heat=1e3 * row["latent_heat"],
        respiration=tuple((t + ICE_POINT, 1e-3 * heat) for t, heat in row.get("respiration", ())),
        respiration_uncertainty=row.get("respiration_uncertainty", 0.0),
        transpiration=None if dried is None else 1e-12 * dried,
        transpiration_uncertainty=row.get("transpiration_uncertainty", 0.0),
        wanted_humidity=None if wanted is None else (wanted[0], wanted[1]),
        source=row["source"],
        respiration_source=row.get("respiration_source", ""),
        transpiration_source=row.get("transpiration_source", ""),
        humidity_source=row.get("humidity_source", ""),
        note=row.get("note", ""),
    )


@cache
def _products() -> dict[str, Product]:
    return {name: _made(name, row) for name, row in table("products.toml").items()}


def product_names() -> tuple[str, ...]:
    """Names of the goods."""
    return tuple(_products())


def product(name: str) -> Product:
    """Return the goods `name`. Raises InputError with the nearest names."""
    return find(_products(), name, what="Product", field="cabinet.contents.product")


def respiration_heat(product: Product, temperature: FloatOrArray, mass: FloatOrArray) -> Array:
    """Heat [W] that living goods of `mass` [kg] give off at `temperature` [K]; 0 W for others.

    Straight in the logarithm between the table's temperatures, since respiration grows by a
    constant factor per degree; held at the ends of the table (0 or more to 20 or 25 C), and
    nothing once frozen. Source: the row's `respiration_source`.
    """
    t, kilograms = np.broadcast_arrays(lanes(temperature), lanes(mass))
    if not product.respiration:
        return np.zeros(t.shape)
    at, heat = np.array(product.respiration).T
    living = t >= (product.freezing_point or NEVER_FREEZES)
    return np.asarray(np.where(living, np.exp(np.interp(t, at, np.log(heat))), 0.0) * kilograms)


def transpired_moisture(
    product: Product,
    mass: FloatOrArray,
    saturation_pressure: FloatOrArray,
    relative_humidity: FloatOrArray,
) -> Array:
    """Water [kg/s] that goods of `mass` [kg] give off to still air about them.

    m_w = k m (1 - RH) p_sat: goods and air are of one temperature, whose saturation_pressure
    [Pa] is given. 0 where the goods are closed or their transpiration is not known. Respiration
    warms goods a little above the air, so that they lose some even in saturated air: left out.
    Source: transpiration coefficient of the row's `transpiration_source`.
    """
    lacking = (1.0 - lanes(relative_humidity)) * saturation_pressure
    return lanes((product.transpiration or 0.0) * lanes(mass) * lacking)


def sensible_heat(product: Product, start: FloatOrArray, end: FloatOrArray) -> Array:
    """Heat [J/kg] given off from `start` down to `end` [K], freezing itself left out.

    The specific heat above freezing holds down to the freezing point and the one below from there.
    In truth food freezes over a range of some 20 K; the sum is the same well below it.
    """
    freezing = product.freezing_point or NEVER_FREEZES
    t1, t2 = np.broadcast_arrays(lanes(start), lanes(end))
    above = np.maximum(t1, freezing) - np.maximum(t2, freezing)
    below = np.minimum(t1, freezing) - np.minimum(t2, freezing)
    return np.asarray(product.specific_heat * above + product.specific_heat_frozen * below)


def freezing_heat(product: Product, start: FloatOrArray, end: FloatOrArray) -> Array:
    """Heat [J/kg] given off by freezing between `start` and `end` [K], 0 where both are on a side.

    All of it is counted at the freezing point. Goods without a clear freezing point give none.
    """
    freezing = product.freezing_point or NEVER_FREEZES
    t1, t2 = np.broadcast_arrays(lanes(start), lanes(end))
    frozen = np.where(t2 < freezing, 1.0, 0.0) - np.where(t1 < freezing, 1.0, 0.0)
    return np.asarray(product.latent_heat * frozen)


def still_air_humidity(difference: FloatOrArray) -> tuple[Array, Array]:
    """Least and greatest relative humidity [-] that still air comes to over a cold surface.

    `difference` [K]: air less cold surface. The table of a handbook for boxes without a fan, by
    bands of 1 K from 7 to 11 K (95 down to 75 %); nearer than that the air is moister, farther it
    is drier, and no more is said. Source: Dossat, Principles of Refrigeration (from memory).
    """
    band = np.searchsorted(np.array(STILL_AIR_EDGES), lanes(difference), side="right")
    bounds = np.array(STILL_AIR_HUMIDITIES)
    return np.asarray(bounds[band + 1]), np.asarray(bounds[band])
