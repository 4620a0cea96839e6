"""The capillary tube: homogeneous equilibrium flow with friction, acceleration and choking.

For a given flow the momentum equation is integrated over pressure, from the inlet down to the
suction pressure, with the energy equation (kinetic energy included) giving the quality. Where
dz/dp changes sign the flow is choked: pressure falls no further in the tube and the integrand is
held at zero, so that choked and unchoked outlets need no case. The length so found, compared with
the real one, says whether the tube passes less or more than the flow assumed. Heat that a
return-line exchanger takes is placed by the lengths and temperatures of the pass before.

Loops add friction (Ito 1959). Liquid that flashes late (`heat.flash_delay`) can be counted and is
left out unless it is asked for: docs/theory/capillary.md says on what evidence.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.refrigerants import Refrigerant
from coldwright.heat.friction import coil_friction_ratio, darcy_friction_factor
from coldwright.parts.capillary_points import Points, flashing_late

# Cells of the pressure integration; twice as many change the flow by under 0.1 %, or by 0.3 % where
# an exchanger condenses the gas that enters.
CELLS = 64
# Under this delay of flashing [Pa] there is none.
LEAST_DELAY = 1.0
# Sudden contraction from a wide tube plus one velocity head.
ENTRANCE_LOSS = 1.5
# Passes that place the exchanger's heat along the tube: after one that spreads it over pressure,
# and after a march nearby.
EXCHANGER_PASSES, WARM_PASSES = 10, 3
MIXED = 3  # passes of which the next is mixed
# Transfer units of an exchanger over which its gas follows the capillary closely enough, and the
# warming of its gas [K] under which the heat is placed evenly.
MOST_UNITS = 30.0
LEAST_WARMING = 1e-3


@dataclass(frozen=True)
class Capillary:
    """A capillary tube; arrays over lanes, m."""

    bore: Array
    length: Array
    roughness: Array  # height of the roughness
    exchanger_start: Array  # from the inlet to where the return-line exchanger begins
    exchanger_length: Array  # joined length, 0 where there is none
    # Of the loops that the length outside the exchanger is wound in; infinite where it is straight.
    coil_diameter: Array = field(default_factory=lambda: lanes(np.inf))

    @property
    def area(self) -> Array:
        """Flow area [m2]."""
        return np.pi / 4.0 * self.bore**2


@dataclass(frozen=True)
class Placing:
    """How the exchanger's heat is placed along the tube.

    passes: how many, after a first one; taken: share of the heat that is out at each point, of a
    march nearby, to begin with (None: it begins spread over pressure); haste: share of the way that
    a pass goes to what the ones before ask for (under 1 where they swing all the same); cells: of
    the march, as many as `taken` has.
    """

    passes: int = EXCHANGER_PASSES
    taken: Array | None = None
    haste: FloatOrArray = 1.0
    cells: int = CELLS

    @classmethod
    def near(cls, taken: Array, haste: FloatOrArray = 1.0) -> Placing:
        """Beginning where a march nearby ended."""
        return cls(WARM_PASSES, taken, haste, len(taken) - 1)


FIRST_PLACING = Placing()


@dataclass(frozen=True)
class CapillaryFlow:
    """What a flow does in the tube, arrays over lanes."""

    required_length: Array  # [m] of tube that this flow would need
    choked: NDArray[np.bool_]  # the outlet pressure is not felt in the tube
    exit_pressure: Array  # [Pa] inside the tube's end; above the outlet pressure when choked
    exit_quality: Array  # inside the tube's end
    flash_position: Array  # [m] from the inlet: what holds liquid only
    mass: Array  # [kg] held in the required length
    felt_temperature: Array  # [K] of the joined part, as the gas that leaves the exchanger felt it
    taken: Array  # share of the exchanger's heat that is out at each point, first axis
    misplaced: Array  # how far from it the share lies that this march asks for


def capillary_flow(
    tube: Capillary,
    refrigerant: Refrigerant,
    mass_flow: FloatOrArray,
    inlet_pressure: FloatOrArray,
    inlet_enthalpy: FloatOrArray,
    outlet_pressure: FloatOrArray,
    heat_removed: FloatOrArray = 0.0,
    gas_transfer_units: FloatOrArray = 1.0,
    gas_inlet_temperature: FloatOrArray | None = None,
    *,
    flash_delay: FloatOrArray | None = None,
    cells: int = CELLS,
    placing: Placing = FIRST_PLACING,
) -> CapillaryFlow:
    """March `mass_flow` [kg/s] down the pressure from inlet to outlet [Pa].

    `inlet_enthalpy` [J/kg] may be of subcooled liquid or of a liquid-vapour mixture; `heat_removed`
    [J/kg] is taken out along the exchanger as gas in counterflow that enters it at
    `gas_inlet_temperature` [K] takes it in, evenly where that is not given. Length needed falls as
    the flow rises. `gas_transfer_units` n [1/m] of the gas weigh the joined part's temperature: gas
    that leaves at its start has felt the integral of n T exp(-n s) over s from there.
    `flash_delay` [Pa] is how far liquid falls under its saturation before it begins to flash.
    Source: momentum and energy of one-dimensional homogeneous flow (Stoecker and Jones 1982,
    chapter 13, eqs 13-1 to 13-16), friction by Churchill 1977, loops by Ito 1959.
    """
    delay = None if flash_delay is None else np.maximum(lanes(flash_delay), LEAST_DELAY)
    units = lanes(gas_transfer_units)
    gas_inlet = None if gas_inlet_temperature is None else lanes(gas_inlet_temperature)
    ends = (lanes(inlet_pressure), lanes(inlet_enthalpy), lanes(outlet_pressure))
    removed = lanes(heat_removed)
    settled = settled_march(
        tube,
        refrigerant,
        lanes(mass_flow) / tube.area,
        *ends,
        removed,
        units,
        gas_inlet,
        delay,
        cells=cells,
        placing=placing,
    )
    found, pressure = settled.march, settled.pressure
    end = _exit_place(found)
    return CapillaryFlow(
        required_length=found.position[-1],
        choked=end < cells,
        exit_pressure=_at_place(pressure, end),
        exit_quality=_at_place(found.points.quality, end),
        flash_position=np.sum(found.length * _liquid_share(found.points.dryness), axis=0),
        mass=np.sum(found.length * found.density, axis=0) * tube.area,
        felt_temperature=_felt(tube, found, units),
        taken=settled.taken,
        misplaced=settled.misplaced,
    )


@dataclass(frozen=True)
class SettledMarch:
    """A march whose heat lies where it is taken, points along the first axis."""

    pressure: Array  # [Pa]
    march: March
    taken: Array  # share of the exchanger's heat that is out
    misplaced: Array  # how far from it the share lies that this march asks for


def settled_march(
    tube: Capillary,
    refrigerant: Refrigerant,
    flux: Array,
    inlet_pressure: Array,
    enthalpy: Array,
    outlet_pressure: Array,
    removed: Array,
    units: Array,
    gas_inlet: Array | None,
    delay: Array | None,
    *,
    cells: int,
    placing: Placing,
) -> SettledMarch:
    """March with `removed` [J/kg] placed along the exchanger; arguments as `capillary_flow`."""
    pressure = _pressures(refrigerant, inlet_pressure, outlet_pressure, enthalpy, flux, cells)
    line = refrigerant.flash_line(pressure)

    def march(heat: Array) -> March:
        points = Points.at(refrigerant, line, enthalpy - heat, flux)
        if delay is not None:
            points = flashing_late(points, refrigerant, line, pressure, enthalpy - heat, delay)
        return _march(tube, points, pressure, flux)

    def place(share: Array) -> tuple[March, Array]:
        found = march(removed * share)
        # Where the heat is taken follows the lengths and temperatures of the march.
        return found, _taken_in(tube, found, units, gas_inlet)

    even = np.broadcast_to(_even_steps(pressure[0], cells), pressure.shape)
    first = even if placing.taken is None else placing.taken
    found, share, missed = _placed(place, first, placing)
    return SettledMarch(pressure, found, share, np.where(np.abs(removed) > 0.0, missed, 0.0))


def _pressures(
    refrigerant: Refrigerant,
    inlet: Array,
    outlet: Array,
    enthalpy: Array,
    flux: Array,
    cells: int,
) -> Array:
    """Pressures [Pa] of the march's points along the first axis, behind the entrance's loss."""
    first, last = np.broadcast_arrays(inlet, outlet)
    # A high side below the low side has no flow; the march then has nothing to cover.
    last = np.minimum(last, 0.98 * first)
    first, last, _ = np.broadcast_arrays(first, last, enthalpy + flux)
    start = Points.at(refrigerant, refrigerant.flash_line(first), enthalpy, flux)
    entrance = np.minimum(ENTRANCE_LOSS * flux**2 * start.volume / 2.0, 0.5 * (first - last))
    inside = first - entrance
    return lanes(inside + (last - inside) * _even_steps(inside, cells))


def _even_steps(lane: Array, cells: int) -> Array:
    """0 to 1 along a new first axis before those of `lane`."""
    return np.linspace(0.0, 1.0, cells + 1).reshape(-1, *[1] * np.ndim(lane))


def _placed(
    place: Callable[[Array], tuple[March, Array]], share: Array, placing: Placing
) -> tuple[March, Array, Array]:
    """The march whose heat lies where it would be taken, that share, and what it misses by.

    `place` gives the march and the share that it asks for. Put in again as it comes out, the share
    swings about where gas enters a strongly cooled tube: after four passes the length is off by
    up to a third. Mixing the last three passes so that what they miss by cancels best calms it
    (Anderson 1965, J. ACM 12, 547-560; from memory).
    """
    found, fresh = place(share)
    given, missed = [fresh], [fresh - share]
    for _ in range(placing.passes):
        mixed = np.clip(_mixed(given, missed), 0.0, 1.0)
        share = share + placing.haste * (mixed - share)
        found, fresh = place(share)
        given, missed = [fresh, *given[:2]], [fresh - share, *missed[:2]]
    return found, share, np.max(np.abs(missed[0]), axis=0)


def _mixed(given: list[Array], missed: list[Array]) -> Array:
    """The mixture of up to three passes, newest first, whose `missed` has the least squares."""
    if len(given) < MIXED:
        return given[0]
    one, two = missed[0] - missed[1], missed[0] - missed[2]
    a, b, c = (np.sum(x * y, axis=0) for x, y in ((one, one), (one, two), (two, two)))
    d, e = np.sum(one * missed[0], axis=0), np.sum(two * missed[0], axis=0)
    # Passes that miss alike tell nothing apart: the addition keeps their mixture at the newest.
    size = a * c * (1.0 + 1e-9) - b * b + 1e-30
    first, second = (c * d - b * e) / size, (a * e - b * d) / size
    mixture = given[0] - first * (given[0] - given[1]) - second * (given[0] - given[2])
    return lanes(mixture)


@dataclass(frozen=True)
class March:
    """One pass down the pressure; the first axis runs over points or cells."""

    points: Points
    density: Array  # [kg/m3] of each cell
    drop: Array  # of each cell; negative where more pressure would be needed than falls
    length: Array  # [m] of each cell
    position: Array  # [m] of each point from the inlet


def _march(tube: Capillary, points: Points, pressure: Array, flux: Array) -> March:
    """Lengths of all cells: dz = 2 d / f (-dp / (G^2 v) - dv / v), held where choked.

    So written, the mean of 1/v is exact for liquid and nearly so for the mixture, whose volume goes
    about as 1/p. Where dz turns negative the place is held; it goes on only where what was missed
    is made up, as in a sudden flash, whose momentum is then kept.
    """
    before, after = points.part(slice(None, -1)), points.part(slice(1, None))
    reynolds = 2.0 * flux * tube.bore / (before.viscosity + after.viscosity)
    friction = darcy_friction_factor(reynolds, tube.roughness / tube.bore)
    wound = np.maximum(1.0 - tube.exchanger_length / tube.length, 0.0)
    bends = coil_friction_ratio(reynolds, tube.bore / tube.coil_diameter)
    friction = friction * (1.0 + wound * (bends - 1.0))
    weight = 1.0 / points.volume
    density = 0.5 * (weight[:-1] + weight[1:])
    drop = density * (pressure[:-1] - pressure[1:]) / (flux * flux)
    drop = drop - np.log(after.volume * weight[:-1])
    way = np.cumsum(drop * 2.0 * tube.bore / friction, axis=0)
    way = np.concatenate([np.zeros_like(way[:1]), way])
    position = np.maximum.accumulate(way, axis=0)
    return March(points, density, drop, np.diff(position, axis=0), position)


def _exit_place(march: March) -> Array:
    """Where the tube ends, counted in points: past the last cell, or between two where choked.

    The choke lies where the drop per cell, taken at the cells' middles, passes zero.
    """
    cells = len(march.length)
    last = cells - 1 - np.argmax(march.length[::-1] > 0.0, axis=0)
    none = np.max(march.length, axis=0) <= 0.0
    following = np.minimum(last + 1, cells - 1)
    falling, fallen = _pick(march.drop, last), np.minimum(_pick(march.drop, following), 0.0)
    share = np.clip(falling, 0.0, None) / np.maximum(falling - fallen, 1e-300)
    place = np.where(last == cells - 1, cells, last + 0.5 + np.clip(share, 0.0, 1.0))
    return lanes(np.where(none, 0.0, place))


def _at_place(values: Array, place: Array) -> Array:
    """`values` of the points at a `place` between them, by straight lines."""
    whole = np.clip(place.astype(np.intp), 0, len(values) - 2)
    below, above = _pick(values, whole), _pick(values, whole + 1)
    return lanes(below + (place - whole) * (above - below))


def _liquid_share(dryness: Array) -> Array:
    """Share of each cell that is liquid, the flash point placed by straight lines."""
    liquid, gas = np.maximum(-dryness, 0.0), np.maximum(dryness, 0.0)
    below = liquid[:-1] + liquid[1:]
    return lanes(below / np.maximum(below + gas[:-1] + gas[1:], 1e-300))


def _along_exchanger(tube: Capillary, position: Array) -> Array:
    """Way [m] of each point into the exchanger, the march stretched to the tube's real length."""
    whole = np.maximum(position[-1], 1e-9)
    place = position / whole * tube.length
    return lanes(np.clip(place - tube.exchanger_start, 0.0, tube.exchanger_length))


def _taken_in(tube: Capillary, march: March, units: Array, gas_inlet: Array | None) -> Array:
    """Share of the exchanger's heat that is out of the capillary at each point.

    Even along the exchanger where nothing is known of its gas. Else the gas comes the other way:
    T_gas(s) = T_in e^(-n (J - s)) + integral of n T e^(-n (s' - s)) over s' from s to J, of
    the length J; its warming that is still to come is what is taken.
    """
    along = _along_exchanger(tube, march.position)
    even = along / np.maximum(tube.exchanger_length, 1e-6)
    if gas_inlet is None:
        return lanes(even)
    held = np.minimum(units, MOST_UNITS / np.maximum(tube.exchanger_length, 1e-6))
    weight = np.exp(-held * along)
    temperature = march.points.temperature - gas_inlet
    middle = 0.5 * (temperature[:-1] + temperature[1:])
    ahead = np.cumsum(((weight[:-1] - weight[1:]) * middle)[::-1], axis=0)[::-1]
    warmed = np.concatenate([ahead, np.zeros_like(ahead[:1])]) / weight
    whole = warmed[0]
    known = np.abs(whole) > LEAST_WARMING
    share = 1.0 - warmed / np.where(known, whole, 1.0)
    return lanes(np.where(known, np.clip(share, 0.0, 1.0), even))


def _felt(tube: Capillary, march: March, units: Array) -> Array:
    """Mean temperature [K] of the joined part, weighted by n exp(-n s) from its start."""
    weight = np.exp(-units * _along_exchanger(tube, march.position))
    temperature = march.points.temperature
    middle = 0.5 * (temperature[:-1] + temperature[1:])
    shares = weight[:-1] - weight[1:]
    total = np.sum(shares, axis=0)
    mean = np.sum(shares * middle, axis=0) / np.where(total > 0.0, total, 1.0)
    # Without an exchanger nothing is felt; any finite temperature does.
    return lanes(np.where(total > 0.0, mean, temperature[0]))


def _pick(values: Array, index: NDArray[np.intp]) -> Array:
    """`values[index]` lane by lane."""
    broadcast = np.broadcast_to(values, (len(values), *index.shape))
    return lanes(np.take_along_axis(broadcast, index[None], axis=0)[0])
