"""A compressor on the rating stand: capacity, power and temperatures at given temperatures."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.refrigerants import Refrigerant
from coldwright.parts.compressor import Compressor, CompressorState, settled_shell
from coldwright.parts.compressor_fit import RATING_AIR


@dataclass(frozen=True)
class OnTheStand:
    """One condition; arrays over lanes."""

    capacity: Array  # [W] mass flow times enthalpy of return gas less liquid
    shell_temperature: Array  # [K]
    suction_pressure: Array  # [Pa]
    discharge_pressure: Array  # [Pa]
    state: CompressorState


def on_the_stand(
    compressor: Compressor,
    fluid: Refrigerant,
    evaporating: FloatOrArray,
    condensing: FloatOrArray,
    return_gas: FloatOrArray,
    liquid: FloatOrArray,
    room: FloatOrArray = RATING_AIR,
) -> OnTheStand:
    """`compressor` at dew temperatures, return gas, liquid and room [K]; each a lane or one value.

    The return gas is superheated, the liquid at most at the condensing temperature.
    """
    low, high = fluid.saturated(lanes(evaporating)), fluid.saturated(lanes(condensing))
    gas = fluid.vapour(low.pressure, lanes(return_gas)).enthalpy
    shell, state = settled_shell(compressor, fluid, low, high, gas, lanes(room))
    rise = gas - fluid.saturated(lanes(liquid)).liquid_enthalpy
    return OnTheStand(state.mass_flow * rise, shell, low.pressure, high.pressure, state)
