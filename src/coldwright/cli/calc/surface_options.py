"""The options of `calc surface`, as typed."""

from __future__ import annotations

from typing import Annotated

import typer


def _option(name: str, metavar: str, text: str) -> typer.models.OptionInfo:
    found: typer.models.OptionInfo = typer.Option(name, metavar=metavar, help=text)
    return found


Shape = Annotated[
    str | None,
    _option("--shape", "S", "vertical-plate, vertical-cylinder, horizontal-tube or box."),
]
Height = Annotated[str | None, _option("--height", "L", "Upright size, such as 500mm.")]
Width = Annotated[str | None, _option("--width", "L", "Of a plate or box.")]
Depth = Annotated[str | None, _option("--depth", "L", "Of a box.")]
Diameter = Annotated[str | None, _option("--diameter", "L", "Outside, of a cylinder or tube.")]
Length = Annotated[str | None, _option("--length", "L", "Of a tube, all runs together.")]
Faces = Annotated[str | None, _option("--faces", "1|2", "Faces of a plate in the air; 2.")]
Ends = Annotated[
    str | None,
    _option("--ends", "E", "Ends in the air, of a cylinder or box: both, top, bottom or none."),
]
Emissivity = Annotated[
    str | None, _option("--emissivity", "E", "Such as 0.9; or name the finish instead.")
]
Finish = Annotated[str | None, _option("--finish", "F", 'Such as painted or "galvanised".')]
SurfaceTemperature = Annotated[
    str | None, _option("--surface-temperature", "T", "Of the metal, below any frost.")
]
Air = Annotated[str | None, _option("--air", "T", "Air around, away from the surface.")]
Liner = Annotated[
    str | None, _option("--liner", "T", "What it faces (liner, goods); as the air if left out.")
]
LinerArea = Annotated[
    str | None, _option("--liner-area", "A", "Inside skin around it; very large if left out.")
]
LinerEmissivity = Annotated[str | None, _option("--liner-emissivity", "E", "0.9 if left out.")]
Altitude = Annotated[
    str | None,
    _option("--altitude", "H", 'Height above sea level, such as "1500 m": thin air brings less.'),
]
Fins = Annotated[str | None, _option("--fins", "N", "Upright fins in all, around the whole side.")]
FinHeight = Annotated[
    str | None, _option("--fin-height", "L", "How far they stand out, such as 25mm.")
]
FinLength = Annotated[
    str | None, _option("--fin-length", "L", "Upright length; the whole height if left out.")
]
FinThickness = Annotated[str | None, _option("--fin-thickness", "L", "1.5 mm if left out.")]
FinMaterial = Annotated[str | None, _option("--fin-material", "M", "aluminium if left out.")]
FinBond = Annotated[
    str | None, _option("--fin-bond", "B", "soldered, bonded or bolted; soldered if left out.")
]
