"""What is taken where the maker does not know: one table, each value with its width and source.

A width after ± is the half-width of a 95 % interval, as everywhere in a build file. Values that
follow from other entries (the gasket from the door, say) are in `computed_defaults.py`.
"""

from __future__ import annotations

from dataclasses import dataclass

PRACTICE = "common practice, no source"
MEMORY = "from memory"
MOISTURE_UNKNOWN = "not known, so none is counted; assumed, no source"


@dataclass(frozen=True)
class Default:
    """The value taken for the key at `path`, `[]` meaning every item of a list."""

    path: str
    value: str | int
    source: str
    # Only where this key has this text (a default of its own stands above it).
    only: tuple[str, str] | None = None


ON_SHEET = ("condenser.kind", "sheet")

DEFAULTS: tuple[Default, ...] = (
    Default("name", "Unnamed box", PRACTICE),
    Default("notes", "", PRACTICE),
    Default("units", "shop", PRACTICE),
    # The room.
    Default("site.room_temperature", "21 °C ± 3 K", PRACTICE),
    Default("site.relative_humidity", "50 % ± 20 %", PRACTICE),
    Default("site.altitude", "100 m ± 150 m", PRACTICE),
    Default("site.room_volume", "30 m3 ± 50 %", PRACTICE),
    Default("targets.use", "", PRACTICE),
    Default("targets.highest_run_fraction", "60 %", PRACTICE),
    # The cabinet.
    Default("cabinet.door", "front", PRACTICE),
    Default("cabinet.door_openings_per_day", "8 ± 50 %", PRACTICE),
    Default("cabinet.door_open_time", "12 s ± 50 %", PRACTICE),
    Default("cabinet.drain.outlet", "open", PRACTICE),
    Default("cabinet.leakage_area", "0.5 cm2 ± 80 %", PRACTICE),
    Default("cabinet.gasket.linear_conductance", "0.06 W/(m K) ± 50 %", MEMORY),
    Default("cabinet.air_path.kind", "single", PRACTICE),
    Default("cabinet.air_path.ledge", "1.0 ± 100 %", PRACTICE),
    Default("cabinet.air_path.duct_height", "0 m ± 0 m", PRACTICE),
    Default("cabinet.air_path.shelves", "3", PRACTICE),
    Default("cabinet.air_path.shelf_blocked", "0 % ± 0 %", PRACTICE),
    Default("cabinet.contents.mass", "15 kg ± 50 %", PRACTICE),
    Default("cabinet.contents.specific_heat", "3.5 kJ/(kg K) ± 15 %", MEMORY),
    Default("cabinet.contents.heat", "0 W ± 0 W", PRACTICE),
    Default("cabinet.contents.moisture_per_day", "0 g/day ± 0 g/day", MOISTURE_UNKNOWN),
    Default("cabinet.contents.warm_load.mass_per_day", "1 kg ± 100 %", PRACTICE),
    Default("cabinet.liner.surface", "painted", PRACTICE),
    # The cold side.
    Default("cold_side.surface", "painted", PRACTICE),
    Default("cold_side.tube.material", "copper", PRACTICE),
    Default("cold_side.vessel.shape", "cylinder", PRACTICE),
    Default("cold_side.vessel.wall_thickness", "1.5 mm ± 30 %", PRACTICE),
    Default("cold_side.vessel.material", "stainless steel", PRACTICE),
    Default("cold_side.vessel.immersed_fraction", "100 %", PRACTICE),
    Default("cold_side.vessel.headspace", "20 mm ± 10 mm", PRACTICE),
    Default("cold_side.vessel.filler_volume", "0 L ± 0 L", PRACTICE),
    Default("cold_side.vessel.well", "0 m ± 0 m", PRACTICE),
    Default("cold_side.holdover.state_of_charge", "50 %", PRACTICE),
    Default("cold_side.fins.thickness", "1.5 mm ± 20 %", PRACTICE),
    Default("cold_side.fins.material", "aluminium", PRACTICE),
    Default("cold_side.fins.attachment", "soldered", PRACTICE),
    Default("cold_side.plate.thickness", "1.5 mm ± 20 %", PRACTICE),
    Default("cold_side.plate.material", "aluminium", PRACTICE),
    Default("cold_side.plate.faces", 2, PRACTICE),
    Default("cold_side.plate.wall_gap", "25 mm ± 40 %", PRACTICE),
    Default("cold_side.plate.bond", "soldered", PRACTICE),
    # The machine. Low-back-pressure rating: 90 °F gas and liquid.
    Default("compressor.rating_uncertainty", "5 %", PRACTICE),
    Default("compressor.oil_amount", "200 mL ± 30 %", PRACTICE),
    Default("compressor.shell_free_volume", "1.6 L ± 40 %", PRACTICE),
    Default("compressor.rated_points[].return_gas_temperature", "32.2 °C ± 3 K", MEMORY),
    Default("compressor.map.temperature_unit", "C", PRACTICE),
    Default("compressor.supply", "ac", PRACTICE),
    Default("compressor.starting", "low torque", PRACTICE),
    # The condenser.
    Default("condenser.tube.material", "copper", PRACTICE),
    Default("condenser.kind", "sheet", PRACTICE),
    Default("condenser.sheet_thickness", "0.8 mm ± 30 %", PRACTICE, ON_SHEET),
    Default("condenser.sheet_material", "galvanised steel", PRACTICE, ON_SHEET),
    Default("condenser.bond", "soldered", PRACTICE, ON_SHEET),
    Default("condenser.area_factor", "1.0 ± 0", f"flat sheet; {PRACTICE}", ON_SHEET),
    Default("condenser.opening", "100 %", PRACTICE, ON_SHEET),
    Default("condenser.wires.sides", 2, PRACTICE),
    Default("condenser.wires.material", "galvanised steel", PRACTICE),
    Default("condenser.gap", "40 mm ± 40 %", PRACTICE),
    Default("condenser.air_rise", "0 K ± 1 K", PRACTICE),
    Default("condenser.shaded_fraction", "0 % ± 10 %", PRACTICE),
    Default("condenser.dirt", "0 % ± 5 %", PRACTICE),
    Default("condenser.surface", "painted", PRACTICE),
    # The rest of the circuit.
    Default("capillary.roughness", "0.5 µm ± 100 %", MEMORY),
    Default("capillary.coil_diameter", "60 mm ± 50 %", PRACTICE),
    Default("liquid_line.length", "0.3 m ± 50 %", PRACTICE),
    Default("discharge_line.length", "0.5 m ± 50 %", PRACTICE),
    Default("drier.volume", "15 mL ± 40 %", PRACTICE),
    Default("refrigerant.superheat", "5 K ± 3 K", PRACTICE),
    Default("thermostat.bulb_lag", "60 s ± 60 %", PRACTICE),
    Default("thermostat.minimum_off_time", "5 min", PRACTICE),
)

# Conductance of a joint per metre of it [W/(m K)]; the widest guess of a build, so editable.
BOND_CONDUCTANCES: dict[str, str] = {
    "soldered": "60 W/(m K) ± 60 %",
    "bonded": "20 W/(m K) ± 60 %",
    "bolted": "10 W/(m K) ± 60 %",
    "clipped": "6 W/(m K) ± 70 %",
    "taped": "6 W/(m K) ± 60 %",
    "pressed": "10 W/(m K) ± 70 %",
    "wrapped": "3 W/(m K) ± 70 %",
    # No joint but the capillary's own wall, which holds back next to nothing beside the gas film.
    "inside": "800 W/(m K) ± 20 %",
    "none": "0 W/(m K) ± 0 W/(m K)",
}

# Stock size of a line whose tube is not described.
LINE_SIZES: dict[str, str] = {
    "suction_line": "1/4 in",
    "liquid_line": "3/16 in",
    "discharge_line": "3/16 in",
}

# Tables that exist in every build, whether or not the file writes them.
ALWAYS: tuple[str, ...] = (
    "site",
    "targets",
    "cabinet",
    "cabinet.gasket",
    "cabinet.air_path",
    "cabinet.contents",
    "cabinet.contents.warm_load",
    "cabinet.liner",
    "cold_side",
    "cold_side.tube",
    "compressor",
    "condenser",
    "condenser.tube",
    "capillary",
    "return_exchanger",
    "suction_line",
    "liquid_line",
    "discharge_line",
    "drier",
    "refrigerant",
    "thermostat",
)
