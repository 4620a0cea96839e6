"""The compressor: flood-back, heat, pressures and the start with everything warm."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from coldwright.errors import Notice, Severity
from coldwright.shop.compressor_limits import (
    DISCHARGE_DOUBT,
    HOT_CONDENSING,
    HOT_SHELL,
    WARM_CONDENSING,
    WARM_DISCHARGE,
    WIDE_RATIO,
)
from coldwright.verdict.case import WORDS, Case, Finding
from coldwright.verdict.figures import CELSIUS, MachineFigures, at_lane, percent

PRACTICE = "common practice, no source"
MEMORY = "from memory"
DRY = 0.995
LIQUID_IN_SHELL = 1.0  # g
# A fit that misses a rated figure by more, or a pumping efficiency outside, wants a second look.
MISFIT = 0.15
USUAL_PUMPING = (0.55, 1.1)
# Power at the start over the greatest rated one.
OVERLOAD = 1.6
# Relative standard uncertainty of flow beyond which the rating is too far to lean on.
FAR_FROM_RATING = 0.12


def machine_findings(case: Case) -> Iterator[Finding]:
    """Findings about what the compressor gets and does."""
    for state in dict.fromkeys((case.state, "running", "pull_down", case.hot_state)):
        figures = case.machine(state)
        if figures.balanced:
            yield from _liquid(case, WORDS[state], figures)
            yield from _heat(case, state, WORDS[state], figures)
    yield from _range(case)
    yield from _overload(case)
    yield from _data_sheet(case)
    yield from _carried(case)
    yield from _plate(case)
    held = case.machine(case.state)
    atmosphere = at_lane(case.translation.room.atmospheric_pressure, 0)
    if held.balanced and held.suction_Pa < atmosphere:
        text = (
            "The low side runs under atmospheric pressure: a leak there draws air and moisture in "
            "instead of letting gas out."
        )
        yield Finding(Notice("suction_in_vacuum", "info", text, PRACTICE))


def _liquid(case: Case, words: str, figures: MachineFigures) -> Iterator[Finding]:
    if figures.shell_liquid_g > LIQUID_IN_SHELL:
        text = (
            f"{words} about {case.written(1e-3 * figures.shell_liquid_g, 'mass')} of liquid "
            "refrigerant lies in the compressor: it thins the oil and can break the valves. Less "
            "charge, a tighter capillary or more evaporator surface."
        )
        yield Finding(Notice("liquid_in_compressor", "danger", text, PRACTICE))
    elif figures.return_quality < DRY:
        text = (
            f"{words} liquid comes back to the compressor "
            f"({percent(1.0 - figures.return_quality)} of the flow): the suction line sweats or "
            "frosts to the shell. The charge is high for this state or the capillary too open."
        )
        yield Finding(Notice("flood_back", "warning", text, PRACTICE))


def _heat(case: Case, state: str, words: str, figures: MachineFigures) -> Iterator[Finding]:
    if figures.condensing_C > WARM_CONDENSING:
        hot = figures.condensing_C > HOT_CONDENSING
        text = (
            f"{words} the condensing temperature is {case.temperature(figures.condensing_C)}; "
            f"{case.temperature(WARM_CONDENSING)} is the usual ceiling for steady running and "
            f"{case.temperature(HOT_CONDENSING)} for a peak."
        )
        grave: Severity = "danger" if hot and state != "pull_down" else "warning"
        yield Finding(Notice("condensing_hot", grave, text, MEMORY), "condenser")
    if figures.discharge_gas_C > WARM_DISCHARGE and state != "pull_down":
        text = (
            f"{words} the discharge gas leaves at about "
            f"{case.temperature(figures.discharge_gas_C)}; a discharge pipe above "
            f"{case.temperature(WARM_DISCHARGE)} ages the oil. The estimate is good to some "
            f"{case.difference(DISCHARGE_DOUBT)}."
        )
        yield Finding(Notice("discharge_hot", "warning", text, "discharge_pipe_limit"))
    ratio = figures.discharge_Pa / figures.suction_Pa
    if ratio > WIDE_RATIO and state != "pull_down":
        text = (
            f"{words} the discharge pressure is {ratio:.0f} times the suction pressure (absolute); "
            f"above about {WIDE_RATIO:.0f} a small machine pumps little, and hot."
        )
        yield Finding(Notice("pressure_ratio", "warning", text, "compressor_limits"))
    if figures.shell_C > HOT_SHELL:
        text = (
            f"{words} the shell comes to about {case.temperature(figures.shell_C)}; above "
            f"{case.temperature(HOT_SHELL)} oil and winding age fast and the overload may trip."
        )
        yield Finding(Notice("shell_hot", "warning", text, MEMORY))


def _range(case: Case) -> Iterator[Finding]:
    row = case.translation.machine.machine_class
    least, greatest = (t - CELSIUS for t in row.evaporating_range)
    held = case.machine(case.state)
    if held.balanced and not least <= held.evaporating_C <= greatest:
        why = (
            "Above that the motor carries more than it was made for."
            if held.evaporating_C > greatest
            else "Below that little gas comes back to cool it, and the gas leaves it hot."
        )
        text = (
            f"{case.words} it evaporates at {case.temperature(held.evaporating_C)}; class "
            f"{row.application} is meant for {case.temperature(least)} to "
            f"{case.temperature(greatest)}. {why}"
        )
        yield Finding(Notice("class_range", "warning", text, row.source), "compressor.class")


def _overload(case: Case) -> Iterator[Finding]:
    """A machine pulled down from warm draws more than it was rated at."""
    start, machine = case.machine("pull_down"), case.translation.machine
    rated = float(np.nanmax(machine.rated.power, initial=0.0))
    if start.balanced and rated > 0.0 and start.power_W > OVERLOAD * rated:
        text = (
            f"{WORDS['pull_down']} it draws {case.written(start.power_W, 'power')}, and the "
            f"greatest rated power is {case.written(rated, 'power')}: the overload may trip again "
            "and again. Pull down with little in the box, or give the capillary less flow."
        )
        yield Finding(Notice("pull_down_overload", "warning", text, PRACTICE), "compressor")


def _carried(case: Case) -> Iterator[Finding]:
    """Where it works far from where it was rated, or on another gas."""
    machine, held = case.translation.machine, case.machine(case.state)
    fluid = case.translation.plant.system.refrigerant
    flow, power = case.compressor_uncertainty
    other = fluid.name != machine.rated_on.name
    if not held.balanced or (flow <= FAR_FROM_RATING and not other):
        return
    carried = f"; its figures are carried from {machine.rated_on.name} to {fluid.name}"
    text = (
        f"{case.words} the compressor works at {case.temperature(held.evaporating_C)} and "
        f"{case.temperature(held.condensing_C)}{carried if other else ''}: flow is known to "
        f"± {percent(2.0 * flow)} and power to ± {percent(2.0 * power)} (95 %). "
        "A rated point near to it would narrow that."
    )
    yield Finding(Notice("compressor_carried", "info", text, "compressor_carry_law"), "compressor")


def _plate(case: Case) -> Iterator[Finding]:
    """A donor's plate speaks for its own gas and charge."""
    section = case.build.compressor
    name = case.build.refrigerant.name
    if name != section.rated_refrigerant:
        text = (
            f"The compressor is made for {section.rated_refrigerant} and is to run on {name}: "
            "check oil, motor torque and every electrical part near the gas. Its plate and its "
            "approval no longer hold. Local codes and licensed practice decide."
        )
        yield Finding(Notice("gas_not_on_the_plate", "warning", text, PRACTICE), "compressor")
    plate = section.nameplate
    if plate is None:
        return
    text = (
        "The compressor is known only by a donor's plate: class and displacement are guessed from "
        "it. Compare amps and suction pressure on the bench before you trust the figures."
    )
    yield Finding(Notice("known_by_plate", "info", text, PRACTICE), "compressor.nameplate")
    if plate.charge is not None and case.charge > plate.charge.value:
        text = (
            f"The charge ({case.written(case.charge, 'mass')}) is more than the donor's plate says "
            f"({case.written(plate.charge.value, 'mass')}): its shell and oil were laid out for "
            "less."
        )
        yield Finding(Notice("charge_above_plate", "warning", text, PRACTICE), "refrigerant.fill")


def _data_sheet(case: Case) -> Iterator[Finding]:
    """Do the stated capacity, power and displacement belong to one machine?"""
    fit = case.translation.machine.fit
    flow = float(np.max(np.abs(fit.flow_error)))
    power = float(np.nanmax(np.abs(fit.power_error), initial=0.0))
    if max(flow, power) > MISFIT:
        which = "capacity" if flow >= power else "power"
        text = (
            f"The compressor's figures do not go together: with all of them the {which} at one "
            f"point comes out {percent(max(flow, power))} off. Check rating conditions, "
            "refrigerant and displacement."
        )
        yield Finding(Notice("data_sheet", "warning", text, "this fit"), "compressor")
        return
    pumping = at_lane(fit.compressor.pumping, 0)
    least, greatest = USUAL_PUMPING
    if case.build.compressor.displacement is not None and not least <= pumping <= greatest:
        text = (
            f"For its displacement the compressor would have to pump {percent(pumping)} of what it "
            f"sweeps (before re-expansion); {percent(least)} to {percent(greatest)} is usual. "
            "Check displacement, rated capacity and rated refrigerant."
        )
        yield Finding(Notice("data_sheet", "warning", text, PRACTICE), "compressor.displacement")
