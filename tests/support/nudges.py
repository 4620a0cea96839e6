"""Every numeric input of a sealed system, each moved a little in a lane of its own."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from typing import Any

import numpy as np

from coldwright.parts.lane_tools import stack_lanes
from coldwright.plant.charge_rule import FixedCharge
from coldwright.plant.evaluation import Conditions
from coldwright.plant.system import SealedSystem

SHARE = 1e-3
KELVIN = 0.1
# One length of joint for the capillary and for the suction line.
TIED = {"suction_line.joined_length": "capillary.exchanger_length"}


def inputs(part: Any, prefix: str = "") -> Iterator[str]:
    """Dotted paths of all finite numbers of a one-lane part that are not nought."""
    for each in fields(part):
        value, path = getattr(part, each.name), f"{prefix}{each.name}"
        if isinstance(value, np.ndarray | np.generic | float):
            if np.all(np.isfinite(value)) and np.all(np.asarray(value) != 0.0):
                yield path
        elif is_dataclass(value) and not type(value).__module__.startswith("coldwright.fluids"):
            yield from inputs(value, f"{path}.")


def moved(part: Any, path: str, factor: float) -> Any:
    """`part` with the number at `path` times `factor`."""
    name, _, rest = path.partition(".")
    value = getattr(part, name)
    return replace(part, **{name: moved(value, rest, factor) if rest else value * factor})


def nudged(
    system: SealedSystem, at: Conditions, charge: float
) -> tuple[list[str], SealedSystem, Conditions, FixedCharge]:
    """Names of the inputs; system, conditions and charge with lane 0 as it was.

    `system` and `at` have one lane. Lane 1 + i has input i larger by 0.1 %, or by 0.1 K.
    """
    names, systems, places, charges = [], [system], [at], [charge]
    for path in inputs(system):
        if path in TIED.values():
            continue
        names.append(path)
        changed = moved(system, path, 1.0 + SHARE)
        if path in TIED:
            changed = moved(changed, TIED[path], 1.0 + SHARE)
        systems.append(changed)
        places.append(at)
        charges.append(charge)
    rooms = ("room_temperature", "compressor_room_temperature")
    for name, what in (
        ("source_temperature", ("source_temperature",)),
        ("room_temperature", rooms),
    ):
        names.append(name)
        systems.append(system)
        places.append(replace(at, **{each: getattr(at, each) + KELVIN for each in what}))
        charges.append(charge)
    names += ["atmospheric_pressure", "charge"]
    systems += [system, system]
    places += [moved(at, "atmospheric_pressure", 1.0 + SHARE), at]
    charges += [charge, charge * (1.0 + SHARE)]
    return (
        names,
        _flat(stack_lanes(systems)),
        _flat(stack_lanes(places)),
        FixedCharge(np.array(charges)),
    )


def _flat(part: Any) -> Any:
    """Parts of one lane each, stacked, without the axis of that lane."""
    if isinstance(part, np.ndarray):
        return part.reshape(-1)
    if is_dataclass(part) and not type(part).__module__.startswith("coldwright.fluids"):
        return replace(part, **{f.name: _flat(getattr(part, f.name)) for f in fields(part)})
    return part
