"""Ice that grows on a cold wall or around a cold tube: how long it takes, how thick it gets.

The heat of fusion alone is counted, not the chill of the ice below its freezing point: a front then
runs ahead of the true one by about a third of the Stefan number c dT / L (2 % in time at 10 K).
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.sources import correlation

HALVINGS = 60
"""Halvings of the bracket around a thickness: leaves 1e-18 of its first width."""

SMALL = 0.05
"""Below this share a series takes the place of a difference that would lose its digits."""

SERIES_TERMS = 12
"""Terms of that series: what is left out is below 1e-16."""


def _slowing(share: Array) -> Array:
    """(-ln(1 - u) - u) / u^2 of u < 1; 1/2 at u = 0."""
    small = np.abs(share) < SMALL
    near = np.where(small, share, 0.0)
    series = np.zeros_like(near)
    for power in reversed(range(SERIES_TERMS)):
        series = 1.0 / (power + 2.0) + near * series
    far = np.where(small, 0.5, share)
    return lanes(np.where(small, series, (-np.log1p(-far) - far) / far**2))


def _plane_time(thickness: Array, liquid_share: Array) -> Array:
    """Dimensionless time to a dimensionless thickness: integral of (1 + x) / (1 - R (1 + x))."""
    left = 1.0 - liquid_share
    reached = liquid_share * (1.0 + thickness) < 1.0
    first = thickness / np.where(reached, left, 1.0)
    time = first + first**2 * _slowing(lanes(np.where(reached, liquid_share * first, 0.0)))
    return lanes(np.where(reached, time, np.where(thickness > 0.0, np.inf, 0.0)))


def _cylinder_time(growth: Array, biot: FloatOrArray) -> Array:
    """Dimensionless time until the ice around a tube is `growth` radii thick."""
    squared = growth * (2.0 + growth)  # (r / r0)^2 - 1, without loss of digits
    through_ice = 0.25 * ((1.0 + squared) * np.log1p(squared) - squared)
    return lanes(0.5 * squared / biot + through_ice)


def _grown(time: Array, most: Array, time_of: Callable[[Array], Array]) -> Array:
    """The value between 0 and `most` that a rising `time_of` reaches at `time`."""
    low, high = np.zeros_like(most), most
    for _ in range(HALVINGS):
        middle = lanes(0.5 * (low + high))
        late = time_of(middle) > time
        low, high = np.where(late, low, middle), np.where(late, middle, high)
    return lanes(low)


def _shares(
    cooling_difference: FloatOrArray, wall_conductance: FloatOrArray, liquid_heat_flux: FloatOrArray
) -> tuple[Array, Array]:
    """The difference that cools, and the liquid's share of what an ice-free wall takes."""
    difference = lanes(cooling_difference)
    cold = difference > 0.0
    driving = np.where(cold, difference, 1.0)
    return lanes(driving), lanes(
        np.where(cold, liquid_heat_flux / (driving * wall_conductance), 1.0)
    )


@correlation(
    quantity="time to freeze a layer on a flat cold wall",
    source="london_seban_1943",
    ranges={},
    bias="short by a third of the Stefan number, 2 % at 10 K: the ice's own chill is left out",
)
def plane_freezing_time(
    thickness: FloatOrArray,
    cooling_difference: FloatOrArray,
    wall_conductance: FloatOrArray,
    conductivity: FloatOrArray,
    density: FloatOrArray,
    latent_heat: FloatOrArray,
    *,
    liquid_heat_flux: FloatOrArray = 0.0,
) -> Array:
    """Time [s] until the ice on a flat wall, bare at first, is `thickness` [m] thick.

    rho L dx/dt = dT / (1/U + x/k) - q; with X = U x / k, R = q / (U dT), T = t U^2 dT / (rho L k):
    T = -X/R - ln[1 - R X / (1 - R)] / R^2, and T = X + X^2/2 without heat from the liquid.

    cooling_difference dT: freezing point less coolant [K]; wall_conductance U: from the coolant to
    the wall's wet face [W/m2K] > 0; conductivity k [W/mK], density rho [kg/m3] and latent_heat L
    [J/kg] of the ice, > 0; liquid_heat_flux q: what the liquid brings to the front [W/m2], its film
    times its excess over the freezing point (negative where it is undercooled). A thickness that is
    never reached, or a coolant no colder than the freezing point, gives inf.
    Source: London and Seban (1943) (from memory; integrated anew).
    """
    driving, share = _shares(cooling_difference, wall_conductance, liquid_heat_flux)
    reduced = lanes(lanes(thickness) * wall_conductance / conductivity)
    heat = lanes(density) * latent_heat * conductivity
    return lanes(_plane_time(reduced, share) * heat / (lanes(wall_conductance) ** 2 * driving))


def plane_frozen_thickness(
    time: FloatOrArray,
    cooling_difference: FloatOrArray,
    wall_conductance: FloatOrArray,
    conductivity: FloatOrArray,
    density: FloatOrArray,
    latent_heat: FloatOrArray,
    *,
    liquid_heat_flux: FloatOrArray = 0.0,
) -> Array:
    """Thickness [m] of the ice on a flat wall after `time` [s], the inverse of the freezing time.

    time >= 0; the other arguments as in `plane_freezing_time`. 0 where nothing freezes.
    Source: London and Seban (1943), solved by halving a bracket.
    """
    driving, share = _shares(cooling_difference, wall_conductance, liquid_heat_flux)
    heat = lanes(density) * latent_heat * conductivity
    reduced, share = np.broadcast_arrays(
        lanes(time) * lanes(wall_conductance) ** 2 * driving / heat, share
    )
    # without heat from the liquid the front is as far as it can be; undercooling adds its own share
    most = 2.0 * reduced / (1.0 + np.sqrt(1.0 + 2.0 * reduced))
    most = lanes(most + np.maximum(-share, 0.0) * reduced)
    grown = _grown(reduced, most, lambda thickness: _plane_time(thickness, share))
    return lanes(grown * conductivity / wall_conductance)


def steady_frozen_thickness(
    cooling_difference: FloatOrArray,
    wall_conductance: FloatOrArray,
    conductivity: FloatOrArray,
    liquid_heat_flux: FloatOrArray,
) -> Array:
    """Thickness [m] at which ice on a flat wall stops growing, k (dT / q - 1 / U), or 0.

    Arguments as in `plane_freezing_time`, but liquid_heat_flux > 0: without it ice has no end.
    Source: heat balance of the front.
    """
    end = lanes(cooling_difference) / liquid_heat_flux - 1.0 / lanes(wall_conductance)
    return lanes(conductivity * np.maximum(end, 0.0))


@correlation(
    quantity="time to freeze a layer around a cold tube",
    source="london_seban_1943",
    ranges={},
    bias="short, as on a flat wall; the liquid stands at its freezing point",
)
def cylinder_freezing_time(
    thickness: FloatOrArray,
    tube_radius: FloatOrArray,
    cooling_difference: FloatOrArray,
    wall_conductance: FloatOrArray,
    conductivity: FloatOrArray,
    density: FloatOrArray,
    latent_heat: FloatOrArray,
) -> Array:
    """Time [s] until the ice around a tube, bare at first, is `thickness` [m] thick.

    rho L r dr/dt = k dT / (k / (U r0) + ln(r/r0)); with x = r / r0 and B = U r0 / k:
    t = rho L r0^2 / (k dT) {(x^2 - 1) / (2 B) + [x^2 ln(x^2) - (x^2 - 1)] / 4}.

    tube_radius r0: outside [m] > 0; wall_conductance U: from the coolant to the tube's outside, on
    its outside area [W/m2K] > 0; the rest as in `plane_freezing_time`, the liquid at its freezing
    point. inf where the coolant is no colder than that. Neighbouring tubes must not touch.
    Source: London and Seban (1943) (from memory; integrated anew).
    """
    radius, difference = lanes(tube_radius), lanes(cooling_difference)
    biot = lanes(wall_conductance) * radius / conductivity
    cold = difference > 0.0
    driving = np.where(cold, difference, 1.0)
    unit = lanes(density) * latent_heat * radius**2 / (conductivity * driving)
    growth = lanes(lanes(thickness) / radius)
    never = np.where(growth > 0.0, np.inf, 0.0)
    return lanes(np.where(cold, _cylinder_time(growth, biot) * unit, never))


def cylinder_frozen_thickness(
    time: FloatOrArray,
    tube_radius: FloatOrArray,
    cooling_difference: FloatOrArray,
    wall_conductance: FloatOrArray,
    conductivity: FloatOrArray,
    density: FloatOrArray,
    latent_heat: FloatOrArray,
) -> Array:
    """Thickness [m] of the ice around a tube after `time` [s], the inverse of the freezing time.

    time >= 0; the other arguments as in `cylinder_freezing_time`. 0 where nothing freezes.
    Source: London and Seban (1943), solved by halving a bracket.
    """
    # ice around a tube is never thicker than on a flat wall: it has more to freeze
    material = (cooling_difference, wall_conductance, conductivity, density, latent_heat)
    flat = plane_frozen_thickness(time, *material)
    moment, most = np.broadcast_arrays(lanes(time), lanes(flat + 0.0 * lanes(tube_radius)))
    return _grown(
        moment, most, lambda thickness: cylinder_freezing_time(thickness, tube_radius, *material)
    )
