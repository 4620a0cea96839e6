"""Figures of one state of the machine and of the cabinet, in the units of the report."""

from __future__ import annotations

from dataclasses import asdict, dataclass

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array
from coldwright.parts.cabinet import Cabinet
from coldwright.parts.cold_box import BoxState
from coldwright.parts.motor import line_current
from coldwright.plant.balance import REASONS, Balance

CELSIUS = 273.15


def percent(share: float) -> str:
    """A share as whole percent; one that is small but not nothing says so."""
    return "under 1 %" if 0.0 < share < 0.005 else f"{100.0 * share:.0f} %"


def at_lane(value: Array | NDArray[np.int_] | float, lane: int) -> float:
    """One lane of an array, or the value that all lanes share."""
    flat = np.ravel(np.asarray(value, dtype=np.float64))
    return float(flat[lane if flat.size > 1 else 0])


@dataclass(frozen=True)
class MachineFigures:
    """The sealed system in one state; names carry their unit."""

    evaporating_C: float
    condensing_C: float
    suction_Pa: float
    discharge_Pa: float
    mass_flow_kg_per_h: float
    capacity_W: float
    power_W: float
    current_A: float
    evaporator_exit_superheat_K: float
    evaporator_exit_quality: float
    subcooling_K: float
    return_gas_C: float
    return_quality: float
    discharge_gas_C: float
    shell_C: float
    source_C: float
    condenser_heat_W: float
    shell_liquid_g: float
    residual: float
    reason: str

    @property
    def balanced(self) -> bool:
        """Whether the balance was found."""
        return self.reason == REASONS[0]

    def as_report(self, *, is_brine: bool) -> dict[str, float | str | None]:
        """The figures by their report key; the source is the brine's temperature for a vessel.

        Without a balance only the reason and how far it was from one are known.
        """
        report: dict[str, float | str | None] = asdict(self)
        report["brine_C" if is_brine else "compartment_C"] = report.pop("source_C")
        if self.balanced:
            return report
        return {key: report[key] if key in ("residual", "reason") else None for key in report}


def machine_figures(
    balance: Balance, source: Array, voltage: Array, magnetising: Array, lane: int
) -> MachineFigures:
    """Figures of lane `lane` of a balance at `source` [K]."""
    e = balance.evaluation
    power = at_lane(e.compressor.power, lane)
    current = line_current(power, at_lane(voltage, lane), at_lane(magnetising, lane))
    return MachineFigures(
        evaporating_C=at_lane(e.unknowns.evaporating_temperature, lane) - CELSIUS,
        condensing_C=at_lane(e.unknowns.condensing_temperature, lane) - CELSIUS,
        suction_Pa=at_lane(e.suction_pressure, lane),
        discharge_Pa=at_lane(e.discharge_pressure, lane),
        mass_flow_kg_per_h=at_lane(e.compressor.mass_flow, lane) * 3600.0,
        capacity_W=at_lane(e.evaporator.heat, lane),
        power_W=power,
        current_A=float(current),
        evaporator_exit_superheat_K=at_lane(e.returning.superheat, lane),
        evaporator_exit_quality=at_lane(e.returning.exit_quality, lane),
        subcooling_K=at_lane(e.subcooling, lane),
        return_gas_C=at_lane(e.returning.temperature, lane) - CELSIUS,
        return_quality=at_lane(e.returning.quality, lane),
        discharge_gas_C=at_lane(e.compressor.discharge_temperature, lane) - CELSIUS,
        shell_C=at_lane(e.shell_temperature, lane) - CELSIUS,
        source_C=at_lane(source, lane) - CELSIUS,
        condenser_heat_W=at_lane(e.condenser.heat, lane),
        shell_liquid_g=at_lane(e.inventory.shell_liquid, lane) * 1e3,
        residual=at_lane(balance.residual, lane),
        reason=REASONS[int(at_lane(balance.reason, lane))],
    )


@dataclass(frozen=True)
class CabinetFigures:
    """The cabinet in one state; names carry their unit."""

    heat_gain_W: float
    conductance_W_per_K: float
    air_C: float
    coldest_shelf_C: float
    warmest_shelf_C: float
    compartment_air_C: float
    cold_surface_C: float
    liner_C: float
    air_flow_m3_per_h: float
    relative_humidity: float
    frost_g_per_day: float
    radiation_share: float
    gain_by_way_W: dict[str, float]
    resistance_share: dict[str, float]


def cabinet_figures(cabinet: Cabinet, box: BoxState, lane: int) -> CabinetFigures:
    """Figures of lane `lane` of a settled box."""
    gain = box.gain
    ways = {f"face {name}": value for name, value in gain.by_face.items()}
    for name in ("bridges", "gasket", "leakage", "drain", "doors", "contents", "latent"):
        ways[name] = getattr(gain, name)
    return CabinetFigures(
        heat_gain_W=at_lane(box.heat, lane),
        conductance_W_per_K=at_lane(cabinet.still_conductance, lane),
        air_C=at_lane(box.air_temperature, lane) - CELSIUS,
        coldest_shelf_C=at_lane(box.coldest_shelf_temperature, lane) - CELSIUS,
        warmest_shelf_C=at_lane(box.warmest_shelf_temperature, lane) - CELSIUS,
        compartment_air_C=at_lane(box.compartment_air_temperature, lane) - CELSIUS,
        cold_surface_C=at_lane(box.surface_temperature, lane) - CELSIUS,
        liner_C=at_lane(box.liner_temperature, lane) - CELSIUS,
        air_flow_m3_per_h=at_lane(box.air.volume_flow, lane) * 3600.0,
        relative_humidity=at_lane(box.inside_relative_humidity, lane),
        frost_g_per_day=at_lane(box.frost_kg_per_day, lane) * 1e3,
        radiation_share=at_lane(box.surface.radiation_share, lane),
        gain_by_way_W={name: at_lane(value, lane) for name, value in ways.items()},
        resistance_share=_shares(box, lane),
    )


def _shares(box: BoxState, lane: int) -> dict[str, float]:
    """Where the resistance between source and air sits, as shares of the sum.

    Air and liner are reached side by side, so they are one step.
    """
    steps = {name: at_lane(value, lane) for name, value in box.surface.resistances.items()}
    beside = [steps.pop(name) for name in ("convection to air", "radiation to liner")]
    steps = {"outside film": 1.0 / sum(1.0 / each for each in beside), **steps}
    total = sum(steps.values())
    return {name: value / total for name, value in steps.items()} if total > 0.0 else steps
