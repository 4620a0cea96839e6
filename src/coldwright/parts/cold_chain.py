"""From the boiling refrigerant out to the stored air: what each step costs in degrees.

A maker asks where the difference goes: a step that takes little of it repays no copper.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from coldwright.arrays import Array, lanes
from coldwright.parts.cold_box import BoxState
from coldwright.parts.cold_side.holdover import Holdover
from coldwright.parts.cold_side.surface_heat import ColdSide
from coldwright.parts.evaporator import BoilingTube, EvaporatorState

BOILING, TUBE_WALL = "boiling refrigerant", "tube wall"
COIL_FILM, FROZEN, BOND = "brine on the coil", "ice on the coil", "bond and sheet"
FROST, OUTSIDE, AIR_WAY = "frost", "outside film", "way of the air"
SURFACE_PASSES = 12


def cold_chain(
    cold_side: ColdSide,
    tube: BoilingTube,
    evaporator: EvaporatorState,
    evaporating_temperature: Array,
    box: BoxState,
) -> Mapping[str, Array]:
    """Difference [K] that each step takes, from the refrigerant to the mean of the stored air.

    Their sum is stored air less evaporating temperature. On the refrigerant's side of the source
    (brine, or a plate's compartment) the heat is that while the machine runs, on its other side the
    mean heat of the box. `outside film` is convection and radiation side by side, from the
    compartment's air; `way of the air` is stored air less what the cold surface sees. Lanes as of
    the states given.
    """
    source = box.source_temperature
    film, wall, outer = _along_the_tube(tube, evaporator)
    span = (source - evaporating_temperature) / (film + wall + outer)
    steps = {BOILING: lanes(film * span), TUBE_WALL: lanes(wall * span)}
    if cold_side.source_is_air:
        steps |= _beyond_the_tube(cold_side, evaporator, lanes(outer * span), source)
        return {**steps, AIR_WAY: lanes(box.air_temperature - source)}
    steps[FROZEN if isinstance(cold_side, Holdover) else COIL_FILM] = lanes(outer * span)
    inner = {
        name: each
        for name, each in reversed(list(box.surface.resistances.items()))
        if not name.startswith(("convection", "radiation"))
    }
    steps |= {name: lanes(each * box.heat) for name, each in inner.items()}
    seen = box.compartment_air_temperature
    steps[OUTSIDE] = lanes(seen - box.surface_temperature)
    return {**steps, AIR_WAY: lanes(box.air_temperature - seen)}


def _along_the_tube(tube: BoilingTube, evaporator: EvaporatorState) -> tuple[Array, Array, Array]:
    """Resistances of one metre of wet tube [m K/W]: boiling film, tube wall, wall to source."""
    film = 1.0 / (np.pi * tube.inside_diameter * evaporator.film_coefficient)
    return lanes(film), lanes(tube.wall_resistance), lanes(1.0 / evaporator.outer_conductance)


def _beyond_the_tube(
    cold_side: ColdSide, evaporator: EvaporatorState, drop: Array, source: Array
) -> dict[str, Array]:
    """Split `drop` [K] of a plate or bare tube: bond and sheet, frost, outside film.

    The films stand at the metal's own temperature while the machine runs, found in a few passes.
    """
    length = cold_side.tube.length
    heat = evaporator.outer_conductance * drop * length
    metal = source - 0.8 * drop
    films = cold_side.films(metal, source, source, cold_side.surface.air_pressure)
    for _ in range(SURFACE_PASSES):
        both = films.convective_conductance + films.radiative_conductance
        # at most the whole drop: a bare tube has no bond, and rounding must not make one
        metal = source - np.minimum(heat / both, drop)
        films = cold_side.films(metal, source, source, cold_side.surface.air_pressure)
    outside = np.minimum(heat / (films.convective_conductance + films.radiative_conductance), drop)
    # the multiplier of a bench corrects film and frost together: their ratio stays
    frost = (
        outside
        * films.frost_resistance
        * (films.convective_conductance + films.radiative_conductance)
        / cold_side.surface.film_multiplier
    )
    return {
        BOND: lanes(drop - outside),
        FROST: lanes(frost),
        OUTSIDE: lanes(outside - frost),
    }
