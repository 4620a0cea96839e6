"""The capillary's flow against a slow model of the same equations that shares no code with it.

CoolProp for every property, the momentum equation integrated by SciPy, the choke sought as the
pressure where dz/dp vanishes, the flow by Brent's method; one tube at a time.
"""

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from scipy.integrate import quad, solve_ivp
from scipy.interpolate import CubicSpline
from scipy.optimize import brentq

from coldwright.arrays import lanes
from coldwright.fluids.refrigerants import refrigerant
from coldwright.parts.capillary import Capillary, Placing, capillary_flow
from coldwright.parts.capillary_solution import Ends, solve_flow, solve_length

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


class SlowExchanger:
    """A tube beside a gas of constant capacity [J/(kg K)] and transfer units [1/m], counterflow.

    The tube's place and enthalpy are integrated over pressure beside a known gas, then the gas over
    the place beside the known tube, from its cold end; in turn until both are at rest.
    """

    def __init__(self, name, bore, flow, start, joined, capacity, units, gas_inlet):
        self.name, self.bore, self.start, self.joined = name, bore, start, joined
        self.flux = flow / (np.pi / 4.0 * bore**2)
        self.capacity, self.units, self.gas_inlet = capacity, units, gas_inlet
        temperature = np.linspace(225.0, 335.0, 500)
        columns = {
            (key, q): PropsSI(key, "T", temperature, "Q", q, name) for key in "HDV" for q in (0, 1)
        }
        pressure = PropsSI("P", "T", temperature, "Q", 0, name)
        self.by_liquid = {
            key: CubicSpline(columns["H", 0], value)
            for key, value in (("D", columns["D", 0]), ("V", columns["V", 0]), ("T", temperature))
        }
        self.by_pressure = {
            key: CubicSpline(pressure, value)
            for key, value in (
                ("hf", columns["H", 0]),
                ("hg", columns["H", 1]),
                ("D", columns["D", 1]),
                ("V", columns["V", 1]),
            )
        }

    def state(self, p, h):
        """Volume, viscosity and temperature."""
        line = {key: float(curve(p)) for key, curve in self.by_pressure.items()}
        at = {key: float(curve(min(h, line["hf"]))) for key, curve in self.by_liquid.items()}
        vf, swell = 1.0 / at["D"], 1.0 / line["D"] - 1.0 / at["D"]
        squared = self.flux**2
        c = line["hf"] - h + 0.5 * squared * vf**2
        b = line["hg"] - line["hf"] + squared * vf * swell
        a = 0.5 * squared * swell**2
        x = max((-b + np.sqrt(b * b - 4.0 * a * c)) / (2.0 * a), 0.0) if c < 0.0 else 0.0
        return vf + x * swell, 1.0 / (x / line["V"] + (1.0 - x) / at["V"]), at["T"]

    def friction(self, viscosity):
        re, rough = self.flux * self.bore / viscosity, ROUGHNESS / self.bore
        a = (2.457 * np.log(1.0 / ((7.0 / re) ** 0.9 + 0.27 * rough))) ** 16
        b = (37530.0 / re) ** 16
        return 8.0 * ((8.0 / re) ** 12 + (a + b) ** -1.5) ** (1.0 / 12.0)

    def along(self, pressure, enthalpy, outlet, gas_at):
        """March beside gas of temperature `gas_at(place)`: places, enthalpies, temperatures."""
        squared = self.flux**2
        volume, _, _ = self.state(pressure, enthalpy)
        first = pressure - 1.5 * squared * volume / 2.0

        def slopes(p, y):
            place, h = y
            volume, viscosity, temperature = self.state(p, h)
            step, warm = 1e-4 * p, 20.0
            by_p = (self.state(p + step, h)[0] - self.state(p - step, h)[0]) / (2.0 * step)
            by_h = (self.state(p, h + warm)[0] - self.state(p, h - warm)[0]) / (2.0 * warm)
            inside = self.start <= place < self.start + self.joined
            passed = self.capacity * self.units * (temperature - gas_at(place)) * inside
            drag = self.friction(viscosity) * squared * volume / (2.0 * self.bore)
            rest = max(1.0 + squared * by_p, 0.0)
            rise = -rest / (drag - squared * by_h * passed)
            return rise, -passed * rise

        step = (first - outlet) / 120.0
        found = solve_ivp(slopes, (first, outlet), (0.0, enthalpy), max_step=step, rtol=1e-5)
        place, along = found.y
        temperature = [self.state(p, h)[2] for p, h in zip(found.t, along, strict=True)]
        return place, along, np.array(temperature)

    def solved(self, pressure, enthalpy, outlet):
        """Length [m], heat out of the tube and heat into the gas [J/kg]."""
        places = np.linspace(self.start, self.start + self.joined, 400)
        gas = np.linspace(self.gas_inlet + 35.0, self.gas_inlet, 400)
        before = 0.0
        for _ in range(40):
            place, along, warm = self.along(
                pressure, enthalpy, outlet, lambda z, gas=gas: np.interp(z, places, gas)
            )
            beside = np.interp(places, place, warm)
            fresh = np.full(places.shape, self.gas_inlet)
            share = -np.expm1(-self.units * (places[1] - places[0]))
            for i in range(len(places) - 2, -1, -1):
                middle = 0.5 * (beside[i] + beside[i + 1])
                fresh[i] = fresh[i + 1] + share * (middle - fresh[i + 1])
            gas = 0.6 * gas + 0.4 * fresh
            if abs(place[-1] - before) < 3e-4:
                return place[-1], enthalpy - along[-1], self.capacity * (fresh[0] - self.gas_inlet)
            before = place[-1]
        pytest.fail("the slow exchanger has not come to rest")


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
    slow = SlowExchanger(name, bore, flow, start, joined, capacity, units, 255.0)
    length, heat, gained = slow.solved(pressure, enthalpy, outlet)
    assert length > start + joined
    assert gained == pytest.approx(heat, rel=0.01)
    tube = Capillary(lanes(bore), lanes(length), lanes(ROUGHNESS), lanes(start), lanes(joined))
    args = (tube, fluid, flow, pressure, enthalpy, outlet, heat, units)
    found = capillary_flow(*args, 255.0, cells=160, placing=Placing(20))
    assert found.required_length == pytest.approx(length, rel=0.01)
    taken = capacity * (found.felt_temperature - 255.0) * (1.0 - np.exp(-units * joined))
    assert taken == pytest.approx(heat, rel=0.01)
    # The balance's own coarser march.
    quick = capillary_flow(*args, 255.0)
    assert quick.required_length == pytest.approx(length, rel=0.05)
