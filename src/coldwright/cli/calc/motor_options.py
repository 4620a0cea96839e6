"""Options of `calc motor`."""

from __future__ import annotations

from typing import Annotated

import typer

Voltage = Annotated[
    str | None, typer.Option("--voltage", metavar="V", help="At the machine: 120V.")
]
Reading = Annotated[
    str | None,
    typer.Option(
        "--reading",
        metavar="P,I[,V]",
        help='Watts and amperes read together, such as "163W,1.79A"; volts if others.',
    ),
]
Power = Annotated[str | None, typer.Option("--power", metavar="P", help="Gives the amperes.")]
Current = Annotated[
    str | None, typer.Option("--current", metavar="I", help="Clamp reading; gives the watts.")
]
Direct = Annotated[bool, typer.Option("--dc", help="Battery machine: no magnetising current.")]
LockedRotor = Annotated[
    str | None, typer.Option("--locked-rotor", metavar="I", help="LRA of the plate.")
]
Lead = Annotated[
    str | None, typer.Option("--lead", metavar="L", help="Length of the lead, one way.")
]
CrossSection = Annotated[
    str | None, typer.Option("--cross-section", metavar="A", help="Of one wire: 2.5 mm2.")
]
Gauge = Annotated[
    int | None, typer.Option("--gauge", metavar="N", help="American wire gauge instead: 14.")
]
Fuse = Annotated[
    str | None, typer.Option("--fuse", metavar="I", help="Its rating, as stated on it.")
]
RunFraction = Annotated[
    str | None, typer.Option("--run-fraction", metavar="X", help='Such as "40 %".')
]
