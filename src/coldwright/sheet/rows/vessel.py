"""Rows that only a vessel or a holdover has."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from coldwright.verdict.figures import percent

Row = tuple[str, str, str]
ONE_TEMPERATURE = 0.2  # K


def vessel_rows(data: Mapping[str, Any], figure: Callable[[str], str]) -> list[Row]:
    """Weight and filling of the vessel; none for a cold side without one."""
    if data["vessel"] is None:
        return []
    f = figure
    parts = data["vessel"]["weight_by_part_kg"]
    listed = ", ".join(
        f"{name} {f(f'vessel.weight_by_part_kg.{name}')}"
        for name, mass in sorted(parts.items(), key=lambda item: -item[1])
        if mass > 0.0
    )
    grows = (
        f"{f('vessel.brine_kg')} filled at {f('vessel.filled_at_C')}; grows by "
        f"{f('vessel.expansion_L')} to {f('vessel.warmest_C')}, "
        f"room above it {f('vessel.headspace_L')}"
    )
    return [
        ("weight, full", f("vessel.weight_full_kg"), listed),
        ("filling", f("vessel.brine_L"), grows),
    ]


def _hours(value: float | None) -> str:
    return "without end" if value is None else f"{value:.3g} h"


def holdover_section(
    data: Mapping[str, Any], figure: Callable[[str], str]
) -> list[tuple[str, list[Row]]]:
    """The store of a holdover as one section; none for another cold side."""
    held = data["holdover"]
    if held is None:
        return []
    f = figure
    span = f"freezes from {f('holdover.first_ice_C')} to {f('holdover.last_ice_C')}"
    if held["first_ice_C"] - held["last_ice_C"] < ONE_TEMPERATURE:
        span = "freezes at one temperature"
    return [
        (
            f"Store of {held['filling']}, {percent(held['state_of_charge'])} frozen",
            [
                ("melting at", f("holdover.melting_C"), span),
                ("store", f("holdover.store_kWh"), f"{f('holdover.frozen_layer_m')} on the coil"),
                (
                    "to freeze it",
                    _hours(held["hours_to_freeze"]),
                    f"so far frozen {f('holdover.capacity_W')} taken at "
                    f"{f('holdover.evaporating_C')}, "
                    f"{f('holdover.heat_gain_freezing_W')} coming in",
                ),
                (
                    "it holds",
                    _hours(held["hours_it_holds"]),
                    f"machine off, {f('holdover.heat_gain_melting_W')} coming in",
                ),
                ("air while it melts", f("holdover.air_while_melting_C"), "stored air, mean"),
                (
                    "room for the ice",
                    f("holdover.growth_when_full_L"),
                    f"{f('vessel.headspace_L')} is left above the filling",
                ),
            ],
        )
    ]
