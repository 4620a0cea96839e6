"""The pressure of the standard atmosphere at an altitude: what a gauge reads from."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from coldwright.arrays import Array

    Lane = TypeVar("Lane", float, Array)
else:
    Lane = TypeVar("Lane")

SEA_LEVEL_PRESSURE = 101325.0  # Pa
SEA_LEVEL_TEMPERATURE = 288.15  # K
LAPSE_RATE = 0.0065  # K/m
STANDARD_GRAVITY = 9.80665  # m/s2
SPECIFIC_GAS_CONSTANT = 287.05287  # J/(kg K), dry air


def atmosphere_at(altitude_m: Lane) -> Lane:
    """Pressure [Pa] of the standard atmosphere at `altitude_m` [m], a float or an array.

    p = p0 (1 - L h / T0)^(g / (R L)), the hydrostatic law with a constant lapse rate. Holds in the
    troposphere, -2000 m to 11 000 m; the altitude is taken as geopotential (0.1 % off at 5000 m at
    most). Weather moves the real pressure by 2 to 3 %. Source: ICAO, Manual of the Standard
    Atmosphere, Doc 7488 (source key `icao_1993_atmosphere`).
    """
    exponent = STANDARD_GRAVITY / (SPECIFIC_GAS_CONSTANT * LAPSE_RATE)
    relative_temperature = 1.0 - LAPSE_RATE * altitude_m / SEA_LEVEL_TEMPERATURE
    pressure: Lane = SEA_LEVEL_PRESSURE * relative_temperature**exponent
    return pressure
