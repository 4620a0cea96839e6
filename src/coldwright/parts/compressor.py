"""A hermetic reciprocating compressor in a still-air shell: flow, power and temperatures.

One model stands behind rated points, a map, a class or a donor's nameplate: swept volume,
re-expansion from the clearance, suction gas warmed by the shell, the valves' loss of pressure and
work, an efficiency, and a motor with a constant loss and one that grows with its load. The shell's
own heat balance closes it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.refrigerants import Refrigerant, Saturated, Suction, Vapour

# A pumping efficiency is held above this, rounded: past it the valves would no longer open.
LEAST_PUMPING = 0.02


@dataclass(frozen=True)
class Compressor:
    """A compressor; arrays over lanes, SI."""

    displacement: Array  # [m3] swept in one turn
    speed: Array  # [1/s] turns
    pumping: Array  # volumetric efficiency at pressure ratio one: leakage, back-flow
    clearance: Array  # clearance volume over swept volume
    suction_conductance: Array  # [W/K] shell to the suction gas on its way to the cylinder
    suction_valve_drop: Array  # [Pa] that opens the suction valve
    efficiency: Array  # isentropic work over the shaft's electrical work
    valve_work: Array  # [J/kg] electrical, lost in valves and ports
    constant_loss: Array  # [W] electrical, at no gas work
    load_loss: Array  # [1/W] electrical loss over the square of the work above the constant loss
    gas_work_share: Array  # of the work above the constant loss that reaches the gas
    discharge_cooling: Array  # 0 to 1: how far discharge gas approaches it on the way out
    shell_conductance: Array  # [W/K] shell to still air
    shell_volume: Array  # [m3] free gas volume inside, oil left out


@dataclass(frozen=True)
class CompressorState:
    """What the compressor does; arrays over lanes."""

    arriving: Suction  # return gas at the shell
    mass_flow: Array  # [kg/s]
    power: Array  # [W] electrical
    discharge_enthalpy: Array  # [J/kg] at the shell's outlet
    discharge_temperature: Array  # [K] at the shell's outlet
    cylinder_outlet_temperature: Array  # [K]
    cylinder_inlet_temperature: Array  # [K]
    volumetric_efficiency: Array  # on the return gas's own density
    shell_loss: Array  # [W] to the room
    shell_excess: Array  # [W] heat that the assumed shell temperature leaves over; 0 in balance


def compress(
    compressor: Compressor,
    refrigerant: Refrigerant,
    low: Saturated,
    high: Saturated,
    return_enthalpy: Array,
    shell_temperature: Array,
    room_temperature: Array,
) -> CompressorState:
    """Flow, power and outlet state for an assumed shell temperature (see `shell_excess`).

    Flow = pumping [1 - clearance (rho_2s/rho_1 - 1)] V n rho_1 with rho_1 in the cylinder and
    rho_2s after isentropic compression (the re-expansion relation of Stoecker and Jones 1982,
    chapter 11, with real gas). In the cylinder the gas is warmer than it came, by the heat
    exchanger formula on the swept flow, and its pressure lower by what opens the valve. Power =
    constant loss + W + load loss W^2 with W = flow (isentropic work / efficiency + valve work).
    Return gas that carries liquid is boiled by the shell's heat.
    """
    returned = refrigerant.suction(low, return_enthalpy)
    inlet = _cylinder_inlet(compressor, refrigerant, low, returned, shell_temperature)
    ideal_enthalpy, ideal_density = _isentropic(refrigerant, high, inlet)
    filled = compressor.pumping * (
        1.0 - compressor.clearance * (ideal_density / inlet.density - 1.0)
    )
    filled = LEAST_PUMPING + 0.5 * (
        (filled - LEAST_PUMPING) + np.sqrt((filled - LEAST_PUMPING) ** 2 + 1e-4)
    )
    mass_flow = filled * compressor.displacement * compressor.speed * inlet.density
    # Below a pressure ratio of one the machine runs free: no work is won back.
    lift = ideal_enthalpy - inlet.enthalpy
    lift = 0.5 * (lift + np.sqrt(lift**2 + 100.0**2))
    work = lift / compressor.efficiency + compressor.valve_work
    driven = mass_flow * work
    power = compressor.constant_loss + driven * (1.0 + compressor.load_loss * driven)
    leaving = inlet.enthalpy + compressor.gas_work_share * work
    hot = refrigerant.vapour_at_enthalpy(high.pressure, leaving)
    cooled = compressor.discharge_cooling * (hot.temperature - shell_temperature)
    # The gas leaves the shell no colder than saturation: what would condense is left as heat.
    above = hot.temperature - cooled - high.temperature
    above = 0.5 * (above + np.sqrt(above**2 + 0.25))
    outlet = refrigerant.vapour(high.pressure, high.temperature + above)
    loss = compressor.shell_conductance * (shell_temperature - room_temperature)
    return CompressorState(
        arriving=returned,
        mass_flow=mass_flow,
        power=power,
        discharge_enthalpy=outlet.enthalpy,
        discharge_temperature=outlet.temperature,
        cylinder_outlet_temperature=hot.temperature,
        cylinder_inlet_temperature=inlet.temperature,
        volumetric_efficiency=mass_flow
        / (compressor.displacement * compressor.speed * returned.gas_density),
        shell_loss=loss,
        shell_excess=power + mass_flow * (return_enthalpy - outlet.enthalpy) - loss,
    )


def _cylinder_inlet(
    compressor: Compressor,
    refrigerant: Refrigerant,
    low: Saturated,
    returned: Suction,
    shell_temperature: Array,
) -> Vapour:
    """The gas in the cylinder as the suction valve shuts."""
    swept = compressor.pumping * compressor.displacement * compressor.speed * returned.gas_density
    units = compressor.suction_conductance / (swept * low.vapour_specific_heat)
    warmed = (1.0 - np.exp(-units)) * (shell_temperature - returned.temperature)
    superheat = returned.temperature - low.temperature + warmed
    # A cold, flooded shell still feeds vapour: hold it just above saturation.
    superheat = 0.5 * (superheat + np.sqrt(superheat**2 + 0.04))
    # p - drop for a small drop, and never below nothing.
    pressure = low.pressure**2 / (low.pressure + compressor.suction_valve_drop)
    return refrigerant.vapour(pressure, low.temperature + superheat)


def _isentropic(refrigerant: Refrigerant, high: Saturated, inlet: Vapour) -> tuple[Array, Array]:
    """Enthalpy [J/kg] and density [kg/m3] after isentropic compression to the high side.

    Cold gas whose saturation line leans over (R600a, R1234yf) ends wet, where dh = T ds along the
    isobar and the volume falls with the enthalpy.
    """
    ideal = refrigerant.vapour_at_entropy(high.pressure, inlet.entropy)
    heat = high.temperature * np.maximum(high.vapour_entropy - inlet.entropy, 0.0)
    gas, liquid = 1.0 / high.vapour_density, 1.0 / high.liquid_density
    volume = gas - heat / high.latent_heat * (gas - liquid)
    dry = heat == 0.0
    enthalpy = np.where(dry, ideal.enthalpy, high.vapour_enthalpy - heat)
    return enthalpy, np.where(dry, ideal.density, 1.0 / volume)


def settled_shell(
    compressor: Compressor,
    refrigerant: Refrigerant,
    low: Saturated,
    high: Saturated,
    return_enthalpy: Array,
    room_temperature: FloatOrArray,
) -> tuple[Array, CompressorState]:
    """Shell temperature [K] at which the shell's heat balance closes, and the state there.

    Excess heat falls as the shell warms, so secant steps from the room upward settle it.
    """
    room = lanes(room_temperature) + 0.0 * low.temperature
    args = (low, high, return_enthalpy)
    before, shell = room + 5.0, room + 60.0
    excess = compress(compressor, refrigerant, *args, before, room).shell_excess
    state = compress(compressor, refrigerant, *args, shell, room)
    for _ in range(SHELL_STEPS):
        apart = np.where(shell == before, 1.0, shell - before)
        slope = (state.shell_excess - excess) / apart
        step = np.where(slope == 0.0, 0.0, -state.shell_excess / np.where(slope == 0.0, 1.0, slope))
        before, excess = shell, state.shell_excess
        shell = shell + np.clip(step, -40.0, 40.0)
        state = compress(compressor, refrigerant, *args, shell, room)
    return shell, state


SHELL_STEPS = 12


def at_speed(compressor: Compressor, speed: FloatOrArray) -> Compressor:
    """The same machine at another `speed` [1/s] of its shaft.

    Friction and iron loss follow the speed, valve work its square (the gas is as much faster), and
    the loss by load the square of the torque, so the inverse square of the speed. Pumping and
    efficiency stay, which holds from about half to one and a half times the speed; assumed, no
    source.
    """
    ratio = lanes(speed) / compressor.speed
    return replace(
        compressor,
        speed=compressor.speed * ratio,
        constant_loss=compressor.constant_loss * ratio,
        valve_work=compressor.valve_work * ratio**2,
        load_loss=compressor.load_loss / ratio**2,
    )
