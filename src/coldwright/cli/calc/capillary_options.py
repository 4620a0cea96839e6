"""The options of `calc capillary`, as typed."""

from __future__ import annotations

from typing import Annotated

import typer


def _option(name: str, metavar: str, text: str) -> typer.models.OptionInfo:
    found: typer.models.OptionInfo = typer.Option(name, metavar=metavar, help=text)
    return found


GasName = Annotated[
    str | None, typer.Argument(metavar="REFRIGERANT", help="Such as R152a.", show_default=False)
]
GasOption = Annotated[str | None, _option("--refrigerant", "R", "The same, as an option.")]
Bore = Annotated[str | None, _option("--bore", "D", 'Such as "0.031 in" or "0.7 mm ± 0.01 mm".')]
Length = Annotated[str | None, _option("--length", "L", "Of the whole tube.")]
Flow = Annotated[
    str | None, _option("--flow", "M", 'In place of --length: "2.5 kg/h", for each stock bore.')
]
Condensing = Annotated[str | None, _option("--condensing", "T", "In the condenser, as 110F.")]
InletPressure = Annotated[str | None, _option("--inlet-pressure", "P", "In place of --condensing.")]
Subcooling = Annotated[
    str | None, _option("--subcooling", "DT", 'Of the liquid before the tube, such as "5 K".')
]
Quality = Annotated[
    str | None, _option("--quality", "X", 'Gas before the tube by mass, such as "5 %".')
]
Evaporating = Annotated[str | None, _option("--evaporating", "T", "Behind the tube.")]
ExchangerLength = Annotated[
    str | None, _option("--exchanger-length", "L", "Of the tube on, or in, the suction line.")
]
ExchangerStart = Annotated[
    str | None,
    _option("--exchanger-start", "L", "From the inlet; half of the free length if left out."),
]
ExchangerKind = Annotated[
    str | None,
    _option("--exchanger-kind", "K", "soldered, wrapped or inside; soldered if left out."),
]
ReturnGas = Annotated[
    str | None, _option("--return-gas", "T", "Into the exchanger; saturated if left out.")
]
SuctionBore = Annotated[
    str | None, _option("--suction-bore", "D", "Of the suction line; a 1/4 in tube's if left out.")
]
OutsideDiameter = Annotated[
    str | None, _option("--outside-diameter", "D", "Of a capillary inside; 2.1 mm if left out.")
]
CoilDiameter = Annotated[
    str | None, _option("--coil-diameter", "D", "Of the free length's loops; straight if left out.")
]
Roughness = Annotated[
    str | None, _option("--roughness", "E", "Height in the bore; 0.5 µm if left out.")
]
LateFlashing = Annotated[
    bool, typer.Option("--late-flashing", help="Count the delay of flashing, measured on R12.")
]
