"""A compressor as its class has it, before anything rated pulls on it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from coldwright.arrays import Array, lanes
from coldwright.fluids.refrigerants import Refrigerant, Vapour
from coldwright.parts.compressor import Compressor
from coldwright.parts.compressor_fit import CompressorFit, RatedPoints, fit_compressor
from coldwright.shop.compressor_classes import (
    CompressorClass,
    compressor_class,
    compressor_class_names,
)
from coldwright.shop.rating_conditions import rating_condition

# Two poles, and the slip of a small motor at its rated load: common practice, no source.
SLIP = 0.035
# Shares of the rated power that no data sheet gives. Their middle is what twelve points of one map
# settle at (`shop_one_map`), their spread wide.
CONSTANT_LOSS_SHARE = 0.2
LOAD_LOSS_SHARE = 0.08
MECHANICAL_EFFICIENCY = 0.95
# At its rating the suction gas comes 45 % of the way to the shell's temperature (from memory).
SUCTION_HEATING = 0.45
DISCHARGE_COOLING = 0.5
SUCTION_VALVE_DROP = 1500.0  # Pa
VALVE_WORK = 8.0e3  # J/kg
FREE_SPREAD = {
    "suction_conductance": 0.5,
    "suction_valve_drop": 0.7,
    "valve_work": 0.7,
    "constant_loss": 0.4,
    "load_loss": 0.6,
}
UNKNOWN_DISPLACEMENT = 0.2  # of pumping, where the swept volume is worked back from the rating
UNKNOWN_POWER = 100.0  # W, where no point states one


@dataclass(frozen=True)
class Known:
    """What is stated of a compressor beside its rated points, SI."""

    speed: float  # [1/s] at the rating
    shell_volume: float  # [m3]
    displacement: float | None = None  # [m3]
    displacement_spread: float = 0.0  # relative standard uncertainty
    shell_conductance: float | None = None  # [W/K]


def fit_class(
    row: CompressorClass,
    fluid: Refrigerant,
    points: RatedPoints,
    known: Known,
    scatter: float,
    common: float,
) -> CompressorFit:
    """The class's compressor pulled to rated `points`.

    `scatter` is the relative standard uncertainty of one point against another, `common` that of
    all of them at once, which the fit cannot see: it is added at the end.
    """
    packed = tuple(values.tobytes() for values in vars(points).values())
    return _fit_of(row, fluid, packed, known, scatter, common)


@lru_cache(maxsize=64)
def _fit_of(
    row: CompressorClass,
    fluid: Refrigerant,
    packed: tuple[bytes, ...],
    known: Known,
    scatter: float,
    common: float,
) -> CompressorFit:
    """The same from values that can be told apart: a fit takes longer than a whole balance."""
    points = RatedPoints(*(np.frombuffer(values) for values in packed))
    start = typical_compressor(
        row, fluid, points, known.speed, known.displacement, known.shell_volume
    )
    if known.shell_conductance is not None:
        start = replace(start, shell_conductance=lanes(known.shell_conductance))
    stated = None if known.displacement is None else known.displacement_spread
    fit = fit_compressor(start, spread_of(row, stated), fluid, points, scatter)
    flow, power = (float(np.hypot(each, common)) for each in fit.standard_uncertainty)
    return replace(fit, standard_uncertainty=(flow, power))


def spread_of(row: CompressorClass, swept_spread: float | None) -> Mapping[str, float]:
    """Relative standard uncertainty of each fitted figure of the class.

    `swept_spread` is that of the stated displacement; None where it is worked back from a rating.
    """
    swept = UNKNOWN_DISPLACEMENT if swept_spread is None else swept_spread
    return {
        "pumping": float(np.hypot(row.volumetric_factor.relative_uncertainty, swept)),
        "clearance": row.clearance.relative_uncertainty,
        "efficiency": row.overall_efficiency.relative_uncertainty,
        **FREE_SPREAD,
    }


def typical_compressor(
    row: CompressorClass,
    fluid: Refrigerant,
    points: RatedPoints,
    speed: float,
    displacement: float | None,
    shell_volume: float,
) -> Compressor:
    """The class's compressor with losses of the size that the first of `points` suggests.

    `speed` [1/s]; without a `displacement` [m3] it is what that point needs at the class's
    volumetric efficiency.
    """
    first = float(points.power[0]) if np.isfinite(points.power[0]) else UNKNOWN_POWER
    inlet, ideal = _ideal(fluid, points)
    flow = float(points.mass_flow[0])
    swept = displacement
    if swept is None:
        swept = float((points.mass_flow / (_filling(row, inlet, ideal) * speed * inlet.density))[0])
    driven = first * (1.0 - CONSTANT_LOSS_SHARE - LOAD_LOSS_SHARE)
    overall = row.overall_efficiency.value
    # What is left of a watt for the shaft once the losses named apart are taken off.
    rest = driven / first - VALVE_WORK * overall / float((ideal.enthalpy - inlet.enthalpy)[0])
    rate = flow * float(inlet.specific_heat[0])
    # Of all the power; the losses named apart have none of it.
    work_share = row.electrical_efficiency.value * MECHANICAL_EFFICIENCY
    return Compressor(
        displacement=lanes(swept),
        speed=lanes(speed),
        pumping=lanes(row.volumetric_factor.value + 0.05),
        clearance=lanes(row.clearance.value),
        suction_conductance=lanes(-np.log(1.0 - SUCTION_HEATING) * rate),
        suction_valve_drop=lanes(SUCTION_VALVE_DROP),
        efficiency=lanes(overall / rest),
        valve_work=lanes(VALVE_WORK),
        constant_loss=lanes(CONSTANT_LOSS_SHARE * first),
        load_loss=lanes(LOAD_LOSS_SHARE * first / driven**2),
        gas_work_share=lanes(min(work_share * first / driven, MECHANICAL_EFFICIENCY)),
        discharge_cooling=lanes(DISCHARGE_COOLING),
        shell_conductance=lanes(row.shell_conductance.value),
        shell_volume=lanes(shell_volume),
    )


def nearest_class(
    application: str,
    fluid: Refrigerant,
    speed: float,
    *,
    swept: float | None = None,
    power: float | None = None,
) -> CompressorClass:
    """The class nearest in displacement [m3], else in power [W] at its rating, else 1/8 hp."""
    names = [name for name in compressor_class_names() if name.startswith(application)]
    rows = [compressor_class(name) for name in names]

    def apart(row: CompressorClass) -> float:
        if swept is not None:
            return abs(float(np.log(row.swept_for(fluid.name) / swept)))
        return abs(float(np.log(class_power(row, fluid, speed) / (power or UNKNOWN_POWER))))

    if swept is None and power is None:
        return rows[2]
    return min(rows, key=apart)


def class_power(row: CompressorClass, fluid: Refrigerant, speed: float) -> float:
    """Power [W] of the class at its own rating condition on `fluid`."""
    place = rating_condition(f"ASHRAE {row.application}")
    rating = (place.evaporating, place.condensing, place.return_gas)
    return float(class_point(row, fluid, rating, row.swept_for(fluid.name), speed).power[0])


def class_point(
    row: CompressorClass,
    fluid: Refrigerant,
    rating: tuple[float, float, float],
    swept: float,
    speed: float,
) -> RatedPoints:
    """One point at `rating` (evaporating, condensing, return gas [K]) from typical efficiencies."""
    evaporating, condensing, gas = (lanes([t]) for t in rating)
    none = np.zeros(1)
    place = RatedPoints(evaporating, condensing, gas, none, none)
    inlet, ideal = _ideal(fluid, place)
    flow = class_flow(row, fluid, place, swept, speed)
    power = flow * (ideal.enthalpy - inlet.enthalpy) / row.overall_efficiency.value
    return RatedPoints(evaporating, condensing, gas, flow, power)


def class_flow(
    row: CompressorClass, fluid: Refrigerant, points: RatedPoints, swept: float, speed: float
) -> Array:
    """Mass flow [kg/s] that the class would pump at the temperatures of `points`."""
    inlet, ideal = _ideal(fluid, points)
    return np.asarray(_filling(row, inlet, ideal) * swept * speed * inlet.density)


def rated_flow(
    fluid: Refrigerant, evaporating: Array, gas: Array, liquid: Array, capacity: Array
) -> Array:
    """Mass flow [kg/s] of a rated capacity [W]: over the enthalpy from liquid to return gas."""
    suction = fluid.saturation_pressure(evaporating)
    return capacity / (
        fluid.vapour(suction, gas).enthalpy - fluid.saturated(liquid).liquid_enthalpy
    )


def _ideal(fluid: Refrigerant, points: RatedPoints) -> tuple[Vapour, Vapour]:
    """The return gas of `points` and what isentropic compression makes of it."""
    suction = fluid.saturation_pressure(points.evaporating_temperature)
    discharge = fluid.saturation_pressure(points.condensing_temperature)
    inlet = fluid.vapour(suction, points.return_temperature)
    return inlet, fluid.vapour_at_entropy(discharge, inlet.entropy)


def _filling(row: CompressorClass, inlet: Vapour, ideal: Vapour) -> Array:
    """Volumetric efficiency of the class on the gas that enters the shell (see its shop row)."""
    swelling = ideal.density / inlet.density - 1.0
    return np.asarray(row.volumetric_factor.value - row.clearance.value * swelling)
