"""A tube by its stock name or by its own sizes."""

from __future__ import annotations

from typing import Annotated

from coldwright.build.schema.fields import Section, known, local
from coldwright.build.schema.shop_names import material_field, tube_field
from coldwright.units import Quantity

_OUTSIDE = local("length", 1e-3, 0.05, "6.35 mm", "outside diameter of the tube")
_WALL = local("length", 1e-4, 5e-3, "0.76 mm", "wall thickness of the tube", usual_relative=0.03)
_PITCH = local(
    "length", 1e-3, 1.0, "50 mm", "distance between neighbouring runs", usual_relative=0.02
)
_INSULATION = local(
    "length", 0.0, 0.1, "9 mm", "thickness of insulation round the line beyond the exchanger"
)


class Tube(Section):
    """The cross-section of a tube."""

    size: Annotated[str | None, tube_field("1/4 in", "Name of a stock tube.")] = None
    outside_diameter: Annotated[Quantity, _OUTSIDE]
    wall_thickness: Annotated[Quantity, _WALL]

    @property
    def inside_diameter(self) -> float:
        """Inside diameter [m]."""
        return self.outside_diameter.value - 2.0 * self.wall_thickness.value


class LiquidLine(Tube):
    """From condenser to drier."""

    length: Annotated[Quantity, known("liquid_line.length", "0.3 m")]


class DischargeLine(Tube):
    """From compressor to condenser."""

    length: Annotated[
        Quantity, local("length", 0.0, 50.0, "0.5 m", "length of the line", usual_relative=0.03)
    ]


class SuctionLine(Tube):
    """From evaporator to compressor."""

    length: Annotated[Quantity, known("suction_line.length", "1.8 m")]
    insulation: Annotated[Quantity | None, _INSULATION] = None


class EvaporatorTube(Tube):
    """The tube in which the refrigerant boils."""

    length: Annotated[Quantity, known("cold_side.tube_length", "9 m")]
    pitch: Annotated[Quantity, _PITCH]
    material: Annotated[str, material_field("copper", "Material of the tube.")]


class CondenserTube(Tube):
    """The tube in which the refrigerant condenses."""

    length: Annotated[Quantity, known("condenser.tube_length", "11 m")]
    pitch: Annotated[Quantity, _PITCH]
    material: Annotated[str, material_field("copper", "Material of the tube.")]
