"""Options of `calc compressor`."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

MapFile = Annotated[
    Path | None,
    typer.Option(
        "--map",
        metavar="FILE.csv",
        help="Data sheet: columns evaporating_C, condensing_C, power_W, capacity_W or "
        "mass_flow_kg_per_h; also return_gas_C, liquid_C, current_A.",
    ),
]
Rated = Annotated[
    list[str] | None,
    typer.Option(
        "--rated",
        metavar="TEXT",
        help='One point, once each: "evaporating -23.3C, condensing 54.4C, capacity 115W, '
        'power 100W"; also return gas, liquid, current, mass flow.',
    ),
]
Application = Annotated[
    str | None,
    typer.Option("--class", metavar="LBP|MBP|HBP", help="Without data: its class."),
]
Size = Annotated[
    str | None, typer.Option("--size", metavar="HP", help='With --class, such as "1/8 hp".')
]
Refrigerant = Annotated[
    str, typer.Option("--refrigerant", metavar="GAS", help="That the data are for.")
]
Other = Annotated[
    str | None, typer.Option("--as", metavar="GAS", help="Run on another refrigerant.")
]
Displacement = Annotated[
    str | None, typer.Option("--displacement", metavar="V", help="Swept in a turn: 5 cm3.")
]
Frequency = Annotated[str, typer.Option("--frequency", metavar="F", help="Of the data.")]
Running = Annotated[
    str | None,
    typer.Option("--running-frequency", metavar="F", help="Where it runs, if another."),
]
Voltage = Annotated[
    str | None, typer.Option("--voltage", metavar="V", help="Of the data, for the current.")
]
Evaporating = Annotated[
    str | None, typer.Option("--evaporating", metavar="T", help="Dew temperature: -20C.")
]
Condensing = Annotated[
    str | None, typer.Option("--condensing", metavar="T", help="Dew temperature: 45C.")
]
ReturnGas = Annotated[
    str | None, typer.Option("--return-gas", metavar="T", help="At the shell; 32.2 °C.")
]
Liquid = Annotated[
    str | None, typer.Option("--liquid", metavar="T", help="Before expansion; 32.2 °C.")
]
At = Annotated[
    str | None,
    typer.Option("--at", metavar="NAME", help='A named condition, such as "ASHRAE LBP".'),
]
Room = Annotated[str | None, typer.Option("--room", metavar="T", help="Air at the shell; 32.2 °C.")]
Oil = Annotated[
    str | None, typer.Option("--oil", metavar="KIND", help="mineral, alkylbenzene, ester.")
]
