"""The clock: a day of one build, of many draws at once, and the map it reads."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from benchmarks.timing import Row, best, row
from coldwright.arrays import Array, lanes
from coldwright.build import loads, starter_text
from coldwright.build.translation.clock import clock_parts_of, plan_of
from coldwright.build.translation.plant import translate
from coldwright.clock.batches import in_batches
from coldwright.clock.run import at_rest, run
from coldwright.clock.setup import clock_plant, map_of, table_of

DAY, CHARGE = 1440, 0.043
LANES, TOGETHER = (250, 1000), 250


def clock_rows() -> Iterator[Row]:
    """The larder: its map against a day of the clock; lanes in batches against one by one.

    Rows are kept by the minute, as for a chart with its band: batches bound what they take.
    """
    build = loads(starter_text("larder"), revision="longer capillary")
    found = translate(build, charge=CHARGE)
    plan = plan_of(build)
    pressure = float(found.room.atmospheric_pressure)
    room = float(found.room.temperature)
    parts = clock_parts_of(build, found, CHARGE, room)
    charge = np.array([CHARGE])
    machine = map_of(found.plant.system, found.plant, charge, plan, pressure)
    table = table_of(found.plant, plan, pressure)

    def day(offsets: Array) -> None:
        plant = clock_plant(
            found.plant, parts, machine, table, pressure, count=offsets.size, room_offset=offsets
        )
        start = at_rest(plant, lanes(room), lanes(room), lanes(0.5))
        run(plant, start, plan, DAY)

    def days(count: int) -> None:
        offsets = np.linspace(-2.0, 2.0, count)
        for some in in_batches(count, TOGETHER):
            day(offsets[some])

    def the_map() -> None:
        map_of(found.plant.system, found.plant, charge, plan, pressure)

    one = best(lambda: days(1))
    yield row("24 h of one build", one, "its map", best(the_map))
    for count in LANES:
        many = best(lambda count=count: days(count))
        yield row(f"24 h of {count} lanes", many, "the same, one by one", count * one)
