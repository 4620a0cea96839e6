"""The motor's line current, and back: power, magnetising current, power factor, locked rotor."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes

# Power factor of a plate that states amperes alone: small split-phase motors near their rating run
# at 0.55 to 0.75 (common practice, no source).
PLATE_POWER_FACTOR = 0.65


def line_current(
    power: FloatOrArray, voltage: FloatOrArray, magnetising_current: FloatOrArray
) -> Array:
    """Line current [A] of a small single-phase motor: I^2 = (P/V)^2 + I_m^2.

    The magnetising (reactive) current hardly depends on load, so one reading of watts and amps
    fixes it (`magnetising_current`). Source: phasor sum (`motor_phasor`).
    """
    return np.asarray(np.hypot(lanes(power) / lanes(voltage), lanes(magnetising_current)))


def magnetising_current(power: FloatOrArray, voltage: FloatOrArray, current: FloatOrArray) -> Array:
    """Magnetising current [A] from one reading; 0 where the amps are below watts over volts."""
    reactive = lanes(current) ** 2 - (lanes(power) / lanes(voltage)) ** 2
    return np.asarray(np.sqrt(np.maximum(reactive, 0.0)))


def power_from_current(
    current: FloatOrArray, voltage: FloatOrArray, magnetising_current: FloatOrArray
) -> Array:
    """Power [W] from the line current; 0 where it is below the magnetising current alone.

    The inverse of `line_current`: P = V sqrt(I^2 - I_m^2). Near the magnetising current the power
    hardly moves the amps, so a clamp reading says little there.
    """
    active = lanes(current) ** 2 - lanes(magnetising_current) ** 2
    return np.asarray(lanes(voltage) * np.sqrt(np.maximum(active, 0.0)))


def power_factor(power: FloatOrArray, voltage: FloatOrArray, current: FloatOrArray) -> Array:
    """Watts over volts times amps [-]."""
    return np.asarray(lanes(power) / (lanes(voltage) * lanes(current)))


def magnetising_share(power: FloatOrArray, voltage: FloatOrArray, share: FloatOrArray) -> Array:
    """Magnetising current [A] where it is `share` (below 1) of the running current at `power`.

    I_m = s I and I^2 = (P/V)^2 + I_m^2.
    """
    part = lanes(share)
    return np.asarray(lanes(power) / lanes(voltage) * part / np.sqrt(1.0 - part**2))


def magnetising_at(
    current: FloatOrArray, voltage_ratio: FloatOrArray, frequency_ratio: FloatOrArray
) -> Array:
    """Magnetising current [A] at another voltage and frequency, as shares of those it was read at.

    It follows the flux, voltage over frequency, while the iron is not saturated; above about 1.1
    times the rated flux it grows faster than this says (common practice, no source).
    """
    return np.asarray(lanes(current) * lanes(voltage_ratio) / lanes(frequency_ratio))


def plate_power(current: FloatOrArray, voltage: FloatOrArray) -> Array:
    """Power [W] that a plate's amperes stand for, at `PLATE_POWER_FACTOR`; good to 20 %."""
    return np.asarray(PLATE_POWER_FACTOR * lanes(current) * lanes(voltage))
