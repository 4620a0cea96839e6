"""How frost grows on the cold side, and when it begins to cost."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, cast

import numpy as np

from coldwright.arrays import Array, lanes
from coldwright.heat.frost import (
    FREEZING_POINT,
    frost_conductivity,
    frost_density,
    frost_growth_rate,
)
from coldwright.parts.cabinet import SECONDS_PER_DAY
from coldwright.parts.cold_box import BoxState
from coldwright.parts.cold_side.surface_heat import ColdSide
from coldwright.verdict.case import Case
from coldwright.verdict.explanation import Explanation
from coldwright.verdict.figures import at_lane

LOST_SHARE = 0.1
"""Share of the surface's conductance whose loss is asked for."""

THICKEST, STEPS = 0.03, 121
"""Frost [m] that is looked through, and in how many steps."""

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
        "Thickness at which a tenth is lost over the growth of a day, from a clean surface. Thick "
        "frost is warmer and gathers less.",
        ("frost.thickness_at_that_mm", "frost.growth_mm_per_day"),
        ("hayashi_1977", "yonko_sepsy_1967"),
    ),
    "frost.thickness_at_that_mm": Explanation(
        "Thickness at which metal to air and liner passes a tenth less than at its best, by the "
        "films at these temperatures; a first coat may help a bright surface or a thin tube. Not "
        "told where 30 mm do not cost as much.",
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
    density = float(np.maximum(frost_density(surface), LEAST_DENSITY))
    flux = at_lane(box.gain.moisture_flow, 0) / at_lane(box.surface.films.outside_area, 0)
    growth = float(frost_growth_rate(flux, density)) * SECONDS_PER_DAY
    cold_side = case.translation.plant.box.cold_side
    pressure = case.translation.room.atmospheric_pressure
    thickness = costly_thickness(cold_side, box, density, pressure)
    known = thickness is not None and growth > 0.0
    return {
        "g_per_day": at_lane(box.frost_kg_per_day, 0) * 1e3,
        "density_kg_per_m3": density,
        "growth_mm_per_day": growth * 1e3,
        "days_until_surface_loses_10_percent": thickness / growth if thickness and known else None,
        "thickness_at_that_mm": thickness * 1e3 if thickness else None,
    }


def costly_thickness(
    cold_side: ColdSide, box: BoxState, density: float, pressure: Array
) -> float | None:
    """Frost [m] under which the metal gives a tenth less than at its best; None up to 30 mm.

    At the temperatures of `box`, by the cold side's own films: a first coat may help (it makes
    bright metal dull, and a thin tube thicker), so the best is not always the clean surface.
    """
    frost = np.linspace(0.0, THICKEST, STEPS)
    surface = replace(
        cold_side.surface, frost_thickness=frost, frost_conductivity=frost_conductivity(density)
    )
    frosted = cast(ColdSide, replace(cast(Any, cold_side), surface=surface))
    films = frosted.films(
        at_lane(box.surface_temperature, 0),
        at_lane(box.compartment_air_temperature, 0),
        at_lane(box.liner_temperature, 0),
        pressure,
    )
    both = films.convective_conductance + films.radiative_conductance
    if not cold_side.source_is_air:  # a vessel's films are those on its frost
        both = lanes(both / (1.0 + both * films.frost_resistance))
    best = int(np.argmax(both))
    short = np.flatnonzero(both[best:] <= (1.0 - LOST_SHARE) * both[best])
    if short.size == 0:
        return None
    after = best + int(short[0])
    pair = slice(after - 1, after + 1)
    limit = (1.0 - LOST_SHARE) * both[best]
    return float(np.interp(-limit, -both[pair], frost[pair]))
