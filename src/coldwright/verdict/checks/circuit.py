"""Charge and capillary: starved, gas at the capillary's inlet, more charge than fits."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from coldwright.arrays import lanes
from coldwright.build.translation.plant import Translation
from coldwright.errors import Notice
from coldwright.parts.compressor import settled_shell
from coldwright.plant.balance import TOO_FULL, TOO_HOT, UNSETTLED
from coldwright.units import Kind, System, format_quantity
from coldwright.verdict.case import Case, Finding
from coldwright.verdict.figures import CELSIUS, at_lane

PRACTICE = "common practice, no source"
FIND_IT = 'Let the program find it: fill = "find".'
STARVED_SHARE = 0.6
# A charge under this share of both tubes full of liquid is never too much for them.
MUCH_SHARE = 0.25
SUPERHEAT_SHORT = 0.75  # K
MUCH_SUBCOOLING = 15.0  # K
# No small hermetic machine lives with a steady condensing temperature above this [K].
HOTTEST_CONDENSING = 343.15
ON_WHAT = {"sheet": "on this sheet", "wire": "under these wires", "bare": "in the air"}
# Evaporating this far under the source when nothing better is known [K].
USUAL_APPROACH = 12.0


def circuit_findings(case: Case) -> Iterator[Finding]:
    """Findings about charge and throttle."""
    yield from _contradictions(case)
    held = case.machine(case.state)
    if not held.balanced:
        return
    span = held.source_C - held.evaporating_C
    wanted = case.build.refrigerant.superheat.value
    if held.evaporator_exit_superheat_K > max(STARVED_SHARE * span, wanted + 5.0):
        text = (
            f"{case.words} the evaporator is starved: most of it is dry. More charge or a more "
            "open capillary would use it."
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
            f"{case.words} the liquid is subcooled by {case.difference(held.subcooling_K)}: much "
            "of the condenser is full of liquid. The capillary is tight for this machine; a wider "
            "or shorter one needs less charge."
        )
        yield Finding(Notice("tight_capillary", "info", text, PRACTICE))
    if held.subcooling_K <= 0.0:
        text = (
            f"{case.words} some gas enters the capillary with the liquid: it passes all that the "
            "condenser makes. A longer or narrower capillary with somewhat more charge would give "
            "liquid at its inlet."
        )
        yield Finding(Notice("gas_at_capillary", "info", text, PRACTICE))


def full_tubes(translation: Translation) -> float:
    """What evaporator and condenser hold when full of liquid at the room's temperature [kg]."""
    system = translation.plant.system
    liquid = system.refrigerant.saturated(translation.room.temperature).liquid_density
    return at_lane(liquid * (system.evaporator.volume + system.condenser.volume), 0)


def too_full(translation: Translation, charge: float, units: System) -> str:
    """The sentence about a charge that leaves no room for gas."""
    given, most = (
        format_quantity(mass, Kind.mass, units) for mass in (charge, full_tubes(translation))
    )
    return (
        f"Refrigerant charge must leave room for gas; received {given}, and both tubes full of "
        f"liquid would hold {most}."
    )


def _contradictions(case: Case) -> Iterator[Finding]:
    """What the balance says of the charge and the condenser as entered."""
    system = case.translation.plant.system
    o = case.operation
    reasons = {int(at_lane(b.reason, 0)) for b in (o.cycling.balance, o.running.balance)}
    much = case.charge > MUCH_SHARE * full_tubes(case.translation)
    if case.translation.charge is not None and TOO_FULL in reasons and much:
        text = too_full(case.translation, case.charge, case.system)
        notice = Notice("charge_fills_everything", "danger", text, "this balance")
        yield Finding(notice, "refrigerant.fill", FIND_IT)
        return
    shed, brought = _condenser_heat(case)
    states = (case.machine(state) for state in ("cycling", "running"))
    hot = any(s.balanced and s.condensing_C + CELSIUS > HOTTEST_CONDENSING for s in states)
    failing = hot or UNSETTLED in reasons or case.run_fraction > 1.0
    if TOO_HOT in reasons or (failing and shed < brought):
        text = (
            f"Condenser must shed the heat of the machine; with "
            f"{case.written(at_lane(system.condenser.length, 0), 'length')} of tube "
            f"{ON_WHAT[system.condenser.kind]} it sheds about {case.written(shed, 'heat_flow')} at "
            f"a condensing temperature of {case.written(HOTTEST_CONDENSING, 'temperature')}, and "
            f"the machine brings about "
            f"{case.written(brought, 'heat_flow')}."
        )
        hint = "A larger condenser with more tube, more gap behind it, or a smaller compressor."
        notice = Notice("condenser_too_small", "danger", text, "this balance")
        yield Finding(notice, "condenser.tube.length", hint)


def _condenser_heat(case: Case) -> tuple[float, float]:
    """Heat that the condenser sheds at the hottest condensing temperature, and what is brought [W].

    Without a balance, so a rough figure: the whole tube condenses, and the evaporator stands
    `USUAL_APPROACH` under the source that the target asks for, its gas come back at the room's
    temperature.
    """
    system, room = case.translation.plant.system, case.translation.room
    hot = lanes(HOTTEST_CONDENSING)
    outside = system.condenser.outside(hot, room.temperature, room.atmospheric_pressure)
    shed = outside.conductance * system.condenser.length * (hot - outside.sink_temperature)
    fluid = system.refrigerant
    source = lanes(at_lane(case.operation.cycling.box.source_temperature, 0))
    least = fluid.least_temperature + 5.0
    low = fluid.saturated(np.clip(source - USUAL_APPROACH, least, room.temperature - 1.0))
    high = fluid.saturated(hot)
    gas = fluid.vapour(low.pressure, room.temperature).enthalpy
    _, state = settled_shell(system.compressor, fluid, low, high, gas, room.temperature)
    return at_lane(shed, 0), at_lane(state.mass_flow * high.latent_heat, 0)
