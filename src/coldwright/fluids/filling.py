"""What fills a holdover: water, a eutectic or a brine that freezes, by its enthalpy.

One table over temperature holds specific enthalpy and frozen share; both rise or fall without a
step, so temperature, share and enthalpy follow from one another on any lanes. A filling that
freezes at one temperature is given `MELTING_SPAN` below it, as real ones have. A brine freezes over
a range: ice leaves it along its freezing curve (lever rule), the last of it never; its store is
counted down to `COUNTED_SPAN` below its first ice.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.errors import Fault, InputError, unknown_name
from coldwright.fluids.brines import FILLING_TEMPERATURE, Basis, Brine, brine, brine_names
from coldwright.fluids.freezing_curve import freezing_curve, ice_share
from coldwright.fluids.ice import (
    FREEZING_POINT,
    LATENT_HEAT_OF_FUSION,
    Eutectic,
    eutectic,
    eutectic_names,
    ice_conductivity,
    ice_density,
    ice_specific_heat,
)

MELTING_SPAN = 0.1
"""Range [K] over which a filling of one freezing temperature is let freeze: assumed, no source."""
COUNTED_SPAN = 10.0
"""How far below its first ice [K] the store of a brine is counted: assumed, no source."""
COLDEST, WARMEST = 200.0, 340.0
"""Ends of the enthalpy table [K]; beyond them temperature and enthalpy are held."""
UNDERCOOLED_WATER_SPECIFIC_HEAT = 4.22e3
"""[J/kgK] of the water that ice takes out of a brine: from memory."""
NODES = 300
LEAST_FRACTION, LEAST_RANGE = 0.01, 2.0  # by mass, [K]: a brine that freezes over a range
WORD = " eutectic"


@dataclass(frozen=True)
class Filling:
    """One filling, ready for look-up; temperatures [K], J/kg, arrays over lanes.

    name; liquid: the melt, for its films; first_ice, last_ice: where it begins to freeze and where
    its store counts as full; latent_heat [J/kg of filling] between them; ice_share: ice (of a
    eutectic: water frozen out) by mass when full; liquid_density [kg/m3] at 20 °C;
    growth_when_full: of the volume filled at 20 °C; is_salt: a chloride, which corrodes.
    """

    name: str
    liquid: Brine
    first_ice: float
    last_ice: float
    latent_heat: float
    ice_share: float
    liquid_density: float
    growth_when_full: float
    is_salt: bool
    source: str
    _temperature: Array = field(repr=False, compare=False)
    _enthalpy: Array = field(repr=False, compare=False)
    _frozen: Array = field(repr=False, compare=False)

    @property
    def freezes_over_a_range(self) -> bool:
        """Whether it is a brine, which freezes at no one temperature."""
        return self.first_ice - self.last_ice > MELTING_SPAN + 1e-6

    def enthalpy(self, temperature: FloatOrArray) -> Array:
        """Specific enthalpy [J/kg], 0 where the first ice forms; rises with temperature [K]."""
        return lanes(np.interp(temperature, self._temperature, self._enthalpy))

    def temperature(self, enthalpy: FloatOrArray) -> Array:
        """Temperature [K] at a specific enthalpy [J/kg], the inverse of `enthalpy`."""
        return lanes(np.interp(enthalpy, self._enthalpy, self._temperature))

    def frozen_share(self, enthalpy: FloatOrArray) -> Array:
        """State of charge at a specific enthalpy [J/kg]: what share of the latent heat is gone."""
        return lanes(np.interp(enthalpy, self._enthalpy, self._frozen))

    def frozen_share_at(self, temperature: FloatOrArray) -> Array:
        """State of charge in equilibrium at a temperature [K], 0 melted to 1 full."""
        return lanes(np.interp(temperature, self._temperature, self._frozen))

    def melting_temperature(self, state_of_charge: FloatOrArray) -> Array:
        """Temperature [K] at which ice and melt stand together at a state of charge."""
        # between last and first ice alone is the share a strict function of temperature
        within = (self._temperature >= self.last_ice) & (self._temperature <= self.first_ice)
        shares, temperatures = self._frozen[within], self._temperature[within]
        return lanes(np.interp(state_of_charge, shares[::-1], temperatures[::-1]))

    def frozen_conductivity(self, temperature: FloatOrArray) -> Array:
        """Conductivity [W/mK] of the full layer: ice and what lies in it, side by side."""
        ice = ice_conductivity(np.minimum(temperature, FREEZING_POINT))
        melt = self.liquid.conductivity(temperature)
        return lanes(self.ice_share * ice + (1.0 - self.ice_share) * melt)


def filling_names() -> tuple[str, ...]:
    """Fillings that `filling` knows: water, the eutectics, the brines."""
    return (
        "water",
        *(f"{salt}{WORD}" for salt in eutectic_names()),
        *(name for name in brine_names() if name != "water"),
    )


def filling_name(name: str) -> str:
    """The name as the list spells it. Raises InputError, with the nearest names, if unknown."""
    plain = " ".join(name.lower().split())
    if plain not in filling_names():
        raise unknown_name("holdover.filling", "Filling of a holdover", name, filling_names())
    return plain


def needs_fraction(name: str) -> bool:
    """Whether a filling is a brine whose strength must be told."""
    return name != "water" and not name.endswith(WORD)


def filling(name: str, fraction: float = 0.0, basis: Basis = "mass") -> Filling:
    """The filling called `name`; fraction and basis (see `brine`) of a brine only.

    Raises InputError for an unknown name and for a fraction or basis that its kind cannot have.
    """
    return _kept(filling_name(name), float(fraction), basis)


@cache
def _kept(name: str, fraction: float, basis: Basis) -> Filling:
    if name == "water":
        return _water()
    if name.endswith(WORD):
        return _eutectic(eutectic(name.removesuffix(WORD)))
    liquid = brine(name, fraction, basis)
    _must_freeze(liquid)
    return _brine(liquid)


def _must_freeze(liquid: Brine) -> None:
    """Raise InputError for a brine that is none, or so strong that no ice leaves it."""
    kind = liquid.kind
    message = ""
    if liquid.mass_fraction < LEAST_FRACTION:
        message, hint = f"Fraction of {kind} must be at least 1 % by mass", "without it: water"
    elif liquid.freezing_temperature - freezing_curve(kind).coldest < LEAST_RANGE:
        message = f"Fraction of {kind} must be smaller: so strong a brine has no ice to give"
        hint = "a holdover wants a weak brine, or a eutectic"
    if message:
        shown = f"{100.0 * liquid.mass_fraction:.3g} % by mass"
        raise InputError(Fault("holdover.fraction", f"{message}; received {shown}.", hint=hint))


def _water() -> Filling:
    liquid = brine("water")
    frozen = 1.0 / float(ice_density(FREEZING_POINT))
    solid = np.linspace(COLDEST, FREEZING_POINT - MELTING_SPAN, 150)
    return _at_one_temperature(
        name="water",
        liquid=liquid,
        freezing=FREEZING_POINT,
        latent=LATENT_HEAT_OF_FUSION,
        solid=(solid, ice_specific_heat(solid)),
        liquid_heat=None,
        density=float(liquid.density(FILLING_TEMPERATURE)),
        frozen_volume=frozen,
        ice=1.0,
        source="fluids_ice_fukusako_1990",
    )


def _eutectic(row: Eutectic) -> Filling:
    """Films are those of sodium chloride brine that freezes there: no other salt is tabled."""
    curve = freezing_curve("sodium chloride")
    freezing = max(row.freezing_temperature, curve.coldest)
    solid = np.linspace(COLDEST, row.freezing_temperature - MELTING_SPAN, 50)
    return _at_one_temperature(
        name=f"{row.salt}{WORD}",
        liquid=brine("sodium chloride", float(curve.strength(freezing))),
        freezing=row.freezing_temperature,
        latent=row.latent_heat,
        solid=(solid, np.full_like(solid, row.frozen_specific_heat)),
        liquid_heat=row.liquid_specific_heat,
        density=row.liquid_density,
        frozen_volume=1.0 / row.frozen_density,
        ice=1.0 - row.mass_fraction,
        source=row.source,
    )


def _at_one_temperature(
    *,
    name: str,
    liquid: Brine,
    freezing: float,
    latent: float,
    solid: tuple[Array, Array],
    liquid_heat: float | None,
    density: float,
    frozen_volume: float,
    ice: float,
    source: str,
) -> Filling:
    """A filling whose latent heat lies within `MELTING_SPAN` below `freezing` [K]."""
    warm = np.linspace(freezing, WARMEST, 150)
    heats = liquid.specific_heat(warm) if liquid_heat is None else np.full_like(warm, liquid_heat)
    cold, cold_heats = solid
    temperature = np.concatenate([cold, warm])
    steps = (
        np.diff(temperature)
        * 0.5
        * (np.concatenate([cold_heats, heats])[1:] + np.concatenate([cold_heats, heats])[:-1])
    )
    steps[cold.size - 1] += latent
    rise = np.concatenate([[0.0], np.cumsum(steps)])
    return Filling(
        name=name,
        liquid=liquid,
        first_ice=freezing,
        last_ice=freezing - MELTING_SPAN,
        latent_heat=latent,
        ice_share=ice,
        liquid_density=density,
        growth_when_full=density * frozen_volume - 1.0,
        is_salt="chloride" in name,
        source=source,
        _temperature=temperature,
        _enthalpy=rise - rise[cold.size],
        _frozen=np.where(temperature < freezing, 1.0, 0.0),
    )


def heat_of_fusion(temperature: FloatOrArray) -> Array:
    """Heat [J/kg] to melt ice into water undercooled to `temperature` [K], by Kirchhoff's law."""
    depth = FREEZING_POINT - lanes(temperature)
    mean = ice_specific_heat(FREEZING_POINT - 0.5 * depth)  # the specific heat is a straight line
    return lanes(LATENT_HEAT_OF_FUSION - (UNDERCOOLED_WATER_SPECIFIC_HEAT - mean) * depth)


def _brine(liquid: Brine) -> Filling:
    """A brine along its freezing curve: sensible heat of ice and liquid, and heat of fusion."""
    curve = freezing_curve(liquid.kind)
    first = liquid.freezing_temperature
    last = max(first - COUNTED_SPAN, curve.coldest)
    rows = (np.linspace(curve.coldest, last, NODES), np.linspace(last, first, NODES))
    down = np.unique(np.concatenate(rows))
    ice = ice_share(curve.strength(down), liquid.mass_fraction)
    ice[-1] = 0.0
    liquid_heat, liquid_density = curve.liquid(down)
    sensible = ice * ice_specific_heat(down) + (1.0 - ice) * liquid_heat
    fusion = heat_of_fusion(down)
    latent_steps = -np.diff(ice) * 0.5 * (fusion[1:] + fusion[:-1])  # [J/kg] on warming
    # below the curve's end what is liquid stays so; above it all is
    below = np.linspace(COLDEST, curve.coldest, 30)[:-1]
    below_heat = ice[0] * ice_specific_heat(below) + (1.0 - ice[0]) * liquid_heat[0]
    above = np.linspace(first, WARMEST, 150)[1:]
    temperature = np.concatenate([below, down, above])
    heats = np.concatenate([below_heat, sensible, liquid.specific_heat(above)])
    steps = np.diff(temperature) * 0.5 * (heats[1:] + heats[:-1])
    steps[below.size : below.size + latent_steps.size] += latent_steps
    rise = np.concatenate([[0.0], np.cumsum(steps)])
    at = below.size + down.size - 1
    gone = np.concatenate([np.cumsum(latent_steps[::-1])[::-1], [0.0]])  # [J/kg] from the first ice
    full = int(np.searchsorted(down, last))
    share = np.concatenate([np.ones_like(below), gone / gone[full], np.zeros_like(above)])
    density = float(liquid.density(FILLING_TEMPERATURE))
    volume = ice[full] / ice_density(last) + (1.0 - ice[full]) / liquid_density[full]
    return Filling(
        name=liquid.kind,
        liquid=liquid,
        first_ice=first,
        last_ice=last,
        latent_heat=float(gone[full]),
        ice_share=float(ice[full]),
        liquid_density=density,
        growth_when_full=float(density * volume - 1.0),
        is_salt="chloride" in liquid.kind,
        source="holdover_lever_rule",
        _temperature=temperature,
        _enthalpy=rise - rise[at],
        _frozen=np.minimum(share, 1.0),
    )
