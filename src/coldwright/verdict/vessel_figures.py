"""What a vessel weighs and holds: for the shelf that carries it and the can that fills it."""

from __future__ import annotations

from typing import Any

from coldwright.fluids.brines import FILLING_TEMPERATURE
from coldwright.parts.cold_side.vessel import Vessel
from coldwright.verdict.case import Case
from coldwright.verdict.checks.brine import WARMEST_STANDING
from coldwright.verdict.figures import CELSIUS, at_lane


def vessel_figures(case: Case) -> dict[str, Any] | None:
    """Weights [kg] and volumes [L] of the vessel; None for a cold side without one."""
    vessel = case.translation.plant.box.cold_side
    if not isinstance(vessel, Vessel):
        return None
    parts = {name: at_lane(mass, 0) for name, mass in vessel.dry_mass_by_part.items()}
    brine = at_lane(vessel.brine_mass, 0)
    volume = at_lane(vessel.brine_volume, 0)
    growth = at_lane(vessel.brine.expansion_from(FILLING_TEMPERATURE, WARMEST_STANDING), 0)
    return {
        "weight_full_kg": sum(parts.values()) + brine,
        "weight_by_part_kg": {**parts, "brine": brine},
        "brine_kg": brine,
        "brine_L": 1e3 * volume,
        "filled_at_C": FILLING_TEMPERATURE - CELSIUS,
        "warmest_C": WARMEST_STANDING - CELSIUS,
        "expansion_L": 1e3 * volume * growth,
        "headspace_L": 1e3 * at_lane(vessel.headspace_volume, 0),
    }
