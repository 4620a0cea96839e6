"""Refrigerant look-ups on lanes against CoolProp's low-level interface, one state after another."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from benchmarks.timing import Row, best, row
from coldwright.fluids.refrigerants import refrigerant

STATES = 20_000


def property_rows() -> Iterator[Row]:
    """Rows for saturation and for superheated vapour."""
    import CoolProp  # noqa: PLC0415 (slow to import)
    from CoolProp import AbstractState  # noqa: PLC0415

    fluid = refrigerant("R152a")
    state = AbstractState("HEOS", "R152A")
    random = np.random.default_rng(1)
    temperature = random.uniform(235.0, 335.0, STATES)
    pressure = fluid.saturation_pressure(temperature)
    warm = temperature + random.uniform(1.0, 60.0, STATES)

    def saturation() -> None:
        for each in temperature:
            state.update(CoolProp.QT_INPUTS, 1.0, each)
            state.p(), state.hmass(), state.rhomass()

    def vapour() -> None:
        for p, t in zip(pressure, warm, strict=True):
            state.update(CoolProp.PT_INPUTS, p, t)
            state.hmass(), state.smass(), state.rhomass()

    label = f"CoolProp, default backend, {STATES} states"
    yield row(
        f"saturation on {STATES} lanes",
        best(lambda: fluid.saturated(temperature)),
        label,
        best(saturation),
    )
    yield row(
        f"vapour on {STATES} lanes",
        best(lambda: fluid.vapour(pressure, warm)),
        label,
        best(vapour),
    )
