"""Figures of a build's own states, as the report and the quick answer share them."""

from __future__ import annotations

from dataclasses import asdict, fields
from typing import Any, Literal

import numpy as np

from coldwright.plant.balance import BALANCED, Balance
from coldwright.plant.operation import Operation
from coldwright.verdict.case import Case
from coldwright.verdict.figures import CELSIUS, at_lane


def state_figures(case: Case) -> dict[str, Any]:
    """Cabinet, running, cycling, start and charge of lane 0; nothing of the hottest day."""
    state = cabinet_state(case)
    runs = settled(case.operation.running.balance)
    return {
        "name": case.build.name,
        "revision": case.build.revision,
        "room_C": at_lane(case.translation.room.temperature, 0) - CELSIUS,
        "target_air_C": case.build.targets.air_temperature.value - CELSIUS,
        "highest_run_fraction": case.build.targets.highest_run_fraction.value,
        "cabinet": {"state": state, **asdict(case.cabinet(state))},
        "running": {
            **case.machine("running").as_report(is_brine=case.is_brine),
            "air_C": case.cabinet("running").air_C if runs else None,
        },
        "cycling": {
            "run_fraction": case.run_fraction,
            "energy_kWh_per_day": energy(case.operation),
            "heat_needed_W": at_lane(case.operation.cycling.box.heat, 0),
            "while_on": case.machine("cycling").as_report(is_brine=case.is_brine),
        },
        "pull_down": case.machine("pull_down").as_report(is_brine=case.is_brine),
        "charge": _charge(case, state),
    }


def cabinet_state(case: Case) -> Literal["cycling", "running"]:
    """The state whose cabinet is shown: without a balance, what the target would ask for."""
    return case.state if case.machine("running").balanced else "cycling"


def settled(balance: Balance) -> bool:
    """Whether lane 0 has a balance."""
    return int(at_lane(balance.reason, 0)) == BALANCED


def energy(operation: Operation) -> float | None:
    """Energy of a day [kWh]; None where the state it rests on has no balance."""
    share = at_lane(operation.cycling.run_fraction, 0)
    point = operation.cycling if share <= 1.0 else operation.running
    return at_lane(operation.energy_kWh_per_day, 0) if settled(point.balance) else None


def _charge(case: Case, state: str) -> dict[str, Any]:
    point = case.operation.cycling if state == "cycling" else case.operation.running
    inventory = point.balance.evaluation.inventory
    found = case.translation.charge is None
    balanced = settled(point.balance)
    return {
        "fill_g": case.charge * 1e3 if balanced or not found else None,
        "found": found,
        "by_place_g": {
            place.name: at_lane(getattr(inventory, place.name), 0) * 1e3 if balanced else None
            for place in fields(inventory)
        },
        "total_volume_cm3": at_lane(case.translation.plant.system.total_volume, 0) * 1e6,
    }


def plain(value: Any) -> Any:  # noqa: ANN401 (any JSON value)
    """`value` with NaN and infinity as None, NumPy scalars as Python's."""
    if isinstance(value, dict):
        return {key: plain(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [plain(each) for each in value]
    if isinstance(value, np.generic):
        value = value.item()
    if isinstance(value, float) and not np.isfinite(value):
        return None
    return value
