"""The lead to the machine: resistance, voltage drop and loss of a pair of copper wires."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes

# Annealed copper (`copper_resistivity`).
RESISTIVITY_20C = 1.7241e-8  # ohm m
TEMPERATURE_COEFFICIENT = 0.00393  # 1/K
AT_20C = 293.15
# A lead in use is warm [K]: common practice, no source.
WARM_LEAD = 313.15


def lead_resistance(
    length: FloatOrArray, cross_section: FloatOrArray, temperature: FloatOrArray = WARM_LEAD
) -> Array:
    """Resistance [ohm] there and back of a lead of `length` [m] and copper `cross_section` [m2]."""
    resistivity = RESISTIVITY_20C * (1.0 + TEMPERATURE_COEFFICIENT * (lanes(temperature) - AT_20C))
    return np.asarray(2.0 * resistivity * lanes(length) / lanes(cross_section))


def wire_gauge_area(gauge: FloatOrArray) -> Array:
    """Cross-section [m2] of solid wire of an American gauge number, `astm_b258`.

    Diameter 0.005 in times 92^((36 - n)/39); n = 0 to 40.
    """
    diameter = 0.127e-3 * 92.0 ** ((36.0 - lanes(gauge)) / 39.0)
    return np.asarray(0.25 * np.pi * diameter**2)
