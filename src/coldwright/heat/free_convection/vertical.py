"""Free convection on upright surfaces: plate and cylinder standing in still fluid."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.heat.free_convection.numbers import smooth_greatest
from coldwright.sources import correlation


@correlation(
    quantity="free convection on a vertical plate",
    source="churchill_chu_1975_plate",
    ranges={"rayleigh": (0.1, 1e12)},
    bias="high where the flow is still laminar: in air by 17 % at Ra 1e8, 33 % at 1e9",
)
def vertical_plate_nusselt(rayleigh: FloatOrArray, prandtl: FloatOrArray) -> Array:
    """Mean Nusselt number of an isothermal vertical plate, laminar and turbulent in one curve.

    Nu = {0.825 + 0.387 Ra^(1/6) / [1 + (0.492/Pr)^(9/16)]^(8/27)}^2

    rayleigh: on the height, >= 0; prandtl: > 0. Nu is on the height; at Ra = 0 it is 0.681.
    Fitted from Ra 0.1 to 1e12, all Prandtl numbers. Its one curve rounds off the transition:
    between Ra 1e7 and 1e9, where the plates of a cold box stand, it lies above the laminar form
    (17 % at 1e8, 33 % at 1e9); `vertical_plate_joined_nusselt` keeps to laminar there.
    Example: a plate 0.71 m high at 232 C in air at 23 C (Ra 1.813e9, Pr 0.69): Nu 147, 7.0 W/m2K.
    Source: Churchill and Chu (1975), vertical plate, equation 9 (number from memory).
    """
    shape = (1.0 + (0.492 / lanes(prandtl)) ** (9.0 / 16.0)) ** (8.0 / 27.0)
    return lanes((0.825 + 0.387 * lanes(rayleigh) ** (1.0 / 6.0) / shape) ** 2)


@correlation(
    quantity="laminar free convection on a vertical plate",
    source="churchill_chu_1975_plate",
    ranges={"rayleigh": (0.1, 1e9)},
    bias="low once the boundary layer turns turbulent (Rayleigh above 1e9)",
)
def vertical_plate_laminar_nusselt(rayleigh: FloatOrArray, prandtl: FloatOrArray) -> Array:
    """Mean Nusselt number of an isothermal vertical plate, laminar boundary layer only.

    Nu = 0.68 + 0.670 Ra^(1/4) / [1 + (0.492/Pr)^(9/16)]^(4/9)

    Arguments and limit as in `vertical_plate_nusselt`; Ra on the height up to 1e9.
    Source: Churchill and Chu (1975), vertical plate, the laminar equation (from memory).
    """
    shape = (1.0 + (0.492 / lanes(prandtl)) ** (9.0 / 16.0)) ** (4.0 / 9.0)
    return lanes(0.68 + 0.670 * lanes(rayleigh) ** 0.25 / shape)


@correlation(
    quantity="free convection on a vertical plate, laminar joined to turbulent",
    source="raithby_hollands_1998",
    ranges={"rayleigh": (1.0, 1e12)},
    bias="coefficients from memory; about 15 % below the one-curve form at Ra 1e10 in air",
)
def vertical_plate_joined_nusselt(rayleigh: FloatOrArray, prandtl: FloatOrArray) -> Array:
    """Mean Nusselt number of an isothermal vertical plate, true to laminar flow up to Ra 1e9.

    Nu = (Nu_l^6 + Nu_t^6)^(1/6), Nu_l = 2 / ln(1 + 2/Nu_T),
    Nu_T = 0.671 Ra^(1/4) / [1 + (0.492/Pr)^(9/16)]^(4/9),
    Nu_t = 0.13 Pr^0.22 / (1 + 0.61 Pr^0.81)^0.42 Ra^(1/3) / (1 + 1.4e9 Pr/Ra)

    rayleigh: on the height, >= 0; prandtl > 0. Nu is on the height. The thick-layer form Nu_l is
    about Nu_T + 1 and dies slowly as Ra goes to 0 (a plate of endless width).
    Source: Raithby and Hollands (1998), chapter 4 (from memory).
    """
    driving, pr = lanes(rayleigh), lanes(prandtl)
    thin = 0.671 * driving**0.25 / (1.0 + (0.492 / pr) ** (9.0 / 16.0)) ** (4.0 / 9.0)
    # below 1e-12 the film is nil either way; the floor only keeps 2/Nu_T finite
    laminar = 2.0 / np.log1p(2.0 / np.maximum(thin, 1e-12))
    factor = 0.13 * pr**0.22 / (1.0 + 0.61 * pr**0.81) ** 0.42
    turbulent = factor * driving ** (4.0 / 3.0) / (driving + 1.4e9 * pr)
    return smooth_greatest(laminar, turbulent, power=6.0)


@correlation(
    quantity="free convection on a vertical cylinder",
    source="raithby_hollands_1998",
    ranges={"rayleigh": (0.1, 1e12)},
    bias="0-6 % below the slender-cylinder fit of Popiel (2007) in air, to 11 % at Pr 100",
)
def vertical_cylinder_nusselt(
    rayleigh: FloatOrArray,
    prandtl: FloatOrArray,
    height: FloatOrArray,
    diameter: FloatOrArray,
    *,
    plate_nusselt: FloatOrArray | None = None,
) -> Array:
    """Mean Nusselt number on the side of an upright isothermal cylinder, thin or thick.

    Nu = Nu_plate zeta / ln(1 + zeta), zeta = 1.8 (L/d) / Nu_plate

    The boundary layer that wraps a thin cylinder spreads outward, which raises its film above
    the plate's; as d grows the factor goes to 1. Nu_plate is `plate_nusselt` > 0 where given, else
    `vertical_plate_nusselt`.
    rayleigh: on the height, >= 0; height, diameter [m] > 0. Nu is on the height and finite at
    Ra = 0. The factor is below about 1.06 where d >= 35 L / Gr_L^(1/4), the usual rule for
    treating a cylinder as a plate.
    Source: Raithby and Hollands (1998), curvature correction (from memory).
    """
    plate = (
        vertical_plate_nusselt(rayleigh, prandtl) if plate_nusselt is None else lanes(plate_nusselt)
    )
    zeta = 1.8 * lanes(height) / diameter / plate
    return lanes(plate * zeta / np.log1p(zeta))
