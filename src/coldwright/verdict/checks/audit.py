"""Do the figures that are told close in energy, mass and flow?"""

from __future__ import annotations

from collections.abc import Iterator

from coldwright.errors import Notice
from coldwright.verdict.audit_figures import CLOSED, audit_figures
from coldwright.verdict.case import Case, Finding

NAMES = {
    "energy_closure": "energy",
    "mass_closure": "refrigerant by mass",
    "flow_closure": "flow through the capillary",
}


def audit_findings(case: Case) -> Iterator[Finding]:
    """A finding where a sum does not close."""
    found = audit_figures(case)
    if found is None or not found.open:
        return
    told = ", ".join(f"{NAMES[name]} to {getattr(found, name):.0e}" for name in found.open)
    text = (
        f"The sums do not close to {CLOSED:.0e} as they must: {told}. Do not trust these figures; "
        "please report the build file."
    )
    yield Finding(Notice("audit_open", "danger", text, "this balance"))
