"""How cold a glycol mixture may get before its slush can burst a full vessel.

Below the freezing point ice crystals stand in a stronger liquid. A mixture rich enough in glycol
stays a slush that gives way; a weak one sets hard enough to burst what it fills.
"""

from __future__ import annotations

import numpy as np

SOURCE = "calc_glycol_burst"

# Percent glycol by volume that protects from bursting down to each temperature [°F].
_FAHRENHEIT = (20.0, 10.0, 0.0, -10.0, -20.0, -30.0, -40.0)
_PERCENT = {
    "propylene glycol": (12.0, 20.0, 24.0, 28.0, 30.0, 33.0, 35.0),
    "ethylene glycol": (11.5, 17.8, 23.1, 27.3, 31.4, 31.4, 31.4),
}
KINDS = tuple(_PERCENT)


def burst_temperature(kind: str, volume_fraction: float) -> float | None:
    """Temperature [K] down to which the slush of a glycol does not burst what it fills.

    Between the rows of the table, straight; from plain water (0 °C) to its first row too. From the
    strongest row on it is minus infinity: no bursting as cold as any room gets. None for a kind
    that the table does not hold. From -40 to 0 °C; source key `calc_glycol_burst`.
    """
    percents = _PERCENT.get(kind)
    if percents is None:
        return None
    if 100.0 * volume_fraction >= percents[-1]:
        return -np.inf
    fahrenheit = np.interp(100.0 * volume_fraction, (0.0, *percents), (32.0, *_FAHRENHEIT))
    return float((fahrenheit - 32.0) / 1.8 + 273.15)
