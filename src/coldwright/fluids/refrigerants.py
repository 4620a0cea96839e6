"""Refrigerant properties over lanes, from tables made of CoolProp's reference equations.

All temperatures K, pressures Pa, enthalpies J/kg (CoolProp's reference state), SI throughout.
Range: saturation 210 K to 2 K under the critical temperature; vapour to 160 K of superheat; a
look-up past the end is carried on for two cells and then held. Accuracy against CoolProp is
measured in tests/agreement.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, cached_property

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.errors import unknown_name
from coldwright.fluids import refrigerant_tables as tables
from coldwright.fluids.grids import Curve, Surface

MOLAR_GAS_CONSTANT = 8.31446261815324  # J/(mol K), exact since the 2019 SI

NEWTON_STEPS = 4
# Nodes of superheat over the enthalpy or entropy above saturation, where inverse look-ups start.
RISE_NODES = 41
SUCTION_ROUNDING = 200.0  # J/kg, about 0.2 K of superheat


@dataclass(frozen=True)
class Saturated:
    """Saturated liquid and vapour at a temperature; every field an array over lanes, SI."""

    temperature: Array
    pressure: Array
    liquid_density: Array
    vapour_density: Array
    liquid_enthalpy: Array
    vapour_enthalpy: Array
    liquid_entropy: Array
    vapour_entropy: Array
    liquid_viscosity: Array
    vapour_viscosity: Array
    liquid_conductivity: Array
    vapour_conductivity: Array
    liquid_specific_heat: Array
    vapour_specific_heat: Array
    surface_tension: Array
    liquid_compressibility: Array
    liquid_enthalpy_pressure_slope: Array

    @property
    def latent_heat(self) -> Array:
        """Heat of vaporisation [J/kg]."""
        return self.vapour_enthalpy - self.liquid_enthalpy


@dataclass(frozen=True)
class FlashLine:
    """Saturation along pressure, as far as a flashing flow needs it; arrays over lanes, SI."""

    liquid_enthalpy: Array
    vapour_enthalpy: Array
    vapour_density: Array
    vapour_viscosity: Array

    def row(self, index: int) -> FlashLine:
        """The lanes at one place of the first axis."""
        return FlashLine(
            self.liquid_enthalpy[index],
            self.vapour_enthalpy[index],
            self.vapour_density[index],
            self.vapour_viscosity[index],
        )


@dataclass(frozen=True)
class LiquidPoint:
    """Liquid in a flow that may flash; arrays over lanes, SI."""

    density: Array
    viscosity: Array
    temperature: Array


@dataclass(frozen=True)
class Suction:
    """Gas on its way to the compressor, with or without liquid in it; arrays over lanes, SI."""

    temperature: Array
    gas_density: Array
    quality: Array
    specific_heat: Array  # of the gas


@dataclass(frozen=True)
class Vapour:
    """Superheated (or saturated) vapour; every field an array over lanes, SI."""

    pressure: Array
    temperature: Array
    density: Array
    enthalpy: Array
    entropy: Array
    viscosity: Array
    conductivity: Array
    specific_heat: Array


@dataclass(frozen=True)
class Refrigerant:
    """One refrigerant: its constants and its tables."""

    name: str
    molar_mass: float
    critical_temperature: float
    critical_pressure: float
    least_temperature: float
    greatest_temperature: float
    _saturation: Curve
    _temperature: Curve
    _vapour: Surface
    _by_pressure: Curve
    _by_liquid_enthalpy: Curve
    _superheat_by_enthalpy: Surface
    _superheat_by_entropy: Surface

    @cached_property
    def gas_constant(self) -> float:
        """Specific gas constant [J/(kg K)]."""
        return MOLAR_GAS_CONSTANT / self.molar_mass

    def saturated(self, temperature: FloatOrArray) -> Saturated:
        """Both saturated phases at `temperature` [K]."""
        at = lanes(temperature)
        row = np.moveaxis(self._saturation(at), -1, 0)
        return Saturated(
            at,
            np.exp(row[0]),
            np.exp(row[1]),
            np.exp(row[2]),
            row[3],
            row[4],
            row[5],
            row[6],
            np.exp(row[7]),
            np.exp(row[8]),
            row[9],
            row[10],
            row[11],
            row[12],
            row[13],
            row[14],
            row[15],
        )

    def saturation_pressure(self, temperature: FloatOrArray) -> Array:
        """Saturation pressure [Pa] at `temperature` [K]."""
        result: Array = np.exp(self._saturation(lanes(temperature))[..., 0])
        return result

    def saturation_temperature(self, pressure: FloatOrArray) -> Array:
        """Saturation temperature [K] at `pressure` [Pa]; inverse of `saturation_pressure`."""
        wanted = np.log(lanes(pressure))
        found = self._temperature(wanted)[..., 0]
        # One Newton step on the forward curve makes the pair inverse to rounding.
        error = self._saturation(found)[..., 0] - wanted
        return found - error / self._saturation.slope(found)[..., 0]

    def flash_line(self, pressure: FloatOrArray) -> FlashLine:
        """What a flow that may flash needs of saturation at `pressure` [Pa]."""
        row = np.moveaxis(self._by_pressure(np.log(lanes(pressure))), -1, 0)
        return FlashLine(row[0], row[1], np.exp(row[2]), np.exp(row[3]))

    def liquid_at_enthalpy(self, enthalpy: FloatOrArray) -> LiquidPoint:
        """Liquid saturated at `enthalpy` [J/kg].

        Subcooled liquid has the properties of its own temperature; its compression is left out.
        """
        row = self._by_liquid_enthalpy(lanes(enthalpy))
        logarithms = np.exp(row[..., :2])
        return LiquidPoint(logarithms[..., 0], logarithms[..., 1], row[..., 2])

    def vapour(self, pressure: FloatOrArray, temperature: FloatOrArray) -> Vapour:
        """Vapour at `pressure` [Pa] and `temperature` [K], not below saturation."""
        p, T = np.broadcast_arrays(lanes(pressure), lanes(temperature))
        return self._at(p, T, T - self.saturation_temperature(p))

    def _at(self, p: Array, T: Array, superheat: Array) -> Vapour:
        log_pressure = np.log(p)
        row = np.moveaxis(self._vapour(log_pressure, superheat), -1, 0)
        return Vapour(
            p,
            T,
            p / (row[0] * self.gas_constant * T),
            row[1],
            row[2] - self.gas_constant * log_pressure,
            row[3],
            row[4],
            row[5],
        )

    def vapour_at_enthalpy(self, pressure: FloatOrArray, enthalpy: FloatOrArray) -> Vapour:
        """Vapour at `pressure` [Pa] and `enthalpy` [J/kg], not below saturation."""
        p, wanted = np.broadcast_arrays(lanes(pressure), lanes(enthalpy))
        log_pressure = np.log(p)
        saturated = self.saturation_temperature(p)
        least = self._by_pressure(log_pressure)[..., 1]
        superheat = self._superheat_by_enthalpy(log_pressure, wanted - least)[..., 0]
        state = self._at(p, saturated + superheat, superheat)
        # The start is near: one Newton step makes the pair inverse to rounding.
        superheat = superheat + (wanted - state.enthalpy) / state.specific_heat
        return self._at(p, saturated + superheat, superheat)

    def suction(self, saturated: Saturated, enthalpy: FloatOrArray) -> Suction:
        """Gas at the pressure of `saturated` and `enthalpy` [J/kg], which may still carry liquid.

        Under saturated vapour the temperature is that of saturation; the corner between is rounded
        over SUCTION_ROUNDING of enthalpy so that derivatives exist.
        """
        excess = lanes(enthalpy) - saturated.vapour_enthalpy
        held = 0.5 * (excess + np.sqrt(excess**2 + SUCTION_ROUNDING**2))
        gas = self.vapour_at_enthalpy(saturated.pressure, saturated.vapour_enthalpy + held)
        return Suction(
            temperature=gas.temperature,
            gas_density=gas.density,
            quality=1.0 + (excess - held) / saturated.latent_heat,
            specific_heat=gas.specific_heat,
        )

    def vapour_at_entropy(self, pressure: FloatOrArray, entropy: FloatOrArray) -> Vapour:
        """Vapour at `pressure` [Pa] and `entropy` [J/(kg K)], not below saturation."""
        p, wanted = np.broadcast_arrays(lanes(pressure), lanes(entropy))
        log_pressure = np.log(p)
        saturated = self.saturation_temperature(p)
        least = self._by_pressure(log_pressure)[..., 4]
        superheat = self._superheat_by_entropy(log_pressure, wanted - least)[..., 0]
        temperature = saturated + superheat
        state = self._at(p, temperature, superheat)
        # ds = cp dT / T at constant pressure, integrated with the local specific heat.
        ratio = np.exp((wanted - state.entropy) / state.specific_heat)
        superheat = temperature * ratio - saturated
        return self._at(p, saturated + superheat, superheat)

    def liquid_enthalpy(self, pressure: FloatOrArray, temperature: FloatOrArray) -> Array:
        """Enthalpy [J/kg] of liquid at `pressure` [Pa] and `temperature` [K], not above saturation.

        Saturated liquid at the same temperature plus (dh/dp)_T times the pressure above it.
        """
        at = self.saturated(temperature)
        return at.liquid_enthalpy + at.liquid_enthalpy_pressure_slope * (
            lanes(pressure) - at.pressure
        )

    def liquid_density(self, pressure: FloatOrArray, temperature: FloatOrArray) -> Array:
        """Density [kg/m3] of liquid at `pressure` [Pa] and `temperature` [K]."""
        at = self.saturated(temperature)
        return at.liquid_density * np.exp(
            at.liquid_compressibility * (lanes(pressure) - at.pressure)
        )


def refrigerant_names() -> tuple[str, ...]:
    """Names of the refrigerants that have tables."""
    return tuple(tables.FLUIDS)


@cache
def refrigerant(name: str) -> Refrigerant:
    """Return the refrigerant called `name`, as the trade writes it (`R152a`).

    Raises InputError when there are no tables for it.
    """
    if name not in tables.FLUIDS:
        raise unknown_name("refrigerant.name", "Refrigerant", name, tables.FLUIDS)
    made = tables.samples(name)
    saturation = Curve.through(made.temperature, made.saturation)
    vapour = Surface.through(made.log_pressure, made.superheat, made.vapour)
    log_pressure, by_pressure = _against(saturation, made, 0)
    liquid_enthalpy, by_enthalpy = _against(saturation, made, 3)
    return Refrigerant(
        name=name,
        molar_mass=made.molar_mass,
        critical_temperature=made.critical_temperature,
        critical_pressure=made.critical_pressure,
        least_temperature=float(made.temperature[0]),
        greatest_temperature=float(made.temperature[-1]),
        _saturation=saturation,
        _temperature=Curve.through(log_pressure, by_pressure[:, None]),
        _vapour=vapour,
        _by_pressure=Curve.through(log_pressure, saturation(by_pressure)[:, [3, 4, 2, 8, 6]]),
        _by_liquid_enthalpy=Curve.through(
            liquid_enthalpy,
            np.column_stack([saturation(by_enthalpy)[:, [1, 7]], by_enthalpy]),
        ),
        _superheat_by_enthalpy=_superheat_over(made, vapour, 1),
        _superheat_by_entropy=_superheat_over(made, vapour, 2),
    )


def _against(saturation: Curve, made: tables.Samples, column: int) -> tuple[Array, Array]:
    """Even axis over saturation property `column`, and the temperature [K] at each of its nodes."""
    values = made.saturation[:, column]
    axis = np.linspace(values[0], values[-1], 2 * tables.SATURATION_NODES)
    temperature = np.interp(axis, values, made.temperature)
    for _ in range(NEWTON_STEPS):
        error = saturation(temperature)[..., column] - axis
        temperature = temperature - error / saturation.slope(temperature)[..., column]
    return axis, temperature


def _superheat_over(made: tables.Samples, vapour: Surface, column: int) -> Surface:
    """Superheat [K] over (ln p, rise of vapour property `column` above saturation).

    For enthalpy (slope cp) and entropy (slope cp/T): where an inverse look-up starts.
    """
    rows = made.log_pressure
    saturated = np.interp(rows, made.saturation[:, 0], made.temperature)[:, None]
    rise = made.vapour[:, :, column] - made.vapour[:, :1, column]

    def slope(specific_heat: Array, superheat: Array) -> Array:
        return specific_heat / (1.0 if column == 1 else saturated + superheat)

    axis = np.linspace(0.0, float(np.max(rise)), RISE_NODES)
    superheat = np.array([np.interp(axis, row, made.superheat) for row in rise])
    # Past the end of a row its last slope carries on.
    inside = axis <= rise[:, -1:]
    for _ in range(NEWTON_STEPS):
        state = vapour(rows[:, None], superheat)
        missed = axis - (state[..., column] - made.vapour[:, :1, column])
        superheat = superheat + np.where(inside, missed / slope(state[..., 5], superheat), 0.0)
    last = slope(made.vapour[:, -1:, 5], made.superheat[-1:])
    beyond = np.maximum(axis - rise[:, -1:], 0.0) / last
    return Surface.through(rows, axis, (superheat + beyond)[:, :, None])
