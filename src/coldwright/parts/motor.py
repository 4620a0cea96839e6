"""The motor's line current from its power and its magnetising current."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes


def line_current(
    power: FloatOrArray, voltage: FloatOrArray, magnetising_current: FloatOrArray
) -> Array:
    """Line current [A] of a small single-phase motor: I^2 = (P/V)^2 + I_m^2.

    The magnetising (reactive) current hardly depends on load, so one reading of watts and amps
    fixes it (`magnetising_current`). Source: phasor sum of the in-phase and the reactive current.
    """
    return np.asarray(np.hypot(lanes(power) / lanes(voltage), lanes(magnetising_current)))


def magnetising_current(power: FloatOrArray, voltage: FloatOrArray, current: FloatOrArray) -> Array:
    """Magnetising current [A] from one reading; 0 where the amps are below watts over volts."""
    reactive = lanes(current) ** 2 - (lanes(power) / lanes(voltage)) ** 2
    return np.asarray(np.sqrt(np.maximum(reactive, 0.0)))
