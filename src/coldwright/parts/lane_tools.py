"""Select and lay out the lanes of nested parts, so that finished lanes can be left alone."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar, cast

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array
from coldwright.tracing.parts import arrays_in, with_arrays

T = TypeVar("T")


def take_lanes(part: T, wanted: NDArray[np.intp], count: int) -> T:
    """The same part with only the `wanted` of `count` lanes; what has no lanes is kept."""
    return _each_array(part, lambda a: a[wanted] if a.shape == (count,) else a)


def flat_lanes(part: T, shape: tuple[int, ...]) -> T:
    """The same part with every array broadcast to `shape` and laid out flat; scalars are kept."""
    return _each_array(
        part, lambda a: a if a.ndim == 0 else np.broadcast_to(a, shape).reshape(-1).copy()
    )


def shaped_lanes(part: T, shape: tuple[int, ...]) -> T:
    """Undo `flat_lanes` on a result: flat arrays get `shape` back as their last axes."""
    count = int(np.prod(shape))

    def back(a: Array) -> Array:
        if a.ndim and a.shape[-1] == count:
            return a.reshape((*a.shape[:-1], *shape))
        return np.broadcast_to(a, shape)

    return _each_array(part, back)


def joined_lanes(parts: Sequence[T]) -> T:
    """Results of one structure one behind the other; each with its lanes along the last axis."""
    if len(parts) == 1:
        return parts[0]
    arrays = zip(*(arrays_in(part, has_no_lanes) for part in parts), strict=True)
    whole = iter([np.concatenate(each, axis=-1) for each in arrays])
    return cast(T, with_arrays(parts[0], whole, has_no_lanes))


def take_first_axis(part: T, index: int) -> T:
    """One entry of the axis before the lanes of every array of a result."""
    return _each_array(part, lambda a: a[..., index, :] if a.ndim > 1 else a)


def stack_lanes(parts: Sequence[T]) -> T:
    """Parts of one structure as the lanes of one part; what is no array is the first's."""
    first = parts[0]
    if isinstance(first, np.ndarray | np.generic):
        return cast(T, np.stack(np.broadcast_arrays(*cast(Sequence[Array], parts)), axis=-1))
    if isinstance(first, tuple):
        entries = zip(*cast(Sequence[tuple[Any, ...]], parts), strict=True)
        return cast(T, tuple(stack_lanes(entry) for entry in entries))
    if not is_dataclass(first) or has_no_lanes(type(first)):
        return first
    stacked = {
        f.name: stack_lanes([getattr(part, f.name) for part in parts]) for f in fields(first)
    }
    return cast(T, replace(cast(Any, first), **stacked))


def has_no_lanes(kind: type) -> bool:
    """Whether nothing in parts of a type is of lanes: fluids are none, their states are."""
    home = kind.__module__
    return home.startswith("coldwright.fluids") and not home.endswith("_states")


def _each_array(part: T, change: Callable[[Array], Array]) -> T:
    """Apply `change` to every array of a part and of the parts in it; fluids have no lanes."""
    arrays = arrays_in(part, has_no_lanes)
    return cast(T, with_arrays(part, iter([change(np.asarray(a)) for a in arrays]), has_no_lanes))
