"""How frost grows on the cold side, and when it begins to cost."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from coldwright.heat.frost import (
    FREEZING_POINT,
    frost_conductivity,
    frost_density,
    frost_growth_rate,
)
from coldwright.parts.cabinet import SECONDS_PER_DAY
from coldwright.verdict.case import Case
from coldwright.verdict.explanation import Explanation
from coldwright.verdict.figures import at_lane

LOST_SHARE = 0.1
"""Share of the surface's conductance whose loss is asked for."""

LEAST_DENSITY = 100.0
"""Density [kg/m3] of a light layer some days old, from memory: frost as it forms on a surface far
below 0 C is lighter still, but does not stay so. The model's own frost is as light."""

KEYS = (
    "g_per_day",
    "density_kg_per_m3",
    "growth_mm_per_day",
    "days_until_surface_loses_10_percent",
    "thickness_at_that_mm",
)

EXPLAINED: Mapping[str, Explanation] = {
    "frost.g_per_day": Explanation(
        "Water that settles on the cold side as ice; known where its surface is below 0 °C.",
        ("cabinet.frost_g_per_day", "cabinet.cold_surface_C"),
        ("chilton_colburn_1934",),
    ),
    "frost.density_kg_per_m3": Explanation(
        "Density of young frost by the temperature of the surface, but at least 100 kg/m3: what "
        "forms lighter settles within days (from memory; good to a factor of two).",
        ("cabinet.cold_surface_C",),
        ("hayashi_1977",),
    ),
    "frost.growth_mm_per_day": Explanation(
        "Frost of a day, spread evenly over the cold side's outside, over its density. Frost grows "
        "denser as it ages, so the layer is rather thinner.",
        ("frost.g_per_day", "frost.density_kg_per_m3"),
        ("hayashi_1977",),
    ),
    "frost.days_until_surface_loses_10_percent": Explanation(
        "Thickness at which a tenth is lost over the growth of a day, from a clean surface.",
        ("frost.thickness_at_that_mm", "frost.growth_mm_per_day"),
        ("hayashi_1977", "yonko_sepsy_1967"),
    ),
    "frost.thickness_at_that_mm": Explanation(
        "Thickness whose resistance is a ninth of that of the films to air and liner: what passes "
        "then is nine tenths.",
        ("frost.density_kg_per_m3", "cabinet.cold_surface_C"),
        ("yonko_sepsy_1967",),
    ),
}


def frost_figures(case: Case, state: str) -> dict[str, float | None]:
    """Figures of frost in state `cycling` or `running`; all None where the surface is above 0 C."""
    box = (case.operation.cycling if state == "cycling" else case.operation.running).box
    surface = at_lane(box.surface_temperature, 0)
    if surface >= FREEZING_POINT:
        return dict.fromkeys(KEYS)
    films = box.surface.films
    area = at_lane(films.outside_area, 0)
    density = np.maximum(frost_density(surface), LEAST_DENSITY)
    flux = at_lane(box.gain.moisture_flow, 0) / area
    growth = float(frost_growth_rate(flux, density))
    outside = at_lane(films.convective_conductance, 0) + at_lane(films.radiative_conductance, 0)
    # fins count as far as they work, for the frost's resistance as for the film's
    counting = area * at_lane(films.fin_efficiency, 0)
    added = LOST_SHARE / (1.0 - LOST_SHARE) / outside
    thickness = float(frost_conductivity(density)) * counting * added
    return {
        "g_per_day": at_lane(box.frost_kg_per_day, 0) * 1e3,
        "density_kg_per_m3": float(density),
        "growth_mm_per_day": growth * SECONDS_PER_DAY * 1e3,
        "days_until_surface_loses_10_percent": (
            thickness / (growth * SECONDS_PER_DAY) if growth > 0.0 else None
        ),
        "thickness_at_that_mm": thickness * 1e3,
    }
