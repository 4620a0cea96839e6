"""Specific heat and heat of the contents out of what is kept."""

from __future__ import annotations

from coldwright.build.completion import Completion
from coldwright.build.computed_defaults import written
from coldwright.build.defaults import PRACTICE
from coldwright.build.paths import Path
from coldwright.build.shop_defaults import cited, stock
from coldwright.fluids.moist_air import saturation_pressure
from coldwright.shop.products import (
    Product,
    freezing_heat,
    product,
    respiration_heat,
    sensible_heat,
    transpired_moisture,
)

STATED_HUMIDITY = 0.8
"""Humidity at which `cabinet.contents.moisture_per_day` is stated."""

CONTENTS: Path = ("cabinet", "contents")
_SECONDS_PER_DAY = 86400.0
_NEAR = 0.01  # K: warm goods as cold as the box have no mean between
_NOTHING = 0.0005  # W


def fill_product(build: Completion) -> None:
    """Specific heat and heat of the named goods, where only the usual ones were assumed.

    The specific heat is the mean between the warm goods and the target. Heat is respiration at the
    target and, in a box that freezes, the freezing of what is put in each day.
    """
    row = stock(product, build.text((*CONTENTS, "product")))
    target = build.number(("targets", "air_temperature"))
    given = build.numbers(
        (*CONTENTS, "mass"),
        (*CONTENTS, "warm_load", "mass_per_day"),
        (*CONTENTS, "warm_load", "temperature"),
    )
    if row is None or target is None or given is None:
        return
    mass, daily, warm = given
    spread = f"{200.0 * row.specific_heat_uncertainty:.3g} %"
    mean = _mean_specific_heat(row, warm, target)
    text = written(1e-3 * mean, "kJ/(kg K)", spread)
    build.refine((*CONTENTS, "specific_heat"), text, f"{row.name}; {cited(row.source)}")
    breath = float(respiration_heat(row, target, mass))
    freezing = max(float(freezing_heat(row, warm, target)), 0.0) * daily / _SECONDS_PER_DAY
    heat, source = _heat(row, breath, freezing)
    build.refine((*CONTENTS, "heat"), heat, source)
    if row.transpiration is not None:
        moisture, source = _moisture(row, mass, target)
        build.refine((*CONTENTS, "moisture_per_day"), moisture, source)


def _mean_specific_heat(row: Product, warm: float, cold: float) -> float:
    if abs(warm - cold) < _NEAR:
        warm = cold + _NEAR
    return float(sensible_heat(row, warm, cold)) / (warm - cold)


def _moisture(row: Product, mass: float, target: float) -> tuple[str, str]:
    """The text of the water given off in a day at 80 % humidity, and where it comes from."""
    lost = float(transpired_moisture(row, mass, saturation_pressure(target), STATED_HUMIDITY))
    if row.freezing_point is not None and target < row.freezing_point:
        return "0 g/day ± 0 g/day", f"{row.name}, frozen: what dries off is left out; {PRACTICE}"
    if lost <= 0.0:
        return "0 g/day ± 0 g/day", f"{row.name}, wrapped or closed; {PRACTICE}"
    spread = f"{200.0 * row.transpiration_uncertainty:.3g} %"
    source = f"transpiration of {row.name} at the target; {cited(row.transpiration_source)}"
    return written(1e3 * _SECONDS_PER_DAY * lost, "g/day", spread), source


def _heat(row: Product, breath: float, freezing: float) -> tuple[str, str]:
    """The text of the contents' heat [W] and where it comes from; never both of the two."""
    if breath > _NOTHING:
        spread = f"{200.0 * row.respiration_uncertainty:.3g} %"
        source = f"respiration of {row.name} at the target; {cited(row.respiration_source)}"
        return written(breath, "W", spread), source
    if freezing > _NOTHING:
        source = f"freezing of the {row.name} put in each day; {cited(row.source)}"
        return written(freezing, "W", "50 %"), source  # as the daily mass, a guess
    return "0 W ± 0 W", f"{row.name}: no heat of its own; {cited(row.source)}"
