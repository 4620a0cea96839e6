"""The condenser: tube on a sheet, wires on a tube, or a bare tube."""

from __future__ import annotations

from typing import Annotated, Literal

from coldwright.build.schema.fields import Section, Text, known
from coldwright.build.schema.shop_names import material_field, surface_field
from coldwright.build.schema.tube import CondenserTube
from coldwright.units import Quantity

_KINDS = "sheet (tube on a sheet), wire (wires across the tube) or bare (the tube alone)."
_BONDS = "soldered, bonded (glued), taped, clipped or pressed: of tube and sheet."


class Wires(Section):
    """Upright wires welded across the runs of tube."""

    diameter: Annotated[Quantity, known("condenser.wires.diameter", "1.5 mm")]
    pitch: Annotated[Quantity, known("condenser.wires.pitch", "6 mm")]
    sides: Annotated[Literal[1, 2], Text("2", "Sides of the tube that carry wires: 1 or 2.")]
    material: Annotated[str, material_field("galvanised steel", "Material of the wires.")]


class Condenser(Section):
    """Where the heat goes out, at the back of the cabinet.

    Keys of a sheet (`sheet_thickness` to `opening`) are there for that kind alone, `wires` for
    kind `wire` alone.
    """

    kind: Annotated[Literal["sheet", "wire", "bare"], Text("sheet", _KINDS)]
    tube: Annotated[CondenserTube, Text("", "Tube in which the refrigerant condenses.")]
    sheet_width: Annotated[Quantity, known("condenser.sheet_width", "0.55 m")]
    sheet_height: Annotated[Quantity, known("condenser.sheet_height", "1.1 m")]
    sheet_thickness: Annotated[Quantity | None, known("condenser.sheet_thickness", "0.8 mm")] = None
    sheet_material: Annotated[
        str | None, material_field("galvanised steel", "Material of the sheet.")
    ] = None
    bond: Annotated[
        Literal["soldered", "bonded", "taped", "clipped", "pressed"] | None,
        Text("soldered", _BONDS),
    ] = None
    bond_conductance: Annotated[
        Quantity | None, known("condenser.bond_conductance", "40 W/(m K)")
    ] = None
    area_factor: Annotated[Quantity | None, known("condenser.area_factor", "1.2")] = None
    chimney_height: Annotated[Quantity | None, known("condenser.chimney_height", "1.1 m")] = None
    opening: Annotated[Quantity | None, known("condenser.opening", "70 %")] = None
    wires: Annotated[Wires | None, Text("", "Wires of kind wire.")] = None
    gap: Annotated[Quantity, known("condenser.gap", "40 mm")]
    wall_behind: Annotated[Quantity | None, known("condenser.wall_behind", "60 mm")] = None
    air_rise: Annotated[Quantity, known("condenser.air_rise", "2 K")]
    shaded_fraction: Annotated[Quantity, known("condenser.shaded_fraction", "5 %")]
    dirt: Annotated[Quantity, known("condenser.dirt", "10 %")]
    surface: Annotated[str, surface_field("painted", "Finish of the condenser.")]
    emissivity: Annotated[Quantity, known("condenser.emissivity", "0.9")]
