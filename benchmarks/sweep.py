"""Settle many drawn systems over the full range and say how many balance, and why others do not.

`python -m benchmarks.sweep --count 2400` prints the table; with `--write` it also renews
docs/theory/balance_sweep.md and docs/charts/balance-sweep.svg. Lanes are drawn and settled in
chunks, so that memory stays the same for any count; Ctrl-C ends the run with what there is.
`--lanes FILE` keeps every lane without a balance, to be drawn again by its refrigerant, cold side,
chunk and number.
"""

from __future__ import annotations

import argparse
import json
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "tests"))

from benchmarks.sweep_page import write_page
from coldwright.arrays import Array
from coldwright.parts.lane_tools import take_lanes
from coldwright.plant.audit import audit
from coldwright.plant.balance import BALANCED, REASONS, Balance, settle
from coldwright.plant.charge_rule import FixedCharge
from coldwright.plant.evaluation import Conditions
from coldwright.tracing.shares import at_most
from support.full_range import KINDS, NAMES, FullRange, full_range

CHUNK = 500
SPEED_LANES = (1, 10, 100, 1000, 10000)
SPEED_GROUP = ("R152a", "vessel")
# Lanes are not alike: short calls are repeated until so many different ones were met.
SPEED_SAMPLE = 40


@dataclass
class Group:
    """What was found of one refrigerant and cold side; arrays over its lanes so far."""

    reasons: list[NDArray[np.int_]] = field(default_factory=list)
    steps: list[NDArray[np.int_]] = field(default_factory=list)
    within: list[NDArray[np.bool_]] = field(default_factory=list)
    residual: float = 0.0
    audit: float = 0.0
    seconds: float = 0.0

    def add(self, drawn: FullRange, balance: Balance, seconds: float) -> None:
        """One more chunk."""
        good = balance.reason == BALANCED
        self.reasons.append(balance.reason.copy())
        self.steps.append(balance.steps.copy())
        self.within.append(within_reach(drawn, balance))
        self.seconds += seconds
        if np.any(good):
            books = audit(drawn.system, drawn.at, balance.evaluation, drawn.charge)
            self.residual = max(self.residual, float(np.max(balance.residual[good])))
            self.audit = max(self.audit, float(np.max(books.worst[good])))


@dataclass
class Sweep:
    """All groups, and how long lanes take one by one and together."""

    groups: dict[tuple[str, str], Group] = field(default_factory=dict)
    speed: dict[int, float] = field(default_factory=dict)  # seconds for so many lanes
    lost: list[dict[str, object]] = field(default_factory=list)
    whole: bool = True

    def lanes(self, what: str, name: str | None = None, kind: str | None = None) -> Array:
        """`reasons`, `steps` or `within` of all lanes, or of one refrigerant, or cold side."""
        wanted = (
            group
            for (own, other), group in self.groups.items()
            if name in (None, own) and kind in (None, other)
        )
        found = [each for group in wanted for each in getattr(group, what)]
        return np.concatenate(found) if found else np.zeros(0, dtype=np.int_)

    def balanced(self, name: str | None = None, kind: str | None = None) -> float:
        """Share balanced of the lanes whose source the machine can reach; NaN without any."""
        within = self.lanes("within", name, kind).astype(bool)
        good = self.lanes("reasons", name, kind) == BALANCED
        return float(np.mean(good[within])) if np.any(within) else float("nan")

    def shares(self) -> list[float]:
        """Share of each of `REASONS` among the lanes whose source the machine can reach."""
        reasons = self.lanes("reasons")[self.lanes("within").astype(bool)]
        return [float(np.mean(reasons == each)) for each in range(len(REASONS))]

    @property
    def seconds(self) -> float:
        """Spent in settling."""
        return sum(group.seconds for group in self.groups.values())


def within_reach(drawn: FullRange, balance: Balance) -> NDArray[np.bool_]:
    """Where the source is no colder than the machine can make it.

    Beyond, the refrigerant boils warmer than the source and heats it, settled or not.
    """
    boiling = balance.evaluation.unknowns.evaporating_temperature
    return np.asarray(boiling < drawn.at.source_temperature)


def chunks(count: int) -> Iterator[tuple[str, str, int, int]]:
    """Refrigerant, cold side, size and number of every chunk; groups in turn, `count` lanes."""
    pairs = [(name, kind) for name in NAMES for kind in KINDS]
    each = [count // len(pairs) + (i < count % len(pairs)) for i in range(len(pairs))]
    for number in range(1 + max(each) // CHUNK):
        for pair, lanes in zip(pairs, each, strict=True):
            size = min(lanes - number * CHUNK, CHUNK)
            if size > 0:
                yield *pair, size, number


def lost_lanes(drawn: FullRange, balance: Balance, number: int) -> Iterator[dict[str, object]]:
    """The lanes of a chunk that have no balance."""
    e = balance.evaluation.unknowns
    for lane in np.flatnonzero(balance.reason != BALANCED):
        yield {
            "refrigerant": drawn.name,
            "cold_side": drawn.kind,
            "chunk": number,
            "chunk_size": len(drawn.charge),
            "lane": int(lane),
            "reason": REASONS[int(balance.reason[lane])],
            "residual": float(balance.residual[lane]),
            "source_C": float(drawn.at.source_temperature[lane]) - 273.15,
            "room_C": float(drawn.at.room_temperature[lane]) - 273.15,
            "charge_of_right": float(drawn.charge[lane] / drawn.right[lane]),
            "capillary_of_right": float(drawn.conductance[lane]),
            "exchanger": float(drawn.effectiveness[lane]),
            "evaporating_C": float(e.evaporating_temperature[lane]) - 273.15,
            "condensing_C": float(e.condensing_temperature[lane]) - 273.15,
            "misplaced": float(np.ravel(balance.evaluation.capillary.misplaced)[lane]),
        }


def sweep(count: int, found: Sweep) -> None:
    """Settle `count` lanes into `found`, telling progress."""
    done, begun = 0, time.perf_counter()
    for name, kind, size, number in chunks(count):
        drawn = full_range(name, kind, size, number)
        start = time.perf_counter()
        balance = settle(drawn.system, drawn.at, FixedCharge(drawn.charge))
        spent = time.perf_counter() - start
        found.groups.setdefault((name, kind), Group()).add(drawn, balance, spent)
        found.lost.extend(lost_lanes(drawn, balance, number))
        done += size
        left = (time.perf_counter() - begun) * (count - done) / done
        print(
            f"\r{done} of {count} lanes, {len(found.lost)} without a balance, "
            f"{left / 60.0:.1f} min left   ",
            end="",
            file=sys.stderr,
            flush=True,
        )
    print(file=sys.stderr)


def speeds(found: Sweep, most: int) -> None:
    """Time of one call on 1 to `most` lanes, in the mean over different lanes."""
    source = full_range(*SPEED_GROUP, min(CHUNK, most), 0)
    for count in (each for each in SPEED_LANES if each <= most):
        spent: list[float] = []
        while len(spent) * count < SPEED_SAMPLE:
            first = len(spent) * count
            lane = np.arange(first, first + count) % len(source.charge)
            system = take_lanes(source.system, lane, len(source.charge))
            at: Conditions = take_lanes(source.at, lane, len(source.charge))
            start = time.perf_counter()
            settle(system, at, FixedCharge(source.charge[lane]))
            spent.append(time.perf_counter() - start)
        found.speed[count] = sum(spent) / len(spent)
        print(f"{count} lanes: {found.speed[count]:.3f} s", file=sys.stderr)


def report(found: Sweep) -> None:
    """Print all figures."""
    steps = found.lanes("steps")
    reach = float(np.mean(found.lanes("within")))
    print(f"{steps.size} lanes in {found.seconds:.0f} s of settling")
    print(f"{100.0 * reach:.2f} % have a source that the machine can reach; of these")
    for reason, share in zip(REASONS, found.shares(), strict=True):
        print(f"  {100.0 * share:6.2f} %  {reason}")
    worst = max(group.residual for group in found.groups.values())
    books = max(group.audit for group in found.groups.values())
    print(f"worst residual {worst:.1e}, worst of the audit {books:.1e}")
    told = ", ".join(f"{q:g} %: {np.percentile(steps, q):.0f}" for q in (50, 90, 99, 99.9, 100))
    print(f"steps: {told}")
    print(f"{'':9}" + "".join(f"{kind:>12}" for kind in KINDS))
    for name in NAMES:
        cells = (f"{100.0 * found.balanced(name, kind):10.2f} %" for kind in KINDS)
        print(f"{name:9}" + "".join(cells))


def main() -> None:
    """Sweep, print, and write where asked."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--count", type=int, default=2400, help="how many lanes")
    asked.add_argument("--write", action="store_true", help="renew the page and its chart")
    asked.add_argument("--lanes", type=Path, help="file for the lanes without a balance (JSON)")
    given = asked.parse_args()
    if given.count < 1:
        asked.error("--count must be at least 1")
    found = Sweep()
    try:
        sweep(given.count, found)
        with at_most(1):  # core, so that the time is the work's
            speeds(found, given.count)
    except KeyboardInterrupt:
        found.whole = False
        print("\nstopped; what was found so far:", file=sys.stderr)
    if not found.groups:
        return
    report(found)
    if given.lanes:
        given.lanes.write_text(json.dumps(found.lost, indent=1) + "\n", encoding="utf-8")
    if given.write:
        write_page(found)


if __name__ == "__main__":
    main()
