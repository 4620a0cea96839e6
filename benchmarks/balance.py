"""Lanes of one call against the same work one after another: evaluations and balances."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import numpy as np

from benchmarks.timing import Row, best, row
from coldwright.build import loads, starter_text
from coldwright.build.translation.plant import translate
from coldwright.plant.balance import settle
from coldwright.plant.box import Room, conditions
from coldwright.plant.charge_rule import FixedCharge
from coldwright.plant.evaluation import Unknowns, evaluate

LANES = 24
EVALUATED = (6, 400)


def balance_rows() -> Iterator[Row]:
    """The larder's machine at many brine temperatures: evaluated once, and settled."""
    yield from _evaluation_rows()
    found = translate(loads(starter_text("larder")))
    source = np.linspace(258.15, 293.15, LANES)
    charge = 0.035

    def at_once() -> None:
        room = Room(*(np.broadcast_to(a, source.shape) for a in vars(found.room).values()))
        settle(
            found.plant.system,
            conditions(room, source),
            FixedCharge(np.full(source.shape, charge)),
        )

    def one_by_one() -> None:
        for each in source:
            settle(
                found.plant.system,
                conditions(found.room, np.asarray(each)),
                FixedCharge(np.asarray(charge)),
            )

    yield row(f"{LANES} balances as lanes", best(at_once), "the same, one by one", best(one_by_one))


def _evaluation_rows() -> Iterator[Row]:
    """All equations evaluated once on a few and on many lanes, against lane after lane."""
    found = translate(loads(starter_text("larder")))
    system = found.plant.system

    def work(lanes: int) -> Callable[[], object]:
        source = np.linspace(258.15, 275.15, lanes)
        room = Room(*(np.broadcast_to(a, source.shape) for a in vars(found.room).values()))
        low = system.refrigerant.saturated(source - 8.0)
        gas = system.refrigerant.vapour(low.pressure, np.full(lanes, 290.0))
        unknowns = Unknowns(
            evaporating_temperature=low.temperature,
            condensing_temperature=np.full(lanes, 312.0),
            return_enthalpy=gas.enthalpy,
            shell_superheat=np.full(lanes, 30.0),
            exchanged_heat=np.full(lanes, 15e3),
        )
        at = conditions(room, source)
        return lambda: evaluate(system, at, unknowns)

    one = best(work(1))
    for lanes in EVALUATED:
        yield row(
            f"evaluation of {lanes} lanes", best(work(lanes)), "the same, one by one", lanes * one
        )
