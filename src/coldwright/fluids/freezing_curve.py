"""The freezing curve of a brine: how strong the liquid is that stands beside ice at a temperature.

As a brine freezes, ice of pure water leaves it and what stays liquid grows stronger. The curve is
sampled once for each kind of brine from the same fits as `brines`, and kept on disk like them.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.brines import ABOVE_FREEZING, FILLING_TEMPERATURE, sampler_of
from coldwright.fluids.ice import FREEZING_POINT
from coldwright.fluids.table_cache import keep_tables, read_tables, table_file
from coldwright.sources import correlation

TABLE_VERSION = 1
NODES = 241


@dataclass(frozen=True)
class FreezingCurve:
    """Liquid on its freezing curve, from pure water to the strongest that its fit knows.

    Rows over mass fraction: freezing temperature [K], specific heat [J/kgK], density [kg/m3] of the
    liquid there.
    """

    kind: str
    mass_fraction: Array = field(repr=False)
    temperature: Array = field(repr=False)
    specific_heat: Array = field(repr=False)
    density: Array = field(repr=False)

    @property
    def coldest(self) -> float:
        """Freezing temperature [K] of the strongest liquid."""
        return float(self.temperature[-1])

    def strength(self, temperature: FloatOrArray) -> Array:
        """Mass fraction of the liquid that stands beside ice at `temperature` [K]."""
        return lanes(np.interp(temperature, self.temperature[::-1], self.mass_fraction[::-1]))

    def liquid(self, temperature: FloatOrArray) -> tuple[Array, Array]:
        """Specific heat [J/kgK] and density [kg/m3] of that liquid."""
        axis = self.temperature[::-1]
        heat, density = (
            np.interp(temperature, axis, values[::-1])
            for values in (self.specific_heat, self.density)
        )
        return lanes(heat), lanes(density)


@cache
def freezing_curve(kind: str) -> FreezingCurve:
    """The freezing curve of brines of `kind` (one of `brine_names`, not water)."""
    file = table_file(f"freezing-curve-{kind.replace(' ', '-')}", TABLE_VERSION)
    rows = (read_tables(file) or {}).get("rows")
    if rows is None or rows.shape != (4, NODES):
        rows = _sampled(kind)
        keep_tables(file, {"rows": rows})
    return FreezingCurve(kind, *rows)


def _sampled(kind: str) -> Array:
    """Mass fraction, freezing temperature, specific heat and density, in rows."""
    greatest, sampler = sampler_of(kind)
    rows = []
    for fraction in np.linspace(0.0, greatest, NODES):
        sample = sampler(float(fraction))
        freezing = sample("T_FREEZE", FILLING_TEMPERATURE)
        liquid = (sample(key, freezing + ABOVE_FREEZING) for key in ("C", "D"))
        rows.append((fraction, freezing, *liquid))
    found = lanes(np.transpose(rows))
    found[1, 0] = FREEZING_POINT  # the fits miss that of water by up to 0.05 K
    return found


@correlation(
    quantity="share of ice in a brine that freezes",
    source="holdover_lever_rule",
    ranges={},
    bias="ideal: every crystal is pure ice, the liquid is mixed and nothing undercools",
)
def ice_share(strength: FloatOrArray, mass_fraction: FloatOrArray) -> Array:
    """Ice by the mass of a brine of `mass_fraction` whose liquid has come to `strength`: 1 - w/w_l.

    Lever rule on the freezing curve; both shares by mass, strength > 0. 0 while it is not stronger.
    """
    return lanes(np.maximum(1.0 - lanes(mass_fraction) / strength, 0.0))
