"""The capillary tube: homogeneous equilibrium flow with friction, acceleration and choking.

For a given flow the momentum equation is integrated over pressure, from the inlet down to the
suction pressure, with the energy equation (kinetic energy included) giving the quality. Where
dz/dp changes sign the flow is choked: pressure falls no further in the tube and the integrand is
held at zero, so that choked and unchoked outlets need no case. The length so found, compared with
the real one, says whether the tube passes less or more than the flow assumed. Heat that a
return-line exchanger takes is placed by the shares of length of the pass before.

Metastable liquid is left out: published spread of such models against measurements is about 10 %
(Hermes, Melo and Knabben 2010).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.refrigerants import FlashLine, Refrigerant
from coldwright.heat.friction import darcy_friction_factor

# Cells of the pressure integration; twice as many change the flow by under 0.1 %.
CELLS = 32
# Sudden contraction from a wide tube plus one velocity head.
ENTRANCE_LOSS = 1.5
# Passes that place the exchanger's heat along the tube, after one without heat.
EXCHANGER_PASSES = 4
# Rounds the flash point over this quality, so that derivatives exist there.
FLASH_ROUNDING = 5e-4


@dataclass(frozen=True)
class Capillary:
    """A capillary tube; arrays over lanes, m."""

    bore: Array
    length: Array
    roughness: Array  # height of the roughness
    exchanger_start: Array  # from the inlet to where the return-line exchanger begins
    exchanger_length: Array  # joined length, 0 where there is none

    @property
    def area(self) -> Array:
        """Flow area [m2]."""
        return np.pi / 4.0 * self.bore**2


@dataclass(frozen=True)
class CapillaryFlow:
    """What a flow does in the tube, arrays over lanes."""

    required_length: Array  # [m] of tube that this flow would need
    exit_pressure: Array  # [Pa] inside the tube's end; above the suction pressure when choked
    exit_quality: Array
    flash_position: Array  # [m] from the inlet: what holds liquid only
    mass: Array  # [kg] held in the required length
    felt_temperature: Array  # [K] of the joined part, as the gas that leaves the exchanger felt it


def capillary_flow(
    tube: Capillary,
    refrigerant: Refrigerant,
    mass_flow: FloatOrArray,
    inlet_pressure: FloatOrArray,
    inlet_enthalpy: FloatOrArray,
    outlet_pressure: FloatOrArray,
    heat_removed: FloatOrArray = 0.0,
    gas_transfer_units: FloatOrArray = 1.0,
) -> CapillaryFlow:
    """March `mass_flow` [kg/s] down the pressure from inlet to outlet [Pa].

    `inlet_enthalpy` [J/kg] may be of subcooled liquid or of a liquid-vapour mixture; `heat_removed`
    [J/kg] is taken out evenly along the exchanger. Length needed falls as the flow rises.
    `gas_transfer_units` n [1/m] of the gas in counterflow weigh the joined part's temperature: gas
    that leaves at its start has felt the integral of n T exp(-n s) over s from there. Source:
    momentum and energy of one-dimensional homogeneous flow (Stoecker and Jones 1982, chapter 13,
    eqs 13-1 to 13-16), friction by Churchill 1977, mixture viscosity by `mixture_viscosity`.
    """
    flux = lanes(mass_flow) / tube.area
    enthalpy, removed = lanes(inlet_enthalpy), lanes(heat_removed)
    first, last = np.broadcast_arrays(lanes(inlet_pressure), lanes(outlet_pressure))
    # A high side below the low side has no flow; the march then has nothing to cover.
    last = np.minimum(last, 0.98 * first)
    start = _Points.at(refrigerant, refrigerant.flash_line(first), enthalpy, flux)
    entrance = np.minimum(ENTRANCE_LOSS * flux**2 * start.volume / 2.0, 0.5 * (first - last))
    inside = first - entrance
    steps = np.linspace(0.0, 1.0, CELLS + 1).reshape(-1, *[1] * inside.ndim)
    pressure = inside + (last - inside) * steps
    line = refrigerant.flash_line(pressure)
    march = _march(tube, refrigerant, line, pressure, enthalpy, flux)
    for _ in range(EXCHANGER_PASSES):
        # Where the heat is taken follows the share of the length, from the march before.
        along = _along_exchanger(tube, march.position)
        share = along / np.maximum(tube.exchanger_length, 1e-6)
        march = _march(tube, refrigerant, line, pressure, enthalpy - removed * share, flux)
    quality = march.points.quality
    flowing = np.concatenate([march.length > 0.0, np.zeros_like(march.length[:1], dtype=bool)])
    end = CELLS - np.argmax(np.concatenate([flowing[:1], flowing[:-1]])[::-1], axis=0)
    return CapillaryFlow(
        required_length=march.position[-1],
        exit_pressure=_pick(pressure, end),
        exit_quality=_pick(quality, end),
        flash_position=np.sum(march.length * _liquid_share(march.points.dryness), axis=0),
        mass=np.sum(march.length * march.density, axis=0) * tube.area,
        felt_temperature=_felt(tube, march, lanes(gas_transfer_units)),
    )


@dataclass(frozen=True)
class _March:
    """One pass down the pressure; the first axis runs over points or cells."""

    points: _Points
    density: Array  # [kg/m3] of each cell
    length: Array  # [m] of each cell
    position: Array  # [m] of each point from the inlet


def _march(
    tube: Capillary,
    refrigerant: Refrigerant,
    line: FlashLine,
    pressure: Array,
    enthalpy: Array,
    flux: Array,
) -> _March:
    """Lengths of all cells: dz = 2 d / f (-dp / (G^2 v) - dv / v), held at 0 where choked.

    So written, the mean of 1/v is exact for liquid and nearly so for the mixture, whose volume goes
    about as 1/p.
    """
    points = _Points.at(refrigerant, line, enthalpy, flux)
    before, after = points.part(slice(None, -1)), points.part(slice(1, None))
    reynolds = 2.0 * flux * tube.bore / (before.viscosity + after.viscosity)
    friction = darcy_friction_factor(reynolds, tube.roughness / tube.bore)
    density = 0.5 * (1.0 / before.volume + 1.0 / after.volume)
    drop = density * (pressure[:-1] - pressure[1:]) / (flux * flux)
    drop = drop - np.log(after.volume / before.volume)
    length = np.maximum(drop, 0.0) * 2.0 * tube.bore / friction
    position = np.concatenate([np.zeros_like(length[:1]), np.cumsum(length, axis=0)])
    return _March(points, density, length, position)


def _liquid_share(dryness: Array) -> Array:
    """Share of each cell that is liquid, the flash point placed by straight lines."""
    liquid, gas = np.maximum(-dryness, 0.0), np.maximum(dryness, 0.0)
    below = liquid[:-1] + liquid[1:]
    return np.asarray(below / np.maximum(below + gas[:-1] + gas[1:], 1e-300))


def _along_exchanger(tube: Capillary, position: Array) -> Array:
    """Way [m] of each point into the exchanger, the march stretched to the tube's real length."""
    whole = np.maximum(position[-1], 1e-9)
    place = position / whole * tube.length
    return np.asarray(np.clip(place - tube.exchanger_start, 0.0, tube.exchanger_length))


def _felt(tube: Capillary, march: _March, units: Array) -> Array:
    """Mean temperature [K] of the joined part, weighted by n exp(-n s) from its start."""
    weight = np.exp(-units * _along_exchanger(tube, march.position))
    temperature = march.points.temperature
    middle = 0.5 * (temperature[:-1] + temperature[1:])
    shares = weight[:-1] - weight[1:]
    total = np.sum(shares, axis=0)
    mean = np.sum(shares * middle, axis=0) / np.where(total > 0.0, total, 1.0)
    # Without an exchanger nothing is felt; any finite temperature does.
    return np.asarray(np.where(total > 0.0, mean, temperature[0]))


def _pick(values: Array, index: NDArray[np.intp]) -> Array:
    """`values[index]` lane by lane."""
    broadcast = np.broadcast_to(values, (len(values), *index.shape))
    return np.asarray(np.take_along_axis(broadcast, index[None], axis=0)[0])


@dataclass(frozen=True)
class _Points:
    """The flow at one pressure, or at many along the first axis."""

    volume: Array  # [m3/kg]
    viscosity: Array  # [Pa s]
    quality: Array
    dryness: Array  # the quality before its corner is rounded: under 0 for liquid
    temperature: Array  # [K]

    @classmethod
    def at(cls, refrigerant: Refrigerant, line: FlashLine, enthalpy: Array, flux: Array) -> _Points:
        """State from h_f + x h_fg + G^2 (v_f + x v_fg)^2 / 2 = h."""
        point = refrigerant.liquid_at_enthalpy(np.minimum(enthalpy, line.liquid_enthalpy))
        liquid = 1.0 / point.density
        swell = 1.0 / line.vapour_density - liquid
        squared = flux * flux
        a = 0.5 * squared * swell * swell
        b = line.vapour_enthalpy - line.liquid_enthalpy + squared * liquid * swell
        c = line.liquid_enthalpy - enthalpy + 0.5 * squared * liquid * liquid
        # The root in the form that stays exact when a is small (slow flow).
        root = -2.0 * c / (b + np.sqrt(np.maximum(b * b - 4.0 * a * c, 0.0)))
        quality = 0.5 * (root + np.sqrt(root * root + 4.0 * FLASH_ROUNDING**2))
        quality = np.minimum(quality, 1.0)
        viscosity = mixture_viscosity(quality, point.viscosity, line.vapour_viscosity)
        volume = liquid + quality * swell
        return cls(*np.broadcast_arrays(volume, viscosity, quality, root, point.temperature))

    def part(self, which: slice) -> _Points:
        """Some of the points."""
        return _Points(*(value[which] for value in vars(self).values()))


def mixture_viscosity(quality: Array, liquid_viscosity: Array, vapour_viscosity: Array) -> Array:
    """Viscosity of the homogeneous mixture [Pa s]: 1/mu = x/mu_g + (1-x)/mu_f.

    Of the published mixing rules the one that came closest to the correlation of measurements in
    tests/published. Source: McAdams, Woods and Heroman 1942, Trans. ASME 64, 193-200 (from memory).
    """
    return 1.0 / (quality / vapour_viscosity + (1.0 - quality) / liquid_viscosity)
