"""The whole plant on the clock, and where its lanes stand at a moment."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array
from coldwright.clock.cold_table import ColdTable
from coldwright.clock.network import State, Walls
from coldwright.clock.store import Store
from coldwright.clock.thermostat import Thermostat
from coldwright.fluids.refrigerants import Refrigerant
from coldwright.plant.machine_map import MachineMap


@dataclass(frozen=True)
class Openings:
    """Ways for the room's air, as in `parts.cabinet.Cabinet`; arrays over lanes."""

    low: Array  # [m^2.5] gaps and drain, `heat.leakage.stack_openings`
    door_area: Array  # [m2]
    door_height: Array  # [m]
    door_open_time: Array  # [s]
    air_volume: Array  # [m3]


@dataclass(frozen=True)
class ClockPlant:
    """What stays the same all day; arrays over lanes, at least one axis."""

    walls: Walls
    machine: MachineMap
    table: ColdTable
    store: Store
    control: Thermostat
    openings: Openings
    refrigerant: Refrigerant
    tight_conductance: Array  # [W/K] bridges and gasket, inside air to room
    air_capacity: Array  # [J/K]
    air_mass: Array  # [kg] dry
    contents_capacity: Array  # [J/K]
    contents_conductance: Array  # [W/K] goods to air
    contents_heat: Array  # [W]
    contents_moisture: Array  # [kg/s] at 80 % relative humidity
    load_specific_heat: Array  # [J/(kg K)] of what is put in warm
    load_temperature: Array  # [K]
    condenser_capacity: Array  # [J/K]
    shell_capacity: Array  # [J/K]
    shell_conductance: Array  # [W/K]
    room_offset: Array  # [K] on the plan's room
    power_factor: Array  # on the map's power
    standing_pressure: Array  # [Pa] of the charge all as gas and in the oil, at rest in the room
    pressure: Array  # [Pa]
    voltage: Array  # [V]
    magnetising_current: Array  # [A]

    @property
    def lanes(self) -> int:
        """Number of lanes."""
        return int(self.air_capacity.size)

    def taken(self, wanted: NDArray[np.intp]) -> ClockPlant:
        """The plant of only the `wanted` lanes."""
        changed: dict[str, Any] = {}
        for field in fields(self):
            part = getattr(self, field.name)
            if isinstance(part, np.ndarray):
                changed[field.name] = part[wanted]
            elif isinstance(part, Walls | Openings):
                arrays = {f.name: getattr(part, f.name)[..., wanted] for f in fields(part)}
                changed[field.name] = replace(part, **arrays)
            elif not isinstance(part, Refrigerant):
                changed[field.name] = part.taken(wanted)
        return replace(self, **changed)


@dataclass(frozen=True)
class Moment:
    """Where the lanes stand; arrays over lanes."""

    state: State
    humidity: Array  # [kg/kg] of the stored air
    frost: Array  # [kg]
    running: NDArray[np.bool_]
    returned: Array  # share of the charge that is back where it belongs while running
    standing: Array  # [s] since the last stop
    drift: Array  # [K/s] of node, air and condenser over the last step `[3, lane]`
    bend: Array  # [K/s2] how the drifts of node and condenser change `[3, lane]`
    before: Array  # [s] length of the last step, 0 after a break

    def taken(self, wanted: NDArray[np.intp]) -> Moment:
        """Only the `wanted` lanes."""
        state = State(self.state.nodes[:, wanted], self.state.walls[..., wanted])
        rest: dict[str, Any] = {
            field.name: getattr(self, field.name)[..., wanted]
            for field in fields(self)
            if field.name != "state"
        }
        return replace(self, state=state, **rest)

    def put(self, wanted: NDArray[np.intp], part: Moment) -> Moment:
        """The moment with the lanes of `part` in their places."""
        if wanted.size == self.humidity.size:
            return part

        def placed(whole: Array, some: Array) -> Array:
            found = whole.copy()
            found[..., wanted] = some
            return found

        state = State(
            placed(self.state.nodes, part.state.nodes), placed(self.state.walls, part.state.walls)
        )
        rest: dict[str, Any] = {
            field.name: placed(getattr(self, field.name), getattr(part, field.name))
            for field in fields(self)
            if field.name != "state"
        }
        return replace(self, state=state, **rest)


@dataclass(frozen=True)
class Outside:
    """What the plant stands in; arrays over lanes."""

    room: Array  # [K]
    humidity: Array  # [kg/kg] of the room's air
    leakage: Array  # [kg/s] dry air through the gaps
    air_specific_heat: Array  # [J/(kg K)] of what comes in

    def taken(self, wanted: NDArray[np.intp]) -> Outside:
        """Only the `wanted` lanes."""
        return Outside(*(getattr(self, field.name)[wanted] for field in fields(self)))
