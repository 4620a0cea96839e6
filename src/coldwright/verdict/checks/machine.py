"""The compressor: flood-back, heat, pressures and the start with everything warm."""

from __future__ import annotations

from collections.abc import Iterator

from coldwright.errors import Notice, Severity
from coldwright.verdict.case import Case, Finding
from coldwright.verdict.figures import CELSIUS, MachineFigures

PRACTICE = "common practice, no source"
MEMORY = "from memory"
STATES = {
    "cycling": "While the target is held",
    "running": "Running without a stop",
    "pull_down": "At the start, everything warm,",
    "hot": "On the hottest day, while the target is held,",
}
# Limits of a small static-cooled hermetic machine [C].
WARM_DISCHARGE, WARM_CONDENSING, HOT_CONDENSING, HOT_SHELL = 107.0, 60.0, 70.0, 95.0
DRY = 0.995
LIQUID_IN_SHELL = 1.0  # g


def machine_findings(case: Case) -> Iterator[Finding]:
    """Findings about what the compressor gets and does."""
    for state, words in STATES.items():
        figures = case.machine(state)
        if figures.balanced:
            yield from _liquid(words, figures)
            yield from _heat(case, state, words, figures)
    yield from _range(case)
    held = case.machine("cycling")
    atmosphere = float(case.translation.room.atmospheric_pressure)
    if held.balanced and held.suction_Pa < atmosphere:
        text = (
            "The low side runs under atmospheric pressure: a leak there draws air and moisture in "
            "instead of letting gas out."
        )
        yield Finding(Notice("suction_in_vacuum", "info", text, PRACTICE))


def _liquid(words: str, figures: MachineFigures) -> Iterator[Finding]:
    if figures.shell_liquid_g > LIQUID_IN_SHELL:
        text = (
            f"{words} about {figures.shell_liquid_g:.0f} g of liquid refrigerant lies in the "
            "compressor: it thins the oil and can break the valves. Less charge, a tighter "
            "capillary or more coil surface in the brine."
        )
        yield Finding(Notice("liquid_in_compressor", "danger", text, PRACTICE))
    elif figures.return_quality < DRY:
        text = (
            f"{words} liquid comes back to the compressor "
            f"({1.0 - figures.return_quality:.0%} of the flow): the suction line sweats or frosts "
            "to the shell. The charge is high for this state or the capillary too open."
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
            f"{case.temperature(WARM_DISCHARGE)} ages the oil. The estimate is good to some 15 K."
        )
        yield Finding(Notice("discharge_hot", "warning", text, "trade press [read]"))
    if figures.shell_C > HOT_SHELL:
        text = f"{words} the shell comes to about {case.temperature(figures.shell_C)}."
        yield Finding(Notice("shell_hot", "warning", text, MEMORY))


def _range(case: Case) -> Iterator[Finding]:
    row = case.translation.machine.machine_class
    least, greatest = (t - CELSIUS for t in row.evaporating_range)
    held = case.machine("cycling")
    if held.balanced and not least <= held.evaporating_C <= greatest:
        text = (
            f"While the target is held it evaporates at {case.temperature(held.evaporating_C)}; "
            f"class {row.application} is meant for {case.temperature(least)} to "
            f"{case.temperature(greatest)}. Above that the motor carries more than it was made for."
        )
        yield Finding(Notice("class_range", "warning", text, row.source), "compressor.class")
