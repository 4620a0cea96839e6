"""Upright fins on the outside of a vessel, and the channels between them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.film_properties import FilmProperties
from coldwright.heat.fins import straight_fin_efficiency
from coldwright.heat.radiation import cavity_emissivity
from coldwright.parts.cold_side.films import channel_film

LEAST_GAP = 5e-4
"""Clear gap between fins [m] below which no formula is asked: they touch, or frost has met."""


@dataclass(frozen=True, kw_only=True)
class UprightFins:
    """Plain fins standing out from the side of a vessel, one value per lane.

    count [-] around the whole side; projection: how far a fin stands out [m]; length: its upright
    length along the wall [m]; thickness [m]; conductivity [W/mK]; bond_conductance: of the joint at
    the root, per metre of fin [W/mK], may be infinite; density [kg/m3]; specific_heat [J/kgK].
    """

    count: Array
    projection: Array
    length: Array
    thickness: Array
    conductivity: Array
    bond_conductance: Array
    density: Array
    specific_heat: Array

    @property
    def mass(self) -> Array:
        """Mass of all fins [kg]."""
        return self.count * self.projection * self.length * self.thickness * self.density

    @property
    def heat_capacity(self) -> Array:
        """Heat capacity of all fins [J/K]."""
        return self.mass * self.specific_heat

    @property
    def area_of_one(self) -> Array:
        """Both faces of one fin, its tip as extra projection [m2]."""
        return 2.0 * (self.projection + 0.5 * self.thickness) * self.length

    def bonded_efficiency(self, film_coefficient: FloatOrArray) -> Array:
        """Efficiency of a fin behind its bond [-]; film with radiation [W/m2K].

        The bond is in series with the fin: eta / (1 + eta h A / (C_b L)).
        """
        fin = straight_fin_efficiency(
            film_coefficient, self.conductivity, self.thickness, self.projection
        )
        taken = fin * film_coefficient * self.area_of_one
        return lanes(fin / (1.0 + taken / (self.bond_conductance * self.length)))


@dataclass(frozen=True)
class FinnedSide:
    """The finned band of a vessel's side: areas [m2] per whole vessel and the gap [m]."""

    fins: UprightFins
    base_area: Array
    fin_area: Array
    mouth_area: Array
    gap: Array

    @classmethod
    def around(
        cls,
        fins: UprightFins,
        perimeter: Array,
        tip_perimeter: Array,
        envelope_perimeter: Array,
        frost_thickness: Array,
    ) -> FinnedSide:
        """Areas from three perimeters [m]: of the bare side, through the tips, of the envelope.

        Radial fins open outward (tips wider apart than roots): the gap is taken half-way out.
        Frost narrows it from both sides.
        """
        count = np.maximum(fins.count, 1.0)
        base = np.maximum(perimeter - fins.count * fins.thickness, 0.0) * fins.length
        fin_area = fins.count * fins.area_of_one
        middle = 0.5 * (perimeter + tip_perimeter)
        gap = middle / count - fins.thickness - 2.0 * frost_thickness
        return cls(
            fins=fins,
            base_area=lanes(base),
            fin_area=lanes(fin_area),
            # a few fins do not fill their envelope: the metal itself is then the greater screen
            mouth_area=lanes(np.minimum(envelope_perimeter * fins.length, base + fin_area)),
            gap=lanes(np.maximum(gap, LEAST_GAP)),
        )

    @property
    def wetted_area(self) -> Array:
        """Base and fins [m2]."""
        return self.base_area + self.fin_area

    def mouth_emissivity(self, emissivity: FloatOrArray) -> Array:
        """Emissivity of the slots between fins, on the area of their mouths [-]."""
        return cavity_emissivity(emissivity, self.wetted_area, self.mouth_area)

    def film(self, air: FilmProperties, difference: FloatOrArray) -> Array:
        """Convection in the channels between the fins [W/m2K], on base and fin area."""
        return channel_film(air, difference, self.gap, self.fins.length)
