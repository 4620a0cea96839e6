"""The tables of one refrigerant: splines through the samples, kept on disk as coefficients.

How they are kept, and when they are made again, is in `table_cache`; what is sampled, in
`refrigerant_samples`. A run that finds the tables on disk loads neither CoolProp nor SciPy.
"""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np

from coldwright.arrays import Array
from coldwright.fluids import refrigerant_samples as nodes
from coldwright.fluids.grids import Curve, Surface
from coldwright.fluids.refrigerant_samples import FLUIDS, Samples
from coldwright.fluids.table_cache import keep_tables, read_tables, table_file

__all__ = ["FLUIDS", "TABLE_VERSION", "Tables", "tables"]

# To be raised with every change of what the tables hold.
TABLE_VERSION = 3
NEWTON_STEPS = 4
# Nodes along pressure of the saturation curve over pressure (and over the liquid's enthalpy).
INVERSE_NODES = 2 * nodes.SATURATION_NODES
# Nodes of superheat over the enthalpy or entropy above saturation, where inverse look-ups start.
RISE_NODES = 49

RISE_TEMPERATURE = 300.0  # K
RISE_SCALE = RISE_TEMPERATURE / 10.0

# Columns of Samples.saturation in the curve over ln(pressure), after the temperature.
BY_PRESSURE = (3, 4, 2, 8, 6)
BY_LIQUID_ENTHALPY = (1, 7)


@dataclass(frozen=True)
class Tables:
    """Constants and splines of one refrigerant, SI."""

    molar_mass: float
    critical_temperature: float
    critical_pressure: float
    least_temperature: float
    greatest_temperature: float
    # Over temperature: SATURATION_COLUMNS.
    saturation: Curve
    # Over ln(pressure): temperature, then liquid and vapour enthalpy, ln of the vapour's density
    # and viscosity, vapour entropy.
    by_pressure: Curve
    # Over the liquid's enthalpy: ln of its density and viscosity, temperature.
    by_liquid_enthalpy: Curve
    # Over (ln p, root_of(superheat)): VAPOUR_COLUMNS.
    vapour: Surface
    # Superheat [K] over (ln p, root of the rise above saturation): see `rise_root`.
    superheat_by_enthalpy: Surface
    superheat_by_entropy: Surface


NUMBERS = tuple(f.name for f in fields(Tables) if f.type == "float")
CURVES = tuple(f.name for f in fields(Tables) if f.type == "Curve")
SURFACES = tuple(f.name for f in fields(Tables) if f.type == "Surface")


def tables(name: str) -> Tables:
    """Return the tables of refrigerant `name` (a key of FLUIDS), from disk if they are there."""
    file = table_file(name, TABLE_VERSION)
    held = read_tables(file)
    if held is not None:
        try:
            return unpacked(held)
        except (KeyError, TypeError, ValueError):
            pass  # a part is missing: made again below
    made = fitted(nodes.sample(name))
    keep_tables(file, packed(made))
    return made


def packed(made: Tables) -> dict[str, Array]:
    """The tables as arrays to keep on disk."""
    arrays = {"numbers": np.array([getattr(made, key) for key in NUMBERS])}
    for key in (*CURVES, *SURFACES):
        arrays |= getattr(made, key).packed(key)
    return arrays


def unpacked(held: dict[str, Array]) -> Tables:
    """Undo `packed`. Raises KeyError or ValueError where a part is missing."""
    parts: dict[str, float | Curve | Surface] = dict(
        zip(NUMBERS, held["numbers"].tolist(), strict=True)
    )
    parts |= {key: Curve.unpacked(key, held) for key in CURVES}
    parts |= {key: Surface.unpacked(key, held) for key in SURFACES}
    return Tables(**parts)  # type: ignore[arg-type]  # sorted by type above


def fitted(made: Samples) -> Tables:
    """The splines through the samples of one refrigerant, and their inverses."""
    saturation = Curve.through(made.temperature, made.saturation)
    roots = nodes.root_of(made.superheat)
    vapour = Surface.through(made.log_pressure, roots, made.vapour)
    log_pressure, by_pressure = _against(saturation, made, 0)
    liquid_enthalpy, by_enthalpy = _against(saturation, made, 3)
    return Tables(
        molar_mass=made.molar_mass,
        critical_temperature=made.critical_temperature,
        critical_pressure=made.critical_pressure,
        least_temperature=float(made.temperature[0]),
        greatest_temperature=float(made.temperature[-1]),
        saturation=saturation,
        by_pressure=Curve.through(
            log_pressure,
            np.column_stack([by_pressure, saturation(by_pressure)[:, BY_PRESSURE]]),
        ),
        by_liquid_enthalpy=Curve.through(
            liquid_enthalpy,
            np.column_stack([saturation(by_enthalpy)[:, BY_LIQUID_ENTHALPY], by_enthalpy]),
        ),
        vapour=vapour,
        superheat_by_enthalpy=_superheat_over(made, vapour, 1),
        superheat_by_entropy=_superheat_over(made, vapour, 2),
    )


def _against(saturation: Curve, made: Samples, column: int) -> tuple[Array, Array]:
    """Even axis over saturation property `column`, and the temperature [K] at each of its nodes."""
    values = made.saturation[:, column]
    axis = np.linspace(values[0], values[-1], INVERSE_NODES)
    temperature = np.interp(axis, values, made.temperature)
    for _ in range(NEWTON_STEPS):
        error = saturation(temperature)[..., column] - axis
        temperature = temperature - error / saturation.slope(temperature)[..., column]
    return axis, temperature


def rise_root(rise: Array, gas_constant: float) -> Array:
    """`root_of` a rise above saturation, scaled so that it is about the superheat.

    `rise` is of enthalpy over RISE_TEMPERATURE, or of entropy [J/(kg K)]; vapours have a specific
    heat of about ten gas constants.
    """
    return nodes.root_of(rise * (RISE_SCALE / gas_constant))


def _superheat_over(made: Samples, vapour: Surface, column: int) -> Surface:
    """Superheat [K] over (ln p, root of the rise of vapour property `column` above saturation).

    For enthalpy (slope cp) and entropy (slope cp/T): where an inverse look-up starts.
    """
    rows = made.log_pressure
    saturated = np.interp(rows, made.saturation[:, 0], made.temperature)[:, None]
    rise = made.vapour[:, :, column] - made.vapour[:, :1, column]
    unit = RISE_TEMPERATURE if column == 1 else 1.0
    gas_constant = nodes.MOLAR_GAS_CONSTANT / made.molar_mass

    def slope(specific_heat: Array, superheat: Array) -> Array:
        return specific_heat / (1.0 if column == 1 else saturated + superheat)

    least, greatest = rise_root(np.array([0.0, np.max(rise) / unit]), gas_constant).tolist()
    roots = np.linspace(least, greatest, RISE_NODES)
    axis = nodes.superheat_of(roots) * (unit * gas_constant / RISE_SCALE)
    superheat = np.array([np.interp(axis, row, made.superheat) for row in rise])
    # Past the end of a row its last slope carries on.
    inside = axis <= rise[:, -1:]
    for _ in range(NEWTON_STEPS):
        state = vapour(rows[:, None], nodes.root_of(superheat))
        missed = axis - (state[..., column] - made.vapour[:, :1, column])
        superheat = superheat + np.where(inside, missed / slope(state[..., 5], superheat), 0.0)
    last = slope(made.vapour[:, -1:, 5], made.superheat[-1:])
    beyond = np.maximum(axis - rise[:, -1:], 0.0) / last
    return Surface.through(rows, roots, (superheat + beyond)[:, :, None])
