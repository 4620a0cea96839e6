"""Refrigerant look-ups on lanes, and one by one, against CoolProp, one state after another.

CoolProp makes the tables of its own tabulated backend once, in some ten seconds, and keeps them in
its own folder.
"""

from __future__ import annotations

import timeit
from collections.abc import Callable, Iterator
from typing import Any

import numpy as np

from benchmarks.timing import Row, best_each, row
from coldwright.arrays import Array
from coldwright.fluids.refrigerants import refrigerant

# A batch of look-ups, a quarter of each kind.
KIND = 25_000
SINGLES = 2_000
# Label, backend, how many of each kind it does: the slow one is asked for a part of them.
BACKENDS = (
    ("CoolProp low level (HEOS)", "HEOS", 1_000),
    ("CoolProp tables (BICUBIC)", "BICUBIC&HEOS", KIND),
)

Kind = tuple[str, Callable[[], object], str, Array, Array]


def property_rows() -> Iterator[Row]:
    """Rows for each kind of look-up, for all together, and for single look-ups."""
    kinds = list(_kinds())
    times = [
        best_each(work, *(_one_after_another(*each, what, *given) for _, *each in BACKENDS))
        for what, work, *given in kinds
    ]
    for i, (label, _, done) in enumerate(BACKENDS):
        theirs = [each[1 + i] * KIND / done for each in times]
        for (what, *_), each, reference in zip(kinds, times, theirs, strict=True):
            yield row(f"{KIND} x {what}", each[0], label, reference)
        ours = sum(each[0] for each in times)
        yield row(f"{4 * KIND} look-ups, all four", ours, label, sum(theirs))
    yield from _single_rows()


def _kinds() -> Iterator[Kind]:
    """What, our look-ups on lanes, CoolProp's input pair and its two inputs in that order."""
    fluid = refrigerant("R152a")
    random = np.random.default_rng(1)
    temperature = random.uniform(235.0, 335.0, KIND)
    pressure = fluid.saturation_pressure(temperature)
    warm = temperature + random.uniform(1.0, 60.0, KIND)
    gas = fluid.vapour(pressure, warm)
    enthalpy, entropy = gas.enthalpy, gas.entropy

    def saturated() -> object:
        at = fluid.saturated(temperature)
        return at.pressure, at.vapour_enthalpy, at.vapour_density

    def by_temperature() -> object:
        at = fluid.vapour(pressure, warm)
        return at.enthalpy, at.density

    def by_enthalpy() -> object:
        at = fluid.vapour_at_enthalpy(pressure, enthalpy)
        return at.temperature, at.density

    def by_entropy() -> object:
        at = fluid.vapour_at_entropy(pressure, entropy)
        return at.temperature, at.enthalpy, at.density

    yield "saturation (T)", saturated, "QT_INPUTS", np.ones(KIND), temperature
    yield "vapour (p, T)", by_temperature, "PT_INPUTS", pressure, warm
    yield "vapour (p, h)", by_enthalpy, "HmassP_INPUTS", enthalpy, pressure
    yield "vapour (p, s)", by_entropy, "PSmass_INPUTS", pressure, entropy


def _one_after_another(
    backend: str, count: int, what: str, pair: str, one: Array, other: Array
) -> Callable[[], None]:
    """The same look-ups with CoolProp, the first `count` of them."""
    import CoolProp  # noqa: PLC0415 (slow to import)

    state: Any = CoolProp.AbstractState(backend, "R152A")
    inputs = getattr(CoolProp, pair)
    pairs = list(zip(one[:count].tolist(), other[:count].tolist(), strict=True))
    state.update(inputs, *pairs[0])  # makes or reads its tables, once
    wanted = {
        "saturation (T)": (state.p, state.hmass, state.rhomass),
        "vapour (p, T)": (state.hmass, state.rhomass),
        "vapour (p, h)": (state.T, state.rhomass),
        "vapour (p, s)": (state.T, state.hmass, state.rhomass),
    }[what]

    def work() -> None:
        for a, b in pairs:
            state.update(inputs, a, b)
            for read in wanted:
                read()

    return work


def _single_rows() -> Iterator[Row]:
    """One plain number in, against the low-level interface."""
    import CoolProp  # noqa: PLC0415 (slow to import)

    fluid = refrigerant("R152a")
    state = CoolProp.AbstractState("HEOS", "R152A")
    pressure = float(fluid.saturation_pressure(260.0))

    def read(inputs: int, a: float, b: float, wanted: Callable[[], float]) -> float:
        state.update(inputs, a, b)
        return wanted()

    singles: tuple[tuple[str, Callable[[], object], Callable[[], object]], ...] = (
        (
            "one saturation pressure",
            lambda: fluid.saturation_pressure(260.0),
            lambda: read(CoolProp.QT_INPUTS, 1.0, 260.0, state.p),
        ),
        (
            "one saturation temperature",
            lambda: fluid.saturation_temperature(pressure),
            lambda: read(CoolProp.PQ_INPUTS, pressure, 1.0, state.T),
        ),
        (
            "one vapour density (p, T)",
            lambda: fluid.vapour(pressure, 280.0).density,
            lambda: read(CoolProp.PT_INPUTS, pressure, 280.0, state.rhomass),
        ),
    )
    for what, ours, theirs in singles:
        times = [min(timeit.repeat(f, number=SINGLES, repeat=5)) / SINGLES for f in (ours, theirs)]
        yield row(what, times[0], BACKENDS[0][0], times[1])
