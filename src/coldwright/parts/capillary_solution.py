"""What a given capillary passes, and how long a tube must be: the flow model turned about.

`capillary_flow` says what length an assumed flow would need. Here the flow (or the length) is found
for all lanes at once, with or without an exchanger whose gas side takes what it can.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.refrigerants import Refrigerant
from coldwright.heat.flash_delay import flash_underpressure
from coldwright.parts.bracket import root_between
from coldwright.parts.capillary import (
    ENTRANCE_LOSS,
    Capillary,
    CapillaryFlow,
    Placing,
    capillary_flow,
)
from coldwright.parts.return_exchanger import GasSide, SuctionLine, gas_side

# Enough cells that the exit's pressure is right to about 1 % and the flow to 0.1 %.
FINE_CELLS = 96
# So many passes place the exchanger's heat to 0.2 % of length also where gas enters.
FINE_PASSES = 14
# Least flow looked for, as a share of what the entrance alone would let through.
LEAST_SHARE = 2e-3
AT_REST = 1e-8  # of the logarithm of flow or length
HEAT_AT_REST = 0.5  # J/kg
GREATEST_LENGTH = 200.0  # m
LEAST_LENGTH = 1e-6


@dataclass(frozen=True)
class Ends:
    """What stands before and behind the tube; arrays over lanes."""

    inlet_pressure: Array  # [Pa]
    inlet_enthalpy: Array  # [J/kg] of liquid, or of a mixture with gas
    evaporating_temperature: Array  # [K]; its saturation pressure stands behind the tube


@dataclass(frozen=True)
class ReturnGas:
    """The exchanger's other side; arrays over lanes."""

    line: SuctionLine
    enthalpy: Array  # [J/kg] of the gas, or wet gas, as it enters the joined length


@dataclass(frozen=True)
class SolvedCapillary:
    """A tube with the flow that it passes; arrays over lanes."""

    tube: Capillary
    mass_flow: Array  # [kg/s]
    exchanged_heat: Array  # [J/kg] from capillary to return gas; 0 without an exchanger
    return_temperature: Array  # [K] of the gas behind the joined length; NaN without an exchanger
    evaporator_quality: Array  # at the evaporator's inlet, kinetic energy given back
    flow: CapillaryFlow
    found: NDArray[np.bool_]  # False where no flow, or no length, does it


def solve_flow(
    tube: Capillary,
    refrigerant: Refrigerant,
    ends: Ends,
    returning: ReturnGas | None = None,
    *,
    late_flashing: bool = False,
    cells: int = FINE_CELLS,
) -> SolvedCapillary:
    """The flow that `tube` passes between `ends`.

    Bracketed from above by what the entrance alone lets through. With `returning` the exchanged
    heat is found with it. `late_flashing` counts the delay of Chen et al. 1990. Length and bore
    must be above 0; the tube should be longer than about 0.1 m, for the entrance is not resolved.
    """
    march = _Marcher(refrigerant, ends, returning, late_flashing, cells)
    low = np.log(LEAST_SHARE * march.greatest_flow(tube)) + np.zeros(march.shape(tube))

    def surplus(log_flow: Array) -> Array:
        _, flow = march.with_flow(tube, np.exp(log_flow))
        return np.asarray(np.log(np.maximum(flow.required_length, LEAST_LENGTH) / tube.length))

    flow = np.exp(root_between(surplus, low, low - np.log(LEAST_SHARE), at_rest=AT_REST))
    found = march.solved(tube, flow)
    ratio = found.flow.required_length / tube.length
    return replace(found, found=np.abs(ratio - 1.0) < 1e-4)


def solve_length(
    tube: Capillary,
    refrigerant: Refrigerant,
    ends: Ends,
    mass_flow: FloatOrArray,
    returning: ReturnGas | None = None,
    *,
    late_flashing: bool = False,
    cells: int = FINE_CELLS,
) -> SolvedCapillary:
    """The tube of this bore that passes `mass_flow` [kg/s]; its own length is not read.

    Not `found` where the tube would be shorter than what its exchanger takes, or where the flow
    chokes at the inlet.
    """
    march = _Marcher(refrigerant, ends, returning, late_flashing, cells)
    wanted = lanes(mass_flow) + np.zeros(march.shape(tube))
    shortest = np.maximum(tube.exchanger_start + tube.exchanger_length, 1e-3)

    def surplus(log_length: Array) -> Array:
        _, flow = march.with_flow(replace(tube, length=np.exp(log_length)), wanted)
        return np.asarray(np.log(np.maximum(flow.required_length, LEAST_LENGTH)) - log_length)

    low = np.broadcast_to(np.log(shortest), wanted.shape)
    high = np.full(low.shape, np.log(GREATEST_LENGTH))
    length = np.exp(root_between(surplus, low, high, at_rest=AT_REST))
    found = march.solved(replace(tube, length=length), wanted)
    ratio = found.flow.required_length / length
    return replace(found, found=np.abs(ratio - 1.0) < 1e-4)


@dataclass(frozen=True)
class _Marcher:
    """The flow model between fixed ends."""

    refrigerant: Refrigerant
    ends: Ends
    returning: ReturnGas | None
    late_flashing: bool
    cells: int

    def shape(self, tube: Capillary) -> tuple[int, ...]:
        """Shape of all lanes together."""
        parts: list[object] = [tube, self.ends]
        if self.returning is not None:
            parts += [self.returning.line, self.returning]
        arrays = (
            a for part in parts for a in vars(part).values() if not isinstance(a, SuctionLine)
        )
        return np.broadcast_shapes(*(np.shape(a) for a in arrays))

    def greatest_flow(self, tube: Capillary) -> Array:
        """Flow [kg/s] of which the entrance alone would take all pressure; no tube passes it."""
        high = self.ends.inlet_pressure
        drop = np.maximum(high - self._outlet_pressure(), 0.02 * high)
        density = self._inlet_density()
        return np.asarray(tube.area * np.sqrt(2.0 * density * drop / ENTRANCE_LOSS))

    def with_flow(self, tube: Capillary, flow: Array) -> tuple[Array, CapillaryFlow]:
        """Exchanged heat [J/kg] and the march at an assumed flow [kg/s]."""
        if self.returning is None:
            return np.zeros_like(flow), self._march(tube, flow, np.zeros(()), None)
        gas = self._gas(self.returning, flow)
        joined = self.returning.line.joined_length

        def excess(heat: Array) -> Array:
            felt = self._march(tube, flow, heat, gas).felt_temperature
            return np.asarray(gas.heat(felt, joined) - heat)

        # The gas feels no more than the inlet's temperature and no less than the outlet's.
        most = gas.heat(self._liquid_temperature(), joined)
        least = np.minimum(gas.heat(self.ends.evaporating_temperature, joined), most)
        least, most = np.broadcast_to(least, flow.shape), np.broadcast_to(most, flow.shape)
        heat = root_between(excess, least - 1.0, most + 1.0, at_rest=HEAT_AT_REST)
        heat = np.where(joined > 0.0, heat, 0.0)
        return heat, self._march(tube, flow, heat, gas)

    def solved(self, tube: Capillary, flow: Array) -> SolvedCapillary:
        """Everything about the tube at its flow [kg/s]."""
        heat, found = self.with_flow(tube, flow)
        low = self.refrigerant.saturated(self.ends.evaporating_temperature)
        left = self.ends.inlet_enthalpy - heat
        warmed = np.full_like(heat, np.nan)
        if self.returning is not None:
            warmed = self.refrigerant.suction(low, self.returning.enthalpy + heat).temperature
        return SolvedCapillary(
            tube=tube,
            mass_flow=flow,
            exchanged_heat=heat,
            return_temperature=warmed,
            evaporator_quality=np.asarray((left - low.liquid_enthalpy) / low.latent_heat),
            flow=found,
            found=np.ones(np.shape(flow), dtype=bool),
        )

    def _march(
        self, tube: Capillary, flow: Array, heat: Array, gas: GasSide | None
    ) -> CapillaryFlow:
        delay = self._delay(tube, flow) if self.late_flashing else None
        return capillary_flow(
            tube,
            self.refrigerant,
            flow,
            self.ends.inlet_pressure,
            self.ends.inlet_enthalpy,
            self._outlet_pressure(),
            heat,
            np.ones(()) if gas is None else gas.transfer_units_per_metre,
            None if gas is None else gas.inlet_temperature,
            flash_delay=delay,
            cells=self.cells,
            placing=Placing(0 if gas is None else FINE_PASSES),
        )

    def _gas(self, returning: ReturnGas, flow: Array) -> GasSide:
        low = self.refrigerant.saturated(self.ends.evaporating_temperature)
        leaving = self.refrigerant.suction(low, returning.enthalpy)
        liquid = self._liquid_temperature()
        line = returning.line
        return gas_side(line, self.refrigerant, low, leaving, flow, liquid, returning.enthalpy)

    def _delay(self, tube: Capillary, flow: Array) -> Array:
        """Underpressure of flashing [Pa] for the inlet's liquid."""
        temperature = self._liquid_temperature()
        at = self.refrigerant.saturated(temperature)
        saturation = self.refrigerant.saturation_temperature(self.ends.inlet_pressure)
        return flash_underpressure(
            temperature,
            at.surface_tension,
            at.liquid_density,
            at.vapour_density,
            self.refrigerant.critical_temperature,
            flow * tube.bore / (tube.area * at.liquid_viscosity),
            saturation - temperature,
            tube.bore,
        )

    def _outlet_pressure(self) -> Array:
        return self.refrigerant.saturation_pressure(self.ends.evaporating_temperature)

    def _liquid_temperature(self) -> Array:
        """Temperature [K] before the tube."""
        line = self.refrigerant.flash_line(self.ends.inlet_pressure)
        enthalpy = np.minimum(self.ends.inlet_enthalpy, line.liquid_enthalpy)
        return self.refrigerant.liquid_at_enthalpy(enthalpy).temperature

    def _inlet_density(self) -> Array:
        line = self.refrigerant.flash_line(self.ends.inlet_pressure)
        enthalpy = np.minimum(self.ends.inlet_enthalpy, line.liquid_enthalpy)
        return self.refrigerant.liquid_at_enthalpy(enthalpy).density
