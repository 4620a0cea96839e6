"""A stopped system whose parts are not equally warm: its pressure, and where its liquid goes.

Both sides have equalised through the capillary. One pressure reaches everywhere, and it cannot
stand above saturation at the coldest place: what neither fills the volumes as gas nor dissolves in
the oil condenses there. The same balance with one temperature is `standing`.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.oils import Oil
from coldwright.fluids.refrigerants import Refrigerant, Saturated
from coldwright.parts.standing import gas_density_at, ratio_holding


@dataclass(frozen=True)
class RestingPlaces:
    """Volumes [m3] and temperatures [K] of a stopped system; arrays over lanes."""

    cold_volume: Array  # the evaporator's tube
    cold_temperature: Array
    shell_volume: Array  # of the compressor, its oil left out
    shell_temperature: Array  # of shell and oil
    room_volume: Array  # condenser, lines and drier
    room_temperature: Array


@dataclass(frozen=True)
class Resting:
    """The settled state; arrays over lanes, SI. NaN where the charge is more than the volumes hold.

    `liquid_mass` lies free in the coldest place: in the shell where that is the colder one, else in
    the evaporator.
    """

    pressure: Array
    coldest_temperature: Array
    shell_is_coldest: NDArray[np.bool_]  # colder than evaporator and room
    all_vapour: NDArray[np.bool_]
    vapour_mass: Array
    dissolved_mass: Array
    liquid_mass: Array
    liquid_volume: Array  # [m3]
    oil_share: Array  # refrigerant by mass in what lies in the shell, its liquid included


@dataclass(frozen=True)
class _Content:
    """What gas and oil hold by the pressure's ratio to saturation at the coldest place."""

    refrigerant: Refrigerant
    places: RestingPlaces
    oil: Oil | None
    oil_mass: Array
    cold: Saturated
    in_shell: Saturated

    def dissolved(self, ratio: Array) -> Array:
        """Refrigerant in the oil [kg]."""
        if self.oil is None:
            return np.zeros_like(ratio)
        felt = ratio * self.cold.pressure / self.in_shell.pressure
        temperature = self.places.shell_temperature
        name = self.refrigerant.name
        return np.asarray(self.oil.dissolved_mass(name, felt, temperature, self.oil_mass))

    def gas(self, ratio: Array, in_oil: Array) -> Array:
        """Gas in all volumes [kg] but where dissolved refrigerant [kg] takes its room."""
        at = self.places
        free = np.maximum(at.shell_volume - in_oil / self.in_shell.liquid_density, 0.0)
        held = np.zeros(())
        for volume, temperature in (
            (at.cold_volume, at.cold_temperature),
            (free, at.shell_temperature),
            (at.room_volume, at.room_temperature),
        ):
            pressure = ratio * self.cold.pressure
            held = held + volume * gas_density_at(self.refrigerant, pressure, temperature)
        return np.asarray(held)


def rest(
    refrigerant: Refrigerant,
    charge: FloatOrArray,
    places: RestingPlaces,
    oil: Oil | None = None,
    oil_mass: FloatOrArray = 0.0,
) -> Resting:
    """Where `charge` [kg] is once the pressures have met and the oil is saturated.

    Without `oil` nothing dissolves: the first minutes, with a charge less what the oil holds.
    With r the pressure over saturation at the coldest place T_c: sum of rho(p, T) V + m_d(p, T_oil)
    = m, rising in p; at r = 1 what is left over is liquid at T_c. What dissolves takes its volume
    from the shell's gas, liquid from the gas of its place. Temperatures in the range of the tables.
    Source: conservation of mass; the pressure is that of the coldest liquid (any text on
    thermodynamics).
    """
    others = np.minimum(places.cold_temperature, places.room_temperature)
    coldest = np.minimum(others, places.shell_temperature)
    oil_kg = lanes(oil_mass)
    mass, _ = np.broadcast_arrays(lanes(charge), coldest + places.cold_volume + oil_kg)
    cold, in_shell = refrigerant.saturated(coldest), refrigerant.saturated(places.shell_temperature)
    content = _Content(refrigerant, places, oil, oil_kg, cold, in_shell)
    solved, whole_ratio = ratio_holding(mass, content.dissolved, content.gas), np.ones_like(mass)
    full = content.dissolved(whole_ratio)
    left_over = mass - full - content.gas(whole_ratio, full)
    all_vapour = left_over <= 0.0
    in_oil = np.where(all_vapour, content.dissolved(solved), full)
    liquid = np.maximum(left_over, 0.0) / (1.0 - cold.vapour_density / cold.liquid_density)
    volume = liquid / cold.liquid_density
    whole = places.cold_volume + places.shell_volume + places.room_volume
    fits = volume + in_oil / in_shell.liquid_density <= whole
    shell_is_coldest = places.shell_temperature < others
    with_oil = in_oil + np.where(shell_is_coldest, liquid, 0.0)
    mixture = np.where(oil_kg + with_oil > 0.0, oil_kg + with_oil, 1.0)

    def where_it_fits(value: Array) -> Array:
        return np.asarray(np.where(fits, value, np.nan))

    return Resting(
        pressure=where_it_fits(np.where(all_vapour, solved, 1.0) * cold.pressure),
        coldest_temperature=np.asarray(coldest),
        shell_is_coldest=np.asarray(shell_is_coldest),
        all_vapour=np.asarray(all_vapour),
        vapour_mass=where_it_fits(mass - in_oil - liquid),
        dissolved_mass=where_it_fits(in_oil),
        liquid_mass=where_it_fits(liquid),
        liquid_volume=where_it_fits(volume),
        oil_share=where_it_fits(with_oil / mixture),
    )
