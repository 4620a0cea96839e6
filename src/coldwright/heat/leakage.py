"""Air that passes by buoyancy: through two leaks, and through an open door."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.heat.free_convection.numbers import STANDARD_GRAVITY
from coldwright.sources import correlation


def effective_opening_area(first: FloatOrArray, second: FloatOrArray) -> Array:
    """Area [m2] of one opening that loses as much as two in series, (1/A1^2 + 1/A2^2)^(-1/2).

    Areas [m2] >= 0; 0 when either is 0. Source: ASHRAE Fundamentals, ventilation chapter.
    """
    one, two = lanes(first), lanes(second)
    return lanes(one * two / np.maximum(np.hypot(one, two), 1e-300))


def stack_flow(
    opening_area_low: FloatOrArray,
    opening_area_high: FloatOrArray,
    height: FloatOrArray,
    discharge_coefficient: FloatOrArray,
    density_inside: FloatOrArray,
    density_outside: FloatOrArray,
) -> Array:
    """Volume flow [m3/s] that the stack effect drives through a low and a high opening.

    V = Cd A_eff [2 g h |rho_i - rho_o| / rho_mean]^(1/2)

    Areas [m2] >= 0; height between the openings' middles [m] >= 0; discharge_coefficient about
    0.61 for sharp-edged holes; densities [kg/m3] > 0. Sharp-edged openings only: hair cracks flow
    less (laminar). 0 at equal densities; heat V dT is smooth there.
    Example: 0.01 m2 each, 0.5 m apart, 2 C in 8 C, Cd 0.61: 1.99 L/s.
    Source: ASHRAE Fundamentals, ventilation chapter.
    """
    inside, outside = lanes(density_inside), lanes(density_outside)
    relative = np.abs(inside - outside) / (0.5 * (inside + outside))
    area = effective_opening_area(opening_area_low, opening_area_high)
    speed = np.sqrt(2.0 * STANDARD_GRAVITY * lanes(height) * relative)
    return lanes(lanes(discharge_coefficient) * area * speed)


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
