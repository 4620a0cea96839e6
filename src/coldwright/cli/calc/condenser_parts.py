"""From the entries of `calc condenser` to the part that answers it, and its figures."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import numpy as np

from coldwright.arrays import lanes
from coldwright.build.translation.condenser import BACK_EMISSIVITY, CHANNEL_OPENING_LOSS
from coldwright.cli.calc.answer import ICE_POINT, Data
from coldwright.parts.condenser_duty import (
    Duty,
    DutyConditions,
    duty_at_condensing,
    duty_for_heat,
)
from coldwright.parts.hot_side import BareCondenser, Condenser, SheetCondenser, WireCondenser
from coldwright.parts.hot_side.condenser import NO_WALL
from coldwright.plant.pressure_losses import condenser_drop
from coldwright.shop.materials import material

if TYPE_CHECKING:
    from coldwright.cli.calc.condenser import Asked

# An uncertain size must not leave the condenser without room for its tube.
LEAST_PITCH = 1.001


def condenser_of(asked: Asked, values: Mapping[str, float]) -> Condenser:
    """The condenser of these entries."""
    tube, copper = asked.tube, material("copper")
    common: Any = {
        "inside_diameter": lanes(tube.inside_diameter),
        "outside_diameter": lanes(tube.outside_diameter),
        "length": lanes(values["length"]),
        "tube_conductivity": lanes(copper.conductivity),
        "sheet_width": lanes(values["width"]),
        "sheet_height": lanes(values["height"]),
        "emissivity": lanes(values["emissivity"]),
        "gap": lanes(values["gap"]),
        "back_emissivity": lanes(BACK_EMISSIVITY),
        "shaded_fraction": lanes(values["shaded"]),
        "dirt": lanes(values["dirt"]),
        "wall_distance": lanes(values.get("wall_behind", NO_WALL)),
        "air_rise": lanes(values["air_rise"]),
    }
    if asked.kind == "bare":
        return BareCondenser(**common)
    metal = material(asked.metal)
    if asked.kind == "wire":
        return WireCondenser(
            **common,
            wire_diameter=lanes(values["wire_diameter"]),
            wire_pitch=lanes(max(values["wire_pitch"], LEAST_PITCH * values["wire_diameter"])),
            wire_sides=lanes(asked.wire_sides),
            wire_conductivity=lanes(metal.conductivity),
        )
    above = values.get("chimney_height", 0.0) - values["height"]
    return SheetCondenser(
        **common,
        sheet_thickness=lanes(values["thickness"]),
        sheet_conductivity=lanes(metal.conductivity),
        bond_conductance=lanes(values["bond"]),
        chimney_height=lanes(max(above, 0.0)),
        opening_loss=lanes(CHANNEL_OPENING_LOSS / values["opening"] ** 2),
        area_factor=lanes(values["area_factor"]),
    )


def duty_of(asked: Asked, values: Mapping[str, float], condenser: Condenser) -> Duty:
    """What it does at the stated condensing temperature, or for the stated heat."""
    at = DutyConditions(
        refrigerant=asked.refrigerant,
        room_temperature=lanes(values["room"]),
        pressure=lanes(asked.atmosphere_Pa),
        gas_temperature=lanes(values["discharge_gas"]),
        subcooling=lanes(values["subcooling"]),
    )
    if "heat" in values:
        return duty_for_heat(condenser, at, values["heat"])
    return duty_at_condensing(condenser, at, values["condensing"])


def figures(asked: Asked, values: Mapping[str, float]) -> Data:
    """All figures of the answer."""
    condenser = condenser_of(asked, values)
    duty = duty_of(asked, values, condenser)
    state, outside = duty.state, duty.state.outside
    heat, share = float(duty.heat), float(outside.radiation_share)
    condensing = float(duty.saturated.temperature)
    excess = condensing - values["room"]
    drop = condenser_drop(
        condenser, state, duty.saturated, duty.inlet.enthalpy, duty.inlet.density, duty.mass_flow
    )
    left = asked.refrigerant.saturation_temperature(duty.saturated.pressure - drop)
    steps = _steps(condenser, duty)
    whole = sum(steps.values())
    tube_kg = float(condenser.tube_metal_volume) * material("copper").density
    sheet_kg = float(condenser.outside_metal_volume) * material(asked.metal).density
    outer = 1.0 / float(outside.conductance)
    return {
        "kind": asked.kind,
        "refrigerant": asked.refrigerant.name,
        "finish": asked.finish or None,
        "emissivity": values["emissivity"],
        "room_C": values["room"] - ICE_POINT,
        "condensing_C": condensing - ICE_POINT,
        "above_room_K": excess,
        "heat_W": heat,
        "conductance_W_per_K": heat / excess,
        "convection_W": (1.0 - share) * heat,
        "radiation_W": share * heat,
        "radiation_share": share,
        "film_W_m2K": float(outside.convection_film),
        "radiation_film_W_m2K": float(outside.radiation_film),
        "condensing_film_W_m2K": float(state.film_coefficient),
        "sheet_efficiency": float(outside.efficiency),
        "bond_efficiency": 1.0 - float(outside.bond_resistance) / outer,
        "surface_C": float(outside.surface_temperature) - ICE_POINT,
        "area_m2": float(outside.area_per_length * condenser.length),
        "tube_pitch_m": float(condenser.pitch),
        "resistance_share": {name: value / whole for name, value in steps.items()},
        "zone_share": {
            "gas": float(state.gas_share),
            "condensing": float(state.condensing_share),
            "liquid": float(state.liquid_share),
        },
        "mass_flow_kg_per_h": 3600.0 * float(duty.mass_flow),
        "mass_flux_kg_per_m2s": float(duty.mass_flow / condenser.area),
        "volume_cm3": float(condenser.volume) * 1e6,
        "tube_kg": tube_kg,
        "sheet_kg": sheet_kg,
        "weight_kg": tube_kg + sheet_kg,
        "pressure_drop_Pa": float(drop),
        "pressure_drop_K": condensing - float(left),
        "discharge_gas_C": float(duty.inlet.temperature) - ICE_POINT,
        "gas_held": bool(values["discharge_gas"] < float(duty.inlet.temperature) - 1e-6),
        "found": bool(duty.found > 0.5),
    }


def greatest_heat(asked: Asked, values: Mapping[str, float]) -> float:
    """What it sheds [W] at the hottest condensing temperature of the refrigerant's table."""
    hottest = asked.refrigerant.greatest_temperature - 3.0
    plain = {name: value for name, value in values.items() if name != "heat"}
    condenser = condenser_of(asked, plain)
    return float(duty_of(asked, {**plain, "condensing": hottest}, condenser).heat)


def _steps(condenser: Condenser, duty: Duty) -> dict[str, float]:
    """Steps of resistance [m K/W] from the condensing refrigerant out, for a metre of tube."""
    inside = np.pi * condenser.inside_diameter * duty.state.film_coefficient
    steps = {
        "inside film": 1.0 / inside,
        "tube": condenser.tube_resistance,
        **duty.state.outside.resistances,
    }
    return {name: float(value) for name, value in steps.items()}
