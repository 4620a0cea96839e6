"""An invented cupboard for the box tests: oak outside, slab cork, a drum of glycol inside."""

from __future__ import annotations

import numpy as np

from coldwright.fluids.brines import brine
from coldwright.fluids.filling import filling
from coldwright.parts.air_circuit import AirPath
from coldwright.parts.cabinet import Cabinet
from coldwright.parts.cabinet_faces import FACE_NAMES, Layer, box_faces
from coldwright.parts.cold_side.bare_tube import BareTube
from coldwright.parts.cold_side.cold_surface import ColdSurface
from coldwright.parts.cold_side.holdover import Holdover
from coldwright.parts.cold_side.plate import Plate
from coldwright.parts.cold_side.tube import EvaporatorTube
from coldwright.parts.cold_side.upright_fins import UprightFins
from coldwright.parts.cold_side.vessel import Vessel
from coldwright.parts.cold_side.vessel_shell import VesselShell
from coldwright.parts.conditions import Surroundings

WIDTH, HEIGHT, DEPTH = 0.5, 0.9, 0.45  # inside, m
INSIDE_AREA = 2 * (WIDTH * DEPTH + HEIGHT * DEPTH + WIDTH * HEIGHT)
ZERO_C = 273.15


def arrays(**values):
    return {name: np.asarray(value, dtype=np.float64) for name, value in values.items()}


def room(temperature=ZERO_C + 20.0, humidity=0.5, condenser_rise=6.0, compressor_rise=4.0):
    return Surroundings.of_room(
        np.asarray(temperature),
        np.asarray(humidity),
        condenser_side_rise=condenser_rise,
        compressor_space_rise=compressor_rise,
    )


def cupboard(cork=0.075, **changes):
    oak = Layer(np.asarray(0.018), np.asarray(0.17))
    liner = Layer(np.asarray(0.006), np.asarray(0.12))
    slab = Layer(np.asarray(cork, dtype=np.float64), np.asarray(0.043))
    layers = dict.fromkeys(FACE_NAMES, (liner, slab, oak))
    faces = box_faces(WIDTH, HEIGHT, DEPTH, layers, {"back": "condenser", "bottom": "compressor"})
    values = {
        "inside_air_volume": 0.15,
        "gasket_length": 2.6,
        "gasket_conductance": 0.06,
        "leakage_area_low": 2.5e-5,
        "leakage_area_high": 2.5e-5,
        "leakage_height": 0.8,
        "bridge_conductance": 0.05,
        "door_openings_per_day": 8.0,
        "door_open_time": 15.0,
        "door_area": 0.4,
        "door_height": 0.85,
    } | changes
    return Cabinet(faces=values.pop("faces", faces), **arrays(**values))


def surface(**changes):
    values = {"emissivity": 0.9, "liner_emissivity": 0.9, "liner_area": INSIDE_AREA}
    return ColdSurface(**arrays(**(values | changes)))


def tube(outside=0.00635, inside=0.0048, length=9.0):
    return EvaporatorTube(
        **arrays(
            inside_diameter=inside,
            outside_diameter=outside,
            length=length,
            wall_conductivity=390.0,
        )
    )


def fins(count=24, projection=0.03, length=0.36, thickness=0.001, bond=50.0):
    return UprightFins(
        **arrays(
            count=count,
            projection=projection,
            length=length,
            thickness=thickness,
            conductivity=160.0,
            bond_conductance=bond,
            density=2700.0,
            specific_heat=900.0,
        )
    )


def shell(form="round", **changes):
    values = {
        "width": 0.25,
        "depth": 0.25,
        "height": 0.4,
        "wall_thickness": 0.001,
        "wall_conductivity": 17.0,
        "wall_density": 7900.0,
        "wall_specific_heat": 500.0,
        "top_exposed": 1.0,
        "bottom_exposed": 1.0,
    }
    return VesselShell(form=form, **arrays(**(values | changes)))


def drum(fins=None, body=None, skin=None, **changes):
    values = {
        "shell": body or shell(),
        "brine": brine("propylene glycol", 0.40, "volume"),
        "tube": tube(),
        "surface": skin or surface(),
        "headspace": np.asarray(0.03),
        "fins": fins,
    }
    return Vessel(**(values | changes))


def plate(skin=None, **changes):
    values = arrays(
        width=0.45,
        height=0.5,
        thickness=0.001,
        conductivity=160.0,
        density=2700.0,
        specific_heat=900.0,
        bond_conductance=20.0,
    )
    return Plate(**({"tube": tube(length=5.0), "surface": skin or surface()} | values | changes))


def bare_tube(skin=None):
    return BareTube(tube=tube(0.00952, 0.008, 10.0), surface=skin or surface())


def air_path(divided=True, opening=0.02, **changes):
    values = {
        "lower_opening_area": opening,
        "upper_opening_area": opening,
        "height_difference": 0.7,
        "free_area": 0.15,
    }
    return AirPath.between_openings(divided=divided, **(values | changes))


def holdover(name="propylene glycol", fraction=0.1, state_of_charge=0.5, pitch=0.02, **changes):
    store = filling(name, fraction)
    tank = drum(brine=store.liquid, **changes)
    return Holdover.around(tank, store, np.asarray(state_of_charge), np.asarray(pitch))


COLD_SIDES = {
    "drum": drum,
    "finned drum": lambda: drum(fins()),
    "flat vessel": lambda: drum(body=shell("flat", width=0.35, depth=0.12)),
    "holdover": holdover,
    "plate": plate,
    "lying plate": lambda: plate(stance="lying"),
    "bare tube": bare_tube,
}
