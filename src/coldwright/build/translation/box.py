"""The cabinet, the air's way and the cold side as parts, out of a build."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.build.result import Build
from coldwright.build.schema.cabinet import Cabinet as CabinetSection
from coldwright.build.schema.cold_side import ColdSide as ColdSideSection
from coldwright.build.schema.cold_side import Holdover as HoldoverSection
from coldwright.build.schema.cold_side import Vessel as VesselSection
from coldwright.fluids.brines import Brine, brine
from coldwright.fluids.filling import Filling, filling
from coldwright.parts.air_circuit import AirPath
from coldwright.parts.cabinet import Cabinet
from coldwright.parts.cabinet_faces import Layer, box_faces, inside_area
from coldwright.parts.cold_side.bare_tube import BareTube
from coldwright.parts.cold_side.cold_surface import ColdSurface
from coldwright.parts.cold_side.holdover import Holdover
from coldwright.parts.cold_side.plate import Plate
from coldwright.parts.cold_side.surface_heat import ColdSide
from coldwright.parts.cold_side.tube import EvaporatorTube
from coldwright.parts.cold_side.upright_fins import UprightFins
from coldwright.parts.cold_side.vessel import Vessel
from coldwright.parts.cold_side.vessel_shell import Form, VesselShell
from coldwright.parts.conditions import Adjoining
from coldwright.plant.box import Box
from coldwright.shop.materials import material

SECONDS_PER_DAY = 86400.0


def box_of(build: Build) -> Box:
    """The box of `build`, scalars as 0-d arrays."""
    cabinet = cabinet_of(build.cabinet)
    cold = build.cold_side
    surface = ColdSurface(
        emissivity=lanes(cold.emissivity.value),
        liner_emissivity=lanes(build.cabinet.liner.emissivity.value),
        liner_area=inside_area(cabinet.faces),
        frost_thickness=lanes(cold.frost.value),
        air_pressure=lanes(build.site.atmospheric_pressure),
    )
    return Box(cabinet, air_path_of(build.cabinet), cold_side_of(cold, surface))


def cabinet_of(section: CabinetSection) -> Cabinet:
    """The cabinet from its section."""
    width, height, depth = (
        getattr(section, f"inside_{side}").value for side in ("width", "height", "depth")
    )
    layers: dict[str, tuple[Layer, ...]] = {
        face.name: tuple(
            Layer(lanes(layer.thickness.value), lanes(layer.conductivity.value))
            for layer in section.layers_of(face.name)
        )
        for face in section.faces
    }
    adjoining: dict[str, Adjoining] = {face.name: face.adjoining for face in section.faces}
    contents, lid = section.contents, section.door == "lid"
    load = contents.warm_load
    bridges = sum(b.length.value * b.linear_conductance.value for b in section.thermal_bridges)
    # Goods of about water's density take their room from the air.
    air = max(width * height * depth - contents.mass.value / 1000.0, 0.3 * width * height * depth)
    return Cabinet(
        faces=box_faces(width, height, depth, layers, adjoining),
        inside_air_volume=lanes(air),
        gasket_length=lanes(section.gasket.length.value),
        gasket_conductance=lanes(section.gasket.linear_conductance.value),
        leakage_area_low=lanes(0.5 * section.leakage_area.value),
        leakage_area_high=lanes(0.5 * section.leakage_area.value),
        leakage_height=lanes(section.leakage_height.value),
        drain_area=lanes(_drain_area(section)),
        drain_depth=lanes(section.drain.depth.value if section.drain else 0.0),
        bridge_conductance=lanes(bridges),
        door_openings_per_day=lanes(section.door_openings_per_day.value),
        door_open_time=lanes(section.door_open_time.value),
        door_area=lanes(width * (depth if lid else height)),
        door_height=lanes(0.0 if lid else height),
        contents_heat=lanes(contents.heat.value),
        contents_moisture=lanes(contents.moisture_per_day.value),
        warm_load_capacity_flow=lanes(
            load.mass_per_day.value * contents.specific_heat.value / SECONDS_PER_DAY
        ),
        warm_load_temperature=lanes(load.temperature.value),
    )


def _drain_area(section: CabinetSection) -> float:
    """Open area of the drain [m2]; a trap shuts it."""
    drain = section.drain
    if drain is None or drain.outlet == "trapped":
        return 0.0
    return float(np.pi / 4.0 * drain.diameter.value**2)


def air_path_of(section: CabinetSection, **changes: FloatOrArray) -> AirPath:
    """The way of the air from the cabinet's section, with other values where `changes` has them."""
    way = section.air_path
    values: dict[str, FloatOrArray] = {
        "lower_opening_area": way.lower_opening_area.value,
        "upper_opening_area": way.upper_opening_area.value,
        "height_difference": way.height_difference.value,
        "free_area": section.inside_width.value * section.inside_depth.value,
        "ledge_loss": way.ledge.value,
        "duct_height": way.duct_height.value,
        "shelves": way.shelves.value,
        "shelf_blocked": way.shelf_blocked.value,
    }
    return AirPath.between_openings(divided=way.kind == "divided", **(values | changes))


def cold_side_of(section: ColdSideSection, surface: ColdSurface) -> ColdSide:
    """The cold side of whichever kind."""
    metal = material(section.tube.material)
    tube = EvaporatorTube(
        inside_diameter=lanes(section.tube.inside_diameter),
        outside_diameter=lanes(section.tube.outside_diameter.value),
        length=lanes(section.tube.length.value),
        wall_conductivity=lanes(metal.conductivity),
        wall_density=lanes(metal.density),
        wall_specific_heat=lanes(metal.specific_heat),
    )
    if section.vessel is not None and section.holdover is not None:
        store = _filling(section.holdover)
        return Holdover.around(
            _vessel(section, section.vessel, store.liquid, surface, tube),
            store,
            lanes(section.holdover.state_of_charge.value),
            lanes(section.tube.pitch.value),
        )
    if section.vessel is not None and section.brine is not None:
        fill = section.brine
        liquid = brine(fill.kind, fill.fraction.value, fill.basis)
        return _vessel(section, section.vessel, liquid, surface, tube)
    if section.plate is not None:
        plate = section.plate
        sheet = material(plate.material)
        return Plate(
            tube=tube,
            surface=surface,
            width=lanes(plate.width.value),
            height=lanes(plate.height.value),
            thickness=lanes(plate.thickness.value),
            conductivity=lanes(sheet.conductivity),
            density=lanes(sheet.density),
            specific_heat=lanes(sheet.specific_heat),
            bond_conductance=lanes(plate.bond_conductance.value),
            rear_exposed=lanes(1.0 if plate.faces == 2 else 0.0),
            rear_gap=lanes(plate.wall_gap.value),
        )
    return BareTube(tube=tube, surface=surface)


def _filling(section: HoldoverSection) -> Filling:
    strength = 0.0 if section.fraction is None else section.fraction.value
    return filling(section.filling, strength, section.basis or "mass")


def _vessel(
    section: ColdSideSection,
    vessel: VesselSection,
    liquid: Brine,
    surface: ColdSurface,
    tube: EvaporatorTube,
) -> Vessel:
    body = material(vessel.filler_material) if vessel.filler_material else None
    return Vessel(
        shell=_shell(vessel),
        brine=liquid,
        tube=tube,
        surface=surface,
        headspace=lanes(vessel.headspace.value),
        coil_form="helix" if vessel.shape != "box" or vessel.coil_turns else "serpentine",
        fins=_fins(section),
        immersed_fraction=lanes(vessel.immersed_fraction.value),
        filler_volume=lanes(vessel.filler_volume.value),
        filler_density=lanes(body.density if body else 0.0),
        filler_specific_heat=lanes(body.specific_heat if body else 0.0),
    )


FORMS: Mapping[str, Form] = {"cylinder": "round", "box": "flat", "measured": "measured"}


def _shell(vessel: VesselSection) -> VesselShell:
    metal = material(vessel.material)
    measured = vessel.shape == "measured"
    return VesselShell(
        form=FORMS[vessel.shape],
        width=_value(vessel.diameter or vessel.width),
        depth=_value(vessel.depth),
        height=lanes(vessel.height.value),
        wall_thickness=lanes(vessel.wall_thickness.value),
        wall_conductivity=lanes(metal.conductivity),
        wall_density=lanes(metal.density),
        wall_specific_heat=lanes(metal.specific_heat),
        top_exposed=lanes(0.0) if measured else _value(vessel.lid_exposed),
        bottom_exposed=lanes(0.0) if measured else _value(vessel.floor_exposed),
        measured_area=_value(vessel.area),
        measured_volume=_value(vessel.volume),
    )


def _fins(section: ColdSideSection) -> UprightFins | None:
    fins = section.fins
    if fins is None or fins.count.value == 0.0:
        return None
    metal = material(fins.material)
    return UprightFins(
        count=lanes(fins.count.value),
        projection=lanes(fins.height.value),
        length=lanes(fins.length.value),
        thickness=lanes(fins.thickness.value),
        conductivity=lanes(metal.conductivity),
        bond_conductance=lanes(fins.bond_conductance.value),
        density=lanes(metal.density),
        specific_heat=lanes(metal.specific_heat),
    )


def _value(quantity: object) -> Array:
    """The SI value of a quantity that may be left out, 0 then."""
    return lanes(np.asarray(getattr(quantity, "value", 0.0), dtype=np.float64))
