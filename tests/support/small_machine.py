"""A 1/8 hp class R152a machine with a fanless condenser in an old cork cupboard. Invented figures.

A village shop's cold cupboard of plausible sizes. Displacement, capillary, charge, cabinet, drum
and fins were chosen with the model's answers in view: the tests show that one plausible machine
meets all of the trade's facts together, not that the model foretells them unseen.
"""

from __future__ import annotations

import numpy as np

from coldwright.build import Build, loads, rewrite
from coldwright.build.translation.plant import Translation, translate
from coldwright.plant.balance import Balance, settle
from coldwright.plant.box import Room, conditions
from coldwright.plant.charge_rule import FixedCharge
from support.builds import build_text

CHANGES = {
    "name": "Cold cupboard of a village shop",
    "site.room_temperature": "65 °F",
    "cabinet.inside_width": "0.70 m",
    "cabinet.inside_height": "1.20 m",
    "cabinet.inside_depth": "0.50 m",
    "cabinet.layers[2].thickness": "50 mm",
    "cabinet.door_openings_per_day": "20",
    "cabinet.contents.warm_load.mass_per_day": "6 kg",
    "targets.air_temperature": "35 °F",
    "cold_side.vessel.diameter": "0.18 m",
    "cold_side.vessel.height": "0.36 m",
    "cold_side.vessel.coil_diameter": "0.14 m",
    "cold_side.brine.fraction": "50 %",
    "cold_side.tube.length": "12 m",
    "compressor.displacement": "3.7 cm3",
    "compressor.rated_points[1].capacity": "85 W",
    "compressor.rated_points[1].power": "76 W",
    "compressor.rated_points[1].current": "",
    "capillary.bore": "0.031 in",
    "capillary.length": "2.6 m",
    "refrigerant.fill": "1.6 oz",
}
READING = """
[[compressor.readings]]
power = "157 W"
current = "1.78 A"
voltage = "118 V"
"""
FINS = """
[cold_side.fins]
count = 28
height = "80 mm"
length = "0.33 m"
thickness = "1 mm"
material = "copper"
attachment = "soldered"
"""


def cupboard(*, fins: bool) -> Build:
    """The cupboard with a plain or a finned drum."""
    text = rewrite(build_text("larder").partition("# --- revisions")[0], CHANGES)
    text = text.replace("\n[condenser]\n", f"{READING}\n[condenser]\n", 1)
    if fins:
        text = text.replace("\n[cold_side.tube]\n", f"{FINS}\n[cold_side.tube]\n", 1)
    return loads(text)


def machine_at(brine_F: list[float]) -> tuple[Translation, Balance]:
    """The machine balanced at brine temperatures [°F]."""
    found = translate(cupboard(fins=False))
    source = (np.asarray(brine_F) - 32.0) / 1.8 + 273.15
    room = Room(*(np.broadcast_to(a, source.shape) for a in vars(found.room).values()))
    assert found.charge is not None
    charge = FixedCharge(np.broadcast_to(found.charge, source.shape))
    return found, settle(found.plant.system, conditions(room, source), charge)
