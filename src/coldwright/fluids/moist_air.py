"""Air: film properties of dry air, and the humidity of moist air.

Holds from 230 to 350 K and 60 to 110 kPa (any altitude where people keep food); altitude enters
by the pressure alone. Film properties are those of dry air: at 25 °C and 100 % relative humidity
moist air is 1.2 % lighter and 2 % higher in specific heat, well inside the spread of any
free-convection correlation. Everything is a function of arrays that broadcast.
"""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.film_properties import AirProperties
from coldwright.sources import correlation

GAS_CONSTANT_DRY_AIR = 287.055  # J/(kg K): 8.314 462 618 over 28.966 g/mol, CIPM-2007 composition
MASS_RATIO_OF_WATER = 0.621945  # molar mass of water over that of dry air
STANDARD_PRESSURE = 101325.0  # Pa
ICE_POINT = 273.15  # K
TRIPLE_POINT = 273.16  # K

TEMPERATURE_RANGE = (230.0, 350.0)

# Saturation over ice changes to saturation over water across this width [K]. The two equations
# differ by 1 part in 10 000 where they meet: the blend keeps the derivative continuous.
BLEND_WIDTH = 0.05

# Coefficients of ln(p / Pa) in T^-1, 1, T, T^2, T^3, T^4, ln T.
OVER_ICE = (
    -5674.5359,
    6.3925247,
    -9.677843e-3,
    6.2215701e-7,
    2.0747825e-9,
    -9.484024e-13,
    4.1635019,
)
OVER_WATER = (
    -5800.2206,
    1.3914993,
    -4.8640239e-2,
    4.1764768e-5,
    -1.4452093e-8,
    0.0,
    6.5459673,
)

DEW_POINT_STEPS = 8


@correlation(
    quantity="viscosity of air",
    source="fluids_us_standard_atmosphere_1976",
    ranges={"temperature": TEMPERATURE_RANGE},
    bias="up to 0.7 % below the reference equation",
)
def air_dynamic_viscosity(temperature: FloatOrArray) -> Array:
    """Sutherland's formula: 1.458e-6 T^1.5 / (T + 110.4) [Pa s] at `temperature` [K]."""
    t = lanes(temperature)
    return lanes(1.458e-6 * t**1.5 / (t + 110.4))


@correlation(
    quantity="thermal conductivity of air",
    source="fluids_us_standard_atmosphere_1976",
    ranges={"temperature": TEMPERATURE_RANGE},
    bias="1.7 % below the reference equation at 230 K, 0.5 % at 300 K",
)
def air_conductivity(temperature: FloatOrArray) -> Array:
    """2.64638e-3 T^1.5 / (T + 245.4 * 10^(-12/T)) [W/(m K)] at `temperature` [K]."""
    t = lanes(temperature)
    return lanes(2.64638e-3 * t**1.5 / (t + 245.4 * 10.0 ** (-12.0 / t)))


@correlation(
    quantity="diffusivity of water vapour in air",
    source="fluids_vapour_diffusivity",
    ranges={"temperature": (233.15, 313.15)},
    bias="within 5 % of tabulated values",
)
def vapour_diffusivity(
    temperature: FloatOrArray, pressure: FloatOrArray = STANDARD_PRESSURE
) -> Array:
    """2.11e-5 (T / 273.15)^1.94 (101325 / p) [m2/s] at `temperature` [K] and `pressure` [Pa].

    Source: Pruppacher and Klett 1997, equation 13-3 (from memory).
    """
    ratio = lanes(temperature) / ICE_POINT
    return lanes(2.11e-5 * ratio**1.94 * STANDARD_PRESSURE / lanes(pressure))


@correlation(
    quantity="specific heat of air",
    source="fluids_air_specific_heat",
    ranges={"temperature": TEMPERATURE_RANGE},
    bias="within 0.05 % of the reference equation at 1 bar",
)
def air_specific_heat(temperature: FloatOrArray) -> Array:
    """1030.5 - 0.19975 T + 3.9734e-4 T^2 [J/(kg K)] of dry air near 1 bar at `temperature` [K]."""
    t = lanes(temperature)
    return lanes(1030.5 - 0.19975 * t + 3.9734e-4 * t**2)


def film_properties(
    temperature: FloatOrArray, pressure: FloatOrArray = STANDARD_PRESSURE
) -> AirProperties:
    """Properties of dry air for a film at `temperature` [K] and absolute `pressure` [Pa].

    Ideal gas: density p / (R T) and expansion coefficient 1 / T (within 0.2 and 0.6 % at 1 bar).
    """
    t, p = np.broadcast_arrays(lanes(temperature), lanes(pressure))
    return AirProperties(
        density=p / (GAS_CONSTANT_DRY_AIR * t),
        specific_heat=air_specific_heat(t),
        conductivity=air_conductivity(t),
        dynamic_viscosity=air_dynamic_viscosity(t),
        expansion_coefficient=1.0 / t,
    )


def _log_pressure_and_slope(t: Array, c: tuple[float, ...]) -> tuple[Array, Array]:
    """Return ln p and its derivative by T for one set of Hyland-Wexler coefficients."""
    log_pressure = (
        c[0] / t + c[1] + t * (c[2] + t * (c[3] + t * (c[4] + t * c[5]))) + c[6] * np.log(t)
    )
    slope = -c[0] / t**2 + c[2] + t * (2 * c[3] + t * (3 * c[4] + t * 4 * c[5])) + c[6] / t
    return lanes(log_pressure), lanes(slope)


def _log_saturation(t: Array) -> tuple[Array, Array]:
    """Return ln of the saturation pressure and its slope, over ice below 0.01 °C, water above."""
    ice, ice_slope = _log_pressure_and_slope(t, OVER_ICE)
    water, water_slope = _log_pressure_and_slope(t, OVER_WATER)
    tangent = np.tanh((t - TRIPLE_POINT) / BLEND_WIDTH)
    share = 0.5 * (1.0 + tangent)
    share_slope = 0.5 * (1.0 - tangent**2) / BLEND_WIDTH
    log_pressure = ice + share * (water - ice)
    slope = ice_slope + share * (water_slope - ice_slope) + share_slope * (water - ice)
    return log_pressure, slope


@correlation(
    quantity="saturation pressure of water vapour",
    source="fluids_hyland_wexler_1983",
    ranges={"temperature": (173.15, 473.15)},
    bias="within 0.1 % of IAPWS from 230 to 350 K",
)
def saturation_pressure(temperature: FloatOrArray) -> Array:
    """Vapour pressure of water [Pa] at `temperature` [K]: over ice below 0.01 °C, over water above.

    Hyland and Wexler 1983 as given in the ASHRAE Handbook, Fundamentals, ch. 1, equations 5 and
    6; the two are joined across 0.1 K so that the result has a continuous derivative.
    Worked value: 2339 Pa at 20 °C, 259.9 Pa at -10 °C.
    """
    return np.exp(_log_saturation(lanes(temperature))[0])


def humidity_ratio(
    temperature: FloatOrArray,
    relative_humidity: FloatOrArray,
    pressure: FloatOrArray = STANDARD_PRESSURE,
) -> Array:
    """Mass of water by mass of dry air [kg/kg].

    `temperature` [K], `relative_humidity` [0..1] (against ice below 0 °C), `pressure` absolute
    [Pa]. The enhancement factor (0.4 % at 1 bar) is left out.
    """
    vapour = lanes(relative_humidity) * saturation_pressure(temperature)
    return lanes(MASS_RATIO_OF_WATER * vapour / (lanes(pressure) - vapour))


def relative_humidity(
    temperature: FloatOrArray,
    humidity_ratio: FloatOrArray,
    pressure: FloatOrArray = STANDARD_PRESSURE,
) -> Array:
    """Relative humidity [-] of air that holds `humidity_ratio` [kg/kg]; above 1 it would fog."""
    w = lanes(humidity_ratio)
    vapour = lanes(pressure) * w / (MASS_RATIO_OF_WATER + w)
    return lanes(vapour / saturation_pressure(temperature))


def dew_point(temperature: FloatOrArray, relative_humidity: FloatOrArray) -> Array:
    """Temperature [K] at which air at `temperature` [K] and `relative_humidity` (0..1] fogs.

    Below 0 °C it is the frost point. Dry air has none: relative humidity is taken as at least
    one in a million. Newton steps on ln p against 1/T, nearly a straight line.
    """
    t = lanes(temperature)
    wanted = _log_saturation(t)[0] + np.log(np.maximum(lanes(relative_humidity), 1e-6))
    inverse = 1.0 / np.broadcast_arrays(t, wanted)[0]
    for _ in range(DEW_POINT_STEPS):
        log_pressure, slope = _log_saturation(1.0 / inverse)
        # d(ln p)/d(1/T) = -T^2 d(ln p)/dT
        inverse = inverse + (log_pressure - wanted) * inverse**2 / slope
    return lanes(1.0 / inverse)


def enthalpy(temperature: FloatOrArray, humidity_ratio: FloatOrArray) -> Array:
    """Enthalpy [J/kg of dry air] against dry air and liquid water at 0 °C.

    `temperature` [K], `humidity_ratio` [kg/kg]. ASHRAE Handbook, Fundamentals, ch. 1:
    1006 t + w (2 501 000 + 1860 t). Worked value: 50.6 kJ/kg at 25 °C and 10 g/kg.
    """
    t = lanes(temperature) - ICE_POINT
    return lanes(1006.0 * t + lanes(humidity_ratio) * (2.501e6 + 1860.0 * t))


def density(
    temperature: FloatOrArray,
    humidity_ratio: FloatOrArray,
    pressure: FloatOrArray = STANDARD_PRESSURE,
) -> Array:
    """Density [kg of moist air per m3] at `temperature` [K], `humidity_ratio` [kg/kg], [Pa]."""
    w = lanes(humidity_ratio)
    dry = lanes(pressure) / (
        GAS_CONSTANT_DRY_AIR * lanes(temperature) * (1.0 + w / MASS_RATIO_OF_WATER)
    )
    return lanes(dry * (1.0 + w))
