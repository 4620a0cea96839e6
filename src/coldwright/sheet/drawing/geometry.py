"""A build as lengths to draw: every size true to the file, places that it leaves open as usual.

Sizes come from the build and, where they follow from it, from the parts of the plant. The build
does not say where the cold side hangs, where the compressor stands or how the shelves lie: these
places are the usual ones, and the drawing says so.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from coldwright.build.result import Build
from coldwright.sheet.drawing.cold_geometry import ColdSide, cold_side_of, cold_width_in_depth
from coldwright.sheet.drawing.shapes import Box, Runs, runs_across
from coldwright.shop.compressor_classes import compressor_class

# Goods of about water's density: as the plant takes them.
GOODS_DENSITY = 1000.0
# Shell with motor and pump: metal [kg] where no class is named, and its mean density; shells are
# about a tenth taller than wide. Assumed, no source.
USUAL_SHELL_MASS, SHELL_DENSITY, SHELL_SLENDER = 7.0, 7000.0, 1.1
FEET, STAND_OVER_SHELL = 0.03, 0.04
LEAST_CLEARANCE = 0.02


@dataclass(frozen=True)
class Layer:
    """One layer of a wall [m]."""

    material: str
    thickness: float
    assumed: bool


@dataclass(frozen=True)
class AirWay:
    """The cold compartment: a partition in front, a deck with the lower opening at its rear.

    Without a partition (`divided` False) the rest is 0. Openings run over the inside width, so
    their height is area over width; `duct` hangs from the deck.
    """

    divided: bool
    partition: float  # place of it in the depth
    upper_opening: float  # height above the partition
    deck: float  # height of the deck, from the top
    lower_opening: float  # width of the slot between deck and back
    duct: float


@dataclass(frozen=True)
class Shelves:
    """Shelves with what stands on them: heights from the top, the floor last."""

    left: float
    right: float
    levels: tuple[float, ...]
    first: float  # top of the space over the first
    blocked: float  # share of each that is closed
    goods_area: float  # section of what stands on each level [m2]


@dataclass(frozen=True)
class Condenser:
    """Tube and sheet, wires or tube alone, standing upright behind the back."""

    kind: str
    sheet: Box  # in section: width is the sheet's thickness
    width: float
    runs: Runs
    outside_diameter: float
    wire_diameter: float
    wire_pitch: float
    wire_sides: int
    chimney: float  # height of the channel above the sheet
    wall: float | None  # place of a wall behind it

    @property
    def first_run(self) -> float:
        """Height of the uppermost run."""
        return self.sheet.top + 0.5 * (self.sheet.height - self.runs.height)

    @property
    def run_levels(self) -> tuple[float, ...]:
        """Height of each run, from the top."""
        return tuple(self.first_run + at * self.runs.pitch for at in range(self.runs.count))


@dataclass(frozen=True)
class Compressor:
    """A shell: where it stands and whether its size is guessed."""

    shell: Box
    place: str  # "under" the floor, "behind" under the condenser, "beyond" it
    size_assumed: bool


@dataclass(frozen=True)
class Lines:
    """The tubes between the parts [m]."""

    suction: float
    suction_length: float
    insulation: float
    capillary: float
    joined: float
    joint: str
    liquid: float
    discharge: float


@dataclass(frozen=True)
class Geometry:
    """The whole box [m]; see `shapes` for the origin."""

    inside: Box  # in section: width is the depth
    width: float  # across the front
    walls: Mapping[str, tuple[Layer, ...]]
    door: str
    gasket: float
    drain: tuple[float, float, bool] | None  # bore, depth, trapped
    floor: float
    cold: ColdSide
    air: AirWay
    shelves: Shelves
    condenser: Condenser
    compressor: Compressor
    lines: Lines

    def thickness(self, face: str) -> float:
        """Thickness of the wall called `face`."""
        return sum(layer.thickness for layer in self.walls[face])

    @property
    def outside(self) -> Box:
        """The cabinet's outside in section."""
        left, top = -self.thickness("front"), -self.thickness("top")
        width = self.inside.width - left + self.thickness("back")
        return Box(left, top, width, self.inside.height - top + self.thickness("bottom"))

    @property
    def outside_width(self) -> float:
        """The cabinet's outside across the front."""
        return self.thickness("left") + self.width + self.thickness("right")


def geometry_of(build: Build) -> Geometry:
    """The lengths of `build`."""
    cabinet = build.cabinet
    inside = Box(0.0, 0.0, cabinet.inside_depth.value, cabinet.inside_height.value)
    walls: dict[str, tuple[Layer, ...]] = {
        face.name: _layers(build, face.name) for face in cabinet.faces
    }
    thick = {name: sum(layer.thickness for layer in wall) for name, wall in walls.items()}
    air = _air_way(build, inside)
    cold = cold_side_of(build, inside, air.deck if air.divided else None)
    outside = Box(
        -thick["front"],
        -thick["top"],
        inside.width + thick["front"] + thick["back"],
        inside.height + thick["top"] + thick["bottom"],
    )
    shell_width, shell_height, guessed = _shell(build)
    under = cabinet.face("bottom").adjoining == "compressor"
    floor = outside.bottom + (shell_height + STAND_OVER_SHELL if under else FEET)
    condenser = _condenser(build, outside, floor, 0.0 if under else shell_height)
    compressor = _compressor(shell_width, shell_height, guessed, under, outside, floor, condenser)
    drain = cabinet.drain
    return Geometry(
        inside=inside,
        width=cabinet.inside_width.value,
        walls=walls,
        door=cabinet.door_face,
        gasket=cabinet.gasket.length.value,
        drain=None
        if drain is None
        else (drain.diameter.value, drain.depth.value, drain.outlet == "trapped"),
        floor=floor,
        cold=cold,
        air=air,
        shelves=_shelves(build, inside, air, cold),
        condenser=condenser,
        compressor=compressor,
        lines=_lines(build),
    )


def _layers(build: Build, name: str) -> tuple[Layer, ...]:
    cabinet = build.cabinet
    own = bool(cabinet.face(name).layers)
    place = [str(face.name) for face in cabinet.faces].index(name) + 1
    path = f"cabinet.faces[{place}].layers" if own else "cabinet.layers"
    return tuple(
        Layer(
            layer.material,
            layer.thickness.value,
            build.is_assumed(f"{path}[{at}].thickness"),
        )
        for at, layer in enumerate(cabinet.layers_of(name), start=1)
    )


def _air_way(build: Build, inside: Box) -> AirWay:
    """Partition and deck round the cold side; held inside the cabinet where they would not fit."""
    way, width = build.cabinet.air_path, build.cabinet.inside_width.value
    if way.kind != "divided":
        return AirWay(False, 0.0, 0.0, 0.0, 0.0, 0.0)
    upper = min(way.upper_opening_area.value / width, 0.4 * inside.height)
    deck = min(0.5 * upper + way.height_difference.value, inside.height)
    lower = min(way.lower_opening_area.value / width, 0.6 * inside.width)
    needed = cold_width_in_depth(build, inside) + 2.0 * LEAST_CLEARANCE
    partition = max(inside.width - max(needed, lower + LEAST_CLEARANCE), 0.06 * inside.width)
    duct = min(way.duct_height.value, inside.height - deck)
    return AirWay(True, partition, upper, deck, lower, duct)


def _shelves(build: Build, inside: Box, air: AirWay, cold: ColdSide) -> Shelves:
    """Shelves in the larger of two spaces: below the cold side, or in front of it."""
    cabinet = build.cabinet
    across, high = inside.width, inside.height
    low_top = air.deck if air.divided else cold.foot
    rear = max(air.lower_opening, 0.07 * across)
    front_end = air.partition if air.divided else cold.front
    below = Box(0.07 * across, low_top, across * 0.93 - rear, high - low_top)
    beside = Box(0.07 * across, 0.0, front_end - 0.07 * across - LEAST_CLEARANCE, high)
    if cold.at_walls:
        beside = Box(cold.front, 0.0, across - 2.0 * cold.front, high)
        below = beside
    areas = (below.width * below.height, beside.width * beside.height)
    space = below if areas[0] >= areas[1] or beside.width <= 0.0 else beside
    # Air goes over the uppermost goods too, where they stand beside the cold side.
    top = space.top if space is below and not cold.at_walls else 0.08 * high
    count = round(cabinet.air_path.shelves.value)
    step = (high - top) / (count + 1)
    levels = tuple(top + step * at for at in range(1, count + 2))
    volume = cabinet.contents.mass.value / GOODS_DENSITY
    section = volume / (0.9 * cabinet.inside_width.value)
    return Shelves(
        left=space.left,
        right=space.left + max(space.width, 0.1 * across),
        levels=levels,
        first=top,
        blocked=cabinet.air_path.shelf_blocked.value,
        goods_area=section / len(levels),
    )


def _shell(build: Build) -> tuple[float, float, bool]:
    """Diameter and height of the compressor's shell [m], and whether they are guessed.

    Without sizes: the volume of gas, oil and metal in a cylinder.
    """
    section = build.compressor
    if section.shell_diameter is not None and section.shell_height is not None:
        return section.shell_diameter.value, section.shell_height.value, False
    mass = USUAL_SHELL_MASS
    if section.class_name:
        mass = compressor_class(section.class_name).shell_mass.value
    volume = section.shell_free_volume.value + section.oil_amount.value + mass / SHELL_DENSITY
    width = (4.0 * volume / (math.pi * SHELL_SLENDER)) ** (1 / 3)
    if section.shell_diameter is not None:
        width = section.shell_diameter.value
    height = SHELL_SLENDER * width
    if section.shell_height is not None:
        height = section.shell_height.value
    return width, height, True


def _condenser(build: Build, outside: Box, floor: float, below: float) -> Condenser:
    """The condenser, hung from the top of the back; `below`: the shell's height under it [m]."""
    section = build.condenser
    height = section.sheet_height.value
    room = floor - outside.top - (below + 2.0 * LEAST_CLEARANCE if below else 0.0)
    if height > room:
        room = floor - outside.top
    top = outside.top + min(max(0.3 * (room - height), 0.0), 0.05)
    if height > room:
        top = floor - LEAST_CLEARANCE - height
    tube, wires = section.tube, section.wires
    outer = tube.outside_diameter.value
    thick = section.sheet_thickness.value if section.sheet_thickness else outer
    left = outside.right + section.gap.value
    chimney = section.chimney_height.value if section.chimney_height else height
    wall = section.wall_behind.value if section.wall_behind else None
    return Condenser(
        kind=section.kind,
        sheet=Box(left, top, thick, height),
        width=section.sheet_width.value,
        runs=runs_across(tube.length.value, section.sheet_width.value, tube.pitch.value),
        outside_diameter=outer,
        wire_diameter=wires.diameter.value if wires else 0.0,
        wire_pitch=wires.pitch.value if wires else 0.0,
        wire_sides=wires.sides if wires else 0,
        chimney=max(chimney - height, 0.0),
        wall=None if wall is None else left + thick + outer + wall,
    )


def _compressor(
    width: float,
    height: float,
    guessed: bool,
    under: bool,
    outside: Box,
    floor: float,
    condenser: Condenser,
) -> Compressor:
    """Under the floor where the bottom adjoins it; else behind, under or beyond the condenser."""
    top = floor - height
    if under:
        left = max(outside.right - width - LEAST_CLEARANCE, outside.left)
        return Compressor(Box(left, top, width, height), "under", guessed)
    if condenser.sheet.bottom + LEAST_CLEARANCE <= top:
        left = outside.right + LEAST_CLEARANCE
        return Compressor(Box(left, top, width, height), "behind", guessed)
    left = condenser.sheet.right + condenser.outside_diameter + 5.0 * LEAST_CLEARANCE
    if condenser.wall is not None:
        left = max(left, condenser.wall + LEAST_CLEARANCE)
    return Compressor(Box(left, top, width, height), "beyond", guessed)


def _lines(build: Build) -> Lines:
    suction, exchanger = build.suction_line, build.return_exchanger
    return Lines(
        suction=suction.outside_diameter.value,
        suction_length=max(suction.length.value, exchanger.length.value),
        insulation=suction.insulation.value if suction.insulation else 0.0,
        capillary=build.capillary.outside_diameter.value,
        joined=0.0 if exchanger.kind == "none" else exchanger.length.value,
        joint=exchanger.kind,
        liquid=build.liquid_line.outside_diameter.value,
        discharge=build.discharge_line.outside_diameter.value,
    )
