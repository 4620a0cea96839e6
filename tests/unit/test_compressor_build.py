"""The compressor's section of a build: plate, battery, speed, shell, lead; what is told of it."""

from dataclasses import replace

import numpy as np
import pytest

from coldwright.build import loads
from coldwright.build.translation.machine import machine_of
from coldwright.errors import InputError
from coldwright.parts.lead import wire_gauge_area
from coldwright.verdict.checks.electrics import electric_findings
from coldwright.verdict.checks.machine import machine_findings
from coldwright.verdict.electrics import electric_figures, machine_stated
from support.assessed import altered, assessed, changed
from support.builds import build_text

CHEESE = build_text("cheese")


def cheese(lines):
    """The cheese cupboard with another description of its compressor."""
    head, rest = CHEESE.split("[compressor]\n", 1)
    kept = [line for line in rest.splitlines() if not line.startswith("class =")]
    kept.remove(next(line for line in kept if line.startswith('size = "1/12 hp"')))
    return "\n".join([head, "[compressor]", lines, *kept])


def galley_with(lines):
    return loads(changed("galley", ("[compressor]\n", f"[compressor]\n{lines}\n")))


def codes(found):
    return {finding.notice.code: finding.notice for finding in found}


def test_a_plate_in_watts_gives_a_machine_of_that_power():
    build = loads(cheese('nameplate = { power = "85 W", charge = "30 g" }'))
    machine = machine_of(build)
    assert build.compressor.description == "nameplate"
    assert float(machine.rated.power[0]) == pytest.approx(85.0, rel=1e-6)
    flow, power = machine.fit.standard_uncertainty
    assert flow > 0.25
    assert power > 0.25
    # Twice the watts: more than twice the displacement, since larger motors waste less.
    double = machine_of(loads(cheese('nameplate = { power = "170 W" }')))
    swept = [float(m.fit.compressor.displacement) for m in (machine, double)]
    assert 2.0 < swept[1] / swept[0] < 2.0 * 0.50 / 0.38


def test_a_plate_in_amperes_takes_the_usual_power_factor():
    machine = machine_of(loads(cheese('nameplate = { current = "0.6 A" }\nvoltage = "230 V"')))
    assert float(machine.rated.power[0]) == pytest.approx(0.65 * 0.6 * 230.0, rel=1e-6)
    both = machine_of(loads(cheese('nameplate = { power = "85 W", current = "0.7 A" }')))
    idle = np.sqrt(0.7**2 - (85.0 / 230.0) ** 2)
    assert float(both.magnetising_current) == pytest.approx(idle)
    assert both.magnetising_from == "nameplate"


def test_currents_of_a_map_give_the_magnetising_current():
    """A map of constant power and current: I_m is the other side of their triangle."""
    rest = ", ".join(["0.0"] * 9)
    sheet = (
        f"map = {{ mass_flow = [1.5, {rest}], power = [92.0, {rest}], current = [0.7, {rest}], "
        'temperature_unit = "C", superheat = "11.1 K" }'
    )
    machine = machine_of(loads(cheese(sheet)))
    assert float(machine.magnetising_current) == pytest.approx(np.sqrt(0.7**2 - 0.4**2))
    assert machine.magnetising_from == "rated current"


def test_speed_of_a_battery_machine():
    words = 'supply = "dc"\nvoltage = "12 V"\nrated_speed = "3000 rpm"\nspeed = '
    slow, fast = (machine_of(galley_with(f'{words}"{turns} rpm"')) for turns in (2000, 3000))
    assert float(slow.compressor.speed) == pytest.approx(2000 / 60)
    assert float(slow.speed_ratio) == pytest.approx(2 / 3)
    assert float(fast.speed_ratio) == pytest.approx(1.0)
    assert float(slow.magnetising_current) == 0.0


def test_a_plate_of_60_hertz_on_a_socket_of_50():
    build = galley_with('frequency = "60 Hz"')
    machine = machine_of(build)
    assert float(machine.speed_ratio) == pytest.approx(50 / 60)
    same = machine_of(loads(build_text("galley")))
    ratio = float(machine.magnetising_current) / float(same.magnetising_current)
    # Same volts at less frequency: more flux, more magnetising current.
    assert ratio == pytest.approx(60 / 50)
    found = codes(electric_findings(replace(assessed("galley").case, build=build)))
    assert "more flux" in found["mains_frequency"].text


def test_a_shell_by_its_size():
    known = machine_of(galley_with('shell_diameter = "20 cm"\nshell_height = "20 cm"'))
    by_class = machine_of(loads(build_text("galley")))
    assert known.compressor.shell_conductance > 1.3 * by_class.compressor.shell_conductance


FAULTS = [
    ('supply = "dc"\nvoltage = "12 V"', "Running speed of a battery machine must be given"),
    ('supply = "dc"\nspeed = "2500 rpm"\nvoltage = "230 V"', "at most 60 V"),
    ('speed = "2500 rpm"', "must be left out where the supply is ac"),
    ('shell_diameter = "17 cm"', "shell_diameter and shell_height together"),
    ('lead = { length = "4 m" }', "by cross_section or by gauge, and only one"),
    ('lead = { length = "4 m", gauge = 14, cross_section = "2 mm2" }', "and only one"),
    ("lead = { gauge = 14 }", "Length of"),
    ('starting = "kick"', "Starting of compressor must be"),
    ('locked_rotor_current = "12 W"', "which is a power"),
]


@pytest.mark.parametrize(("lines", "message"), FAULTS, ids=[each[1][:30] for each in FAULTS])
def test_what_is_entered_wrongly(lines, message):
    with pytest.raises(InputError) as caught:
        galley_with(lines)
    assert any(message in fault.message for fault in caught.value.faults), str(caught.value)
    assert all(fault.line for fault in caught.value.faults)


# --- what is told -------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def galley():
    return assessed("galley").case


def test_lead_fuse_and_contact(galley):
    thin = galley_with('lead = { length = "100 m", gauge = 24, fuse = "0.5 A", contact = "0.4 A" }')
    found = codes(electric_findings(replace(galley, build=thin)))
    assert {"lead_drop", "lead_start_drop", "fuse_rating", "contact_rating"} <= set(found)
    assert all("electrical codes" in found[code].text for code in ("lead_drop", "fuse_rating"))
    wire = 'lead = { length = "4 m", cross_section = "1.5 mm2", fuse = "6 A", contact = "4 A" }'
    assert not codes(electric_findings(replace(galley, build=galley_with(wire))))


def test_the_lead_by_gauge_or_by_section(galley):
    by_gauge = galley_with('lead = { length = "10 m", gauge = 14 }')
    area = 1e6 * float(wire_gauge_area(14.0))
    by_section = galley_with(f'lead = {{ length = "10 m", cross_section = "{area:.6f} mm2" }}')
    first, second = (
        electric_figures(replace(galley, build=build)).lead_ohm for build in (by_gauge, by_section)
    )
    assert first == pytest.approx(second, rel=1e-5)


def test_a_short_rest_and_a_hot_winding(galley):
    short = loads(
        changed("galley", ("[thermostat]\n", '[thermostat]\nminimum_off_time = "2 min"\n'))
    )
    assert "short_rest" in codes(electric_findings(replace(galley, build=short)))
    hot = altered(galley, {galley.state: {"shell_C": 118.0}})
    assert codes(electric_findings(hot))["winding_hot"].severity == "warning"
    assert "winding_hot" not in codes(electric_findings(galley))


def test_mains_that_are_not_the_plates(galley):
    case = replace(galley, build=galley_with('voltage = "115 V"'))
    assert codes(electric_findings(case))["mains_voltage"].severity == "danger"
    assert "mains_voltage" not in codes(electric_findings(galley))


def test_overload_at_the_start_and_a_wide_ratio(galley):
    heavy = altered(galley, {"pull_down": {"power_W": 400.0}})
    assert "pull_down_overload" in codes(machine_findings(heavy))
    wide = altered(galley, {galley.state: {"discharge_Pa": 2e6, "suction_Pa": 8e4}})
    assert "pressure_ratio" in codes(machine_findings(wide))
    assert not {"pull_down_overload", "pressure_ratio"} & set(codes(machine_findings(galley)))


def test_far_from_the_rating_is_told_and_counted(galley):
    near = galley.compressor_uncertainty
    far = altered(galley, {galley.state: {"suction_Pa": 1.2e4}})
    assert far.compressor_uncertainty[0] > near[0] + 0.05
    assert far.uncertainties["compressor"] == far.compressor_uncertainty[0]
    assert "compressor_carried" in codes(machine_findings(far))
    assert "compressor_carried" not in codes(machine_findings(galley))


def test_another_gas_is_told_and_widens_the_interval():
    larder = assessed("larder").case
    found = codes(machine_findings(larder))
    assert {"gas_not_on_the_plate", "compressor_carried"} <= set(found)
    own = larder.translation.machine.fit.standard_uncertainty[0]
    assert larder.uncertainties["compressor"] > np.hypot(own, 0.049)


def test_a_plate_is_told_with_its_charge(galley):
    build = loads(cheese('nameplate = { power = "85 W", charge = "10 g" }'))
    found = codes(machine_findings(replace(galley, build=build)))
    assert {"known_by_plate", "charge_above_plate"} <= set(found)
    stated = machine_stated(replace(galley, build=build))
    assert stated.described_by == "nameplate"
    assert stated.misfit_percent is None
    assert machine_stated(galley).misfit_percent > 0.0


def test_a_battery_is_drained_by_machine_and_lead():
    case = assessed("battery").case
    figures = electric_figures(case)
    held = case.machine(case.state)
    hours = 24.0 * min(case.run_fraction, 1.0)
    wanted = hours * (held.power_W + figures.lead_loss_W) / 12.0
    assert figures.battery_Ah_per_day == pytest.approx(wanted)
    assert figures.locked_rotor_current_A is None


def test_the_locked_rotor_as_stated_or_guessed(galley):
    guessed = electric_figures(galley)
    assert "guessed" in guessed.locked_rotor_from
    assert guessed.locked_rotor_current_A > 4.0 * guessed.running_current_A
    build = galley_with('locked_rotor_current = "6 A"')
    stated = electric_figures(replace(galley, build=build))
    assert (stated.locked_rotor_current_A, stated.locked_rotor_from) == (6.0, "as stated")
