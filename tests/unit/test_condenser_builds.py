"""Condensers of all kinds out of a build file: keys, contradictions, parts, what is offered."""

from dataclasses import replace

import numpy as np
import pytest

from coldwright.build import loads
from coldwright.build.translation.plant import translate
from coldwright.errors import InputError
from coldwright.parts.suction_line import skin_temperature
from coldwright.plant.balance import BALANCED
from coldwright.plant.box import conditions
from coldwright.plant.fill import find_charge
from coldwright.sheet.rows.hot_side import hot_side_sections
from coldwright.sheet.writer import writer_of
from coldwright.verdict import report
from coldwright.verdict.checks.tubes import tube_findings
from coldwright.verdict.hot_side import alternatives_of, hot_side
from coldwright.verdict.lines import lines
from support.assessed import altered, assessed, changed
from support.builds import build_text
from support.condensers import condenser_of

SHEET_LINES = ('sheet_thickness = "0.8 mm"\n', 'bond = "soldered"\n', 'chimney_height = "1.1 m"\n')
WIRES = '\n[condenser.wires]\ndiameter = "1.5 mm"\npitch = "6 mm"\n'


def larder(kind, *, keep_sheet=False, tail=""):
    """The larder's text with another kind of condenser."""
    text = build_text("larder")
    if not keep_sheet:
        for line in SHEET_LINES:
            text = text.replace(line, "")
    text = text.replace("[condenser]\n", f'[condenser]\nkind = "{kind}"\n', 1)
    return text.replace("\n[capillary]\n", f"{tail}\n[capillary]\n", 1)


def faults_of(text):
    with pytest.raises(InputError) as raised:
        loads(text)
    return [fault.message for fault in raised.value.faults]


@pytest.mark.parametrize(("kind", "tail"), [("sheet", ""), ("wire", WIRES), ("bare", "")])
def test_every_kind_loads_and_its_machine_balances(kind, tail):
    found = translate(loads(larder(kind, tail=tail)))
    assert found.plant.system.condenser.kind == kind
    at = conditions(found.room, np.array([263.15]))
    balance = find_charge(found.plant.system, at, np.array([3.0]))
    assert balance.reason[0] == BALANCED
    assert balance.residual[0] < 1e-8


def test_a_file_without_the_new_keys_is_a_sheet_as_before():
    build = loads(build_text("larder"))
    shown = {entry.field: entry.text for entry in build.assumed}
    assert shown["condenser.kind"] == "sheet"
    assert shown["condenser.air_rise"] == "0 K ± 1 K"
    assert shown["condenser.dirt"] == "0 % ± 5 %"
    part = translate(build).plant.system.condenser
    assert part.wall_distance == 50.0
    assert part.kept == 1.0 - part.shaded_fraction
    assert part.area_factor == 1.0
    assert part.opening_loss == 1.5


def test_keys_of_a_sheet_reach_the_part():
    text = build_text("larder").replace(
        "[condenser]\n",
        '[condenser]\nopening = "50 %"\nwall_behind = "60 mm"\narea_factor = "1.3"\n'
        'dirt = "20 %"\nair_rise = "2 K"\n',
        1,
    )
    part = translate(loads(text)).plant.system.condenser
    assert part.opening_loss == pytest.approx(6.0)
    assert part.wall_distance == pytest.approx(0.06)
    assert part.area_factor == pytest.approx(1.3)
    assert part.dirt == pytest.approx(0.2)
    assert part.air_rise == pytest.approx(2.0)


def test_a_stated_pitch_covers_part_of_the_sheet():
    build = loads(build_text("larder"))
    free = translate(build).plant.system.condenser
    text = build_text("larder").replace("[condenser.tube]\n", '[condenser.tube]\npitch = "30 mm"\n')
    part = translate(loads(text)).plant.system.condenser
    assert part.run_pitch == pytest.approx(0.03)
    assert part.run_pitch < free.run_pitch


def test_contradictions_name_the_entry():
    assert faults_of(larder("wire")) == [
        "Section condenser.wires must be given for a condenser of kind 'wire'."
    ]
    told = faults_of(larder("bare", keep_sheet=True, tail=WIRES))
    assert "Section condenser.wires has no meaning for a bare tube." in told
    assert any("Sheet thickness" in message and "bare tube" in message for message in told)
    close = WIRES.replace("6 mm", "1 mm")
    assert faults_of(larder("wire", tail=close)) == [
        "Pitch of condenser wires must be greater than the wire's diameter 1.5 mm; received '1 mm'."
    ]
    wide = build_text("larder").replace("[condenser.tube]\n", '[condenser.tube]\npitch = "0.9 m"\n')
    assert any("shorter side of the sheet" in message for message in faults_of(wide))
    assert any("Kind of condenser" in message for message in faults_of(larder("fan")))
    assert any("sides" in m.lower() for m in faults_of(larder("wire", tail=f"{WIRES}sides = 3\n")))


def test_what_is_offered_is_what_is_left_to_gain():
    poor = condenser_of(
        "sheet",
        emissivity=0.25,
        bond_conductance=6.0,
        dirt=0.1,
        wall_distance=0.05,
        air_rise=2.0,
        opening_loss=6.0,
    )
    offered = alternatives_of(poor)
    assert set(offered) == {
        "larger", "longer_tube", "gap", "paint", "thicker_sheet", "bond", "clean", "wall", "air",
        "opening",
    }  # fmt: skip
    best = alternatives_of(condenser_of("sheet", bond_conductance=60.0, emissivity=0.95))
    assert set(best) == {"larger", "longer_tube", "gap", "thicker_sheet"}
    assert set(alternatives_of(condenser_of("bare", emissivity=0.95))) == {"larger", "gap"}


def test_the_hot_side_of_an_assessment():
    case = assessed("larder").case
    found = hot_side(case)
    figures = case.machine(case.state)
    assert found.heat_W == pytest.approx(figures.condenser_heat_W)
    assert found.convection_W + found.radiation_W == pytest.approx(found.heat_W)
    assert sum(found.resistance_share.values()) == pytest.approx(1.0)
    assert sum(found.zone_share.values()) == pytest.approx(1.0, abs=1e-6)
    room = float(case.translation.room.temperature) - 273.15
    assert found.condensing_above_room_K == pytest.approx(figures.condensing_C - room)
    # heat over conductance is the excess, were all of the tube condensing
    assert found.heat_W / found.conductance_W_per_K < 1.3 * found.condensing_above_room_K
    by_key = {change.key: change for change in found.changes}
    assert by_key["larger"].condensing_K < -1.0
    assert by_key["larger"].power_W < 0.0
    assert by_key["thicker_sheet"].condensing_K < 0.0
    assert found.changes[0].condensing_K == min(c.condensing_K for c in found.changes)


def test_without_a_balance_nothing_is_said():
    none = {"reason": "no"}
    case = altered(assessed("larder").case, {"cycling": none, "running": none})
    assert hot_side(case) is None
    assert lines(case) is None


def codes(case):
    return {finding.notice.code: finding.notice.text for finding in tube_findings(case)}


def test_notices_of_tubes_and_lines():
    case = assessed("larder").case
    assert "tight_bend_condenser" not in codes(case)
    low = lines(case)
    friction = "pressure_drop_evaporator" in codes(case)
    assert friction == (low.evaporator_pressure_drop_K > 0.5)
    assert ("suction_line_sweats" in codes(case)) == (low.line_skin_C < low.dew_point_C)


def test_tight_runs_and_a_slow_line_are_told():
    text = changed("larder", ("[condenser.tube]\n", '[condenser.tube]\npitch = "15 mm"\n'))
    case = assessed("larder").case
    tight = replace(case, build=loads(text))
    assert "bulbed returns" in codes(tight)["tight_bend_condenser"]
    system = case.translation.plant.system
    line = replace(system.suction_line, inside_diameter=np.asarray(0.016))
    plant = replace(case.translation.plant, system=replace(system, suction_line=line))
    slow = replace(case, translation=replace(case.translation, plant=plant))
    assert "riser" in codes(slow)["oil_return"]


def test_a_cold_line_in_damp_air_sweats():
    case = assessed("larder").case
    room = replace(case.translation.room, relative_humidity=np.asarray(0.97))
    damp = replace(case, translation=replace(case.translation, room=room))
    o = damp.operation
    # the line as it would be without an exchanger: the gas leaves as cold as the evaporator
    found = lines(damp)
    assert found.dew_point_C > lines(case).dew_point_C
    cold = {}
    for name in ("cycling", "running"):
        point = getattr(o, name)
        e = point.balance.evaluation
        unknowns = replace(e.unknowns, exchanged_heat=0.0 * e.unknowns.exchanged_heat)
        balance = replace(point.balance, evaluation=replace(e, unknowns=unknowns))
        cold[name] = replace(point, balance=balance)
    bare = replace(damp, operation=replace(o, **cold))
    wet = lines(bare)
    assert wet.line_skin_C < wet.dew_point_C
    assert 0.0 < wet.sweating_length_m <= wet.free_length_m
    assert wet.insulation_m > 0.0
    assert "it sweats over" in codes(bare)["suction_line_sweats"]


def test_insulation_round_the_line_keeps_the_gas_cold_and_the_skin_warm():
    text = changed("larder", ("[suction_line]\n", '[suction_line]\ninsulation = "13 mm"\n'))
    build = loads(text)
    bare, covered = (
        translate(each).plant.system.suction_line for each in (loads(build_text("larder")), build)
    )
    outside = build.suction_line.outside_diameter.value
    assert bare.room_conductance == pytest.approx(10.0 * np.pi * outside)
    layer = np.log(1.0 + 0.026 / outside) / (2.0 * np.pi * 0.038)
    film = 1.0 / (10.0 * np.pi * (outside + 0.026))
    assert covered.room_conductance == pytest.approx(1.0 / (layer + film))
    skins = [
        skin_temperature(263.15, 293.15, 2.0, line.room_conductance, 10.0 * np.pi * over)
        for line, over in ((bare, outside), (covered, outside + 0.026))
    ]
    assert skins[1] > skins[0] + 5.0
    around = 10.0 * np.pi * outside
    assert skins[0] == pytest.approx((2.0 * 263.15 + around * 293.15) / (2.0 + around))


def test_crowded_runs_stay_finite_and_are_offered_no_more_tube():
    crowded = condenser_of("wire", length=110.0)
    assert crowded.pitch < 1.06 * crowded.outside_diameter
    found = crowded.outside(313.15, 298.15, 101325.0)
    assert all(np.all(np.isfinite(value)) for value in vars(found).values())
    assert "longer_tube" not in alternatives_of(crowded)


def test_the_screen_tells_the_hot_side_in_the_reader_s_units():
    assessment = assessed("larder")
    data = report(assessment)
    sections = dict(hot_side_sections(writer_of(assessment, data)))
    assert next(iter(sections)) == "Hot side"
    rows = {label: (figure, remark) for label, figure, remark in sections["Hot side"]}
    excess = data["hot_side"]["condensing_above_room_K"]
    shown = rows["condensing above room"]
    assert shown[0] == f"{1.8 * excess:.1f} °F diff"
    assert "air " in shown[1]
    assert "worth" in rows["friction, evaporator"][1]
    changes = sections["What a change to the condenser would do, each alone"]
    assert len(changes) == len(data["hot_side"]["changes"])
    assert changes[0][1].startswith("-")
    line = sections["Suction line"][1][2]
    assert line.startswith("sweats over" if data["lines"]["sweating_length_m"] else "stays dry")
    assert hot_side_sections(writer_of(assessment, {**data, "hot_side": None})) == ()
