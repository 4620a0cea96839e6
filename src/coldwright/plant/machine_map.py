"""The sealed system over what the clock keeps: settled states by condenser and node temperature.

Refrigerant settles in minutes, brine and metal in hours: at each moment the system does what a
balance says, but for what its start and stop cost. The clock keeps the heat of the brine (or of a
plate's metal) and of the condenser's sheet, and reads the map by them:

* by the node's temperature. For a vessel that is the brine, the source itself. A plate or tube
  takes its heat from the compartment; its node is the metal, which in a balance stands colder than
  the compartment by heat / conductance of the outside;
* by the condenser's temperature. A sheet that is still cold acts as a colder room would: the
  balance is that in the room which holds the sheet as warm as it is (the felt room).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array
from coldwright.parts.cold_side.surface_heat import ColdSide
from coldwright.parts.lane_tools import take_lanes
from coldwright.plant.balance import BALANCED, Balance, settle
from coldwright.plant.charge_rule import FixedCharge
from coldwright.plant.evaluation import Conditions, Evaluation
from coldwright.plant.hermite import Sheet
from coldwright.plant.system import SealedSystem

READ = (
    "capacity",
    "power",
    "condenser_heat",
    "condenser_conductance",
    "mass_flow",
    "high_side",
    "evaporating_temperature",
    "condensing_temperature",
    "superheat",
    "return_temperature",
    "discharge_temperature",
    "shell_temperature",
    "migration_heat",
    "felt_room",
)
(
    CAPACITY,
    POWER,
    CONDENSER_HEAT,
    CONDENSER_CONDUCTANCE,
    MASS_FLOW,
    HIGH_SIDE,
    EVAPORATING,
    CONDENSING,
    SUPERHEAT,
    RETURN_GAS,
    DISCHARGE_GAS,
    SHELL,
    MIGRATION_HEAT,
    FELT_ROOM,
) = range(len(READ))
METAL_PASSES = 12
LEAST_RISE = 0.5  # K of condensing over room, for a conductance
# First columns [K], and what a curve through them may miss half-way before points are put between.
FIRST_STEP, LEAST_STEP = 6.0, 1.2
SHARE_GOOD, KELVIN_GOOD = 5e-3, 0.1
LEAST_CAPACITY = 10.0  # W; a share is taken of no less
ROUNDS = 2
CONDENSER_STEP = 2.5
ROOMS_AT_REST = 30.0
"""Rows of the map: step [K], and how far the coldest stands under the hottest room."""


@dataclass(frozen=True)
class MachineMap:
    """`READ` over the condenser's temperature (rows) and the node's (columns) [K]."""

    sheet: Sheet
    balanced: float  # share of the states that balance

    def taken(self, wanted: NDArray[np.intp]) -> MachineMap:
        """The map of only the `wanted` lanes."""
        return MachineMap(self.sheet.taken(wanted), self.balanced)

    def at(self, condenser: Array, node: Array) -> tuple[Array, Array]:
        """`[READ, lane]` for flat lanes, held at the edges; and d capacity / d node [W/K]."""
        return self.sheet.with_slope(condenser, node, CAPACITY)

    def drawn(self, weights: Array) -> MachineMap:
        """A map for each draw: lane 0 plus `weights[draw, change]` times each lane's change.

        Straight lines between changed plants: for changes of the size of their own lanes.
        """
        values = self.sheet.values
        change = np.tensordot(weights, values[1:] - values[:1], axes=1)
        found = values[:1] + change
        for each in (CAPACITY, POWER, CONDENSER_HEAT, CONDENSER_CONDUCTANCE, MASS_FLOW, HIGH_SIDE):
            found[..., each] = np.maximum(found[..., each], 0.2 * values[:1, ..., each])
        return MachineMap(Sheet.through(self.sheet.rows, self.sheet.columns, found), self.balanced)


def machine_map(
    system: SealedSystem,
    cold_side: ColdSide,
    charge: Array,
    sources: tuple[float, float],
    rooms: Array,
    atmospheric_pressure: float,
    rounds: int = ROUNDS,
) -> MachineMap:
    """Settle every lane of `system` with its `charge` [kg] over `sources` and `rooms` [K].

    `charge` has the lanes, shape (lanes,). sources: coldest and warmest; the points between are
    placed by lane 0 in the second hottest room: evenly first, then half-way where a curve through
    them would miss a new balance by more than 0.5 % of capacity and power or 0.1 K (where the first
    liquid leaves the evaporator or the condenser results bend), `rounds` times. All rooms (rising)
    and lanes are then settled at once. States without a balance take those of the nearest source
    with one, in the same room.
    """
    grid = _Grid(system, charge, atmospheric_pressure)
    axis, capacity = grid.placed(sources, float(rooms[-2]), rounds)
    if cold_side.source_is_air:
        # sources whose metal is warmer than any room are not needed, but for one to lean on
        warm = _metal(cold_side, axis, capacity) > rooms[-1]
        axis = axis[: len(axis) - max(int(np.sum(warm)) - 1, 0)]
    balance, source, room = grid.settled(axis, rooms)
    good = balance.reason == BALANCED
    values = _quantities(system, balance, room, charge)
    node = source
    if cold_side.source_is_air:
        node = _metal(cold_side, source, values[..., CAPACITY])
    sheet = _laid_out(rooms, axis, node, values, good)
    return MachineMap(sheet, float(np.mean(good)))


@dataclass(frozen=True)
class _Grid:
    """The system with its charge, settled wherever it is asked."""

    system: SealedSystem
    charge: Array
    pressure: float

    def settled(self, sources: Array, rooms: Array) -> tuple[Balance, Array, Array]:
        """Balances `[room, source, lane]` with their sources and rooms."""
        shape = (len(rooms), len(sources), self.charge.size)
        room = np.broadcast_to(rooms[:, None, None], shape).copy()
        source = np.broadcast_to(sources[None, :, None], shape).copy()
        at = Conditions(source, room, room, np.full(shape, self.pressure))
        rule = FixedCharge(np.broadcast_to(self.charge, shape).copy())
        return settle(self.system, at, rule), source, room

    def first_lane(self) -> _Grid:
        """Lane 0 alone."""
        first = np.zeros(1, dtype=np.intp)
        system = take_lanes(self.system, first, self.charge.size)
        return _Grid(system, self.charge[:1], self.pressure)

    def placed(self, span: tuple[float, float], room: float, rounds: int) -> tuple[Array, Array]:
        """Sources at which curves follow the bends of lane 0 in one room, and its capacities."""
        from scipy.interpolate import PchipInterpolator  # noqa: PLC0415 (slow to load)

        alone, rooms = self.first_lane(), np.array([room])

        def settled_at(points: Array) -> tuple[Array, NDArray[np.bool_]]:
            balance, _, at = alone.settled(points, rooms)
            good = balance.reason == BALANCED
            return _quantities(alone.system, balance, at, alone.charge)[0, :, 0], good[0, :, 0]

        axis = np.linspace(*span, 2 + int((span[1] - span[0]) // FIRST_STEP))
        values, good = settled_at(axis)
        doubtful = np.ones(len(axis) - 1, dtype=bool)
        for _ in range(rounds):
            doubtful &= (np.diff(axis) > 2.0 * LEAST_STEP) & good[:-1] & good[1:]
            where = np.flatnonzero(doubtful)
            if where.size == 0:
                break
            middle = 0.5 * (axis[where] + axis[where + 1])
            expected = PchipInterpolator(axis[good], values[good], axis=0)(middle)
            found, balanced = settled_at(middle)
            poor = balanced & (_off(expected, found) > 1.0)
            axis, values = (
                np.insert(axis, where + 1, middle),
                np.insert(values, where + 1, found, 0),
            )
            good = np.insert(good, where + 1, balanced)
            doubtful = np.zeros(len(axis) - 1, dtype=bool)
            new = where + 1 + np.arange(where.size)
            doubtful[new] = doubtful[new - 1] = poor
        return axis, values[:, CAPACITY]


def _off(expected: Array, found: Array) -> Array:
    """How far curves are off at each point, 1 at what is good."""
    size = np.maximum(np.abs(found[:, [CAPACITY, POWER]]), LEAST_CAPACITY)
    by_share = np.abs(expected - found)[:, [CAPACITY, POWER]] / size / SHARE_GOOD
    by_kelvin = np.abs(expected - found)[:, [EVAPORATING, CONDENSING]] / KELVIN_GOOD
    return np.asarray(np.max(np.concatenate([by_share, by_kelvin], axis=1), axis=1))


def _quantities(system: SealedSystem, balance: Balance, room: Array, charge: Array) -> Array:
    """`READ` of settled states along a new last axis."""
    e = balance.evaluation
    rise = np.maximum(e.unknowns.condensing_temperature - room, LEAST_RISE)
    rows = (
        e.evaporator.heat,
        e.compressor.power,
        e.condenser.heat,
        e.condenser.heat / rise,
        e.compressor.mass_flow,
        np.maximum(charge - e.inventory.low_side, 0.0),
        e.unknowns.evaporating_temperature,
        e.unknowns.condensing_temperature,
        e.returning.superheat,
        e.returning.temperature,
        e.compressor.discharge_temperature,
        e.shell_temperature,
        migration_heat(system, e),
        room,
    )
    return np.stack(np.broadcast_arrays(*rows), axis=-1)


def migration_heat(system: SealedSystem, e: Evaluation) -> Array:
    """Heat [J/kg] that the high side's content brings when it moves to the cold side.

    Its liquid flows over as it is and cools down; its gas condenses. The gas is what fills the
    volume that saturated liquid leaves (balance of volume).
    """
    high = system.refrigerant.saturated(e.unknowns.condensing_temperature)
    low = system.refrigerant.saturated(e.unknowns.evaporating_temperature)
    parts = system.volumes
    volume = system.condenser.volume + parts.liquid_line + parts.drier + parts.discharge_line
    i = e.inventory
    mass = i.condenser + i.liquid_line + i.drier + i.discharge_line
    density = high.vapour_density
    liquid = (mass - density * volume) / (1.0 - density / high.liquid_density)
    gas_share = 1.0 - np.clip(liquid / mass, 0.0, 1.0)
    cooling = high.liquid_enthalpy - low.liquid_enthalpy
    return np.asarray(cooling + gas_share * high.latent_heat)


def _metal(cold_side: ColdSide, source: Array, heat: Array) -> Array:
    """Temperature of the metal [K] that takes `heat` [W] from a compartment at `source` [K]."""
    pressure = cold_side.surface.air_pressure
    metal = source - 5.0
    for _ in range(METAL_PASSES):
        films = cold_side.films(metal, source, source, pressure)
        both = films.convective_conductance + films.radiative_conductance
        metal = 0.5 * (metal + source - heat / both)
    return np.asarray(metal)


def _laid_out(
    rooms: Array, sources: Array, node: Array, values: Array, good: NDArray[np.bool_]
) -> Sheet:
    """The sheet over rooms and nodes: each row's points by the node, then on common columns.

    Columns are the sources' own where the node is the source; for a plate or tube the nodes of the
    room with most balances.
    """
    from scipy.interpolate import PchipInterpolator  # noqa: PLC0415 (slow to load)

    rows, _, lanes = good.shape
    axis = sources
    if node[0, 0, 0] != sources[0]:
        best = int(np.argmax(np.sum(good[:, :, 0], axis=1)))
        known = np.flatnonzero(good[best, :, 0])
        if known.size > 1:
            axis = np.maximum.accumulate(node[best, known, 0]) + 1e-3 * np.arange(known.size)
    result = np.full((lanes, rows, len(axis), values.shape[-1]), np.nan)
    if np.all(good) and axis is sources:
        return _by_condenser(rooms, axis, np.moveaxis(values, 2, 0))
    for row, lane in np.ndindex(rows, lanes):
        known = np.flatnonzero(good[row, :, lane])
        if known.size == 0:
            continue
        at, what = node[row, known, lane], values[row, known, lane]
        rising = np.maximum.accumulate(at) + 1e-6 * np.arange(known.size)
        # beyond the last metal that was settled (a machine stopped all day) the ends are held
        held = np.clip(axis, rising[0], rising[-1])
        result[lane, row] = (
            PchipInterpolator(rising, what, axis=0)(held) if known.size > 1 else what
        )
    return _by_condenser(rooms, axis, _rows_filled(result, rooms))


def _by_condenser(rooms: Array, columns: Array, values: Array) -> Sheet:
    """The sheet with the condensing temperature in the place of the room, column by column."""
    from scipy.interpolate import PchipInterpolator  # noqa: PLC0415 (slow to load)

    condensing = values[..., CONDENSING]
    # a sheet at rest stands at the room's own temperature
    low, high = float(rooms[-1]) - ROOMS_AT_REST, float(np.max(condensing))
    axis = np.linspace(low, high, 2 + int((high - low) // CONDENSER_STEP))
    found = np.empty((len(values), len(axis), *values.shape[2:]))
    for lane, column in np.ndindex(len(values), len(columns)):
        by = np.maximum.accumulate(condensing[lane, :, column]) + 1e-6 * np.arange(len(rooms))
        held = np.clip(axis, by[0], by[-1])
        found[lane, :, column] = PchipInterpolator(by, values[lane, :, column], axis=0)(held)
    return Sheet.through(axis, columns, found)


def _rows_filled(values: Array, rooms: Array) -> Array:
    """Rows without any balance take the nearest room's states; a lane with none does nothing."""
    empty = np.isnan(values[:, :, 0, 0])
    filled = values.copy()
    for lane, row in zip(*np.nonzero(empty), strict=True):
        known = np.flatnonzero(~empty[lane])
        if known.size:
            filled[lane, row] = values[lane, known[np.argmin(np.abs(known - row))]]
        else:
            filled[lane, row] = _idle(float(rooms[row]))
    return filled


def _idle(room: float) -> Array:
    """`READ` of a machine that has no balance at all: it moves no heat and draws no power."""
    idle = np.full(len(READ), room)
    idle[[CAPACITY, POWER, CONDENSER_HEAT, SUPERHEAT, MIGRATION_HEAT]] = 0.0
    idle[[MASS_FLOW, HIGH_SIDE]] = 1e-6
    idle[CONDENSER_CONDUCTANCE] = 1.0
    return idle
