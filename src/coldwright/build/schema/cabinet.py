"""The cabinet: layers, faces, seals, openings, the air's way and what stands inside."""

from __future__ import annotations

from typing import Annotated, Literal

from coldwright.build.schema.fields import Section, Text, known, local
from coldwright.build.schema.shop_names import (
    gasket_field,
    material_field,
    product_field,
    surface_field,
)
from coldwright.units import Quantity

FACE_NAMES = ("top", "bottom", "left", "right", "front", "back")
FaceName = Literal["top", "bottom", "left", "right", "front", "back"]


class Layer(Section):
    """One layer of a wall."""

    material: Annotated[str, material_field("corkboard", "Material of the layer.")]
    thickness: Annotated[Quantity, known("cabinet.layer.thickness", "75 mm")]
    condition: Annotated[
        Literal["new", "aged", "wet"],
        Text(
            "aged",
            "State of an insulation whose conductivity is not written: new (and dry), aged or wet. "
            "It multiplies the material's conductivity and widens its uncertainty.",
        ),
    ]
    facing: Annotated[
        Literal["dull", "bright foil", "tarnished foil"],
        Text("dull", "What lines a still air gap: dull, bright foil or tarnished foil on a side."),
    ]
    conductivity: Annotated[Quantity, known("cabinet.layer.conductivity", "0.040 W/(m K)")]


class Face(Section):
    """One of the six faces; without layers of its own it has the cabinet's."""

    name: Annotated[FaceName, Text("back", "Which face: top, bottom, left, right, front or back.")]
    adjoining: Annotated[
        Literal["room", "condenser", "compressor"],
        Text("condenser", "What its outside faces: room, condenser or compressor."),
    ]
    layers: Annotated[
        tuple[Layer, ...], Text("[{...}, {...}]", "Its own layers, inside first.")
    ] = ()


class Gasket(Section):
    """The seal of the door or lid."""

    kind: Annotated[
        str | None,
        gasket_field(
            "old hardened",
            "Kind and age of the seal; it gives conductance and leakage area where these are not "
            "written.",
        ),
    ] = None
    length: Annotated[Quantity, known("cabinet.gasket.length", "3.0 m")]
    linear_conductance: Annotated[
        Quantity, known("cabinet.gasket.linear_conductance", "0.06 W/(m K)")
    ]


class Drain(Section):
    """A drain in the floor."""

    diameter: Annotated[Quantity, known("cabinet.drain.diameter", "15 mm")]
    depth: Annotated[Quantity, known("cabinet.drain.depth", "0.4 m")]
    outlet: Annotated[
        Literal["open", "trapped"],
        Text("trapped", "open (air passes) or trapped (water or a plug shuts it)."),
    ]


class ThermalBridge(Section):
    """A frame, a strap, a pipe: heat by the metre, beside the layers."""

    name: Annotated[str, Text("door frame", "What the bridge is.")]
    length: Annotated[
        Quantity, local("length", 0.0, 100.0, "2.4 m", "length of the bridge", usual_relative=0.03)
    ]
    linear_conductance: Annotated[
        Quantity,
        local(
            "linear_conductance",
            0.0,
            10.0,
            "0.05 W/(m K)",
            "heat through a metre of the bridge",
            usual_relative=0.25,
        ),
    ]


class AirWay(Section):
    """The way of the air between the cold compartment and the stored goods."""

    kind: Annotated[
        Literal["divided", "single"],
        Text("divided", "divided (a partition with two openings) or single (one space)."),
    ]
    lower_opening_area: Annotated[Quantity, known("cabinet.air_path.lower_opening_area", "300 cm2")]
    upper_opening_area: Annotated[Quantity, known("cabinet.air_path.upper_opening_area", "300 cm2")]
    height_difference: Annotated[Quantity, known("cabinet.air_path.height_difference", "0.6 m")]
    duct_height: Annotated[Quantity, known("cabinet.air_path.duct_height", "0.2 m")]
    shelves: Annotated[Quantity, known("cabinet.air_path.shelves", "3")]
    shelf_blocked: Annotated[Quantity, known("cabinet.air_path.shelf_blocked", "50 %")]
    ledge: Annotated[
        Quantity,
        local(
            "number",
            0.0,
            50.0,
            "1.0",
            "extra loss coefficient of ledges, racks and turns",
            usual_relative=0.3,
        ),
    ]


class WarmLoad(Section):
    """Goods put in warm."""

    mass_per_day: Annotated[
        Quantity, local("mass", 0.0, 500.0, "2 kg", "mass put in each day", usual_relative=0.1)
    ]
    temperature: Annotated[
        Quantity,
        local("temperature", 253.15, 373.15, "21 °C", "temperature of it when put in", usual=1.0),
    ]


class Contents(Section):
    """What stands inside."""

    product: Annotated[
        str | None,
        product_field(
            "butter",
            "What is kept; it gives specific heat and heat where these are not written, and the "
            "humidity that is wanted.",
        ),
    ] = None
    mass: Annotated[Quantity, known("cabinet.contents.mass", "20 kg")]
    specific_heat: Annotated[Quantity, known("cabinet.contents.specific_heat", "3.5 kJ/(kg K)")]
    heat: Annotated[
        Quantity,
        local(
            "heat_flow", 0.0, 500.0, "0 W", "heat of the contents (respiration)", usual_relative=0.2
        ),
    ]
    moisture_per_day: Annotated[Quantity, known("cabinet.contents.moisture_per_day", "30 g/day")]
    warm_load: Annotated[WarmLoad, Text("", "Goods put in warm each day.")]


class Liner(Section):
    """The inner skin, as radiation sees it."""

    surface: Annotated[str, surface_field("painted", "Finish of the inner skin.")]
    emissivity: Annotated[
        Quantity,
        local("ratio", 0.0, 1.0, "0.9", "emissivity of the inner skin", above=True, usual=0.03),
    ]


class Cabinet(Section):
    """The box itself."""

    inside_width: Annotated[Quantity, known("cabinet.inside_width", "0.55 m")]
    inside_height: Annotated[Quantity, known("cabinet.inside_height", "0.95 m")]
    inside_depth: Annotated[Quantity, known("cabinet.inside_depth", "0.45 m")]
    layers: Annotated[
        tuple[Layer, ...], Text("[[cabinet.layers]]", "Layers of a wall, inside first.")
    ]
    faces: Annotated[tuple[Face, ...], Text("[[cabinet.faces]]", "The faces that differ.")]
    door: Annotated[Literal["front", "lid"], Text("front", "Where it opens: front or lid.")]
    door_openings_per_day: Annotated[Quantity, known("cabinet.door_openings_per_day", "8")]
    door_open_time: Annotated[Quantity, known("cabinet.door_open_time", "12 s")]
    leakage_area: Annotated[Quantity, known("cabinet.leakage_area", "0.5 cm2")]
    leakage_height: Annotated[Quantity, known("cabinet.leakage_height", "0.9 m")]
    gasket: Annotated[Gasket, Text("", "Seal of the door or lid.")]
    drain: Annotated[Drain | None, Text("", "Drain in the floor.")] = None
    thermal_bridges: Annotated[
        tuple[ThermalBridge, ...], Text("[[cabinet.thermal_bridges]]", "Heat beside the layers.")
    ] = ()
    air_path: Annotated[AirWay, Text("", "The way of the air.")]
    contents: Annotated[Contents, Text("", "What stands inside.")]
    liner: Annotated[Liner, Text("", "The inner skin.")]

    def face(self, name: str) -> Face:
        """The face called `name`. Raises KeyError when there is none."""
        faces: dict[str, Face] = {face.name: face for face in self.faces}
        return faces[name]

    def layers_of(self, name: str) -> tuple[Layer, ...]:
        """The layers of face `name`, inside first: its own, or else the cabinet's."""
        return self.face(name).layers or self.layers

    @property
    def door_face(self) -> str:
        """The face that opens: `front` or `top`."""
        return "top" if self.door == "lid" else "front"
