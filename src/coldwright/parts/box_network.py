"""The box as a network of heat paths whose films stand still for one pass.

Every conductance depends gently on temperatures; held still for a pass, they make a small linear
network, solved here in closed form. Passes repeat until the films fit the temperatures.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array, lanes
from coldwright.parts.cabinet import AirExchange, Cabinet
from coldwright.parts.conditions import Surroundings
from coldwright.parts.moisture import EVAPORATION_AT_FREEZING


@dataclass(frozen=True)
class WallTerms:
    """Faces, bridges and gasket as straight lines in inside air and radiated heat.

    heat = constant - slope * T_air + radiation_draw * Q_radiated; liner = liner_constant
    + liner_slope * T_air - liner_cooling * Q_radiated. Held once for all passes.
    """

    constant: Array
    slope: Array
    radiation_draw: Array
    liner_constant: Array
    liner_slope: Array
    liner_cooling: Array

    @classmethod
    def of(cls, cabinet: Cabinet, surroundings: Surroundings) -> WallTerms:
        """The same sums as `cabinet.face_heat`, gathered by what they multiply."""
        bridges, gasket = cabinet.bridge_and_gasket
        slope = lanes(bridges + gasket)
        constant = lanes(slope * surroundings.room_temperature)
        draw = liner_constant = liner_pull = liner_cooling = lanes(0.0)
        for face in cabinet.faces:
            share = face.area / cabinet.liner_area
            conductance = face.conductance * cabinet.conductance_multiplier
            film = face.inside_resistance * share
            outside = surroundings.temperature_of(face.adjoining)
            slope = lanes(slope + conductance)
            constant = lanes(constant + conductance * outside)
            draw = lanes(draw + conductance * film)
            liner_constant = lanes(liner_constant + film * conductance * outside)
            liner_pull = lanes(liner_pull + film * conductance)
            liner_cooling = lanes(liner_cooling + film * (share - conductance * film))
        return cls(constant, slope, draw, liner_constant, lanes(1.0 - liner_pull), liner_cooling)

    def with_air(
        self,
        cabinet: Cabinet,
        surroundings: Surroundings,
        exchange: AirExchange,
        evaporation: Array,
    ) -> tuple[Array, Array]:
        """Constant [W] and slope [W/K] of all sensible gains, air exchange held still.

        evaporation: of the contents [kg/s], whose heat the air gives.
        """
        carried = exchange.total * exchange.specific_heat
        load = cabinet.warm_load_capacity_flow
        contents = cabinet.contents_heat - evaporation * EVAPORATION_AT_FREEZING
        constant = (
            self.constant
            + carried * surroundings.room_temperature
            + load * cabinet.warm_load_temperature
            + contents
        )
        return lanes(constant), lanes(self.slope + carried + load)


@dataclass(frozen=True)
class HeldPass:
    """One pass: conductances held still. Gains [W, W/K]; resistances [K/W]; latent heat [W].

    air_resistance: stored air to cold surface; source_resistance: cold surface to source (negative
    where the source is the compartment); radiation: conductance liner to surface [W/K]. Latent heat
    is the line latent - latent_slope * (surface - held_surface): a surface that warms takes up
    less, and without that slope thick frost would make the passes swing.
    """

    walls: WallTerms
    gain_constant: Array
    gain_slope: Array
    air_resistance: Array
    source_resistance: Array
    radiation: Array
    latent: Array
    latent_slope: Array
    held_surface: Array

    @property
    def latent_at_zero(self) -> Array:
        """Latent heat's line, carried to a surface at 0 K [W]."""
        return lanes(self.latent + self.latent_slope * self.held_surface)

    @property
    def stiffening(self) -> Array:
        """1 + source_resistance * latent_slope, above 0 by the choice of the slope."""
        return lanes(1.0 + self.source_resistance * self.latent_slope)


@dataclass(frozen=True)
class NetworkTemperatures:
    """Solution of one pass: temperatures [K], convective, radiative and latent heat [W]."""

    air: Array
    surface: Array
    source: Array
    liner: Array
    convective: Array
    radiative: Array
    latent: Array


def _completed(
    held: HeldPass, air: Array, surface: Array, source: Array, radiative: Array
) -> NetworkTemperatures:
    walls = held.walls
    sensible = held.gain_constant - held.gain_slope * air + walls.radiation_draw * radiative
    liner = walls.liner_constant + walls.liner_slope * air - walls.liner_cooling * radiative
    return NetworkTemperatures(
        air=lanes(air),
        surface=lanes(surface),
        source=lanes(source),
        liner=lanes(liner),
        convective=lanes(sensible - radiative),
        radiative=lanes(radiative),
        latent=lanes(held.latent_at_zero - held.latent_slope * surface),
    )


def solve_at_source(held: HeldPass, source: Array) -> NetworkTemperatures:
    """Stored air and radiated heat from two balances, the source's temperature given.

    Convection: air - surface = R_air Q_c; radiation: Q_r = G (liner - surface); the surface stands
    at source + R_source (Q_c + Q_r + latent); Q_c + Q_r is the sensible gain.
    """
    walls, radiation = held.walls, held.radiation
    to_air, to_source = held.air_resistance, held.source_resistance / held.stiffening
    draw = walls.radiation_draw
    # the surface as a line: rest - to_source * slope * air + to_source * draw * radiated
    rest = source / held.stiffening + to_source * (held.gain_constant + held.latent_at_zero)
    a_air = 1.0 + (to_air + to_source) * held.gain_slope
    a_radiated = to_air * (1.0 - draw) - to_source * draw
    a_right = to_air * held.gain_constant + rest
    b_air = -radiation * (walls.liner_slope + to_source * held.gain_slope)
    b_radiated = 1.0 + radiation * (walls.liner_cooling + to_source * draw)
    b_right = radiation * (walls.liner_constant - rest)
    determinant = a_air * b_radiated - a_radiated * b_air
    air = (a_right * b_radiated - a_radiated * b_right) / determinant
    radiative = (a_air * b_right - b_air * a_right) / determinant
    surface = rest + to_source * (draw * radiative - held.gain_slope * air)
    return _completed(held, lanes(air), lanes(surface), source, lanes(radiative))


def solve_at_air(held: HeldPass, air: Array) -> NetworkTemperatures:
    """Radiated heat, surface and source from the same balances, the stored air's given."""
    walls, radiation, to_air = held.walls, held.radiation, held.air_resistance
    still = held.gain_constant - held.gain_slope * air
    convected_less = 1.0 - walls.radiation_draw
    liner = walls.liner_constant + walls.liner_slope * air
    right = radiation * (liner - air + to_air * still)
    left = 1.0 + radiation * (walls.liner_cooling + to_air * convected_less)
    radiative = right / left
    convective = still - convected_less * radiative
    surface = air - to_air * convective
    latent = held.latent_at_zero - held.latent_slope * surface
    source = surface - held.source_resistance * (convective + radiative + latent)
    return _completed(held, air, lanes(surface), lanes(source), lanes(np.asarray(radiative)))
