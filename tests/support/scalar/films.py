"""Correlations inside the tubes, written from their publications for one number at a time."""

from math import acos, log, log10, pi, sqrt

from scipy.integrate import quad

GRAVITY = 9.80665


def friction(reynolds, roughness):
    """Darcy's factor (Churchill 1977)."""
    a = (2.457 * log(1.0 / ((7.0 / reynolds) ** 0.9 + 0.27 * roughness))) ** 16
    b = (37530.0 / reynolds) ** 16
    return 8.0 * ((8.0 / reynolds) ** 12 + (a + b) ** -1.5) ** (1.0 / 12.0)


def single_phase_film(flux, diameter, phase):
    """Gnielinski 2013, laminar 4.364, the transition as a smooth step."""
    reynolds = flux * diameter / phase.viscosity
    prandtl = phase.viscosity * phase.specific_heat / phase.conductivity

    def turbulent(re):
        eighth = (1.8 * log10(re) - 1.5) ** -2 / 8.0
        down = 1.0 + 12.7 * sqrt(eighth) * (prandtl ** (2.0 / 3.0) - 1.0)
        return eighth * (re - 1000.0) * prandtl / down

    if reynolds <= 2300.0:
        nusselt = 4.364
    elif reynolds >= 4000.0:
        nusselt = turbulent(reynolds)
    else:
        share = (reynolds - 2300.0) / 1700.0
        nusselt = 4.364 + (3.0 - 2.0 * share) * share**2 * (turbulent(reynolds) - 4.364)
    return nusselt * phase.conductivity / diameter


def boiling_film(flux, diameter, heat_flux, low):
    """Gungor and Winterton 1987, horizontal, mean of qualities 1/4, 1/2, 3/4."""
    liquid, gas = low.liquid, low.gas
    prandtl = liquid.viscosity * liquid.specific_heat / liquid.conductivity
    boiling = heat_flux / (flux * low.latent)
    froude = flux**2 / (liquid.density**2 * GRAVITY * diameter)
    stratified = froude ** (0.1 - 2.0 * froude) if froude < 0.05 else 1.0
    total = 0.0
    for x in (0.25, 0.5, 0.75):
        reynolds = flux * (1.0 - x) * diameter / liquid.viscosity
        alone = 0.023 * reynolds**0.8 * prandtl**0.4 * liquid.conductivity / diameter
        convective = (x / (1.0 - x)) ** 0.75 * (liquid.density / gas.density) ** 0.41
        total += stratified * alone * (1.0 + 3000.0 * boiling**0.86 + 1.12 * convective)
    return total / 3.0


def condensing_film(flux, diameter, difference, high):
    """Dobson and Chato 1998, stratified-wavy, mean of qualities 0.15, 0.5, 0.85."""
    liquid, gas = high.liquid, high.gas
    prandtl = liquid.viscosity * liquid.specific_heat / liquid.conductivity
    galileo = (
        GRAVITY * liquid.density * (liquid.density - gas.density) * diameter**3
    ) / liquid.viscosity**2
    jakob = liquid.specific_heat * difference / high.latent
    froude = min(flux**2 / (liquid.density**2 * GRAVITY * diameter), 0.7)
    c1 = 4.172 + 5.48 * froude - 1.564 * froude**2
    c2 = 1.773 - 0.169 * froude
    total = 0.0
    for x in (0.15, 0.5, 0.85):
        xtt = ((1.0 - x) / x) ** 0.9
        xtt *= (gas.density / liquid.density) ** 0.5 * (liquid.viscosity / gas.viscosity) ** 0.1
        falling = 0.23 * (flux * diameter / gas.viscosity) ** 0.12 / (1.0 + 1.11 * xtt**0.58)
        falling *= (galileo * prandtl / jakob) ** 0.25
        reynolds = flux * (1.0 - x) * diameter / liquid.viscosity
        forced = 0.0195 * reynolds**0.8 * prandtl**0.4 * sqrt(1.376 + c1 / xtt**c2)
        zivi = 1.0 / (1.0 + (1.0 - x) / x * (gas.density / liquid.density) ** (2.0 / 3.0))
        total += falling + acos(2.0 * zivi - 1.0) / pi * forced
    return total / 3.0 * liquid.conductivity / diameter


def smith_density(quality, phases):
    """Density of a flow by the void fraction of Smith 1969."""
    liquid, gas = phases.liquid.density, phases.gas.density
    if quality <= 0.0:
        return liquid
    if quality >= 1.0:
        return gas
    wetness = (1.0 - quality) / quality
    slip = 0.4 + 0.6 * sqrt((liquid / gas + 0.4 * wetness) / (1.0 + 0.4 * wetness))
    void = 1.0 / (1.0 + wetness * slip * gas / liquid)
    return void * gas + (1.0 - void) * liquid


def mean_density(first, last, phases):
    """Mean along a tube whose quality runs evenly from first to last."""
    first, last = min(max(first, 0.0), 1.0), min(max(last, 0.0), 1.0)
    if abs(last - first) < 1e-6:
        return smith_density(first, phases)
    # The density bends like an inverse near no quality: the root as variable takes that out.
    low, high = sorted((first, last))

    def element(root):
        return smith_density(root * root, phases) * 2.0 * root

    return quad(element, sqrt(low), sqrt(high), epsrel=1e-8)[0] / (high - low)
