"""The frozen layer round the runs of a coil: how thick it is, how it stands in the heat's way.

Round each run it is a cylinder until it meets that of the next, at half the pitch; from there on
the runs lie in one frozen sheet that grows on both faces.
"""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes


def _cylinder_and_sheet(
    frozen_area: FloatOrArray, outside_diameter: FloatOrArray, pitch: FloatOrArray
) -> tuple[Array, Array, Array]:
    """Radius of the cylinder over the tube's, depth of the sheet beyond it [m], pitch [m]."""
    radius = 0.5 * lanes(outside_diameter)
    spacing = np.maximum(lanes(pitch), outside_diameter)  # touching runs: no cylinder of their own
    room = np.pi * (0.25 * spacing**2 - radius**2)
    around = np.minimum(lanes(frozen_area), room)
    ratio = np.sqrt(1.0 + around / (np.pi * radius**2))
    depth = (lanes(frozen_area) - around) / (2.0 * spacing)
    return lanes(ratio), lanes(depth), lanes(spacing)


def frozen_layer_thickness(
    frozen_area: FloatOrArray, outside_diameter: FloatOrArray, pitch: FloatOrArray
) -> Array:
    """Thickness [m] of the layer on the tube, with what its sheet has beyond the cylinder.

    frozen_area: cross-section of what is frozen per metre of tube [m2]; outside_diameter of the
    tube and pitch of its runs [m].
    """
    ratio, depth, _ = _cylinder_and_sheet(frozen_area, outside_diameter, pitch)
    return lanes(0.5 * lanes(outside_diameter) * (ratio - 1.0) + depth)


def frozen_layer_resistance(
    frozen_area: FloatOrArray,
    outside_diameter: FloatOrArray,
    pitch: FloatOrArray,
    conductivity: FloatOrArray,
) -> Array:
    """Resistance [m K/W] of the layer for a metre of tube; conductivity [W/mK], rest as above.

    ln(r/r0) / (2 pi k), then a sheet of both faces, depth / (2 pitch k): continuous and rising. The
    corners between cylinder and sheet are left out.
    """
    ratio, depth, spacing = _cylinder_and_sheet(frozen_area, outside_diameter, pitch)
    return lanes((np.log(ratio) / (2.0 * np.pi) + 0.5 * depth / spacing) / conductivity)
