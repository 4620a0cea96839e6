"""How far liquid falls under its saturation pressure in a capillary before it flashes."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.sources import correlation

BOLTZMANN = 1.380649e-23  # J/K
# Under this subcooling [K] the delay fades to none at saturation: ours, so that the flow has no
# step where gas first appears at the inlet.
FADING = 1.0


@correlation(
    quantity="underpressure of flashing in a capillary tube",
    source="chen_1990_flashing",
    ranges={
        "reynolds": (4640.0, 37600.0),
        "subcooling": (0.0, 17.0),
        "bore": (0.66e-3, 1.17e-3),
    },
    bias="measured with R12, scatter about 26 %; used for other refrigerants without evidence",
)
def flash_underpressure(
    saturation_temperature: FloatOrArray,
    surface_tension: FloatOrArray,
    liquid_density: FloatOrArray,
    vapour_density: FloatOrArray,
    critical_temperature: float,
    reynolds: FloatOrArray,
    subcooling: FloatOrArray,
    bore: FloatOrArray,
) -> Array:
    """Saturation pressure less the pressure [Pa] at which liquid flashes.

    dp sqrt(k T) / sigma^1.5 = 0.679 [v_g / (v_g - v_l)] Re^0.914 (dT / T_c)^-0.208 (d/D')^-3.18
    with D' = 10^4 sqrt(k T / sigma). Properties at the liquid's own saturation [K, N/m, kg/m3];
    `reynolds` [-] of the liquid, `subcooling` [K] at the inlet, `bore` [m]. Source: Chen, Z. H. et
    al. 1990, A correlation for predicting metastable flow in capillary tubes, ASHRAE Transactions
    96(1), 550-554.
    """
    energy = BOLTZMANN * lanes(saturation_temperature)
    tension, cooled = lanes(surface_tension), np.maximum(lanes(subcooling), 0.0)
    swelling = 1.0 / (1.0 - lanes(vapour_density) / lanes(liquid_density))
    share = np.maximum(cooled, FADING) / critical_temperature
    relative = lanes(bore) / (1e4 * np.sqrt(energy / tension))
    group = 0.679 * swelling * lanes(reynolds) ** 0.914 * share**-0.208 * relative**-3.18
    fading = np.minimum(cooled / FADING, 1.0)
    return lanes(fading * group * tension**1.5 / np.sqrt(energy))
