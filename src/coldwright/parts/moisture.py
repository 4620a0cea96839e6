"""Moisture that air brings into the box and the cold surface takes out again."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.heat.frost import FREEZING_POINT, vapour_mass_flux
from coldwright.sources import correlation

EVAPORATION_AT_FREEZING = 2.501e6
"""Latent heat of water at 0 C [J/kg]; it falls by 2361 J/kg per kelvin above."""

SUBLIMATION = 2.835e6
"""Latent heat of ice to vapour [J/kg], within 0.2 % from -30 to 0 C."""

VAPOUR_GAS_CONSTANT = 461.5
"""Gas constant of water vapour [J/kgK]."""

EVAPORATION_SLOPE = 2361.0
THAW_BLEND = 1.0
"""Half-width [K] over which a surface passes from freezing to dripping, so that heat is smooth."""

USUAL_DEFICIT = 0.2
"""Dryness of the air, 1 - relative humidity, at which the moisture of the contents is stated."""

DRY_ROUNDING = 1e-4
"""Humidity ratio [kg/kg] over which settling begins: far below what a hygrometer tells apart."""

LEAST_EXCHANGE = 1e-9
"""Dry air [kg/s] that any box exchanges at least: 86 mg a day."""


@correlation(
    quantity="heat given up by moisture that settles on a cold surface",
    source="box_ashrae_psychrometrics",
    ranges={"surface_temperature": (233.15, 323.15)},
    bias="within 0.3 % of steam tables",
)
def deposit_latent_heat(surface_temperature: FloatOrArray) -> Array:
    """Latent heat [J/kg] of vapour that freezes on (below 0 C) or wets (above) a surface.

    surface_temperature [K]. 2.835 MJ/kg on ice, 2.501 - 0.002361 t MJ/kg on water, t in C; joined
    over a kelvin each way. Source: ASHRAE Fundamentals, psychrometrics (from memory).
    """
    above = lanes(surface_temperature) - FREEZING_POINT
    wet_share = 0.5 * (1.0 + np.tanh(above / THAW_BLEND))
    wet = EVAPORATION_AT_FREEZING - EVAPORATION_SLOPE * above
    return lanes(SUBLIMATION + wet_share * (wet - SUBLIMATION))


def contents_evaporation(
    contents_moisture: FloatOrArray,
    humidity: FloatOrArray,
    saturated_humidity: FloatOrArray,
) -> Array:
    """Vapour [kg/s] that stored goods give off, falling to nothing in saturated air.

    contents_moisture: what they give off at 80 % relative humidity [kg/s]; humidity: ratio of the
    box's air, saturated_humidity: at its temperature [kg/kg]. Above saturation the goods grow
    wet (negative). Source: transpiration goes with the vapour pressure deficit (common practice).
    """
    deficit = 1.0 - lanes(humidity) / saturated_humidity
    return lanes(lanes(contents_moisture) * deficit / USUAL_DEFICIT)


def settled_humidity_ratio(
    exchanged_air: FloatOrArray,
    room_humidity_ratio: FloatOrArray,
    contents_moisture: FloatOrArray,
    saturated_humidity: FloatOrArray,
    deposition: FloatOrArray,
    surface_humidity: FloatOrArray,
) -> Array:
    """Humidity ratio of the box's air [kg/kg] at which as much settles as comes in.

    exchanged_air: dry air through leaks and door [kg/s]; contents_moisture, saturated_humidity: see
    `contents_evaporation`; deposition: vapour that settles per unit of humidity ratio [kg/s] (see
    `deposition_conductance`); surface_humidity: saturated at the cold surface [kg/kg]. Where the
    air stays drier than that of itself, nothing settles. Source: balance of mass.
    """
    exchanged = np.maximum(exchanged_air, LEAST_EXCHANGE)
    given_off = lanes(contents_moisture) / USUAL_DEFICIT
    brought = exchanged * room_humidity_ratio + given_off
    drawn = exchanged + given_off / saturated_humidity
    undisturbed = brought / drawn
    excess = undisturbed - lanes(surface_humidity)
    # the greater of excess and nothing, rounded where a surface just begins to draw moisture
    rounded = 0.5 * (excess + np.hypot(excess, DRY_ROUNDING))
    return lanes(undisturbed - rounded * deposition / (drawn + deposition))


def deposition_conductance(
    convective_conductance: FloatOrArray,
    air_specific_heat: FloatOrArray,
    air_mass_flow: FloatOrArray,
) -> Array:
    """Vapour that settles per unit difference of humidity ratio, stored air to surface [kg/s].

    convective_conductance: of the cold surface, without radiation [W/K]; air_specific_heat
    [J/kgK]; air_mass_flow: what passes the surface [kg/s], which no surface can dry further than
    to its own humidity: m [1 - exp(-D/m)]. Source: Chilton and Colburn (1934), as in
    `heat.frost.vapour_mass_flux`; effectiveness of an exchanger with one even side.
    """
    still = vapour_mass_flux(convective_conductance, air_specific_heat, 1.0, 0.0)
    return lanes(-lanes(air_mass_flow) * np.expm1(-still / air_mass_flow))


def saturation_slope(temperature: FloatOrArray, saturated_humidity: FloatOrArray) -> Array:
    """Slope of the saturated humidity ratio [1/K], w L / (R T^2), for solvers only (within 5 %).

    temperature [K]; saturated_humidity [kg/kg]. Source: Clausius and Clapeyron's relation.
    """
    steepness = EVAPORATION_AT_FREEZING / (VAPOUR_GAS_CONSTANT * lanes(temperature) ** 2)
    return lanes(saturated_humidity * steepness)
