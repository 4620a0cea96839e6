"""Free convection in a vertical channel open below and above: fins, and a plate before a wall."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.sources import correlation

Flag = bool | np.bool_ | NDArray[np.bool_]

PLATE_LIMIT = 2.873
"""1/0.59^2: the plate limit 0.59 Ra^(1/4) in the composite formula."""


def developed_flow_constant(both_sides: Flag) -> Array:
    """Square of Ra'/Nu in the developed limit: 24^2 with both walls, 12^2 with one wall active."""
    return lanes(np.where(both_sides, 576.0, 144.0))


@correlation(
    quantity="free convection in a vertical channel",
    source="bar_cohen_rohsenow_1984",
    ranges={"channel_rayleigh": (0.1, 1e5)},
    bias="within 5 % of Elenbaas' measured curve for two active walls",
)
def vertical_channel_nusselt(channel_rayleigh: FloatOrArray, *, both_sides: Flag = True) -> Array:
    """Mean Nusselt number of the active walls of a vertical channel, both open ends free.

    Nu = [C / Ra'^2 + 2.873 / Ra'^(1/2)]^(-1/2)

    C = 576 with both walls at one temperature, C = 144 with one wall active and one adiabatic (a
    condenser before the cabinet's back). channel_rayleigh: Ra' = Ra_S S/L on wall less entering
    air, >= 0 (see `channel_rayleigh_number`); both_sides: flag or array of flags.
    Nu is on the gap S, per area of active wall, and on the ENTERING air's temperature. At
    Ra' = 0 it is 0 (no flow through the channel); written as Ra'/sqrt(C + 2.873 Ra'^1.5) so.
    Example: Ra_S 931211 and S/L 0.03 give Nu 7.627.
    Source: Bar-Cohen and Rohsenow (1984).
    """
    driving = lanes(channel_rayleigh)
    return lanes(
        driving / np.sqrt(developed_flow_constant(both_sides) + PLATE_LIMIT * driving**1.5)
    )


def share_before_wall(channel_rayleigh: FloatOrArray) -> Array:
    """What a wall before a plate leaves of the plate's film, 0 to 1.

    The channel with one active wall over its own limit of a wide gap: 1 as the wall goes away.
    channel_rayleigh Ra' >= 0 (below 1e-6 counts as 1e-6). Source: `vertical_channel_nusselt`.
    """
    driving = np.maximum(lanes(channel_rayleigh), 1e-6)
    wide = (driving / PLATE_LIMIT**2) ** 0.25
    return lanes(vertical_channel_nusselt(driving, both_sides=False) / wide)


def best_fin_spacing(
    rayleigh_on_height: FloatOrArray, height: FloatOrArray, *, both_sides: Flag = True
) -> Array:
    """Clear gap [m] between thin vertical fins or plates that carries most heat per base width.

    S = (2 C / 2.873)^(1/6) L / Ra_L^(1/4): 2.714 L / Ra_L^(1/4) with both walls active (there
    Nu = 1.307 on S), 2.155 L / Ra_L^(1/4) with one.

    rayleigh_on_height: Ra on the height L, base or wall less entering air; below 1 it counts as 1
    (without a difference there is no best gap). height L [m]. Fins of high efficiency and
    thickness small beside the gap.
    Source: Bar-Cohen and Rohsenow (1984), the optimum of `vertical_channel_nusselt`.
    """
    shape = (2.0 * developed_flow_constant(both_sides) / PLATE_LIMIT) ** (1.0 / 6.0)
    return lanes(shape * height / np.maximum(lanes(rayleigh_on_height), 1.0) ** 0.25)
