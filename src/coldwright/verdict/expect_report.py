"""Expectations of a first start as plain data."""

from __future__ import annotations

import math
from dataclasses import asdict
from typing import Any

from coldwright.shop.cautions import cautions_for
from coldwright.shop.refrigerant_safety import safety
from coldwright.verdict.expect import Expectations
from coldwright.verdict.report import citation_of

SCHEMA = 1
WORDS = {
    "coil": "length of the evaporator tube",
    "condenser": "size of the condenser as its films count it",
    "compressor": "pumping of the compressor",
    "capillary": "length of the capillary as its flow counts it",
    "charge": "charge",
    "cold_surface": "films of the cold surface",
    "insulation": "heat through the cabinet",
    "power": "power of the compressor",
    "store": "heat capacity of the cold side",
    "goods": "mass of the goods",
    "room": "room temperature",
}


def _first_stop(found: Expectations) -> dict[str, float | None]:
    """Minutes to the first cut-out, None where it does not come in time."""
    names = ("expected", "low", "high")
    return {
        name: value if math.isfinite(value) else None
        for name, value in zip(names, found.first_stops, strict=True)
    }


def expect_report(found: Expectations) -> dict[str, Any]:
    """The table as a JSON-ready dictionary: each reading with its 5 to 95 % range."""
    ranges = {name: (found.expected(name), *found.between(name)) for name in found.values}
    rows = [
        {
            "minute": minute,
            **{
                name: {"expected": float(mid[k]), "low": float(low[k]), "high": float(high[k])}
                for name, (mid, low, high) in ranges.items()
            },
        }
        for k, minute in enumerate(found.minutes)
    ]
    clock = found.clock
    doubts = [
        {
            "what": WORDS[name],
            ("standard_uncertainty_K" if name == "room" else "standard_uncertainty"): value,
        }
        for name, value in found.uncertainties.items()
    ]
    return {
        "expect_schema": SCHEMA,
        "name": clock.build.name,
        "revision": clock.build.revision,
        "room_C": float(clock.plan.room[0]) - 273.15,
        "charge_g": 1e3 * clock.charge,
        "empty": found.empty,
        "door": "shut",
        "range": "5 to 95 %",
        "complete": found.complete,
        "first_stop_minutes": _first_stop(found),
        "rows": rows,
        "uncertainties": doubts,
        "cautions": [
            {**asdict(each), "source": citation_of(each.source)}
            for each in cautions_for(safety(clock.build.refrigerant.name).safety_class)
        ],
    }
