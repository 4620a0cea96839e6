"""The box against hand-worked models, conservation laws and limits."""

import runpy
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq, root

from coldwright.fluids.moist_air import dew_point, film_properties
from coldwright.parts.air_circuit import (
    BOUNDARY_LAYER_DROP,
    air_resistances,
    boundary_layer_capacity_flow,
    circulate,
)
from coldwright.parts.cabinet import air_exchange, heat_gain, outside_skin_temperatures
from coldwright.parts.cabinet_faces import Face, Layer, layered_face
from coldwright.parts.cold_box import box_at_air, box_at_source
from coldwright.parts.moisture import deposit_latent_heat

box = SimpleNamespace(**runpy.run_path(str(Path(__file__).parents[1] / "box_scenario.py")))
SOURCES = box.ZERO_C + np.array([-12.0, -6.0, -1.0, 3.0, 12.0])


def solved(name, divided=True, **cabinet):
    cold_side = box.COLD_SIDES[name]()
    return cold_side, box_at_source(
        box.cupboard(**cabinet), box.air_path(divided), cold_side, SOURCES, box.room()
    )


@pytest.mark.parametrize("divided", [True, False])
@pytest.mark.parametrize("name", box.COLD_SIDES)
def test_every_balance_closes(name, divided):
    cold_side, state = solved(name, divided, contents_heat=3.0, contents_moisture=2e-7)
    assert np.all(state.residual < 1e-9)
    parts = (
        sum(state.gain.by_face.values())
        + state.gain.bridges
        + state.gain.gasket
        + state.gain.leakage
        + state.gain.doors
        + state.gain.contents
        + state.gain.latent
    )
    assert state.heat == pytest.approx(parts, rel=1e-9)
    # asked anew, the outside films carry the same heat between the temperatures that were found
    films = cold_side.films(
        state.surface_temperature, state.compartment_air_temperature, state.liner_temperature
    )
    convected = films.convective_conductance * (
        state.compartment_air_temperature - state.surface_temperature
    )
    radiated = films.radiative_conductance * (state.liner_temperature - state.surface_temperature)
    assert state.heat == pytest.approx(convected + radiated + state.gain.latent, rel=1e-8)
    # and the air brings what is convected
    brought = state.air.heat_capacity_flow * state.air.temperature_drop
    assert brought == pytest.approx(convected, rel=1e-8)


@pytest.mark.parametrize("name", box.COLD_SIDES)
def test_air_and_source_are_inverse(name):
    cold_side, state = solved(name)
    back = box_at_air(box.cupboard(), box.air_path(), cold_side, state.air_temperature, box.room())
    assert back.source_temperature == pytest.approx(SOURCES, abs=1e-7)
    assert back.heat == pytest.approx(state.heat, rel=1e-8)


@pytest.mark.parametrize("name", ["drum", "finned drum", "flat vessel"])
def test_surface_heat_agrees_with_the_box(name):
    cold_side, state = solved(name)
    alone = cold_side.surface_heat(
        SOURCES,
        state.compartment_air_temperature,
        state.liner_temperature,
        latent_heat=state.gain.latent,
    )
    assert np.all(alone.residual < 1e-9)
    assert alone.heat_W == pytest.approx(state.heat, rel=1e-8)
    assert alone.surface_temperature == pytest.approx(state.surface_temperature, abs=1e-7)


@pytest.mark.parametrize("name", ["plate", "lying plate", "bare tube"])
def test_tube_of_a_plate_carries_the_heat_of_the_box(name):
    # the balance asks the plate by tube and effective temperature, the box by sheet, air and liner
    cold_side, state = solved(name)
    for lane, source in enumerate(SOURCES):
        heat = state.heat[lane]
        length = float(cold_side.tube.length)

        def excess(wall, source=source, heat=heat, length=length):
            per_metre = cold_side.outer_conductance_per_length(source, wall)
            return float(per_metre) * (source - wall) * length - heat

        wall = brentq(excess, source - 80.0, source)
        sheet = state.surface_temperature[lane]
        assert wall < sheet + 0.5
        # films at the effective temperature instead of air and liner apart: 2 % of the drop
        films = cold_side.films(sheet, source, source)
        both = films.convective_conductance + films.radiative_conductance
        assert heat / both == pytest.approx(source - sheet, rel=0.02)
        if name == "bare tube":
            assert source - wall == pytest.approx(source - sheet, rel=0.02)


def churchill_chu_plate(rayleigh, prandtl):
    return (
        0.825 + 0.387 * rayleigh ** (1 / 6) / (1 + (0.492 / prandtl) ** 0.5625) ** (8 / 27)
    ) ** 2


def test_single_space_worked_by_hand():
    # a bare flat vessel, dry and tight, its lid and floor shut off: written out anew, all at once
    width, depth, height, wall = 0.35, 0.12, 0.4, 0.001
    vessel = box.drum(
        body=box.shell("flat", width=width, depth=depth, top_exposed=0.0, bottom_exposed=0.0)
    )
    cabinet = box.cupboard(leakage_area_low=0.0, door_openings_per_day=0.0)
    room = box.room(condenser_rise=0.0, compressor_rise=0.0)
    source, outside = 268.15, 293.15
    found = box_at_source(cabinet, box.air_path(False), vessel, source, room)

    area = 2 * (width + depth) * height
    level = height - 2 * wall - 0.03
    inner_area = 2 * (width + depth - 4 * wall) * level
    walls = float(cabinet.still_conductance)
    films = {"top": 0.17, "bottom": 0.10}
    liner_area = box.INSIDE_AREA

    def film(fluid, difference, length):
        rayleigh = 9.80665 * abs(fluid.expansion_coefficient * difference) * length**3
        rayleigh = rayleigh / (fluid.kinematic_viscosity * fluid.thermal_diffusivity)
        return churchill_chu_plate(rayleigh, fluid.prandtl) * fluid.conductivity / length

    def misfits(unknown):
        air, at_surface, inner, surface, liner = unknown
        convection = area * film(
            film_properties((at_surface + surface) / 2), at_surface - surface, height
        )
        grey = 1 / 0.9 + area / liner_area * (1 / 0.9 - 1)
        radiated = 5.670374419e-8 * area * (liner**4 - surface**4) / grey
        convected = convection * (at_surface - surface)
        heat = convected + radiated
        brine = vessel.brine.properties((inner + source) / 2)
        into_brine = inner_area * film(brine, inner - source, level) * (inner - source)
        through_wall = 17.0 * inner_area / wall * (surface - inner)
        drawn, skin = walls * (outside - air), air * 0.0
        for face in cabinet.faces:
            share = face.area / liner_area
            resistance = films.get(face.name, 0.13) / face.area
            through = face.conductance * (outside - air + resistance * share * radiated)
            drawn = drawn + face.conductance * resistance * share * radiated
            skin = skin + share * (air + resistance * (through - share * radiated))
        # the layer comes away 0.4 of the difference colder; stored air is a quarter of that below
        # the return air, and air cools exponentially on its way along the surface
        to_mean = 0.4 / convection * (1 / (1 - np.exp(-0.4)) - 0.25)
        return [
            heat - drawn,
            heat - into_brine,
            heat - through_wall,
            liner - skin,
            air - surface - convected * to_mean,
        ]

    by_hand = root(misfits, [282.0, 281.0, 269.0, 269.1, 282.0], tol=1e-12)
    assert by_hand.success
    assert found.air_temperature == pytest.approx(by_hand.x[0], abs=1e-6)
    assert found.compartment_air_temperature == pytest.approx(by_hand.x[1], abs=1e-6)
    assert found.surface_temperature == pytest.approx(by_hand.x[3], abs=1e-6)
    assert found.liner_temperature == pytest.approx(by_hand.x[4], abs=1e-6)


def test_face_worked_by_hand():
    # 0.5 x 0.9 m, 6 mm softwood, 75 mm cork, 18 mm oak: plane, half edges, a third of each corner
    layers = [
        Layer(np.asarray(thickness), np.asarray(conductivity))
        for thickness, conductivity in ((0.006, 0.12), (0.075, 0.043), (0.018, 0.17))
    ]
    face = layered_face("front", 0.5, 0.9, layers)
    resistance = 0.006 / 0.12 + 0.075 / 0.043 + 0.018 / 0.17
    conductivity = 0.099 / resistance
    wall = 0.45 / resistance + conductivity * (0.54 * 1.4 + 0.15 * 0.099 * 4 / 3)
    total = 0.13 / 0.45 + 1 / wall + 0.13 / ((0.5 + 0.198) * (0.9 + 0.198))
    assert face.conductance == pytest.approx(1 / total, rel=1e-12)


def test_sweating_of_a_thin_cork_wall():
    # corkboard 50 mm k .043, films .13 both, 25 C against 4 C: U .703, 14.8 W/m2, skin 23.1 C, dry
    # up to about 89 % relative humidity (our own arithmetic, 1 %)
    one = np.asarray(1.0)
    film = np.asarray(0.13)
    face = Face("left", "room", one, one, 1 / (0.26 + 0.05 / 0.043), film, film)
    cabinet = box.cupboard(faces=(face,))
    warm = box.room(298.15)
    gain = heat_gain(cabinet, 277.15, warm, 0.004)
    assert face.conductance == pytest.approx(0.703, rel=0.01)
    assert gain.by_face["left"] == pytest.approx(14.8, rel=0.01)
    skin = outside_skin_temperatures(cabinet, gain, warm)["left"]
    assert skin - box.ZERO_C == pytest.approx(23.1, abs=0.1)
    assert dew_point(298.15, 0.88) < skin < dew_point(298.15, 0.90)


def test_loop_flow_balances_buoyancy_and_losses():
    path = box.air_path(opening=0.012, upper_opening_area=0.02, ledge_loss=1.5)
    flow = circulate(path, 15.0, 280.0, 95e3, surface_conductance=1.5)
    air = film_properties(280.0, 95e3)
    buoyancy = air.density * 9.80665 / 280.0 * flow.temperature_drop * path.column_height
    lower = (2.7 + 1.5) * (flow.volume_flow / 0.012) ** 2
    upper = 2.7 * (flow.volume_flow / 0.02) ** 2
    assert buoyancy == pytest.approx(0.5 * air.density * (lower + upper), rel=1e-8)
    assert flow.face_velocity == pytest.approx(flow.volume_flow / 0.012)
    assert flow.mass_flow * air.specific_heat * flow.temperature_drop == pytest.approx(15.0)


def test_boundary_layer_chill_from_its_profiles():
    # integral method: u as y (1-y)^2, temperature as (1-y)^2 (Squire 1938, from memory)
    carried = quad(lambda y: y * (1 - y) ** 4, 0, 1)[0]
    flow = quad(lambda y: y * (1 - y) ** 2, 0, 1)[0]
    assert carried / flow == pytest.approx(BOUNDARY_LAYER_DROP)
    assert boundary_layer_capacity_flow(2.0) == pytest.approx(2.0 * flow / carried)


def test_plentiful_air_leaves_only_the_film():
    path = box.air_path(heating_centre=0.5)
    to_mean, to_return = air_resistances(path, 2.0, 2e4)
    assert to_mean == pytest.approx(0.5, rel=1e-7)
    assert to_return == pytest.approx(0.5, rel=1e-3)


def test_moisture_that_comes_in_settles():
    around = box.room(humidity=0.7)
    cabinet = box.cupboard()
    state = box_at_source(cabinet, box.air_path(), box.drum(), SOURCES, around)
    exchange = air_exchange(cabinet, state.air_temperature, around, state.inside_humidity_ratio)
    brought = exchange.total * (exchange.room_humidity_ratio - state.inside_humidity_ratio)
    assert state.frost_kg_per_day == pytest.approx(brought * 86400, rel=1e-6)
    assert state.gain.latent == pytest.approx(
        brought * deposit_latent_heat(state.surface_temperature), rel=1e-6
    )
    assert np.all(state.inside_relative_humidity < 1.0)


def test_wide_drum_is_a_flat_vessel():
    # a round vessel as wide as a room is high loses its curvature: plate and cylinder films meet
    wide = box.shell(width=30.0, top_exposed=0.0, bottom_exposed=0.0)
    flat = box.shell("flat", width=20.0, depth=3.0, top_exposed=0.0, bottom_exposed=0.0)
    one, other = (box.drum(body=body).films(268.0, 278.0, 279.0) for body in (wide, flat))
    assert one.film_coefficient == pytest.approx(other.film_coefficient, rel=1e-3)


def test_fins_without_height_are_no_fins():
    stubs = replace(box.fins(count=0), length=np.asarray(0.4))
    bare, stubbed = (box.drum(item).films(268.0, 278.0, 279.0) for item in (None, stubs))
    assert stubbed.outside_area == pytest.approx(bare.outside_area)
    assert stubbed.radiative_conductance == pytest.approx(bare.radiative_conductance)
    # the side is then one wide channel, whose limit stands a tenth above the plate's curve
    assert stubbed.convective_conductance == pytest.approx(bare.convective_conductance, rel=0.15)
