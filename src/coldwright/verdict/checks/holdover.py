"""A holdover: can it hold the target, can the machine freeze it, can the tank bear it?"""

from __future__ import annotations

from collections.abc import Iterator

from coldwright.errors import Notice
from coldwright.sources import source
from coldwright.verdict.case import Case, Finding
from coldwright.verdict.figures import CELSIUS, at_lane, percent
from coldwright.verdict.holdover import Melting

MODEL = "this balance"
FAR_BELOW = 2.0  # K under the target
FREEZING_AIR = 0.0  # C: air under this harms what is kept over it


def holdover_findings(case: Case) -> Iterator[Finding]:
    """Findings about a holdover; none for another cold side."""
    found = case.melting
    if found is None:
        return
    yield from _air(case, found)
    yield from _freezing(case, found)
    yield from _tank(case, found)


def _air(case: Case, found: Melting) -> Iterator[Finding]:
    """Is the air at the target while the store melts?"""
    target = case.build.targets.air_temperature.value
    air = at_lane(found.melting.air_temperature, 0)
    melts = case.temperature(found.temperature - CELSIUS)
    settles = f"the air settles at {case.temperature(air - CELSIUS)} while it melts"
    if air > target:
        text = (
            f"The filling melts at {melts}, and {settles}: above the target of "
            f"{case.temperature(target - CELSIUS)}, which it cannot hold."
        )
        hint = "A filling that melts colder, or more outside surface on the tank."
        yield Finding(
            Notice("store_too_warm", "warning", text, MODEL), "cold_side.holdover.filling", hint
        )
    elif air - CELSIUS < FREEZING_AIR < target - CELSIUS:
        text = (
            f"The filling melts at {melts}, and {settles}: what must not freeze can freeze, and it "
            "runs more than the figures at the target say. A filling that melts warmer, or less "
            "surface on the tank."
        )
        yield Finding(Notice("store_too_cold", "warning", text, MODEL))
    elif air < target - FAR_BELOW:
        text = (
            f"The filling melts at {melts}, and {settles}, {case.difference(target - air)} under "
            "the target: while there is ice it runs more than the figures at the target say. A "
            "filling that melts warmer would do."
        )
        yield Finding(Notice("store_colder", "info", text, MODEL))


def _freezing(case: Case, found: Melting) -> Iterator[Finding]:
    """Does the machine get the store frozen, and does the thermostat let it?"""
    melts = case.temperature(found.temperature - CELSIUS)
    running = case.machine("running")
    if running.balanced and (
        at_lane(found.freezing_heat, 0) <= 0.0
        or running.evaporating_C + CELSIUS >= found.temperature
    ):
        text = (
            f"The machine cannot freeze the store: the filling freezes at {melts}, and running "
            f"without a stop it evaporates at {case.temperature(running.evaporating_C)}, taking no "
            "more heat than the box lets in."
        )
        hint = "A filling that freezes warmer, a larger machine, or a better box."
        yield Finding(
            Notice("store_not_frozen", "warning", text, MODEL), "cold_side.holdover.filling", hint
        )
    elif running.balanced and found.reached < 1.0:
        text = (
            f"The machine freezes about {percent(found.reached)} of the store: beyond, it takes no "
            "more heat through the ice than the box lets in."
        )
        yield Finding(Notice("store_partly_frozen", "warning", text, MODEL))
    control = case.build.thermostat
    full = found.store.filling.last_ice
    if control.bulb == "vessel well" and control.cut_out.value > full:
        stops = case.temperature(control.cut_out.value - CELSIUS)
        text = (
            f"The thermostat stops the machine at {stops} in the filling, which is full only at "
            f"{case.temperature(full - CELSIUS)}: the store is never fully charged. Let it cut out "
            "some degrees below."
        )
        yield Finding(Notice("store_thermostat", "warning", text, MODEL), "thermostat.cut_out")


def _tank(case: Case, found: Melting) -> Iterator[Finding]:
    """Has the tank room for the ice, and does the filling eat it?"""
    store, practice = found.store, source("holdover_practice").citation
    growth = at_lane(store.brine_volume, 0) * store.filling.growth_when_full
    room = at_lane(store.headspace_volume, 0)
    if growth > room:
        text = (
            f"Frozen full the filling takes {case.written(growth, 'volume')} more room than it was "
            f"poured in with, and {case.written(room, 'volume')} is left above it: the tank bursts "
            "or its lid lifts."
        )
        notice = Notice("ice_headspace", "danger", text, source(store.filling.source).citation)
        yield Finding(notice, "cold_side.vessel.headspace", "Pour in less, and leave a vent.")
    text = (
        "A tank that freezes full can burst even with room above: melt shut in under ice has no "
        "way out. Let it freeze from the coil outward with the top last, keep a vent open, and "
        "never seal it tight."
    )
    yield Finding(Notice("frozen_tank", "warning", text, practice))
    if store.filling.is_salt:
        text = (
            f"The filling ({store.filling.name}) is a salt that corrodes: it pits stainless steel "
            f"and aluminium and rusts steel, most where air gets in. The tank is of "
            f"{case.build.cold_side.vessel.material if case.build.cold_side.vessel else 'metal'}: "
            "use an inhibited solution made for it, no mixed metals, and look for leaks onto food."
        )
        yield Finding(Notice("salt_corrodes", "warning", text, practice))
