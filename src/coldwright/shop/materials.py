"""Materials of walls, sheets and tubes: conductivity, density and specific heat near 10 °C."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.errors import Fault, InputError
from coldwright.shop.rows import find, table

STILL_AIR_GAP = "still air gap"


@dataclass(frozen=True)
class Material:
    """One material, dry unless its note says otherwise; SI units."""

    name: str
    conductivity: float  # W/(m K)
    conductivity_uncertainty: float  # relative, standard
    density: float  # kg/m3
    specific_heat: float  # J/(kg K)
    group: str  # "insulation", "wood", "metal" or "other"
    source: str
    note: str = ""


@cache
def _materials() -> dict[str, Material]:
    return {name: Material(name=name, **row) for name, row in table("materials.toml").items()}


def material_names(group: str | None = None) -> tuple[str, ...]:
    """Names of the materials, all or those of one `group`."""
    return tuple(name for name, row in _materials().items() if group in (None, row.group))


def material(name: str) -> Material:
    """Return the material `name`. Raises InputError with the nearest names.

    `still air gap` is a gap of 20 mm; for another width take `still_air_gap`.
    """
    return find(_materials(), name, what="Material", field="layer.material")


def air_gap_resistance(thickness: FloatOrArray) -> Array:
    """Thermal resistance [m2K/W] of an unventilated upright air gap of `thickness` [m].

    Conduction, convection and radiation together, between surfaces of high emissivity, heat
    flowing level: table of ISO 6946, linear between its widths, held from 25 to 300 mm (and
    straight to zero below 5 mm). A foil-faced gap resists two to three times as much: not covered.
    """
    widths = np.array([0.0, 0.005, 0.007, 0.010, 0.015, 0.025, 0.300])
    resistances = np.array([0.0, 0.11, 0.13, 0.15, 0.17, 0.18, 0.18])
    return np.asarray(np.interp(lanes(thickness), widths, resistances))


def still_air_gap(thickness: float) -> Material:
    """A gap of `thickness` [m] as a material whose equivalent conductivity gives its resistance.

    Raises InputError unless 0 < thickness <= 0.3 m.
    """
    if not 0.0 < thickness <= 0.3:
        raise InputError(
            Fault(
                field="layer.thickness",
                message="Thickness of a still air gap must be greater than 0 m and at most 0.3 m; "
                f"received {thickness:g} m.",
                hint="A wider space circulates: model it as part of the air circuit.",
            )
        )
    base = material(STILL_AIR_GAP)
    return Material(
        name=f"{STILL_AIR_GAP} of {1000 * thickness:g} mm",
        conductivity=thickness / float(air_gap_resistance(thickness)),
        conductivity_uncertainty=base.conductivity_uncertainty,
        density=base.density,
        specific_heat=base.specific_heat,
        group=base.group,
        source=base.source,
        note=base.note,
    )
