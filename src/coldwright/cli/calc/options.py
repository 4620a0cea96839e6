"""Options that several bench answers share."""

from __future__ import annotations

from typing import Annotated

import typer

Gas = Annotated[
    str, typer.Argument(metavar="REFRIGERANT", help="Such as R152a.", show_default=False)
]
AltitudeText = Annotated[
    str | None,
    typer.Option(
        "--altitude",
        metavar="H",
        help='Height above sea level, such as "1500 m": it moves the zero of a gauge.',
    ),
]
ChargeText = Annotated[
    str | None, typer.Option("--charge", metavar="M", help='Refrigerant, such as "45 g".')
]
TemperatureText = Annotated[
    str | None, typer.Option("--temperature", metavar="T", help='Such as "22 °C" or 72F.')
]
