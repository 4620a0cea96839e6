"""The box as heat capacities and conductances between them, and one implicit step of them all.

Nodes: the cold side's (brine or metal), stored air, contents, condenser, compressor shell, bulb,
and the walls' ladders, each from its inside skin outwards. Over one step films and machine stand
still (they are taken at its expected middle), so that a step is a linear system. It is a tree but
for the stored air and the cold surface, which hold it together: ladders, node and contents are
eliminated from their ends, and two unknowns are left.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array

NODE, AIR, CONTENTS, CONDENSER, SHELL, BULB = range(6)
GAMMA = 1.0 - 1.0 / np.sqrt(2.0)
FREEZING = 273.15


@dataclass(frozen=True)
class Walls:
    """All ladders side by side; arrays `[slot, ladder, lane]` or `[ladder, lane]`.

    capacity [J/K]; conductance [W/K]: air to skin, between slots, last slot to the space outside;
    skin_share: of the liner's area; sees_condenser, sees_shell: how much of the condenser's and
    the shell's excess over the room the space outside has.
    """

    capacity: Array
    conductance: Array
    skin_share: Array
    sees_condenser: Array
    sees_shell: Array

    def outside(self, room: Array, condenser: Array, shell: Array) -> Array:
        """Air [K] outside each ladder."""
        warm = self.sees_condenser * (condenser - room)
        return room + warm + self.sees_shell * (shell - room)


@dataclass(frozen=True)
class State:
    """Temperatures [K]: `nodes[node, lane]`, `walls[slot, ladder, lane]`."""

    nodes: Array
    walls: Array

    def liner(self, walls: Walls) -> Array:
        """Mean temperature of the inside skin [K]."""
        return np.asarray(np.add.reduce(self.walls[0] * walls.skin_share))


@dataclass(frozen=True)
class Ladders:
    """The walls eliminated from outside in, for one length of a step.

    length [s] of each lane; store [W/K] of all slots; inverse: of the ladders without their skins,
    `[slot, slot, ladder, lane]`; response: each slot's for a kelvin of its skin; pivot: of the
    skins, cold surface aside.
    """

    length: Array
    store: Array
    inverse: Array
    response: Array
    pivot: Array

    @classmethod
    def of(cls, walls: Walls, length: Array) -> Ladders:
        """Eliminate for a step of `length` [s]."""
        g, store = walls.conductance, walls.capacity / (GAMMA * length)
        count = len(store) - 1
        matrix = np.zeros((*store.shape[1:], count, count))
        for slot in range(1, count + 1):
            matrix[..., slot - 1, slot - 1] = store[slot] + g[slot] + g[slot + 1]
            if slot < count:
                matrix[..., slot - 1, slot] = matrix[..., slot, slot - 1] = -g[slot + 1]
        inverse = np.ascontiguousarray(np.moveaxis(np.linalg.inv(matrix), (2, 3), (0, 1)))
        response = inverse[0] * g[1]
        return cls(length, store, inverse, response, store[0] + g[0] + g[1] * (1.0 - response[0]))


@dataclass(frozen=True)
class Held:
    """What stands still over a step; arrays over lanes, W/K and W unless said.

    capacity: of the five heat stores `[node, lane]` [J/K]; inward, air, liner: from the cold
    surface to node, stored air and liner; latent: heat of what settles on it; thawing: the surface
    stands at freezing; through: air to room; room [K]; goods: contents to air; goods_heat;
    machine: heat that the machine takes out of the node were it at 0 K, and machine_slope more
    per kelvin; condenser_heat into the sheet, condenser: to the room; shell_heat, shell: to the
    room; bulb_rate [1/s] to its place: a node, or `line` [K] for None.
    """

    capacity: Array
    inward: Array
    air: Array
    liner: Array
    latent: Array
    thawing: NDArray[np.bool_]
    through: Array
    room: Array
    goods: Array
    goods_heat: Array
    machine: Array
    machine_slope: Array
    condenser_heat: Array
    condenser: Array
    shell_heat: Array
    shell: Array
    bulb_rate: Array
    bulb_place: int | None
    line: Array


class Step:
    """One implicit step of every lane: factors once, then its two stages."""

    def __init__(self, walls: Walls, ladders: Ladders, held: Held) -> None:
        """Eliminate what does not depend on the temperatures."""
        self.walls, self.ladders, self.held = walls, ladders, held
        self.h = GAMMA * ladders.length
        self.store = held.capacity / self.h
        skin_film = walls.conductance[0]
        to_skins = held.liner * walls.skin_share
        skin_pivot = ladders.pivot + to_skins
        self.per_skin = 1.0 / skin_pivot
        self.air_ratio, self.surface_ratio = skin_film / skin_pivot, to_skins / skin_pivot
        self.goods_pivot = self.store[CONTENTS] + held.goods
        self.goods_ratio = held.goods / self.goods_pivot
        node_store = self.store[NODE] + held.machine_slope
        self.node_pivot = node_store + held.inward
        self.node_ratio = held.inward / self.node_pivot
        self.air_pivot = (
            self.store[AIR]
            + held.through
            + held.air
            + self.goods_ratio * self.store[CONTENTS]
            + np.add.reduce(skin_film * (1.0 - self.air_ratio))
        )
        self.both = held.air + np.add.reduce(skin_film * self.surface_ratio)
        surface_pivot = (
            self.node_ratio * node_store
            + held.air
            + np.add.reduce(to_skins * (1.0 - self.surface_ratio))
        )
        determinant = self.air_pivot * surface_pivot - self.both * self.both
        self.from_surface = self.air_pivot / determinant
        self.from_air = self.both / determinant
        # what the stages have in common: heat by node, and the divisor of its own temperature
        self.forcing = np.array(
            [
                -held.machine,
                held.through * held.room,
                held.goods_heat,
                held.condenser_heat + held.condenser * held.room,
                held.shell_heat + held.shell * held.room,
            ]
        )
        self.bulb_pull = self.h * held.bulb_rate

    def stage(self, before: State) -> tuple[State, Array]:
        """Temperatures T with C (T - before) / h = what flows in at T, and the cold surface's."""
        held, ladders = self.held, self.ladders
        right = self.store * before.nodes[:BULB] + self.forcing
        nodes = np.empty_like(before.nodes)
        nodes[CONDENSER] = right[CONDENSER] / (self.store[CONDENSER] + held.condenser)
        nodes[SHELL] = right[SHELL] / (self.store[SHELL] + held.shell)
        outside = self.walls.outside(held.room, nodes[CONDENSER], nodes[SHELL])
        stored = ladders.store * before.walls
        stored[-1] += self.walls.conductance[-1] * outside
        inner = np.einsum("ijkl,jkl->ikl", ladders.inverse, stored[1:])
        skin = stored[0] + self.walls.conductance[1] * inner[0]
        for_air = (
            right[AIR] + self.goods_ratio * right[CONTENTS] + np.add.reduce(self.air_ratio * skin)
        )
        for_surface = (
            held.latent + self.node_ratio * right[NODE] + np.add.reduce(self.surface_ratio * skin)
        )
        surface = self.from_surface * for_surface + self.from_air * for_air
        surface = np.where(held.thawing, FREEZING, surface)
        nodes[AIR] = air = (for_air + self.both * surface) / self.air_pivot
        nodes[CONTENTS] = right[CONTENTS] / self.goods_pivot + self.goods_ratio * air
        nodes[NODE] = right[NODE] / self.node_pivot + self.node_ratio * surface
        walls_after = np.empty_like(before.walls)
        walls_after[0] = self.per_skin * skin + self.air_ratio * air + self.surface_ratio * surface
        walls_after[1:] = inner + ladders.response * walls_after[0]
        place = held.line if held.bulb_place is None else nodes[held.bulb_place]
        nodes[BULB] = (before.nodes[BULB] + self.bulb_pull * place) / (1.0 + self.bulb_pull)
        return State(nodes, walls_after), surface

    def advance(self, start: State) -> tuple[State, State, Array]:
        """State after the step, its mean over the step, and the mean of the cold surface.

        L-stable singly diagonally implicit Runge-Kutta method of second order (Alexander 1977,
        SIAM J. Numer. Anal. 14, 1006, from memory), whose last stage is the step's end. The means
        are those that close the heat balance exactly: C (end - start) = length x (flow at means).
        """
        first, early = self.stage(start)
        share = (1.0 - GAMMA) / GAMMA
        between = State(
            start.nodes + share * (first.nodes - start.nodes),
            start.walls + share * (first.walls - start.walls),
        )
        end, late = self.stage(between)
        mean = State(
            (1.0 - GAMMA) * first.nodes + GAMMA * end.nodes,
            (1.0 - GAMMA) * first.walls + GAMMA * end.walls,
        )
        return end, mean, (1.0 - GAMMA) * early + GAMMA * late
