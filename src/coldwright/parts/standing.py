"""A stopped system that has come to one pressure and one temperature: where its charge is.

Three places: gas in the free volume, refrigerant dissolved in the oil, and liquid when both are
full. Dissolved and liquid refrigerant take up volume from the gas. The system is equalised and
settled: every part at one temperature, the oil saturated (which takes a still shell hours).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.oils import Oil
from coldwright.fluids.refrigerants import Refrigerant

HALVINGS = 44  # of the pressure ratio: to rounding


@dataclass(frozen=True)
class Standing:
    """The settled state; arrays over lanes, SI.

    `all_vapour`: no liquid lies free (some may be dissolved in the oil). `greatest_charge` fills
    the volume with liquid to the last: a greater one has no answer, its lanes hold NaN.
    """

    pressure: Array
    saturation_pressure: Array
    all_vapour: np.ndarray[tuple[int, ...], np.dtype[np.bool_]]
    vapour_mass: Array
    liquid_mass: Array
    dissolved_mass: Array
    greatest_all_vapour_charge: Array
    greatest_charge: Array


def stand(
    refrigerant: Refrigerant,
    charge: FloatOrArray,
    free_volume: FloatOrArray,
    temperature: FloatOrArray,
    oil: Oil | None = None,
    oil_mass: FloatOrArray = 0.0,
    solubility_factor: FloatOrArray = 1.0,
) -> Standing:
    """The state at which `charge` [kg] is held, by balance of mass.

    free_volume: all the inside volume but the oil's own [m3]; temperature of everything [K], in the
    range of the tables; oil_mass [kg]; solubility_factor multiplies what the oil dissolves (1: as
    `Oil.solubility`; other values try its uncertainty). With p the pressure, rho its gas, w the
    dissolved share: rho(p) (V - m_d / rho_l) + m_d(p) = m, m_d = m_oil w / (1 - w), rising in p;
    at saturation what is left over is liquid. Source: conservation of mass.
    """
    mass, volume, t, oil_kg, factor = (
        np.asarray(each)
        for each in np.broadcast_arrays(
            *(lanes(v) for v in (charge, free_volume, temperature, oil_mass, solubility_factor))
        )
    )
    saturated = refrigerant.saturated(t)
    liquid_density, gas_density = saturated.liquid_density, saturated.vapour_density

    def dissolved(ratio: Array) -> Array:
        if oil is None:
            return np.zeros_like(ratio)
        return np.asarray(factor * oil.dissolved_mass(refrigerant.name, ratio, t, oil_kg))

    def gas(ratio: Array, in_oil: Array) -> Array:
        room = np.maximum(volume - in_oil / liquid_density, 0.0)
        return gas_density_at(refrigerant, ratio * saturated.pressure, t) * room

    full = dissolved(np.ones_like(mass))
    room = np.maximum(volume - full / liquid_density, 0.0)
    greatest = liquid_density * volume
    # oil that swells until it fills the volume leaves no room for gas before saturation
    greatest_all_vapour = np.minimum(gas_density * room + full, greatest)
    solved = ratio_holding(mass, dissolved, gas)
    all_vapour = mass <= greatest_all_vapour
    ratio = np.where(all_vapour, solved, 1.0)
    in_oil = np.where(all_vapour, dissolved(ratio), full)
    left_over = np.maximum(mass - greatest_all_vapour, 0.0)
    liquid = left_over / (1.0 - gas_density / liquid_density)
    fits = mass <= greatest
    # what is neither dissolved nor liquid is gas: the places add up to the charge
    places = (mass - in_oil - liquid, liquid, in_oil)
    vapour, liquid, in_oil = (np.asarray(np.where(fits, each, np.nan)) for each in places)
    return Standing(
        pressure=np.asarray(np.where(fits, ratio * saturated.pressure, np.nan)),
        saturation_pressure=saturated.pressure,
        all_vapour=all_vapour,
        vapour_mass=vapour,
        liquid_mass=liquid,
        dissolved_mass=in_oil,
        greatest_all_vapour_charge=greatest_all_vapour,
        greatest_charge=greatest,
    )


def ratio_holding(
    mass: Array, dissolved: Callable[[Array], Array], gas: Callable[[Array, Array], Array]
) -> Array:
    """Pressure over saturation at which gas and oil hold `mass`; 1 where they cannot."""
    low, high = np.zeros_like(mass), np.ones_like(mass)
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        in_oil = dissolved(middle)
        short = gas(middle, in_oil) + in_oil < mass
        low, high = np.where(short, middle, low), np.where(short, high, middle)
    return high


def gas_density_at(
    refrigerant: Refrigerant, pressure: FloatOrArray, temperature: FloatOrArray
) -> Array:
    """Density [kg/m3] of vapour down to no pressure at all.

    Below the pressure at which the tables end, the compressibility factor runs straight to 1.
    """
    p, t = np.broadcast_arrays(lanes(pressure), lanes(temperature))
    floor = refrigerant.saturation_pressure(refrigerant.least_temperature)
    held = np.maximum(p, floor)
    ideal = refrigerant.gas_constant * t
    factor = held / (refrigerant.vapour(held, t).density * ideal)
    factor = 1.0 + (factor - 1.0) * np.minimum(p / floor, 1.0)
    return np.asarray(p / (factor * ideal))
