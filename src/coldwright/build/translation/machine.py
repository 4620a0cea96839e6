"""The compressor as a part: by rated points, by a map, or by class, always through one fit."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array, lanes
from coldwright.build.result import Build
from coldwright.build.schema.machine import Compressor as CompressorSection
from coldwright.build.schema.machine import CompressorMap
from coldwright.errors import Fault, InputError
from coldwright.fluids.refrigerants import Refrigerant, Vapour, refrigerant
from coldwright.parts.compressor import Compressor
from coldwright.parts.compressor_fit import CompressorFit, RatedPoints, fit_compressor
from coldwright.parts.motor import magnetising_current
from coldwright.shop.compressor_classes import (
    CompressorClass,
    compressor_class,
    compressor_class_names,
)
from coldwright.units import Kind, format_quantity

# Two poles, and the slip of a small motor at its rated load: common practice, no source.
SLIP = 0.035
# Shares that no data sheet gives; wide, from memory.
CONSTANT_LOSS_SHARE = 0.12
CONSTANT_LOSS_SPREAD = 0.4
MECHANICAL_EFFICIENCY = 0.95
SUCTION_HEATING = 0.45
DISCHARGE_COOLING = 0.5
# Rating conditions of a class [K]: evaporating, condensing, return gas (from memory).
CLASS_RATING = {
    "LBP": (249.85, 327.55, 305.35),
    "MBP": (266.45, 327.55, 308.15),
    "HBP": (280.35, 327.55, 308.15),
}
# Where a ten-coefficient map is sampled when it states no range [C]: evaporating, condensing.
MAP_RANGE = {
    "LBP": ((-30.0, -23.3, -15.0, -10.0), (40.0, 47.0, 54.4)),
    "MBP": ((-18.0, -12.0, -6.7, 0.0), (40.0, 47.0, 54.4)),
    "HBP": ((-10.0, -3.0, 3.0, 7.2), (40.0, 47.0, 54.4)),
}
CLASS_UNCERTAINTY = 0.12
# What a small machine may pump and draw at a rated point [kg/s], [W].
FLOW = (1e-6, 0.1)
POWER = (2.0, 5000.0)
FLOW_UNITS = {"kg/h": 1.0 / 3600.0, "lb/h": 0.45359237 / 3600.0, "g/s": 1e-3}
BTU_PER_HOUR = 0.29307107017


@dataclass(frozen=True)
class Machine:
    """A fitted compressor with its motor."""

    fit: CompressorFit
    machine_class: CompressorClass
    magnetising_current: Array  # [A]
    magnetising_from: str  # where it is from
    voltage: Array  # [V]
    rated: RatedPoints


def machine_of(build: Build) -> Machine:
    """The machine of `build`: the class's typical figures, pulled to what its sheet states."""
    section = build.compressor
    rated_on = refrigerant(section.rated_refrigerant)
    frequency = section.frequency.value
    row = _class_of(section)
    points, spread = _points(section, rated_on, row, frequency)
    _must_work(build, points)
    typical = _typical(section, row, rated_on, points, frequency)
    limits = (
        row.volumetric_factor.relative_uncertainty if section.displacement else 0.2,
        row.clearance.relative_uncertainty,
        row.overall_efficiency.relative_uncertainty,
        CONSTANT_LOSS_SPREAD,
    )
    fit = fit_compressor(typical, limits, rated_on, points, spread)
    current, origin = _magnetising(section, row, points)
    return Machine(fit, row, lanes(current), origin, lanes(section.voltage.value), points)


def _must_work(build: Build, points: RatedPoints) -> None:
    """Raise InputError where a data sheet's machine is none that this program knows."""
    section = build.compressor
    field = "compressor.map" if section.map is not None else "compressor.rated_points"
    line = build.line_of(field)
    faults = []
    # A power that a line of the sheet leaves out is NaN; a map always has one.
    known = ~np.isnan(points.power) | (section.map is not None)
    power = points.power[known]
    for what, kind, values, (least, greatest) in (
        ("mass flow (from its capacity, where that is given)", "mass_flow", points.mass_flow, FLOW),
        ("power", "power", power, POWER),
    ):
        outside = ~((values >= least) & (values <= greatest))
        if np.any(outside):
            bounds = [format_quantity(value, Kind(kind), "si") for value in (least, greatest)]
            worst = float(values[outside][0])
            absurd = not abs(worst) < 1e9
            given = "no sensible number" if absurd else format_quantity(worst, Kind(kind), "si")
            faults.append(f"{what} must be {bounds[0]} to {bounds[1]} @; it comes to {given}")
    if faults:
        where, hint = "at all of its points", "check its unit and the rating conditions"
        if section.map is not None:
            evaporating, condensing = MAP_RANGE[section.machine_class or "LBP"]
            where = (
                f"over evaporating {evaporating[0]:.0f} to {evaporating[-1]:.0f} °C and condensing "
                f"{condensing[0]:.0f} to {condensing[-1]:.0f} °C"
            )
            hint = "check the order of the coefficients, their units and the rating conditions"
        raise InputError(
            *(
                Fault(field, f"The compressor's {what}.".replace("@", where), line, hint)
                for what in faults
            )
        )


def _class_of(section: CompressorSection) -> CompressorClass:
    """The class it names, or the one nearest in displacement or rated power."""
    if section.class_name:
        return compressor_class(section.class_name)
    application = section.machine_class or "LBP"
    rows = [
        compressor_class(name) for name in compressor_class_names() if name.startswith(application)
    ]
    if section.displacement is not None:
        wanted = np.log(section.displacement.value)
        return min(rows, key=lambda row: abs(np.log(row.displacement.value) - wanted))
    return rows[2]


def _points(
    section: CompressorSection, fluid: Refrigerant, row: CompressorClass, frequency: float
) -> tuple[RatedPoints, float]:
    """Rated points with their relative standard uncertainty."""
    uncertainty = max(section.rating_uncertainty.value, 0.01)
    if section.map is not None:
        return _map_points(section.map, fluid, section.machine_class or "LBP"), uncertainty
    if section.rated_points:
        return _sheet_points(section, fluid), uncertainty
    return _class_point(section, fluid, row, frequency), CLASS_UNCERTAINTY


def _sheet_points(section: CompressorSection, fluid: Refrigerant) -> RatedPoints:
    rows = section.rated_points
    evaporating = lanes([p.evaporating_temperature.value for p in rows])
    condensing = lanes([p.condensing_temperature.value for p in rows])
    gas = lanes([p.return_gas_temperature.value for p in rows])
    liquid = lanes(
        [
            p.condensing_temperature.value - p.subcooling.value
            if p.subcooling is not None
            else (p.liquid_temperature or p.condensing_temperature).value
            for p in rows
        ]
    )
    capacity = lanes([p.capacity.value for p in rows])
    power = lanes([p.power.value if p.power is not None else np.nan for p in rows])
    flow = capacity / _enthalpy_rise(fluid, evaporating, gas, liquid)
    return RatedPoints(evaporating, condensing, gas, flow, power)


def _enthalpy_rise(fluid: Refrigerant, evaporating: Array, gas: Array, liquid: Array) -> Array:
    suction = fluid.saturation_pressure(evaporating)
    return fluid.vapour(suction, gas).enthalpy - fluid.saturated(liquid).liquid_enthalpy


def _class_point(
    section: CompressorSection, fluid: Refrigerant, row: CompressorClass, frequency: float
) -> RatedPoints:
    """One point at the class's rating condition, from its typical efficiencies."""
    evaporating, condensing, gas = (lanes([t]) for t in CLASS_RATING[row.application])
    suction, discharge = (
        fluid.saturation_pressure(evaporating),
        fluid.saturation_pressure(condensing),
    )
    inlet = fluid.vapour(suction, gas)
    ideal = fluid.vapour_at_entropy(discharge, inlet.entropy)
    filled = _filling(row, inlet, ideal)
    swept = section.displacement.value if section.displacement else row.displacement.value
    flow = filled * swept * frequency * (1.0 - SLIP) * inlet.density
    power = flow * (ideal.enthalpy - inlet.enthalpy) / row.overall_efficiency.value
    return RatedPoints(evaporating, condensing, gas, flow, power)


@np.errstate(over="ignore", invalid="ignore")
def _map_points(sheet: CompressorMap, fluid: Refrigerant, application: str) -> RatedPoints:
    """Sample a ten-coefficient map over its class's range; absurd coefficients give no number."""
    first, second = MAP_RANGE[application]
    evaporating_C, condensing_C = (a.ravel() for a in np.meshgrid(first, second, indexing="ij"))
    s, d = evaporating_C, condensing_C
    if sheet.temperature_unit == "F":
        s, d = 1.8 * s + 32.0, 1.8 * d + 32.0
    terms = np.stack([s**0, s, d, s**2, s * d, d**2, s**3, d * s**2, s * d**2, d**3])
    evaporating, condensing = lanes(evaporating_C + 273.15), lanes(condensing_C + 273.15)
    gas = (
        evaporating + sheet.superheat.value
        if sheet.superheat is not None
        else np.full_like(evaporating, sheet.return_gas_temperature.value)
        if sheet.return_gas_temperature is not None
        else evaporating + 10.0
    )
    power = lanes(np.asarray(sheet.power) @ terms) * (1e3 if sheet.power_unit == "kW" else 1.0)
    if sheet.mass_flow is not None:
        flow = lanes(np.asarray(sheet.mass_flow) @ terms) * FLOW_UNITS[sheet.mass_flow_unit]
    else:
        liquid = (
            condensing - sheet.subcooling.value
            if sheet.subcooling is not None
            else np.full_like(condensing, sheet.liquid_temperature.value)
            if sheet.liquid_temperature is not None
            else condensing
        )
        capacity = lanes(np.asarray(sheet.capacity) @ terms)
        capacity = capacity * (BTU_PER_HOUR if sheet.capacity_unit == "Btu/h" else 1.0)
        flow = capacity / _enthalpy_rise(fluid, evaporating, gas, liquid)
    return RatedPoints(evaporating, condensing, lanes(gas), flow, power)


def _typical(
    section: CompressorSection,
    row: CompressorClass,
    fluid: Refrigerant,
    points: RatedPoints,
    frequency: float,
) -> Compressor:
    """The class's compressor before it is pulled to its points."""
    speed = frequency * (1.0 - SLIP)
    power = float(points.power[0]) if np.isfinite(points.power[0]) else 100.0
    swept = (
        section.displacement.value if section.displacement else _swept(row, fluid, points, speed)
    )
    return Compressor(
        displacement=lanes(swept),
        speed=lanes(speed),
        pumping=lanes(row.volumetric_factor.value + 0.05),
        clearance=lanes(row.clearance.value),
        efficiency=lanes(row.overall_efficiency.value / (1.0 - CONSTANT_LOSS_SHARE)),
        constant_loss=lanes(CONSTANT_LOSS_SHARE * power),
        gas_work_share=lanes(row.electrical_efficiency.value * MECHANICAL_EFFICIENCY),
        suction_heating=lanes(SUCTION_HEATING),
        discharge_cooling=lanes(DISCHARGE_COOLING),
        shell_conductance=lanes(row.shell_conductance.value),
        shell_volume=lanes(section.shell_free_volume.value),
    )


def _swept(row: CompressorClass, fluid: Refrigerant, points: RatedPoints, speed: float) -> float:
    """Displacement [m3] that the first point needs at the class's volumetric efficiency."""
    suction = fluid.saturation_pressure(points.evaporating_temperature)
    discharge = fluid.saturation_pressure(points.condensing_temperature)
    inlet = fluid.vapour(suction, points.return_temperature)
    ideal = fluid.vapour_at_entropy(discharge, inlet.entropy)
    filled = _filling(row, inlet, ideal)
    return float((points.mass_flow / (filled * speed * inlet.density))[0])


def _filling(row: CompressorClass, inlet: Vapour, ideal: Vapour) -> Array:
    """Volumetric efficiency of the class on the gas that enters the shell (see its shop row)."""
    swelling = ideal.density / inlet.density - 1.0
    return np.asarray(row.volumetric_factor.value - row.clearance.value * swelling)


def _magnetising(
    section: CompressorSection, row: CompressorClass, points: RatedPoints
) -> tuple[float, str]:
    """Magnetising current [A] from a reading, a rated current, or the class."""
    if section.readings:
        found = [
            float(magnetising_current(r.power.value, r.voltage.value, r.current.value))
            for r in section.readings
        ]
        return float(np.mean(found)), "bench reading"
    for point in section.rated_points:
        if point.current is not None and point.power is not None:
            volts = section.voltage.value
            found_one = magnetising_current(point.power.value, volts, point.current.value)
            return float(found_one), "rated current"
    power = float(points.power[0]) if np.isfinite(points.power[0]) else 100.0
    share = row.magnetising_share.value
    # The share is of the running current: I_m = s I and I^2 = (P/V)^2 + I_m^2.
    return power / section.voltage.value * share / float(np.sqrt(1.0 - share**2)), "class"
