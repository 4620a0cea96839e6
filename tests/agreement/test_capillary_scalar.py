"""The capillary's flow against a slow model of the same equations that shares no code with it.

CoolProp for every property, the momentum equation integrated by SciPy, the choke sought as the
pressure where dz/dp vanishes, the flow by Brent's method; one tube at a time.
"""

from types import SimpleNamespace

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from scipy.integrate import quad
from scipy.optimize import brentq

from coldwright.arrays import lanes
from coldwright.fluids.refrigerants import refrigerant
from coldwright.parts.capillary import Capillary, Placing, capillary_flow
from coldwright.parts.capillary_solution import Ends, solve_flow, solve_length
from support.scalar.capillary import Tube
from support.scalar.fluid import fluid as fluid_of

ROUGHNESS = 5e-7


class SlowTube:
    """One adiabatic tube: properties from the reference equations, cached by pressure."""

    def __init__(self, name, bore, length, pressure, enthalpy, outlet):
        self.name, self.bore, self.length = name, bore, length
        self.pressure, self.enthalpy, self.outlet = pressure, enthalpy, outlet
        self.area = np.pi / 4.0 * bore**2
        # Liquid of its own temperature: saturated liquid of the same enthalpy.
        top = PropsSI("H", "P", pressure, "Q", 0, name)
        self.flash = pressure
        if enthalpy < top:
            self.flash = brentq(
                lambda p: PropsSI("H", "P", p, "Q", 0, name) - enthalpy, 0.2 * pressure, pressure
            )
        self.liquid = self._saturated(min(self.flash, pressure))
        self.kept = {}

    def _saturated(self, p):
        each = ((key, q) for q in (0, 1) for key in ("H", "D", "V"))
        return [PropsSI(key, "P", p, "Q", q, self.name) for key, q in each]

    def state(self, p, flux):
        """Volume and viscosity of the flow at a pressure."""
        if p >= self.flash and self.flash < self.pressure:
            return 1.0 / self.liquid[1], self.liquid[2]
        if p not in self.kept:
            self.kept[p] = self._saturated(p)
        hf, df, mf, hg, dg, mg = self.kept[p]
        vf, vg = 1.0 / df, 1.0 / dg

        def excess(x):
            return hf + x * (hg - hf) + 0.5 * (flux * (vf + x * (vg - vf))) ** 2 - self.enthalpy

        x = 0.0 if excess(0.0) >= 0.0 else brentq(excess, 0.0, 1.0, xtol=1e-14)
        return vf + x * (vg - vf), 1.0 / (x / mg + (1.0 - x) / mf)

    def slope(self, p, flux):
        """-dz/dp times f / (2 d): what is left of the pressure drop after acceleration."""
        step = 1e-4 * p
        volume, _ = self.state(p, flux)
        above, below = self.state(p + step, flux)[0], self.state(p - step, flux)[0]
        return 1.0 / (flux**2 * volume) + (above - below) / (2.0 * step) / volume

    def friction(self, viscosity, flux):
        re, rough = flux * self.bore / viscosity, ROUGHNESS / self.bore
        a = (2.457 * np.log(1.0 / ((7.0 / re) ** 0.9 + 0.27 * rough))) ** 16
        b = (37530.0 / re) ** 16
        return 8.0 * ((8.0 / re) ** 12 + (a + b) ** -1.5) ** (1.0 / 12.0)

    def needed(self, flow):
        """Length [m] down to the outlet's pressure or the choke, and the pressure at the end."""
        flux = flow / self.area
        volume, viscosity = self.state(self.pressure, flux)
        # One velocity head and a sudden contraction's half.
        start = self.pressure - 1.5 * flux**2 * volume / 2.0
        two_phase_from = min(start, self.flash)
        end = self.outlet
        if self.slope(end * 1.001, flux) < 0.0:
            top = two_phase_from * 0.9995
            if self.slope(top, flux) < 0.0:
                return 0.0, top
            end = brentq(lambda p: self.slope(p, flux), end, top, xtol=1.0)
        length = 0.0
        if start > self.flash:
            drop = (start - self.flash) / (flux**2 * volume)
            length = drop * 2.0 * self.bore / self.friction(viscosity, flux)

        def element(p):
            return (
                self.slope(p, flux) * 2.0 * self.bore / self.friction(self.state(p, flux)[1], flux)
            )

        return length + quad(element, end, two_phase_from, epsrel=1e-5, limit=200)[0], end

    def solved(self):
        """Flow [kg/s] and end pressure [Pa]."""
        volume, _ = self.state(self.pressure, 1.0)
        most = self.area * np.sqrt(2.0 * (self.pressure - self.outlet) / volume / 1.5)
        flow = brentq(
            lambda m: np.log(max(self.needed(m)[0], 1e-6) / self.length),
            0.01 * most,
            0.9 * most,
            rtol=1e-7,
        )
        return flow, self.needed(flow)[1]


def drawn():
    """A dozen random tubes, three of each refrigerant, one of which takes in gas."""
    draw = np.random.default_rng(20)
    for name in ("R600a", "R290", "R134a", "R152a"):
        for subcooled in (True, True, False):
            condensing = draw.uniform(305.0, 328.0)
            pressure = PropsSI("P", "T", condensing, "Q", 0, name)
            if subcooled:
                # The table counts liquid's enthalpy at its pressure, as does this.
                cold = condensing - draw.uniform(1.0, 14.0)
                enthalpy = PropsSI("H", "T", cold, "P", pressure, name)
            else:
                enthalpy = PropsSI("H", "T", condensing, "Q", draw.uniform(0.01, 0.15), name)
            outlet = draw.uniform(240.0, 268.0)
            yield name, draw.uniform(6e-4, 9e-4), draw.uniform(1.5, 4.5), pressure, enthalpy, outlet


@pytest.mark.parametrize("case", list(drawn()), ids=lambda case: case[0])
def test_flow_and_exit_of_a_random_tube(case):
    name, bore, length, pressure, enthalpy, evaporating = case
    outlet = PropsSI("P", "T", evaporating, "Q", 0, name)
    flow, end = SlowTube(name, bore, length, pressure, enthalpy, outlet).solved()
    tube = Capillary(lanes(bore), lanes(length), lanes(ROUGHNESS), lanes(0.0), lanes(0.0))
    ends = Ends(lanes(pressure), lanes(enthalpy), lanes(evaporating))
    found = solve_flow(tube, refrigerant(name), ends)
    assert found.found
    assert found.mass_flow == pytest.approx(flow, rel=0.005)
    assert found.flow.exit_pressure == pytest.approx(end, rel=0.02)
    assert bool(found.flow.choked) == (end > 1.001 * outlet)
    # The length that this flow needs is the tube's again.
    again = solve_length(tube, refrigerant(name), ends, found.mass_flow)
    assert again.tube.length == pytest.approx(length, rel=1e-6)


@pytest.mark.parametrize(
    ("name", "condensing", "inlet", "hourly", "start", "joined", "units"),
    [
        ("R134a", 318.0, 5.0, 4.0, 0.9, 1.4, 1.5),
        ("R600a", 313.0, 3.0, 1.5, 0.8, 1.2, 1.2),
        ("R152a", 318.0, -0.03, 3.0, 0.3, 1.0, 2.0),  # 3 % of gas at the inlet
    ],
)
def test_exchanger_in_counterflow(name, condensing, inlet, hourly, start, joined, units):
    fluid, bore, flow, capacity = refrigerant(name), 0.0007, hourly / 3600.0, 900.0
    pressure = PropsSI("P", "T", condensing, "Q", 0, name)
    enthalpy = (
        PropsSI("H", "T", condensing - inlet, "P", pressure, name)
        if inlet > 0.0
        else PropsSI("H", "T", condensing, "Q", -inlet, name)
    )
    outlet = PropsSI("P", "T", 253.0, "Q", 0, name)
    numbers = {"bore": bore, "length": np.inf, "roughness": ROUGHNESS}
    numbers |= {"exchanger_start": start, "exchanger_length": joined}
    gas = SimpleNamespace(capacity=capacity, units=units)
    slow = Tube(fluid_of(name), SimpleNamespace(**numbers), flow, gas)

    def run(gas_out):
        return slow.run(condensing, enthalpy, 253.0, gas_out)

    # The gas has to arrive at 255 K where it enters, at the exchanger's end.
    out = brentq(lambda warm: run(warm).gas_in - 255.0, 256.0, condensing, xtol=1e-4)
    length, heat = run(out).length, capacity * (out - 255.0)
    assert enthalpy - run(out).enthalpy == pytest.approx(heat, rel=1e-4)
    assert length > start + joined
    tube = Capillary(lanes(bore), lanes(length), lanes(ROUGHNESS), lanes(start), lanes(joined))
    args = (tube, fluid, flow, pressure, enthalpy, outlet, heat, units)
    found = capillary_flow(*args, 255.0, cells=160, placing=Placing(20))
    assert found.required_length == pytest.approx(length, rel=0.003)
    taken = capacity * (found.felt_temperature - 255.0) * (1.0 - np.exp(-units * joined))
    assert taken == pytest.approx(heat, rel=0.003)
    # The balance's own coarser march.
    quick = capillary_flow(*args, 255.0)
    assert quick.required_length == pytest.approx(length, rel=0.01)
