"""A plant and what the clock must know beside it, as a `ClockPlant`; and the maps it reads."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from coldwright.arrays import Array, lanes
from coldwright.clock.cold_table import ColdTable, cold_table, dry_cold_side
from coldwright.clock.ladder import SLICES, WallLayer, joined, ladder_of
from coldwright.clock.network import Walls
from coldwright.clock.plan import Plan
from coldwright.clock.plant import ClockPlant, Openings
from coldwright.clock.store import FreezingStore, SteadyStore, Store
from coldwright.clock.thermostat import Thermostat
from coldwright.fluids.moist_air import density
from coldwright.parts.cabinet import DRY_AIR_SPECIFIC_HEAT
from coldwright.parts.cold_side.holdover import Holdover
from coldwright.parts.cold_side.surface_heat import ColdSide
from coldwright.parts.standing import stand
from coldwright.plant.box import BACK_SHARE, COMPRESSOR_SPACE_SHARE, Plant
from coldwright.plant.machine_map import ROUNDS, MachineMap, machine_map
from coldwright.plant.system import SealedSystem

FELT_COLDER, FELT_WARMER, ROOM_STEP = 32.0, 6.0, 4.5
"""Rooms of the map [K]: under the coldest room by as much as a sheet at the room's own
temperature feels colder, over the hottest, and the step between."""

SOURCE_WARMER, SOURCE_COLDER = 4.0, 50.0
"""Sources of the map [K]: over the hottest room, and under it down to what the fluid allows."""

METAL_COLDER = 45.0
"""How much colder [K] than its source a plate's or a tube's metal may stand: sources go up by it,
so that the metal itself comes up to the room."""

FLUID_MARGIN = 12.0
AIR_COLDER, AIR_WARMER = 40.0, 8.0
"""Stored air of the table of films [K], under and over the rooms."""


@dataclass(frozen=True)
class ClockParts:
    """What the clock must know beside a `Plant`; arrays that broadcast over lanes.

    layers: of each face by name, inside first; contents: mass [kg], specific heat [J/kgK] and
    conductance to the air [W/K]; heat capacities of condenser and shell [J/K].
    """

    charge: Array  # [kg]
    warm_room: Array  # [K]
    layers: Mapping[str, Sequence[WallLayer]]
    control: Thermostat
    contents_mass: Array
    contents_specific_heat: Array
    contents_conductance: Array
    condenser_capacity: Array
    shell_capacity: Array
    voltage: Array
    magnetising_current: Array


def map_of(
    system: SealedSystem,
    plant: Plant,
    charge: Array,
    plan: Plan,
    pressure: float,
    room_step: float = ROOM_STEP,
    rounds: int = ROUNDS,
) -> MachineMap:
    """The machine over all nodes and felt rooms that `plan` may lead to, at its `charge` [kg]."""
    coldest, hottest = float(np.min(plan.room)), float(np.max(plan.room))
    low, high = coldest - FELT_COLDER, hottest + FELT_WARMER
    rooms = np.linspace(low, high, 2 + int((high - low) // room_step))
    least = max(hottest - SOURCE_COLDER, system.refrigerant.least_temperature + FLUID_MARGIN)
    cold_side = dry_cold_side(plant.box.cold_side)
    return machine_map(
        replace(system, cold_side=cold_side),
        cold_side,
        np.atleast_1d(charge).astype(np.float64),
        (least, hottest + SOURCE_WARMER + (METAL_COLDER if cold_side.source_is_air else 0.0)),
        rooms,
        pressure,
        rounds,
    )


def table_of(plant: Plant, plan: Plan, pressure: float) -> ColdTable:
    """Films of the cold side over all stored air that `plan` may lead to."""
    span = (float(np.min(plan.room)) - AIR_COLDER, float(np.max(plan.room)) + AIR_WARMER)
    return cold_table(dry_cold_side(plant.box.cold_side), plant.box.air_path, span, pressure, 1)


def clock_plant(
    plant: Plant,
    parts: ClockParts,
    machine: MachineMap,
    table: ColdTable,
    pressure: float,
    *,
    count: int = 1,
    slices: int = SLICES,
    room_offset: Array | float = 0.0,
    power_factor: Array | float = 1.0,
) -> ClockPlant:
    """The plant on the clock with `count` lanes; `machine` and `table` as made for its plan.

    slices: of every wall. Its cabinet's daily means of doors and warm load are left aside: the
    plan brings them.
    """
    cabinet, cold_side = plant.box.cabinet, plant.box.cold_side

    def full(value: Array | float) -> Array:
        return np.broadcast_to(lanes(value), (count,)).copy()

    bridges, gasket = cabinet.bridge_and_gasket
    dry = density(np.full(count, 273.15), 0.0, full(pressure))
    capacity = parts.contents_mass * parts.contents_specific_heat
    return ClockPlant(
        walls=_walls(plant, parts, count, slices),
        machine=machine,
        table=table,
        store=_store(cold_side, full),
        control=_control(parts.control, full),
        openings=Openings(
            low=full(sum(cabinet.lower_openings, start=lanes(0.0))),
            door_area=full(cabinet.door_area),
            door_height=full(cabinet.door_height),
            door_open_time=full(cabinet.door_open_time),
            air_volume=full(cabinet.inside_air_volume),
        ),
        refrigerant=plant.system.refrigerant,
        tight_conductance=full(bridges + gasket),
        air_capacity=full(cabinet.inside_air_volume) * dry * DRY_AIR_SPECIFIC_HEAT,
        air_mass=full(cabinet.inside_air_volume) * dry,
        contents_capacity=full(np.maximum(capacity, 1.0)),
        contents_conductance=full(parts.contents_conductance),
        contents_heat=full(cabinet.contents_heat),
        contents_moisture=full(cabinet.contents_moisture),
        load_specific_heat=full(parts.contents_specific_heat),
        load_temperature=full(cabinet.warm_load_temperature),
        condenser_capacity=full(parts.condenser_capacity),
        shell_capacity=full(parts.shell_capacity),
        shell_conductance=full(plant.system.compressor.shell_conductance),
        room_offset=full(room_offset),
        power_factor=full(power_factor),
        standing_pressure=full(_standing(plant, parts)),
        pressure=full(pressure),
        voltage=full(parts.voltage),
        magnetising_current=full(parts.magnetising_current),
    )


def _control(control: Thermostat, full: Callable[[Array], Array]) -> Thermostat:
    return Thermostat(
        control.place,
        control.head,
        full(control.cut_in),
        full(control.cut_out),
        full(control.lag),
        full(control.rest),
    )


def _standing(plant: Plant, parts: ClockParts) -> Array:
    """Pressure [Pa] of the charge at rest in the warm: below saturation where it is all gas."""
    system = plant.system
    found = stand(
        system.refrigerant,
        parts.charge,
        system.total_volume,
        parts.warm_room,
        system.oil,
        system.volumes.oil_mass,
    )
    return lanes(np.where(np.isnan(found.pressure), found.saturation_pressure, found.pressure))


def _store(cold_side: ColdSide, full: Callable[[Array], Array]) -> Store:
    """What holds the node's heat: a holdover's filling freezes, all else only cools."""
    if isinstance(cold_side, Holdover):
        empty = replace(cold_side, filler_volume=cold_side.filler_volume + cold_side.brine_volume)
        body = cold_side.filler_density * cold_side.filler_specific_heat
        beside = empty.heat_capacity - cold_side.brine_volume * body
        return FreezingStore(cold_side.filling, full(cold_side.brine_mass), full(beside))
    return SteadyStore(full(cold_side.heat_capacity))


def _walls(plant: Plant, parts: ClockParts, count: int, slices: int) -> Walls:
    """All faces as ladders, those that look to the same space joined."""
    cabinet = plant.box.cabinet
    most = max(slices, *(len(each) for each in parts.layers.values()))
    ladders = joined(
        [
            ladder_of(face, parts.layers[face.name], cabinet.conductance_multiplier, most)
            for face in cabinet.faces
        ]
    )

    area = np.stack([np.broadcast_to(each.area, (count,)) for each in ladders])
    sees = {"room": (0.0, 0.0), "condenser": (BACK_SHARE, 0.0), "compressor": (0.0, 1.0)}
    looks = np.array([sees[each.adjoining] for each in ladders])
    return Walls(
        capacity=_slotted([each.capacity for each in ladders], count),
        conductance=_slotted([each.conductance for each in ladders], count),
        skin_share=area / np.sum(area, axis=0),
        sees_condenser=np.repeat(looks[:, :1], count, axis=1),
        sees_shell=np.repeat(looks[:, 1:] * COMPRESSOR_SPACE_SHARE, count, axis=1),
    )


def _slotted(values: Sequence[Array], count: int) -> Array:
    """`[slot, ladder, lane]` out of arrays `[slot, lane]`, one for each ladder."""
    return np.stack([np.broadcast_to(each, (len(each), count)) for each in values], axis=1)
