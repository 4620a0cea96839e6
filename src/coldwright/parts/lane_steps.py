"""One step of a state, taken again and again, compiled once it has earned it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

from coldwright.arrays import Array
from coldwright.parts.lane_tools import flat_lanes, has_no_lanes
from coldwright.tracing.earned import Use
from coldwright.tracing.kernel import Inputs
from coldwright.tracing.parts import arrays_in

# Work of a step of plain NumPy, about in seconds.
STEP_WORK = 7e-4


class LaneSteps:
    """`step(parts, held, state)` as a function of the state's rows alone; lanes behind the rows."""

    def __init__(self, step: Callable[[Any, Array, Array], Array], parts: object, held: Array):
        self._step, self._parts, self._held = step, parts, held
        arrays = arrays_in((parts, held), has_no_lanes)
        self._shape = np.broadcast_shapes(*(np.shape(array) for array in arrays))
        self._use: Use | None = None
        self._inputs: Inputs | None = None

    def __call__(self, state: Array) -> Array:
        """The state after one step."""
        shape = state.shape[1:]
        if shape != self._shape:  # a first guess, of fewer lanes than the parts
            return self._step(self._parts, self._held, state)
        rows = np.ascontiguousarray(state).reshape(len(state), -1)
        if self._use is None:
            self._flat = flat_lanes((self._parts, self._held), shape)
            self._use = Use(self._step, (*self._flat, rows), has_no_lanes, call_work=STEP_WORK)
        kernel = self._use.kernel(rows.shape[1])
        if kernel is None:
            return self._step(self._parts, self._held, state)
        if self._inputs is None:
            self._inputs = Inputs((*self._flat, rows), has_no_lanes)
        self._inputs.by_lane(-1, rows)
        found: Array = kernel(self._inputs, np.arange(rows.shape[1]))
        return found.reshape(len(found), *shape)
