"""LLVM's intermediate language for a graph: one function that computes it lane after lane.

    kernel(first, last, n, lane, inputs, strides, tables, outputs)

`lane[i]` is the lane that place i asks for. Input k stands at `inputs[k]`, and its strides, in
numbers, at `strides[3 k]` (by lane), `[3 k + 1]` (by place) and `[3 k + 2]` (by point). Output k is
written at place i, its points n apart; places from `first` up to `last` are computed.
"""

from __future__ import annotations

from collections.abc import Sequence

from coldwright.tracing.elementary import definitions, number
from coldwright.tracing.graph import Graph, Node
from coldwright.tracing.operations import CALLS, Operations
from coldwright.tracing.order import REDUCED, Loop, Numbers, ordered

HEAD = (
    "define void @kernel(i64 %first, i64 %last.place, i64 %n, "
    "ptr %lane, ptr %in, ptr %strides, ptr %tables, ptr %out)"
    ' "prefer-vector-width"="512" {'
)
MINUS_INFINITY = float("-inf")


def code_of(graph: Graph, ends: Sequence[int]) -> str:
    """The module's text; output k is the node `ends[k]`."""
    return _Writer(graph, ends).module()


class _Writer(Operations):
    """Writes the function step by step."""

    def __init__(self, graph: Graph, ends: Sequence[int]) -> None:
        super().__init__(graph)
        self.ends = ends

    def module(self) -> str:
        """All of it."""
        for step in ordered(self.graph, self.ends):
            if isinstance(step, Numbers):
                for each in step.nodes:
                    self._number(each)
            else:
                self._loop(step)
        for place, end in enumerate(self.ends):
            self._output(place, end)
        written = "\n".join(self.lines)
        declared = sorted(name for name in CALLS.values() if f"@{name}(" in written)
        return "\n".join(
            [
                *self.globals,
                *definitions(),
                *(self._declaration(name) for name in declared),
                HEAD,
                "entry:",
                *self.entry,
                "  br label %lanes",
                "lanes:",
                "  %i = phi i64 [%first, %entry], [%i.next, %last]",
                "  %done = icmp sge i64 %i, %last.place",
                "  br i1 %done, label %leave, label %body",
                "body:",
                "  %lane.at = getelementptr i64, ptr %lane, i64 %i",
                "  %lane.i = load i64, ptr %lane.at",
                *self.lines,
                "  br label %last",
                "last:",
                "  %i.next = add i64 %i, 1",
                "  br label %lanes",
                "leave:",
                "  ret void",
                "}",
            ]
        )

    @staticmethod
    def _declaration(name: str) -> str:
        two = ", double" if name == "pow" else ""
        return f"declare double @{name}(double{two}) memory(none) nounwind willreturn"

    def _number(self, node: int) -> None:
        """One number of the lane, or points copied together."""
        held = self.graph.nodes[node]
        if held.op == "input" and held.length:
            self._copied(node, held)
        elif held.op in ("constant", "input"):
            self._read(node, None)
        elif held.op == "pick":
            self.value[node] = self._point(held.args[0], str(held.held[0]))
        elif held.op == "pick_at":
            at = self._read(held.args[1], None)
            index = self._write(f"fptosi double {at} to i64")
            self.value[node] = self._point(held.args[0], index)
        elif held.op == "joined":
            self._joined(node, held)
        else:
            self.value[node] = self._computed(node, None)

    def _room(self, length: int, *, is_bool: bool) -> str:
        """Room for points, made once for all lanes."""
        register = self._new()
        self.entry.append(f"  {register} = alloca [{length} x {'i8' if is_bool else 'double'}]")
        return register

    def _open(self) -> tuple[str, str]:
        """Begin a loop; returns its label and the register of the point."""
        label = f"loop{self.count}"
        self.count += 1
        point = f"%{label}.p"
        self.lines += [
            f"  br label %{label}",
            f"{label}:",
            f"  {point} = phi i64 [0, %{self.block}], [{point}.next, %{label}]",
        ]
        return label, point

    def _close(self, label: str, point: str, length: int) -> None:
        self.lines += [
            f"  {point}.next = add i64 {point}, 1",
            f"  {point}.more = icmp slt i64 {point}.next, {length}",
            f"  br i1 {point}.more, label %{label}, label %{label}.end",
            f"{label}.end:",
        ]
        self.block = f"{label}.end"

    def _loop(self, loop: Loop) -> None:
        nodes = self.graph.nodes
        for each in loop.nodes:  # numbers from outside are loaded before the loop
            for arg in nodes[each].args:
                if not nodes[arg].length and nodes[arg].op == "input":
                    self._read(arg, None)
        gathered = {each: self._accumulator(nodes[each].op) for each in loop.nodes}
        for each in loop.stored:
            self.array[each] = self._room(loop.length, is_bool=nodes[each].is_bool)
        label, point = self._open()
        for each in loop.nodes:
            if gathered[each]:
                self._gather(each, gathered[each], point)
            else:
                self.value[each] = self._computed(each, point)
            if each in loop.stored:
                self._store(each, self.value[each], self.array[each], point)
        self._close(label, point, loop.length)
        for each in loop.nodes:
            self.value.pop(each, None)
            if nodes[each].op in REDUCED:
                self.value[each] = self._write(f"load double, ptr {gathered[each][0]}")

    def _store(self, node: int, register: str, array: str, point: str) -> None:
        kind = "i8" if self.graph.nodes[node].is_bool else "double"
        at = self._write(f"getelementptr {kind}, ptr {array}, i64 {point}")
        if kind == "i8":
            register = self._write(f"zext i1 {register} to i8")
        self.lines.append(f"  store {kind} {register}, ptr {at}")

    def _accumulator(self, op: str) -> tuple[str, ...]:
        """Room for what a sum or a greatest has come to, with its start."""
        starts = {
            "sum": (0.0,),
            "running_sum": (0.0,),
            "greatest": (MINUS_INFINITY,),
            "running_maximum": (MINUS_INFINITY,),
            "first_greatest": (0.0, MINUS_INFINITY),
        }.get(op, ())
        rooms = []
        for start in starts:
            register = self._new()
            self.entry.append(f"  {register} = alloca double")
            self.lines.append(f"  store double {number(start)}, ptr {register}")
            rooms.append(register)
        return tuple(rooms)

    def _gather(self, node: int, rooms: tuple[str, ...], point: str) -> None:
        """One point more in a sum or a greatest."""
        held = self.graph.nodes[node]
        fresh = self._float(held.args[0], point)
        so_far = self._write(f"load double, ptr {rooms[-1]}")
        if held.op in ("sum", "running_sum"):
            result = self._write(f"fadd double {so_far}, {fresh}")
        else:
            more = self._write(f"fcmp ogt double {fresh}, {so_far}")
            result = self._write(f"select i1 {more}, double {fresh}, double {so_far}")
            if held.op == "first_greatest":
                place = self._write(f"sitofp i64 {point} to double")
                before = self._write(f"load double, ptr {rooms[0]}")
                place = self._write(f"select i1 {more}, double {place}, double {before}")
                self.lines.append(f"  store double {place}, ptr {rooms[0]}")
        self.lines.append(f"  store double {result}, ptr {rooms[-1]}")
        self.value[node] = result

    def _copied(self, node: int, held: Node) -> None:
        """An input's points, brought together: apart, they would keep loops from whole vectors."""
        self.array[node] = self._room(held.length, is_bool=False)
        label, point = self._open()
        self._store(node, self._input(held, point), self.array[node], point)
        self._close(label, point, held.length)

    def _joined(self, node: int, held: Node) -> None:
        """Points of several nodes one behind the other."""
        self.array[node] = self._room(held.length, is_bool=False)
        first = 0
        for arg in held.args:
            length = self.graph.nodes[arg].length
            if not length:
                self._store(node, self._float(arg, None), self.array[node], str(first))
                first += 1
                continue
            label, point = self._open()
            register = self._point(arg, point)
            shifted = self._write(f"add i64 {point}, {first}")
            self._store(node, register, self.array[node], shifted)
            self._close(label, point, length)
            first += length

    def _output(self, place: int, end: int) -> None:
        held = self.graph.nodes[end]
        out = f"%out{place}"
        self.entry.append(f"  {out}.at = getelementptr ptr, ptr %out, i64 {place}")
        self.entry.append(f"  {out} = load ptr, ptr {out}.at")
        if not held.length:
            register = self._float(end, None)
            at = self._write(f"getelementptr double, ptr {out}, i64 %i")
            self.lines.append(f"  store double {register}, ptr {at}")
            return
        label, point = self._open()
        register = self._point(end, point)
        row = self._write(f"mul i64 {point}, %n")
        index = self._write(f"add i64 {row}, %i")
        at = self._write(f"getelementptr double, ptr {out}, i64 {index}")
        self.lines.append(f"  store double {register}, ptr {at}")
        self._close(label, point, held.length)
