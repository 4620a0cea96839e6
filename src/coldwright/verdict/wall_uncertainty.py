"""How sure the heat through the closed cabinet is, from its entries' own uncertainties."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from coldwright.build.result import Build
from coldwright.build.schema.cabinet import Layer
from coldwright.parts.cabinet import Cabinet, HeatGain
from coldwright.units import Quantity
from coldwright.verdict.figures import at_lane


def wall_uncertainty(build: Build, cabinet: Cabinet, gain: HeatGain) -> float:
    """Relative standard uncertainty of the heat through walls, seal, bridges and gaps.

    Faces are off together, being of one make; seal, each bridge and the gaps are off on their own.
    What leaks (with its moisture, of the state `gain`) counts by its size beside the walls' heat.
    """
    faces = sum(
        at_lane(face.conductance, 0) * layers_uncertainty(build.cabinet.layers_of(face.name))
        for face in cabinet.faces
    )
    seal = build.cabinet.gasket
    doubts = [faces, _product(seal.length, seal.linear_conductance)]
    doubts += [_product(b.length, b.linear_conductance) for b in build.cabinet.thermal_bridges]
    still = at_lane(cabinet.still_conductance, 0)
    gaps = _relative(build.cabinet.leakage_area) * _leak_share(gain)
    return float(np.hypot(np.sqrt(np.sum(np.square(doubts))) / still, gaps))


def layers_uncertainty(layers: Sequence[Layer]) -> float:
    """Relative standard uncertainty of the resistance of layers in series, each on its own."""
    each = np.array([layer.thickness.value / layer.conductivity.value for layer in layers])
    doubts = np.array(
        [np.hypot(_relative(layer.thickness), _relative(layer.conductivity)) for layer in layers]
    )
    return float(np.sqrt(np.sum((each * doubts) ** 2)) / np.sum(each))


def _leak_share(gain: HeatGain) -> float:
    """Heat by gaps and drain, the settling of their moisture included, by that through the rest."""
    sensible = at_lane(gain.leakage, 0) + at_lane(gain.drain, 0)
    exchanged = sensible + at_lane(gain.doors, 0)
    latent = at_lane(gain.latent, 0) * sensible / exchanged if exchanged else 0.0
    faces = sum(at_lane(value, 0) for value in gain.by_face.values())
    walls = faces + at_lane(gain.bridges, 0) + at_lane(gain.gasket, 0)
    return (sensible + latent) / walls if walls else 0.0


def _product(length: Quantity, by_length: Quantity) -> float:
    """Standard uncertainty of length times conductance by the metre [W/K]."""
    both = length.value * by_length.value
    return both * float(np.hypot(_relative(length), _relative(by_length)))


def _relative(quantity: Quantity) -> float:
    return quantity.standard_uncertainty / quantity.value if quantity.value else 0.0
