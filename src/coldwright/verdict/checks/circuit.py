"""Charge and capillary: starved, gas at the capillary's inlet, more charge than fits."""

from __future__ import annotations

from collections.abc import Iterator

from coldwright.errors import Notice
from coldwright.plant.balance import REASONS, TOO_FULL, TOO_HOT
from coldwright.verdict.case import Case, Finding
from coldwright.verdict.figures import at_lane

PRACTICE = "common practice, no source"
# A liquid share of all inside volume past which no room is left for gas to work in.
FULL_SHARE = 0.8
STARVED_SHARE = 0.6
SUPERHEAT_SHORT = 0.75  # K
MUCH_SUBCOOLING = 15.0  # K


def circuit_findings(case: Case) -> Iterator[Finding]:
    """Findings about charge and throttle."""
    yield from _contradictions(case)
    held = case.machine("cycling")
    if not held.balanced:
        return
    span = held.source_C - held.evaporating_C
    wanted = case.build.refrigerant.superheat.value
    if held.evaporator_exit_superheat_K > max(STARVED_SHARE * span, wanted + 5.0):
        text = (
            "While the target is held the evaporator is starved: most of it is dry. More charge "
            "or a more open capillary would use it."
        )
        yield Finding(Notice("starved", "warning", text, PRACTICE))
    found = case.translation.charge is None
    if found and held.evaporator_exit_superheat_K < wanted - SUPERHEAT_SHORT:
        text = (
            f"The charge was found for {case.difference(held.evaporator_exit_superheat_K)} of "
            f"superheat instead of {case.difference(wanted)}: the gas may come only half way up to "
            "its source, and the coil stands too near it. More coil, or less machine."
        )
        yield Finding(Notice("superheat_out_of_reach", "info", text, PRACTICE))
    if held.subcooling_K > MUCH_SUBCOOLING:
        text = (
            f"While the target is held the liquid is subcooled by "
            f"{case.difference(held.subcooling_K)}: much of the condenser is full of liquid. The "
            "capillary is tight for this machine; a wider or shorter one needs less charge."
        )
        yield Finding(Notice("tight_capillary", "info", text, PRACTICE))
    if held.subcooling_K <= 0.0:
        text = (
            "While the target is held some gas enters the capillary with the liquid: it passes "
            "all that the condenser makes. A longer or narrower capillary with somewhat more "
            "charge would give liquid at its inlet."
        )
        yield Finding(Notice("gas_at_capillary", "info", text, PRACTICE))


def _contradictions(case: Case) -> Iterator[Finding]:
    """What the balance says of the charge and the condenser as entered."""
    system = case.translation.plant.system
    room = case.translation.room.temperature
    liquid = at_lane(system.refrigerant.saturated(room).liquid_density, 0)
    most = FULL_SHARE * liquid * at_lane(system.total_volume, 0)
    o = case.operation
    reasons = {int(at_lane(b.reason, 0)) for b in (o.cycling.balance, o.running.balance)}
    if case.charge > most or TOO_FULL in reasons:
        tubes = liquid * at_lane(system.evaporator.volume + system.condenser.volume, 0)
        text = (
            f"Refrigerant charge must leave room for gas; received "
            f"{case.written(case.charge, 'mass')}, and both tubes full of liquid would hold "
            f'{case.written(tubes, "mass")}. (Let the program find it: fill = "find".)'
        )
        yield Finding(
            Notice("charge_fills_everything", "danger", text, "this balance"), "refrigerant.fill"
        )
    elif TOO_HOT in reasons:
        text = (
            f"Condenser must shed the heat of the machine; with "
            f"{case.written(at_lane(system.condenser.length, 0), 'length')} of tube on this sheet "
            f"it cannot: {REASONS[TOO_HOT]}. (A larger sheet with more tube, more gap behind it, "
            "or a smaller compressor.)"
        )
        yield Finding(
            Notice("condenser_too_small", "danger", text, "this balance"), "condenser.tube.length"
        )
