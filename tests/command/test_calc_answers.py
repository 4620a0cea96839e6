"""`coldwright calc`, typed as a mechanic types it."""

import json
import subprocess
import sys

import pytest
from typer.testing import CliRunner

from coldwright.cli.app import app


def run(*words):
    return CliRunner().invoke(app, ["calc", *words])


def data_of(*words):
    found = run(*words, "--json")
    assert found.exit_code == 0, found.output
    return json.loads(found.stdout)


def test_a_gauge_with_a_dial_for_another_gas():
    data = data_of("saturation", "R152a", "--pressure", "10psig", "--dial", "R12")
    assert list(data)[:4] == ["refrigerant", "saturation_C", "pressure_Pa", "pressure_psig"]
    assert data["pressure_psig"] == pytest.approx(10.0)
    assert data["saturation_C"] == pytest.approx(-11.6, abs=0.1)
    assert data["dial_refrigerant"] == "R12"
    assert data["dial_error_K"] == pytest.approx(data["dial_C"] - data["saturation_C"])
    assert data["dial_error_K"] < -4.0
    assert all("[" in citation for citation in data["sources"])


def test_pressure_and_temperature_are_one_another():
    data = data_of("saturation", "r-134a", "--temperature", "-5C")
    again = data_of("saturation", "R134a", "--pressure", f"{data['pressure_Pa']} Pa abs")
    assert again["saturation_C"] == pytest.approx(-5.0, abs=1e-6)
    assert data["dial_C"] is None


def test_altitude_moves_the_zero():
    low = data_of("saturation", "R152a", "--pressure", "10psig", "--dial", "R152a")
    high = data_of(
        "saturation", "R152a", "--pressure", "10psig", "--dial", "R152a", "--altitude", "1500m"
    )
    assert low["dial_error_K"] == pytest.approx(0.0, abs=1e-6)
    assert high["pressure_Pa"] == pytest.approx(low["pressure_Pa"] - 16769.0, abs=5.0)
    assert high["dial_C"] == pytest.approx(low["dial_C"], abs=1e-6)
    assert high["dial_error_K"] > 2.0


def test_a_dial_without_a_mark_there():
    data = data_of("saturation", "R22", "--temperature", "90 °C", "--dial", "R600a")
    assert data["dial_C"] is None
    assert "no mark" in data["notes"][0]


def test_doubt_of_a_reading_carries_over():
    found = run("saturation", "R152a", "--pressure", "10 psig ± 1 psig", "--units", "si")
    assert found.exit_code == 0
    assert "-11.6 ± 1.0 °C" in found.stdout


@pytest.mark.parametrize(
    "fraction", [("40 %", "--basis", "volume"), ("40%v",), ("40 % by volume",), ("40%vol",)]
)
def test_brine_whose_basis_is_stated(fraction):
    data = data_of("brine", "propylene-glycol", "--fraction", *fraction, "--at", "-12C")
    # Lange's Handbook table 5.13 (read) and ASHRAE Fundamentals 2013 (read)
    assert data["freezing_C"] == pytest.approx(-20.6, abs=1.0)
    assert data["viscosity_Pas"] == pytest.approx(27.17e-3, rel=0.12)
    assert data["half_widths"]["viscosity_Pas"] > 0.1 * data["viscosity_Pas"]
    assert 0.0 < data["expansion_to_25C_percent"] < data["headspace_percent"] < 6.0
    assert "slush" in data["burst"]
    assert data["slush"].startswith("liquid")


def test_mass_and_volume_differ():
    volume = data_of("brine", "ethylene glycol", "--fraction", "40%v")
    mass = data_of("brine", "ethylene glycol", "--fraction", "40%m")
    assert mass["freezing_C"] - volume["freezing_C"] > 2.0


def test_brine_below_its_freezing_point_has_no_liquid_figures():
    data = data_of("brine", "calcium chloride", "--fraction", "25%m", "--at", "-40F")
    assert data["slush"].startswith("slush or ice")
    assert data["density_kg_m3"] is None
    assert data["volume_percent"] is None
    assert "not known" in run("brine", "calcium chloride", "--fraction", "25%m", "--at=-40F").stdout


def test_doubt_of_a_fraction_at_the_end_of_its_range():
    data = data_of("brine", "sodium chloride", "--fraction", "23 % ± 2 %", "--basis", "mass")
    assert data["half_widths"]["freezing_C"] > 1.0


def test_water_needs_no_fraction():
    data = data_of("brine", "water")
    assert data["freezing_C"] == 0.0
    assert "9 %" in data["burst"]


def test_a_stopped_system_with_liquid_left():
    data = data_of(
        "standing", "R152a", "--charge", "45g", "--volume", "2.5L", "--temperature", "22C"
    )
    assert data["all_vapour"] is False
    assert data["pressure_Pa"] == pytest.approx(data["saturation_pressure_Pa"])
    assert data["vapour_g"] + data["liquid_g"] + data["dissolved_g"] == pytest.approx(45.0)
    assert data["greatest_all_vapour_charge_g"] < 45.0


def test_oil_takes_up_the_liquid():
    words = ("standing", "R152a", "--charge", "45 g", "--volume", "2.5 L", "--temperature", "22 °C")
    data = data_of(*words, "--oil", "ester", "--oil-amount", "180 mL")
    assert data["all_vapour"] is True
    assert data["dissolved_g"] > 5.0
    assert "no proof of a leak" in data["notes"][0]
    assert "proof of air" in data["notes"][1]
    # the oil's table has a spread, so has the pressure
    assert 0.0 < data["half_widths"]["pressure_Pa"] < 0.3 * data["pressure_Pa"]
    by_mass = data_of(*words, "--oil", "ester", "--oil-amount", "176 g")
    assert by_mass["pressure_Pa"] == pytest.approx(data["pressure_Pa"], rel=0.01)


def test_a_charge_against_its_limits():
    data = data_of(
        "charge-room", "R152a", "--charge", "50 g", "--room", "18 m3", "--cabinet", "120 L"
    )
    assert data["concentration_g_per_m3"] == pytest.approx(50.0 / 18.0)
    assert data["lower_limit_percent"] == pytest.approx(100.0 * 50.0 / 18.0 / 130.0)
    assert data["cabinet_lower_limit_percent"] > 300.0
    assert data["cabinet_lower_limit_reached_at_g"] == pytest.approx(15.6)
    assert data["least_room_quarter_of_lower_limit_m3"] == pytest.approx(0.05 / 0.0325)
    assert [rule["most_g"] for rule in data["rules"]] == pytest.approx([150.0, 1200.0, 520.0])
    assert any("explosive" in note for note in data["notes"])


@pytest.mark.parametrize("gas", ["R152a", "R134a", "R600a", "R290", "R1234yf", "R12"])
@pytest.mark.parametrize("units", ["shop", "si"])
def test_it_defers_to_the_authority_and_allows_nothing(gas, units):
    words = ("charge-room", gas, "--charge", "60g", "--room", "2m3", "--cabinet", "90L")
    for found in (run(*words, "--units", units), run(*words, "--json")):
        assert found.exit_code == 0
        assert "Ask your authority" in " ".join(found.stdout.split())
        assert "legal" not in found.stdout.lower()
    assert ("explosive" in found.stdout) == (gas not in ("R134a", "R12"))


def test_hydrocarbon_conversion_is_named():
    found = run("charge-room", "R600a", "--charge", "30g", "--room", "18m3")
    assert "never as a conversion" in " ".join(found.stdout.split())


def test_air_of_a_room():
    data = data_of("dewpoint", "--temperature", "25C", "--humidity", "50%")
    # ASHRAE chart no. 1 (from memory): 13.9 °C, 9.9 g/kg, 50.3 kJ/kg
    assert data["dew_point_C"] == pytest.approx(13.9, abs=0.1)
    assert data["humidity_ratio_g_per_kg"] == pytest.approx(9.9, rel=0.01)
    assert data["enthalpy_J_per_kg"] == pytest.approx(50300.0, rel=0.01)
    high = data_of("dewpoint", "--temperature", "25C", "--humidity", "50%", "--altitude", "1500m")
    assert high["humidity_ratio_g_per_kg"] > 1.15 * data["humidity_ratio_g_per_kg"]
    assert high["dew_point_C"] == data["dew_point_C"]
    assert "frost point" in run("dewpoint", "--temperature", "2C", "--humidity", "40%").stdout


def test_thin_air():
    data = data_of("altitude", "1500 m")
    assert data["atmospheric_pressure_Pa"] == pytest.approx(84556.0, rel=1e-4)
    assert data["gauge_zero_shift_psi"] == pytest.approx(-2.43, abs=0.01)
    # steam tables (from memory): 95.0 °C at 84.56 kPa
    assert data["water_boiling_C"] == pytest.approx(95.0, abs=0.1)
    assert len(data["thermostat_shift"]) == 9
    assert all(row["shift_K"] < 0.0 for row in data["thermostat_shift"])
    assert "take 2.43 psi from its reading" in " ".join(run("altitude", "1500m").stdout.split())


def test_below_the_sea():
    found = run("altitude", "-100 m")
    assert found.exit_code == 0
    assert "too warm" in found.stdout


@pytest.mark.parametrize("units", ["shop", "si"])
@pytest.mark.parametrize(
    "words",
    [
        ("saturation", "R290", "--pressure", "5inHg vac", "--dial", "R22"),
        ("brine", "ethanol", "--fraction", "30%v", "--at", "-10C"),
        ("standing", "R290", "--charge", "60g", "--volume", "3L", "--temperature", "20C"),
        ("charge-room", "R290", "--charge", "60g", "--room", "18m3"),
        ("dewpoint", "--temperature", "70F", "--humidity", "0.55"),
        ("altitude", "5280ft"),
    ],
)
def test_text_ends_with_its_sources_in_either_system(words, units):
    found = run(*words, "--units", units)
    assert found.exit_code == 0, found.output
    lines = found.stdout.rstrip().splitlines()
    first = next(i for i, line in enumerate(lines) if line.startswith("  Source: "))
    assert all(line.startswith("  ") for line in lines[first:])
    shop = [mark for mark in ("°F", "psi", " oz", "ft3") if mark in "".join(lines[:first])]
    if units == "shop":
        assert shop
    assert "Traceback" not in found.output


def test_help_does_not_wait_for_heavy_imports():
    code = (
        "import sys; from coldwright.cli.app import app; "
        "heavy = {'numpy', 'scipy', 'CoolProp', 'pint', 'pydantic'} & set(sys.modules); "
        "sys.exit(', '.join(sorted(heavy)) or 0)"
    )
    found = subprocess.run(
        [sys.executable, "-c", code], check=False, capture_output=True, text=True
    )
    assert found.returncode == 0, found.stderr
