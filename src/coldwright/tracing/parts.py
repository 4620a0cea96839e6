"""Nested dataclasses and tuples as the arrays that are in them."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator
from dataclasses import fields, is_dataclass
from typing import Any, cast

import numpy as np

from coldwright.tracing.stand_in import StandIn

Parts = Any  # nested dataclasses and tuples; their arrays are of lanes
Whole = Callable[
    [type], bool
]  # whether parts of a type are kept whole: nothing in them is of lanes


def arrays_in(part: Parts, whole: Whole) -> list[Any]:
    """Every array of a part and of the parts in it, in a fixed order."""
    found: list[Any] = []
    _gather(part, whole, found)
    return found


def _gather(part: Parts, whole: Whole, found: list[Any]) -> None:
    if isinstance(part, np.ndarray | np.generic | StandIn):
        found.append(part)
    elif isinstance(part, tuple):
        for entry in part:
            _gather(entry, whole, found)
    else:
        for name in names_in(type(part), whole):
            _gather(getattr(part, name), whole, found)


def with_arrays(part: Parts, fresh: Iterator[Any], whole: Whole) -> Parts:
    """The same part with its arrays replaced, in the order of `arrays_in`."""
    if isinstance(part, np.ndarray | np.generic | StandIn):
        return next(fresh)
    if isinstance(part, tuple):
        return tuple(with_arrays(entry, fresh, whole) for entry in part)
    names = names_in(type(part), whole)
    if not names:
        return part
    return type(part)(**{name: with_arrays(getattr(part, name), fresh, whole) for name in names})


def structure_of(part: Parts, whole: Whole) -> Hashable:
    """What decides the operations on a part: everything but the numbers in its arrays."""
    if isinstance(part, np.ndarray | np.generic):
        return part.ndim - 1 if part.ndim > 1 else 0
    if isinstance(part, tuple):
        return tuple([structure_of(entry, whole) for entry in part])
    names = names_in(type(part), whole)
    if names:
        return (type(part), *[structure_of(getattr(part, name), whole) for name in names])
    try:
        hash(part)
    except TypeError:
        return id(part)
    return cast(Hashable, part)


def names_in(kind: type[Any], whole: Whole) -> tuple[str, ...]:
    """Names of the parts in a part of this type; none where it is kept whole or has none."""
    known = _names.get((kind, whole))
    if known is None:
        has_parts = is_dataclass(kind) and not whole(kind)
        known = tuple(each.name for each in fields(kind)) if has_parts else ()
        _names[kind, whole] = known
    return known


_names: dict[tuple[type[Any], Whole], tuple[str, ...]] = {}
