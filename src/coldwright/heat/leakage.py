"""Air that passes by buoyancy: through leaks, and through an open door."""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.heat.free_convection.numbers import STANDARD_GRAVITY
from coldwright.sources import correlation

NEUTRAL_LEVEL_STEPS = 50
"""Halvings of the whole height: the level is found to a part in 1e15."""


def neutral_level(areas: Sequence[FloatOrArray], heights: Sequence[FloatOrArray]) -> Array:
    """Height [m] at which the pressures inside and outside of openings are equal.

    sum A_i sign(z - z_i) |z - z_i|^(1/2) = 0: as much leaves below as enters above. Areas [m2] >= 0
    and heights of the openings' middles [m], in the same order. Densities and a common discharge
    coefficient do not move it. Where all areas are 0 it is the top. The left side rises with z,
    so halving finds the only root. Source: Bernoulli's equation at each opening.
    """
    pairs = [(lanes(area), lanes(height)) for area, height in zip(areas, heights, strict=True)]
    shape = np.broadcast_shapes(*(np.shape(each) for pair in pairs for each in pair))
    at = [np.broadcast_to(height, shape) for _, height in pairs]
    low, high = reduce(np.minimum, at), reduce(np.maximum, at)
    for _ in range(NEUTRAL_LEVEL_STEPS):
        middle = 0.5 * (low + high)
        surplus = sum(
            (area * np.sign(middle - z) * np.sqrt(np.abs(middle - z)) for area, z in pairs),
            start=np.zeros(shape),
        )
        low = np.where(surplus <= 0.0, middle, low)
        high = np.where(surplus <= 0.0, high, middle)
    return lanes(0.5 * (low + high))


def stack_openings(
    areas: Sequence[FloatOrArray], heights: Sequence[FloatOrArray]
) -> tuple[Array, ...]:
    """What each opening lets out below the neutral level, A_i (z_n - z_i)^(1/2) [m^2.5]; else 0.

    Areas [m2] >= 0 and heights [m] of any number of openings. Geometry alone: `stack_outflow` makes
    it a flow. Source: Bernoulli's equation at each opening.
    """
    level = neutral_level(areas, heights)
    return tuple(
        lanes(lanes(area) * np.sqrt(np.maximum(level - lanes(height), 0.0)))
        for area, height in zip(areas, heights, strict=True)
    )


def stack_outflow(
    opening: FloatOrArray,
    discharge_coefficient: FloatOrArray,
    density_inside: FloatOrArray,
    density_outside: FloatOrArray,
) -> Array:
    """Volume flow [m3/s] through one of `stack_openings`.

    V = Cd a [2 g |rho_i - rho_o| / rho_mean]^(1/2)

    opening a [m^2.5]; discharge_coefficient about 0.61 for sharp-edged holes; densities
    [kg/m3] > 0. The sum over the openings is what passes through all. A cold box lets its own air
    out low; into a warm one the room's comes in there. Sharp-edged openings only: hair cracks flow
    less (laminar). 0 at equal densities; heat V dT is smooth there.
    Example: two of 0.01 m2, 0.5 m apart, 2 C in 8 C, Cd 0.61: 1.99 L/s.
    Source: ASHRAE Fundamentals, ventilation chapter.
    """
    inside, outside = lanes(density_inside), lanes(density_outside)
    relative = np.abs(inside - outside) / (0.5 * (inside + outside))
    drive = np.sqrt(2.0 * STANDARD_GRAVITY * relative)
    return lanes(lanes(discharge_coefficient) * opening * drive)


@correlation(
    quantity="air exchange through an open door",
    source="gosney_olama_1975",
    ranges={"door_height": (0.3, 4.0)},
    bias="measured on cold-room doorways; a small door behind shelves exchanges less",
)
def door_exchange_flow(
    door_area: FloatOrArray,
    door_height: FloatOrArray,
    density_inside: FloatOrArray,
    density_outside: FloatOrArray,
) -> Array:
    """Volume flow of box air [m3/s] that leaves a fully open upright door, steady exchange.

    V = 0.221 A [g H (1 - rho_w/rho_c)]^(1/2) F, F = {2 / [1 + (rho_c/rho_w)^(1/3)]}^(3/2)

    door_area A [m2], door_height H [m]; densities [kg/m3] > 0 of moist air, c the denser and w
    the lighter of the two (either way round). V is of the DENSER air, so exchanged mass is
    V rho_c and heat V rho_c (h_o - h_i). 0 at equal densities. The height range marked is our
    own reading of its use (from memory).
    Source: Gosney and Olama (1975), as in ASHRAE Refrigeration, chapter 24.
    """
    denser = np.maximum(lanes(density_inside), density_outside)
    lighter = np.minimum(lanes(density_inside), density_outside)
    density_factor = (2.0 / (1.0 + np.cbrt(denser / lighter))) ** 1.5
    drive = np.sqrt(STANDARD_GRAVITY * lanes(door_height) * (1.0 - lighter / denser))
    return lanes(0.221 * lanes(door_area) * drive * density_factor)


def door_air_exchanged(
    exchange_flow: FloatOrArray, open_time: FloatOrArray, air_volume: FloatOrArray
) -> Array:
    """Volume of box air [m3] lost in one opening, never more than the box holds.

    V = V_box [1 - exp(-q t / V_box)]

    exchange_flow q [m3/s] (see `door_exchange_flow`), open_time t [s], both >= 0; air_volume of
    the box above its lowest door edge, contents taken off [m3] > 0. The box is taken as well mixed
    under a steady drive. The truth lies between a clean spill, min(q t, V_box), and a mixed
    box whose drive fades, V_box [1 - (1 + q t / 2 V_box)^(-2)].
    Source: derived here; common practice caps one opening at one air change.
    """
    volume = lanes(air_volume)
    return lanes(-volume * np.expm1(-lanes(exchange_flow) * open_time / volume))
