"""From what the command line says of a compressor to the fitted machine, and its figures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from coldwright.arrays import Array, lanes
from coldwright.cli.calc.answer import COVERAGE, ICE_POINT, Data
from coldwright.parts.compressor import Compressor, at_speed
from coldwright.parts.compressor_carry import carried_uncertainty
from coldwright.parts.compressor_fit import CompressorFit, RatedPoints
from coldwright.parts.compressor_rating import on_the_stand
from coldwright.parts.compressor_shell import winding_temperature
from coldwright.parts.compressor_typical import (
    SLIP,
    UNKNOWN_POWER,
    Known,
    class_flow,
    class_point,
    fit_class,
    nearest_class,
    rated_flow,
)
from coldwright.parts.motor import (
    line_current,
    magnetising_at,
    magnetising_current,
    magnetising_share,
)
from coldwright.shop.compressor_classes import CompressorClass, compressor_class
from coldwright.shop.rating_conditions import rating_condition, rating_condition_names

if TYPE_CHECKING:
    from collections.abc import Sequence

    from coldwright.cli.calc.compressor_sheet import SheetPoint
    from coldwright.cli.calc.entries import Entry
    from coldwright.fluids.refrigerants import Refrigerant

# Standard uncertainties, relative: of a sheet as a whole, of one of its points against another, of
# a class, of a guessed displacement. Common practice, no source.
SHEET, SCATTER, CLASS_SCATTER = 0.05, 0.0167, 0.12
SHELL_VOLUME = 1.6e-3


@dataclass(frozen=True)
class Described:
    """The machine as it is known, fitted."""

    way: str  # map, rated or class
    fit: CompressorFit
    row: CompressorClass
    points: RatedPoints
    rated_on: Refrigerant
    magnetising: float | None  # [A] at the rated voltage and frequency
    magnetising_from: str
    frequency: float  # [Hz] of the rating
    filling: float | None  # rated flow by the class's at that displacement; None if not both known

    @property
    def misfit(self) -> float | None:
        """Greatest relative distance of the fit from a rated flow or power; None without data."""
        if self.way == "class":
            return None
        errors = np.concatenate([self.fit.flow_error, self.fit.power_error])
        return float(np.nanmax(np.abs(errors)))


def described(
    way: str,
    sheet: Sequence[SheetPoint],
    application: str | None,
    size: str | None,
    rated_on: Refrigerant,
    swept: Entry | None,
    frequency: float,
    voltage: float | None,
) -> Described:
    """Fit the machine to its sheet, or take the class's own point where there is none."""
    speed = frequency * (1.0 - SLIP)
    volume = None if swept is None else swept.value
    spread = 0.0 if swept is None else swept.standard_uncertainty / swept.value
    points = _points(sheet, rated_on) if sheet else None
    use = application or _application(points)
    if size is not None:
        row = compressor_class(f"{use} {size}")
    else:
        power = None if points is None or volume is not None else _usual_power(points)
        row = nearest_class(use, rated_on, speed, swept=volume, power=power)
    if points is None:
        place = rating_condition(f"ASHRAE {use}")
        rating = (place.evaporating, place.condensing, place.return_gas)
        guessed = row.swept_for(rated_on.name) if volume is None else volume
        points = class_point(row, rated_on, rating, guessed, speed)
        volume = guessed
        common = spread if swept is not None else row.displacement.relative_uncertainty
        scatter = CLASS_SCATTER
    else:
        scatter, common = SCATTER, SHEET
    known = Known(speed, SHELL_VOLUME, volume, spread)
    fit = fit_class(row, rated_on, points, known, scatter, common)
    current, origin = _magnetising(sheet, points, row, voltage)
    filling = None
    if sheet and swept is not None:
        usual = class_flow(row, rated_on, points, swept.value, speed)
        filling = float(np.mean(points.mass_flow / usual))
    return Described(way, fit, row, points, rated_on, current, origin, frequency, filling)


def _points(sheet: Sequence[SheetPoint], fluid: Refrigerant) -> RatedPoints:
    def column(name: str) -> Array:
        return lanes([getattr(point, name) for point in sheet])

    evaporating, gas = column("evaporating"), column("return_gas")
    capacity, flow = column("capacity"), column("mass_flow")
    by_capacity = rated_flow(
        fluid, evaporating, gas, column("liquid"), np.where(np.isnan(capacity), 1.0, capacity)
    )
    return RatedPoints(
        evaporating,
        column("condensing"),
        gas,
        np.where(np.isnan(capacity), flow, by_capacity),
        column("power"),
    )


def _application(points: RatedPoints | None) -> str:
    """The application whose band the rated points lie in."""
    if points is None:
        return "LBP"
    mean = float(np.mean(points.evaporating_temperature)) - ICE_POINT
    return "LBP" if mean < -13.0 else "MBP" if mean < -1.0 else "HBP"


def _usual_power(points: RatedPoints) -> float | None:
    known = points.power[np.isfinite(points.power)]
    return float(known[0]) if known.size else None


def _magnetising(
    sheet: Sequence[SheetPoint], points: RatedPoints, row: CompressorClass, voltage: float | None
) -> tuple[float | None, str]:
    """Magnetising current [A] by the sheet's amperes, or by the class; None without a voltage."""
    if voltage is None:
        return None, ""
    current = lanes([point.current for point in sheet])
    if sheet and np.any(both := np.isfinite(current) & np.isfinite(points.power)):
        found = magnetising_current(points.power[both], voltage, current[both])
        return float(np.mean(found)), "the sheet's amperes"
    power = _usual_power(points) or UNKNOWN_POWER
    return float(magnetising_share(power, voltage, row.magnetising_share.value)), "its class"


@dataclass(frozen=True)
class Running:
    """How the machine is to run, beside the temperatures."""

    fluid: Refrigerant
    frequency: float  # [Hz]
    voltage: float | None  # [V] of the data and at the machine


def running_compressor(machine: Described, running: Running) -> Compressor:
    """The fitted compressor at the frequency at which it runs."""
    fitted = machine.fit.compressor
    return at_speed(fitted, fitted.speed * (running.frequency / machine.frequency))


def figures(machine: Described, running: Running, values: Mapping[str, float]) -> Data:
    """All figures at one condition."""
    compressor = running_compressor(machine, running)
    room = values["room"]
    stand = on_the_stand(
        compressor,
        running.fluid,
        values["evaporating"],
        values["condensing"],
        values["return_gas"],
        values["liquid"],
        room,
    )
    state, ratio = stand.state, running.frequency / machine.frequency
    pressures = stand.suction_pressure, stand.discharge_pressure
    carried = carried_uncertainty(
        machine.fit, machine.points, machine.rated_on, running.fluid, *pressures, ratio
    )
    power = float(state.power)
    winding = winding_temperature(
        stand.shell_temperature,
        power,
        machine.row.electrical_efficiency.value,
        compressor.shell_conductance,
    )
    current = None
    if machine.magnetising is not None and running.voltage:
        idle = magnetising_at(machine.magnetising, 1.0, ratio)
        current = float(line_current(power, running.voltage, idle))
    return {
        "refrigerant": running.fluid.name,
        "rated_refrigerant": machine.rated_on.name,
        "evaporating_C": values["evaporating"] - ICE_POINT,
        "condensing_C": values["condensing"] - ICE_POINT,
        "return_gas_C": values["return_gas"] - ICE_POINT,
        "liquid_C": values["liquid"] - ICE_POINT,
        "room_C": room - ICE_POINT,
        "capacity_W": float(stand.capacity),
        "power_W": power,
        "cop": float(stand.capacity) / power,
        "current_A": current,
        "mass_flow_kg_per_h": 3600.0 * float(state.mass_flow),
        "discharge_gas_C": float(state.discharge_temperature) - ICE_POINT,
        "shell_C": float(stand.shell_temperature) - ICE_POINT,
        "winding_C": float(winding) - ICE_POINT,
        "pressure_ratio": float(stand.discharge_pressure / stand.suction_pressure),
        "volumetric_efficiency": float(state.volumetric_efficiency),
        "suction_Pa": float(stand.suction_pressure),
        "discharge_Pa": float(stand.discharge_pressure),
        "displacement_m3": float(compressor.displacement),
        "misfit_percent": None if machine.misfit is None else 100.0 * machine.misfit,
        "flow_uncertainty_percent": 100.0 * float(carried.flow),
        "power_uncertainty_percent": 100.0 * float(carried.power),
        "pressure_ratio_distance": float(carried.pressure_ratio_distance),
        "suction_pressure_distance": float(carried.suction_pressure_distance),
    }


def with_interval(data: Data) -> Data:
    """`data` with low and high ends of 95 % intervals: of the machine, and of what was entered."""
    halves = data.get("half_widths", {})
    found = dict(data)
    for key, spread in (
        ("capacity_W", "flow_uncertainty_percent"),
        ("power_W", "power_uncertainty_percent"),
    ):
        own = COVERAGE * 0.01 * data[spread] * data[key]
        half = float(np.hypot(own, halves.get(key, 0.0)))
        stem, _, unit = key.rpartition("_")
        found[f"{stem}_low_{unit}"] = max(data[key] - half, 0.0)
        found[f"{stem}_high_{unit}"] = data[key] + half
        found["half_widths"] = {**found.get("half_widths", {}), key: half}
    return found


def at_named_conditions(machine: Described, running: Running) -> dict[str, Data]:
    """Capacity and power at each named rating condition that the machine's class is near."""
    found: dict[str, Data] = {}
    for name in rating_condition_names():
        place = rating_condition(name)
        liquid = place.liquid
        data = figures(
            machine,
            running,
            {
                "evaporating": place.evaporating,
                "condensing": place.condensing,
                "return_gas": place.return_gas,
                "liquid": liquid,
                "room": place.return_gas,
            },
        )
        keys = ("capacity_W", "power_W", "cop", "flow_uncertainty_percent")
        found[name] = {key: data[key] for key in keys}
    return found
