"""Reading a graph's values into registers: constants, inputs, stored points, tables."""

from __future__ import annotations

import numpy as np

from coldwright.tracing.elementary import number
from coldwright.tracing.graph import Graph, Node


class Reader:
    """The text written so far, and where each value stands."""

    def __init__(self, graph: Graph) -> None:
        self.graph = graph
        self.lines: list[str] = []
        self.globals: list[str] = []
        self.entry: list[str] = []
        self.value: dict[int, str] = {}  # register of a number, or of a point in the open loop
        self.array: dict[int, str] = {}  # where the points of a node stand
        self.count = 0
        self.block = "body"

    def _new(self) -> str:
        self.count += 1
        return f"%v{self.count}"

    def _write(self, text: str) -> str:
        """One instruction; returns its register."""
        register = self._new()
        self.lines.append(f"  {register} = {text}")
        return register

    def _read(self, node: int, point: str | None) -> str:
        """Register of a node's value at `point` (of the open loop; None outside)."""
        if node in self.value:
            return self.value[node]
        held = self.graph.nodes[node]
        if held.op == "constant":
            if held.is_bool:
                return "true" if held.held[0] else "false"
            return number(np.frombuffer(held.held[0])[0])
        if not held.length and held.op == "input":
            register = self._input(held, None)
            self.value[node] = register
            return register
        if point is None:
            raise RuntimeError(f"{held.op} read outside its loop")
        return self._point(node, point)

    def _point(self, node: int, point: str) -> str:
        """Register of one of a node's stored points."""
        held = self.graph.nodes[node]
        if held.op == "view":
            first, step = held.held
            scaled = point if step == 1 else self._write(f"mul i64 {point}, {step}")
            shifted = scaled if first == 0 else self._write(f"add i64 {scaled}, {first}")
            return self._point(held.args[0], shifted)
        if held.op == "points" and node not in self.array:
            self.array[node] = self._global(held)
        kind = "i8" if held.is_bool else "double"
        at = self._write(f"getelementptr {kind}, ptr {self.array[node]}, i64 {point}")
        register = self._write(f"load {kind}, ptr {at}")
        return self._write(f"trunc i8 {register} to i1") if held.is_bool else register

    def _global(self, held: Node) -> str:
        values = np.frombuffer(held.held[0])
        name = f"@points{len(self.globals)}"
        text = ", ".join(f"double {number(value)}" for value in values)
        self.globals.append(f"{name} = private constant [{values.size} x double] [{text}]")
        return name

    def _input(self, held: Node, point: str | None) -> str:
        """Load an input; where it stands is read once, before the lanes."""
        k = held.held[0]
        if f"  %in{k} = load ptr, ptr %in{k}.at" not in self.entry:
            self.entry.append(f"  %in{k}.at = getelementptr ptr, ptr %in, i64 {k}")
            self.entry.append(f"  %in{k} = load ptr, ptr %in{k}.at")
            for which in range(3):
                at = 3 * int(k) + which
                name = f"%in{k}.s{which}"
                self.entry.append(f"  {name}.at = getelementptr i64, ptr %strides, i64 {at}")
                self.entry.append(f"  {name} = load i64, ptr {name}.at")
        by_lane = self._write(f"mul i64 %lane.i, %in{k}.s0")
        by_place = self._write(f"mul i64 %i, %in{k}.s1")
        index = self._write(f"add i64 {by_lane}, {by_place}")
        if point is not None:
            by_point = self._write(f"mul i64 {point}, %in{k}.s2")
            index = self._write(f"add i64 {index}, {by_point}")
        at_ = self._write(f"getelementptr double, ptr %in{k}, i64 {index}")
        return self._write(f"load double, ptr {at_}")

    def _table(self, k: int) -> str:
        name = f"%table{k}"
        if f"  {name} = load ptr, ptr {name}.at" not in self.entry:
            self.entry.append(f"  {name}.at = getelementptr ptr, ptr %tables, i64 {k}")
            self.entry.append(f"  {name} = load ptr, ptr {name}.at")
        return name
