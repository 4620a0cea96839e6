"""The options of `calc condenser`, as typed."""

from __future__ import annotations

from typing import Annotated

import typer


def _option(name: str, metavar: str, text: str) -> typer.models.OptionInfo:
    found: typer.models.OptionInfo = typer.Option(name, metavar=metavar, help=text)
    return found


Text = str | None
Gas = Annotated[Text, _option("--refrigerant", "R", "Such as R152a.")]
Form = Annotated[
    str, _option("--kind", "K", "sheet (tube on a sheet), wire (wires across the tube) or bare.")
]
Condensing = Annotated[
    Text, _option("--condensing", "T", "Condensing temperature: the answer is the heat.")
]
Heat = Annotated[Text, _option("--heat", "P", "Heat to shed: the answer is where it condenses.")]
Room = Annotated[Text, _option("--room", "T", "Air of the room.")]
Width = Annotated[Text, _option("--width", "L", "Of the sheet, or of the panel of runs.")]
Height = Annotated[Text, _option("--height", "L", "Of the sheet, or of the panel of runs.")]
Thickness = Annotated[Text, _option("--thickness", "L", "Of the sheet; 0.8 mm if left out.")]
SheetMaterial = Annotated[
    Text, _option("--sheet-material", "M", "galvanised steel if left out; wires too.")
]
AreaFactor = Annotated[
    Text, _option("--area-factor", "X", "Developed over plane area of a corrugated sheet; 1.")
]
TubeSize = Annotated[
    Text, _option("--tube", "SIZE", 'A stock tube: "3/16 in", "5 x 0.5 mm"; copper.')
]
Length = Annotated[Text, _option("--length", "L", "Of the tube, all runs together.")]
Bond = Annotated[
    Text,
    _option(
        "--bond",
        "B",
        "soldered, bonded, taped, clipped or pressed; or its conductance, such as 20W/(m K).",
    ),
]
Emissivity = Annotated[Text, _option("--emissivity", "E", "Such as 0.9; or name the finish.")]
Finish = Annotated[Text, _option("--finish", "F", "Such as galvanised; painted if left out.")]
Gap = Annotated[Text, _option("--gap", "L", "Clear space to the cabinet's back; 40 mm.")]
ChimneyHeight = Annotated[
    Text, _option("--chimney-height", "L", "Of the gap, foot to top; that of the sheet.")
]
Opening = Annotated[
    Text, _option("--opening", "S", "Share of the gap open at foot and top; 100 %.")
]
WallBehind = Annotated[
    Text, _option("--wall-behind", "L", "Clear distance to a wall on the room's side; none.")
]
Shaded = Annotated[Text, _option("--shaded", "S", "Share that trim keeps from the air; 0 %.")]
Dirt = Annotated[Text, _option("--dirt", "S", "Share of the film that dust takes; 0 %.")]
AirRise = Annotated[
    Text, _option("--air-rise", "T", "How much warmer than the room the air comes in; 0 K.")
]
WireDiameter = Annotated[Text, _option("--wire-diameter", "L", "Such as 1.5mm.")]
WirePitch = Annotated[Text, _option("--wire-pitch", "L", "From wire to wire, such as 6mm.")]
WireSides = Annotated[Text, _option("--wire-sides", "1|2", "Sides that carry wires; 2.")]
DischargeGas = Annotated[
    Text, _option("--discharge-gas", "T", "Gas that comes in; 75 °C if left out.")
]
Subcooling = Annotated[
    Text, _option("--subcooling", "T", "Of the liquid that leaves; 3 K if left out.")
]
Altitude = Annotated[Text, _option("--altitude", "H", 'Such as "1500 m": thin air takes less.')]
