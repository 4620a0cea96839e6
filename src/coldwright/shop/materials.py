"""Materials of walls, sheets and tubes: conductivity, density and specific heat near 10 °C."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.errors import Fault, InputError
from coldwright.shop.rows import find, table

STILL_AIR_GAP = "still air gap"

Flow = Literal["level", "down", "up"]
FLOWS: dict[str, Flow] = {"top": "down", "bottom": "up"}
"""How heat flows through the faces of a cold box that do not stand upright."""

FACINGS = {"dull": 0.9, "tarnished foil": 0.2, "bright foil": 0.05}
"""Emissivity of one side of a gap; the other is dull. Foil in old walls loses its shine."""

DULL = 0.9
BLACK_RADIATION = 5.1
"""Radiation between black sides near 10 C, 4 sigma T^3 [W/m2K] (ISO 6946)."""

FACING_SOURCE = "shop_air_gap_facings"


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
    straight to zero below 5 mm). For one faced with foil see `faced_gap_resistance`.
    """
    widths = np.array([0.0, 0.005, 0.007, 0.010, 0.015, 0.025, 0.300])
    resistances = np.array([0.0, 0.11, 0.13, 0.15, 0.17, 0.18, 0.18])
    return np.asarray(np.interp(lanes(thickness), widths, resistances))


def faced_gap_resistance(
    thickness: FloatOrArray, emissivity: FloatOrArray, flow: Flow = "level"
) -> Array:
    """Thermal resistance [m2K/W] of a gap with one side of `emissivity` and one of 0.9.

    1 / (h_a + E h_r), h_a = max(c, 0.025/d), E = 1 / (1/e1 + 1/e2 - 1), h_r = 5.1 W/m2K

    thickness d [m] > 0, to 0.3; c is 1.25 where heat flows level, 1.95 up and 0.12 d^-0.44 down,
    for differences up to 5 K across (more convects more). Example: 25 mm level, dull 0.184,
    emissivity 0.05 0.665. Source: ISO 6946, annex on unventilated airspaces (from memory).
    """
    d = lanes(thickness)
    moving = {"level": 1.25 + 0.0 * d, "up": 1.95 + 0.0 * d, "down": 0.12 * d**-0.44}[flow]
    exchange = 1.0 / (1.0 / lanes(emissivity) + 1.0 / DULL - 1.0)
    return lanes(1.0 / (np.maximum(moving, 0.025 / d) + exchange * BLACK_RADIATION))


def still_air_gap(thickness: float, facing: str = "dull", flow: Flow = "level") -> Material:
    """A gap of `thickness` [m] as a material whose equivalent conductivity gives its resistance.

    `facing` is one of `FACINGS`, of one side; `flow` where heat flows. A dull upright gap is the
    table's, all others are `faced_gap_resistance`'s. Raises InputError unless
    0 < thickness <= 0.3 m.
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
    by_table = facing == "dull" and flow == "level"
    resistance = (
        air_gap_resistance(thickness)
        if by_table
        else faced_gap_resistance(thickness, FACINGS.get(facing, DULL), flow)
    )
    return Material(
        name=f"{STILL_AIR_GAP} of {1000 * thickness:g} mm",
        conductivity=thickness / float(resistance),
        conductivity_uncertainty=base.conductivity_uncertainty * (1.0 if facing == "dull" else 2.0),
        density=base.density,
        specific_heat=base.specific_heat,
        group=base.group,
        source=base.source if by_table else FACING_SOURCE,
        note=base.note,
    )
