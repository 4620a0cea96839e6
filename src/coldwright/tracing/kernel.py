"""A function over lanes of nested parts, compiled: the same results, many times as fast."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array
from coldwright.tracing.code import code_of
from coldwright.tracing.graph import Graph
from coldwright.tracing.machine_code import MachineCode
from coldwright.tracing.parts import Parts, Whole, arrays_in, with_arrays
from coldwright.tracing.shares import in_shares
from coldwright.tracing.stand_in import StandIn


class Kernel:
    """A function of parts, compiled for one structure of them."""

    def __init__(self, function: Callable[..., Parts], parts: tuple[Parts, ...], whole: Whole):
        graph = Graph()
        self._example = parts  # kept, so that what is known by its identity stays
        self.points: list[int] = []
        stand_ins = []
        for array in arrays_in(parts, whole):
            length = array.shape[0] if np.ndim(array) > 1 else 0
            self.points.append(length)
            shape = (length,) if length else ()
            stand_ins.append(StandIn(graph, graph.input(length), shape))
        result = function(*with_arrays(parts, iter(stand_ins), whole))
        self._result, self._whole = result, whole
        self._held = arrays_in(result, whole)
        ends = [each.node for each in self._held if isinstance(each, StandIn)]
        self._text = code_of(graph, ends)
        self._code: MachineCode | None = None
        self._tables = graph.tables
        self._table_pointers = _pointers(graph.tables)
        self._lengths = [graph.nodes[node].length for node in ends]
        self._bools = [graph.nodes[node].is_bool for node in ends]

    def make(self) -> MachineCode:
        """Compile it, or load its code from disk, where that is not done yet."""
        if self._code is None:
            self._code, self._text = MachineCode(self._text), ""
        return self._code

    def __call__(self, inputs: Inputs, lane: NDArray[np.int64]) -> Parts:
        """The function's result for the lanes `lane`, in that order."""
        code = self.make()
        count = lane.size
        made = [np.empty((length, count) if length else count) for length in self._lengths]
        out = _pointers(made)
        rest = (
            count,
            address(lane),
            inputs.pointers_at,
            inputs.strides_at,
            address(self._table_pointers),
            address(out),
        )
        in_shares(lambda first, last: code.function(first, last, *rest), count)
        found = (a != 0.0 if is_bool else a for a, is_bool in zip(made, self._bools, strict=True))
        every = (next(found) if isinstance(each, StandIn) else each for each in self._held)
        return with_arrays(self._result, every, self._whole)


class Inputs:
    """The arrays of parts where a kernel finds them.

    An array has its lanes along the last axis, asked for by lane, or no axis: the same for all.
    """

    def __init__(self, parts: tuple[Parts, ...], whole: Whole) -> None:
        self._held = [np.asarray(array, dtype=np.float64) for array in arrays_in(parts, whole)]
        self._pointers = _pointers(self._held)
        self._strides = np.zeros((len(self._held), 3), dtype=np.int64)
        for k, array in enumerate(self._held):
            if array.ndim:
                self._strides[k, 0] = array.strides[-1] // array.itemsize
            if array.ndim > 1:
                self._strides[k, 2] = array.strides[0] // array.itemsize
        self.pointers_at, self.strides_at = address(self._pointers), address(self._strides)

    def by_place(self, first: int, *arrays: Array) -> None:
        """Let inputs from `first` on be given by place: entry i belongs to the i-th lane asked."""
        for k, array in enumerate(arrays, start=first % len(self._held)):
            self._held[k] = array
            self._place(k, array, by_place=True)

    def by_lane(self, first: int, *arrays: Array) -> None:
        """Other arrays for the inputs from `first` on, asked for by lane as before."""
        for k, array in enumerate(arrays, start=first % len(self._held)):
            self._held[k] = array
            self._place(k, array, by_place=False)

    def _place(self, k: int, array: Array, *, by_place: bool) -> None:
        self._pointers[k] = address(array)
        along = array.strides[-1] // array.itemsize if array.ndim else 0
        by_point = array.strides[0] // array.itemsize if array.ndim > 1 else 0
        self._strides[k] = (0, along, by_point) if by_place else (along, 0, by_point)


def address(array: NDArray[Any]) -> int:
    """Where an array's numbers stand."""
    return int(array.__array_interface__["data"][0])


def _pointers(arrays: list[Array]) -> NDArray[np.uintp]:
    """Where arrays stand."""
    return np.array([address(array) for array in arrays] or [0], dtype=np.uintp)
