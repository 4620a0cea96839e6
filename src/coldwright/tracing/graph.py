"""The operations of one lane as a graph: each node once, whatever the number of its users."""

from __future__ import annotations

import struct
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from coldwright.arrays import Array


@dataclass(frozen=True, slots=True)
class Node:
    """One value of a lane.

    op: what makes it; args: numbers of the nodes it is made of; held: a constant, the number of an
    input or a table, the place of a view; length: 0 for one number, else how many points; is_bool:
    true or false and not a number.
    """

    op: str
    args: tuple[int, ...]
    held: tuple[Any, ...]
    length: int
    is_bool: bool


@dataclass(eq=False)
class Graph:
    """Nodes in an order in which each stands behind what it is made of."""

    nodes: list[Node] = field(default_factory=list)
    tables: list[Array] = field(default_factory=list)
    inputs: int = 0
    _known: dict[Node, int] = field(default_factory=dict)
    _table_numbers: dict[int, int] = field(default_factory=dict)

    def add(
        self,
        op: str,
        args: tuple[int, ...] = (),
        held: tuple[Any, ...] = (),
        length: int = 0,
        is_bool: bool = False,
    ) -> int:
        """Number of the node that is so made; the same again if it is there already."""
        node = Node(op, args, held, length, is_bool)
        number = self._known.get(node)
        if number is None:
            number = len(self.nodes)
            self.nodes.append(node)
            self._known[node] = number
        return number

    def constant(self, value: float | np.bool) -> int:
        """A number that is the same in all lanes."""
        if isinstance(value, bool | np.bool):
            return self.add("constant", held=(int(value),), is_bool=True)
        # By its bits: 0.0 and -0.0 are equal but not the same.
        return self.add("constant", held=(struct.pack("<d", float(value)),))

    def points(self, values: Array) -> int:
        """Numbers along points, the same in all lanes."""
        held = np.ascontiguousarray(values, dtype=np.float64)
        return self.add("points", held=(held.tobytes(),), length=held.size)

    def input(self, length: int = 0) -> int:
        """One more input of each lane: a number, or `length` of them."""
        self.inputs += 1
        return self.add("input", held=(self.inputs - 1,), length=length)

    def table(self, values: Array) -> int:
        """Number of a table of constants that look-ups read; `values` must be contiguous."""
        number = self._table_numbers.get(id(values))
        if number is None:
            number = len(self.tables)
            self.tables.append(values)
            self._table_numbers[id(values)] = number
        return number

    def needed_for(self, ends: list[int]) -> list[int]:
        """The nodes that `ends` are made of, in order."""
        needed = bytearray(len(self.nodes))
        for end in ends:
            needed[end] = 1
        for number in range(len(self.nodes) - 1, -1, -1):
            if needed[number]:
                for arg in self.nodes[number].args:
                    needed[arg] = 1
        return [number for number, wanted in enumerate(needed) if wanted]
