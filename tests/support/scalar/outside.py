"""From a tube's wall to what surrounds it: still brine, a helix in brine, a plate, a sheet."""

from math import pi, sqrt, tanh

from scipy.optimize import brentq

from coldwright.parts.cold_side.plate import Plate
from coldwright.parts.cold_side.vessel import Vessel
from support.scalar.films import GRAVITY
from support.scalar.fluid import air, brine

STEFAN_BOLTZMANN = 5.670374419e-8


def cold_conductance(side, source, wall):
    """Conductance [W/(m K)] from a tube's outer wall to the source, for any known cold side."""
    if isinstance(side, Vessel):
        return _helix(side, source, wall)
    if isinstance(side, Plate):
        return _plate(side, source, wall)
    return float(side.conductance) * (abs(source - wall) + 0.1) ** 0.25


def _rayleigh(film, difference, length):
    return (
        GRAVITY * abs(film.expansion * difference) * length**3 / (film.kinematic * film.diffusivity)
    )


def _helix(vessel, source, wall):
    """Xin and Ebadian 1996, upright axis; conduction below joined by fourth powers."""
    assert vessel.coil_form == "helix"
    assert vessel.brine.kind == "propylene glycol"
    middle = min(max(0.5 * (source + wall), vessel.brine.valid_range[0]), 400.0)
    film = brine(f"INCOMP::MPG[{vessel.brine.mass_fraction:.12g}]", middle)
    outside = float(vessel.tube.outside_diameter)
    nusselt = 0.290 * _rayleigh(film, source - wall, outside) ** 0.293
    nusselt = (nusselt**4 + 0.36**4) ** 0.25
    return pi * nusselt * film.conductivity * float(vessel.coil_film_multiplier)


def _upright(film, difference, height):
    """Churchill and Chu 1975 for an upright plate."""
    shape = (1.0 + (0.492 / film.prandtl) ** (9.0 / 16.0)) ** (8.0 / 27.0)
    nusselt = (0.825 + 0.387 * _rayleigh(film, difference, height) ** (1.0 / 6.0) / shape) ** 2
    return nusselt * film.conductivity / height


def _kept_before_wall(film, difference, gap, height):
    """Bar-Cohen and Rohsenow 1984 with one warm wall, over its limit of a wide gap."""
    channel = max(_rayleigh(film, difference, gap) * gap / height, 1e-6)
    nusselt = (144.0 / channel**2 + 2.873 / channel**0.5) ** -0.5
    return nusselt / (channel / 2.873**2) ** 0.25


def _radiated(one, other, factor):
    return factor * STEFAN_BOLTZMANN * (one**2 + other**2) * (one + other)


def _two_surfaces(inner, outer, share):
    """Exchange factor of an inner surface in an outer one, areas as `share`."""
    return 1.0 / (1.0 / inner + share * (1.0 / outer - 1.0))


def _sheet_conductance(loss, pitch, tube, conductivity, thickness, bond):
    """Duffie and Beckman: bond in series with tube strip and fins, per metre of tube."""
    reach = sqrt(loss / (conductivity * thickness)) * 0.5 * max(pitch - tube, 0.0)
    efficiency = tanh(reach) / reach if reach > 0.0 else 1.0
    strip = loss * (tube + max(pitch - tube, 0.0) * efficiency)
    return 1.0 / (1.0 / bond + 1.0 / strip)


def _plate(plate, source, wall):
    """An upright plate in the compartment; its mean temperature found by a bracket."""
    assert plate.stance == "upright"
    skin, height = plate.surface, float(plate.height)
    assert float(skin.frost_thickness) == 0.0
    area = float(plate.width) * height
    both_faces = area * (1.0 + float(plate.rear_exposed))
    factor = _two_surfaces(
        float(skin.emissivity), float(skin.liner_emissivity), both_faces / float(skin.liner_area)
    )
    pitch, pressure = area / float(plate.tube.length), float(skin.air_pressure)

    def passed(sheet):
        film = air(min(max(0.5 * (sheet + source), 180.0), 400.0), pressure)
        difference = sheet - source
        front = _upright(film, difference, height)
        rear = _kept_before_wall(film, difference, float(plate.rear_gap), height)
        loss = front * (1.0 + float(plate.rear_exposed) * rear)
        loss += _radiated(sheet, source, factor) * both_faces / area
        loss *= float(skin.film_multiplier)
        conductance = _sheet_conductance(
            loss,
            pitch,
            float(plate.tube.outside_diameter),
            float(plate.conductivity),
            float(plate.thickness),
            float(plate.bond_conductance),
        )
        return conductance, source - conductance * (source - wall) / (loss * pitch)

    if wall == source:
        return passed(source)[0]
    sheet = brentq(lambda t: passed(t)[1] - t, *sorted((wall, source)), xtol=1e-6)
    return passed(sheet)[0]


class Sheet:
    """Tube on a flat sheet before a cabinet's back, nothing else near; see `condenser` in docs."""

    def __init__(self, condenser):
        for name in ("air_rise", "dirt", "shaded_fraction"):
            assert float(getattr(condenser, name)) == 0.0
        assert float(condenser.wall_distance) >= 50.0
        assert float(condenser.area_factor) == float(condenser.covered_share) == 1.0
        names = "sheet_width sheet_height sheet_thickness sheet_conductivity bond_conductance"
        names += " emissivity back_emissivity gap chimney_height opening_loss length"
        names += " outside_diameter"
        for name in names.split():
            setattr(self, name, float(getattr(condenser, name)))

    def loss(self, sheet, room, pressure):
        """Both faces' films, convection and radiation [W/(m2 K)]."""
        excess = sqrt((sheet - room) ** 2 + 0.05**2)
        film = air(0.5 * (sheet + room), pressure)
        height = self.sheet_height
        front = _upright(film, excess, height) + _radiated(sheet, room, self.emissivity)
        # Draft against laminar friction and one loss at the openings.
        tall = height + self.chimney_height
        draft = GRAVITY * film.expansion * excess * tall
        drag = 12.0 * film.kinematic * tall / self.gap**2
        half = 0.5 * self.opening_loss
        velocity = (-drag + sqrt(drag**2 + 4.0 * half * draft)) / (2.0 * half)
        flow = film.conductivity / film.diffusivity * velocity * self.gap / height
        plate = _rayleigh(film, excess, height) ** 0.25 / sqrt(2.873) * film.conductivity / height
        rear = 1.0 / sqrt(1.0 / flow**2 + 1.0 / plate**2)
        back = 0.5 * (sheet + room)
        facing = _two_surfaces(self.emissivity, self.back_emissivity, 1.0)
        return front + rear + 0.5 * _radiated(sheet, back, facing)

    def conductance(self, wall, room, pressure):
        """[W/(m K)] from the tube's wall to the room."""
        pitch = self.sheet_width * self.sheet_height / self.length

        def found(sheet):
            loss = self.loss(sheet, room, pressure)
            conductance = _sheet_conductance(
                loss,
                pitch,
                self.outside_diameter,
                self.sheet_conductivity,
                self.sheet_thickness,
                self.bond_conductance,
            )
            return conductance, room + conductance / (loss * pitch) * (wall - room)

        if abs(wall - room) < 1e-9:
            return found(room)[0]
        sheet = brentq(lambda t: found(t)[1] - t, *sorted((wall, room)), xtol=1e-6)
        return found(sheet)[0]
