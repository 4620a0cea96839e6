"""The figures of `calc capillary`: flow of one tube, or length of each stock bore."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from coldwright.arrays import Array, lanes
from coldwright.cli.calc.answer import COVERAGE, ICE_POINT, Data, worked_out
from coldwright.cli.calc.capillary_entries import BORE_DOUBT, Asked, saturation_of
from coldwright.cli.calc.entries import Entry
from coldwright.parts.capillary import Capillary
from coldwright.parts.capillary_check import cross_check
from coldwright.parts.capillary_solution import (
    GREATEST_LENGTH,
    Ends,
    ReturnGas,
    SolvedCapillary,
    solve_flow,
    solve_length,
)
from coldwright.parts.return_exchanger import SuctionLine
from coldwright.shop.capillary_bores import bores

HOUR = 3600.0
USUAL_LENGTHS = (1.0, 6.0)  # m: shorter scatters, longer clogs; common practice, no source
TOO_LONG = "no length in reach: the bore is too wide for this flow"
TOO_SHORT = "chokes at its inlet, or would be shorter than its exchanger"
# Bores nearer than this to one another are one row.
SAME_BORE = 5e-6


def answer_flow(asked: Asked, inputs: Mapping[str, Entry]) -> Data:
    """The flow of one tube with its interval and what makes it up."""
    solved: dict[tuple[float, ...], Data] = {}

    def compute(**values: float) -> Data:
        model = values.pop("model")
        key = tuple(values.values())
        if key not in solved:
            solved[key] = _figures(asked, values)
        data = dict(solved[key])
        for name in ("mass_flow_kg_per_h", "adiabatic_kg_per_h", "capacity_W", "exchanged_W"):
            data[name] = None if data[name] is None else data[name] * model
        return data

    data = worked_out(compute, inputs)
    # The model's own doubt is known for flows only: a bare ± of the entries would look too sure.
    for name in ("exit_pressure_Pa", "exit_quality", "flash_position_m", "return_gas_C"):
        data.get("half_widths", {}).pop(name, None)
    flow = data["mass_flow_kg_per_h"]
    half = data.get("half_widths", {}).get("mass_flow_kg_per_h", 0.0)
    exact = {name: replace(entry, standard_uncertainty=0.0) for name, entry in inputs.items()}
    shares = {}
    for name in ("model", "bore"):
        alone = worked_out(compute, {**exact, name: inputs[name]})
        shares[name] = alone.get("half_widths", {}).get("mass_flow_kg_per_h", 0.0)
    low, high = (None, None) if flow is None else (max(flow - half, 0.0), flow + half)
    ordered = {
        "refrigerant": asked.refrigerant.name,
        "mass_flow_kg_per_h": flow,
        "low_kg_per_h": low,
        "high_kg_per_h": high,
        "model_half_width_kg_per_h": shares["model"],
        "bore_half_width_kg_per_h": shares["bore"],
    }
    return {**ordered, **data, **ordered}


def _figures(asked: Asked, values: Mapping[str, float]) -> Data:
    """Everything about one tube, without the model's own doubt."""
    gas = asked.refrigerant
    tube, ends = _tube(values), _ends(asked, values)
    plain_tube = replace(tube, exchanger_length=lanes(0.0))
    plain = solve_flow(plain_tube, gas, ends, late_flashing=asked.late_flashing)
    beside = _return_gas(asked, values, tube)
    found = plain
    if beside is not None:
        found = solve_flow(tube, gas, ends, beside, late_flashing=asked.late_flashing)
    checks = cross_check(
        gas,
        tube.bore,
        tube.length,
        ends.inlet_pressure,
        ends.inlet_enthalpy,
        gas.saturation_pressure(ends.evaporating_temperature),
    )
    good = bool(found.found)
    flow = float(found.mass_flow) * HOUR
    heat = float(found.exchanged_heat)
    gain = None if beside is None else 100.0 * float(found.mass_flow / plain.mass_flow - 1.0)
    warmed = float(found.return_temperature) - ICE_POINT
    return {
        "mass_flow_kg_per_h": flow if good else None,
        "choked": bool(found.flow.choked),
        "exit_pressure_Pa": float(found.flow.exit_pressure),
        "exit_quality": float(found.flow.exit_quality),
        "flash_position_m": float(found.flow.flash_position),
        "evaporator_quality": float(found.evaporator_quality),
        "capacity_W": float(_capacity(asked, values, found)) if good else None,
        "adiabatic_kg_per_h": float(plain.mass_flow) * HOUR if bool(plain.found) else None,
        "flow_gain_percent": gain,
        "exchanged_W": None if beside is None or not good else heat * flow / HOUR,
        "return_gas_C": None if beside is None else warmed,
        "correlation_kg_per_h": _known(float(checks.correlation) * HOUR),
        "correlation_bridged": bool(checks.bridged),
        "algebraic_kg_per_h": _known(float(checks.algebraic) * HOUR),
        **_given(asked, values, ends),
    }


def _given(asked: Asked, values: Mapping[str, float], ends: Ends) -> Data:
    """The entries again, as the answer is for them."""
    outlet = asked.refrigerant.saturation_pressure(ends.evaporating_temperature)
    return {
        "bore_m": values.get("bore"),
        "length_m": values.get("length"),
        "condensing_C": saturation_of(asked.refrigerant, values) - ICE_POINT,
        "inlet_pressure_Pa": float(ends.inlet_pressure),
        "subcooling_K": values.get("subcooling", 0.0),
        "inlet_quality": values.get("quality", 0.0),
        "evaporating_C": values["evaporating"] - ICE_POINT,
        "evaporating_pressure_Pa": float(outlet),
    }


def answer_lengths(asked: Asked, inputs: Mapping[str, Entry]) -> Data:
    """The length that passes the flow, for each stock bore and the bore that was given."""
    values = {name: entry.value for name, entry in inputs.items()}
    rows = [(bore.name, bore.inside_diameter, BORE_DOUBT) for bore in bores()]
    if "bore" in inputs:
        one = inputs["bore"]
        rows = [row for row in rows if abs(row[1] - one.value) > SAME_BORE]
        rows.append(("as given", one.value, one.standard_uncertainty))
    rows.sort(key=lambda row: row[1])
    bore, doubt = (np.array([row[i] for row in rows], dtype=np.float64) for i in (1, 2))
    # Middle; model high and low; bore wide and narrow.
    flow, model = values["flow"], inputs["model"].standard_uncertainty
    flows = flow / np.array([1.0, 1.0 + model, 1.0 - model, 1.0, 1.0])[:, None]
    wide = bore + doubt * np.array([0.0, 0.0, 0.0, 1.0, -1.0])[:, None]
    tube, ends = _tube({**values, "length": 1.0}), _ends(asked, values)
    tube = replace(tube, bore=wide)
    beside = _return_gas(asked, values, tube)
    found = solve_length(
        tube, asked.refrigerant, ends, flows, beside, late_flashing=asked.late_flashing
    )
    spread = _spread(np.log(found.tube.length))
    capacity = _capacity(asked, values, found)
    table = [_row(found, spread, capacity, row, column) for column, row in enumerate(rows)]
    return {
        "refrigerant": asked.refrigerant.name,
        "flow_kg_per_h": flow * HOUR,
        "bores": table,
        **_given(asked, values, ends),
    }


def _spread(logarithm: Array) -> Array:
    """Half-width of the 95 % interval of the logarithm of length, per bore."""
    by_model, by_bore = logarithm[1] - logarithm[2], logarithm[3] - logarithm[4]
    return np.asarray(COVERAGE * 0.5 * np.hypot(by_model, by_bore))


def _row(
    found: SolvedCapillary,
    spread: Array,
    capacity: Array,
    row: tuple[str, float, float],
    column: int,
) -> Data:
    """One bore of the table; nulls where no length passes the flow."""
    name, bore, _ = row
    good = bool(found.found[0, column])
    length = float(found.tube.length[0, column])
    # Where a tube a little wider or narrower would not do at all the interval is not known.
    sure = good and bool(np.all(found.found[:, column]))
    factor = math.exp(float(spread[column])) if sure else math.nan
    usual = USUAL_LENGTHS[0] <= length <= USUAL_LENGTHS[1]
    return {
        "name": name,
        "bore_m": bore,
        "length_m": length if good else None,
        "low_m": _known(length / factor),
        "high_m": _known(length * factor),
        "usual": good and usual,
        "reason": None if good else TOO_LONG if length > 0.9 * GREATEST_LENGTH else TOO_SHORT,
        "choked": bool(found.flow.choked[0, column]) if good else None,
        "evaporator_quality": float(found.evaporator_quality[0, column]) if good else None,
        "capacity_W": float(capacity[0, column]) if good else None,
    }


def _tube(values: Mapping[str, float]) -> Capillary:
    return Capillary(
        bore=lanes(values.get("bore", 1e-3)),
        length=lanes(values["length"]),
        roughness=lanes(values["roughness"]),
        exchanger_start=lanes(values.get("start", 0.0)),
        exchanger_length=lanes(values.get("joined", 0.0)),
        coil_diameter=lanes(values.get("coil", np.inf)),
    )


def _ends(asked: Asked, values: Mapping[str, float]) -> Ends:
    gas = asked.refrigerant
    hot = saturation_of(gas, values)
    saturated = gas.saturated(hot)
    wet = saturated.liquid_enthalpy + values.get("quality", 0.0) * saturated.latent_heat
    cooled = values.get("subcooling", 0.0)
    dry = gas.liquid_enthalpy(saturated.pressure, hot - cooled)
    enthalpy = wet if "quality" in values else dry
    return Ends(saturated.pressure, lanes(enthalpy), lanes(values["evaporating"]))


def _gas_enthalpy(asked: Asked, values: Mapping[str, float]) -> Array:
    """Enthalpy [J/kg] of the gas that leaves the evaporator."""
    gas, cold = asked.refrigerant, values["evaporating"]
    warm = max(values.get("return_gas", cold), cold)
    return gas.vapour(gas.saturation_pressure(cold), warm).enthalpy


def _return_gas(asked: Asked, values: Mapping[str, float], tube: Capillary) -> ReturnGas | None:
    if asked.exchanger is None:
        return None
    line = SuctionLine(
        inside_diameter=lanes(values["suction_bore"]),
        length=tube.exchanger_length,
        joined_length=tube.exchanger_length,
        joint_conductance=lanes(values["joint"]),
        room_conductance=lanes(0.0),
        core_diameter=lanes(values.get("core", 0.0)),
    )
    return ReturnGas(line, _gas_enthalpy(asked, values))


def _capacity(asked: Asked, values: Mapping[str, float], found: SolvedCapillary) -> Array:
    """Heat [W] that the flow takes in the evaporator, from the tube's end to the gas."""
    low = asked.refrigerant.saturated(values["evaporating"])
    entering = low.liquid_enthalpy + found.evaporator_quality * low.latent_heat
    return np.asarray(found.mass_flow * (_gas_enthalpy(asked, values) - entering))


def _known(value: float) -> float | None:
    return value if math.isfinite(value) else None
