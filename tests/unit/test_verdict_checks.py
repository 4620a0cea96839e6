"""Every check fires on a case made for it, and stays silent on a sound build."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from coldwright.build import loads
from coldwright.fluids.brines import brine
from coldwright.fluids.moist_air import saturation_pressure
from coldwright.parts.cabinet import outside_skin_temperatures
from coldwright.plant.balance import TOO_COLD, TOO_FULL, TOO_HOT, UNSETTLED
from coldwright.plant.box import surroundings
from coldwright.verdict.checks import findings
from coldwright.verdict.checks.box import box_findings
from coldwright.verdict.checks.brine import brine_findings
from coldwright.verdict.checks.circuit import circuit_findings
from coldwright.verdict.checks.gas import gas_findings
from coldwright.verdict.checks.machine import machine_findings
from coldwright.verdict.checks.ranges import range_findings
from support.assessed import altered, assessed, changed


@pytest.fixture(scope="module")
def galley():
    return assessed("galley").case


@pytest.fixture(scope="module")
def larder():
    return assessed("larder").case


def codes(found):
    return {finding.notice.code: finding.notice for finding in found}


def with_build(case, *changes):
    return replace(case, build=loads(changed("galley", *changes)))


def test_a_sound_build_has_no_danger(galley):
    assert all(finding.notice.severity != "danger" for finding in findings(galley))


def test_every_finding_has_text_and_source(galley, larder):
    for case in (galley, larder):
        for finding in findings(case):
            assert finding.notice.text.endswith(".")
            assert finding.notice.source


# --- gas, room, oil -----------------------------------------------------------------------------


def test_an_old_gas_is_a_danger(galley):
    case = with_build(galley, ('name = "R134a"', 'name = "R12"'))
    assert codes(gas_findings(case))["historic_refrigerant"].severity == "danger"


def test_mineral_oil_does_not_suit_r134a(galley):
    case = with_build(galley, ('oil = "ester"', 'oil = "mineral"'))
    assert codes(gas_findings(case))["oil_does_not_suit"].severity == "warning"


def test_a_flammable_charge_says_how_large_a_room_it_takes(galley):
    case = with_build(galley, ('name = "R134a"', 'name = "R290"'))
    notice = codes(gas_findings(case))["flammable_charge"]
    assert "m3" in notice.text
    small = with_build(
        galley,
        ('name = "R134a"', 'name = "R290"'),
        ('room_volume = "18 m3"', 'room_volume = "2 m3"'),
    )
    found = codes(gas_findings(small))
    assert found["room_too_small"].severity == "danger"
    assert found["practical_limit"].severity == "danger"
    assert "flammable_charge" not in found


# --- brine --------------------------------------------------------------------------------------


def with_brine(case, fraction):
    vessel = replace(
        case.translation.plant.box.cold_side,
        brine=brine("propylene glycol", fraction, "volume"),
    )
    box = replace(case.translation.plant.box, cold_side=vessel)
    plant = replace(case.translation.plant, box=box)
    return replace(case, translation=replace(case.translation, plant=plant)), vessel.brine


def test_a_brine_that_freezes_on_the_coil_contradicts(larder):
    weak, liquid = with_brine(larder, 0.2)
    freezing = liquid.freezing_temperature - 273.15
    case = altered(weak, {"cycling": {"evaporating_C": freezing - 5.0}})
    found = [finding for finding in brine_findings(case) if finding.contradicts]
    assert [finding.notice.code for finding in found] == ["brine_freezes"]
    assert found[0].field == "cold_side.brine.fraction"
    assert found[0].hint


def test_a_brine_near_its_freezing_point_or_slushing_is_a_warning(larder):
    weak, liquid = with_brine(larder, 0.2)
    freezing = liquid.freezing_temperature - 273.15
    case = altered(weak, {"cycling": {"evaporating_C": freezing + 1.0}})
    found = codes(brine_findings(case))
    assert found["brine_margin"].severity == "warning"
    assert found["brine_slush"].severity == "warning"
    assert "brine_freezes" not in found


def test_a_vessel_filled_to_the_brim_has_no_room_to_expand(larder):
    vessel = replace(larder.translation.plant.box.cold_side, headspace=np.zeros(1))
    box = replace(larder.translation.plant.box, cold_side=vessel)
    plant = replace(larder.translation.plant, box=box)
    case = replace(larder, translation=replace(larder.translation, plant=plant))
    assert "headspace" in codes(brine_findings(case))
    assert "headspace" not in codes(brine_findings(larder))


def test_a_bare_tube_has_no_brine_to_check(galley):
    assert list(brine_findings(galley)) == []


# --- machine ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("figures", "code", "severity"),
    [
        ({"shell_liquid_g": 50.0}, "liquid_in_compressor", "danger"),
        ({"return_quality": 0.8}, "flood_back", "warning"),
        ({"condensing_C": 62.0}, "condensing_hot", "warning"),
        ({"condensing_C": 75.0}, "condensing_hot", "danger"),
        ({"discharge_gas_C": 130.0}, "discharge_hot", "warning"),
        ({"shell_C": 110.0}, "shell_hot", "warning"),
        ({"suction_Pa": 6e4}, "suction_in_vacuum", "info"),
        ({"evaporating_C": 5.0}, "class_range", "warning"),
        ({"evaporating_C": -55.0}, "class_range", "warning"),
    ],
)
def test_what_the_compressor_suffers_is_told(galley, figures, code, severity):
    quiet = {
        state: {"return_quality": 1.0, "shell_liquid_g": 0.0}
        for state in ("cycling", "running", "pull_down", "hot")
    }
    before = codes(machine_findings(altered(galley, quiet)))
    after = codes(machine_findings(altered(galley, {**quiet, "cycling": figures})))
    assert code not in before
    assert after[code].severity == severity


def test_a_box_that_never_holds_is_not_said_to_hold(galley):
    case = altered(
        galley,
        {"cycling": {"shell_C": 110.0}, "running": {"shell_C": 110.0}},
        properties={"run_fraction": 1.4},
    )
    told = codes(machine_findings(case))["shell_hot"].text
    assert told.startswith("Running without a stop")


def test_figures_of_a_data_sheet_that_do_not_go_together(galley):
    machine = galley.translation.machine
    fit = replace(machine.fit, flow_error=np.array([0.0, 0.9]))
    machine = replace(machine, fit=fit)
    case = replace(galley, translation=replace(galley.translation, machine=machine))
    assert "data_sheet" in codes(machine_findings(case))
    assert "data_sheet" not in codes(machine_findings(galley))


def test_a_displacement_too_large_for_the_capacity(galley):
    machine = galley.translation.machine
    tired = replace(machine.fit.compressor, pumping=np.array([0.3]))
    machine = replace(machine, fit=replace(machine.fit, compressor=tired))
    case = replace(galley, translation=replace(galley.translation, machine=machine))
    assert "30 %" in codes(machine_findings(case))["data_sheet"].text


# --- circuit ------------------------------------------------------------------------------------


def with_reason(case, reason, charge=None):
    cycling = case.operation.cycling
    lanes = np.full(cycling.balance.reason.shape, reason)
    held = replace(cycling, balance=replace(cycling.balance, reason=lanes))
    operation = replace(case.operation, cycling=held)
    translation = case.translation
    if charge is not None:
        operation = replace(operation, charge=np.full_like(operation.charge, charge))
        translation = replace(translation, charge=np.array([charge]))
    return replace(case, operation=operation, translation=translation)


def test_a_starved_evaporator_and_gas_at_the_capillary(galley):
    figures = {"evaporator_exit_superheat_K": 24.0, "evaporating_C": -25.0, "subcooling_K": 0.0}
    found = codes(circuit_findings(altered(galley, {"cycling": figures})))
    assert found["starved"].severity == "warning"
    assert found["gas_at_capillary"].severity == "info"
    sound = {"evaporator_exit_superheat_K": 5.0, "subcooling_K": 3.0}
    assert codes(circuit_findings(altered(galley, {"cycling": sound}))) == {}


def test_a_charge_that_fills_everything_contradicts(galley):
    found = list(circuit_findings(with_reason(galley, TOO_FULL, 0.2)))
    assert found[0].notice.code == "charge_fills_everything"
    assert found[0].contradicts
    assert found[0].field == "refrigerant.fill"


def small_condenser(case):
    system = case.translation.plant.system
    tiny = replace(
        system.condenser,
        length=np.array([0.5]),
        sheet_width=np.array([0.1]),
        sheet_height=np.array([0.1]),
    )
    plant = replace(case.translation.plant, system=replace(system, condenser=tiny))
    return replace(case, translation=replace(case.translation, plant=plant))


def test_a_condenser_too_small_contradicts(galley):
    assert "condenser_too_small" in codes(circuit_findings(with_reason(galley, TOO_HOT)))
    unsettled = with_reason(galley, UNSETTLED)
    assert "condenser_too_small" not in codes(circuit_findings(unsettled))
    assert "condenser_too_small" in codes(circuit_findings(small_condenser(unsettled)))
    hot = altered(small_condenser(galley), {"running": {"condensing_C": 90.0}})
    assert "condenser_too_small" in codes(circuit_findings(hot))


def test_without_a_balance_nothing_is_said_of_its_figures(galley):
    case = altered(
        with_reason(galley, TOO_COLD),
        {"running": {"reason": "no balance"}},
        properties={"run_fraction": np.inf},
    )
    for check in (circuit_findings, box_findings, range_findings):
        assert list(check(case)) == []


# --- box ----------------------------------------------------------------------------------------


def test_cold_and_warm_shelves(galley):
    case = altered(galley, cabinet={"coldest_shelf_C": -1.0, "warmest_shelf_C": 9.0})
    found = codes(box_findings(case))
    assert {"freezing_shelf", "warm_shelf"} <= set(found)
    case = altered(galley, cabinet={"coldest_shelf_C": 3.0, "warmest_shelf_C": 6.0})
    assert not {"freezing_shelf", "warm_shelf"} & set(codes(box_findings(case)))


def test_a_skin_under_the_dew_point_sweats(galley):
    translation = galley.translation
    damp = replace(translation.room, relative_humidity=np.array([0.999]))
    case = replace(galley, translation=replace(translation, room=damp))
    assert "sweating" in codes(box_findings(case))
    dry = replace(translation.room, relative_humidity=np.array([0.2]))
    case = replace(galley, translation=replace(translation, room=dry))
    assert "sweating" not in codes(box_findings(case))


def in_a_room_of(case, humidity):
    room = replace(case.translation.room, relative_humidity=np.array([humidity]))
    return replace(case, translation=replace(case.translation, room=room))


def test_a_skin_near_the_dew_point_grows_mould(galley):
    # ISO 13788 (from memory): mould from 80 % at the skin. Over the coldest skin of a box the air
    # is moister than the room's, and never drier.
    found = {
        humidity: codes(box_findings(in_a_room_of(galley, humidity)))
        for humidity in (0.5, 0.81, 0.9, 0.999)
    }
    assert "mould" not in found[0.5]
    assert found[0.81]["mould"].severity == "info"
    assert found[0.9]["mould"].severity == "warning"
    assert "ISO 13788" in found[0.81]["mould"].source
    assert "mould" not in found[0.999]
    assert "sweating" in found[0.999]


def test_mould_is_told_by_the_skin_and_not_by_the_room(galley):
    o = galley.operation
    room = galley.translation.room
    skins = outside_skin_temperatures(
        galley.translation.plant.box.cabinet, o.cycling.box.gain, surroundings(room)
    )
    coldest = min(float(np.ravel(skin)[0]) for skin in skins.values())
    ratio = float(saturation_pressure(coldest) / np.ravel(saturation_pressure(room.temperature))[0])
    assert ratio < 1.0
    below = in_a_room_of(galley, 0.8 * ratio - 0.001)
    above = in_a_room_of(galley, 0.8 * ratio + 0.001)
    assert "mould" not in codes(box_findings(below))
    assert "mould" in codes(box_findings(above))


def keeping(case, goods, difference):
    """`case` with goods in it and its cold surface so much colder than the air."""
    kept = with_build(case, ("[cabinet.contents]", f'[cabinet.contents]\nproduct = "{goods}"'))
    return altered(kept, cabinet={"air_C": 5.0, "cold_surface_C": 5.0 - difference})


@pytest.mark.parametrize(
    ("goods", "difference", "code"),
    # Table of still air: 90 to 95 % at 7 to 8 K, 75 to 80 % at 10 to 11 K (Dossat, from memory).
    [
        ("meat", 10.5, "dry_inside"),
        ("meat", 14.0, "dry_inside"),
        ("meat", 7.5, None),
        ("fish", 7.5, None),
        ("fish", 8.5, "dry_inside"),
        ("butter", 10.5, None),
        ("butter", 7.5, "damp_inside"),
        ("butter", 4.0, "damp_inside"),
        ("hard cheese", 9.5, None),
        ("hard cheese", 5.0, "damp_inside"),
        ("milk", 4.0, None),
        ("milk", 14.0, None),
    ],
)
def test_goods_dry_out_or_grow_damp_by_the_cold_surface(galley, goods, difference, code):
    found = codes(box_findings(keeping(galley, goods, difference)))
    assert {"dry_inside", "damp_inside"} & set(found) == ({code} if code else set())
    if code:
        assert goods in found[code].text
        assert "Dossat" in found[code].source
        assert "from memory" in found[code].source


@pytest.mark.parametrize(
    ("goods", "humidity", "code"),
    # Wanted humidities of products.toml: apples 90 to 95 %, carrots 98 to 100, potatoes 90 to 95.
    [("apples", 0.60, "dry_inside"), ("apples", 0.92, None), ("tomatoes", 0.99, "damp_inside")],
)
def test_what_transpires_is_judged_by_the_own_balance(galley, goods, humidity, code):
    kept = keeping(galley, goods, 10.5)
    found = codes(box_findings(altered(kept, cabinet={"relative_humidity": humidity})))
    assert {"dry_inside", "damp_inside"} & set(found) == ({code} if code else set())
    if code:
        assert f"comes to {100 * humidity:.0f} %" in found[code].text
        assert "the trade's table" in found[code].text
        assert found[code].source.startswith("this balance; ")


@pytest.mark.parametrize(("way", "code"), [("drain", "open_drain"), ("leakage", "leaky_seal")])
def test_what_runs_out_low_is_told(galley, way, code):
    ways = galley.cabinet("cycling").gain_by_way_W
    assert code not in codes(box_findings(galley))
    worse = altered(galley, cabinet={"gain_by_way_W": {**ways, way: 0.3 * sum(ways.values())}})
    assert code in codes(box_findings(worse))


def test_the_table_of_fresh_goods_is_not_held_against_frozen_ones(galley):
    fresh = keeping(galley, "meat", 14.0)
    assert "dry_inside" in codes(box_findings(fresh))
    frozen = with_build(
        galley,
        ("[cabinet.contents]", '[cabinet.contents]\nproduct = "meat"'),
        ('air_temperature = "5 °C"', 'air_temperature = "-18 °C"'),
    )
    frozen = altered(frozen, cabinet={"air_C": -18.0, "cold_surface_C": -32.0})
    assert "dry_inside" not in codes(box_findings(frozen))


def test_without_named_goods_nothing_is_said_of_humidity_inside(galley):
    for difference in (2.0, 20.0):
        case = altered(galley, cabinet={"air_C": 5.0, "cold_surface_C": 5.0 - difference})
        assert not {"dry_inside", "damp_inside"} & set(codes(box_findings(case)))


def test_a_control_whose_head_is_the_coldest(galley):
    """Told where a vapour fill would obey its head: at the cold side, or in a freezing room."""
    head = 'bulb = "air"\nhead = "cold side"'
    case = with_build(galley, ('bulb = "air"', head))
    assert "cold side" in codes(box_findings(case))["head_colder"].text
    liquid = with_build(galley, ('bulb = "air"', f'{head}\nfill = "liquid"'))
    assert "head_colder" not in codes(box_findings(liquid))
    shed = with_build(galley, ('room_temperature_low = "8 °C"', 'room_temperature_low = "2 °C"'))
    assert "(room)" in codes(box_findings(shed))["head_colder"].text
    assert "head_colder" not in codes(box_findings(galley))


def test_a_thermostat_set_elsewhere(galley):
    case = with_build(
        galley, ('cut_in = "6.5 °C"', 'cut_in = "9 °C"'), ('cut_out = "3.5 °C"', 'cut_out = "8 °C"')
    )
    assert "8.5 °C" in codes(box_findings(case))["thermostat_setting"].text
    assert "thermostat_setting" not in codes(box_findings(galley))


# --- ranges -------------------------------------------------------------------------------------


def test_a_flow_outside_the_fitted_range_is_told(galley):
    slow = altered(galley, {"cycling": {"mass_flow_kg_per_h": 0.2}})
    assert len(list(range_findings(slow))) == 2
    assert list(range_findings(altered(galley, {"cycling": {"mass_flow_kg_per_h": 2.5}}))) == []


def test_the_skin_beside_the_seal_sweats_before_the_door_does(galley):
    def told(humidity):
        room = replace(galley.translation.room, relative_humidity=np.asarray(humidity))
        damp = replace(galley, translation=replace(galley.translation, room=room))
        return set(codes(box_findings(damp))) & {"seal_sweats", "sweating"}

    found = [told(humidity) for humidity in np.arange(0.60, 1.0, 0.01)]
    assert found[0] == set()
    assert {"seal_sweats"} in found
    assert found[-1] == {"sweating"}
    assert found.index({"seal_sweats"}) < found.index({"sweating"})
