"""`calc compressor` as text: figures, what they mean, and what to look out for."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from coldwright.cli.calc.answer import ICE_POINT, Answer, Data, Row, Writer, cited, noticed
from coldwright.cli.calc.compressor_machine import at_named_conditions, with_interval
from coldwright.errors import Notice
from coldwright.fluids.oils import oil
from coldwright.parts.ten_coefficients import COEFFICIENTS, fit_ten
from coldwright.shop import compressor_limits as limits
from coldwright.shop.refrigerant_safety import safety
from coldwright.units import Kind, System

if TYPE_CHECKING:
    from coldwright.cli.calc.compressor_machine import Described, Running

CLASS_SOURCE = "shop_compressor_classes"
PRACTICE = "motor_practice"
PIPE = "discharge_pipe_limit"
USUAL_FILLING = (0.7, 1.25)  # of the class's own flow
OVERLOAD = 1.3  # power over the greatest rated one
MISFIT_PERCENT = 10.0


def show(
    data: Data,
    machine: Described,
    running: Running,
    kept: str | None,
    system: System,
    remarks: list[str],
    as_json: bool,
) -> None:
    """Print the answer."""
    data = with_interval(data)
    write = Writer(data, system)
    notices = [noticed(each) for each in notices_of(data, machine, running, kept, write)]
    data["notices"] = notices
    data["conditions"] = at_named_conditions(machine, running)
    sources = [CLASS_SOURCE, "stoecker_jones_1982", "bell_2014_coolprop", "compressor_carry_law"]
    sources += ["shop_rating_conditions", "motor_phasor", "cabello_2015"]
    title = (
        f"{data['refrigerant']} at {write.figure('evaporating_C')} evaporating, "
        f"{write.figure('condensing_C')} condensing"
    )
    rows = _rows(data, machine, write)
    answer = Answer(
        title,
        data,
        rows,
        [*remarks, *_meaning(data, machine)],
        () if as_json else notices,
        cited(*sources),
    )
    answer.show(as_json)


def _rows(data: Data, machine: Described, write: Writer) -> list[Row]:
    known = {
        "map": f"fitted to {len(machine.points.mass_flow)} points",
        "rated": f"fitted to {len(machine.points.mass_flow)} rated "
        f"point{'s' if len(machine.points.mass_flow) > 1 else ''}",
        "class": f"guessed from class {machine.row.name}",
    }[machine.way]
    watts = write.quantity(data["power_W"], data["half_widths"]["power_W"], Kind.power)
    current = data["current_A"]
    rows: list[Row] = [
        ("capacity", write.figure("capacity_W"), f"{known}, 95 % interval"),
        ("power", watts, f"COP {data['cop']:.2f}"),
        (
            "current",
            "not known" if current is None else write.si(current, Kind.current),
            "--voltage is missing" if current is None else f"by {machine.magnetising_from}",
        ),
        ("flow", write.si(data["mass_flow_kg_per_h"] / 3600.0, Kind.mass_flow), ""),
        ("discharge gas", write.figure("discharge_gas_C"), "at the shell's outlet, ± 15 K"),
        ("shell", write.figure("shell_C"), f"in air of {write.figure('room_C')}"),
        ("winding", write.figure("winding_C"), "± 15 K"),
        ("suction", write.figure("suction_Pa"), f"pressure ratio {data['pressure_ratio']:.1f}"),
        ("discharge", write.figure("discharge_Pa"), ""),
        ("swept in a turn", write.figure("displacement_m3"), ""),
    ]
    if data["misfit_percent"] is not None:
        rows.append(("fit misses its data by", f"{data['misfit_percent']:.1f} %", "at most"))
    rows += [
        (
            f"at {name}",
            write.si(each["capacity_W"], Kind.heat_flow),
            f"with {write.si(each['power_W'], Kind.power)}, flow ± "
            f"{2.0 * each['flow_uncertainty_percent']:.0f} %",
        )
        for name, each in data["conditions"].items()
    ]
    return rows


def _meaning(data: Data, machine: Described) -> Iterator[str]:
    """What the interval stands for."""
    yield (
        "The interval is that of the fit, widened by the distance from the nearest rated point: "
        f"pressure ratio off by a factor {np.exp(data['pressure_ratio_distance']):.2f}, suction "
        f"pressure by {np.exp(data['suction_pressure_distance']):.2f}"
        + (", and another gas." if data["refrigerant"] != data["rated_refrigerant"] else ".")
    )
    if machine.way == "class":
        yield "A class alone is a wide guess: one rated point or one clamp reading beats it."


def notices_of(
    data: Data, machine: Described, running: Running, kept: str | None, write: Writer
) -> Iterator[Notice]:
    """What the user of these figures must know."""
    yield from _of_the_sheet(data, machine)
    yield from _of_the_heat(data, machine, write)
    yield from _of_the_gas(data, machine, running, kept)
    if data["current_A"] is None:
        text = "The current needs the voltage of the data: --voltage."
        yield Notice("no_voltage", "info", text, "motor_phasor")


def _of_the_sheet(data: Data, machine: Described) -> Iterator[Notice]:
    points = machine.points
    if machine.way == "map":
        ten = fit_ten(
            points.evaporating_temperature - ICE_POINT,
            points.condensing_temperature - ICE_POINT,
            points.mass_flow,
        )
        if not ten.settled:
            count = len(np.unique(np.round(points.condensing_temperature, 3)))
            text = (
                f"These points settle only {ten.rank} of the {COEFFICIENTS} coefficients of the "
                f"usual polynomial ({count} condensing temperature{'s' if count > 1 else ''}): do "
                "not fit one to them. The figures here come from the physical model, which needs "
                "no such fit."
            )
            yield Notice("ten_coefficients", "info", text, "ahri_540")
    if (data["misfit_percent"] or 0.0) > MISFIT_PERCENT:
        text = (
            f"The model misses a stated figure by {data['misfit_percent']:.0f} %: check rating "
            "conditions, refrigerant, displacement and frequency of the data."
        )
        yield Notice("data_sheet", "warning", text, CLASS_SOURCE)

    filling = machine.filling
    if filling is not None and not USUAL_FILLING[0] <= filling <= USUAL_FILLING[1]:
        text = (
            f"For this displacement it pumps {100.0 * filling:.0f} % of what its class would. "
            "Check displacement, frequency, capacity and refrigerant of the data."
        )
        yield Notice("data_sheet", "warning", text, CLASS_SOURCE)


def _of_the_heat(data: Data, machine: Described, write: Writer) -> Iterator[Notice]:
    least, greatest = (t - ICE_POINT for t in machine.row.evaporating_range)
    if not least <= data["evaporating_C"] <= greatest:
        text = (
            f"Class {machine.row.application} is meant for "
            f"{write.si(least + ICE_POINT, Kind.temperature)} to "
            f"{write.si(greatest + ICE_POINT, Kind.temperature)} evaporating: above it the motor "
            "is overloaded, below it little gas cools it."
        )
        yield Notice("class_range", "warning", text, CLASS_SOURCE)
    rated = float(np.nanmax(machine.points.power, initial=0.0))
    if machine.way != "class" and rated > 0.0 and data["power_W"] > OVERLOAD * rated:
        text = (
            f"The motor would draw {write.si(data['power_W'], Kind.power)}; the most that its data "
            f"show is {write.si(rated, Kind.power)}. Torque, winding and overload may not bear it."
        )
        yield Notice("motor_overload", "warning", text, PRACTICE)
    memory = "compressor_limits"
    rows = (
        ("condensing_hot", "condensing_C", limits.WARM_CONDENSING, "condenser", memory),
        ("discharge_hot", "discharge_gas_C", limits.WARM_DISCHARGE, "discharge pipe", PIPE),
        ("winding_hot", "winding_C", limits.WARM_WINDING, "winding", memory),
        ("shell_hot", "shell_C", limits.HOT_SHELL, "shell", memory),
    )
    for code, key, limit, what, source in rows:
        if data[key] > limit:
            text = (
                f"The {what} comes to about {write.figure(key)}; "
                f"{write.si(limit + ICE_POINT, Kind.temperature)} is the usual limit for steady "
                "running."
            )
            yield Notice(code, "warning", text, source)
    if data["pressure_ratio"] > limits.WIDE_RATIO:
        text = (
            f"Discharge over suction pressure is {data['pressure_ratio']:.0f}; above about "
            f"{limits.WIDE_RATIO:.0f} a small machine pumps little, and hot."
        )
        yield Notice("pressure_ratio", "warning", text, "compressor_limits")


def _of_the_gas(
    data: Data, machine: Described, running: Running, kept: str | None
) -> Iterator[Notice]:
    name = data["refrigerant"]
    row = safety(name)
    if name != data["rated_refrigerant"]:
        text = (
            f"Carried from {data['rated_refrigerant']} to {name}: check oil, motor torque, "
            "capillary and every electrical part near the gas. The plate and its approval no "
            "longer hold; local codes and licensed practice decide."
        )
        yield Notice("gas_not_on_the_plate", "warning", text, PRACTICE)
    if row.flammable:
        text = (
            f"{name} is class {row.safety_class} and burns: relay, overload, thermostat and lamp "
            "near it must be made for that."
        )
        yield Notice("flammable_refrigerant", "warning", text, row.source)
    if row.historic:
        text = f"{name} must not be charged anew."
        yield Notice("historic_refrigerant", "danger", text, row.source)
    if kept is not None:
        pair = oil(kept).pair(name)
        if not pair.suits:
            text = f"{kept} oil and {name}: {pair.miscibility}."
            yield Notice("oil_does_not_suit", "warning", text, pair.source)
    if abs(running.frequency / machine.frequency - 1.0) > 0.01:
        text = (
            f"Carried from {machine.frequency:.0f} to {running.frequency:.0f} Hz: the flux must "
            "not rise, so 60 Hz machines want about 5/6 of their voltage at 50 Hz; start gear and "
            "overload differ too."
        )
        yield Notice("other_frequency", "warning", text, PRACTICE)
