"""Many balances as lanes of one call against the same balances one after another."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from benchmarks.timing import Row, best, row
from coldwright.build import loads, starter_text
from coldwright.build.translation.plant import translate
from coldwright.plant.balance import settle
from coldwright.plant.box import Room, conditions
from coldwright.plant.charge_rule import FixedCharge

LANES = 24


def balance_rows() -> Iterator[Row]:
    """One row: the larder's machine at many brine temperatures."""
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
