"""Draft of a warm plate before a cabinet's back: a channel with openings and height above it.

The plain channel correlation knows neither what the air loses at its openings nor a duct that
continues above the warm part. Here the same two limits are joined in the same way, with the
through-flow limit taken from a balance of draft and loss. Without opening loss and without extra
height it IS the channel correlation.
"""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.heat.free_convection.channel import PLATE_LIMIT, Flag
from coldwright.heat.free_convection.numbers import STANDARD_GRAVITY, rayleigh_number
from coldwright.sources import correlation


def draft_velocity(
    temperature_excess: FloatOrArray,
    gap: FloatOrArray,
    heated_height: FloatOrArray,
    *,
    chimney_height: FloatOrArray = 0.0,
    opening_loss: FloatOrArray = 0.0,
    expansion_coefficient: FloatOrArray,
    kinematic_viscosity: FloatOrArray,
) -> Array:
    """Mean air velocity [m/s] in a vertical channel filled with air of one temperature excess.

    g beta dT (L + Hc) = 12 nu u (L + Hc) / S^2 + K u^2 / 2, solved for u

    temperature_excess: air in the channel less air outside [K] (magnitude); gap S, heated_height
    L, chimney_height Hc of duct of the same gap beyond it [m]; opening_loss K: sum of entrance,
    bend and exit loss coefficients on the channel's velocity (an opening of a share a of the
    channel's section counts its coefficient / a^2); expansion_coefficient [1/K];
    kinematic_viscosity [m2/s] > 0. Laminar in the channel (u 2S/nu below about 2300). K = 0 gives
    g beta dT S^2 / (12 nu), whatever the height; dT = 0 gives 0.
    Source: laminar flow between parallel plates and Bernoulli's equation (derived here).
    """
    height = lanes(heated_height) + chimney_height
    draft = STANDARD_GRAVITY * lanes(expansion_coefficient) * np.abs(temperature_excess) * height
    friction = 12.0 * lanes(kinematic_viscosity) * height / lanes(gap) ** 2
    # the root in the form that stays exact when the opening loss goes to zero
    return lanes(2.0 * draft / (friction + np.sqrt(friction**2 + 2.0 * draft * opening_loss)))


def draft_velocity_for_heat(
    heat_per_width: FloatOrArray,
    gap: FloatOrArray,
    heated_height: FloatOrArray,
    *,
    chimney_height: FloatOrArray = 0.0,
    opening_loss: FloatOrArray = 1.5,
    expansion_coefficient: FloatOrArray,
    kinematic_viscosity: FloatOrArray,
    volumetric_heat_capacity: FloatOrArray,
) -> Array:
    """Mean air velocity [m/s] in a channel to which a known heat is given evenly over its height.

    The air's excess grows to q/(rho cp u S), half of it on average over L and all of it over the
    chimney: K u^3 / 2 + 12 nu (L + Hc) / S^2 u^2 = g beta q (L/2 + Hc) / (rho cp S).

    heat_per_width q: heat into the air per metre of channel width [W/m] (magnitude);
    opening_loss K > 0; volumetric_heat_capacity rho cp [J/m3K]; the others as in
    `draft_velocity`. q = 0 gives 0. The outlet excess is q / (rho cp u S).
    Source: as `draft_velocity` (derived here).
    """
    above = lanes(chimney_height)
    height = lanes(heated_height) + above
    cubic = 0.5 * lanes(opening_loss)
    square = 12.0 * lanes(kinematic_viscosity) * height / lanes(gap) ** 2
    draft = STANDARD_GRAVITY * lanes(expansion_coefficient) * np.abs(heat_per_width)
    driving = draft * (0.5 * lanes(heated_height) + above) / (volumetric_heat_capacity * lanes(gap))
    # each loss alone allows a greater velocity: start there; Newton then falls without overshoot
    # because the left side is convex, and 6 steps from within a factor 2^(1/2) reach rounding
    velocity = np.minimum((driving / cubic) ** (1.0 / 3.0), np.sqrt(driving / square))
    velocity = np.maximum(velocity, 1e-150)
    for _ in range(6):
        loss = (cubic * velocity + square) * velocity**2
        slope = (3.0 * cubic * velocity + 2.0 * square) * velocity
        velocity = velocity - np.where(driving > 0.0, (loss - driving) / slope, velocity)
        velocity = np.maximum(velocity, 1e-150)
    return lanes(np.where(driving > 0.0, velocity, 0.0))


@correlation(
    quantity="free convection in a vertical channel with openings and chimney",
    source="bar_cohen_rohsenow_1984",
    ranges={"heated_height": (0.1, 1.5), "gap": (0.003, 0.2)},
    bias="cautious: draft does not raise the plate limit; opening loss and chimney are our own",
)
def chimney_channel_film_coefficient(
    temperature_excess: FloatOrArray,
    gap: FloatOrArray,
    heated_height: FloatOrArray,
    *,
    chimney_height: FloatOrArray = 0.0,
    opening_loss: FloatOrArray = 0.0,
    conductivity: FloatOrArray,
    expansion_coefficient: FloatOrArray,
    kinematic_viscosity: FloatOrArray,
    thermal_diffusivity: FloatOrArray,
    both_sides: Flag = False,
) -> Array:
    """Mean film coefficient [W/m2K] of a channel's warm wall(s) to the ENTERING air.

    1/h^2 = 1/h_flow^2 + 1/h_plate^2, h_flow = (k/alpha) u S / (n L), h_plate = 0.59 Ra_L^(1/4) k/L

    u is `draft_velocity` at the full wall excess (the most heat the air can carry away), n the
    number of warm walls. temperature_excess: wall less entering air [K] (magnitude); the other
    geometry as in `draft_velocity`; conductivity k [W/mK], the other properties at film
    temperature; both_sides: two warm walls rather than one before an adiabatic one. With K = 0
    it equals `vertical_channel_nusselt` k/S for every chimney height. At zero excess it is 0.
    Source: Bar-Cohen and Rohsenow (1984) for the limits and their joining; opening loss and
    chimney added here.
    """
    height = lanes(heated_height)
    velocity = draft_velocity(
        temperature_excess,
        gap,
        height,
        chimney_height=chimney_height,
        opening_loss=opening_loss,
        expansion_coefficient=expansion_coefficient,
        kinematic_viscosity=kinematic_viscosity,
    )
    walls = np.where(both_sides, 2.0, 1.0)
    flow = lanes(conductivity) / thermal_diffusivity * velocity * gap / (walls * height)
    rayleigh = rayleigh_number(
        temperature_excess, height, expansion_coefficient, kinematic_viscosity, thermal_diffusivity
    )
    plate = rayleigh**0.25 / np.sqrt(PLATE_LIMIT) * conductivity / height
    # hypot is 0 only when both are 0: then the product is 0 as well
    return lanes(flow * plate / np.maximum(np.hypot(flow, plate), 1e-300))
