"""The box's parts against worked examples that a person can look up."""

import runpy
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest

from coldwright.fluids.brines import brine
from coldwright.fluids.film_properties import FilmProperties
from coldwright.fluids.moist_air import relative_humidity
from coldwright.heat.radiation import STEFAN_BOLTZMANN
from coldwright.parts.cabinet import heat_gain
from coldwright.parts.cold_side import films as film_module
from coldwright.parts.cold_side.films import air_at_film
from coldwright.parts.cold_side.upright_fins import FinnedSide
from coldwright.parts.conditions import Surroundings

box = SimpleNamespace(**runpy.run_path(str(Path(__file__).parents[1] / "box_scenario.py")))


@pytest.fixture
def book_air(monkeypatch):
    """Give the films a book's printed air: its conductivity is up to 2.5 % below today's."""

    def use(conductivity, kinematic_viscosity, prandtl, film_temperature):
        air = FilmProperties(
            density=np.asarray(1.0),
            specific_heat=np.asarray(prandtl * conductivity / kinematic_viscosity),
            conductivity=np.asarray(conductivity),
            dynamic_viscosity=np.asarray(kinematic_viscosity),
            expansion_coefficient=np.asarray(1.0 / film_temperature),
        )
        monkeypatch.setattr(film_module, "film_properties", lambda *_: air)

    return use


BLACK_ROOM = {"emissivity": 1.0, "liner_emissivity": 1.0, "liner_area": 1e6}


def test_door_by_air_changes():
    # Cengel, Thermodynamics, refrigerator door example (from memory; recomputed): 0.3 m3 changed
    # 20 times a day, 20 C w .010 to 4 C w .004 at 95 kPa: 115.2 kJ sensible, 107.1 kJ latent.
    humidity = relative_humidity(293.15, 0.010, 95e3)
    around = Surroundings.of_room(293.15, humidity, 95e3)
    cabinet = box.cupboard(
        inside_air_volume=0.3,
        door_openings_per_day=20.0,
        door_open_time=1e6,  # long enough to change all the air
        leakage_area_low=0.0,
    )
    gain = heat_gain(cabinet, 277.15, around, 0.004, latent_heat_per_mass=2.49e6)
    # the example leaves out what the vapour itself carries, w cp_v / cp_a = 1.9 % of the dry air's
    vapour = 1.0 + 0.010 * 1860.0 / 1005.0
    assert gain.doors * 86400 == pytest.approx(115.2e3 * vapour, rel=0.01)
    assert gain.latent * 86400 == pytest.approx(107.1e3, rel=0.01)


def test_leak_by_stack_effect():
    # Formula of ASHRAE Fundamentals, ventilation chapter; two openings of .01 m2, .5 m apart,
    # 2 C within and 8 C without, Cd .61: 15.2 W (2 %: density and specific heat used).
    cabinet = box.cupboard(
        leakage_area_low=0.01, leakage_area_high=0.01, leakage_height=0.5, door_openings_per_day=0
    )
    gain = heat_gain(cabinet, 275.15, Surroundings.of_room(281.15, 0.0), 0.0)
    assert gain.leakage == pytest.approx(15.2, rel=0.02)


def test_horizontal_pipe(book_air):
    # Cengel, Heat Transfer: A Practical Approach, example 9-1 (read; recomputed): d 80 mm, 6 m,
    # 70 C in a room at 20 C: 443 W by convection, 553 W by radiation at emissivity 1.
    book_air(0.02699, 1.749e-5, 0.7241, 318.15)  # its table A-15 at 45 C
    pipe = box.BareTube(tube=box.tube(0.08, 0.07, 6.0), surface=box.surface(**BLACK_ROOM))
    found = pipe.surface_heat(343.15, 293.15, 293.15)
    assert -found.convective_heat_W == pytest.approx(443.0, rel=0.01)
    assert -found.radiative_heat_W == pytest.approx(553.0, rel=0.01)


@pytest.mark.parametrize(
    ("stance", "rear", "heat"),
    [("upright", 0.0, 115.0), ("upright", 1.0, 230.0), ("lying", 0.0, 64.2)],
)
def test_plate(book_air, stance, rear, heat):
    # Cengel, example 9-2 (companion; recomputed): 0.6 m square, 90 C in a room at 30 C: upright
    # 115 W a face, hot face down 64.2 W; radiation of one face at emissivity 1: 182 W.
    # (Its hot face up is out of the laminar form's range and is checked with the correlation.)
    book_air(0.02808, 1.896e-5, 0.7202, 333.15)  # its table A-15 at 60 C
    sheet = box.plate(
        skin=box.surface(**BLACK_ROOM),
        stance=stance,
        **box.arrays(width=0.6, height=0.6, rear_exposed=rear),
    )
    found = sheet.surface_heat(363.15, 303.15, 303.15)
    assert -found.convective_heat_W == pytest.approx(heat, rel=0.01)
    assert -found.radiative_heat_W == pytest.approx(182.0 * (1.0 + rear), rel=0.01)


def test_fin_array(book_air):
    # Cengel, example 9-3 (read; recomputed): wall 0.12 m wide x 0.18 m high at 80 C in air at 30 C,
    # fins 1 mm x 24 mm at the best gap 7.45 mm: 4.863 W/m2K, 14 fins, 29.4 W from the fins' faces.
    book_air(0.02772, 1.846e-5, 0.7215, 328.15)  # its table A-15 at 55 C
    fins = box.fins(count=0.12 / (0.00745 + 0.001), projection=0.024, length=0.18)
    width = np.asarray(0.12)
    side = FinnedSide.around(fins, width, width, width, np.asarray(0.0))
    assert side.gap == pytest.approx(0.00745)
    film = side.film(air_at_film(353.15, 303.15, 101325.0), 50.0)
    assert film == pytest.approx(4.863, rel=0.01)
    assert film * 14 * 2 * 0.024 * 0.18 * 50.0 == pytest.approx(29.4, rel=0.01)


def test_gap_between_grey_cylinder_and_room():
    # Incropera and DeWitt, example 9.4 (companion; recomputed): d 0.1 m at 165 C in a room at 23 C,
    # emissivity .85: 322 W/m by convection and 441 W/m by radiation.
    skin = box.surface(emissivity=0.85, liner_emissivity=1.0, liner_area=1e6)
    pipe = box.BareTube(tube=box.tube(0.1, 0.09, 1.0), surface=skin)
    found = pipe.surface_heat(438.15, 296.15, 296.15)
    assert -found.convective_heat_W == pytest.approx(322.0, rel=0.015)
    assert -found.radiative_heat_W == pytest.approx(441.0, rel=0.01)


def test_static_plate_evaporator_stands_in_the_usual_band():
    # From memory: static plate evaporators show 3-5 W/m2K by convection, 3.5-4.5 by radiation.
    films = box.plate().films(263.15, 275.15, 276.15)
    radiation = films.radiative_conductance / films.outside_area
    assert 3.0 < films.film_coefficient < 5.0
    assert 3.5 < radiation < 4.5
    assert radiation < 4.0 * STEFAN_BOLTZMANN * 276.15**3


@pytest.mark.parametrize("diameter", [0.008, 0.0095])
@pytest.mark.parametrize("difference", [3.0, 8.0])
def test_coil_in_cold_glycol(diameter, difference):
    # From memory, recomputed: lying tubes of 8-9.5 mm at 3-8 K in cold glycol 200-350 W/m2K; Xin
    # and Ebadian 1996 (helix) 15-25 % less. Taken here in propylene glycol 30 % by volume at -3 C.
    wound, lying = (
        box.drum(
            brine=brine("propylene glycol", 0.30, "volume"),
            tube=box.tube(diameter, 0.007, 6.0),
            coil_form=form,
        ).outer_conductance_per_length(270.15, 270.15 - difference)
        / (np.pi * diameter)
        for form in ("helix", "serpentine")
    )
    assert 200.0 < lying < 350.0
    assert 0.70 < wound / lying < 0.90
