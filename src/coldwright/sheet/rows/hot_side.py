"""The rows of an assessment about the hot side and the suction line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from coldwright.sheet.writer import Row, Shown, Writer
from coldwright.verdict.figures import CELSIUS, percent

Data = Mapping[str, Any]
TOLD_FROM = 0.05  # K of condensing temperature
NAMES = {"sheet": "sheet", "wire": "wires", "bare": "none"}


def hot_side_sections(write: Writer) -> Sequence[tuple[str, list[Row]]]:
    """Hot side, its changes and the suction line; nothing without a balance."""
    hot, low = write.data["hot_side"], write.data["lines"]
    if hot is None or low is None:
        return ()
    return (
        ("Hot side", _hot_rows(hot, low, write)),
        ("What a change to the condenser would do, each alone", _change_rows(hot, write)),
        ("Suction line", _line_rows(low, write)),
    )


def _hot_rows(hot: Data, low: Data, write: Writer) -> list[Row]:
    difference, heat = "temperature_difference", "heat_flow"
    shares = {name: value for name, value in hot["resistance_share"].items() if value > 0.005}
    steps = ", ".join(f"{name} {percent(value)}" for name, value in shares.items())
    zones = ", ".join(f"{name} {percent(value)}" for name, value in hot["zone_share"].items())
    by_air, by_radiation = (write.quantity(hot[key], heat) for key in _WAYS)
    rows: list[Row] = [
        (
            "condensing above room",
            Shown(
                write.quantity(hot["condensing_above_room_K"], difference),
                "hot_side.condensing_above_room_K",
            ),
            f"{steps} of the resistance",
        ),
        (
            "heat to the room",
            Shown(write.quantity(hot["heat_W"], heat), "hot_side.heat_W"),
            f"air {by_air}, radiation {by_radiation}",
        ),
        (
            "conductance",
            write.figure("hot_side.conductance_W_per_K"),
            "per degree, were the whole tube condensing",
        ),
        ("its tube", write.figure("hot_side.volume_cm3"), f"{zones} of the length"),
    ]
    weight = f"tube {write.quantity(hot['tube_kg'], 'mass')}"
    if hot["kind"] != "bare":
        weight += f", {NAMES[hot['kind']]} {write.quantity(hot['sheet_kg'], 'mass')}"
    rows.append(("weight", write.quantity(hot["tube_kg"] + hot["sheet_kg"], "mass"), weight))
    for name, part, key in (
        ("friction, condenser", "hot_side", "pressure_drop"),
        ("friction, evaporator", "lines", "evaporator_pressure_drop"),
        ("friction, suction line", "lines", "suction_line_pressure_drop"),
    ):
        found = hot if part == "hot_side" else low
        fallen = write.quantity(found[f"{key}_Pa"], "pressure_difference")
        drop = Shown(fallen, f"{part}.{key}_Pa")
        worth = write.quantity(found[f"{key}_K"], difference)
        rows.append((name, drop, f"worth {worth}; not in the balance"))
    return rows


_WAYS = ("convection_W", "radiation_W")


def _change_rows(hot: Data, write: Writer) -> list[Row]:
    rows: list[Row] = []
    for change in hot["changes"]:
        if change["condensing_K"] is None:
            rows.append((change["words"], "no balance", ""))
            continue
        if abs(change["condensing_K"]) < TOLD_FROM:
            rows.append((change["words"], "nothing", ""))
            continue
        condensing = write.quantity(change["condensing_K"], "temperature_difference")
        power = write.quantity(change["power_W"], "power")
        capacity = write.quantity(change["capacity_W"], "heat_flow")
        rows.append((change["words"], condensing, f"power {power}, capacity {capacity}"))
    return rows


def _line_rows(low: Data, write: Writer) -> list[Row]:
    velocity = write.quantity(low["suction_velocity_m_per_s"], "velocity")
    speed = Shown(velocity, "lines.suction_velocity_m_per_s")
    least = write.quantity(low["oil_velocity_m_per_s"], "velocity")
    skin, dew = (write.quantity(low[key] + CELSIUS, "temperature") for key in _SKIN)
    free = write.quantity(low["free_length_m"], "length")
    wet = low["sweating_length_m"]
    sweats = f"stays dry: the room's dew point is {dew}"
    if wet > 0.0:
        thick = low["insulation_m"]
        cover = "" if thick is None else f"; {write.quantity(thick, 'length')} of insulation"
        sweats = f"sweats over {write.quantity(wet, 'length')} of {free} (dew point {dew}){cover}"
    return [
        ("gas leaving evaporator", speed, f"a riser wants {least} to carry oil"),
        ("skin after the exchanger", Shown(skin, "lines.line_skin_C"), sweats),
    ]


_SKIN = ("line_skin_C", "dew_point_C")
