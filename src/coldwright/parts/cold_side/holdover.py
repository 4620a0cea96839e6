"""A holdover: a tank round the coil, its filling frozen by the machine and melted by the box."""

from __future__ import annotations

from dataclasses import dataclass, field, fields

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.filling import Filling
from coldwright.fluids.ice import ice_specific_heat
from coldwright.parts.cold_side.cold_surface import unity
from coldwright.parts.cold_side.films import film_temperature
from coldwright.parts.cold_side.frozen_layer import frozen_layer_resistance, frozen_layer_thickness
from coldwright.parts.cold_side.vessel import Vessel

ICE_FADES_OVER = 1.0
"""Ice is counted up to the first ice's temperature and fades over so many K above it: a filling
that warm holds none (assumed, no source)."""


@dataclass(frozen=True, kw_only=True)
class Holdover(Vessel):
    """Tank, coil and filling, partly frozen; arrays over lanes.

    filling: what freezes (`brine` is its melt); state_of_charge: frozen share of its latent store,
    0 melted to 1 full; pitch [m]: from one run of the coil to the next. The source is the filling,
    at one temperature.

    On the coil's side the frozen share lies round the tube as an even layer, behind it the film of
    the melt, as on the bare tube of a vessel. through_melt: share of the coil's heat that comes
    through that film: 1 at rest, when all of it is what the box sends in, less while the store is
    being frozen, since what freezes gives its heat at the front itself.
    On the tank's side the melt's film gives way, with the frozen share, to conduction through half
    the mean depth of a solid. At state of charge 0 both are the vessel's.
    """

    filling: Filling
    state_of_charge: Array
    pitch: Array
    through_melt: Array = field(default_factory=unity)

    @classmethod
    def around(
        cls, vessel: Vessel, filling: Filling, state_of_charge: Array, pitch: Array
    ) -> Holdover:
        """The holdover in the tank of `vessel`; its brine must be the filling's liquid."""
        kept = {each.name: getattr(vessel, each.name) for each in fields(vessel)}
        return cls(**kept, filling=filling, state_of_charge=state_of_charge, pitch=pitch)

    @property
    def brine_mass(self) -> Array:
        """Mass of the filling [kg], filled to the level at 20 °C."""
        return lanes(self.brine_volume * self.filling.liquid_density)

    @property
    def latent_store(self) -> Array:
        """Heat [J] that the whole filling takes up while it melts."""
        return lanes(self.brine_mass * self.filling.latent_heat)

    @property
    def heat_capacity(self) -> Array:
        """Sensible heat capacity at this state of charge [J/K]; `enthalpy` has the latent heat."""
        ice = self.state_of_charge * self.filling.ice_share
        cold = ice_specific_heat(self.filling.last_ice)
        warm = self.brine.specific_heat(self.filling.first_ice)
        mixed = self.brine_mass * (ice * cold + (1.0 - ice) * warm)
        filler = self.filler_volume * self.filler_density * self.filler_specific_heat
        fins = lanes(0.0) if self.fins is None else self.fins.heat_capacity
        return lanes(mixed + filler + fins + self.shell.heat_capacity + self.tube.heat_capacity)

    def enthalpy(self, temperature: FloatOrArray) -> Array:
        """Enthalpy of the filling [J] in equilibrium at a temperature [K]."""
        return lanes(self.brine_mass * self.filling.enthalpy(temperature))

    def state_at(self, enthalpy: FloatOrArray) -> tuple[Array, Array]:
        """Temperature [K] and state of charge of the filling that holds an enthalpy [J]."""
        specific = lanes(enthalpy) / self.brine_mass
        return self.filling.temperature(specific), self.filling.frozen_share(specific)

    def frozen_share(self, source_temperature: FloatOrArray) -> Array:
        """State of charge that counts at a temperature of the filling [K]: none above melting."""
        above = (lanes(source_temperature) - self.filling.first_ice) / ICE_FADES_OVER
        return lanes(self.state_of_charge * np.clip(1.0 - above, 0.0, 1.0))

    def _frozen_area(self, share: FloatOrArray) -> Array:
        """Cross-section of what is frozen, per metre of immersed tube [m2]."""
        volume = self.brine_volume * (1.0 + self.filling.growth_when_full)
        return lanes(share * volume / (self.tube.length * self.immersed_fraction))

    @property
    def frozen_layer(self) -> Array:
        """Thickness of the layer round the tube [m] at this state of charge."""
        area = self._frozen_area(self.state_of_charge)
        return frozen_layer_thickness(area, self.tube.outside_diameter, self.pitch)

    def outer_conductance_per_length(
        self,
        source_temperature: FloatOrArray,
        tube_wall_temperature: FloatOrArray,
        pressure: FloatOrArray | None = None,
    ) -> Array:
        """Conductance [W/mK] per metre of immersed tube: frozen layer and melt's film in series.

        Temperatures [K] of filling and tube wall; pressure is not used.
        """
        melt = super().outer_conductance_per_length(
            source_temperature, tube_wall_temperature, pressure
        )
        layer = frozen_layer_resistance(
            self._frozen_area(self.frozen_share(source_temperature)),
            self.tube.outside_diameter,
            self.pitch,
            self.filling.frozen_conductivity(
                film_temperature(tube_wall_temperature, source_temperature)
            ),
        )
        return lanes(1.0 / (self.through_melt / melt + layer))

    @property
    def inside_name(self) -> str:
        """What wets the wall."""
        return "filling"

    def inside_conductance(
        self, source_temperature: FloatOrArray, inner_surface_temperature: FloatOrArray
    ) -> Array:
        """Conductance [W/K] from the wetted wall to the filling, melt and solid side by side."""
        melt = super().inside_conductance(source_temperature, inner_surface_temperature)
        area = sum(self.wetted_areas)
        conductivity = self.filling.frozen_conductivity(
            film_temperature(inner_surface_temperature, source_temperature)
        )
        depth = np.maximum(0.5 * self.brine_volume / area, 1e-3)
        share = self.frozen_share(source_temperature)
        return lanes((1.0 - share) * melt + share * conductivity * area / depth)


def store_time(store: FloatOrArray, heat_flow: FloatOrArray) -> Array:
    """Time [s] in which a heat flow [W] fills or empties a latent store [J]; inf without a flow.

    To freeze: the machine's capacity less the heat that comes in; to melt: the heat that comes in.
    """
    flow = lanes(heat_flow)
    some = flow > 0.0
    return lanes(np.where(some, lanes(store) / np.where(some, flow, 1.0), np.inf))
