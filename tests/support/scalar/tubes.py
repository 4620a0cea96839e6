"""Evaporator and condenser: zones that share a tube, their walls solved for."""

from math import exp, log, pi
from types import SimpleNamespace

from scipy.integrate import quad
from scipy.optimize import brentq

from support.scalar.films import (
    boiling_film,
    condensing_film,
    mean_density,
    single_phase_film,
)
from support.scalar.outside import cold_conductance


def evaporator(tube, side, low, flow, inlet, source):
    """Heat, exit enthalpy and content; `tube` and `side` hold plain numbers."""
    area = pi / 4.0 * tube.inside_diameter**2
    flux, perimeter = flow / area, pi * tube.inside_diameter
    difference = source - low.T

    def wet(wall):
        outer = cold_conductance(side, source, wall)
        film = boiling_film(flux, tube.inside_diameter, outer * abs(source - wall) / perimeter, low)
        inner = 1.0 / (1.0 / (perimeter * film) + tube.wall_resistance)
        return inner, outer

    def left(wall):
        inner, outer = wet(wall)
        return outer * (source - wall) - inner * (wall - low.T)

    if abs(difference) < 1e-6:
        inner, outer = wet(source)
    else:
        inner, outer = wet(brentq(left, *sorted((low.T, source)), xtol=1e-7))
    total = 1.0 / (1.0 / inner + 1.0 / outer)
    latent = flow * (low.gas.enthalpy - inlet)
    # A source colder than the refrigerant never boils it dry.
    share = 1.0 if difference <= 0.0 else min(latent / (total * difference * tube.length), 1.0)
    share = max(share, 0.0)
    after_wet = inlet + total * difference * tube.length * share / flow

    gas_film = single_phase_film(flux, tube.inside_diameter, low.gas)
    dry = 1.0 / (1.0 / (perimeter * gas_film) + tube.wall_resistance + 1.0 / outer)
    units = dry * tube.length * (1.0 - share) / (flow * low.gas.specific_heat)
    exit_enthalpy = after_wet + low.gas.specific_heat * difference * (1.0 - exp(-units))
    first = (inlet - low.liquid.enthalpy) / low.latent
    last = (after_wet - low.liquid.enthalpy) / low.latent
    held = share * mean_density(first, last, low) + (1.0 - share) * low.gas.density
    return SimpleNamespace(
        heat=flow * (exit_enthalpy - inlet),
        exit=exit_enthalpy,
        wet=share,
        mass=area * tube.length * held,
    )


def condenser(tube, sheet, fluid, high, gas, flow, at):
    """Exit enthalpy and content; `gas` is the discharge gas."""
    area = pi / 4.0 * tube.inside_diameter**2
    flux, perimeter = flow / area, pi * tube.inside_diameter
    room, difference = at.room, high.T - at.room

    def outer_and_inner(wall, warm, film):
        outer = sheet.conductance(wall, room, at.pressure)
        inner = 1.0 / (1.0 / (perimeter * film(wall)) + tube.resistance)
        return outer, inner, outer * (wall - room) - inner * (warm - wall)

    def through(warm, film):
        """Outer conductance and the whole, the tube's outer wall found."""
        wall = brentq(lambda w: outer_and_inner(w, warm, film)[2], room, warm, xtol=1e-7)
        outer, inner, _ = outer_and_inner(wall, warm, film)
        return outer, 1.0 / (1.0 / inner + 1.0 / outer)

    def film_of_wall(wall):
        # What stands between refrigerant and the tube's inner wall.
        outer = sheet.conductance(wall, room, at.pressure)
        inner_wall = wall + outer * (wall - room) * tube.resistance
        return condensing_film(flux, tube.inside_diameter, max(high.T - inner_wall, 1e-3), high)

    outer, total = through(high.T, film_of_wall)

    # Gas: its mean specific heat down to saturation, exponential approach to the room.
    superheat = gas.T - high.T
    specific_heat = (gas.enthalpy - high.gas.enthalpy) / superheat
    gas_film = single_phase_film(flux, tube.inside_diameter, high.gas)
    entering = difference + superheat
    middle = room + (entering - difference) / log(entering / difference)
    _, gas_total = through(middle, lambda _: gas_film)
    whole = gas_total * tube.length / (flow * specific_heat)
    gas_share = min(log(entering / difference) / whole, 1.0)
    cooled = entering * (1.0 - exp(-whole * gas_share))
    after_gas = gas.enthalpy - specific_heat * cooled

    def density(way):
        here = room + entering * exp(-whole * way)
        return fluid.gas(high.pressure, max(here, high.T + 1e-4)).density

    gas_mass = quad(density, 0.0, gas_share, epsrel=1e-5)[0]

    reach = total * difference * tube.length / flow
    condensing = min((after_gas - high.liquid.enthalpy) / reach, 1.0 - gas_share)
    after = after_gas - reach * condensing
    first = (after_gas - high.liquid.enthalpy) / high.latent
    last = (after - high.liquid.enthalpy) / high.latent

    rest = 1.0 - gas_share - condensing
    liquid_film = single_phase_film(flux, tube.inside_diameter, high.liquid)
    along = 1.0 / (1.0 / (perimeter * liquid_film) + 1.0 / outer)
    units = along * tube.length * rest / (flow * high.liquid.specific_heat)
    subcooling = difference * (1.0 - exp(-units))
    mass = gas_mass + condensing * mean_density(first, last, high) + rest * high.liquid.density
    return SimpleNamespace(
        exit=after - high.liquid.specific_heat * subcooling,
        exit_quality=last if rest <= 0.0 else 0.0,
        subcooling=subcooling,
        liquid=rest,
        gas_share=gas_share,
        condensing=condensing,
        outer=outer,
        total=total,
        mass=area * tube.length * mass,
    )
