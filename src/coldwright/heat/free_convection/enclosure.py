"""Free convection in a closed upright air or liquid layer between two walls."""

from __future__ import annotations

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.heat.free_convection.numbers import smooth_greatest
from coldwright.sources import correlation

SHARP = 32.0
"""Power that joins regimes here: at most 2.2 % above the greater one where two of them meet."""


@correlation(
    quantity="free convection in a closed vertical layer",
    source="macgregor_emery_1969",
    ranges={"rayleigh": (1e4, 1e9), "prandtl": (0.7, 2e4), "aspect_ratio": (10.0, 40.0)},
    bias="for air between 25 % below and 35 % above the air-layer correlation: prefer that one",
)
def vertical_enclosure_nusselt(
    rayleigh: FloatOrArray, prandtl: FloatOrArray, aspect_ratio: FloatOrArray
) -> Array:
    """Mean Nusselt number across a closed vertical layer, walls warm and cold, ends insulated.

    Nu = greatest of 1 (conduction),
    0.42 Ra^(1/4) Pr^0.012 (H/L)^(-0.3) (laminar, Ra 1e4 to 1e7, H/L 10 to 40),
    0.046 Ra^(1/3) (turbulent, Ra 1e6 to 1e9, H/L 1 to 40), joined smoothly.

    rayleigh: on the layer's thickness L and the difference of its walls, >= 0; prandtl > 0;
    aspect_ratio H/L > 0. Nu is on L, so that heat flux = Nu k dT / L; it is 1 at Ra = 0.
    Radiation across the layer comes on top. The authors fitted Pr 1 to 2e4; textbooks use it for
    air as well, but `vertical_air_layer_nusselt` rests on measurements in air.
    Example: 20 mm of air, 0.8 m high, 12 C and 2 C: Nu 1.40.
    Source: MacGregor and Emery (1969).
    """
    driving = lanes(rayleigh)
    laminar = 0.42 * driving**0.25 * lanes(prandtl) ** 0.012 * lanes(aspect_ratio) ** -0.3
    turbulent = 0.046 * driving ** (1.0 / 3.0)
    return smooth_greatest(1.0, laminar, turbulent, power=SHARP)


@correlation(
    quantity="free convection in a closed vertical air layer",
    source="elsherbiny_raithby_hollands_1982",
    ranges={"rayleigh": (100.0, 2e7), "aspect_ratio": (5.0, 110.0)},
    bias="stated within 9 % of its measurements",
)
def vertical_air_layer_nusselt(rayleigh: FloatOrArray, aspect_ratio: FloatOrArray) -> Array:
    """Mean Nusselt number across a closed vertical layer of AIR, narrow ones included.

    Nu = greatest of 0.0605 Ra^(1/3),
    {1 + [0.104 Ra^0.293 / (1 + (6310/Ra)^1.36)]^3}^(1/3) and 0.242 (Ra L/H)^0.272.

    Arguments as in `vertical_enclosure_nusselt`; Ra 1e2 to 2e7, H/L 5 to 110. 1 at Ra = 0.
    Source: ElSherbiny, Raithby and Hollands (1982) (from memory).
    """
    driving = lanes(rayleigh)
    cubed = driving**1.36
    core = 0.104 * driving**0.293 * cubed / (cubed + 6310.0**1.36)
    return smooth_greatest(
        0.0605 * driving ** (1.0 / 3.0),
        (1.0 + core**3) ** (1.0 / 3.0),
        0.242 * (driving / aspect_ratio) ** 0.272,
        power=SHARP,
    )
