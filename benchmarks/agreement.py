"""Compare the balance with the slow model of tests/support/scalar on many random builds.

`python -m benchmarks.agreement --count 200` prints how many agree within 0.1 K and 0.5 %, the
median, the worst, and what a balance costs in each. It takes some minutes.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "tests"))

from coldwright.arrays import Array
from coldwright.parts.lane_tools import take_lanes
from support.scalar.balance import CLOSED
from support.scalar.draws import BALANCED, KINDS, Builds, builds, deviations, settled, slow
from support.systems import DISPLACEMENT

# Of ten builds of a refrigerant, how many have which cold side.
SHARES = dict(zip(KINDS, (0.6, 0.2, 0.2), strict=True))
WARMING = 6
MOST_K, MOST_PERCENT = 0.1, 0.5
NAMES = ("evaporating K", "condensing K", "capacity %", "power %", "flow %")
FAR_K, FAR_PERCENT = 0.5, 3.0  # so far off it is shown


class Tally:
    """What was found over all builds."""

    def __init__(self) -> None:
        self.off: list[Array] = []
        self.unbalanced = self.unclosed = 0
        self.quick = self.slow = 0.0
        self.wet_inlet: list[bool] = []

    def add(self, name: str, kind: str, lane: int, off: Array, inlet: float) -> None:
        """One compared build; one that is far off is shown at once."""
        self.off.append(off)
        self.wet_inlet.append(inlet > 0.0)
        size = np.abs(off)
        if np.max(size[:2]) > FAR_K or np.max(size[2:]) > FAR_PERCENT:
            row = " ".join(f"{value:+.2f}" for value in off)
            print(f"  far off: {name}, {kind}, {lane}, {inlet:.3f} gas before the tube: {row}")

    def report(self) -> None:
        """Print all figures."""
        off = np.abs(np.array(self.off))
        met = np.all(off[:, :2] < MOST_K, axis=1) & np.all(off[:, 2:] < MOST_PERCENT, axis=1)
        wet = np.array(self.wet_inlet)
        print(f"{len(off)} compared; {self.unbalanced} without a balance of the program, ", end="")
        print(f"{self.unclosed} that the slow model could not close")
        print(f"within {MOST_K} K and {MOST_PERCENT} %: {100.0 * np.mean(met):.1f} %")
        for what, part in (("gas enters the tube", wet), ("only liquid enters", ~wet)):
            if np.any(part):
                print(f"  where {what}: {100.0 * np.mean(met[part]):.1f} % of {part.sum()}")
        print(f"{'':14}" + "".join(f"{name:>15}" for name in NAMES))
        for label, share in (("median", 0.5), ("19 of 20", 0.95), ("worst", 1.0)):
            row = np.quantile(off, share, axis=0)
            print(f"{label:14}" + "".join(f"{value:15.3f}" for value in row))
        quick, long = 1e3 * self.quick / len(off), 1e3 * self.slow / len(off)
        print(
            f"a balance alone: {quick:.0f} ms; slow model {long:.0f} ms; ratio {long / quick:.0f}"
        )


def groups(count: int, seed: int) -> Iterator[tuple[str, str, Builds]]:
    """`count` builds, spread over refrigerants and cold sides."""
    for name in DISPLACEMENT:
        for kind, share in SHARES.items():
            each = max(round(count / len(DISPLACEMENT) * share), 1)
            yield name, kind, builds(name, kind, each, seed + 10 * KINDS.index(kind))


def main() -> None:
    """Compare and print."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--count", type=int, default=200, help="how many builds")
    asked.add_argument("--seed", type=int, default=41, help="of the draw")
    given = asked.parse_args()
    tally = Tally()
    for name, kind, group in groups(given.count, given.seed):
        for _ in range(WARMING):  # until the balance's code is compiled
            settled(take_lanes(group, np.array([0]), group.charge.size))
        for lane in range(group.charge.size):
            one = take_lanes(group, np.array([lane]), group.charge.size)
            start = time.process_time()
            balance = settled(one)
            between = time.process_time()
            if balance.reason[0] != BALANCED:
                tally.unbalanced += 1
                continue
            state = slow(one, balance, 0)
            if state.worst > CLOSED:
                tally.unclosed += 1
                print(f"  not closed: {name}, {kind}, lane {lane}, to {state.worst:.0e}")
                continue
            tally.quick += between - start
            tally.slow += time.process_time() - between
            off = np.array(list(vars(deviations(balance, 0, state)).values()))
            tally.add(name, kind, lane, off, state.hot.exit_quality)
    tally.report()


if __name__ == "__main__":
    main()
