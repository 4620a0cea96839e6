"""A stand-in for a lane's numbers: computing with it writes down what is computed.

A function over NumPy arrays, called with stand-ins for the arrays of its lanes, runs as ever; its
NumPy operations come here (NumPy enhancement proposals 13 and 18) and become nodes of a `Graph`.
A stand-in shows the shape of one lane: () for a number, (k,) for k points along a first axis.
"""

from __future__ import annotations

from typing import Any, NoReturn, cast

import numpy as np
from numpy.lib.mixins import NDArrayOperatorsMixin

from coldwright.tracing.graph import Graph

# How NumPy's elementwise operations are called in the graph.
ELEMENTWISE: dict[Any, str] = {
    np.add: "add",
    np.subtract: "subtract",
    np.multiply: "multiply",
    np.divide: "divide",
    np.maximum: "maximum",
    np.minimum: "minimum",
    np.negative: "negative",
    np.absolute: "absolute",
    np.fabs: "absolute",
    np.sqrt: "sqrt",
    np.exp: "exp",
    np.expm1: "expm1",
    np.log: "log",
    np.log1p: "log1p",
    np.log10: "log10",
    np.tanh: "tanh",
    np.arctan: "arctan",
    np.arccos: "arccos",
    np.arcsin: "arcsin",
    np.sin: "sin",
    np.cos: "cos",
    np.floor: "floor",
    np.trunc: "truncate",
    np.less: "less",
    np.less_equal: "less_equal",
    np.greater: "greater",
    np.greater_equal: "greater_equal",
    np.equal: "equal",
    np.not_equal: "not_equal",
    np.logical_and: "and",
    np.bitwise_and: "and",
    np.logical_or: "or",
    np.bitwise_or: "or",
    np.logical_not: "not",
    np.invert: "not",
}
ANSWERS_BOOL = frozenset(
    ["less", "less_equal", "greater", "greater_equal", "equal", "not_equal", "and", "or", "not"]
)
LOGICAL = frozenset(["and", "or", "not"])


class StandIn(NDArrayOperatorsMixin):
    """One value of every lane, of `shape` in each."""

    __slots__ = ("graph", "node", "shape")
    # Read by `arrays.lanes`: there is no array behind it to convert.
    stands_for_lanes = True
    __hash__ = None  # type: ignore[assignment]  # as an array, it equals nothing as a whole

    def __init__(self, graph: Graph, node: int, shape: tuple[int, ...] = ()) -> None:
        self.graph = graph
        self.node = node
        self.shape = shape

    @property
    def ndim(self) -> int:
        """Axes in each lane."""
        return len(self.shape)

    @property
    def dtype(self) -> np.dtype[Any]:
        """Of its numbers."""
        return np.dtype(bool if self.graph.nodes[self.node].is_bool else float)

    def __len__(self) -> int:
        return self.shape[0]

    def __bool__(self) -> NoReturn:
        raise TypeError("a lane's value is not known while its operations are written down")

    def __array__(self, *_: object, **__: object) -> NoReturn:
        raise TypeError("a lane's value has no array: use coldwright.arrays.lanes")

    def __float__(self) -> NoReturn:
        raise TypeError("a lane's value is not known while its operations are written down")

    def __repr__(self) -> str:
        return f"StandIn({self.graph.nodes[self.node].op}, {self.shape})"

    def __array_ufunc__(self, ufunc: Any, method: str, *given: Any, **how: Any) -> Any:  # noqa: ANN401 (NumPy's protocol)
        from coldwright.tracing import functions  # noqa: PLC0415 (they stand above)

        how.pop("out", None)
        if method == "__call__" and not how:
            return functions.elementwise(self.graph, ufunc, given)
        if method == "accumulate" and ufunc in (np.maximum, np.add):
            return functions.running(ufunc, given[0])
        raise NotImplementedError(f"{ufunc.__name__}.{method} of stand-ins")

    def __array_function__(self, function: Any, _: Any, given: Any, how: Any) -> Any:  # noqa: ANN401 (NumPy's protocol)
        from coldwright.tracing import functions  # noqa: PLC0415 (they stand above)

        if function not in functions.FUNCTIONS:
            raise NotImplementedError(f"numpy.{function.__name__} of stand-ins")
        return functions.FUNCTIONS[function](*given, **how)

    def __getitem__(self, which: Any) -> StandIn:  # noqa: ANN401 (NumPy's ways of indexing)
        from coldwright.tracing import functions  # noqa: PLC0415 (they stand above)

        return functions.part_of(self, which)

    def reshape(self, *shape: Any) -> StandIn:  # noqa: ANN401 (as NumPy's)
        """The same points; only shapes that leave them in one row."""
        wanted = shape[0] if len(shape) == 1 and isinstance(shape[0], tuple) else shape
        if [n for n in wanted if n != 1] in ([-1], [len(self)] if self.shape else []):
            return self
        raise NotImplementedError(f"reshape of {self.shape} to {wanted}")

    def mean(self, axis: int | None = None) -> StandIn:
        """Mean of the points."""
        total: StandIn = cast(Any, np.sum)(self, axis=axis)
        return cast(StandIn, total / float(self.shape[0]))

    def astype(self, kind: Any) -> StandIn:  # noqa: ANN401 (as NumPy's)
        """Whole numbers toward zero for a kind of integer; a float stays."""
        if np.issubdtype(kind, np.integer):
            return cast(StandIn, np.trunc(cast(Any, self)))
        if np.issubdtype(kind, np.floating):
            return self
        raise NotImplementedError(f"astype {kind} of stand-ins")


def stand_in(value: object) -> StandIn | None:
    """The value where it is a stand-in."""
    return value if isinstance(value, StandIn) else None
