"""Were the correlations used within the range of the data they were fitted on?"""

from __future__ import annotations

from collections.abc import Iterator

from coldwright.sources import range_notices, source
from coldwright.verdict.case import Case, Finding
from coldwright.verdict.figures import at_lane


def range_findings(case: Case) -> Iterator[Finding]:
    """Findings for the state that the box comes to."""
    figures = case.machine(case.state)
    if not figures.balanced:
        return
    system = case.translation.plant.system
    flow = figures.mass_flow_kg_per_h / 3600.0
    boiling = flow / at_lane(system.evaporator.area, 0)
    condensing = flow / at_lane(system.condenser.area, 0)
    notices = (
        *range_notices("flow_boiling_film_coefficient", mass_flux=boiling),
        *range_notices(
            "condensing_film_coefficient",
            mass_flux=condensing,
            diameter=at_lane(system.condenser.inside_diameter, 0),
        ),
    )
    for notice in notices:
        citation = source(notice.source).citation
        yield Finding(type(notice)(notice.code, notice.severity, notice.text, citation))
