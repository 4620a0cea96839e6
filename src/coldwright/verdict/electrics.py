"""The motor, its lead and its battery in the state that the box comes to."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.build.schema.machine import Lead
from coldwright.parts.compressor_shell import cooling_time, winding_temperature
from coldwright.parts.lead import lead_resistance, wire_gauge_area
from coldwright.verdict.case import Case
from coldwright.verdict.figures import CELSIUS, at_lane

HOURS_PER_DAY = 24.0


@dataclass(frozen=True)
class ElectricFigures:
    """Names carry their unit; None where it is not known or does not apply."""

    running_current_A: float
    magnetising_current_A: float
    magnetising_from: str
    power_factor: float | None
    locked_rotor_current_A: float | None
    locked_rotor_from: str
    winding_C: float | None
    cooling_time_min: float
    lead_ohm: float | None
    lead_drop_V: float | None
    lead_drop_percent: float | None
    start_drop_percent: float | None
    lead_loss_W: float | None
    battery_Ah_per_day: float | None  # from the battery, wiring loss included


@dataclass(frozen=True)
class MachineStated:
    """How the compressor is known, and how well."""

    described_by: str
    rated_refrigerant: str
    displacement_cm3: float
    speed_rpm: float
    misfit_percent: float | None  # None where there are no data to miss
    flow_uncertainty_percent: float  # relative standard, where it works
    power_uncertainty_percent: float
    shell_conductance_W_per_K: float


def machine_stated(case: Case) -> MachineStated:
    """The compressor's own block of the report."""
    machine, section = case.translation.machine, case.build.compressor
    compressor = case.translation.plant.system.compressor
    flow, power = case.compressor_uncertainty
    return MachineStated(
        described_by=section.description,
        rated_refrigerant=section.rated_refrigerant,
        displacement_cm3=at_lane(compressor.displacement, 0) * 1e6,
        speed_rpm=at_lane(compressor.speed, 0) * 60.0,
        misfit_percent=(
            100.0 * machine.misfit if section.description in ("rated_points", "map") else None
        ),
        flow_uncertainty_percent=100.0 * flow,
        power_uncertainty_percent=100.0 * power,
        shell_conductance_W_per_K=at_lane(compressor.shell_conductance, 0),
    )


def winding_celsius(case: Case, state: str) -> float | None:
    """Mean winding temperature in a state; None without a balance or for a battery machine."""
    machine, figures = case.translation.machine, case.machine(state)
    if not figures.balanced or machine.direct_current:
        return None
    found = winding_temperature(
        figures.shell_C + CELSIUS,
        figures.power_W,
        machine.machine_class.electrical_efficiency.value,
        case.translation.plant.system.compressor.shell_conductance,
    )
    return at_lane(found, 0) - CELSIUS


def electric_figures(case: Case) -> ElectricFigures:
    """Figures of motor, lead and battery in the state that the box really comes to."""
    machine, held = case.translation.machine, case.machine(case.state)
    section = case.build.compressor
    voltage = at_lane(machine.voltage, 0)
    current = held.current_A
    locked, origin = None, ""
    if not machine.direct_current:
        ratio = machine.machine_class.locked_rotor_ratio.value
        stated = section.locked_rotor_current
        locked = stated.value if stated is not None else ratio * current
        origin = "as stated" if stated is not None else "guessed by its class, ± 60 %"
    ohm = None if section.lead is None else lead_ohm(section.lead)
    drop = None if ohm is None else ohm * current
    loss = None if ohm is None else ohm * current**2
    row = machine.machine_class
    conductance = case.translation.plant.system.compressor.shell_conductance
    return ElectricFigures(
        running_current_A=current,
        magnetising_current_A=at_lane(machine.magnetising_current, 0),
        magnetising_from=machine.magnetising_from,
        power_factor=None if machine.direct_current else held.power_W / (voltage * current),
        locked_rotor_current_A=locked,
        locked_rotor_from=origin,
        winding_C=winding_celsius(case, case.state),
        cooling_time_min=at_lane(cooling_time(row.shell_mass.value, conductance), 0) / 60.0,
        lead_ohm=ohm,
        lead_drop_V=drop,
        lead_drop_percent=None if drop is None else 100.0 * drop / voltage,
        start_drop_percent=(
            None
            if ohm is None or locked is None
            else 100.0 * ohm * locked / (voltage + ohm * locked)
        ),
        lead_loss_W=loss,
        battery_Ah_per_day=_battery(case, loss or 0.0),
    )


def lead_ohm(lead: Lead) -> float:
    """Resistance [ohm] there and back of the lead."""
    if lead.cross_section is not None:
        area = lead.cross_section.value
    else:
        area = float(wire_gauge_area(float(lead.gauge or 0)))
    return float(lead_resistance(lead.length.value, area))


def _battery(case: Case, loss: float) -> float | None:
    """Charge drawn from the battery in a day [Ah]: machine and lead while running."""
    machine, held = case.translation.machine, case.machine(case.state)
    if not machine.direct_current or not held.balanced:
        return None
    share = float(np.minimum(case.run_fraction, 1.0))
    return share * HOURS_PER_DAY * (held.power_W + loss) / at_lane(machine.voltage, 0)
