"""The order in which a graph is computed: numbers, and loops over points between them.

Everything that one loop can hold goes into it: the operations on points of one length whose own
arguments stand in the same loop or are already there. What is needed outside its loop is stored.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from coldwright.tracing.graph import Graph, Node

# Made by looking at all points; known when the loop over them is over.
REDUCED = frozenset({"sum", "greatest", "first_greatest"})
# Carried from point to point: kept out of the loops that can run on whole vectors.
CARRIED = REDUCED | {"running_sum", "running_maximum"}
# Not computed at all: read where they are used.
READ = frozenset({"constant", "points", "input", "view"})
# Made of stored points, whole.
OF_STORED = frozenset({"pick", "pick_at", "joined"})


@dataclass(frozen=True)
class Numbers:
    """Nodes of one number each, in order; `joined` stands among them, a copy of points."""

    nodes: tuple[int, ...]


@dataclass(frozen=True)
class Loop:
    """Nodes computed point by point, and the reductions of them."""

    length: int
    nodes: tuple[int, ...]
    stored: frozenset[int]  # those that are read after the loop


Step = Numbers | Loop


def ordered(graph: Graph, ends: Sequence[int]) -> list[Step]:
    """Steps that compute `ends`."""
    return list(_Order(graph, ends).steps())


class _Order:
    """What is left to be computed."""

    def __init__(self, graph: Graph, ends: Sequence[int]) -> None:
        self.nodes = graph.nodes
        self.ends = frozenset(ends)
        self.left = graph.needed_for(list(ends))
        self.users: dict[int, list[int]] = {number: [] for number in self.left}
        for number in self.left:
            for arg in self.nodes[number].args:
                self.users[arg].append(number)
        self.done: set[int] = set()

    def steps(self) -> Iterator[Step]:
        """Numbers as far as they go, then the fullest loop, until nothing is left."""
        while self.left:
            numbers = self._numbers()
            if numbers:
                yield Numbers(numbers)
            if not self.left:
                return
            loop = self._fullest()
            self._finish(loop.nodes)
            yield loop

    def _numbers(self) -> tuple[int, ...]:
        found = []
        left = []
        for number in self.left:
            node = self.nodes[number]
            if self._is_number(node) and all(arg in self.done for arg in node.args):
                self.done.add(number)
                if node.op == "input" or node.op not in READ or not node.length:
                    found.append(number)
            else:
                left.append(number)
        self.left = left
        return tuple(found)

    @staticmethod
    def _is_number(node: Node) -> bool:
        """Whether it needs no loop (over all points of its arguments)."""
        return node.op in READ or node.op in OF_STORED or not (node.length or node.op in REDUCED)

    def _fullest(self) -> Loop:
        """The loop that can hold the most nodes now."""
        held: dict[tuple[int, bool], list[int]] = {}
        within: dict[int, set[int]] = {}
        for number in self.left:
            node = self.nodes[number]
            if self._is_number(node):
                continue
            length = self.nodes[node.args[0]].length if node.op in REDUCED else node.length
            carried = node.op in CARRIED
            inside: set[int] = set() if carried else within.setdefault(length, set())
            if all(arg in self.done or arg in inside for arg in node.args):
                held.setdefault((length, carried), []).append(number)
                inside.add(number)
        # What is carried waits until no other loop can be made: then it shares one with the rest.
        (length, _), nodes = max(held.items(), key=lambda each: (not each[0][1], len(each[1])))
        inside = set(nodes)
        stored = frozenset(
            number
            for number in nodes
            if self.nodes[number].op not in REDUCED
            and (number in self.ends or any(user not in inside for user in self.users[number]))
        )
        return Loop(length, tuple(nodes), stored)

    def _finish(self, nodes: Sequence[int]) -> None:
        self.done.update(nodes)
        finished = set(nodes)
        self.left = [number for number in self.left if number not in finished]
