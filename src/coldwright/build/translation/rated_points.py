"""What the compressor's section states, as rated points with their uncertainty."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.arrays import Array, lanes
from coldwright.build.result import Build
from coldwright.build.schema.machine import Compressor as CompressorSection
from coldwright.build.schema.machine import CompressorMap
from coldwright.errors import Fault, InputError
from coldwright.fluids.refrigerants import Refrigerant
from coldwright.parts.compressor_fit import RatedPoints
from coldwright.parts.compressor_typical import class_point, rated_flow
from coldwright.parts.ten_coefficients import ten_terms
from coldwright.shop.compressor_classes import CompressorClass
from coldwright.shop.rating_conditions import rating_condition
from coldwright.units import Kind, format_quantity

# Where a ten-coefficient map is sampled when it states no range [C]: evaporating, condensing.
MAP_RANGE = {
    "LBP": ((-30.0, -23.3, -15.0, -10.0), (40.0, 47.0, 54.4)),
    "MBP": ((-18.0, -12.0, -6.7, 0.0), (40.0, 47.0, 54.4)),
    "HBP": ((-10.0, -3.0, 3.0, 7.2), (40.0, 47.0, 54.4)),
}
CLASS_UNCERTAINTY = 0.12
# A plate states the most a machine draws, or what it drew on one day: common practice, no source.
PLATE_UNCERTAINTY = 0.25
# Points of one sheet err together; against one another they are surer (assumed, no source).
SHEET_SCATTER = 1.0 / 3.0
LEAST_SCATTER = 0.01
# What a small machine may pump and draw at a rated point [kg/s], [W].
FLOW = (1e-6, 0.1)
POWER = (2.0, 5000.0)
FLOW_UNITS = {"kg/h": 1.0 / 3600.0, "lb/h": 0.45359237 / 3600.0, "g/s": 1e-3}
BTU_PER_HOUR = 0.29307107017


@dataclass(frozen=True)
class Sheet:
    """Rated points; relative standard uncertainties of one against another, and of all at once."""

    points: RatedPoints
    scatter: float
    common: float


def sheet_of(
    section: CompressorSection,
    fluid: Refrigerant,
    row: CompressorClass,
    swept: float,
    speed: float,
) -> Sheet:
    """The rated points that `section` states or stands for; `swept` [m3] is a class's."""
    uncertainty = max(section.rating_uncertainty.value, LEAST_SCATTER)
    if section.map is not None:
        points = _map_points(section.map, fluid, section.machine_class or "LBP")
    elif section.rated_points:
        points = _sheet_points(section, fluid)
    else:
        place = rating_condition(f"ASHRAE {row.application}")
        rating = (place.evaporating, place.condensing, place.return_gas)
        points = class_point(row, fluid, rating, swept, speed)
        return Sheet(points, CLASS_UNCERTAINTY, _size_doubt(section, row))
    # The fit follows the sheet closely; what all its points share it cannot see.
    return Sheet(points, max(uncertainty * SHEET_SCATTER, LEAST_SCATTER), uncertainty)


def _size_doubt(section: CompressorSection, row: CompressorClass) -> float:
    """How unsure the displacement of a class or of a plate's machine is."""
    given = section.displacement
    if given is not None:
        return given.standard_uncertainty / given.value
    if section.nameplate is not None:
        return PLATE_UNCERTAINTY
    return row.displacement.relative_uncertainty


def must_work(build: Build, points: RatedPoints) -> None:
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
    flow = rated_flow(fluid, evaporating, gas, liquid, capacity)
    return RatedPoints(evaporating, condensing, gas, flow, power)


def map_current(sheet: CompressorMap, application: str) -> Array | None:
    """Current [A] at the points where a map is sampled; None where it gives none."""
    if sheet.current is None:
        return None
    return lanes(np.asarray(sheet.current) @ _terms(sheet, application))


def _grid(application: str) -> tuple[Array, Array]:
    """Evaporating and condensing temperatures [C] where a map is sampled."""
    first, second = np.meshgrid(*MAP_RANGE[application], indexing="ij")
    return first.ravel(), second.ravel()


def _terms(sheet: CompressorMap, application: str) -> Array:
    """The ten terms of the map at its sampled points, in its own unit."""
    s, d = _grid(application)
    if sheet.temperature_unit == "F":
        s, d = 1.8 * s + 32.0, 1.8 * d + 32.0
    return ten_terms(s, d)


@np.errstate(over="ignore", invalid="ignore")
def _map_points(sheet: CompressorMap, fluid: Refrigerant, application: str) -> RatedPoints:
    """Sample a ten-coefficient map over its class's range; absurd coefficients give no number."""
    evaporating_C, condensing_C = _grid(application)
    terms = _terms(sheet, application)
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
        flow = rated_flow(fluid, evaporating, gas, liquid, capacity)
    return RatedPoints(evaporating, condensing, lanes(gas), flow, power)
