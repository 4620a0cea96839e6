"""The clock: a day of one build, of many draws at once, and the map it reads."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from benchmarks.timing import Row, best, row
from coldwright.arrays import lanes
from coldwright.build import loads, starter_text
from coldwright.build.translation.clock import clock_parts_of, plan_of
from coldwright.build.translation.plant import translate
from coldwright.clock.run import at_rest, run
from coldwright.clock.setup import clock_plant, map_of, table_of

DAY, LANES, CHARGE = 1440, 250, 0.043
NO_ROWS = np.zeros(0, dtype=np.intp)


def clock_rows() -> Iterator[Row]:
    """The larder: its map against one hour of the clock; lanes against one after another."""
    build = loads(starter_text("larder"), revision="longer capillary")
    found = translate(build, charge=CHARGE)
    plan = plan_of(build)
    pressure = float(found.room.atmospheric_pressure)
    room = float(found.room.temperature)
    parts = clock_parts_of(build, found, CHARGE, room)
    charge = np.array([CHARGE])
    machine = map_of(found.plant.system, found.plant, charge, plan, pressure)
    table = table_of(found.plant, plan, pressure)

    def day(count: int, minutes: int = DAY) -> None:
        spread = np.linspace(-2.0, 2.0, count) if count > 1 else 0.0
        plant = clock_plant(
            found.plant, parts, machine, table, pressure, count=count, room_offset=spread
        )
        start = at_rest(plant, lanes(room), lanes(room), lanes(0.5))
        run(plant, start, plan, minutes, rows_at=NO_ROWS)

    def the_map() -> None:
        map_of(found.plant.system, found.plant, charge, plan, pressure)

    one = best(lambda: day(1))
    yield row("24 h of one build", one, "its map", best(the_map))
    many = best(lambda: day(LANES))
    yield row(f"24 h of {LANES} lanes", many, "the same, one by one", LANES * one)
