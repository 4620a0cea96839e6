"""Plants on the clock that several tests look at: made once, doors and goods as asked."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache

import numpy as np

from coldwright.build import loads
from coldwright.build.translation.clock import clock_parts_of, plan_of
from coldwright.build.translation.plant import Translation, translate
from coldwright.clock.cold_table import ColdTable
from coldwright.clock.plan import Plan
from coldwright.clock.plant import ClockPlant, Moment
from coldwright.clock.run import at_rest
from coldwright.clock.setup import ClockParts, clock_plant, map_of, table_of
from coldwright.plant.machine_map import MachineMap
from support.builds import build_text

CHARGES = {"larder": 0.043, "cheese": 0.040, "galley": 0.035}


@dataclass(frozen=True)
class OnClock:
    """A build's plant with its maps, ready to be given lanes."""

    found: Translation
    parts: ClockParts
    plan: Plan
    machine: MachineMap
    table: ColdTable
    charge: float
    pressure: float

    def plant(self, **settings: object) -> ClockPlant:
        """The plant on the clock; see `clock.setup.clock_plant`."""
        return clock_plant(
            self.found.plant, self.parts, self.machine, self.table, self.pressure, **settings
        )

    def warm(self, plant: ClockPlant) -> Moment:
        """Everything at the room's temperature."""
        room = self.found.room
        return at_rest(plant, room.temperature, room.temperature, room.relative_humidity)


@cache
def on_clock(name: str) -> OnClock:
    """The build file `name` of `support.builds` with a charge that suits it."""
    build = loads(build_text(name), revision="longer capillary" if name == "larder" else None)
    found = translate(build, charge=CHARGES[name])
    plan = plan_of(build)
    pressure = float(found.room.atmospheric_pressure)
    charge = np.array([CHARGES[name]])
    return OnClock(
        found=found,
        parts=clock_parts_of(build, found, CHARGES[name], float(found.room.temperature)),
        plan=plan,
        machine=map_of(found.plant.system, found.plant, charge, plan, pressure),
        table=table_of(found.plant, plan, pressure),
        charge=CHARGES[name],
        pressure=pressure,
    )


def set_to(parts: ClockParts, cut_in: object, cut_out: object) -> ClockParts:
    """The same parts with other thermostat settings [K], one per lane or one for all."""
    control = replace(parts.control, cut_in=np.asarray(cut_in), cut_out=np.asarray(cut_out))
    return replace(parts, control=control)
