"""The condenser out of a build: one of three kinds."""

from __future__ import annotations

from typing import TypedDict

from coldwright.arrays import Array, lanes
from coldwright.build.result import Build
from coldwright.build.schema.condenser import Condenser as Section
from coldwright.parts.hot_side import (
    BareCondenser,
    Condenser,
    SheetCondenser,
    WireCondenser,
)
from coldwright.parts.hot_side.condenser import NO_WALL
from coldwright.shop.materials import material
from coldwright.units import Quantity

# Entrance, bend and exit of the condenser's channel, fully open: common practice, no source.
CHANNEL_OPENING_LOSS = 1.5
# The cabinet's back as the condenser sees it.
BACK_EMISSIVITY = 0.9


class _Common(TypedDict):
    inside_diameter: Array
    outside_diameter: Array
    length: Array
    tube_conductivity: Array
    sheet_width: Array
    sheet_height: Array
    emissivity: Array
    gap: Array
    back_emissivity: Array
    shaded_fraction: Array
    dirt: Array
    wall_distance: Array
    air_rise: Array


def condenser_of(build: Build) -> Condenser:
    """The condenser of `build`."""
    section = build.condenser
    common = _common(section)
    if section.wires is not None:
        wires = section.wires
        return WireCondenser(
            **common,
            wire_diameter=lanes(wires.diameter.value),
            wire_pitch=lanes(wires.pitch.value),
            wire_sides=lanes(float(wires.sides)),
            wire_conductivity=lanes(material(wires.material).conductivity),
        )
    if section.kind == "bare":
        return BareCondenser(**common)
    return _sheet(section, common)


def _common(section: Section) -> _Common:
    """What all kinds have."""
    return _Common(
        inside_diameter=lanes(section.tube.inside_diameter),
        outside_diameter=lanes(section.tube.outside_diameter.value),
        length=lanes(section.tube.length.value),
        tube_conductivity=lanes(material(section.tube.material).conductivity),
        sheet_width=lanes(section.sheet_width.value),
        sheet_height=lanes(section.sheet_height.value),
        emissivity=lanes(section.emissivity.value),
        gap=lanes(section.gap.value),
        back_emissivity=lanes(BACK_EMISSIVITY),
        shaded_fraction=lanes(section.shaded_fraction.value),
        dirt=lanes(section.dirt.value),
        wall_distance=lanes(section.wall_behind.value if section.wall_behind else NO_WALL),
        air_rise=lanes(section.air_rise.value),
    )


def _sheet(section: Section, common: _Common) -> SheetCondenser:
    """Tube on sheet; keys that only it has are filled in for it."""
    height = section.sheet_height.value
    area = section.sheet_width.value * height
    covered = section.tube.pitch.value * section.tube.length.value / area
    chimney = _value(section.chimney_height, height)
    return SheetCondenser(
        **common,
        sheet_thickness=lanes(_value(section.sheet_thickness, 0.0)),
        sheet_conductivity=lanes(material(section.sheet_material or "").conductivity),
        bond_conductance=lanes(_value(section.bond_conductance, 0.0)),
        chimney_height=lanes(max(chimney - height, 0.0)),
        opening_loss=lanes(CHANNEL_OPENING_LOSS / _value(section.opening, 1.0) ** 2),
        area_factor=lanes(_value(section.area_factor, 1.0)),
        covered_share=lanes(min(covered, 1.0)),
    )


def _value(quantity: Quantity | None, otherwise: float) -> float:
    return otherwise if quantity is None else quantity.value
