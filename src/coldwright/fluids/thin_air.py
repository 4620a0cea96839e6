"""What a lower atmosphere does to boiling water and to a thermostat's bellows."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.moist_air import dew_point, saturation_pressure
from coldwright.fluids.refrigerants import Refrigerant
from coldwright.units.atmosphere import SEA_LEVEL_PRESSURE

REFERENCE = 373.15  # K, only where the search starts


def boiling_temperature(pressure: FloatOrArray) -> Array:
    """Temperature [K] at which water boils at an absolute `pressure` [Pa].

    The inverse of `moist_air.saturation_pressure` (Hyland and Wexler 1983), from 10 to 200 kPa.
    """
    return dew_point(REFERENCE, lanes(pressure) / saturation_pressure(REFERENCE))


def thermostat_shift(
    fill: Refrigerant, setting: FloatOrArray, atmospheric_pressure: FloatOrArray
) -> Array:
    """How much [K] a thermostat set at sea level switches too warm (positive) or cold (negative).

    A bellows works on the bulb's saturation pressure less the air's: with less air around it the
    same force is there at p_sat(setting) - (p0 - p), a colder bulb. `fill` is what the bulb holds,
    as vapour over liquid, `setting` [K] where it switches at sea level. NaN where that pressure is
    below the tables of `fill`. The effect stands in textbooks; the size is computed.
    """
    wanted = fill.saturation_pressure(setting) - (SEA_LEVEL_PRESSURE - lanes(atmospheric_pressure))
    least = fill.saturation_pressure(fill.least_temperature)
    greatest = fill.saturation_pressure(fill.greatest_temperature)
    shift = fill.saturation_temperature(np.clip(wanted, least, greatest)) - lanes(setting)
    return lanes(np.where((wanted >= least) & (wanted <= greatest), shift, np.nan))
