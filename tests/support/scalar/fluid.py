"""Properties of one refrigerant and of brine from the reference equations, and of air."""

from functools import cache
from types import SimpleNamespace

from CoolProp import CoolProp

FLUIDS = {"R152a": "R152A", "R134a": "R134a", "R600a": "IsoButane", "R290": "n-Propane"}


class Fluid:
    """One refrigerant; K, Pa, J/kg."""

    def __init__(self, name):
        self.two_phase = CoolProp.AbstractState("HEOS", FLUIDS[name])
        self.single = CoolProp.AbstractState("HEOS", FLUIDS[name])
        self.single.specify_phase(CoolProp.iphase_gas)
        self.any = CoolProp.AbstractState("HEOS", FLUIDS[name])
        self.critical = self.any.T_critical()
        self.warm = 290.0

    def side(self, temperature, quality):
        """Pressure, enthalpy, volume and viscosity of one saturated phase."""
        state = self.two_phase
        state.update(CoolProp.QT_INPUTS, quality, temperature)
        return state.p(), state.hmass(), 1.0 / state.rhomass(), state.viscosity()

    def saturated(self, temperature):
        """Everything of both saturated phases."""
        found = {"T": temperature}
        for quality, phase in ((0.0, "liquid"), (1.0, "gas")):
            pressure, enthalpy, volume, viscosity = self.side(temperature, quality)
            found[phase] = SimpleNamespace(
                enthalpy=enthalpy,
                density=1.0 / volume,
                viscosity=viscosity,
                conductivity=self.two_phase.conductivity(),
                specific_heat=self.two_phase.cpmass(),
            )
        latent = found["gas"].enthalpy - found["liquid"].enthalpy
        return SimpleNamespace(**found, pressure=pressure, latent=latent)

    def saturation_pressure(self, temperature):
        self.two_phase.update(CoolProp.QT_INPUTS, 0.0, temperature)
        return self.two_phase.p()

    def saturation_temperature(self, pressure):
        self.two_phase.update(CoolProp.PQ_INPUTS, pressure, 0.0)
        return self.two_phase.T()

    def liquid_of(self, enthalpy):
        """Temperature, volume and viscosity of liquid that is saturated at `enthalpy`."""
        state = self.two_phase
        temperature = self.warm
        for _ in range(50):
            state.update(CoolProp.QT_INPUTS, 0.0, temperature)
            off = state.hmass() - enthalpy
            if abs(off) < 1e-4:
                break
            # Along saturation dh = cp dT nearly; the iteration makes up the rest.
            temperature -= off / state.cpmass()
        self.warm = temperature
        return temperature, 1.0 / state.rhomass(), state.viscosity()

    def gas(self, pressure, temperature):
        """Enthalpy, entropy, density and specific heat of gas."""
        state = self.single
        state.update(CoolProp.PT_INPUTS, pressure, temperature)
        return self._of(state)

    def gas_by_entropy(self, pressure, entropy):
        self.any.update(CoolProp.PSmass_INPUTS, pressure, entropy)
        return self._of(self.any)

    def gas_by_enthalpy(self, pressure, enthalpy):
        self.any.update(CoolProp.HmassP_INPUTS, enthalpy, pressure)
        return self._of(self.any)

    def returning(self, low, enthalpy):
        """Gas at the low side's pressure that may carry liquid."""
        if enthalpy < low.gas.enthalpy:
            quality = (enthalpy - low.liquid.enthalpy) / low.latent
            gas = SimpleNamespace(T=low.T, **vars(low.gas))
        else:
            quality, gas = 1.0, self.gas_by_enthalpy(low.pressure, enthalpy)
        gas.quality = quality
        return gas

    @staticmethod
    def _of(state):
        return SimpleNamespace(
            T=state.T(),
            enthalpy=state.hmass(),
            entropy=state.smass(),
            density=state.rhomass(),
            specific_heat=state.cpmass(),
        )


@cache
def fluid(name):
    return Fluid(name)


def air(temperature, pressure):
    """Film properties of dry air: ideal gas, US Standard Atmosphere 1976, parabola of heat.

    The program's own closed forms: what they miss of the reference equation (0.1 % of a condenser's
    conductance) is not what is compared here.
    """
    return _film(
        pressure * 28.9652e-3 / (8.31446261815324 * temperature),
        1030.5 - 0.19975 * temperature + 3.9734e-4 * temperature**2,
        2.64638e-3 * temperature**1.5 / (temperature + 245.4 * 10.0 ** (-12.0 / temperature)),
        1.458e-6 * temperature**1.5 / (temperature + 110.4),
        1.0 / temperature,
    )


def brine(name, temperature):
    """Film properties of a brine by its CoolProp name."""

    def at(key, warm=temperature):
        return CoolProp.PropsSI(key, "T", warm, "P", 101325.0, name)

    step = 0.05
    expansion = (at("D", temperature - step) / at("D", temperature + step) - 1.0) / (2.0 * step)
    return _film(at("D"), at("C"), at("L"), at("V"), expansion)


def _film(density, specific_heat, conductivity, viscosity, expansion):
    return SimpleNamespace(
        conductivity=conductivity,
        expansion=expansion,
        kinematic=viscosity / density,
        diffusivity=conductivity / (density * specific_heat),
        prandtl=viscosity * specific_heat / conductivity,
    )
