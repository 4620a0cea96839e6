"""How far the charge may be off: where the gas lies, the window of fill, what one gram is worth.

Too little and the coil is starved on the hottest pull-down; too much and liquid comes back to the
compressor at the coldest it runs. Between the two lies the window; a capillary machine may have
none, and then the liquid counts for more.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array, lanes
from coldwright.build.result import Build
from coldwright.build.translation.plant import Translation
from coldwright.parts.charge import Inventory
from coldwright.plant.balance import BALANCED, Balance, settle
from coldwright.plant.box import Room, conditions
from coldwright.plant.charge_rule import FixedCharge
from coldwright.plant.operation import Operation, operate
from coldwright.verdict.checks.circuit import full_tubes
from coldwright.verdict.figures import CELSIUS, at_lane, machine_figures

# Exit superheat [K] above which a coil counts as starved, and the gas's share of what returns
# under which liquid counts as coming back: common practice, no source.
STARVED_SUPERHEAT = 20.0
DRY_QUALITY = 0.995
# Charges tried, as shares of the build's own.
LADDER = np.geomspace(0.35, 2.6, 36)
LEAST_MASS = 1e-9  # kg
# So far either way [kg] the charge is moved to see what a gram is worth.
NUDGE = 1e-3
# Signs of too little and too much are told for this share less and more.
SHORT, OVER = 0.8, 1.2


@dataclass(frozen=True)
class Rungs:
    """One state over the ladder of charges."""

    source_temperature: float  # [K] of brine or compartment air
    room_temperature: float  # [K]
    balance: Balance
    charge: Array  # [kg]

    @property
    def settled(self) -> NDArray[np.bool_]:
        """Where there is a balance."""
        return np.asarray(self.balance.reason == BALANCED)

    @property
    def superheat(self) -> Array:
        """At the evaporator's exit [K]."""
        return self.balance.evaluation.returning.superheat

    @property
    def return_quality(self) -> Array:
        """Gas in what comes back to the compressor, by mass."""
        return self.balance.evaluation.returning.quality

    @property
    def capacity(self) -> Array:
        """Heat taken in by the evaporator [W]."""
        return self.balance.evaluation.evaporator.heat

    @property
    def best_charge(self) -> float:
        """Charge [kg] of the greatest capacity on the ladder."""
        return float(self.charge[np.argmax(np.where(self.settled, self.capacity, -np.inf))])


@dataclass(frozen=True)
class Gram:
    """What one gram more changes; names carry their unit."""

    evaporating_K_per_g: float  # while the target is held
    capacity_W_per_g: float
    power_W_per_g: float
    run_percent_per_g: float | None  # of the time, to hold the target; None where it cannot
    running_air_K_per_g: float  # where the box comes to when it never stops
    hot_pull_down_capacity_W_per_g: float


@dataclass(frozen=True)
class Sign:
    """What gauges and thermometers show of one charge while the target is held, the machine on."""

    charge_g: float
    suction_Pa: float
    discharge_Pa: float
    power_W: float
    current_A: float
    coil_wet_share: float
    superheat_K: float  # at the coil's end
    return_gas_C: float  # at the shell
    return_liquid_share: float  # of what comes back
    subcooling_K: float  # before the capillary
    liquid_line_C: float
    run_fraction: float
    coldest_air_C: float  # when it never stops


@dataclass(frozen=True)
class Signs:
    """The same machine with less, with its own and with more refrigerant; None: no balance."""

    short: Sign | None
    right: Sign | None
    over: Sign | None


@dataclass(frozen=True)
class FillWindow:
    """The charge of one build and how far it may be off [kg, K]."""

    charge: float
    found: bool  # the charge was sought, not stated
    least: float | None  # not starved from here on; None: starved at every charge tried
    most: float | None  # no liquid comes back up to here; None: at every charge tried it does
    least_is_bound: bool  # even the least charge tried is not starved
    most_is_bound: bool  # even the greatest charge tried returns no liquid
    hot_pull_down: Rungs
    coldest: Rungs
    operation: Operation
    gram: Gram
    signs: Signs

    @property
    def open(self) -> bool:
        """Whether there is a charge that is neither starved nor returns liquid."""
        return self.least is not None and self.most is not None and self.least <= self.most

    def places(self, balance: Balance, lane: int = 0) -> dict[str, float]:
        """Refrigerant by place [kg]; what is under a millionth of a gram is none."""
        content = balance.evaluation.inventory
        found = {
            each.name: at_lane(getattr(content, each.name), lane) for each in fields(Inventory)
        }
        return {name: mass if mass > LEAST_MASS else 0.0 for name, mass in found.items()}


def fill_window(build: Build, translation: Translation) -> FillWindow:
    """Work out the fill window of `build`.

    The coldest it runs is what holds the target in the coolest room of the site, or, where the
    machine never stops there, what it comes to. One `settle` takes the whole ladder of charges in
    each of the two states. Content is known to about 15 % (Rice 1987), so the window is too.
    """
    plant, room, target = translation.plant, translation.room, translation.target
    own = operate(plant, room, target, translation.charge, translation.superheat)
    charge = at_lane(own.charge, 0)
    high = max(build.site.room_temperature_high.value, at_lane(room.temperature, 0))
    # Below a degree over the target there is nothing for the machine to do.
    low = max(build.site.room_temperature_low.value, at_lane(target, 0) + 1.0)
    step = min(NUDGE, 0.1 * charge)
    # The coolest room, then a little less and a little more of the charge, then much.
    tried = np.array([charge, charge - step, charge + step, SHORT * charge, OVER * charge])
    warm = np.repeat(at_lane(room.temperature, 0), tried.size - 1)
    rooms = replace(room, temperature=np.array([low, *warm]))
    wanted = np.full(tried.size, at_lane(target, 0))
    beside = operate(plant, rooms, wanted, tried, translation.superheat)
    state = beside.cycling if at_lane(beside.cycling.run_fraction, 0) <= 1.0 else beside.running
    charges = charge * LADDER
    charges = charges[charges < full_tubes(translation)]
    hot = _rungs(translation, charges, high, high)
    cold = _rungs(translation, charges, low, at_lane(state.box.source_temperature, 0))
    starved = hot.superheat > STARVED_SUPERHEAT
    wet = cold.return_quality < DRY_QUALITY
    least = _first(charges, hot.settled, starved, hot.superheat - STARVED_SUPERHEAT)
    most = _last(charges, cold.settled, wet, DRY_QUALITY - cold.return_quality)
    return FillWindow(
        charge=charge,
        found=translation.charge is None,
        least=least,
        most=most,
        least_is_bound=bool(np.any(hot.settled) and not starved[hot.settled][0]),
        most_is_bound=not bool(np.any(wet & cold.settled)),
        hot_pull_down=hot,
        coldest=cold,
        operation=own,
        gram=_gram(translation, beside, high, step),
        signs=Signs(
            _sign(translation, beside, 3), _sign(translation, own, 0), _sign(translation, beside, 4)
        ),
    )


def _sign(translation: Translation, operation: Operation, lane: int) -> Sign | None:
    """One lane's signs; None without a balance."""
    held, running = operation.cycling, operation.running
    if any(int(at_lane(each.balance.reason, lane)) != BALANCED for each in (held, running)):
        return None
    machine, e = translation.machine, held.balance.evaluation
    source = held.box.source_temperature
    figures = machine_figures(
        held.balance, source, machine.voltage, machine.magnetising_current, lane
    )
    return Sign(
        charge_g=at_lane(operation.charge, lane) * 1e3,
        suction_Pa=figures.suction_Pa,
        discharge_Pa=figures.discharge_Pa,
        power_W=figures.power_W,
        current_A=figures.current_A,
        coil_wet_share=at_lane(e.evaporator.wet_share, lane),
        superheat_K=figures.evaporator_exit_superheat_K,
        return_gas_C=figures.return_gas_C,
        return_liquid_share=max(1.0 - figures.return_quality, 0.0),
        subcooling_K=figures.subcooling_K,
        liquid_line_C=figures.condensing_C - figures.subcooling_K,
        run_fraction=at_lane(held.run_fraction, lane),
        coldest_air_C=at_lane(running.box.air_temperature, lane) - CELSIUS,
    )


def _rungs(translation: Translation, charges: Array, room: float, source: float) -> Rungs:
    """Settle all charges at one state."""
    around = Room(
        *(
            np.broadcast_to(a, charges.shape)
            for a in vars(replace(translation.room, temperature=lanes(room))).values()
        )
    )
    at = conditions(around, np.full(charges.shape, source))
    return Rungs(source, room, settle(translation.plant.system, at, FixedCharge(charges)), charges)


def _first(
    charges: Array, settled: NDArray[np.bool_], bad: NDArray[np.bool_], excess: Array
) -> float | None:
    """The charge from which on nothing is `bad`; between two rungs by a straight line of `excess`.

    Rungs without a balance are left out. None where the greatest charge is still bad.
    """
    c, b, e = charges[settled], bad[settled], excess[settled]
    if b.size == 0 or b[-1]:
        return None
    if not np.any(b):
        return float(c[0])
    last = int(np.max(np.flatnonzero(b)))
    share = e[last] / (e[last] - e[last + 1])
    return float(c[last] + share * (c[last + 1] - c[last]))


def _last(
    charges: Array, settled: NDArray[np.bool_], bad: NDArray[np.bool_], excess: Array
) -> float | None:
    """The charge up to which nothing is `bad`. None where the least charge is bad already."""
    c, b, e = charges[settled], bad[settled], excess[settled]
    if b.size == 0 or b[0]:
        return None
    if not np.any(b):
        return float(c[-1])
    first = int(np.min(np.flatnonzero(b)))
    share = e[first - 1] / (e[first - 1] - e[first])
    return float(c[first - 1] + share * (c[first] - c[first - 1]))


def _gram(translation: Translation, beside: Operation, high: float, step: float) -> Gram:
    """What one gram more changes, by the lanes 1 and 2 of `beside`: `step` [kg] less and more."""
    held, running = beside.cycling.balance.evaluation, beside.running.box
    pair = slice(1, 3)
    hot = _rungs(translation, beside.charge[pair], high, high)
    grams = 2e3 * step

    def slope(values: Array) -> float:
        less, more = values[-2:] if values.size == 2 else values[pair]
        return float((more - less) / grams)

    share = beside.cycling.run_fraction
    holds = bool(np.all(share[pair] <= 1.0))
    return Gram(
        evaporating_K_per_g=slope(held.unknowns.evaporating_temperature),
        capacity_W_per_g=slope(held.evaporator.heat),
        power_W_per_g=slope(held.compressor.power),
        run_percent_per_g=100.0 * slope(share) if holds else None,
        running_air_K_per_g=slope(running.air_temperature),
        hot_pull_down_capacity_W_per_g=slope(hot.capacity),
    )
