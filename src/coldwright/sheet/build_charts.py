"""Any chart of an assessed build by its name."""

from __future__ import annotations

from collections.abc import Callable

from coldwright.sheet.charts.charge import charge
from coldwright.sheet.charts.pressure_enthalpy import pressure_enthalpy
from coldwright.sheet.charts.resistances import resistances
from coldwright.sheet.charts.tubes import tubes
from coldwright.sheet.charts.watts import watts
from coldwright.sheet.figure import Figure, Undrawn
from coldwright.verdict import Assessment
from coldwright.verdict.case import Case

OF_A_CASE: dict[str, Callable[[Case], Figure | Undrawn]] = {
    "pressure-enthalpy": pressure_enthalpy,
    "tubes": tubes,
    "watts": watts,
    "resistances": resistances,
}


def draw_chart(name: str, assessment: Assessment) -> Figure | Undrawn:
    """The chart called `name`, one of `sheet.charts.CHARTS`. Raises KeyError for another."""
    case = assessment.case
    if name == "charge":
        return charge(case.build, case.translation, case.system)
    return OF_A_CASE[name](case)
