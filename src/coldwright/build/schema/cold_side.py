"""The cold side: brine vessel, holdover, plate or bare tube, with the evaporator's tube."""

from __future__ import annotations

from typing import Annotated, Literal

from coldwright.build.schema.fields import Named, NotAFlag, Section, Text, known, local
from coldwright.build.schema.shop_names import material_field, surface_field
from coldwright.build.schema.tube import EvaporatorTube
from coldwright.errors import Fault, InputError
from coldwright.units import Quantity


def _brine_names() -> tuple[str, ...]:
    from coldwright.fluids.brines import brine_names  # noqa: PLC0415  (imports CoolProp: slow)

    return brine_names()


def _brine_name(name: str) -> str:
    plain = " ".join(name.lower().split())
    if plain not in _brine_names():
        raise InputError(Fault("cold_side.brine.kind", f"There is no brine {name!r}."))
    return plain


def _filling_names() -> tuple[str, ...]:
    from coldwright.fluids.filling import filling_names  # noqa: PLC0415  (as above)

    return filling_names()


def _filling_name(name: str) -> str:
    from coldwright.fluids.filling import filling_name  # noqa: PLC0415  (as above)

    return filling_name(name)


class Vessel(Section):
    """What holds the brine, or a holdover's filling; sizes are outside sizes."""

    shape: Annotated[
        Literal["cylinder", "box", "measured"],
        Text("cylinder", "cylinder, box, or measured: any closed shape by its area and volume."),
    ]
    diameter: Annotated[Quantity | None, known("cold_side.vessel.diameter", "0.25 m")] = None
    width: Annotated[Quantity | None, known("cold_side.vessel.width", "0.40 m")] = None
    depth: Annotated[Quantity | None, known("cold_side.vessel.depth", "0.12 m")] = None
    area: Annotated[Quantity | None, known("cold_side.vessel.area", "0.42 m2")] = None
    volume: Annotated[Quantity | None, known("cold_side.vessel.volume", "20 L")] = None
    height: Annotated[Quantity, known("cold_side.vessel.height", "0.42 m")]
    wall_thickness: Annotated[Quantity, known("cold_side.vessel.wall_thickness", "1.5 mm")]
    material: Annotated[str, material_field("copper", "Material of the vessel.")]
    immersed_fraction: Annotated[Quantity, known("cold_side.immersed_fraction", "100 %")]
    headspace: Annotated[Quantity, known("cold_side.headspace", "20 mm")]
    filler_volume: Annotated[Quantity, known("cold_side.filler_volume", "0 L")]
    filler_material: Annotated[
        str | None,
        material_field(
            "polyethylene",
            "Material of the body that displaces brine; hold down one that floats.",
        ),
    ] = None
    coil_diameter: Annotated[Quantity, known("cold_side.coil_diameter", "0.19 m")]
    coil_turns: Annotated[Quantity | None, known("cold_side.coil_turns", "15")] = None
    lid_exposed: Annotated[Quantity | None, known("cold_side.lid_exposed", "100 %")] = None
    floor_exposed: Annotated[Quantity | None, known("cold_side.floor_exposed", "100 %")] = None
    well: Annotated[
        Quantity,
        local("length", 0.0, 2.0, "0.3 m", "length of the thermometer well, 0 for none"),
    ]


class BrineFill(Section):
    """What is in the vessel."""

    kind: Annotated[
        str, Named("brine", _brine_name, _brine_names, "propylene glycol", "Kind of brine.")
    ]
    fraction: Annotated[Quantity, known("cold_side.brine_fraction", "40 %")]
    basis: Annotated[Literal["volume", "mass"], Text("volume", "Percent by volume or by mass.")]


class Holdover(Section):
    """What freezes in the tank."""

    filling: Annotated[
        str,
        Named(
            "filling",
            _filling_name,
            _filling_names,
            "water",
            "What freezes in the tank: water, a eutectic, or a brine.",
        ),
    ]
    fraction: Annotated[Quantity | None, known("cold_side.brine_fraction", "10 %")] = None
    basis: Annotated[
        Literal["volume", "mass"] | None,
        Text("volume", "Percent of a brine by volume or by mass."),
    ] = None
    state_of_charge: Annotated[Quantity, known("cold_side.holdover.state_of_charge", "50 %")]


class Fins(Section):
    """Upright fins on the outside of a vessel."""

    count: Annotated[Quantity, known("cold_side.fins.count", "16")]
    height: Annotated[Quantity, known("cold_side.fins.depth", "40 mm")]
    length: Annotated[Quantity, known("cold_side.fins.height", "0.38 m")]
    thickness: Annotated[Quantity, known("cold_side.fins.thickness", "1.5 mm")]
    material: Annotated[str, material_field("aluminium", "Material of the fins.")]
    attachment: Annotated[
        Literal["soldered", "bonded", "bolted"], Text("soldered", "soldered, bonded or bolted.")
    ]
    bond_conductance: Annotated[Quantity, known("cold_side.fins.bond_conductance", "40 W/(m K)")]


class Plate(Section):
    """A sheet with the tube bonded on it."""

    width: Annotated[Quantity, known("cold_side.plate.width", "0.45 m")]
    height: Annotated[Quantity, known("cold_side.plate.height", "0.60 m")]
    thickness: Annotated[Quantity, known("cold_side.plate.thickness", "1.5 mm")]
    material: Annotated[str, material_field("aluminium", "Material of the plate.")]
    faces: Annotated[Literal[1, 2], NotAFlag, Text("2", "Faces that the air reaches: 1 or 2.")]
    wall_gap: Annotated[Quantity, known("cold_side.wall_gap", "25 mm")]
    bond: Annotated[
        Literal["soldered", "bonded", "clipped", "pressed"],
        Text("soldered", "soldered, bonded, clipped or pressed."),
    ]
    bond_conductance: Annotated[Quantity, known("cold_side.bond_conductance", "40 W/(m K)")]


class ColdSide(Section):
    """What cools the air; exactly the sections of its kind are present."""

    kind: Annotated[
        Literal["vessel", "holdover", "plate", "bare_tube"],
        Text("vessel", "vessel, holdover (a tank that freezes), plate or bare_tube."),
    ]
    surface: Annotated[str, surface_field("painted", "Finish of the cold surface.")]
    emissivity: Annotated[Quantity, known("cold_side.emissivity", "0.9")]
    frost: Annotated[Quantity, known("cold_side.frost", "0.5 mm")]
    tube: Annotated[EvaporatorTube, Text("", "Tube in which the refrigerant boils.")]
    vessel: Annotated[Vessel | None, Text("", "The vessel, or the holdover's tank.")] = None
    holdover: Annotated[Holdover | None, Text("", "The holdover's filling.")] = None
    brine: Annotated[BrineFill | None, Text("", "The brine in it.")] = None
    fins: Annotated[Fins | None, Text("", "Fins outside the vessel.")] = None
    plate: Annotated[Plate | None, Text("", "The cold plate.")] = None
