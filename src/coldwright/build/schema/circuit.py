"""Capillary, return-line exchanger, drier, charge and thermostat."""

from __future__ import annotations

from typing import Annotated, Literal

from coldwright.build.schema.fields import Section, Text, known, local
from coldwright.build.schema.shop_names import refrigerant_field
from coldwright.units import Quantity

FIND = "find"


class Capillary(Section):
    """The throttle."""

    bore: Annotated[Quantity, known("capillary.bore", "0.031 in")]
    length: Annotated[Quantity, known("capillary.length", "2.7 m")]
    outside_diameter: Annotated[
        Quantity, local("length", 5e-4, 0.01, "2.1 mm", "outside diameter", usual_relative=0.03)
    ]
    roughness: Annotated[
        Quantity,
        local("length", 0.0, 2e-5, "0.5 µm", "roughness of the bore", usual_relative=0.5),
    ]
    coil_diameter: Annotated[Quantity, known("capillary.coil_diameter", "60 mm")]


class ReturnExchanger(Section):
    """Capillary and suction line side by side, or one inside the other."""

    kind: Annotated[
        Literal["soldered", "wrapped", "inside", "none"],
        Text(
            "soldered",
            "soldered, wrapped, inside (the capillary runs in the suction line) or none.",
        ),
    ]
    length: Annotated[Quantity, known("return_exchanger.length", "1.2 m")]
    start: Annotated[Quantity, known("return_exchanger.start", "0.5 m")]
    bond_conductance: Annotated[
        Quantity,
        local(
            "linear_conductance",
            0.0,
            1000.0,
            "20 W/(m K)",
            "heat through the joint, per metre of exchanger",
            usual_relative=0.4,
        ),
    ]


class Drier(Section):
    """The drier ahead of the capillary."""

    volume: Annotated[Quantity, known("drier.volume", "15 mL")]


class Charge(Section):
    """The refrigerant; `fill` is None when the program has to find it."""

    name: Annotated[str, refrigerant_field("Name of the refrigerant.")]
    fill: Annotated[Quantity | None, known("refrigerant.fill", "45 g")] = None
    superheat: Annotated[Quantity, known("refrigerant.superheat", "5 K")]


class Knob(Section):
    """What a control's knob reaches at sea level, as its sheet tells it, and where it stands.

    Cut-in and cut-out without entries of their own follow from it.
    """

    cut_out_warmest: Annotated[
        Quantity,
        local("temperature", 213.15, 303.15, "-6 °C", "cut-out at the knob's warm end, sea level"),
    ]
    cut_out_coldest: Annotated[
        Quantity,
        local("temperature", 213.15, 303.15, "-20 °C", "cut-out at the knob's cold end, sea level"),
    ]
    difference: Annotated[
        Quantity | None,
        local(
            "temperature_difference",
            0.0,
            40.0,
            "8 K",
            "cut-in over cut-out, of a control whose knob moves both",
            above=True,
        ),
    ] = None
    fixed_cut_in: Annotated[
        Quantity | None,
        local(
            "temperature",
            213.15,
            303.15,
            "4 °C",
            "cut-in of a control whose knob moves the cut-out alone, sea level",
        ),
    ] = None
    position: Annotated[
        str | None,
        Text(
            "3 of 7",
            "Where the knob stands: a mark of its last and coldest mark (1 is the warmest), or "
            "a share from warm (0 %) to cold (100 %).",
        ),
    ] = None


class Thermostat(Section):
    """What stops and starts the machine."""

    bulb: Annotated[
        Literal["vessel well", "plate", "air", "return line"],
        Text("air", "Where the bulb sits: vessel well, plate, air or return line."),
    ]
    cut_in: Annotated[Quantity, known("thermostat.cut_in", "3 °C")]
    cut_out: Annotated[Quantity, known("thermostat.cut_out", "1 °C")]
    bulb_lag: Annotated[
        Quantity,
        local("time", 0.0, 3600.0, "60 s", "time constant of the bulb", usual_relative=0.3),
    ]
    minimum_off_time: Annotated[
        Quantity, local("time", 0.0, 7200.0, "5 min", "shortest standstill before a new start")
    ]
    fill: Annotated[
        Literal["vapour", "liquid"] | None,
        Text(
            "vapour",
            "vapour: bulb, tube and head hold a little gas, and the coldest of them is obeyed; "
            "liquid: only the bulb counts.",
        ),
    ] = None
    head: Annotated[
        Literal["room", "cabinet", "cold side"] | None,
        Text(
            "room",
            "Where the control's head, or its tube at the coldest, is: room, cabinet (in the "
            "stored air) or cold side (at the plate, tube or vessel).",
        ),
    ] = None
    knob: Annotated[Knob | None, Text("", "The control's scale and where its knob stands.")] = None
