"""A capillary beside its return gas, integrated down the saturation temperature of its pressure.

Momentum, energy and the counterflowing gas are one system of differential equations: the gas is
followed from where it leaves, at an assumed temperature, back to where it enters. It has to arrive
there with the temperature it came with.
"""

from math import exp, pi, sqrt
from types import SimpleNamespace

from scipy.integrate import solve_ivp

from support.scalar.films import friction

STEP = 0.02  # K, of the central differences
ENTRANCE = 1.5  # velocity heads
TOLERANCE = 1e-8


class Tube:
    """One tube with one flow; `gas` has `capacity` [J/(kg K)] and `units` [1/m]."""

    def __init__(self, fluid, tube, flow, gas):
        self.fluid, self.tube, self.gas = fluid, tube, gas
        self.area = pi / 4.0 * tube.bore**2
        self.flux = flow / self.area
        self.rough = tube.roughness / tube.bore

    def state(self, tau, enthalpy, with_viscosity=True):
        """Volume, viscosity, temperature, quality at saturation temperature `tau`."""
        _, hf, vf, mf = self.fluid.side(tau, 0.0)
        half = 0.5 * self.flux**2
        if enthalpy - half * vf * vf <= hf:
            temperature, volume, viscosity = self.fluid.liquid_of(enthalpy - half * vf * vf)
            return volume, viscosity, temperature, 0.0
        _, hg, vg, mg = self.fluid.side(tau, 1.0)
        swell = vg - vf
        a, b = half * swell**2, hg - hf + 2.0 * half * vf * swell
        c = hf + half * vf * vf - enthalpy
        quality = min(-2.0 * c / (b + sqrt(b * b - 4.0 * a * c)), 1.0)
        viscosity = 1.0 / (quality / mg + (1.0 - quality) / mf) if with_viscosity else 0.0
        return vf + quality * swell, viscosity, tau, quality

    def left(self, tau, enthalpy, volume):
        """What acceleration leaves of a fall of pressure, by kelvin; negative past the choke."""
        above, below = (self.state(tau + s, enthalpy, False)[0] for s in (STEP, -STEP))
        rise = self.fluid.saturation_pressure(tau + STEP)
        rise -= self.fluid.saturation_pressure(tau - STEP)
        by_pressure = rise / (2.0 * STEP * self.flux**2 * volume)
        return by_pressure + (above - below) / (2.0 * STEP * volume)

    def rest(self, tau, enthalpy):
        """`left` at any state."""
        return self.left(tau, enthalpy, self.state(tau, enthalpy, False)[0])

    def slopes(self, tau, y, beside):
        """Of place, enthalpy, gas temperature and mass over `tau`."""
        _, enthalpy, gas, _ = y
        volume, viscosity, temperature, quality = self.state(tau, enthalpy)
        drag = friction(self.flux * self.tube.bore / viscosity, self.rough)
        reach = 2.0 * self.tube.bore / drag
        way = -reach * self.left(tau, enthalpy, volume)
        passed = 0.0
        if beside:
            passed = self.gas.capacity * self.gas.units * (temperature - gas)
            if quality > 0.0:
                other = self.state(tau, enthalpy + 20.0)[0]
                # Gas that condenses slows the flow and gives pressure back.
                way /= 1.0 - reach * (other - volume) / 20.0 / volume * passed
        warmed = -self.gas.units * (temperature - gas) * beside
        return way, -passed * way, warmed * way, self.area / volume * way

    def run(self, inlet, enthalpy, outlet, gas_out):
        """From saturation temperature `inlet` to `outlet`; the gas leaves with `gas_out`."""
        tube = self.tube
        joined = tube.exchanger_length > 0.0
        marks = [tube.exchanger_start, tube.exchanger_start + tube.exchanger_length]
        volume = self.state(inlet, enthalpy)[0]
        first = self.fluid.saturation_pressure(inlet)
        last = self.fluid.saturation_pressure(outlet)
        entrance = min(ENTRANCE * self.flux**2 * volume / 2.0, 0.5 * (first - last))
        tau = self.fluid.saturation_temperature(first - entrance)
        y, choked = [0.0, enthalpy, gas_out, 0.0], False
        for part in range(3) if joined else (2,):
            if tau <= outlet or self.rest(tau, y[1]) <= 0.0:
                choked = tau > outlet
                break
            tau, y, end = self._part(tau, y, outlet, part, marks)
            choked = end == "choke"
            if end != "mark":
                break
        if joined and y[0] < marks[1]:
            # The tube of this flow ends before the exchanger does: the rest is taken as it ends.
            temperature = self.state(tau, y[1])[2]
            rest = marks[1] - max(y[0], marks[0])
            y[2] = temperature + (y[2] - temperature) * exp(self.gas.units * rest)
        return SimpleNamespace(
            length=y[0], enthalpy=y[1], gas_in=y[2], mass=y[3], choked=choked, end=tau
        )

    def _part(self, tau, y, outlet, part, marks):
        def at_mark(_tau, y):
            return y[0] - marks[part]

        def at_choke(tau, y):
            return self.rest(tau, y[1])

        at_mark.terminal = at_choke.terminal = True
        at_mark.direction, at_choke.direction = 1.0, -1.0
        events = [at_choke, at_mark] if part < 2 else [at_choke]
        found = solve_ivp(
            self.slopes,
            (tau, outlet),
            y,
            args=(part == 1,),
            events=[_two(e) for e in events],
            rtol=TOLERANCE,
            atol=(1e-8, 1e-3, 1e-6, 1e-12),
            first_step=min(0.05, 0.5 * (tau - outlet)),
            max_step=4.0,
        )
        end = "outlet"
        if found.status == 1:
            end = "choke" if len(found.t_events[0]) else "mark"
        return found.t[-1], list(found.y[:, -1]), end


def _two(event):
    """The event as the integrator calls it, with its further argument."""

    def asked(tau, y, _beside):
        return event(tau, y)

    asked.terminal, asked.direction = event.terminal, event.direction
    return asked
