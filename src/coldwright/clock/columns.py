"""A run's rows as a bench would read them: gauges, thermometers, watts and amps, by the minute."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array
from coldwright.clock.cold_table import shelves
from coldwright.clock.plant import ClockPlant
from coldwright.clock.run import Course
from coldwright.clock.store import FreezingStore
from coldwright.fluids.moist_air import relative_humidity
from coldwright.parts.motor import line_current

CELSIUS = 273.15
COLD_DISCHARGE = 0.5
"""How much of the shell's lag behind its settled temperature the discharge gas shares."""


def columns(course: Course, *, is_metal: bool) -> dict[str, Array]:
    """`[row, lane]` of what can be read; names carry their unit, `minute` has no lanes.

    Power and current are means of the minute, all else stands at its end. Around a start and a stop
    pressures move between those of the running balance and the standing one with the share of the
    charge that is back: at rest both gauges show saturation at the cold side's temperature, or less
    where the charge is all gas. Lines outside the cabinet take the room's temperature at rest; the
    discharge gas leaves a shell that is not warm yet colder by half of what the shell lacks.
    """
    plant, r = course.plant, course.records
    back, room = r["returned"], r["room"]
    at_rest = np.minimum(
        plant.refrigerant.saturation_pressure(_held(plant, r["node"])), plant.standing_pressure
    )
    suction = _between(at_rest, plant.refrigerant.saturation_pressure(r["evaporating"]), back)
    discharge = _between(at_rest, plant.refrigerant.saturation_pressure(r["condensing"]), back)
    low, high = shelves(r["surface"], r["to_surface"], r["return_offset"], r["capacity_flow"])
    settled_shell = r["shell_target"] + room - r["felt_room"]
    hot_gas = r["discharge_gas"] + COLD_DISCHARGE * np.minimum(r["shell"] - settled_shell, 0.0)
    on = np.maximum(r["on"], 1e-9)
    current = r["on"] * line_current(r["power"] / on, plant.voltage, plant.magnetising_current)
    saturation = plant.refrigerant.saturation_temperature
    frozen = {}
    if isinstance(plant.store, FreezingStore):
        frozen["state_of_charge"] = plant.store.frozen_share(r["node"])
    return {
        "minute": r.minutes.astype(np.float64),
        "running": r["running"],
        "power_W": r["power"],
        "current_A": current,
        "suction_Pa": suction,
        "discharge_Pa": discharge,
        "evaporating_C": saturation(suction) - CELSIUS,
        "condensing_C": saturation(discharge) - CELSIUS,
        "cold_metal_C" if is_metal else "brine_C": r["node"] - CELSIUS,
        "cold_surface_C": r["surface"] - CELSIUS,
        "air_C": r["air"] - CELSIUS,
        "low_shelf_C": low - CELSIUS,
        "high_shelf_C": high - CELSIUS,
        "contents_C": r["contents"] - CELSIUS,
        "return_line_C": _between(room, r["return_gas"], back) - CELSIUS,
        "discharge_line_C": _between(room, hot_gas, back) - CELSIUS,
        "shell_C": r["shell"] - CELSIUS,
        "condenser_C": r["condenser"] - CELSIUS,
        "bulb_C": r["bulb"] - CELSIUS,
        "relative_humidity": relative_humidity(r["air"], r["humidity"], plant.pressure),
        "frost_g": 1e3 * r["frost"],
        "room_C": room - CELSIUS,
        **frozen,
    }


def _between(at_rest: Array, running: Array, back: Array) -> Array:
    return np.asarray(at_rest + back * (running - at_rest))


def _held(plant: ClockPlant, temperature: Array) -> Array:
    """A temperature within the refrigerant's tables."""
    fluid = plant.refrigerant
    return np.clip(temperature, fluid.least_temperature + 0.1, fluid.greatest_temperature - 0.1)
