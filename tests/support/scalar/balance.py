"""Solve the five equations of one machine: Powell's hybrid method, least squares where it fails."""

from types import SimpleNamespace

import numpy as np
from scipy.optimize import least_squares, root

SCALE = np.array([5.0, 5.0, 2e4, 20.0, 2e4])  # K, K, J/kg, K, J/kg
NUDGE = np.array([2e-3, 2e-3, 10.0, 1e-2, 10.0])
# What an evaluation outside the equation of state's range counts as.
IMPOSSIBLE = np.full(5, 10.0)
CLOSED = 1e-5
LAST = 15  # evaluations of the least squares


def solve(machine, charge, start, most=40):
    """The evaluation that closes every equation, sought from `start`; `worst` says how well."""
    asked = 0

    def look(scaled):
        """The evaluation, or nothing where it leaves the range of an equation."""
        nonlocal asked
        asked += 1
        try:
            found = machine.evaluate(scaled * SCALE, charge)
        except (ValueError, TypeError, ZeroDivisionError, OverflowError):
            return None
        return found if np.all(np.isfinite(found.residual)) else None

    def left(scaled):
        found = look(scaled)
        return IMPOSSIBLE.copy() if found is None else found.residual

    def jacobian(scaled):
        base = left(scaled)
        columns = [left(scaled + step) - base for step in np.diag(NUDGE / SCALE)]
        return np.stack(columns, axis=1) / (NUDGE / SCALE)

    options = {"xtol": 1e-8, "maxfev": most, "factor": 1.0}
    found = root(left, start / SCALE, jac=jacobian, options=options).x
    if np.max(np.abs(left(found))) > CLOSED:
        again = least_squares(
            left, found, jac=jacobian, xtol=1e-10, ftol=1e-13, gtol=1e-13, max_nfev=LAST
        )
        found = again.x
    state = look(found) or SimpleNamespace(residual=IMPOSSIBLE.copy())
    state.unknowns, state.asked = found * SCALE, asked
    state.worst = float(np.max(np.abs(state.residual)))
    return state
