"""Free convection on a wire-on-tube condenser standing free in air."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.sources import correlation


@correlation(
    quantity="free convection on a wire-on-tube condenser",
    source="tagliafico_tanda_1997",
    ranges={"temperature_excess": (5.0, 40.0), "height": (0.2, 1.5)},
    bias="coefficients from memory; trust the band 4-8 W/m2K at 10-25 K rather than the value",
)
def wire_on_tube_nusselt(
    rayleigh: FloatOrArray,
    temperature_excess: FloatOrArray,
    *,
    height: FloatOrArray,
    tube_diameter: FloatOrArray,
    tube_pitch: FloatOrArray,
    wire_diameter: FloatOrArray,
    wire_pitch: FloatOrArray,
) -> Array:
    """Mean Nusselt number on the height H of a vertical wire-on-tube panel, tubes lying.

    Nu = 0.66 (Ra H/d)^(1/4) {1 - [1 - 0.45 (d/H)^(1/4)] exp(-s_w/phi)},
    phi = (28.2/H)^0.4 s_w^0.9 / s_t + (28.2/H)^0.8 (264/dT)^0.5 s_w^(-1.5) s_t^(-0.5),
    s = (pitch - diameter) / diameter of wires (w) and tubes (t)

    rayleigh: on H, >= 0; temperature_excess dT: surface less air [K] (magnitude; below 0.01 K it
    counts as 0.01 K); all lengths [m], pitch > diameter. The film acts on tubes and wires.
    Source: Tagliafico and Tanda (1997); the coefficients are FROM MEMORY.
    """
    tall, tube, wire = lanes(height), lanes(tube_diameter), lanes(wire_diameter)
    wire_gap = (lanes(wire_pitch) - wire) / wire
    tube_gap = (lanes(tube_pitch) - tube) / tube
    excess = np.maximum(np.abs(temperature_excess), 0.01)
    phi = (28.2 / tall) ** 0.4 * wire_gap**0.9 / tube_gap
    phi = phi + (28.2 / tall) ** 0.8 * (264.0 / excess) ** 0.5 * wire_gap**-1.5 * tube_gap**-0.5
    shape = 1.0 - (1.0 - 0.45 * (tube / tall) ** 0.25) * np.exp(-wire_gap / phi)
    return lanes(0.66 * (lanes(rayleigh) * tall / tube) ** 0.25 * shape)
