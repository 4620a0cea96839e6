"""The capillary point by point: where it flashes, where the exchanger cools it, how it ends."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.fluids.refrigerants import Refrigerant
from coldwright.parts.capillary import CELLS, FIRST_PLACING, Capillary, Placing, settled_march


@dataclass(frozen=True)
class CapillaryCourse:
    """The tube point by point: the first axis runs along it, the others over lanes.

    Behind a choke the position stays at the tube's end while the pressure falls on.
    """

    position: Array  # [m] from the inlet
    pressure: Array  # [Pa]
    temperature: Array  # [K]
    quality: Array
    taken_share: Array  # of the exchanged heat that has left the tube up to here


def capillary_course(
    tube: Capillary,
    refrigerant: Refrigerant,
    mass_flow: FloatOrArray,
    inlet_pressure: FloatOrArray,
    inlet_enthalpy: FloatOrArray,
    outlet_pressure: FloatOrArray,
    heat_removed: FloatOrArray = 0.0,
    gas_transfer_units: FloatOrArray = 1.0,
    gas_inlet_temperature: FloatOrArray | None = None,
    placing: Placing = FIRST_PLACING,
) -> CapillaryCourse:
    """What `capillary_flow` sums up, point by point along the tube; the same arguments."""
    gas_inlet = None if gas_inlet_temperature is None else lanes(gas_inlet_temperature)
    settled = settled_march(
        tube,
        refrigerant,
        lanes(mass_flow) / tube.area,
        lanes(inlet_pressure),
        lanes(inlet_enthalpy),
        lanes(outlet_pressure),
        lanes(heat_removed),
        lanes(gas_transfer_units),
        gas_inlet,
        None,
        cells=CELLS,
        placing=placing,
    )
    return CapillaryCourse(
        position=settled.march.position,
        pressure=settled.pressure,
        temperature=settled.march.points.temperature,
        quality=settled.march.points.quality,
        taken_share=settled.taken,
    )
