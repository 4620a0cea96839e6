"""What the charts draw against the report's own figures, `calc fill`, and CoolProp."""

from __future__ import annotations

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from coldwright.cli.calc.fill_text import answer_of
from coldwright.sheet.charts.charge import charge
from coldwright.sheet.charts.pressure_enthalpy import pressure_enthalpy
from coldwright.sheet.charts.resistances import resistances
from coldwright.sheet.charts.saturation_dome import EnthalpyScale, dome
from coldwright.sheet.charts.tubes import tubes
from coldwright.sheet.charts.watts import watts
from coldwright.verdict.report import report
from support.assessed import assessed, read_in, window_of

BTU_PER_LB = 2326.0  # J/kg, exactly
BTU_PER_H = 0.29307107  # W
NAMES = ("larder", "cheese", "galley")


def rows_of(figure, **wanted):
    return [row for row in figure.rows if all(row[key] == each for key, each in wanted.items())]


@pytest.mark.parametrize("name", NAMES)
def test_the_cycle_has_the_reports_pressures_and_temperatures(name):
    data = report(assessed(name))
    figure = pressure_enthalpy(read_in(name, "si"))
    for state, machine in (
        ("holding the target", data["cycling"]["while_on"]),
        ("never stopping", data["running"]),
    ):
        points = {row["point"]: row for row in rows_of(figure, state=state)}
        shell, hot = points["gas at the shell"], points["discharge gas"]
        assert shell["pressure"] == pytest.approx(machine["suction_Pa"] / 1e3, rel=1e-5)
        assert hot["pressure"] == pytest.approx(machine["discharge_Pa"] / 1e3, rel=1e-5)
        assert shell["temperature"] == pytest.approx(machine["return_gas_C"], abs=0.006)
        assert hot["temperature"] == pytest.approx(machine["discharge_gas_C"], abs=0.006)
        taken = (
            points["leaves the evaporator"]["enthalpy"]
            - points["enters the evaporator"]["enthalpy"]
        )
        flow = machine["mass_flow_kg_per_h"] / 3600.0
        assert 1e3 * taken * flow == pytest.approx(machine["capacity_W"], rel=1e-4)
        given = hot["enthalpy"] - points["leaves the condenser"]["enthalpy"]
        assert 1e3 * given * flow == pytest.approx(machine["condenser_heat_W"], rel=1e-4)


@pytest.mark.parametrize(("name", "fluid"), [("larder", "R152A"), ("cheese", "IsoButane")])
def test_enthalpies_are_those_of_the_reference_equations(name, fluid):
    figure = pressure_enthalpy(read_in(name, "si"))
    zero = PropsSI("H", "T", 273.15, "Q", 0, fluid) - 200e3
    for row in rows_of(figure, state="holding the target"):
        if row["point"] not in ("gas in the cylinder", "discharge gas"):
            continue
        kelvin, pascal = row["temperature"] + 273.15, 1e3 * row["pressure"]
        expected = (PropsSI("H", "T", kelvin, "P", pascal, fluid) - zero) / 1e3
        assert row["enthalpy"] == pytest.approx(expected, abs=0.1)


def test_the_dome_is_that_of_the_reference_equations():
    refrigerant = assessed("cheese").case.translation.plant.system.refrigerant
    places = dome(refrigerant, 50e3, 2e6)
    half = len(places) // 2
    for quality, side in ((0, places[:half]), (1, places[half:])):
        for pressure, enthalpy in side[::7]:
            expected = PropsSI("H", "P", pressure, "Q", quality, "IsoButane")
            assert enthalpy == pytest.approx(expected, abs=150.0)
    assert [p for p, _ in places[:half]] == sorted(p for p, _ in places[:half])


def test_both_systems_draw_the_same_cycle():
    si, shop = (pressure_enthalpy(read_in("cheese", each)) for each in ("si", "shop"))
    for metric, trade in zip(si.rows, shop.rows, strict=True):
        assert 1.8 * metric["temperature"] + 32.0 == pytest.approx(trade["temperature"], abs=0.02)
        assert metric["pressure"] / 6.894757 == pytest.approx(trade["pressure"], abs=1e-3)
    first, last = si.rows[0], si.rows[2]
    rise = 1e3 * (last["enthalpy"] - first["enthalpy"])
    other = (shop.rows[2]["enthalpy"] - shop.rows[0]["enthalpy"]) * BTU_PER_LB
    assert rise == pytest.approx(other, abs=5.0)


@pytest.mark.parametrize("name", NAMES)
def test_the_tubes_end_with_the_reports_temperatures(name):
    data = report(assessed(name))
    machine = (
        data["cycling"]["while_on"] if data["cabinet"]["state"] == "cycling" else data["running"]
    )
    figure = tubes(read_in(name, "si"))
    inlet = rows_of(figure, tube="condenser")[0]
    assert inlet["temperature"] == pytest.approx(machine["discharge_gas_C"], abs=2e-3)
    arriving = rows_of(figure, tube="suction line")[-1]
    assert arriving["temperature"] == pytest.approx(machine["return_gas_C"], abs=2e-3)
    outlet = rows_of(figure, tube="capillary", zone="capillary")[-1]
    assert outlet["temperature"] == pytest.approx(machine["evaporating_C"], abs=2e-3)
    assert outlet["position"] == pytest.approx(
        float(assessed(name).case.translation.plant.system.capillary.length), abs=1e-4
    )
    condensing = rows_of(figure, tube="condenser", zone="condensing")
    shares = data["hot_side"]["zone_share"]
    length = float(assessed(name).case.translation.plant.system.condenser.length)
    drawn = condensing[-1]["position"] - condensing[0]["position"]
    assert drawn == pytest.approx(shares["condensing"] * length, abs=2e-3)


@pytest.mark.parametrize("name", NAMES)
def test_the_ways_of_the_heat_are_the_reports_and_add_up(name):
    data = report(assessed(name))["cabinet"]
    si, shop = watts(read_in(name, "si")), watts(read_in(name, "shop"))
    assert sum(row["heat"] for row in si.rows) == pytest.approx(data["heat_gain_W"], rel=5e-3)
    assert sum(row["share"] for row in si.rows) == pytest.approx(100.0, abs=0.5)
    by_name = {row["way"]: row["heat"] for row in si.rows}
    assert by_name["back wall"] == pytest.approx(data["gain_by_way_W"]["face back"], abs=1e-3)
    assert by_name["door gasket"] == pytest.approx(data["gain_by_way_W"]["gasket"], abs=1e-3)
    for metric, trade in zip(si.rows, shop.rows, strict=True):
        assert trade["heat"] * BTU_PER_H == pytest.approx(metric["heat"], abs=1e-3)


@pytest.mark.parametrize("name", NAMES)
def test_the_steps_of_both_sides_are_the_reports_and_add_up(name):
    data = report(assessed(name))
    figure = resistances(read_in(name, "si"))
    cold = {row["step"]: row["difference"] for row in rows_of(figure, side="cold side")}
    assert sum(cold.values()) == pytest.approx(data["cold_side"]["evaporating_to_air_K"], abs=1e-3)
    for step, kelvin in data["cold_side"]["steps_K"].items():
        assert cold[step] == pytest.approx(kelvin, abs=1e-3)
    hot = [row["difference"] for row in rows_of(figure, side="hot side")]
    assert sum(hot) == pytest.approx(data["hot_side"]["condensing_above_room_K"], abs=1e-3)


def test_the_charges_are_those_of_the_fill_window(monkeypatch):
    case, window = assessed("cheese").case, window_of("cheese")
    monkeypatch.setattr("coldwright.cli.calc.fill_text.fill_window", lambda *_: window)
    data = answer_of(case.build, {"charge": None, "room_temperature": None})
    figure = charge(case.build, case.translation, "si", window)
    hot = [row for row in data["ladder"] if row["hot_superheat_K"] is not None]
    drawn = rows_of(figure, state="hottest start")
    for row, beside in zip(drawn, hot, strict=True):
        assert row["charge"] == pytest.approx(beside["charge_g"], abs=1e-3)
        assert row["superheat"] == pytest.approx(beside["hot_superheat_K"], abs=1e-3)
        assert row["capacity"] == pytest.approx(beside["hot_capacity_W"], abs=1e-2)
    assert f"{data['least_g']:.3g} g is enough" in figure.caption
    assert f"up to {data['most_g']:.3g} g" in figure.caption
    powers = np.array([row["power"] for row in drawn])
    assert np.all(powers > 0.0)


def test_enthalpy_is_counted_as_each_systems_charts_count_it():
    refrigerant = assessed("galley").case.translation.plant.system.refrigerant
    si, shop = (EnthalpyScale.of(refrigerant, each) for each in ("si", "shop"))
    at_zero = float(refrigerant.saturated(273.15).liquid_enthalpy)
    at_minus_forty = float(refrigerant.saturated(233.15).liquid_enthalpy)
    assert si.shown(at_zero) == pytest.approx(200.0)
    assert shop.shown(at_minus_forty) == pytest.approx(0.0, abs=1e-9)
    # R134a gas at 0 °C: 398.60 kJ/kg (ASHRAE Handbook, Fundamentals, from memory).
    assert si.shown(float(refrigerant.saturated(273.15).vapour_enthalpy)) == pytest.approx(
        398.60, abs=0.1
    )
