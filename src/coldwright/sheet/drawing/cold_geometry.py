"""The cold side as lengths to draw [m]: vessel or tank, plate, or tube in the air."""

from __future__ import annotations

import math
from dataclasses import dataclass

from coldwright.build.result import Build
from coldwright.build.schema.cold_side import Vessel as VesselSection
from coldwright.build.translation.box import box_of
from coldwright.parts.cold_side.holdover import Holdover
from coldwright.parts.cold_side.vessel import Vessel as VesselPart
from coldwright.sheet.drawing.shapes import Box, Runs, runs_across

HANGING = 0.03  # of the inside height: between the ceiling and what hangs below it
WALL_SPACE = 0.02  # between fins or vessel and the back wall [m]
TRAY_DEPTH, TRAY_GAP = 0.015, 0.02
LONGEST_STACK = 0.85  # of the inside height, that a serpentine takes before it doubles


@dataclass(frozen=True)
class VesselSize:
    """A vessel or tank; sizes are outside sizes, levels are heights above its inside floor."""

    body: Box  # in section
    across: float  # its width as the front sees it
    round: bool
    shape_known: bool
    wall: float
    level: float
    coil: tuple[float, ...]  # height of each run or turn above the inside floor, lowest first
    coil_diameter: float  # 0: runs to and fro, one above the other
    tube: float
    fins: int
    fin_projection: float
    fin_length: float
    fin_thickness: float
    well: float
    filler: float  # volume of the body that displaces brine [m3]
    frozen: float  # thickness of the frozen layer round the tube


@dataclass(frozen=True)
class PlateSize:
    """A plate on the back wall, its tube on the side of the wall."""

    body: Box
    across: float
    runs: Runs
    tube: float
    gap: float


@dataclass(frozen=True)
class TubeSize:
    """Bare tube: runs on the back wall, or loops round all walls of a box with a lid."""

    body: Box
    across: float
    tube: float
    loops: bool
    places: tuple[tuple[float, float], ...]  # middle of each run where the section cuts it


@dataclass(frozen=True)
class ColdSide:
    """The cold side with what it takes of the inside."""

    size: VesselSize | PlateSize | TubeSize
    front: float  # where it begins, from the front
    foot: float  # lower edge with its tray
    tray: Box | None
    at_walls: bool  # loops round the walls: the middle is free

    @property
    def body(self) -> Box:
        """Its outline in section."""
        return self.size.body


def cold_width_in_depth(build: Build, inside: Box) -> float:
    """How much of the depth the cold side takes [m], fins and space to the wall included."""
    cold = build.cold_side
    if cold.vessel is not None:
        fins = cold.fins.height.value if cold.fins and cold.fins.count.value > 0 else 0.0
        return _across_depth(cold.vessel) + 2.0 * fins + WALL_SPACE
    if cold.plate is not None:
        outer = cold.tube.outside_diameter.value
        return cold.plate.wall_gap.value + cold.plate.thickness.value + outer
    ranks, step = _ranks(build, inside)[1:]
    return WALL_SPACE + ranks * step


def cold_side_of(build: Build, inside: Box, deck: float | None) -> ColdSide:
    """The cold side of `build` within `inside`, above a deck where there is one."""
    cold = build.cold_side
    room = inside.height if deck is None else deck
    if cold.vessel is not None:
        return _vessel(build, cold.vessel, inside, room)
    if cold.plate is not None:
        return _plate(build, inside, room)
    if build.cabinet.door == "lid":
        return _loops(build, inside)
    return _serpentine(build, inside, room)


def _across_depth(vessel: VesselSection) -> float:
    """What a vessel takes of the depth; of a measured shape the drum of its volume."""
    if vessel.diameter is not None:
        return vessel.diameter.value
    if vessel.depth is not None:
        return vessel.depth.value
    volume = vessel.volume.value if vessel.volume else 0.0
    return math.sqrt(4.0 * volume / (math.pi * vessel.height.value))


def _hung(height: float, room: float, inside: Box) -> float:
    """Top of what hangs from the ceiling: a little below it, as far as there is room."""
    return min(HANGING * inside.height, max(0.5 * (room - height), 0.0))


def _tray(body: Box, deck_or_floor: float) -> Box | None:
    """A drip tray under `body`, where there is room for one."""
    if body.bottom + TRAY_GAP + TRAY_DEPTH > deck_or_floor:
        return None
    return Box(body.left - 0.01, body.bottom + TRAY_GAP, body.width + 0.02, TRAY_DEPTH)


def _vessel(build: Build, section: VesselSection, inside: Box, room: float) -> ColdSide:
    part = box_of(build).cold_side
    if not isinstance(part, VesselPart):
        raise TypeError("a vessel's section makes a vessel")
    cold, deep, height = build.cold_side, _across_depth(section), section.height.value
    fins = cold.fins if cold.fins is not None and cold.fins.count.value > 0.0 else None
    out = fins.height.value if fins else 0.0
    left = max(inside.width - deep - out - WALL_SPACE, 0.5 * (inside.width - deep))
    body = Box(left, _hung(height, room, inside), deep, height)
    coil, diameter = _coil(build, section, float(part.level))
    size = VesselSize(
        body=body,
        across=section.width.value if section.width else deep,
        round=section.shape != "box",
        shape_known=section.shape != "measured",
        wall=section.wall_thickness.value,
        level=float(part.level),
        coil=coil,
        coil_diameter=diameter,
        tube=cold.tube.outside_diameter.value,
        fins=round(fins.count.value) if fins else 0,
        fin_projection=out,
        fin_length=fins.length.value if fins else 0.0,
        fin_thickness=fins.thickness.value if fins else 0.0,
        well=min(section.well.value, height),
        filler=section.filler_volume.value,
        frozen=float(part.frozen_layer) if isinstance(part, Holdover) else 0.0,
    )
    tray = _tray(Box(body.left - out, body.top, body.width + 2.0 * out, height), room)
    foot = tray.bottom if tray else body.bottom
    return ColdSide(size, body.left - out, foot, tray, at_walls=False)


def _coil(build: Build, section: VesselSection, level: float) -> tuple[tuple[float, ...], float]:
    """Heights of the turns (or runs) above the floor, and the coil's diameter (0: runs).

    The immersed share of them lies under the level; a coil taller than the vessel is pushed
    together to fit it.
    """
    tube, immersed = build.cold_side.tube, section.immersed_fraction.value
    clear = section.height.value - 2.0 * section.wall_thickness.value
    if section.shape == "box" and section.coil_turns is None:
        wide = 0.85 * (section.width.value if section.width else 0.1)
        count, diameter = runs_across(tube.length.value, wide, tube.pitch.value).count, 0.0
    else:
        diameter = section.coil_diameter.value
        stated = section.coil_turns.value if section.coil_turns else 0.0
        turns = stated or tube.length.value / (math.pi * diameter)
        count = max(round(turns), 1)
    under = min(max(round(immersed * count), 1), count)
    return _stacked(under, count - under, tube.pitch.value, level, clear), diameter


def _stacked(wet: int, dry: int, pitch: float, level: float, clear: float) -> tuple[float, ...]:
    """Heights [m] of `wet` runs under the level and `dry` ones over it, up to `clear`.

    At their pitch, in the middle of the brine; where that does not fit they are pushed together.
    """
    close = min(pitch, level / (wet + 0.5))
    top = level - 0.5 * close if dry else 0.5 * (level + (wet - 1) * close)
    free = min(pitch, (clear - level) / (dry + 0.5))
    over = tuple(level + free * (at + 0.5) for at in range(dry))
    return (*(top - close * at for at in reversed(range(wet))), *over)


def _plate(build: Build, inside: Box, room: float) -> ColdSide:
    section, tube = build.cold_side.plate, build.cold_side.tube
    if section is None:
        raise TypeError("a plate needs its section")
    thick, height = section.thickness.value, section.height.value
    left = inside.width - section.wall_gap.value - thick
    body = Box(left, _hung(height, room, inside), thick, height)
    size = PlateSize(
        body=body,
        across=section.width.value,
        runs=runs_across(tube.length.value, section.width.value, tube.pitch.value),
        tube=tube.outside_diameter.value,
        gap=section.wall_gap.value,
    )
    wide = section.wall_gap.value + thick
    tray = _tray(Box(left, body.top, wide, height), room)
    return ColdSide(size, left, tray.bottom if tray else body.bottom, tray, at_walls=False)


def _ranks(build: Build, inside: Box) -> tuple[Runs, int, float]:
    """Runs of a bare tube on the back wall, in how many ranks one behind another, how far apart."""
    tube = build.cold_side.tube
    pitch = tube.pitch.value
    runs = runs_across(tube.length.value, 0.85 * build.cabinet.inside_width.value, pitch)
    per_rank = max(int(LONGEST_STACK * inside.height / pitch), 1)
    ranks = math.ceil(runs.count / per_rank)
    return runs, ranks, max(3.0 * tube.outside_diameter.value, 0.02)


def _serpentine(build: Build, inside: Box, room: float) -> ColdSide:
    runs, ranks, step = _ranks(build, inside)
    outer = build.cold_side.tube.outside_diameter.value
    per_rank = math.ceil(runs.count / ranks)
    height = (per_rank - 1) * runs.pitch + outer
    top = _hung(height, room, inside)
    right = inside.width - WALL_SPACE
    body = Box(right - (ranks - 1) * step - outer, top, (ranks - 1) * step + outer, height)
    places = tuple(
        (right - 0.5 * outer - (at // per_rank) * step,
         top + 0.5 * outer + (at % per_rank) * runs.pitch)
        for at in range(runs.count)
    )  # fmt: skip
    size = TubeSize(body, runs.straight + runs.pitch, outer, False, places)
    tray = _tray(body, room)
    return ColdSide(size, body.left, tray.bottom if tray else body.bottom, tray, at_walls=False)


def _loops(build: Build, inside: Box) -> ColdSide:
    """Loops along the upper edge, round all four walls."""
    tube, width = build.cold_side.tube, build.cabinet.inside_width.value
    outer, pitch = tube.outside_diameter.value, tube.pitch.value
    off = 0.5 * outer + 0.01
    girth = 2.0 * (width + inside.width) - 8.0 * off
    count = max(math.ceil(tube.length.value / max(girth, 1e-3) - 0.25), 1)
    step = min(pitch, LONGEST_STACK * inside.height / count)
    top = min(0.04 * inside.height + 0.5 * outer, 0.05)
    places = tuple(
        (place, top + at * step) for at in range(count) for place in (off, inside.width - off)
    )
    edge = off + 0.5 * outer
    body = Box(0.01, top - 0.5 * outer, inside.width - 0.02, (count - 1) * step + outer)
    size = TubeSize(body, width - 0.02, outer, True, places)
    return ColdSide(size, edge + 0.02, body.bottom, None, at_walls=True)
