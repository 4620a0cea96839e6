"""The tables against CoolProp's reference equations, densely, over the working range.

Working range: saturation from 220 K to 15 K under the critical point, at most 350 K; superheat
0 to 100 K at those pressures; compression from any of these states to any higher pressure of the
range, by 3 K of saturation or more, to a discharge between 0 and 160 K of superheat.
Transport properties are compared on a subsample: the reference takes long over them.
"""

import numpy as np
import pytest
from CoolProp.CoolProp import PT_INPUTS, QT_INPUTS, AbstractState, iphase_gas

from coldwright.fluids.refrigerant_tables import FLUIDS
from coldwright.fluids.refrigerants import refrigerant, refrigerant_names

HISTORIC = ("R12", "R22")
POINTS, HISTORIC_POINTS = 20_000, 4_000
TRANSPORT_POINTS = 1_500
GREATEST_DISCHARGE_SUPERHEAT = 160.0
LEAST_LIFT = 3.0

# Shares of the value unless it says otherwise.
PRESSURE = 2e-4
TEMPERATURE = 2e-3  # K
ENTHALPY_DIFFERENCE = 5e-4
DENSITY = 5e-4
WORK = 1e-3
TRANSPORT = 5e-3
# A rise of enthalpy above saturation is a difference of two large numbers: near zero it is
# compared with the rise over this much superheat.
LEAST_RISE = 1.0  # K


def worst(found, expected):
    return float(np.max(np.abs(found / expected - 1.0)))


class Drawn:
    """States of one refrigerant drawn over the working range, and the reference's values."""

    def __init__(self, name):
        self.fluid = refrigerant(name)
        count = HISTORIC_POINTS if name in HISTORIC else POINTS
        draw = np.random.default_rng(20)
        self.top = min(self.fluid.critical_temperature - 15.0, 350.0)
        self.saturation = draw.uniform(220.0, self.top, count)
        # Half of the states stand near saturation, where vapour bends most.
        self.superheat = draw.uniform(0.0, np.where(np.arange(count) % 2, 100.0, 10.0))
        self.temperature = self.saturation + self.superheat
        self.condensing = draw.uniform(self.saturation, self.top)
        self.both = AbstractState("HEOS", FLUIDS[name])
        self.gas = AbstractState("HEOS", FLUIDS[name])
        self.gas.specify_phase(iphase_gas)
        rows = np.empty((count, 5))
        state = self.both
        for row, at in zip(rows, self.saturation, strict=True):
            state.update(QT_INPUTS, 0.0, at)
            row[:3] = state.p(), state.rhomass(), state.hmass()
            state.update(QT_INPUTS, 1.0, at)
            row[3:] = state.rhomass(), state.hmass()
        self.pressure, self.liquid_density, self.liquid_enthalpy = rows.T[:3]
        self.vapour_density, self.vapour_enthalpy = rows.T[3:]
        self.reference = self.gas_states(self.pressure, self.temperature)

    def gas_states(self, pressure, temperature):
        """Reference density, enthalpy, entropy of gas."""
        state = self.gas
        rows = np.empty((pressure.size, 3))
        for row, p, t in zip(rows, pressure, temperature, strict=True):
            state.update(PT_INPUTS, p, t)
            row[:] = state.rhomass(), state.hmass(), state.smass()
        return rows.T


@pytest.fixture(scope="module", params=refrigerant_names())
def drawn(request):
    return Drawn(request.param)


def test_saturation(drawn):
    at = drawn.fluid.saturated(drawn.saturation)
    assert worst(at.pressure, drawn.pressure) < PRESSURE
    assert worst(at.liquid_density, drawn.liquid_density) < DENSITY
    assert worst(at.vapour_density, drawn.vapour_density) < DENSITY
    latent = drawn.vapour_enthalpy - drawn.liquid_enthalpy
    assert worst(at.latent_heat, latent) < ENTHALPY_DIFFERENCE
    found = drawn.fluid.saturation_temperature(drawn.pressure)
    assert np.max(np.abs(found - drawn.saturation)) < TEMPERATURE


def test_vapour_density(drawn):
    found = drawn.fluid.vapour(drawn.pressure, drawn.temperature)
    assert worst(found.density, drawn.reference[0]) < DENSITY


def test_vapour_enthalpy_differences(drawn):
    found = drawn.fluid.vapour(drawn.pressure, drawn.temperature).enthalpy
    at = drawn.fluid.saturated(drawn.saturation)
    # Gas against the liquid it is to become, or was: what a heat exchanger moves.
    whole = drawn.reference[1] - drawn.liquid_enthalpy
    assert worst(found - at.liquid_enthalpy, whole) < ENTHALPY_DIFFERENCE
    rise = drawn.reference[1] - drawn.vapour_enthalpy
    least = LEAST_RISE * rise / drawn.superheat
    error = np.abs(found - at.vapour_enthalpy - rise) / np.maximum(rise, least)
    assert np.max(error) < ENTHALPY_DIFFERENCE


def test_temperature_from_enthalpy_and_entropy(drawn):
    enthalpy, entropy = drawn.reference[1:]
    by_enthalpy = drawn.fluid.vapour_at_enthalpy(drawn.pressure, enthalpy)
    by_entropy = drawn.fluid.vapour_at_entropy(drawn.pressure, entropy)
    for found in (by_enthalpy, by_entropy):
        assert np.max(np.abs(found.temperature - drawn.temperature)) < TEMPERATURE
        assert worst(found.density, drawn.reference[0]) < DENSITY


def test_isentropic_work(drawn):
    lifted = drawn.condensing - drawn.saturation > LEAST_LIFT
    start = drawn.fluid.vapour(drawn.pressure[lifted], drawn.temperature[lifted])
    discharge = drawn.fluid.saturation_pressure(drawn.condensing[lifted])
    end = drawn.fluid.vapour_at_entropy(discharge, start.entropy)
    superheat = end.temperature - drawn.condensing[lifted]
    inside = (superheat > 0.0) & (superheat < GREATEST_DISCHARGE_SUPERHEAT)
    # R600a and R1234yf may leave a compression wet, R22 hotter than the table reaches.
    assert np.mean(inside) > 0.8
    hot = end.temperature[inside]
    _, enthalpy, entropy = drawn.gas_states(discharge[inside], hot)
    _, enthalpy_before, entropy_before = drawn.reference[:, lifted][:, inside]
    # The reference at our discharge temperature, moved along its own isobar (dh = T ds) to the
    # entropy it began with: its isentropic work without a flash, exact to the square of the step.
    left = entropy_before - entropy
    assert np.max(np.abs(left)) < 0.1  # J/(kg K): the square is then nothing
    work = enthalpy + hot * left - enthalpy_before
    assert worst((end.enthalpy - start.enthalpy)[inside], work) < WORK


def test_transport(drawn):
    """Points where the reference's own corresponding-states solver fails are left out."""
    at = drawn.fluid.saturated(drawn.saturation[:TRANSPORT_POINTS])
    gas = drawn.fluid.vapour(
        drawn.pressure[:TRANSPORT_POINTS], drawn.temperature[:TRANSPORT_POINTS]
    )
    found = np.column_stack(
        [
            at.liquid_viscosity,
            at.liquid_conductivity,
            at.vapour_viscosity,
            at.vapour_conductivity,
            gas.viscosity,
            gas.conductivity,
        ]
    )
    failed = 0
    for i, row in enumerate(found):
        try:
            expected = reference_transport(drawn, i)
        except ValueError:
            failed += 1
            continue
        np.testing.assert_allclose(row, expected, rtol=TRANSPORT)
    assert failed <= (0.05 * TRANSPORT_POINTS if drawn.fluid.name in HISTORIC else 0)


def reference_transport(drawn, i):
    values = []
    for quality in (0.0, 1.0):
        drawn.both.update(QT_INPUTS, quality, drawn.saturation[i])
        values += [drawn.both.viscosity(), drawn.both.conductivity()]
    drawn.gas.update(PT_INPUTS, drawn.pressure[i], drawn.temperature[i])
    return [*values, drawn.gas.viscosity(), drawn.gas.conductivity()]


VAPOUR = ("density", "enthalpy", "entropy", "viscosity", "conductivity", "specific_heat")
SATURATED = (
    *("pressure", "liquid_density", "vapour_density", "liquid_enthalpy", "vapour_enthalpy"),
    *("liquid_entropy", "vapour_entropy", "liquid_viscosity", "vapour_viscosity"),
    *("liquid_conductivity", "vapour_conductivity", "liquid_specific_heat"),
    *("vapour_specific_heat", "surface_tension", "liquid_compressibility"),
)
STEP = 1e-3  # of a cell


def assert_slopes_meet(values_at, edges, step):
    """One-sided first derivatives on both sides of `edges` agree, and so do the values.

    The difference of the two slopes over a small step is the step times the second derivative,
    compared with the slope itself: a corner of the table would leave a gap that does not shrink.
    """
    below2, below, here, above, above2 = (
        values_at(edges + n * step) for n in (-2.0, -1.0, 0.0, 1.0, 2.0)
    )
    # Second-order one-sided differences: the second derivative drops out.
    left = (3.0 * here - 4.0 * below + below2) / (2.0 * step)
    right = (-3.0 * here + 4.0 * above - above2) / (2.0 * step)
    scale = np.max(np.abs(left)) + np.max(np.abs(here)) * 1e-9 / step
    assert np.max(np.abs(left - right)) < 1e-5 * scale


@pytest.mark.parametrize("name", refrigerant_names())
def test_first_derivatives_are_continuous(name):
    fluid = refrigerant(name)
    curve, surface = fluid._tables.saturation, fluid._tables.vapour
    nodes = np.arange(1, len(curve.coefficients))
    temperature = curve.first + curve.step * nodes
    for wanted in SATURATED:
        assert_slopes_meet(
            lambda t, wanted=wanted: getattr(fluid.saturated(t), wanted),
            temperature,
            STEP * curve.step,
        )
    # Across rows of the vapour table (pressure) at one temperature above saturation.
    log_pressure = surface.first[0] + surface.step[0] * np.arange(1, 60)
    warm = fluid.saturation_temperature(np.exp(log_pressure)) + 7.3
    # Across columns (superheat) at a few pressures.
    root = surface.first[1] + surface.step[1] * np.arange(1, surface.coefficients.shape[-1])
    superheat = root**2 - surface.first[1] ** 2
    pressure = np.exp(log_pressure[::20, None] + 0.3 * surface.step[0])
    saturated = fluid.saturation_temperature(pressure)
    for wanted in VAPOUR:
        assert_slopes_meet(
            lambda u, wanted=wanted: getattr(fluid.vapour(np.exp(u), warm), wanted),
            log_pressure,
            STEP * surface.step[0],
        )
        assert_slopes_meet(
            lambda w, wanted=wanted: getattr(fluid.vapour(pressure, saturated + w), wanted),
            superheat,
            STEP,
        )


@pytest.mark.parametrize("name", refrigerant_names())
def test_one_number_and_many_lanes_agree(name):
    """The paths for one number, for few and for many lanes give the same to rounding."""
    fluid = refrigerant(name)
    evaporating = np.linspace(222.0, 330.0, 5001)
    pressure = fluid.saturation_pressure(evaporating)
    warm = evaporating + np.linspace(60.0, 0.0, 5001)
    gas = fluid.vapour(pressure, warm)
    by_entropy = fluid.vapour_at_entropy(pressure * 1.2, gas.entropy)
    some = np.arange(0, 5001, 500)
    few = fluid.vapour(pressure[some], warm[some])
    for at in (0, 2500, 5000):
        one = fluid.vapour(float(pressure[at]), float(warm[at]))
        again = fluid.vapour_at_enthalpy(float(pressure[at]), float(gas.enthalpy[at]))
        assert float(again.temperature) == pytest.approx(warm[at], abs=1e-5)
        hot = fluid.vapour_at_entropy(float(pressure[at] * 1.2), float(gas.entropy[at]))
        assert float(hot.temperature) == pytest.approx(by_entropy.temperature[at], rel=1e-12)
        for wanted in VAPOUR:
            many = getattr(gas, wanted)[at]
            assert float(getattr(one, wanted)) == pytest.approx(many, rel=1e-11)
            assert getattr(few, wanted)[at // 500] == pytest.approx(many, rel=1e-11)
        for wanted in SATURATED:
            many = getattr(fluid.saturated(evaporating), wanted)[at]
            single = float(getattr(fluid.saturated(float(evaporating[at])), wanted))
            assert single == pytest.approx(many, rel=1e-11)
