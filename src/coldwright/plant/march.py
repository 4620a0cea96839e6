"""The way to a balance: linearly implicit steps in pseudo-time that end as Newton's.

Slopes cost five evaluations beside the one of the state itself. They are taken anew while the
residual falls slowly and carried on by Broyden's update while it falls fast; a lane whose carried
slopes mislead it gets new ones. Lanes that are done are left alone.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array
from coldwright.parts.capillary import CELLS
from coldwright.plant.charge_rule import ChargeRule
from coldwright.plant.evaluation import Conditions
from coldwright.plant.look import Look, Looker, refined
from coldwright.plant.system import SealedSystem

# Below the 1e-8 that a balance stands for; mixing the passes of the exchanger leaves some noise.
CONVERGED = 8e-9
# How near [K] to the ends of the refrigerant's table the march may come.
MARGIN = 2.0
# Lags [s] of the pseudo-time march and heat capacity of its shell [J/K]; only its path depends on
# them, never its end.
LAG = 10.0
CHARGING_LAG = 60.0
SHELL_CAPACITY = 30.0
GROWTH = 1.8
LEAST_GROWTH = 0.3
# Growth of the step for the factor by which the last one lowered the residual.
FOR_GAIN = 1.3
STEP_RANGE = (0.3, 1e12)
# Careful pace: longest move of each unknown in one step, and the nudge of its slope: K, K, J/kg, K,
# J/kg.
LONGEST_MOVE = np.array([4.0, 5.0, 15e3, 12.0, 10e3])
NUDGE = np.array([2e-4, 2e-4, 2.0, 1e-3, 1.0])
# Stands for the residual before the first evaluation: greater than any.
FIRST_NORM = 1e30


@dataclass(frozen=True)
class Pace:
    """How boldly to march: first step [s], reach of a step, how long slopes are carried on.

    Slopes are taken anew after `carried` steps, where a step lowered the residual to no less than
    `poor` of what it was, and always while it is above `far`. haste: of the passes that place the
    exchanger's heat (`parts.capillary.Placing`), which go on from step to step; None: each step
    places it anew by the same few passes, which always come to an end.
    """

    first_step: float
    reach: float
    carried: int
    poor: float
    far: float
    haste: float | None
    cells: int = CELLS  # of the capillary's march
    until: float = CONVERGED  # greatest residual that is good enough


# With half of the cells a look costs half, and its flow is off by some per mille: enough for the
# way to where Newton's method ends it.
COARSE = Pace(
    first_step=30.0,
    reach=6.0,
    carried=5,
    poor=0.5,
    far=0.3,
    haste=1.0,
    cells=CELLS // 2,
    until=0.1,
)
BOLD = Pace(first_step=30.0, reach=6.0, carried=5, poor=0.5, far=0.3, haste=1.0)
CAREFUL = Pace(first_step=3.0, reach=1.0, carried=1, poor=0.0, far=0.0, haste=0.5)
# Where liquid forms anew in a strongly cooled capillary its heat may have no place at rest.
STUBBORN = Pace(first_step=3.0, reach=1.0, carried=1, poor=0.0, far=0.0, haste=None)


@dataclass
class Track:
    """Where the lanes stand on their way; the last axis runs over them."""

    unknowns: Array  # [unknown, lane]
    step: Array
    norm: Array
    slope: Array  # [equation, unknown, lane] of the residuals
    storage: Array  # the same, of what the pseudo-time's equations store
    residual: Array  # [equation, lane] at the last state
    move: Array  # [unknown, lane] that led from there
    age: NDArray[np.int_]  # steps since the slopes were taken
    used: NDArray[np.int_]
    misplaced: Array  # what the last look changed of where the exchanger's heat is taken
    haste: float | None  # as the pace's
    taken: Array | None = None  # [point, lane] where it is taken, known from the first look on

    @property
    def apart(self) -> Array:
        """What is left to do: the greatest residual, or the exchanger's heat not yet in place."""
        return self.norm if self.haste is None else np.maximum(self.norm, self.misplaced)

    def refine(self) -> None:
        """Go on with the full number of cells: all that was found stays but the last residual."""
        self.move[:] = 0.0
        self.norm[:] = FIRST_NORM
        if self.taken is not None:
            self.taken = refined(self.taken, CELLS)

    @classmethod
    def start(
        cls, unknowns: Array, first_step: Array, haste: float | None, taken: Array | None = None
    ) -> Track:
        """At the beginning; the first step takes all slopes.

        `taken` is where a state nearby took the exchanger's heat, where one is known.
        """
        count = unknowns.shape[1]
        return cls(
            unknowns=unknowns.copy(),
            step=first_step.copy(),
            norm=np.full(count, FIRST_NORM),
            slope=np.zeros((5, 5, count)),
            storage=np.zeros((5, 5, count)),
            residual=np.zeros((5, count)),
            move=np.zeros((5, count)),
            age=np.full(count, np.iinfo(np.int_).max // 2),
            used=np.zeros(count, dtype=np.int_),
            misplaced=np.full(count, FIRST_NORM),
            haste=haste,
            taken=None if taken is None else taken.copy(),
        )


def march(
    system: SealedSystem,
    at: Conditions,
    rule: ChargeRule,
    track: Track,
    pace: Pace,
    most_steps: int,
) -> Track:
    """March on from where `track` stands until each lane's residual is below `pace.until`.

    At most `most_steps` steps; a lane that has not come so far shows in `apart`. All of `system`,
    `at` and `rule` have flat lanes (or none).
    """
    count = track.norm.size
    active = np.arange(count)
    haste = 1.0 if pace.haste is None else pace.haste
    looker = Looker(system, at, rule, count, haste, pace.cells)
    for _ in range(most_steps):
        fresh = track.age[active] >= pace.carried
        _look(looker, track, active, fresh)
        _move(system, track, active, pace)
        track.used[active] += 1
        active = active[track.apart[active] >= pace.until]
        if active.size == 0:
            break
    return track


def _look(looker: Looker, track: Track, active: NDArray[np.intp], fresh: NDArray[np.bool_]) -> None:
    """Evaluate the active lanes, those with `fresh` slopes nudged beside; renew all slopes."""
    own = active.size
    nudged = np.flatnonzero(fresh)
    asked = np.concatenate([np.arange(own), np.tile(nudged, 5)])
    lane = active[asked]
    trial = track.unknowns[:, lane]
    beside = trial[:, own:].reshape(5, 5, nudged.size)
    trial[:, own:] = (beside + np.diag(NUDGE)[:, :, None]).reshape(5, -1)
    seen = looker.at_rest(lane, trial) if track.haste is None else looker(lane, trial, track.taken)
    _carry_on(track, active[~fresh], seen.residual[:, :own][:, ~fresh])
    if nudged.size:
        _renew(track, active[nudged], seen, own, nudged)
    track.residual[:, active] = seen.residual[:, :own]
    # Where the exchanger's heat is taken, for the next look to begin with.
    if track.taken is None:
        track.taken = np.zeros((len(seen.taken), track.norm.size))
    track.taken[:, active] = seen.taken[:, :own]
    track.misplaced[active] = seen.misplaced[:own]


def _carry_on(track: Track, lane: NDArray[np.intp], found: Array) -> None:
    """Broyden's update: the least change of the slopes that explains the last move."""
    move = track.move[:, lane]
    slope = track.slope[:, :, lane]
    unexplained = found - track.residual[:, lane] - np.einsum("eul,ul->el", slope, move)
    scaled = move / LONGEST_MOVE[:, None] ** 2
    size = np.maximum(np.sum(move * scaled, axis=0), 1e-300)
    track.slope[:, :, lane] = slope + unexplained[:, None] * (scaled / size)[None]


def _renew(
    track: Track, lane: NDArray[np.intp], seen: Look, own: int, nudged: NDArray[np.intp]
) -> None:
    """Slopes and storage from the nudged looks that stand behind the first `own`."""
    beside = seen.residual[:, own:].reshape(5, 5, nudged.size)
    track.slope[:, :, lane] = (beside - seen.residual[:, None, nudged]) / NUDGE[:, None]
    rise = seen.low_side[own:].reshape(5, nudged.size) - seen.low_side[nudged]
    storage = np.zeros((5, 5, nudged.size))
    storage[0] = rise / NUDGE[:, None] / seen.mass_flow[nudged]
    storage[2, 2] = storage[4, 4] = LAG / seen.latent_heat[nudged]
    storage[3, 3] = SHELL_CAPACITY / seen.power[nudged]
    track.storage[:, :, lane] = storage
    track.age[lane] = 0


def _move(system: SealedSystem, track: Track, active: NDArray[np.intp], pace: Pace) -> None:
    """One linearly implicit step of the active lanes, and the length of their next one."""
    y, step, residual = track.unknowns[:, active], track.step[active], track.residual[:, active]
    lowest = system.refrigerant.least_temperature + MARGIN
    highest = system.refrigerant.greatest_temperature - MARGIN
    norm = np.max(np.abs(residual), axis=0)
    wanted = residual.copy()
    # The charge is let in over a while, so that the low side keeps pace with the high side.
    wanted[1] = wanted[1] / (1.0 + CHARGING_LAG / step)
    matrix = track.storage[:, :, active] / step - track.slope[:, :, active]
    move, sound = _moves(matrix, wanted, y[0] <= lowest, y[1] >= highest)
    longest = np.max(np.abs(move) / (pace.reach * LONGEST_MOVE[:, None]), axis=0)
    shortened = 1.0 / np.maximum(longest, 1.0)
    arrived = y + move * shortened
    arrived[0] = np.clip(arrived[0], lowest, highest)
    arrived[1] = np.clip(arrived[1], arrived[0] + 0.5, highest)
    done = (norm if track.haste is None else np.maximum(norm, track.misplaced[active])) < CONVERGED
    arrived = np.where(done, y, arrived)
    growth = np.where(longest < 0.2, 4.0 * GROWTH, GROWTH)
    # A step that gained little must not be followed by a longer one: the march would swing to and
    # fro over a bend, such as where the first liquid appears in the condenser.
    gain = track.norm[active] / np.maximum(norm, 1e-300)
    growth = np.clip(FOR_GAIN * gain, LEAST_GROWTH, growth)
    step = np.where(longest < 1.0, step * growth, step * np.maximum(0.5, shortened))
    track.age[active] += 1
    stale = (norm > pace.poor * track.norm[active]) | (norm > pace.far) | ~sound
    track.age[active[stale]] = pace.carried
    track.unknowns[:, active] = arrived
    track.move[:, active] = arrived - y
    track.step[active] = np.clip(step, *STEP_RANGE)
    track.norm[active] = norm


def _moves(
    matrix: Array, right: Array, cold: NDArray[np.bool_], hot: NDArray[np.bool_]
) -> tuple[Array, NDArray[np.bool_]]:
    """Solve `matrix[equation, unknown, lane]` for the moves, and whether they are numbers at all.

    A condensing temperature that stands at the table's end (`hot`) and would go on is held there,
    its charge equation waived: an overfull condenser meanwhile empties into the low side, and the
    march comes back. So is an evaporating temperature at its end (`cold`), flow waived.
    """
    square, wanted = np.moveaxis(matrix, -1, 0), right.T
    square, sound = _solvable(square)
    move = np.linalg.solve(square, wanted[..., None])[..., 0]
    held = np.stack([cold & (move[:, 0] < 0.0), hot & (move[:, 1] > 0.0)], axis=-1)
    if np.any(held):
        fixed = np.pad(held, ((0, 0), (0, 3)))
        square = np.where(fixed[..., None], np.eye(5), square)
        move = np.linalg.solve(square, np.where(fixed, 0.0, wanted)[..., None])[..., 0]
    return np.asarray(np.where(sound[:, None], move, 0.0).T), sound


def _solvable(square: Array) -> tuple[Array, NDArray[np.bool_]]:
    """The matrices, those that updates have made singular replaced by one that is not."""
    sign, size = np.linalg.slogdet(square)
    sound = (sign != 0.0) & np.isfinite(size)
    return np.where(sound[:, None, None], square, np.eye(5)), sound
