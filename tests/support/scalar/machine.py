"""Compressor, oil, suction line and the whole machine's five equations."""

from math import exp, log, pi, sqrt
from types import SimpleNamespace

import numpy as np
from scipy.optimize import brentq

from coldwright.fluids.oil_pairs import KINDS, PAIRS, SOLUTES
from support.scalar.capillary import Tube
from support.scalar.films import single_phase_film, smith_density
from support.scalar.fluid import fluid
from support.scalar.outside import Sheet
from support.scalar.tubes import condenser, evaporator

SHELL_LIQUID = 4e-3  # kg/K: only how the fourth unknown counts liquid in the shell


def plain(part):
    """Every number of a part of one lane as a float."""
    numbers = {}
    for name, value in vars(part).items():
        if isinstance(value, np.ndarray | np.generic):
            numbers[name] = float(value)
    return SimpleNamespace(**numbers)


class Machine:
    """A sealed system of one lane in its surroundings."""

    def __init__(self, system, source, room, pressure=101325.0):
        self.fluid = fluid(system.refrigerant.name)
        self.compressor, self.capillary = plain(system.compressor), plain(system.capillary)
        assert np.all(np.isinf(system.capillary.coil_diameter))
        self.line, self.volumes = plain(system.suction_line), plain(system.volumes)
        self.tube, self.side = plain(system.evaporator), system.cold_side
        self.condenser, self.sheet = plain(system.condenser), Sheet(system.condenser)
        ratio = self.condenser.outside_diameter / self.condenser.inside_diameter
        self.condenser.resistance = log(ratio) / (2.0 * pi * self.condenser.tube_conductivity)
        self.oil = Oil(system.oil.kind.name, system.refrigerant.name)
        self.source = source
        self.at = SimpleNamespace(room=room, pressure=pressure)

    def compress(self, low, high, enthalpy, shell):
        """Flow, power, discharge gas and what the shell's balance leaves over."""
        c, f = self.compressor, self.fluid
        back = f.returning(low, enthalpy)
        swept = c.pumping * c.displacement * c.speed * back.density
        units = c.suction_conductance / (swept * low.gas.specific_heat)
        inside = max(back.T + (1.0 - exp(-units)) * (shell - back.T), low.T + 1e-6)
        filled_at = low.pressure**2 / (low.pressure + c.suction_valve_drop)
        inlet = f.gas(filled_at, inside)
        ideal = f.gas_by_entropy(high.pressure, inlet.entropy)
        filled = c.pumping * (1.0 - c.clearance * (ideal.density / inlet.density - 1.0))
        flow = max(filled, 0.02) * c.displacement * c.speed * inlet.density
        work = max(ideal.enthalpy - inlet.enthalpy, 0.0) / c.efficiency + c.valve_work
        driven = flow * work
        power = c.constant_loss + driven + c.load_loss * driven**2
        hot = f.gas_by_enthalpy(high.pressure, inlet.enthalpy + c.gas_work_share * work)
        leaving = max(hot.T - c.discharge_cooling * (hot.T - shell), high.T + 1e-3)
        gas = f.gas(high.pressure, leaving)
        loss = c.shell_conductance * (shell - self.at.room)
        excess = power + flow * (enthalpy - gas.enthalpy) - loss
        return SimpleNamespace(flow=flow, power=power, gas=gas, excess=excess, back=back, loss=loss)

    def gas_side(self, low, leaving, exit_enthalpy, liquid_temperature, flow):
        """Capacity, transfer units by metre and inlet temperature of the exchanger's gas."""
        line = self.line
        hottest = self.fluid.gas(low.pressure, max(liquid_temperature, low.T + 0.1)).enthalpy
        span = max(liquid_temperature - leaving.T, 0.1)
        capacity = max((hottest - exit_enthalpy) / span, 0.2 * low.gas.specific_heat)
        assert line.core_diameter == 0.0
        flux = flow / (pi / 4.0 * line.inside_diameter**2)
        film = single_phase_film(flux, line.inside_diameter, low.gas)
        metre = 1.0 / (1.0 / (pi * line.inside_diameter * film) + 1.0 / line.joint_conductance)
        return SimpleNamespace(capacity=capacity, units=metre / (flow * capacity), inlet=leaving.T)

    def from_room(self, low, enthalpy, flow):
        """Heat [J/kg] that the gas takes from the room: first it dries, then it warms."""
        rest, room = self.line.length - self.line.joined_length, self.at.room
        rate = self.line.room_conductance / flow
        gained = 0.0
        if enthalpy < low.gas.enthalpy:
            by_metre = rate * (room - low.T)
            if by_metre <= 0.0:
                return by_metre * rest
            wet = min((low.gas.enthalpy - enthalpy) / by_metre, rest)
            gained, rest = by_metre * wet, rest - wet
        gas = self.fluid.returning(low, enthalpy + gained)
        units = rate * rest / gas.specific_heat
        return gained + gas.specific_heat * (room - gas.T) * (1.0 - exp(-units))

    def evaluate(self, unknowns, charge):
        """All parts at the five unknowns, and the five equations' relative residuals."""
        evaporating, condensing, back, shell, exchanged = unknowns
        f, line = self.fluid, self.line
        low, high = f.saturated(evaporating), f.saturated(condensing)
        pump = self.compress(low, high, back, low.T + max(shell, 0.0))
        flow = pump.flow
        hot = condenser(self.condenser, self.sheet, f, high, pump.gas, flow, self.at)
        cold = evaporator(self.tube, self.side, low, flow, hot.exit - exchanged, self.source)
        leaving = f.returning(low, cold.exit)
        gas = self.gas_side(low, leaving, cold.exit, high.T - hot.subcooling, flow)
        tube = Tube(f, self.capillary, flow, gas)
        flown = tube.run(condensing, hot.exit, evaporating, gas.inlet + exchanged / gas.capacity)
        missed = (gas.inlet - flown.gas_in) * exp(-gas.units * self.capillary.exchanger_length)
        missed = gas.capacity * missed if self.capillary.exchanger_length > 0.0 else -exchanged
        warmed = cold.exit + exchanged
        gained = self.from_room(low, warmed, flow)
        density = 0.5 * (leaving.density / leaving.quality + pump.back.density / pump.back.quality)
        content = {
            "evaporator": cold.mass,
            "condenser": hot.mass,
            "capillary": flown.mass,
            "suction line": pi / 4.0 * line.inside_diameter**2 * line.length * density,
            "shell": self._shell(low, shell),
            "liquid": (self.volumes.liquid_line + self.volumes.drier)
            * smith_density(hot.exit_quality, high),
            "discharge line": self.volumes.discharge_line * pump.gas.density,
        }
        residual = np.array(
            [
                sqrt(max(flown.length, 0.0) / self.capillary.length) - 1.0,
                sum(content.values()) / charge - 1.0,
                (warmed + gained - back) / low.latent,
                pump.excess / pump.power,
                missed / low.latent,
            ]
        )
        return SimpleNamespace(
            residual=residual,
            evaporating=evaporating,
            condensing=condensing,
            flow=flow,
            power=pump.power,
            # Of the whole machine [W]: from source, mains and room; to the room.
            taken=cold.heat + pump.power + flow * gained,
            given=flow * (pump.gas.enthalpy - hot.exit) + pump.loss,
            capacity=cold.heat,
            hot=hot,
            cold=cold,
            leaving=leaving,
            flown=flown,
            content=content,
            back=pump.back,
            shell=shell,
        )

    def _shell(self, low, shell):
        """Gas, liquid and what the oil holds in the compressor's shell."""
        warm = low.T + max(shell, 0.0)
        density = self.fluid.gas(low.pressure, warm).density if shell > 1e-3 else low.gas.density
        liquid = SHELL_LIQUID * max(-shell, 0.0)
        # Hot oil has no saturation pressure above the critical point: it counts as just below.
        ratio = low.pressure / self.fluid.saturation_pressure(min(warm, self.fluid.critical - 1.0))
        held = self.oil.held(ratio, warm) * self.volumes.oil_mass
        return self.compressor.shell_volume * density + liquid + held


class Oil:
    """Flory and Huggins, with the departures that `coldwright.fluids.oils` states."""

    def __init__(self, oil, refrigerant):
        self.pair, solute, kind = PAIRS[oil, refrigerant], SOLUTES[refrigerant], KINDS[oil]
        oil_density = kind.density_at_0C - 40.0 * kind.density_slope
        self.density_ratio = solute.liquid_density / oil_density
        self.size = kind.molar_mass / oil_density * solute.liquid_density / solute.molar_mass
        nodes, weights = np.polynomial.legendre.leggauss(60)
        self.places, self.weights = 0.5 + 0.5 * nodes, 0.5 * weights

    def held(self, ratio, temperature):
        """Dissolved refrigerant by mass of oil, at a pressure over the saturation pressure."""
        # Oil at saturation would take up without limit: held just under it.
        ratio = 0.5 * (ratio + 0.98 - sqrt((ratio - 0.98) ** 2 + 0.02**2))
        ratio /= (1.0 + ratio**32) ** (1.0 / 32.0)
        chi = self.pair.interaction
        chi += self.pair.interaction_slope * (1000.0 / temperature - 1000.0 / 313.15)

        def pressure(share):
            phi = share * self.places
            rest, size = 1.0 - phi, 1.0 - 1.0 / self.size
            power = np.exp(size * rest + chi * rest**2)
            slope = power * (1.0 - phi * (size + 2.0 * chi * rest))
            # Where the equation folds back its slope is kept at 0.15.
            slope = 0.15 + 0.5 * (slope - 0.15 + np.sqrt((slope - 0.15) ** 2 + 0.03**2))
            return share * (slope @ self.weights) - ratio

        share = 1.0 if pressure(1.0) <= 0.0 else brentq(pressure, 0.0, 1.0, xtol=1e-10)
        weight = share * self.density_ratio
        mass = weight / (weight + 1.0 - share)
        mass /= (1.0 + (mass / 0.6) ** 8) ** 0.125
        return mass / (1.0 - mass)
