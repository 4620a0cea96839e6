"""The compressor: rated points, a map of ten coefficients, class and size, or a donor plate."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from coldwright.build.schema.fields import Section, Text, known, local
from coldwright.build.schema.shop_names import motor_size_field, refrigerant_field
from coldwright.units import Quantity

Coefficients = Annotated[tuple[float, ...], Field(min_length=10, max_length=10)]
_RETURN = known("compressor.rated_return_gas_temperature", "32.2 °C")
_LIQUID = known("compressor.rated_liquid_temperature", "32.2 °C")
_SUBCOOLING = local("temperature_difference", 0.0, 60.0, "5 K", "liquid subcooling when rated")
_SUPERHEAT = local("temperature_difference", 0.0, 90.0, "10 K", "gas superheat when rated")


class RatedPoint(Section):
    """One line of a data sheet; the liquid by its temperature or by its subcooling, not both."""

    evaporating_temperature: Annotated[
        Quantity, known("compressor.rated_evaporating_temperature", "-23.3 °C")
    ]
    condensing_temperature: Annotated[
        Quantity, known("compressor.rated_condensing_temperature", "54.4 °C")
    ]
    return_gas_temperature: Annotated[Quantity, _RETURN]
    liquid_temperature: Annotated[Quantity | None, _LIQUID] = None
    subcooling: Annotated[Quantity | None, _SUBCOOLING] = None
    capacity: Annotated[Quantity, known("compressor.rated_capacity", "105 W")]
    power: Annotated[Quantity | None, known("compressor.rated_power", "95 W")] = None
    current: Annotated[
        Quantity | None, local("current", 0.0, 50.0, "1.1 A", "rated running current", above=True)
    ] = None


class CompressorMap(Section):
    """Ten coefficients for capacity or mass flow, and ten for power.

    x = c1 + c2 te + c3 tc + c4 te^2 + c5 te tc + c6 tc^2 + c7 te^3 + c8 tc te^2 + c9 te tc^2
    + c10 tc^3, te and tc being dew temperatures in `temperature_unit` (the order of AHRI 540 and
    EN 12900).
    """

    capacity: Annotated[
        Coefficients | None, Text("[c1, ..., c10]", "Coefficients of the capacity.")
    ] = None
    mass_flow: Annotated[
        Coefficients | None, Text("[c1, ..., c10]", "Coefficients of the mass flow.")
    ] = None
    power: Annotated[Coefficients, Text("[c1, ..., c10]", "Coefficients of the power.")]
    current: Annotated[
        Coefficients | None, Text("[c1, ..., c10]", "Coefficients of the current [A].")
    ] = None
    temperature_unit: Annotated[Literal["C", "F"], Text("C", "Unit of te and tc: C or F.")]
    capacity_unit: Annotated[Literal["W", "Btu/h"], Text("W", "Unit of capacity: W or Btu/h.")] = (
        "W"
    )
    mass_flow_unit: Annotated[
        Literal["kg/h", "lb/h", "g/s"], Text("kg/h", "Unit of mass flow: kg/h, lb/h or g/s.")
    ] = "kg/h"
    power_unit: Annotated[Literal["W", "kW"], Text("W", "Unit of power: W or kW.")] = "W"
    superheat: Annotated[Quantity | None, _SUPERHEAT] = None
    return_gas_temperature: Annotated[Quantity | None, _RETURN] = None
    subcooling: Annotated[Quantity | None, _SUBCOOLING] = None
    liquid_temperature: Annotated[Quantity | None, _LIQUID] = None


class ElectricReading(Section):
    """Power, current and voltage read together on the running machine."""

    power: Annotated[Quantity, known("compressor.power_reading", "90 W")]
    current: Annotated[Quantity, known("compressor.current", "1.2 A")]
    voltage: Annotated[
        Quantity,
        local("voltage", 9.0, 480.0, "118 V", "voltage at the reading", usual_relative=0.01),
    ]


class Nameplate(Section):
    """What a donor machine's plate says, where its sealed parts are used again."""

    power: Annotated[Quantity | None, known("compressor.nameplate_power", "120 W")] = None
    current: Annotated[Quantity | None, known("compressor.nameplate_current", "1.4 A")] = None
    charge: Annotated[Quantity | None, known("compressor.nameplate_charge", "120 g")] = None


class Lead(Section):
    """The lead from the socket, panel or battery to the machine, its fuse and its switch."""

    length: Annotated[
        Quantity, local("length", 0.0, 200.0, "6 m", "length of the lead, one way", above=True)
    ]
    cross_section: Annotated[
        Quantity | None,
        local("area", 1e-7, 1e-4, "2.5 mm2", "copper cross-section of one wire"),
    ] = None
    gauge: Annotated[
        int | None, Text("14", "American wire gauge of one wire."), Field(ge=0, le=30)
    ] = None
    fuse: Annotated[
        Quantity | None, local("current", 0.0, 200.0, "10 A", "fuse rating", above=True)
    ] = None
    contact: Annotated[
        Quantity | None,
        local("current", 0.0, 200.0, "6 A", "motor rating of the thermostat's contact", above=True),
    ] = None


class Compressor(Section):
    """The machine; `description` says which of the four ways the file uses."""

    rated_points: Annotated[
        tuple[RatedPoint, ...], Text("[[compressor.rated_points]]", "Lines of the data sheet.")
    ] = ()
    map: Annotated[CompressorMap | None, Text("", "Ten-coefficient map.")] = None
    machine_class: Annotated[
        Literal["LBP", "MBP", "HBP"] | None,
        Text("LBP", "Class of application, when there is no data sheet: LBP, MBP or HBP."),
        Field(alias="class"),
    ] = None
    size: Annotated[str | None, motor_size_field("Nominal size that goes with the class.")] = None
    nameplate: Annotated[
        Nameplate | None, Text("[compressor.nameplate]", "Plate of the machine it came out of.")
    ] = None
    rated_refrigerant: Annotated[str, refrigerant_field("Refrigerant that the data sheet is for.")]
    rating_uncertainty: Annotated[
        Quantity, local("ratio", 0.0, 1.0, "5 %", "standard uncertainty of the data sheet")
    ]
    displacement: Annotated[Quantity | None, known("compressor.displacement", "5.0 cm3")] = None
    oil: Annotated[
        Literal["mineral", "alkylbenzene", "ester"],
        Text("ester", "mineral, alkylbenzene or ester."),
    ]
    oil_amount: Annotated[Quantity, known("compressor.oil_amount", "200 mL")]
    shell_free_volume: Annotated[Quantity, known("compressor.shell_free_volume", "1.6 L")]
    voltage: Annotated[Quantity, known("compressor.voltage", "115 V")]
    frequency: Annotated[Quantity, known("compressor.frequency", "60 Hz")]
    supply: Annotated[Literal["ac", "dc"], Text("ac", "ac: mains; dc: battery, 12 or 24 V.")]
    speed: Annotated[Quantity | None, known("compressor.speed", "2500 rpm")] = None
    rated_speed: Annotated[Quantity | None, known("compressor.rated_speed", "3000 rpm")] = None
    starting: Annotated[
        Literal["low torque", "high torque"],
        Text("low torque", "low torque: pressures must be equal at the start; or high torque."),
    ]
    locked_rotor_current: Annotated[
        Quantity | None, known("compressor.locked_rotor_current", "12 A")
    ] = None
    shell_diameter: Annotated[Quantity | None, known("compressor.shell_diameter", "17 cm")] = None
    shell_height: Annotated[Quantity | None, known("compressor.shell_height", "18 cm")] = None
    lead: Annotated[Lead | None, Text("[compressor.lead]", "Lead, fuse and switch.")] = None
    readings: Annotated[
        tuple[ElectricReading, ...], Text("[[compressor.readings]]", "Bench readings of the motor.")
    ] = ()

    @property
    def description(self) -> Literal["rated_points", "map", "class", "nameplate"]:
        """Which of the four ways describes it."""
        if self.map is not None:
            return "map"
        if self.rated_points:
            return "rated_points"
        return "nameplate" if self.nameplate is not None else "class"

    @property
    def class_name(self) -> str:
        """The name of its class in the shop, such as `LBP 1/8 hp`; empty unless both are given."""
        return f"{self.machine_class} {self.size}" if self.machine_class and self.size else ""
