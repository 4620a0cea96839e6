"""`calc surface` and `calc wall` against worked examples that a person can look up.

Expected results are those of the reference table of worked examples. Books print air of up to 2.5 %
less conductivity than today's: `book_air` gives the films the book's own; without it the
results of this program's air must lie within 3 %.
"""

import json

import numpy as np
import pytest
from typer.testing import CliRunner

from coldwright.arrays import lanes
from coldwright.cli.app import app
from coldwright.cli.calc.surface import Asked, figures
from coldwright.cli.calc.surface_fins import FinWords
from coldwright.fluids.film_properties import FilmProperties
from coldwright.parts.cabinet_faces import Layer
from coldwright.parts.cold_side import films as film_module
from coldwright.parts.wall_answer import box_wall

SOLDERED = FinWords("copper", "soldered")
PIPE = {"diameter": 0.08, "length": 6.0}
SHEET = {"height": 0.6, "width": 0.6}


@pytest.fixture
def book_air(monkeypatch):
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


def found(shape, warm, cold, *, fins=None, emissivity=1.0, **sizes):
    """What the command works out for a warm surface in a wide room [C]."""
    values = {"metal": warm + 273.15, "air": cold + 273.15, "emissivity": emissivity}
    values |= {"liner_emissivity": 0.9, "fin_bond": 1e6, **sizes}
    return figures(Asked(shape, "none", 1, fins, "", "", 101325.0), values)


def data_of(*words):
    answer = CliRunner().invoke(app, ["calc", *words, "--json"])
    assert answer.exit_code == 0, answer.output
    return json.loads(answer.stdout)


def test_vertical_plate_from_temperatures_alone():
    # Incropera and DeWitt, 6th ed., example 9.2: 0.71 x 1.02 m, 232/23 C: 7.00 W/m2K, 1060 W; 4 %
    plate = found("vertical-plate", 232.0, 23.0, height=0.71, width=1.02)
    assert plate["film_W_m2K"] == pytest.approx(7.00, rel=0.04)
    assert -plate["convection_W"] == pytest.approx(1060.0, rel=0.04)


def test_horizontal_pipe_with_radiation():
    # Incropera, 6th ed., example 9.4: d 0.1 m, 165/23 C, emissivity 0.85: 322 + 441 = 763 W/m
    pipe = found("horizontal-tube", 165.0, 23.0, emissivity=0.85, diameter=0.1, length=1.0)
    assert -pipe["convection_W"] == pytest.approx(322.0, rel=0.015)
    assert -pipe["radiation_W"] == pytest.approx(441.0, rel=0.015)
    assert -pipe["heat_W"] == pytest.approx(763.0, rel=0.015)


def test_horizontal_pipe(book_air):
    # Cengel, Heat Transfer: A Practical Approach, example 9-1: d 80 mm, 6 m, 70/20 C: 5.869 W/m2K,
    # 443 W; radiation at emissivity 1: 553 W
    today = found("horizontal-tube", 70.0, 20.0, **PIPE)
    assert -today["convection_W"] == pytest.approx(443.0, rel=0.03)
    book_air(0.02699, 1.749e-5, 0.7241, 318.15)  # its table A-15 at 45 C
    pipe = found("horizontal-tube", 70.0, 20.0, **PIPE)
    assert pipe["film_W_m2K"] == pytest.approx(5.869, rel=0.01)
    assert -pipe["convection_W"] == pytest.approx(443.0, rel=0.01)
    assert -pipe["radiation_W"] == pytest.approx(553.0, rel=0.01)


def test_plate_upright(book_air):
    # Cengel, example 9-2: 0.6 m square, 90/30 C: 115 W from one face; radiation at 1: 182 W
    assert -found("vertical-plate", 90.0, 30.0, **SHEET)["convection_W"] == pytest.approx(
        115.0, rel=0.03
    )
    book_air(0.02808, 1.896e-5, 0.7202, 333.15)  # its table A-15 at 60 C
    plate = found("vertical-plate", 90.0, 30.0, **SHEET)
    assert -plate["convection_W"] == pytest.approx(115.0, rel=0.01)
    assert -plate["radiation_W"] == pytest.approx(182.0, rel=0.01)


def test_fin_array(book_air):
    # Cengel, example 9-3: wall 0.12 m wide x 0.18 m high at 80 C in air at 30 C, 14 fins of 1 mm x
    # 24 mm at the best gap of 7.45 mm: 4.863 W/m2K; 29.4 W from the fins' faces. Fourteen whole
    # fins on 0.12 m leave 7.57 mm, so the width is that of fourteen pitches here.
    book_air(0.02772, 1.846e-5, 0.7215, 328.15)  # its table A-15 at 55 C
    fins = {"fin_count": 14.0, "fin_height": 0.024, "fin_length": 0.18, "fin_thickness": 1e-3}
    wall = found(
        "vertical-plate", 80.0, 30.0, fins=SOLDERED, height=0.18, width=14 * 8.45e-3, **fins
    )
    assert wall["fin_gap_m"] == pytest.approx(7.45e-3, rel=1e-6)
    assert wall["film_W_m2K"] == pytest.approx(4.863, rel=0.01)
    assert wall["film_W_m2K"] * 14 * 2 * 0.024 * 0.18 * 50.0 == pytest.approx(29.4, rel=0.01)
    assert wall["fin_efficiency"] > 0.98  # the text takes its fins as at base temperature


@pytest.mark.xfail(
    strict=True,
    reason=(
        "The text takes the laminar form for the sides (4.23 W/m2K at Ra 5e7). The one-curve form "
        "used here gives 4.90 with today's air, which makes 259 W out of 246 W."
    ),
)
def test_duct_with_upright_sides_top_and_bottom():
    # Incropera, 6th ed., example 9.3: 0.75 m wide, 0.30 m high, 45/15 C: 246 W per metre; 1.5 %.
    # A duct of 1000 m stands for an endless one.
    sizes = {"width": 0.75, "height": 0.30, "depth": 1000.0}
    asked = Asked("box", "both", 1, None, "", "", 101325.0)
    values = {"metal": 318.15, "air": 288.15, "emissivity": 1.0, "liner_emissivity": 0.9, **sizes}
    assert -figures(asked, values)["convection_W"] / 1000.0 == pytest.approx(246.0, rel=0.015)


@pytest.mark.parametrize(("celsius", "film"), [(20, 5.7), (0, 4.6)])
def test_radiation_film_of_a_black_surface(celsius, film):
    # 4 sigma T^3, any heat transfer text
    words = ("--height=0.5m", "--width=0.4m", "--emissivity=1", f"--air={celsius}C")
    data = data_of(
        "surface", "--shape=vertical-plate", *words, f"--surface-temperature={celsius - 0.01}C"
    )
    assert data["radiation_film_W_m2K"] == pytest.approx(film, abs=0.05)


@pytest.mark.parametrize("difference", [10, 15, 20, 25])
def test_a_static_plate_lies_in_the_published_band(difference):
    # static plate evaporator: convection 3 to 5, radiation 3.5 to 4.5 W/m2K (band, from memory)
    words = ("--height=0.5m", "--width=0.4m", "--finish=painted", "--air=4C")
    data = data_of(
        "surface", "--shape=vertical-plate", *words, f"--surface-temperature={4 - difference}C"
    )
    assert 3.0 < data["film_W_m2K"] < 5.0
    assert 3.5 < data["radiation_film_W_m2K"] < 4.5


def test_corkboard_wall_its_skin_and_its_sweating():
    # own arithmetic with ISO 6946 films (read): corkboard 50 mm k 0.043, 0.13 both, 25/4 C:
    # U 0.703; 14.8 W/m2; skin 23.1 C; safe to about 89 % relative humidity
    words = ("wall", "--layer", "slab cork 50mm", "--inside=4C", "--room=25C")
    data = data_of(*words)
    assert data["transmittance_W_m2K"] == pytest.approx(0.703, rel=0.01)
    assert data["heat_W_per_m2"] == pytest.approx(14.8, rel=0.01)
    assert data["outer_skin_C"] == pytest.approx(23.1, abs=0.05)
    assert data["sweats_above_percent"] == pytest.approx(89.0, rel=0.01)
    assert data_of(*words, "--humidity=88%")["sweats"] is False
    assert data_of(*words, "--humidity=91%")["sweats"] is True


@pytest.mark.parametrize(
    ("celsius", "percent", "dew"),
    [(20, 50, 9.27), (25, 60, 16.70), (30, 70, 23.93), (32, 75, 27.01)],
)
def test_dew_points(celsius, percent, dew):
    # computed with a psychrometric library; 0.1 K
    data = data_of(
        "wall", "--layer=oak 22mm", "--inside=2C", f"--room={celsius}C", f"--humidity={percent}%"
    )
    assert data["dew_point_C"] == pytest.approx(dew, abs=0.1)


def test_box_with_edges_and_corners():
    # Holman, Heat Transfer, example 3-2: inside 0.5 m, wall 0.1 m, k 1.04, 450 K: 8592 W (no films)
    layer = Layer(lanes(0.1), lanes(1.04))
    box = box_wall([layer], (0.5, 0.5, 0.5), 273.15, 723.15, film_multiplier=1e9)
    assert box.heat == pytest.approx(8592.0, rel=0.001)


def test_foam_in_its_first_year():
    # Paul et al. 2022 (abstract): conductivity up to +15 % in a year; the films hold still
    data = data_of("wall", "--layer", "polyurethane foam 60mm", "--inside=2C", "--room=25C")
    aged = data["declined"]["aged"]
    assert aged["factors"]["polyurethane foam"]["factor"] == pytest.approx(1.15)
    bare = 0.06 / 0.025
    expected = (bare + 0.26) / (bare / 1.15 + 0.26)
    assert aged["heat_W"] / data["heat_W"] == pytest.approx(expected, rel=1e-6)
