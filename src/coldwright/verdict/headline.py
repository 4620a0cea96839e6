"""The answer as one plain sentence, and how sure it is as a second one."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from coldwright.units import Kind, System, format_quantity
from coldwright.verdict.figures import CELSIUS, percent

BALANCED = "balanced"


def headline(data: Mapping[str, Any], system: System) -> str:
    """What the box does, from a report or a quick answer."""
    if data.get("faults"):
        return str(data["sentences"][0])
    room, target = (_degrees(data[key], system) for key in ("room_C", "target_air_C"))
    share, running = data["cycling"]["run_fraction"], data["running"]
    if running["reason"] != BALANCED:
        return f"There is no working state: {running['reason']}."
    if share is None:
        reason = data["cycling"]["while_on"]["reason"]
        return f"There is no working state that holds {target}: {reason}."
    if share > 1.0:
        air = _degrees(running["air_C"], system)
        return f"Does not hold {target} in a {room} room: without a stop its air settles at {air}."
    allowed = data["highest_run_fraction"]
    holds = f"Holds {target} in a {room} room"
    if share > allowed:
        return f"{holds}, but runs {percent(share)} of the time; {percent(allowed)} is allowed."
    return f"{holds}, running {percent(share)} of the time."


def how_sure(data: Mapping[str, Any], system: System) -> str:
    """The 95 % interval as a sentence; empty where it is not known."""
    share, width = data["cycling"]["run_fraction"], data["cycling"].get("run_fraction_half_width")
    if share is None or data["running"]["reason"] != BALANCED:
        return ""
    if share <= 1.0:
        if width is None:
            return ""
        low, high = max(share - width, 0.0), min(share + width, 1.0)
        return (
            f"Nineteen in twenty boxes built like this would run between {percent(low)} and "
            f"{percent(high)} of the time."
        )
    kelvin, air = data["running"].get("air_half_width_K"), data["running"]["air_C"]
    if kelvin is None or air is None:
        return ""
    low, high = (_degrees(air + sign * kelvin, system) for sign in (-1.0, 1.0))
    return f"Nineteen in twenty boxes built like this would settle between {low} and {high}."


def _degrees(celsius: float, system: System) -> str:
    """A temperature as one says it: 12 °C, not 12.0 °C."""
    return format_quantity(celsius + CELSIUS, Kind.temperature, system).replace(".0 ", " ")
