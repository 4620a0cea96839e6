"""View factors by which a warm body of tubes, wires or a sheet sees what stands around it."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes


def parallel_rectangles_view(
    width: FloatOrArray, height: FloatOrArray, distance: FloatOrArray
) -> Array:
    """View factor between two equal rectangles that face each other squarely.

    width, height, distance [m] > 0, distance up to some 200 times the smaller side (beyond that
    rounding eats the digits). 1 as the distance goes to 0; w h / (pi distance^2) far away.
    Source: Incropera and DeWitt, Fundamentals, table 13.2, aligned parallel rectangles.
    """
    x, y = lanes(width) / distance, lanes(height) / distance
    across, along = np.sqrt(1.0 + x**2), np.sqrt(1.0 + y**2)
    total = 0.5 * (np.log1p(x**2) + np.log1p(y**2) - np.log1p(x**2 + y**2))
    total = total + x * along * np.arctan(x / along) + y * across * np.arctan(y / across)
    total = total - x * np.arctan(x) - y * np.arctan(y)
    return lanes(np.clip(2.0 / (np.pi * x * y) * total, 0.0, 1.0))


def row_of_cylinders_view(pitch: FloatOrArray, diameter: FloatOrArray) -> Array:
    """Share of what a cylinder in a long flat row sees that is not its two neighbours.

    F = 1 - (2/pi) [(X^2 - 1)^(1/2) + arcsin(1/X) - X], X = pitch/diameter

    A pitch below the diameter counts as touching (F = 1 - 2 (1/2 - 1/pi) = 0.637).
    Source: Hottel's crossed strings (any heat transfer text; derived).
    """
    x = np.maximum(lanes(pitch) / diameter, 1.0)
    return lanes(1.0 - 2.0 / np.pi * (np.sqrt(x**2 - 1.0) + np.arcsin(1.0 / x) - x))


def row_opacity(pitch: FloatOrArray, diameter: FloatOrArray) -> Array:
    """Share of diffuse radiation from one side that a flat row of cylinders stops, 0 to 1.

    pi F / (2 X) with F of `row_of_cylinders_view`: by reciprocity what a black row would send out.
    pitch >= diameter [m]; 1 where they touch. Source: as there.
    """
    seen = row_of_cylinders_view(pitch, diameter)
    return lanes(0.5 * np.pi * seen * lanes(diameter) / pitch)


def grey_exchange_factor(emissivity: FloatOrArray, view: FloatOrArray) -> Array:
    """Exchange factor on a body's own area, 1 / [(1 - e)/e + 1/F], with a large room around.

    emissivity e above 0 to 1; view F of the room from the body, above 0 to 1: the rest of its view
    falls on itself. F = 1 gives e. Source: two-surface enclosure, black room.
    """
    e, f = lanes(emissivity), lanes(view)
    return lanes(e * f / (f + e * (1.0 - f)))
