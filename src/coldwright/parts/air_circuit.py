"""The air that falls off the cold surface, spreads low, rises as it warms and returns on top.

Heights and shares. Heat enters the stored space all over its skin and the cold air meets the
greatest difference at the floor; `heating_centre` is the height, as a share of the whole, at which
that heat acts as one. It does two things: the column that drives the air reaches from there up to
the middle of the cold surface, and the mean of the stored air lies `1 - heating_centre` of the way
from the coldest to the warmest. A quarter is assumed (no source; one half would be heat spread
evenly over the height, nothing heat from the floor alone).
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.moist_air import film_properties
from coldwright.heat.free_convection.numbers import STANDARD_GRAVITY
from coldwright.parts.conditions import STANDARD_PRESSURE
from coldwright.sources import correlation

SHARP_OPENING_LOSS = 2.7
"""Loss coefficient of a sharp-edged opening, 1/Cd^2 with Cd 0.61."""

HEATING_CENTRE = 0.25
"""Where heat enters the stored space, as a share of its height: assumed, no source."""

LEAST_COLUMN_SHARE = 0.05
"""Driving share of the height that is left where cooling and heating lie level: air turns over
within the spaces as well. Assumed, no source."""

BOUNDARY_LAYER_DROP = 0.4
"""Mixing-cup chill of a free-convection boundary layer, as a share of air less surface."""

STILL_MASS_FLOW = 1e-6
"""Exchange [kg/s] that is left without heat (conduction through still air): no division by 0."""


def _heating_centre() -> Array:
    return lanes(HEATING_CENTRE)


LARGEST_BLOCKED = 0.98
"""Share of a shelf that may be closed: beyond it the gaps are cracks, no orifice."""


def _one() -> Array:
    return lanes(1.0)


def _none() -> Array:
    return lanes(0.0)


@dataclass(frozen=True, kw_only=True)
class AirPath:
    """The way of the air, one value per lane.

    divided: whether a partition with two openings parts the cold compartment from the stored space
    (else one space, where openings and their losses are not used but must be > 0).
    lower_opening_area, upper_opening_area [m2]; lower_loss, upper_loss: loss coefficients on each
    opening's own velocity; column_height: what drives the air [m]; free_area: plan area of the
    stored space for the air to rise in [m2]; shelf_loss: sum of the shelves' loss coefficients on
    the velocity in free_area (see `shelf_loss_coefficient`); heating_centre: see the module;
    entrainment: air that the falling layer carries in one space, as a multiple of the boundary
    layer's (1 or more).
    """

    divided: NDArray[np.bool_]
    lower_opening_area: Array
    upper_opening_area: Array
    lower_loss: Array
    upper_loss: Array
    column_height: Array
    free_area: Array
    shelf_loss: Array = field(default_factory=_none)
    heating_centre: Array = field(default_factory=_heating_centre)
    entrainment: Array = field(default_factory=_one)

    @classmethod
    def between_openings(
        cls,
        *,
        divided: bool | NDArray[np.bool_],
        lower_opening_area: FloatOrArray,
        upper_opening_area: FloatOrArray,
        height_difference: FloatOrArray,
        free_area: FloatOrArray,
        ledge_loss: FloatOrArray = 0.0,
        duct_height: FloatOrArray = 0.0,
        shelves: FloatOrArray = 0.0,
        shelf_blocked: FloatOrArray = 0.0,
        cold_surface_centre: FloatOrArray = 0.6,
        heating_centre: FloatOrArray = HEATING_CENTRE,
    ) -> AirPath:
        """Path from what a maker measures: areas [m2] and the height between the openings [m].

        ledge_loss: extra loss coefficient of racks and ledges, on the lower opening's velocity;
        duct_height: length [m] of a duct that carries the cold air down from the lower opening,
        unmixed, and by which the stored space begins lower; shelves, shelf_blocked: how many, and
        the share of the plan area that each closes;
        cold_surface_centre: middle of the cold surface between lower (0) and upper opening (1).
        """
        share = lanes(cold_surface_centre) - heating_centre
        # no sharp corner: the driving column fades to its least share as the surface is hung lower
        column = 0.5 * (share + np.hypot(share, 2.0 * LEAST_COLUMN_SHARE))
        # Bernoulli around the loop: a duct d lowers the foot of the stored space by d, and the
        # heating centre, at its share of the taller space, by d (1 - share).
        return cls(
            divided=np.asarray(divided, dtype=np.bool_),
            lower_opening_area=lanes(lower_opening_area),
            upper_opening_area=lanes(upper_opening_area),
            lower_loss=lanes(SHARP_OPENING_LOSS + lanes(ledge_loss)),
            upper_loss=lanes(SHARP_OPENING_LOSS),
            column_height=lanes(height_difference * column + duct_height * (1.0 - heating_centre)),
            free_area=lanes(free_area),
            shelf_loss=lanes(shelves * shelf_loss_coefficient(shelf_blocked)),
            heating_centre=lanes(heating_centre),
        )

    @property
    def loss_by_area(self) -> Array:
        """Sum of loss coefficients over squared areas [1/m4]."""
        lower = self.lower_loss / self.lower_opening_area**2
        upper = self.upper_loss / self.upper_opening_area**2
        return lanes(lower + upper + self.shelf_loss_by_area)

    @property
    def shelf_loss_by_area(self) -> Array:
        """The shelves' part of it [1/m4]."""
        return lanes(self.shelf_loss / self.free_area**2)


@dataclass(frozen=True)
class AirFlow:
    """Air around the circuit: flows, chill over the cold side, velocity at the lower opening.

    volume_flow [m3/s], mass_flow [kg/s], heat_capacity_flow [W/K], temperature_drop [K]: return
    less leaving air, negative where the cold side is warmer than the air; face_velocity [m/s].
    """

    volume_flow: Array
    mass_flow: Array
    heat_capacity_flow: Array
    temperature_drop: Array
    face_velocity: Array


@correlation(
    quantity="loss coefficient of a shelf that is partly closed",
    source="box_idelchik_orifice",
    ranges={"blocked_share": (0.0, LARGEST_BLOCKED)},
    bias="sharp edges and turbulent flow; goods with round edges lose less, slow air more",
)
def shelf_loss_coefficient(blocked_share: FloatOrArray) -> Array:
    """Loss coefficient of a shelf on the velocity in the open space above and below it.

    zeta = [0.707 (1 - f)^0.375 + 1 - f]^2 / f^2, f = 1 - blocked_share

    f is the free share of the plan area; blocked_share from 0 to 0.98, held there. 0 at none
    blocked. Contraction into the gaps and Borda and Carnot's loss behind them; where the gaps lie
    does not matter. Example: half blocked 4.4, three quarters 29.
    Source: Idelchik, Handbook of Hydraulic Resistance, sharp-edged orifice in a straight pipe.
    """
    blocked = np.clip(lanes(blocked_share), 0.0, LARGEST_BLOCKED)
    free = 1.0 - blocked
    return lanes((0.707 * blocked**0.375 + blocked) ** 2 / free**2)


@correlation(
    quantity="chill of the air layer that falls off an upright cold surface",
    source="box_squire_1938",
    ranges={},
    bias="the layer takes in more air below the surface, which lessens the chill",
)
def boundary_layer_capacity_flow(surface_conductance: FloatOrArray) -> Array:
    """Heat capacity flow [W/K] of the layer that leaves an upright surface, G / 0.4.

    surface_conductance G: of convection [W/K]. With the integral method's profiles (velocity
    as y (1 - y)^2, temperature as (1 - y)^2, 0 < y < 1) the mixing-cup chill is
    (1/30) / (1/12) = 0.4 of the difference between air and surface, whatever its size.
    Source: Squire (1938), integral solution (from memory).
    """
    return lanes(lanes(surface_conductance) / BOUNDARY_LAYER_DROP)


def loop_mass_flow(
    path: AirPath, heat: FloatOrArray, density: Array, specific_heat: Array, expansion: Array
) -> Array:
    """Mass flow [kg/s] at which the column's buoyancy carries the losses of both openings.

    rho g beta dT H = m^2 / (2 rho) sum(zeta / A^2) and Q = m cp dT give
    m = [2 rho^2 g beta H |Q| / (cp sum(zeta / A^2))]^(1/3).
    heat Q [W] by convection, either sign. Source: Bernoulli's equation around the loop.
    """
    drive = _drive_per_heat(path, density, specific_heat, expansion) * np.abs(heat)
    return lanes(np.cbrt(drive / path.loss_by_area + STILL_MASS_FLOW**3))


def _drive_per_heat(path: AirPath, density: Array, specific_heat: Array, expansion: Array) -> Array:
    """Cubed mass flow times loss for each watt of heat, 2 rho^2 g beta H / cp."""
    drive = 2.0 * density**2 * STANDARD_GRAVITY * expansion * path.column_height
    return lanes(drive / specific_heat)


def layer_mass_flow(
    path: AirPath, unhindered: Array, heat: FloatOrArray, drive_per_heat: Array
) -> Array:
    """Mass flow [kg/s] of the falling layer where shelves stand in its way back up.

    The layer's own flow is that at which the column's buoyancy carries the layer's own losses; the
    shelves' losses stand in series with them, and the loop's law m^3 = drive / loss gives
    1/m^3 = 1/m_layer^3 + shelf loss / drive.
    unhindered: m_layer [kg/s]; heat [W]; drive_per_heat: m^3 times loss a watt.
    Source: Bernoulli's equation around the loop, as `loop_mass_flow`.
    """
    drive = drive_per_heat * np.abs(heat)
    loss = path.shelf_loss_by_area
    hindrance = loss / (drive + loss * STILL_MASS_FLOW**3 + 1e-30)
    return lanes((1.0 / unhindered**3 + hindrance) ** (-1.0 / 3.0))


def circulate(
    path: AirPath,
    heat: FloatOrArray,
    return_air_temperature: FloatOrArray,
    pressure: FloatOrArray = STANDARD_PRESSURE,
    *,
    surface_conductance: FloatOrArray,
) -> AirFlow:
    """Air flow that carries `heat` [W] of convection from the stored space to the cold side.

    return_air_temperature [K]; pressure [Pa]; surface_conductance: of the cold side's convection
    [W/K], which sets the flow where the cabinet is one single space.
    """
    air = film_properties(np.clip(return_air_temperature, 200.0, 400.0), pressure)
    expansion = air.expansion_coefficient
    by_loop = loop_mass_flow(path, heat, air.density, air.specific_heat, expansion)
    layer = path.entrainment * boundary_layer_capacity_flow(surface_conductance)
    by_layer = layer_mass_flow(
        path,
        lanes(layer / air.specific_heat),
        heat,
        _drive_per_heat(path, air.density, air.specific_heat, expansion),
    )
    mass_flow = np.where(path.divided, by_loop, by_layer)
    capacity_flow = mass_flow * air.specific_heat
    volume_flow = mass_flow / air.density
    face = np.where(path.divided, path.lower_opening_area, path.free_area)
    return AirFlow(
        volume_flow=lanes(volume_flow),
        mass_flow=lanes(mass_flow),
        heat_capacity_flow=lanes(capacity_flow),
        temperature_drop=lanes(heat / capacity_flow),
        face_velocity=lanes(volume_flow / face),
    )


def air_resistances(
    path: AirPath, surface_conductance: FloatOrArray, heat_capacity_flow: FloatOrArray
) -> tuple[Array, Array]:
    """Resistances [K/W] from the cold surface to (mean stored air, return air).

    Air that passes a surface of even temperature comes away exponentially closer to it: return
    less surface is Q / (C eps), eps = 1 - exp(-G/C). The stored air's mean lies `heating_centre` of
    the chill Q/C below the return air. Source: effectiveness of a heat exchanger with one
    even side (any heat transfer text).
    """
    capacity = lanes(heat_capacity_flow)
    effectiveness = -np.expm1(-lanes(surface_conductance) / capacity)
    to_return = 1.0 / (capacity * effectiveness)
    return lanes(to_return - path.heating_centre / capacity), lanes(to_return)
