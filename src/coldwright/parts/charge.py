"""Where the refrigerant is: the content of every volume between condenser and compressor."""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np

from coldwright.arrays import Array
from coldwright.fluids.oils import Oil
from coldwright.fluids.refrigerants import Refrigerant, Saturated
from coldwright.heat.two_phase import smith_void_fraction

# Solution of oil and refrigerant: a share above this is outside every published table.
GREATEST_SHARE = 0.8
SHELL_ROUNDING = 0.5  # K
SHELL_LIQUID_SCALE = 4e-3  # kg/K, only the scale of the unknown


@dataclass(frozen=True)
class Volumes:
    """Inside volumes beyond the two exchangers' tubes [m3], and the oil; arrays over lanes."""

    discharge_line: Array
    liquid_line: Array
    drier: Array
    oil_mass: Array  # [kg]


@dataclass(frozen=True)
class Inventory:
    """Refrigerant by place [kg]; arrays over lanes."""

    evaporator: Array
    suction_line: Array
    shell_gas: Array
    oil: Array
    shell_liquid: Array
    discharge_line: Array
    condenser: Array
    liquid_line: Array
    drier: Array
    capillary: Array

    @property
    def low_side(self) -> Array:
        """Mass between the capillary's end and the compressor's valve [kg]."""
        return self.evaporator + self.suction_line + self.shell_gas + self.oil + self.shell_liquid

    @property
    def total(self) -> Array:
        """Mass of the whole charge [kg]."""
        mass: Array = sum((getattr(self, place.name) for place in fields(self)), start=np.zeros(()))
        return mass


def density_at(saturated: Saturated, enthalpy: Array) -> Array:
    """Density [kg/m3] of liquid or of a mixture that stands at `enthalpy` [J/kg].

    By Smith's void fraction; liquid below saturation counts as saturated liquid.
    """
    quality = (enthalpy - saturated.liquid_enthalpy) / saturated.latent_heat
    quality = np.clip(0.5 * (quality + np.sqrt(quality**2 + 1e-8)), 0.0, 1.0)
    void = smith_void_fraction(quality, saturated.vapour_density / saturated.liquid_density)
    return void * saturated.vapour_density + (1.0 - void) * saturated.liquid_density


def shell_state(saturation_temperature: Array, superheat: Array) -> tuple[Array, Array]:
    """Shell temperature [K] and liquid refrigerant lying in the shell [kg].

    A shell warmer than saturation boils whatever returns; one that flood-back has cooled down to it
    keeps liquid. Either the shell is warm or it holds liquid: `superheat` [K] is the one for
    positive and the other for negative values, rounded over SHELL_ROUNDING.
    """
    scaled = superheat / SHELL_ROUNDING
    above = SHELL_ROUNDING * np.logaddexp(0.0, scaled)
    liquid = SHELL_LIQUID_SCALE * SHELL_ROUNDING * np.logaddexp(0.0, -scaled)
    return saturation_temperature + above, liquid


def dissolved_mass(
    oil: Oil,
    oil_mass: Array,
    refrigerant: Refrigerant,
    pressure: Array,
    shell_temperature: Array,
) -> Array:
    """Refrigerant [kg] dissolved in the oil at the shell's pressure and temperature."""
    # Oil colder than saturation would take up without limit; the table ends just under it.
    ratio = pressure / refrigerant.saturation_pressure(shell_temperature)
    held = 0.5 * (ratio + 0.98 - np.sqrt((ratio - 0.98) ** 2 + 0.02**2))
    share = np.minimum(oil.solubility(refrigerant.name, held, shell_temperature), GREATEST_SHARE)
    return oil_mass * share / (1.0 - share)
