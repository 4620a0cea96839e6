"""What a gauge's temperature ring shows when it was made for another refrigerant.

The ring beside a pressure scale is printed for one refrigerant and for the standard atmosphere at
sea level: at a gauge pressure it shows that refrigerant's saturation temperature there, whatever
gas is in the system and wherever the gauge hangs.
"""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.refrigerants import Refrigerant
from coldwright.units.atmosphere import SEA_LEVEL_PRESSURE


def dial_temperature(
    dial: Refrigerant,
    pressure: FloatOrArray,
    atmospheric_pressure: FloatOrArray = SEA_LEVEL_PRESSURE,
) -> Array:
    """Temperature [K] that a ring made for `dial` shows; NaN where such a ring has no mark.

    `pressure` in the system, absolute, and `atmospheric_pressure` around the gauge [Pa]. A ring
    reaches at most over the range of the refrigerant's tables. Source: saturation of CoolProp's
    reference equations (`bell_2014_coolprop`); that rings are printed for sea level is common
    practice, no source.
    """
    as_printed = lanes(pressure) - lanes(atmospheric_pressure) + SEA_LEVEL_PRESSURE
    least = dial.saturation_pressure(dial.least_temperature)
    greatest = dial.saturation_pressure(dial.greatest_temperature)
    found = dial.saturation_temperature(np.clip(as_printed, least, greatest))
    within = (as_printed >= least) & (as_printed <= greatest)
    return np.asarray(np.where(within, found, np.nan))
