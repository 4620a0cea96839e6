"""The stopped machine: liquid that runs over, and oil that liquid thins."""

from __future__ import annotations

from collections.abc import Iterator

from coldwright.errors import Notice, Severity
from coldwright.sources import source
from coldwright.verdict.at_rest import GRAM, NO_OIL, THIN_OIL, AtRest, at_rest_of
from coldwright.verdict.case import Case, Finding
from coldwright.verdict.figures import percent

PRACTICE = "common practice, no source"
# Filled more than this at rest, a coil throws liquid out as it begins to boil at the start.
NEARLY_FULL = 0.7


def rest_findings(case: Case) -> Iterator[Finding]:
    """Findings about the stopped machine."""
    found = at_rest_of(case)
    if found is None:
        return
    yield from _coil(case, found)
    yield from _oil(case, found)


def _coil(case: Case, found: AtRest) -> Iterator[Finding]:
    """Does the liquid find room in the coil between two runs?"""
    coil = found.coil
    if coil.filled_share <= NEARLY_FULL:
        return
    liquid, holds = (
        case.written(grams / GRAM, "mass") for grams in (found.between_runs.liquid_g, coil.holds_g)
    )
    size = case.written(coil.accumulator_cm3 * 1e-6, "volume")
    begins = f"Between two runs {liquid} of liquid gathers in the coil, which holds {holds}"
    if found.runs_over:
        text = (
            f"{begins}: the rest stands in the return line and comes to the compressor at the "
            f"start. What helps: less charge, a return line that rises above the coil before it "
            f"falls to the compressor, or a suction accumulator of at least {size}."
        )
        yield Finding(Notice("flooded_start", "warning", text, PRACTICE), "refrigerant.fill")
        return
    text = (
        f"{begins}: nearly full, it throws some of it out as it begins to boil. A return line that "
        "rises above the coil before it falls, a small suction accumulator or less charge keeps it "
        "from the compressor."
    )
    yield Finding(Notice("coil_nearly_full", "info", text, PRACTICE), "refrigerant.fill")


def _oil(case: Case, found: AtRest) -> Iterator[Finding]:
    """How thin can the oil become?"""
    worst = found.coolest_room.worst_oil_share
    if found.shell_may_be_coldest:
        worst = max(worst, found.between_runs.worst_oil_share)
    if worst <= THIN_OIL:
        return
    severity: Severity = "danger" if worst > NO_OIL else "warning"
    key, limit = ("oil_dilution_limit", THIN_OIL)
    if worst > NO_OIL:
        key, limit = ("oil_dilution_manual", NO_OIL)
    when = (
        "The coolest room is colder than the cold side: the liquid gathers in the shell"
        if found.shell_may_be_coldest
        else "After a long rest in the coolest room the liquid may gather in the shell"
    )
    oil = case.written(found.oil_g / GRAM, "mass")
    text = (
        f"{when}, and refrigerant would be {percent(worst)} of the mixture with {oil} of oil; "
        f"over {percent(limit)} it lubricates poorly at the start. What helps: less charge, a "
        "warmer place for the compressor, a heater round the shell, or a suction accumulator."
    )
    yield Finding(Notice("oil_thinned", severity, text, source(key).citation), "refrigerant.fill")
