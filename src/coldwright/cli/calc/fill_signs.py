"""Signs of too little and too much refrigerant, in this machine's own numbers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from coldwright.cli.calc.answer import ICE_POINT, Row, Writer
from coldwright.units import Kind
from coldwright.verdict.figures import percent
from coldwright.verdict.fill_window import OVER, SHORT

LESS, MORE = f"{percent(1.0 - SHORT)} less", f"{percent(OVER - 1.0)} more"
FIRST_SHARE = 0.8  # of the charge, weighed in first


@dataclass(frozen=True)
class Reading:
    """One sign: its words, its key, how it is written, and what a bench reading is good to [SI].

    How good: common practice, no source. `relative`: a share of the reading.
    """

    label: str
    key: str
    kind: Kind
    good_to: float
    offset: float = 0.0
    relative: bool = False


READINGS = (
    Reading("low side", "suction_Pa", Kind.absolute_pressure, 5e3),
    Reading("high side", "discharge_Pa", Kind.absolute_pressure, 20e3),
    Reading("power", "power_W", Kind.power, 0.02, relative=True),
    Reading("current", "current_A", Kind.current, 0.03, relative=True),
    Reading("superheat, end of coil", "superheat_K", Kind.temperature_difference, 2.0),
    Reading("gas back at the shell", "return_gas_C", Kind.temperature, 2.0, ICE_POINT),
    Reading("liquid line", "liquid_line_C", Kind.temperature, 2.0, ICE_POINT),
    Reading("air, never stopping", "coldest_air_C", Kind.temperature, 1.0, ICE_POINT),
)
SHARES = (
    ("coil that is wet (frosts)", "coil_wet_share"),
    ("liquid in what comes back", "return_liquid_share"),
    ("running", "run_fraction"),
)


def sign_rows(signs: Mapping[str, Any], write: Writer) -> list[Row]:
    """A row for each sign: as charged, then with less and with more."""
    right = signs["right"]
    if right is None:
        return []
    states = [signs[name] for name in ("right", "short", "over")]
    rows = [("signs, air at its target", "as charged", f"{LESS} / {MORE}")]
    rows += [
        _row(each.label, [s and _written(s, each, write) for s in states]) for each in READINGS
    ]
    rows += [_row(label, [s and _share(s[key]) for s in states]) for label, key in SHARES]
    return rows


def _row(label: str, told: Sequence[str | None]) -> Row:
    right, short, over = (each or "no balance" for each in told)
    return f"  {label}", right, f"{short} / {over}"


def _written(state: Mapping[str, Any], reading: Reading, write: Writer) -> str:
    return write.si(state[reading.key] + reading.offset, reading.kind)


def _share(value: float) -> str:
    return "all the time" if value > 1.0 else percent(value)


def sign_notes(signs: Mapping[str, Any], write: Writer) -> list[str]:
    """How to weigh in, and which reading tells most of a missing fifth and of one too many."""
    right = signs["right"]
    if right is None:
        return []
    first = write.si(FIRST_SHARE * right["charge_g"] / 1e3, Kind.mass)
    notes = [
        "The signs are for air at its target in the usual room, the machine on for half an hour. "
        f"Weigh in {first} first, let it settle, compare, then add in small steps; what is in is "
        "what the scale says."
    ]
    for words, name in ((LESS, "short"), (MORE, "over")):
        state = signs[name]
        if state is not None:
            best = max(READINGS, key=lambda each: _tells(each, right, state))
            before, after = (_written(each, best, write) for each in (right, state))
            notes.append(f"What tells {words} soonest here: {best.label}, {before} -> {after}.")
    return notes


def _tells(reading: Reading, right: Mapping[str, Any], other: Mapping[str, Any]) -> float:
    """How many times the change is of what the reading is good to."""
    now, then = right[reading.key], other[reading.key]
    good_to = reading.good_to * (abs(now) if reading.relative else 1.0)
    return float(abs(then - now) / good_to)
