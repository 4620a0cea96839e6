"""The suction line beyond heat: can it carry the oil home, and does it sweat on its way?"""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.sources import correlation

GRAVITY = 9.80665
OIL_FROUDE = 0.85**2
SIZES_STEPS = 40
THICKEST = 0.1  # m of insulation that is tried


@correlation(
    quantity="least vapour flow that carries oil up a riser",
    source="jacobs_1976_oil",
    ranges={"diameter": (0.01, 0.05)},
    bias="from memory; found on tubes of 3/4 in and more, carried down to small ones here",
)
def oil_carrying_mass_flux(
    vapour_density: FloatOrArray, oil_density: FloatOrArray, diameter: FloatOrArray
) -> Array:
    """Least mass flux [kg/(m2 s)] of vapour that drags an oil film up an upright tube.

    G = 0.85^2 [rho_v g d (rho_oil - rho_v)]^(1/2)

    Densities [kg/m3], oil above vapour; inside diameter d [m]. Flow that only goes level or down
    needs about half of the velocity (common practice, no source).
    Source: Jacobs, Scheideman, Kazem and Macken (1976), in Wallis' form (from memory).
    """
    vapour = lanes(vapour_density)
    lift = np.maximum(lanes(oil_density) - vapour, 0.0)
    return lanes(OIL_FROUDE * np.sqrt(vapour * GRAVITY * lanes(diameter) * lift))


def skin_temperature(
    gas_temperature: FloatOrArray,
    room_temperature: FloatOrArray,
    inside_conductance: FloatOrArray,
    room_conductance: FloatOrArray,
    skin_conductance: FloatOrArray,
) -> Array:
    """Outside of a line [K], bare or insulated; conductances per metre [W/(m K)].

    inside_conductance: the gas's film; room_conductance: tube to room, insulation and film
    together; skin_conductance: the film on the outside alone. Source: resistances in series.
    """
    gas, room = lanes(gas_temperature), lanes(room_temperature)
    whole = 1.0 / (1.0 / lanes(inside_conductance) + 1.0 / lanes(room_conductance))
    return lanes(room - whole * (room - gas) / skin_conductance)


def sweating_length(
    coldest_skin: FloatOrArray,
    room_temperature: FloatOrArray,
    dew_point: FloatOrArray,
    transfer_units_per_metre: FloatOrArray,
    length: FloatOrArray,
) -> Array:
    """Length [m] of line, from its cold end, whose skin is under the room's dew point.

    The gas approaches the room exponentially, and so does the skin: ln of both differences over
    the transfer units per metre. None where the coldest skin is dry, at most `length`.
    Temperatures [K], dew point below the room. Source: integrated heat balance (derived).
    """
    room = lanes(room_temperature)
    start = np.maximum(room - coldest_skin, 1e-6)
    end = np.maximum(room - dew_point, 1e-6)
    reach = np.log(start / end) / np.maximum(transfer_units_per_metre, 1e-9)
    return lanes(np.clip(reach, 0.0, length))


def dry_insulation_thickness(
    gas_temperature: FloatOrArray,
    room_temperature: FloatOrArray,
    dew_point: FloatOrArray,
    outside_diameter: FloatOrArray,
    *,
    conductivity: FloatOrArray,
    film_coefficient: FloatOrArray,
) -> Array:
    """Least thickness [m] of insulation whose outside stays above the dew point, to 0.1 m.

    ln(D/d)/(2 pi k) + 1/(pi D h) carries the heat from room to gas; the tube is taken as cold as
    the gas. Temperatures [K]; conductivity k [W/mK]; film_coefficient h [W/m2K] with radiation.
    0 where the gas is above the dew point; infinite where 0.1 m is not enough.
    Source: cylinder in series with its film (any heat transfer text), solved by halving.
    """
    gas, room, dew = lanes(gas_temperature), lanes(room_temperature), lanes(dew_point)
    bare = lanes(outside_diameter)
    below, above = np.zeros(np.broadcast(gas, room, dew, bare).shape), THICKEST * np.ones(())
    above = np.broadcast_to(above, below.shape)

    def too_cold(thickness: Array) -> Array:
        outer = bare + 2.0 * thickness
        layer = np.log(outer / bare) / (2.0 * np.pi * lanes(conductivity))
        film = 1.0 / (np.pi * outer * lanes(film_coefficient))
        return lanes(room - (room - gas) * film / (layer + film) < dew)

    enough = np.logical_not(too_cold(above))
    for _ in range(SIZES_STEPS):
        middle = 0.5 * (below + above)
        cold = too_cold(middle)
        below, above = np.where(cold, middle, below), np.where(cold, above, middle)
    found = np.where(enough, above, np.inf)
    return lanes(np.where(gas >= dew, 0.0, found))
