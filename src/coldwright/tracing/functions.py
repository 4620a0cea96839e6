"""NumPy's functions for stand-ins: each writes the nodes that compute it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, cast

import numpy as np

from coldwright.arrays import Array
from coldwright.tracing.graph import Graph
from coldwright.tracing.stand_in import ANSWERS_BOOL, ELEMENTWISE, LOGICAL, StandIn

Given = Any  # a stand-in, an array or a number
GREATEST_POWER = 4


def node_of(graph: Graph, value: Given) -> tuple[int, tuple[int, ...]]:
    """Node of a stand-in or of a constant, and the shape in each lane."""
    if isinstance(value, StandIn):
        return value.node, value.shape
    array = np.asarray(value)
    if array.ndim > 1:
        raise NotImplementedError(f"a constant of shape {array.shape} among stand-ins")
    if array.size == 1:
        return graph.constant(array.reshape(-1)[0]), array.shape
    return graph.points(array), array.shape


def graph_of(values: Sequence[Given]) -> Graph:
    """The graph that the stand-ins among `values` belong to."""
    return next(value.graph for value in values if isinstance(value, StandIn))


def common_shape(shapes: Sequence[tuple[int, ...]]) -> tuple[int, ...]:
    """Shape of all together in each lane."""
    return np.broadcast_shapes(*shapes)


def length_of(shape: tuple[int, ...]) -> int:
    """Length of a node of this shape: one point counts as a number."""
    return shape[0] if shape and shape[0] > 1 else 0


def combined(graph: Graph, op: str, given: Sequence[Given], *, is_bool: bool = False) -> StandIn:
    """The elementwise operation `op` of all of `given`."""
    found = [node_of(graph, value) for value in given]
    shape = common_shape([shape for _, shape in found])
    nodes = tuple(node for node, _ in found)
    return StandIn(graph, graph.add(op, nodes, (), length_of(shape), is_bool), shape)


def elementwise(graph: Graph, ufunc: Any, given: Sequence[Given]) -> Given:  # noqa: ANN401 (any of NumPy's)
    """What a ufunc makes of `given`."""
    if ufunc is np.power:
        return _power(graph, *given)
    if ufunc in COMPOSED:
        return COMPOSED[ufunc](*given)
    if ufunc not in ELEMENTWISE:
        raise NotImplementedError(f"numpy.{ufunc.__name__} of stand-ins")
    op = ELEMENTWISE[ufunc]
    if op in LOGICAL:
        given = [value if _is_bool(graph, value) else np.not_equal(value, 0.0) for value in given]
    return combined(graph, op, given, is_bool=op in ANSWERS_BOOL)


def _is_bool(graph: Graph, value: Given) -> bool:
    node, _ = node_of(graph, value)
    return graph.nodes[node].is_bool


def _power(graph: Graph, base: Given, exponent: Given) -> StandIn:
    """A power; small whole ones and quarters by multiplication and square root."""
    if isinstance(exponent, StandIn) or np.size(exponent) != 1:
        return combined(graph, "power", (base, exponent))
    power = float(np.reshape(exponent, -1)[0])
    quarters = round(4.0 * abs(power))
    if quarters == 0 or quarters > 4 * GREATEST_POWER or 4.0 * abs(power) != quarters:
        return combined(graph, "power", (base, power))
    whole, rest = divmod(quarters, 4)
    factors = [base] * whole
    if rest:
        root = np.sqrt(base)
        factors += [[np.sqrt(root)], [root], [root, np.sqrt(root)]][rest - 1]
    result: StandIn = factors[0]
    for factor in factors[1:]:
        result = result * factor
    return result if power > 0.0 else cast(StandIn, 1.0 / result)


def running(ufunc: Any, values: StandIn) -> StandIn:  # noqa: ANN401 (np.add or np.maximum)
    """Sum, or greatest, up to each point."""
    op = "running_sum" if ufunc is np.add else "running_maximum"
    node = values.graph.add(op, (values.node,), (), length_of(values.shape))
    return StandIn(values.graph, node, values.shape)


def part_of(values: StandIn, which: Any) -> StandIn:  # noqa: ANN401 (NumPy's ways of indexing)
    """One point or a run of them; or the same with an axis more or less."""
    keys = which if isinstance(which, tuple) else (which,)
    keys = tuple(key for key in keys if key is not Ellipsis)
    if all(key is None for key in keys):
        if values.shape and keys:
            raise NotImplementedError("a second axis of stand-ins")
        return StandIn(values.graph, values.node, (1,) * len(keys) or values.shape)
    if len(keys) != 1 or not values.shape:
        raise NotImplementedError(f"index {which} of stand-ins")
    key, length = keys[0], values.shape[0]
    if isinstance(key, slice):
        first, _, step = key.indices(length)
        count = len(range(*key.indices(length)))
        return _view(values, first, step, count)
    at = int(key) % length
    if not length_of(values.shape):
        return StandIn(values.graph, values.node)
    node = values.graph.add("pick", (values.node,), (at,), 0, _is_bool(values.graph, values))
    return StandIn(values.graph, node)


def _view(values: StandIn, first: int, step: int, count: int) -> StandIn:
    if not length_of(values.shape):
        return values
    graph = values.graph
    if count == 1:
        return StandIn(graph, graph.add("pick", (values.node,), (first,)), (1,))
    node = graph.add("view", (values.node,), (first, step), count, graph.nodes[values.node].is_bool)
    return StandIn(graph, node, (count,))


def _where(condition: Given, one: Given, other: Given) -> StandIn:
    graph = graph_of((condition, one, other))
    is_bool = _is_bool(graph, one) and _is_bool(graph, other)
    return combined(graph, "where", (condition, one, other), is_bool=is_bool)


def _clip(values: Given, least: Given, most: Given) -> Given:
    if least is not None:
        values = np.maximum(values, least)
    return values if most is None else np.minimum(values, most)


def _sum(values: StandIn, axis: int | None = None) -> StandIn:
    return _reduced("sum", values, axis)


def _max(values: StandIn, axis: int | None = None) -> StandIn:
    return _reduced("greatest", values, axis)


def _argmax(values: StandIn, axis: int | None = None) -> StandIn:
    return _reduced("first_greatest", values, axis)


def _reduced(op: str, values: StandIn, axis: int | None) -> StandIn:
    """One number of all points."""
    if axis not in (None, 0, -1) or not length_of(values.shape):
        raise NotImplementedError(f"{op} of stand-ins of shape {values.shape} along {axis}")
    return StandIn(values.graph, values.graph.add(op, (values.node,)))


def _cumsum(values: StandIn, axis: int | None = None) -> StandIn:
    if axis not in (None, 0):
        raise NotImplementedError(f"cumsum of stand-ins along {axis}")
    return running(np.add, values)


def _concatenate(parts: Sequence[Given], axis: int = 0) -> StandIn:
    if axis != 0:
        raise NotImplementedError("stand-ins joined along another axis")
    graph = graph_of(parts)
    found = [node_of(graph, part) for part in parts]
    count = sum(shape[0] for _, shape in found)
    node = graph.add("joined", tuple(node for node, _ in found), (), count)
    return StandIn(graph, node, (count,))


def _stack(parts: Sequence[Given], axis: int = 0) -> StandIn:
    if axis not in (0, -1) or any(np.shape(part) for part in parts):
        raise NotImplementedError("stand-ins of several points stacked")
    return _concatenate([part[None] for part in map(_as_stand_in(parts), parts)])


def _as_stand_in(parts: Sequence[Given]) -> Callable[[Given], StandIn]:
    graph = graph_of(parts)

    def made(value: Given) -> StandIn:
        return StandIn(graph, *node_of(graph, value))

    return made


def _broadcast_arrays(*given: Given) -> tuple[Given, ...]:
    shape = common_shape([np.shape(value) for value in given])
    return tuple(_broadcast_to(value, shape) for value in given)


def _broadcast_to(value: Given, shape: Any) -> Given:  # noqa: ANN401 (as NumPy's)
    wanted = tuple(np.atleast_1d(shape).astype(int)) if np.size(shape) else ()
    if not isinstance(value, StandIn):
        return np.broadcast_to(value, wanted)
    if value.shape == wanted:
        return value
    if length_of(value.shape) == length_of(wanted) or not length_of(value.shape):
        # A number stands for as many points as are asked for.
        node = value.node
        if length_of(wanted):
            zeros = value.graph.points(np.zeros(wanted[0]))
            node = value.graph.add("add", (node, zeros), (), wanted[0])
        return StandIn(value.graph, node, wanted)
    raise NotImplementedError(f"stand-in of {value.shape} as {wanted}")


def _take_along_axis(values: StandIn, index: StandIn, axis: int = 0) -> StandIn:
    if axis != 0 or length_of(index.shape):
        raise NotImplementedError("several points picked at once")
    node = values.graph.add("pick_at", (values.node, index.node))
    return StandIn(values.graph, node, index.shape)


def _interp(at: StandIn, places: Array, values: Array) -> StandIn:
    """Straight lines through fixed points, held at the ends."""
    graph = at.graph
    x, y = (np.ascontiguousarray(a, dtype=np.float64) for a in (places, values))
    table = graph.table(_kept((x.tobytes(), y.tobytes()), np.concatenate([x, y])))
    node = graph.add("interpolated", (at.node,), (table, x.size), length_of(at.shape))
    return StandIn(graph, node, at.shape)


_tables: dict[Any, Array] = {}


def _kept(key: Any, table: Array) -> Array:  # noqa: ANN401 (any hashable key)
    """One array for all tables of the same content: graphs know tables by identity."""
    return _tables.setdefault(key, table)


def _like(value: float) -> Callable[..., Array]:
    return lambda model, *_, **__: np.full(model.shape, value)


COMPOSED: dict[Any, Callable[..., Given]] = {
    np.square: lambda x: x * x,
    np.hypot: lambda a, b: np.sqrt(a * a + b * b),
    np.logaddexp: lambda a, b: np.maximum(a, b) + np.log1p(np.exp(-np.abs(a - b))),
    np.sign: lambda x: np.where(x > 0.0, 1.0, np.where(x < 0.0, -1.0, 0.0)),
    np.isfinite: lambda x: np.abs(x) < np.inf,
    np.cbrt: lambda x: np.sign(x) * np.abs(x) ** (1.0 / 3.0),
    np.conjugate: lambda x: x,
}
FUNCTIONS: dict[Any, Callable[..., Given]] = {
    np.where: _where,
    np.clip: _clip,
    np.sum: _sum,
    np.max: _max,
    np.argmax: _argmax,
    np.cumsum: _cumsum,
    np.concatenate: _concatenate,
    np.stack: _stack,
    np.broadcast_arrays: _broadcast_arrays,
    np.broadcast_to: _broadcast_to,
    np.take_along_axis: _take_along_axis,
    np.interp: _interp,
    np.diff: lambda values, axis=0: values[1:] - values[:-1],  # noqa: ARG005 (NumPy's signature)
    np.shape: lambda value: value.shape,
    np.ndim: lambda value: value.ndim,
    np.zeros_like: _like(0.0),
    np.ones_like: _like(1.0),
}
