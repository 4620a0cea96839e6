"""Fits of the model to some points of the published map, and their error at the others."""

import numpy as np

from coldwright.fluids.refrigerants import refrigerant
from coldwright.parts.compressor import settled_shell
from coldwright.parts.compressor_fit import RATING_AIR, RatedPoints, fit_compressor
from coldwright.parts.compressor_typical import SLIP, spread_of, typical_compressor
from coldwright.shop.compressor_classes import compressor_class
from support import compressor_map as sheet

ROW = compressor_class("LBP 1/3 hp")
# One point against another of one sheet: its rounding and smoothing.
SCATTER = 0.01


def points_of(index):
    """The points of the sheet at `index`."""
    index = np.asarray(index)
    return RatedPoints(
        sheet.EVAPORATING[index],
        sheet.CONDENSING[index],
        np.full(len(index), sheet.SUCTION_GAS),
        sheet.MASS_FLOW[index],
        sheet.POWER[index],
    )


def fitted(index):
    """The fit to the points at `index`."""
    points, fluid = points_of(index), refrigerant("R600a")
    speed = sheet.TURNS * (1.0 - SLIP)
    start = typical_compressor(ROW, fluid, points, speed, sheet.DISPLACEMENT, 2e-3)
    return fit_compressor(start, spread_of(ROW, 0.0), fluid, points, SCATTER)


def errors(fit, index):
    """Relative error of flow and power at the points at `index`."""
    points, fluid = points_of(index), refrigerant("R600a")
    low = fluid.saturated(points.evaporating_temperature)
    high = fluid.saturated(points.condensing_temperature)
    gas = fluid.vapour(low.pressure, points.return_temperature).enthalpy
    _, state = settled_shell(fit.compressor, fluid, low, high, gas, RATING_AIR)
    return state.mass_flow / points.mass_flow - 1.0, state.power / points.power - 1.0


def left_out(hidden):
    """Errors at the `hidden` points of a fit to the others."""
    seen = [i for i in range(len(sheet.POINTS)) if i not in hidden]
    return errors(fitted(seen), hidden)
