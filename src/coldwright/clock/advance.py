"""One step of the clock: machine and films at its expected middle, then all temperatures."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array
from coldwright.clock import cold_table as film
from coldwright.clock.air import Lines, Moisture, moisture_of
from coldwright.clock.network import (
    AIR,
    CONDENSER,
    CONTENTS,
    FREEZING,
    NODE,
    SHELL,
    Held,
    Ladders,
    State,
    Step,
)
from coldwright.clock.plant import ClockPlant, Moment, Outside
from coldwright.clock.start import returned_share
from coldwright.clock.thermostat import PLACES
from coldwright.parts.moisture import EVAPORATION_AT_FREEZING
from coldwright.plant import machine_map as read

MELTING_HEAT = 333.5e3
"""Latent heat of melting ice [J/kg]; ASHRAE Fundamentals (from memory)."""

_DRIFTING = [NODE, AIR, CONDENSER]

FROST_DENSITY, FROST_CONDUCTIVITY = 100.0, 0.108
"""Light frost [kg/m3], [W/mK]: as where a build's frost is given by its thickness."""


FLOWS = (
    "machine",  # what the mapped capacity takes out of the node [W]
    "migration",  # heat that migrating refrigerant brings to the node [W]
    "power",  # electrical [W]
    "on",  # share of the step that the machine runs
    "gain",  # all that comes in from outside, goods' own heat and latent heat included [W]
    "melting",  # heat that frost takes up as it melts [W]
    "settled",  # moisture on the cold surface [kg/s]
    "surface",  # the cold surface [K]
    "to_surface",  # from the stored air by convection [W]
)
MACHINE, MIGRATION, POWER, ON, GAIN, MELTING, SETTLED, SURFACE, TO_SURFACE = range(len(FLOWS))


@dataclass(frozen=True)
class Advanced:
    """Where a step ends, what flowed, and the machine and films at its middle."""

    moment: Moment
    flows: Array  # means over the step `[FLOWS, lane]`
    machine: Array  # `[READ, lane]`
    films: Array  # `[column of the cold table, lane]`


def step_from(
    plant: ClockPlant, lines: Lines, moment: Moment, outside: Outside, ladders: Ladders
) -> Advanced:
    """Go on by the ladders' length of each lane; whether a lane runs does not change within it.

    The middle is expected from the drift of the last step and from how the drift changes.
    """
    step = ladders.length
    nodes = moment.state.nodes
    rate = moment.drift + moment.bend * (0.25 * step + 0.5 * moment.before)
    node, air, condenser = nodes[_DRIFTING] + 0.5 * step * rate
    films = plant.table.at(air, node)
    liner = moment.state.liner(plant.walls)
    area = films[film.AREA]
    inward = 1.0 / (
        films[film.INWARD] + moment.frost / (FROST_DENSITY * FROST_CONDUCTIVITY * area * area)
    )
    both = inward + films[film.AIR_FILM] + films[film.LINER_FILM]
    gained = inward * node + films[film.AIR_FILM] * air + films[film.LINER_FILM] * liner
    frosted = moment.frost > 0.0
    bare = gained / both
    dry = np.where(frosted, np.minimum(bare, FREEZING), bare)
    wet = moisture_of(
        plant, lines.moisture, moment, outside, dry, air, films[film.DEPOSITION], step
    )
    thaw = _thaw(moment.frost, gained + wet.latent - both * FREEZING, step)
    machine, slope = plant.machine.at(condenser, node)
    surplus = _surplus(plant, lines, moment, machine)
    held, returned, migration = _held(
        plant, moment, outside, wet, (inward, thaw, films), (machine, slope, node, surplus, step)
    )
    end, mean, surface = Step(plant.walls, ladders, held).advance(moment.state)
    on = moment.running.astype(np.float64)
    power = (on * machine[read.POWER] * plant.power_factor, on)
    flows = _flows(plant, mean, surface, outside, held, wet, (thaw, migration), power)
    taken_up = held.capacity[NODE] * (end.nodes[NODE] - nodes[NODE])
    end.nodes[NODE] = plant.store.after(nodes[NODE], taken_up)
    frost = moment.frost + step * (
        np.where(surface <= FREEZING, wet.settled, 0.0) - flows[MELTING] / MELTING_HEAT
    )
    drift = (end.nodes[_DRIFTING] - nodes[_DRIFTING]) / step
    following = Moment(
        state=end,
        humidity=wet.humidity,
        frost=np.maximum(frost, 0.0),
        running=moment.running,
        returned=returned,
        standing=np.where(moment.running, 0.0, moment.standing + step),
        drift=drift,
        bend=_bend(moment, drift, step),
        before=step,
    )
    return Advanced(following, flows, machine, films)


def _surplus(plant: ClockPlant, lines: Lines, moment: Moment, machine: Array) -> Array:
    """By how much more gas the compressor swallows at the pressure of rest, over the run's flow.

    As the suction's density, so as its pressure; how much better the cylinder fills is left out.
    """
    rest = np.minimum(lines.pressure(moment.state.nodes[NODE]), np.log(plant.standing_pressure))
    return np.expm1(np.maximum(rest - lines.pressure(machine[read.EVAPORATING]), 0.0))


def _bend(moment: Moment, drift: Array, step: Array) -> Array:
    """How drifts change [K/s2], from the last step's and this one's; none after a break.

    The air's is left out: it follows its walls within seconds, so its last drift tells little.
    """
    known = moment.before > 0.0
    apart = np.where(known, 0.5 * (step + moment.before), 1.0)
    bend = np.where(known, (drift - moment.drift) / apart, 0.0)
    bend[1] = 0.0
    return bend


@dataclass(frozen=True)
class Thaw:
    """Frost that melts: surfaces held at freezing all the step; heat [W] that melts a last rest."""

    held: NDArray[np.bool_]
    rest: Array


def _thaw(frost: Array, excess: Array, step: Array) -> Thaw:
    """By the heat [W] that is left over at a surface held at freezing.

    Where it would melt all the frost within the step, it takes just that much heat instead.
    """
    last = frost * (MELTING_HEAT / step)
    warm = (frost > 0.0) & (excess > 0.0)
    held = warm & (excess < last)
    return Thaw(held, np.where(warm & ~held, last, 0.0))


def _held(
    plant: ClockPlant,
    moment: Moment,
    outside: Outside,
    wet: Moisture,
    surface: tuple[Array, Thaw, Array],
    system: tuple[Array, Array, Array, Array, Array],
) -> tuple[Held, Array, Array]:
    """What stands still over the step; the share returned at its end; heat of migration [W]."""
    inward, thaw, films = surface
    machine, slope, node, surplus, step = system
    high_side = machine[read.HIGH_SIDE]
    returned, share = returned_share(
        moment.returned, moment.running, high_side / machine[read.MASS_FLOW], surplus, step
    )
    leaving = np.where(moment.running, 0.0, (moment.returned - returned) / step)
    migration = leaving * high_side * machine[read.MIGRATION_HEAT]
    doing = moment.running * share
    slope = doing * np.maximum(slope, 0.0)
    start = moment.state.nodes[NODE]
    store = plant.store.capacity(start, 2.0 * node - start)
    capacities = np.array(
        [
            store,
            plant.air_capacity,
            plant.contents_capacity,
            plant.condenser_capacity,
            plant.shell_capacity,
        ]
    )
    # the map's shell stands in the felt room
    warm = moment.running * (machine[read.SHELL] - machine[read.FELT_ROOM])
    place = PLACES[plant.control.place]
    exit_line = machine[read.EVAPORATING] + machine[read.SUPERHEAT]
    held = Held(
        capacity=capacities,
        inward=inward,
        air=films[film.AIR_FILM],
        liner=films[film.LINER_FILM],
        latent=wet.latent - thaw.rest,
        thawing=thaw.held,
        through=plant.tight_conductance + outside.leakage * outside.air_specific_heat,
        room=outside.room,
        goods=plant.contents_conductance,
        goods_heat=plant.contents_heat - wet.given_off * EVAPORATION_AT_FREEZING,
        machine=doing * machine[read.CAPACITY] - slope * node - migration,
        machine_slope=slope,
        condenser_heat=doing * machine[read.CONDENSER_HEAT],
        condenser=machine[read.CONDENSER_CONDUCTANCE],
        shell_heat=plant.shell_conductance * warm,
        shell=plant.shell_conductance,
        bulb_rate=1.0 / np.maximum(plant.control.lag, 1.0),
        bulb_place=place,
        line=np.where(moment.running, exit_line, start),
    )
    return held, returned, migration


def _flows(
    plant: ClockPlant,
    mean: State,
    surface: Array,
    outside: Outside,
    held: Held,
    wet: Moisture,
    passing: tuple[Thaw, Array],
    power: tuple[Array, Array],
) -> Array:
    """`FLOWS`: means over the step, from the mean temperatures that close its balance."""
    walls, nodes = plant.walls, mean.nodes
    thaw, migration = passing
    warm = walls.outside(outside.room, nodes[CONDENSER], nodes[SHELL])
    through = np.add.reduce(walls.conductance[-1] * (warm - mean.walls[-1]))
    gain = through + held.through * (outside.room - nodes[AIR]) + held.goods_heat + wet.latent
    to_surface = held.air * (nodes[AIR] - surface)
    skins = held.liner * (mean.liner(walls) - surface)
    melting = to_surface + skins + wet.latent - held.inward * (surface - nodes[NODE])
    out = held.machine + held.machine_slope * nodes[NODE]
    return np.array(
        [
            out + migration,
            migration,
            power[0],
            power[1],
            gain,
            np.where(thaw.held, melting, thaw.rest),
            wet.settled,
            surface,
            to_surface,
        ]
    )


def step_after_break(
    plant: ClockPlant, lines: Lines, moment: Moment, outside: Outside, step: Array
) -> tuple[Advanced, Moment]:
    """A step [s] after a start or a stop, and its beginning with the drift that follows.

    The drift is not the one before the break, so it is found first.
    """
    ladders = Ladders.of(plant.walls, step)
    none = np.zeros_like(moment.drift)
    broken = replace(moment, drift=none, bend=none, before=np.zeros_like(moment.before))
    first = step_from(plant, lines, broken, outside, ladders)
    again = replace(broken, drift=first.moment.drift)
    return step_from(plant, lines, again, outside, ladders), again


def heat_of(plant: ClockPlant, moment: Moment) -> Array:
    """Heat [J] of cold side, air, contents and walls, from a fixed zero."""
    nodes = moment.state.nodes
    walls = np.sum(plant.walls.capacity * moment.state.walls, axis=(0, 1))
    return np.asarray(
        plant.store.heat(nodes[NODE])
        + plant.air_capacity * nodes[AIR]
        + plant.contents_capacity * nodes[CONTENTS]
        + walls
    )
